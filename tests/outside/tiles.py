"""Tiles of a large plate measured in poppler's pictures: every hole within 0.1 mm of the build file.

Python alone and pdftoppm; the program under test is given by its path.
"""

import argparse
import pathlib
import re
import subprocess
import sys
import tomllib

DPI = 600
DOT = 25.4 / DPI
# From the corner of the bars to a tile's upper left corner, as page design has it; overlap of tiles.
LEFT, TOP, OVERLAP = 8.0, 196.6, 10.0
ROWS, COLUMNS = 4, 3


def picture(pdf, number, work):
    # Checks that run at once measure different files.
    stem = work / f"{pathlib.Path(pdf).stem}-{number}"
    subprocess.run(["pdftoppm", "-gray", "-r", str(DPI), "-f", str(number), "-l", str(number), "-singlefile", pdf, stem], check=True)
    raw = stem.with_suffix(".pgm").read_bytes()
    stem.with_suffix(".pgm").unlink()
    head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", raw)
    return int(head[1]), int(head[2]), raw[head.end():]


def corner(width, height, dots):
    """Where the two bars meet, mm: the long column at the left and the long row at the foot."""
    def middle(dark):
        run = [i for i in dark if i - dark[0] < 12]
        return (run[0] + run[-1] + 1) / 2 * DOT

    columns = [x for x in range(int(18 / DOT), int(32 / DOT)) if sum(d < 128 for d in dots[x::width]) > 190 / DOT]
    rows = [y for y in range(int(150 / DOT), height) if sum(d < 128 for d in dots[y * width : y * width + int(185 / DOT)]) > 148 / DOT]
    return middle(columns), middle(rows)


def ring(width, height, dots, centre, radius):
    """Middle of the dark dots near a circle, mm."""
    cx, cy = centre[0] / DOT, centre[1] / DOT
    reach = int((radius + 0.5) / DOT) + 1
    found = []
    for y in range(max(0, int(cy) - reach), min(height, int(cy) + reach)):
        for x in range(max(0, int(cx) - reach), min(width, int(cx) + reach)):
            off = ((x + 0.5 - cx) ** 2 + (y + 0.5 - cy) ** 2) ** 0.5 * DOT
            across, down = abs(x + 0.5 - cx) * DOT, abs(y + 0.5 - cy) * DOT
            # Off the arms of the cross and the seams, which lie level and upright.
            if abs(off - radius) < 0.45 and across > 0.6 and down > 0.6 and dots[y * width + x] < 128:
                found.append((x + 0.5, y + 0.5))
    if not found:
        return None
    xs, ys = [p[0] for p in found], [p[1] for p in found]
    return (min(xs) + max(xs)) / 2 * DOT, (min(ys) + max(ys)) / 2 * DOT


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("program", type=pathlib.Path)
    parser.add_argument("--work", type=pathlib.Path, required=True)
    options = parser.parse_args()
    build = pathlib.Path(__file__).parent.parent / "sheets" / "large-plate.toml"
    stated = tomllib.loads(build.read_text())
    plate = next(p for p in stated["part"] if p["mark"] == "B")
    holes = [(h["x"], h["y"], h["diameter"] / 2) for h in stated["hole"] if h["part"] == "B"]
    steps = [(plate[side] - OVERLAP) / n for side, n in (("length", ROWS), ("width", COLUMNS))]
    worst, seen, faults = 0.0, set(), 0
    for across, down in ((200.0, 200.0), (198.6, 199.2)):
        pdf = options.work / "tiles.pdf"
        command = [options.program, "print", build, "--only", "template", "--printed", f"{across}x{down}", "-o", pdf]
        subprocess.run(command, check=True, capture_output=True)
        fx, fy = 200 / across, 200 / down
        for tile in range(ROWS * COLUMNS):
            row, column = divmod(tile, COLUMNS)
            from_x, from_y = row * steps[0], column * steps[1]
            here = [(n, h) for n, h in enumerate(holes) if h[2] <= h[0] - from_x <= steps[0] + OVERLAP - h[2]
                    and h[2] <= h[1] - from_y <= steps[1] + OVERLAP - h[2]]
            if not here:
                continue
            width, height, dots = picture(pdf, tile + 1, options.work)
            zero = corner(width, height, dots)
            for number, (x, y, radius) in here:
                want = (zero[0] + (LEFT + y - from_y) * fx, zero[1] - (TOP - x + from_x) * fy)
                got = ring(width, height, dots, want, radius * (fx + fy) / 2)
                error = 9.0 if got is None else max(abs(a - b) for a, b in zip(want, got))
                worst = max(worst, error)
                seen.add((number, across))
                if error > 0.1:
                    faults += 1
                    print(f"  printed {across}x{down}, tile {tile + 1}, hole {number + 1} at {x}, {y}: {error:.3f} mm out")
    missing = 2 * len(holes) - len(seen)
    print(f"tiles: {len(seen)} holes, worst {worst:.3f} mm of 0.1 mm, {faults} out, {missing} not on any tile")
    return 1 if faults or missing else 0


if __name__ == "__main__":
    sys.exit(main())
