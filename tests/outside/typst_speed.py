#!/usr/bin/env python3
"""The demo packet against a document of the same size set by typst, like for like.

    python3 tests/outside/typst_speed.py target/release/rungsheet [examples/field-van.toml]

Prints medians of ten runs of each: time, peak memory, bytes, and our part of typst's. Exit code 1 if
any part is over a third. Run by hand, on a machine with nothing else to do: times of a busy machine
say little, which is why it is no part of the tests.

What is alike: the count of pages, the words of every page in their order, the count of table cells,
of strokes and fills and of the segments in them, page by page and taken from our own finished PDF by
readers that are not ours (pdftotext, pikepdf); the fonts; tags (PDF/UA-1) on both sides.
What is not: typst gets the drawing as plain paths at given places and does no work of ours before the
page (reading, working out, planning, labels that look for a place); ours is the whole command. For
typst the interpreter that loads it is left out of both time and memory.
"""

import collections
import os
import pathlib
import statistics
import subprocess
import sys
import tempfile
import time
import venv

ROOT = pathlib.Path(__file__).resolve().parents[2]
WORK = ROOT / "target" / "outside" / "typst"
PACKAGES = ["typst==0.15.2", "pikepdf==10.18.0"]
RUNS = 10
GOAL = 1 / 3
# A4 with our margins, mm.
PAGE = (210.0, 297.0)

COMPILE = """
import json, resource, sys, time
import typst
own = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
start = time.perf_counter()
typst.compile(sys.argv[1], output=sys.argv[2], format="pdf", pdf_standards=["ua-1"],
              font_paths=[sys.argv[3]], ignore_system_fonts=True)
took = time.perf_counter() - start
print(json.dumps([took, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - own]))
"""


def python() -> pathlib.Path:
    """An interpreter of its own with the pinned packages."""
    inside = WORK / "venv" / "bin" / "python"
    if not inside.exists():
        venv.create(WORK / "venv", with_pip=True)
        subprocess.run([inside, "-m", "pip", "install", "-q", *PACKAGES], check=True)
    return inside


def kids_of(node) -> list:
    """Elements right under a node of the tag tree."""
    import pikepdf

    kids = node.get("/K")
    kids = list(kids) if isinstance(kids, pikepdf.Array) else [kids]
    return [kid for kid in kids if isinstance(kid, pikepdf.Dictionary) and "/S" in kid]


def cells_of_pages(pdf) -> collections.Counter:
    """Count of table cells by page, from the tag tree."""
    number = {page.objgen: index for index, page in enumerate(pdf.pages)}
    cells = collections.Counter()
    # A cell without a page of its own (a blank to write in) counts on the page of the one before it.
    last = 0
    nodes = [pdf.Root.StructTreeRoot.K]
    while nodes:
        node = nodes.pop()
        if "/Pg" in node:
            last = number[node.Pg.objgen]
        if node.S in ("/TD", "/TH"):
            cells[last] += 1
        nodes.extend(reversed(kids_of(node)))
    return cells


