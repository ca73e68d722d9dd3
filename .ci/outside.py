"""Checks PDF files by programs that had no part in writing them; see outside.sh.

Every check says one line. The last line says whether all files passed; so does the exit status.
"""

import argparse
import json
import pathlib
import re
import shutil
import subprocess
import sys

import pikepdf

JARS = ["pdfbox2", "commons-logging", "fontbox2", "xmpbox2", "xmpbox", "preflight2", "preflight", "javax.activation", "jaxb-api"]
VALIDATOR = "org.apache.pdfbox.preflight.Validator_A1b"


def run(*command):
    """Runs a program; gives its exit status and all that it said."""
    done = subprocess.run([str(c) for c in command], capture_output=True, text=True, errors="replace")
    return done.returncode, done.stdout + done.stderr


def faults_qpdf(path, _work):
    status, said = run("qpdf", "--check", path)
    return [] if status == 0 else said.strip().splitlines()[-5:]


def faults_fonts(path, _work):
    """Each face embedded, a subset, with a text for each code."""
    status, said = run("pdffonts", path)
    rows = said.splitlines()[2:]
    bad = [row for row in rows if not re.search(r"\byes\s+yes\s+yes\s+\d+\s+\d+$", row)]
    return bad if rows and status == 0 else ["pdffonts: no faces"]


def faults_text(path, work):
    """The reading order is written out for eyes; there has to be one, from Document down."""
    status, said = run("pdfinfo", "-struct-text", path)
    (work / (path.stem + ".reading.txt")).write_text(said)
    if status != 0 or not said.startswith("Document"):
        return ["pdfinfo: no structure"]
    return ["pdfinfo: " + line for line in said.splitlines() if "Error" in line]


# Guesses of the reader-aloud checker about meaning, looked at by eyes on the examples: what it takes
# for a fault there is none. Anything else that it says fails the file.
REVIEWED = {
    "TBL-010": "a table of one row, whose first cell heads it, has as many heads as cells",
    "TAG-002": "the head of a table is repeated on the next page as an artifact, as the standard asks",
    "ORD-001": "a sentence with links is counted as out of order where it goes on behind a link; page rule 60 "
    "holds the order of drawing against the tree",
    "FIG-012": "alternative texts of drawings hold marks and sizes, which are what the drawing tells",
    "TBL-012": "cells to write in hold a figure, a blank with its text, and no words until somebody writes",
    "PAG-001": "lines alike on several sheets, such as the purpose of each template, are content of each",
}


def faults_outloud(path, work):
    report = work / (path.stem + ".outloud.json")
    status, said = run("outloud", "--json", report, "--fail-on", "warning", path)
    if status == 0:
        return []
    told = re.findall(r"^\s*(?:ERROR|WARNING)\s+([A-Z]+-\d+)", said, re.M)
    if told and all(code in REVIEWED for code in told):
        return []
    return said.strip().splitlines()[:20]


def faults_structure(path, _work):
    """PDF/A-3b and PDF/UA-1 rules that a few lines can hold a file against, by pikepdf."""
    faults = []
    raw = path.read_bytes()
    if not re.match(rb"%PDF-1\.[0-7]\r?\n%[\x80-\xff]{4}", raw):
        faults.append("header (ISO 19005-3, 6.1.2)")
    if not raw.rstrip(b"\r\n").endswith(b"%%EOF"):
        faults.append("something after the end (6.1.3)")
    with pikepdf.open(path) as pdf:
        root = pdf.Root
        if "/ID" not in pdf.trailer or pdf.is_encrypted:
            faults.append("trailer (6.1.3)")
        for forbidden in ("/AA", "/OpenAction", "/OCProperties", "/Requirements", "/AcroForm"):
            if forbidden in root:
                faults.append(f"catalog has {forbidden}")
        intents = root.get("/OutputIntents", [])
        if len(intents) != 1 or intents[0].S != "/GTS_PDFA1" or intents[0].DestOutputProfile.N != 3:
            faults.append("output intent (6.2.3)")
        xmp = root.Metadata.read_bytes()
        with pdf.open_metadata() as metadata:
            if metadata.pdfa_status != "3B":
                faults.append(f"claims PDF/A {metadata.pdfa_status or 'not at all'} (6.6.4)")
            if str(pdf.docinfo.Title) != metadata.get("dc:title"):
                faults.append("titles differ")
        if b"pdfuaid:part" not in xmp or b"<pdfaSchema:prefix>pdfuaid" not in xmp:
            faults.append("pdfuaid is not claimed or not described (6.6.2.3)")
        for number, page in enumerate(pdf.pages, 1):
            faults += [f"page {number}: {fault}" for fault in page_faults(page)]
        for thing in pdf.objects:
            if isinstance(thing, pikepdf.Stream) and any(k in thing for k in ("/F", "/FFilter", "/FDecodeParms")):
                faults.append("a stream in another file (6.1.7)")
            if isinstance(thing, pikepdf.Stream) and "/LZWDecode" in str(thing.get("/Filter", "")):
                faults.append("LZW (6.1.7)")
            if isinstance(thing, pikepdf.Dictionary) and thing.get("/Type") == "/Filespec":
                if not all(k in thing for k in ("/F", "/UF", "/AFRelationship")) or "/Subtype" not in thing.EF.F:
                    faults.append("an embedded file (6.8)")
        if pdf.attachments and "/AF" not in root:
            faults.append("an attachment that belongs to nothing (6.8)")
    return faults


