"""Writes the reference values beside this file from published libraries.

    pip install numpy==2.4.6 scipy==1.17.1 shapely==2.2.0
    python generate.py

Each table begins with the versions that made it. Nothing here uses the project's own code.
"""

import math
import platform
from pathlib import Path

import numpy
import scipy
import shapely
from scipy import constants, interpolate
from shapely.geometry import Point, Polygon

HERE = Path(__file__).parent
MADE = (
    f"# made by generate.py: Python {platform.python_version()}, numpy {numpy.__version__}, "
    f"scipy {scipy.__version__}, shapely {shapely.__version__}\n"
)


def write(name, header, rows):
    lines = [",".join(str(cell) for cell in row) + "\n" for row in rows]
    (HERE / name).write_text(MADE + header + "\n" + "".join(lines), encoding="utf-8")


# Roofs and what is hard: flats, tops, turning ends, uneven steps, two places.
CURVES = {
    "crowned": ([0, 250, 500, 750, 1000, 1250, 1500], [0, 14, 24.5, 28, 25, 14.5, 0]),
    "flat-middle": ([0, 300, 600, 900, 1200], [0, 22, 30, 30, 8]),
    "uneven": ([0, 40, 310, 330, 900, 1640], [0, 9, 21, 21.5, 30, -4]),
    "turning-end": ([0, 100, 110, 400], [0, 1, 30, 31]),
    "steep-end": ([0, 10, 400, 410], [5, 5.2, 0, -9]),
    "zig-zag": ([-300, -100, 0, 150, 420], [3, -2, 6, 6, -7]),
    "three": ([0, 700, 1500], [0, 31, 2]),
    "two": ([0, 1500], [4, 19]),
}


def curves():
    """The library's Hermite cubic on the slopes of its own finite differences of second order, which
    are those of the parabola through a place and its neighbours, held as Fritsch and Carlson ask."""
    for name, (x, y) in CURVES.items():
        x, y = numpy.array(x, float), numpy.array(y, float)
        chord = numpy.diff(y) / numpy.diff(x)
        if len(x) == 2:
            slope = numpy.repeat(chord, 2)
        else:
            slope = numpy.gradient(y, x, edge_order=2)
            before, after = numpy.r_[chord[0], chord], numpy.r_[chord, chord[-1]]
            most = 3 * numpy.minimum(abs(before), abs(after))
            slope = numpy.sign(slope) * numpy.minimum(abs(slope), most)
            slope[(before * after <= 0) | (slope * before <= 0)] = 0
        cubic = interpolate.CubicHermiteSpline(x, y, slope)
        for at in sorted({*numpy.linspace(x[0], x[-1], 23), *x}):
            places = " ".join(f"{a:g}:{b:g}" for a, b in zip(x, y))
            yield name, places, repr(float(at)), repr(float(cubic(at)))


OUTLINES = {
    "triangle": [(0, 0), (60, 0), (20, 45)],
    "angle-section": [(0, 0), (40, 0), (40, 3), (3, 3), (3, 30), (0, 30)],
    "clockwise": [(10, 10), (10, 50), (70, 55), (80, 5)],
    "notched": [(0, 0), (120, 0), (120, 80), (75, 80), (60, 35), (45, 80), (0, 80)],
    "far-away": [(5000, -3000), (5100, -2990), (5090, -2900), (5020, -2880), (4990, -2950)],
}


def outlines():
    for name, corners in OUTLINES.items():
        shape = Polygon(corners)
        row = [shape.area, shape.length, shape.centroid.x, shape.centroid.y]
        yield name, " ".join(f"{x}:{y}" for x, y in corners), *map(repr, row)


def edge_distances():
    for name, corners in OUTLINES.items():
        shape = Polygon(corners)
        low_x, low_y, high_x, high_y = shape.bounds
        for i in range(-1, 9):
            for j in range(-1, 9):
                # Off the grid of the corners, so that no place lies on a side.
                x = low_x + (high_x - low_x) * (i + 0.37) / 8
                y = low_y + (high_y - low_y) * (j + 0.41) / 8
                place = Point(x, y)
                distance = shape.exterior.distance(place)
                yield name, repr(x), repr(y), repr(distance if shape.contains(place) else -distance)


# Symbol as in a build file, and the unit in SI units.
UNITS = {
    "in": constants.inch,
    "ft": constants.foot,
    "yd": constants.yard,
    "mi": constants.mile,
    "lb": constants.pound,
    "oz": constants.oz,
    "lbf": constants.lbf,
    "kgf": constants.kgf,
    "psi": constants.psi,
    "bar": constants.bar,
    "km/h": constants.kmh,
    "mph": constants.mph,
    "kn": constants.knot,
    "min": constants.minute,
    "h": constants.hour,
    "d": constants.day,
    "g": constants.g,
    "°": constants.degree,
    "l": constants.liter,
    "in²": constants.inch**2,
    "ft²": constants.foot**2,
}


def temperatures():
    for celsius in (-40.0, -17.5, 0.0, 16.0, 37.0, 100.0):
        kelvin, fahrenheit = (
            float(constants.convert_temperature(celsius, "Celsius", other))
            for other in ("Kelvin", "Fahrenheit")
        )
        yield celsius, repr(kelvin), repr(fahrenheit)


def circles():
    """Chord and rise against arc length, half angle and height by numbers alone.

    The arc is integrated from its height y(x) (scipy.integrate), not from an angle.
    """
    from scipy import integrate, optimize

    for chord, rise in ((1500, 30), (1640, 95), (400, 3), (8, 2), (900, 300)):
        half = chord / 2
        # The centre lies below the chord at the depth from which rim and top are equally far.
        depth = optimize.brentq(lambda d: math.hypot(half, d) - (d + rise), -half, 1e8, xtol=1e-13, rtol=1e-15)
        radius = depth + rise
        slope = lambda x: -x / math.sqrt(radius**2 - x**2)
        arc, _ = integrate.quad(lambda x: math.hypot(1, slope(x)), -half, half, epsabs=1e-12, epsrel=1e-13)
        at = 0.31 * chord
        yield chord, rise, repr(radius), repr(arc), repr(at), repr(math.sqrt(radius**2 - at**2) - depth)


if __name__ == "__main__":
    write("curves.csv", "curve,places,x,height", curves())
    write("outlines.csv", "outline,corners,area,perimeter,centroid x,centroid y", outlines())
    write("edge_distances.csv", "outline,x,y,inside by", edge_distances())
    write("units.csv", "unit,in SI", ((name, repr(float(value))) for name, value in UNITS.items()))
    write("temperatures.csv", "°C,K,°F", temperatures())
    write("circles.csv", "chord,rise,radius,arc,x,height", circles())