def paths_of(page) -> list:
    """Painted paths of a page: (segments in points from the top left, stroked, filled, width)."""
    import pikepdf

    height = float(page.MediaBox[3])
    paths, here, width, closed = [], [], 1.0, False
    for operands, operator in pikepdf.parse_content_stream(page):
        name = str(operator)
        v = [float(o) for o in operands] if name in ("m", "l", "c", "re", "w") else []
        at = [(v[i], height - v[i + 1]) for i in range(0, len(v) - 1, 2)]
        if name in ("m", "l"):
            here.append((name, at))
        elif name == "c":
            here.append(("c", at))
        elif name == "h":
            here.append(("h", []))
        elif name == "re":
            (x, y), (w, h) = at[0], (v[2], v[3])
            here += [("m", [(x, y)]), ("l", [(x + w, y)]), ("l", [(x + w, y - h)]), ("l", [(x, y - h)]), ("h", [])]
        elif name == "w":
            width = v[0]
        elif name in ("S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "n"):
            if here and name != "n":
                paths.append((here, name[0] in "SsBb", name[0] in "fFBb", width))
            here = []
    return paths


def curve(path) -> str:
    segments, stroked, filled, width = path
    parts = []
    for name, at in segments:
        points = ", ".join(f"({x:.3f}pt, {y:.3f}pt)" for x, y in at)
        if name == "m":
            parts.append(f"curve.move({points})")
        elif name == "l":
            parts.append(f"curve.line({points})")
        elif name == "c":
            parts.append(f"curve.cubic({points})")
        else:
            parts.append("curve.close()")
    stroke = f"{width:.3f}pt" if stroked else "none"
    fill = "luma(90%)" if filled else "none"
    return f"place(top + left, curve(stroke: {stroke}, fill: {fill}, {', '.join(parts)}))"


def quoted(words) -> str:
    text = " ".join(words).replace("\\", "\\\\").replace('"', '\\"')
    return f'"{text}"'


def document(pdf_path: pathlib.Path) -> tuple:
    """A typst document with the same pages, words, cells and paths; and the count of pages."""
    import pikepdf

    out = [
        '#set document(title: "Packet")',
        '#set text(font: "Inter", size: 8pt, lang: "en")',
        f"#set page(width: {PAGE[0]}mm, height: {PAGE[1]}mm, margin: 15mm)",
        "#set table(stroke: (bottom: 0.5pt), inset: 2pt)",
        '#show heading: set text(size: 12pt)',
    ]
    with pikepdf.open(pdf_path) as pdf:
        cells = cells_of_pages(pdf)
        count = len(pdf.pages)
        for index, page in enumerate(pdf.pages):
            words = subprocess.run(
                ["pdftotext", "-f", str(index + 1), "-l", str(index + 1), str(pdf_path), "-"],
                check=True, capture_output=True, text=True,
            ).stdout.split()
            if index:
                out.append("#pagebreak()")
            title, rest = words[:5], words[5:]
            out.append(f"= #{quoted(title)}")
            drawing = "; ".join(curve(path) for path in paths_of(page))
            if drawing:
                # Placed over the page without room of its own, as one drawing with words in its place.
                out.append(
                    '#place(top + left, dx: -15mm, dy: -15mm, figure(alt: "drawing", '
                    f"block(width: {PAGE[0]}mm, height: {PAGE[1]}mm, {{ {drawing} }})))"
                )
            number = cells[index]
            if number:
                columns = 5
                share = max(1, min(3, len(rest) // number))
                texts = [rest[i * share:(i + 1) * share] for i in range(number)]
                rest = rest[number * share:]
                texts += [[]] * (-number % columns)
                heads = ", ".join(f"[#{quoted(t)}]" for t in texts[:columns])
                body = ", ".join(f"[#{quoted(t)}]" for t in texts[columns:])
                out.append(f"#table(columns: {columns}, table.header({heads}), {body})")
            for at in range(0, len(rest), 40):
                out.append(f"#par[#{quoted(rest[at:at + 40])}]")
    return "\n\n".join(out) + "\n", count


def measured(command) -> tuple:
    """Seconds and peak KiB of a command of its own."""
    # GNU time starts the command from a small process: the peak of a process forked from this one
    # would be at least its own.
    with tempfile.NamedTemporaryFile("r", suffix=".peak") as note:
        start = time.perf_counter()
        subprocess.run(["time", "-f", "%M", "-o", note.name, *command], check=True, capture_output=True)
        return time.perf_counter() - start, int(note.read().split()[-1])


def main() -> int:
    tool = pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else ROOT / "target/release/rungsheet").resolve()
    build = pathlib.Path(sys.argv[2] if len(sys.argv) > 2 else ROOT / "examples/field-van.toml").resolve()
    WORK.mkdir(parents=True, exist_ok=True)
    inside = python()
    if pathlib.Path(sys.executable) != inside:
        os.execv(inside, [str(inside), __file__, str(tool), str(build)])
    import json
    import pikepdf

    ours, theirs, source = WORK / "ours.pdf", WORK / "theirs.pdf", WORK / "like.typ"
    subprocess.run([tool, "print", build, "-o", ours], check=True, capture_output=True)
    text, count = document(ours)
    source.write_text(text)
    fonts = ROOT / "templates" / "fonts"
    rows = {"ours": [], "typst": []}
    for _ in range(RUNS):
        rows["ours"].append(measured([tool, "print", build, "-o", ours]))
        made = subprocess.run(
            [inside, "-c", COMPILE, source, theirs, fonts], check=True, capture_output=True, text=True
        )
        rows["typst"].append(tuple(json.loads(made.stdout)))
    with pikepdf.open(theirs) as pdf:
        pages, tagged = len(pdf.pages), "/StructTreeRoot" in pdf.Root
    print(f"pages: ours {count}, typst {pages}; tagged: {tagged}")
    results = {
        name: (statistics.median(r[0] for r in runs) * 1e3, statistics.median(r[1] for r in runs) / 1024)
        for name, runs in rows.items()
    }
    table = [
        ("time, ms", results["ours"][0], results["typst"][0]),
        ("memory, MiB", results["ours"][1], results["typst"][1]),
        ("bytes", ours.stat().st_size, theirs.stat().st_size),
    ]
    print(f"{'':>12} {'ours':>10} {'typst':>10} {'part':>6}")
    for name, a, b in table:
        print(f"{name:>12} {a:>10.1f} {b:>10.1f} {a / b:>6.2f}")
    if pages != count:
        print("the page counts differ: not like for like")
        return 1
    return 0 if all(a <= b * GOAL for _, a, b in table) else 1


if __name__ == "__main__":
    sys.exit(main())
