"""Templates measured: bars and hole centres in the file's own numbers, and in pictures by two renderers.

In the file a bar may be out by 0.05 mm and a hole centre by 0.1 mm from its table. A picture of 600 dots
an inch is good to a dot, 0.042 mm, at each end of a bar.
"""

import argparse
import math
import os
import pathlib
import re
import subprocess
import sys
from concurrent.futures import ProcessPoolExecutor

sys.path.insert(0, str(pathlib.Path(__file__).parent))

import pypdfium2  # noqa: E402
from PIL import Image  # noqa: E402

from paper import long_lines, templates  # noqa: E402
from sheets import load, plain  # noqa: E402

DPI = 600
DOT = 25.4 / DPI
Image.MAX_IMAGE_PIXELS = None


def bars(page):
    """The two check bars: (nominal, start, end) in mm."""
    for nominal in (200, 150):
        best = min(long_lines(page), key=lambda line: abs(line[2] - nominal), default=None)
        if best and abs(best[2] - nominal) < 5:
            yield nominal, best[0], best[1]


def holes(view, page):
    """Holes by the table on the sheet: (id, X and Y of the table, centre drawn from the outline's corner, centre, radius)."""
    lines = page.lines([l for l in page.letters if l.mark and l.mark.node])
    outlines = [s.box for s in page.strokes if s.width and abs(s.width - 0.7) < 0.01 and s.fill is None and s.box[3] - s.box[1] > 20]
    rounds = [s for s in page.strokes if s.width and s.width >= 0.49 and len(s.parts[0]) > 16
              and abs((s.box[2] - s.box[0]) - (s.box[3] - s.box[1])) < 0.02 and any(inside(s.box, o) for o in outlines)]
    for line in lines:
        if not re.fullmatch(r"H\d+", plain(line.text)):
            continue
        row = sorted((l for l in lines if abs(l.y - line.y) < 0.1 and 0 < l.x - line.x < 60), key=lambda l: l.x)
        told = [plain(l.text).replace(" ", "") for l in row[:2]]
        if len(told) < 2 or not all(re.fullmatch(r"-?\d+(\.\d+)?", t.replace("−", "-")) for t in told):
            continue
        x, y = (float(t.replace("−", "-")) for t in told)
        # Feet of both sides may have holes of one name: its own outline begins where its table does, just over it.
        marks = [((round(abs(o[0] - line.box[0])), abs(line.box[1] - o[3])), l) for l in lines for o in outlines if plain(l.text) == plain(line.text) and inside(l.box, o)]
        mark = min(marks, key=lambda m: m[0], default=(0, None))[1]
        if not mark or not rounds:
            yield plain(line.text), (x, y), None, None, None
            continue
        middle = ((mark.box[0] + mark.box[2]) / 2, mark.box[3])
        ring = min(rounds, key=lambda s: math.dist(middle, ((s.box[0] + s.box[2]) / 2, s.box[1])))
        centre = ((ring.box[0] + ring.box[2]) / 2, (ring.box[1] + ring.box[3]) / 2)
        outline = next(o for o in outlines if inside(ring.box, o))
        yield plain(line.text), (x, y), (centre[1] - outline[1], centre[0] - outline[0]), centre, (ring.box[2] - ring.box[0]) / 2


def inside(box, outer):
    return box[0] >= outer[0] and box[1] >= outer[1] and box[2] <= outer[2] and box[3] <= outer[3]


def pictures(path, number, work):
    """The page in grey at 600 dots an inch: (renderer, picture)."""
    stem = work / f"{path.stem}-{number}"
    subprocess.run(["pdftoppm", "-gray", "-r", str(DPI), "-f", str(number), "-l", str(number), "-singlefile", path, stem], check=True)
    with Image.open(f"{stem}.pgm") as picture:
        yield "poppler", picture.convert("L")
    pathlib.Path(f"{stem}.pgm").unlink()
    page = pypdfium2.PdfDocument(path)[number - 1]
    yield "pdfium", page.render(scale=DPI / 72, grayscale=True).to_pil().convert("L")


