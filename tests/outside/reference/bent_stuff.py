"""Writes bends.csv, bars.csv and sweeps.csv beside this file from published libraries.

    pip install numpy==2.4.6 scipy==1.17.1 shapely==2.2.0 sectionproperties==3.10.2
    python bent_stuff.py

Each table begins with the versions that made it. Nothing here uses the project's own code.
"""

import math
import platform
from importlib.metadata import version
from pathlib import Path

import numpy
from scipy import integrate, optimize
from shapely.affinity import rotate
from shapely.geometry import box

HERE = Path(__file__).parent
LIBRARIES = ("numpy", "scipy", "shapely", "sectionproperties")
MADE = "# made by bent_stuff.py: " + ", ".join(
    [f"Python {platform.python_version()}"]
    + [f"{name} {version(name)}" for name in LIBRARIES]
)


def write(name, header, rows):
    lines = [",".join(str(cell) for cell in row) + "\n" for row in rows]
    (HERE / name).write_text(MADE + "\n" + header + "\n" + "".join(lines), encoding="utf-8")


def bends():
    """Flat lengths without a formula for arc or setback: the neutral line as a curve.

    The outer faces meet at the origin. The tangent point of the inner circle is found by a root
    finder, the bend's length by integrating the curve's speed.
    """
    for s in (1.5, 3.0, 5.0):
        for r in (1.0, 3.0, 8.0, 20.0):
            for between in (75.0, 90.0, 97.5, 120.0):
                half = math.radians(between) / 2
                # Middle of the bend on the bisector: as far from a leg's outer face as r + s.
                far = optimize.brentq(lambda d: d * math.sin(half) - (r + s), 1e-9, 1e4, xtol=1e-13)
                setback = far * math.cos(half)
                share = min(1.0, max(0.0, 0.65 + 0.5 * math.log10(r / s))) / 2
                rho = r + share * s
                turn = math.pi - 2 * half
                speed = lambda t: math.hypot(-rho * math.sin(t), rho * math.cos(t))
                arc, _ = integrate.quad(speed, 0.0, turn, epsabs=1e-12)
                a, b = 80.0, 55.0
                flat = (a - setback) + (b - setback) + arc
                yield s, r, between, repr(share), repr(setback), repr(arc), repr(flat)


def bars():
    """Sections by finite elements on their outlines."""
    from sectionproperties.analysis import Section
    from sectionproperties.pre.library import (
        angle_section,
        circular_hollow_section,
        rectangular_hollow_section,
        rectangular_section,
    )

    shapes = {
        "aluminium-tube-25x25x2": rectangular_hollow_section(25, 25, 2, 0, 1),
        "aluminium-tube-40x20x2": rectangular_hollow_section(40, 20, 2, 0, 1),
        "aluminium-tube-60x40x3": rectangular_hollow_section(60, 40, 3, 0, 1),
        "aluminium-angle-30x30x3": angle_section(30, 30, 3, 0, 0, 1),
        "aluminium-angle-80x40x4": angle_section(80, 40, 4, 0, 0, 1),
        "aluminium-angle-100x50x5": angle_section(100, 50, 5, 0, 0, 1),
        "aluminium-flat-60x5": rectangular_section(60, 5),
        "aluminium-round-tube-20x2": circular_hollow_section(20, 2, 512),
        "aluminium-round-tube-40x2": circular_hollow_section(40, 2, 512),
        "steel-tube-25x25x2": rectangular_hollow_section(25, 25, 2, 4, 64),
        "steel-tube-40x20x2": rectangular_hollow_section(40, 20, 2, 4, 64),
        "steel-tube-60x40x3": rectangular_hollow_section(60, 40, 3, 6, 64),
    }
    for name, shape in shapes.items():
        section = Section(shape.create_mesh(mesh_sizes=[2.0]))
        section.calculate_geometric_properties()
        ixx, iyy, _ = section.get_ic()
        cx, cy = section.get_c()
        i1, i2 = section.get_ip()[:2]
        row = [section.get_area(), ixx, iyy, cx, cy, min(i1, i2)]
        yield name, *(repr(float(value)) for value in row)


def sweeps():
    """A rectangle turned about the origin against a box: shapely's distance."""
    rng = numpy.random.default_rng(7)
    for _ in range(30):
        deep, low, tall = rng.uniform(400, 1200), rng.uniform(-5, 30), rng.uniform(50, 80)
        near = rng.uniform(-3, 3)
        left, wide = rng.uniform(-320, -30), rng.uniform(20, 150)
        high, angle = rng.uniform(-60, 300), rng.uniform(0, 88)
        frame = rotate(box(near, low, near + deep, low + tall), angle, origin=(0, 0))
        keep = box(left - wide, -2000, left, high)
        numbers = (near, near + deep, low, low + tall, left - wide, left, high, angle)
        yield *(repr(float(n)) for n in numbers), repr(float(frame.distance(keep)))


if __name__ == "__main__":
    write("bends.csv", "s,r,between,share,setback,allowance,flat of 80 and 55", bends())
    write("bars.csv", "section,area,Ix,Iy,x,y,least I", bars())
    write("sweeps.csv", "near,far,low,high,from,to,top,angle,distance", sweeps())