PAINT = {"S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "Tj", "TJ", "'", '"', "Do", "sh", "EI"}


def page_faults(page):
    """Every mark in one sequence that is tagged or an artifact; links as both standards ask."""
    faults, open_marks, depth = [], [], 0
    for operands, operator in pikepdf.parse_content_stream(page):
        word = str(operator)
        if word in ("BDC", "BMC"):
            properties = operands[1] if len(operands) > 1 else {}
            marks = str(operands[0]) == "/Artifact" or "/MCID" in properties
            if marks and any(open_marks):
                faults.append("marked content inside another (ISO 14289-1, 7.1)")
            open_marks.append(marks)
        elif word == "EMC":
            open_marks.pop()
        elif word == "q":
            depth += 1
        elif word == "Q":
            depth -= 1
        elif word in PAINT and not any(open_marks):
            faults.append(f"{word} neither tagged nor an artifact (7.1)")
        if depth > 28 or depth < 0:
            faults.append("graphics states (ISO 19005-3, 6.1.13)")
    if open_marks or depth:
        faults.append("something left open")
    if page.get("/Tabs") != "/S":
        faults.append("Tabs (ISO 14289-1, 7.18.3)")
    for annotation in page.get("/Annots", []):
        if int(annotation.get("/F", 0)) & 0b100111 != 0b100:
            faults.append("annotation flags (ISO 19005-3, 6.3)")
        if not str(annotation.get("/Contents", "")) or "/StructParent" not in annotation:
            faults.append("a link without words or place in the tree (ISO 14289-1, 7.18)")
    return faults


def part_one(path, target):
    """The same file as PDF/A-1b would have it, as far as that goes: no attachment, classic tables, and
    the list of glyphs that only part 1 asks for."""
    with pikepdf.open(path) as pdf:
        root = pdf.Root
        for key in ("/AF",):
            if key in root:
                del root[key]
        if "/Names" in root and "/EmbeddedFiles" in root.Names:
            del root.Names["/EmbeddedFiles"]
        xmp = root.Metadata.read_bytes().replace(b"<pdfaid:part>3<", b"<pdfaid:part>1<")
        root.Metadata.write(xmp)
        for thing in pdf.objects:
            if not isinstance(thing, pikepdf.Dictionary) or thing.get("/Subtype") != "/CIDFontType2":
                continue
            codes = len(thing.W[1])
            bits = bytearray((codes + 8) // 8)
            for code in range(codes + 1):
                bits[code // 8] |= 0x80 >> (code % 8)
            thing.FontDescriptor.CIDSet = pdf.make_stream(bytes(bits))
        pdf.remove_unreferenced_resources()
        pdf.save(target, object_stream_mode=pikepdf.ObjectStreamMode.disable, force_version="1.4",
                 fix_metadata_version=False)


def faults_preflight(path, work):
    folder = pathlib.Path("/usr/share/java")
    jars = [folder / f"{jar}.jar" for jar in JARS if (folder / f"{jar}.jar").exists()]
    if not shutil.which("java") or not (folder / "pdfbox2.jar").exists():
        return ["PDFBox is not installed"]
    target = work / (path.stem + ".part1.pdf")
    part_one(path, target)
    status, said = run("java", "-cp", ":".join(map(str, jars)), VALIDATOR, target)
    lines = [line for line in said.splitlines() if line.strip() and "WARNING" not in line]
    if status == 0 and "is a valid PDF/A-1b file" in said:
        return []
    return lines[:20] or [f"exit status {status}"]


CHECKS = {
    "qpdf": faults_qpdf,
    "structure": faults_structure,
    "faces": faults_fonts,
    "reading order": faults_text,
    "outloud": faults_outloud,
    "preflight": faults_preflight,
}


def measure(path, bar, work):
    """Draws a page at 600 dpi and measures the dark run of a bar: PAGE:X:Y:LENGTH:across|down, mm from
    the upper left. Good to a pixel at each end, 0.085 mm together."""
    page, x, y, length, way = bar.split(":")
    x, y, length = float(x), float(y), float(length)
    stem = work / (path.stem + ".bar")
    status, said = run("pdftoppm", "-gray", "-r", 600, "-f", page, "-l", page, "-singlefile", path, stem)
    if status != 0:
        return [said.strip()]
    data = pathlib.Path(f"{stem}.pgm").read_bytes()
    head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", data)
    columns, rows = int(head[1]), int(head[2])
    pixels = memoryview(data)[head.end():]
    scale = 600 / 25.4
    across = way == "across"
    middle = int(((x if across else y) + length / 2) * scale)
    fixed = int((y if across else x) * scale)
    dark = (lambda i: pixels[fixed * columns + i] < 128) if across else (lambda i: pixels[i * columns + fixed] < 128)
    limit = columns if across else rows
    if not dark(middle):
        return [f"no bar at {x}, {y}"]
    low = high = middle
    while low > 0 and dark(low - 1):
        low -= 1
    while high < limit - 1 and dark(high + 1):
        high += 1
    measured = (high - low + 1) / scale
    print(f"  bar of {length} mm {way}: {measured:.3f} mm")
    return [] if abs(measured - length) <= 2 / scale else [f"bar of {length} mm measures {measured:.3f} mm"]


def broken(path, work):
    """Files broken on purpose, each with the check that has to see it."""

    def save(name, change):
        target = work / f"broken-{name}.pdf"
        with pikepdf.open(path) as pdf:
            change(pdf)
            pdf.save(target, fix_metadata_version=False)
        return target

    def first(pdf, kind):
        return next(o for o in pdf.objects if isinstance(o, pikepdf.Dictionary) and o.get("/S") == kind)

    def no_alt(pdf):
        del first(pdf, "/Figure")["/Alt"]

    def no_scope(pdf):
        del first(pdf, "/TH")["/A"]

    def stray_mark(pdf):
        pdf.pages[0].contents_add(pikepdf.Stream(pdf, b"\n0 0 9 9 re f\n"))

    def no_face(pdf):
        for thing in pdf.objects:
            if isinstance(thing, pikepdf.Dictionary) and "/FontFile2" in thing:
                del thing["/FontFile2"]

    def no_intent(pdf):
        del pdf.Root["/OutputIntents"]

    def no_title(pdf):
        pdf.Root.ViewerPreferences["/DisplayDocTitle"] = False

    yield "no text for a figure", save("alt", no_alt), ["outloud"]
    yield "no scope for a head cell", save("scope", no_scope), ["outloud"]
    yield "a mark outside", save("mark", stray_mark), ["structure", "outloud"]
    yield "no face embedded", save("face", no_face), ["faces", "preflight"]
    yield "no output intent", save("intent", no_intent), ["preflight"]
    yield "title not shown", save("title", no_title), ["outloud"]
    cut = work / "broken-cut.pdf"
    cut.write_bytes(path.read_bytes()[:-400])
    yield "the end cut off", cut, ["qpdf"]


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("files", nargs="+", type=pathlib.Path)
    parser.add_argument("--work", type=pathlib.Path, required=True, help="folder for reports")
    parser.add_argument("--bar", action="append", default=[], help="PAGE:X:Y:LENGTH:across|down, mm")
    parser.add_argument("--prove", action="store_true", help="break the file and see that it is noticed")
    options = parser.parse_args()
    failed = 0

    def tell(what, faults):
        nonlocal failed
        print(f"  {what}: {'passed' if not faults else 'FAILED'}", flush=True)
        for fault in faults:
            print(f"    {fault}")
        failed += bool(faults)

    for path in options.files:
        print(path)
        for name, check in CHECKS.items():
            tell(name, check(path, options.work))
        for bar in options.bar:
            tell("full size", measure(path, bar, options.work))
        if options.prove:
            for what, target, checks in broken(path, options.work):
                blind = [c for c in checks if not CHECKS[c](target, options.work)]
                tell(f"broken on purpose, {what}", [f"{c} did not see it" for c in blind])
    print("all passed" if not failed else f"{failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
