"""Papers that carry a mitre round a tube or flat bar, measured in poppler's pictures: once round the tube and the saw line.

What they should be is worked out here from the build file alone, by walking round the tube's outside.
Python alone and pdftoppm; the program under test is given by its path.
"""

import argparse
import math
import pathlib
import subprocess
import sys

from tiles import DOT, corner, picture

# From the corner of the bars to the left edge of a strip and to the highest strip's upper end, as page design has it.
LEFT, TOP, GAP = 14.0, 196.6, 3.0
# Page, then strips from the top: outside as a ring of (y, z), degrees off square; y is the side that the mitre runs across.
ROUND_20 = [(10 - 10 * math.cos(a / 500 * 2 * math.pi), 10 + 10 * math.sin(a / 500 * 2 * math.pi)) for a in range(501)]
ROUND_40 = [(2 * y, 2 * z) for y, z in ROUND_20]
RECT = [(0, 20), (40, 20), (40, 0), (0, 0), (0, 20)]
FLAT = [(0, 4), (30, 4), (30, 0), (0, 0), (0, 4)]
PAGES = [[(ROUND_20, 45), (RECT, 45)], [(ROUND_20, 30)], [(ROUND_40, 45), (FLAT, 30)]]


def unrolled(ring, degrees):
    """The saw line: (from the left, behind the long point), by chords of the ring."""
    across = max(y for y, _ in ring)
    s, line = 0.0, []
    for number, (y, z) in enumerate(ring):
        if number:
            s += math.dist(ring[number - 1], (y, z))
        line.append((s, (across - y) * math.tan(math.radians(degrees))))
    return line


def at(line, s):
    for (a, b), (c, d) in zip(line, line[1:]):
        if a <= s <= c:
            return b + (d - b) * (s - a) / (c - a) if c > a else b
    raise ValueError(s)


def dark_run(get, places):
    """Middle of the first run of dark dots, mm."""
    run = []
    for i in places:
        if get(i):
            run.append(i)
        elif run:
            break
    return (run[0] + run[-1] + 1) / 2 * DOT if run else None


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("program", type=pathlib.Path)
    parser.add_argument("--work", type=pathlib.Path, required=True)
    options = parser.parse_args()
    build = pathlib.Path(__file__).parent.parent / "sheets" / "mitred-tubes.toml"
    worst, count, faults = 0.0, 0, 0
    for across, down in ((200.0, 200.0), (198.6, 199.2)):
        pdf = options.work / "wraps.pdf"
        command = [options.program, "print", build, "--only", "template", "--printed", f"{across}x{down}", "-o", pdf]
        subprocess.run(command, check=True, capture_output=True)
        fx, fy = 200 / across, 200 / down
        for number, strips in enumerate(PAGES):
            width, height, dots = picture(pdf, number + 1, options.work)
            zero = corner(width, height, dots)

            def dark(x, y):
                return dots[y * width + x] < 128

            top = TOP
            for ring, degrees in strips:
                line = unrolled(ring, degrees)
                around = line[-1][0]
                found = []
                for k in range(1, 40):
                    s = around * k / 40
                    # Folds and the long point's line hide it.
                    if min(abs(s - c[0]) for c in (line if len(line) < 10 else [line[len(line) // 2]])) < 1.0:
                        continue
                    want = zero[1] - (top - at(line, s)) * fy
                    x = int((zero[0] + (LEFT + s) * fx) / DOT)
                    start = int((want - 1.2) / DOT)
                    got = dark_run(lambda y: dark(x, y), range(start, start + int(2.4 / DOT)))
                    found.append((f"{s:.1f} mm round", None if got is None else abs(got - want)))
                # Once round: from the left edge to the fold of the flap, which goes on below the saw line.
                deep = max(b for _, b in line)
                y = int((zero[1] - (top - deep - 5.0 - 1.0) * fy) / DOT)
                x = zero[0] + LEFT * fx
                left = dark_run(lambda x: dark(x, y), range(int((x - 2) / DOT), int((x + 2) / DOT)))
                found.append(("left edge", None if left is None else abs(left - x)))
                for what, error in found:
                    # A steep line is met aslant: half a dot more.
                    count += 1
                    worst = max(worst, 9.0 if error is None else error)
                    if error is None or error > 0.1:
                        faults += 1
                        print(f"  printed {across}x{down}, page {number + 1}, {degrees} degrees, {what}: {error}")
                # The next strip begins below this one's lower edge.
                x = int((zero[0] + (LEFT + around / 2) * fx) / DOT)
                edge = lower_edge(dark, x, int((zero[1] - (top - deep - 20) * fy) / DOT), int(zero[1] / DOT) - 20)
                top = (zero[1] - edge) / fy - GAP if edge else top
    print(f"wraps: {count} places, worst {worst:.3f} mm of 0.1 mm, {faults} out")
    return 1 if faults else 0


def lower_edge(dark, x, start, end):
    """Middle of the heavy level line at the foot of a strip, mm: dark from side to side."""
    rows = [y for y in range(start, end) if all(dark(x + i, y) for i in range(-300, 300, 10))]
    run = [y for y in rows if y - rows[0] < 24]
    return (run[0] + run[-1] + 1) / 2 * DOT if run else None


if __name__ == "__main__":
    sys.exit(main())