def between_ends(picture, one, two):
    """Distance of the two end graduations of a bar, middle to middle, in mm; they alone reach 3.3 mm off it."""
    pixels, across = picture.load(), abs(one[1] - two[1]) < 0.01
    fixed = int((one[1] + 3.3 if across else one[0] - 3.3) / DOT)
    middles = []
    for end in sorted(p[0] if across else p[1] for p in (one, two)):
        places = range(int((end - 1) / DOT), int((end + 1) / DOT))
        dark = [i for i in places if pixels[(i, fixed) if across else (fixed, i)] < 128]
        if not dark:
            return None
        middles.append((min(dark) + max(dark) + 1) / 2 * DOT)
    return middles[1] - middles[0]


def ring_centre(picture, centre, radius):
    """Middle of the dark dots of a ring, in mm."""
    pixels = picture.load()
    reach = int((radius * 1.2) / DOT) + 2
    cx, cy = centre[0] / DOT, centre[1] / DOT
    found = [(i + 0.5, j + 0.5) for i in range(int(cx) - reach, int(cx) + reach) for j in range(int(cy) - reach, int(cy) + reach)
             if abs(math.dist((i + 0.5, j + 0.5), (cx, cy)) * DOT - radius) < 0.6 and pixels[i, j] < 128]
    if not found:
        return None
    xs, ys = [p[0] for p in found], [p[1] for p in found]
    return ((min(xs) + max(xs)) / 2 * DOT, (min(ys) + max(ys)) / 2 * DOT)


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("files", nargs="+", type=pathlib.Path)
    parser.add_argument("--work", type=pathlib.Path, required=True)
    parser.add_argument("--all", action="store_true", help="every template page; without it the first as a picture")
    options = parser.parse_args()
    with ProcessPoolExecutor(os.cpu_count()) as pool:
        found = list(pool.map(measured, [(file, options.work, options.all) for file in options.files]))
    out = 0
    for file, (lines, faults) in zip(options.files, found):
        print(f"full size: {file}", *lines, sep="\n")
        out += len(faults)
    print("full size: as it should be" if not out else f"full size: {out} out")
    return 1 if out else 0


def measured(asked):
    """What is told of a file, and what is out in it."""
    file, work, all_pages = asked
    view = load(file)
    lines, faults = [], []

    def tell(what, error, most):
        if error is None or error > most:
            faults.append(what)
        lines.append(f"  {what}: {'not found' if error is None else f'{error:.3f} mm out'}, {most} mm allowed")

    pages = templates(view)
    if not pages:
        lines.append("  no template page")
    for page in pages:
        found = list(bars(page))
        for nominal in {200, 150} - {b[0] for b in found}:
            tell(f"page {page.number}: bar of {nominal} mm in the file", None, 0.05)
        for nominal, one, two in found:
            tell(f"page {page.number}: bar of {nominal} mm in the file", abs(math.dist(one, two) - nominal), 0.05)
        listed = list(holes(view, page))
        for name, table, drawn, _, _ in listed:
            error = None if drawn is None else max(abs(a - b) for a, b in zip(table, drawn))
            tell(f"page {page.number}: {name} at {table} in the file", error, 0.1)
        if page is not pages[0] and not all_pages:
            continue
        for renderer, picture in pictures(file, page.number, work):
            for nominal, one, two in found:
                seen = between_ends(picture, one, two)
                tell(f"page {page.number}: bar of {nominal} mm by {renderer}", seen and abs(seen - nominal), round(DOT, 3))
            for name, _, drawn, centre, radius in listed:
                if drawn:
                    seen = ring_centre(picture, centre, radius)
                    tell(f"page {page.number}: {name} by {renderer}", seen and math.dist(seen, centre), 0.1)
    return lines, faults


if __name__ == "__main__":
    sys.exit(main())
