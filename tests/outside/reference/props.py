"""Writes struts.csv and props.csv beside this file from published libraries.

    pip install numpy==2.4.6 scipy==1.17.1 shapely==2.2.0
    python props.py

Each table begins with the versions that made it. Nothing here uses the project's own code.
"""

import platform
from importlib.metadata import version
from pathlib import Path

import numpy
from scipy import integrate, optimize, sparse
from scipy.sparse import linalg
from shapely.affinity import rotate
from shapely.geometry import LineString, Point

HERE = Path(__file__).parent
LIBRARIES = ("numpy", "scipy", "shapely")
MADE = "# made by props.py: " + ", ".join(
    [f"Python {platform.python_version()}"]
    + [f"{name} {version(name)}" for name in LIBRARIES]
)


def write(name, header, rows):
    lines = [",".join(str(cell) for cell in row) + "\n" for row in rows]
    (HERE / name).write_text(MADE + "\n" + header + "\n" + "".join(lines), encoding="utf-8")


def struts():
    """Critical load and greatest moment of bars that are pushed off their middle.

    The critical load is the least eigenvalue of the pinned bar in finite differences, taken to no
    step by Richardson's rule. The moment is that of the bent bar, solved as a boundary value problem.
    """

    def critical(stiff, length, parts):
        h = length / parts
        bent = sparse.diags([-1.0, 2.0, -1.0], [-1, 0, 1], shape=(parts - 1, parts - 1)) * (stiff / h**2)
        return float(linalg.eigsh(bent.tocsc(), k=1, sigma=0.0, return_eigenvectors=False)[0])

    for e, i in ((70000.0, 160.0), (70000.0, 7000.0), (210000.0, 2500.0)):
        for length in (140.0, 385.0, 567.0, 900.0):
            coarse, fine = (critical(e * i, length, parts) for parts in (400, 800))
            limit = fine + (fine - coarse) / 3.0
            for share in (0.1, 0.5, 0.8):
                push, off = share * limit, 2.0
                # y'' = -(N / E I) (y + off), y zero at both ends.
                bend = lambda x, y: numpy.vstack((y[1], -(push / (e * i)) * (y[0] + off)))
                ends = lambda a, b: numpy.array((a[0], b[0]))
                x = numpy.linspace(0.0, length, 41)
                guess = numpy.zeros((2, x.size))
                found = integrate.solve_bvp(bend, ends, x, guess, tol=1e-10, max_nodes=100_000)
                assert found.success
                middle = float(found.sol(length / 2.0)[0])
                yield e, i, length, repr(limit), repr(push), repr(push * (middle + off))


def props():
    """A frame's pin turned about its hinges and the line down to its foot, as shapes."""
    shaken = numpy.random.default_rng(20260814)
    for _ in range(12):
        upper = (shaken.uniform(300.0, 900.0), shaken.uniform(5.0, 40.0))
        lower = (upper[0] + shaken.uniform(30.0, 120.0), shaken.uniform(5.0, 40.0))
        angle = shaken.uniform(5.0, 60.0)
        lifted = rotate(Point(upper), angle, origin=(0.0, 0.0))
        foot = Point(lower)
        length = lifted.distance(foot)
        # The arm is the way from the hinges to the whole line of the prop.
        far = 1e4
        way = ((lifted.x - foot.x) / length, (lifted.y - foot.y) / length)
        line = LineString(
            [(foot.x - way[0] * far, foot.y - way[1] * far), (foot.x + way[0] * far, foot.y + way[1] * far)]
        )
        arm = line.distance(Point(0.0, 0.0))
        # And back: the angle at which a prop of this length stands.
        stands = lambda a: rotate(Point(upper), a, origin=(0.0, 0.0)).distance(foot) - length
        back = optimize.brentq(stands, 1.0, 89.0, xtol=1e-12)
        yield *map(repr, (*upper, *lower, angle, length, arm, back)),


write("struts.csv", "E,I,length,critical,push,moment at 2 off", struts())
write("props.csv", "upper x,upper z,lower x,lower z,angle,length,arm,angle by length", props())
