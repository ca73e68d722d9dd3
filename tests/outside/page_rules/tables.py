"""Rules 57 to 60: tables, numbers, the file."""

import re

from reader import Node, joined
from rules import Fault, rule
from sheets import NBSP, plain

NUMBER = re.compile(r"[−-]?\d[\d\u2009\u202f\u00a0 ]*(?:\.(\d+))?$")
UNITS = r"(?:mm²|mm|cm|m|kg|g|N·m|kN|N|V|A|Ah|Wh|W|kA|Ω|MPa|kPa|h|min|s|°C|K|%|ml|l|km/h|m/s|in)"


# Columns whose numbers are names: nobody adds or compares them.
NAMES = {"no.", "id", "mark", "bar", "step", "sheet", "action", "cut"}


def columns(view, table):
    """Columns of plain number cells: (head, cells) where every row has as many cells as the head."""
    rows = view.rows(table)
    if len(rows) < 2:
        return
    width = len(rows[-1])
    head = next((r for r in rows if len(r) == width and r[0].role == "TH" and all(c.role == "TH" for c in r)), None)
    body = [r for r in rows if len(r) == width and r is not head]
    for place in range(width):
        yield (view.text(head[place]) if head else ""), [r[place] for r in body]


def has_unit(text):
    return re.match(rf"{UNITS}$", text) is not None


def unit_of_row(view, cell):
    """The unit behind the blank of a cell's row; none where the head has it."""
    for other in cell.parent.kids:
        if isinstance(other, Node) and any((n.alt or "").startswith("blank to fill in") for n in other.walk()):
            return view.text(other)
    return ""


@rule(57, "numbers right or decimal aligned, equal decimals, tabular figures; unit in the head; no empty cell")
def numbers(view):
    for table in view.tables:
        page = view.page_of(table)
        for head, cells in columns(view, table):
            said = [(cell, [l for l in view.lines(cell)]) for cell in cells]
            plain_numbers = [(c, l[0]) for c, l in said if len(l) == 1 and NUMBER.match(l[0].text.strip())]
            if len(plain_numbers) < max(2, 0.7 * len(cells)):
                units = [re.fullmatch(rf"[−-]?\d[\d\s]*(?:\.\d+)?\s({UNITS})", view.text(c)) for c, _ in said]
                if len(units) > 2 and all(units) and len({u[1] for u in units}) == 1:
                    yield Fault(page, f"unit in each cell of {head!r}: {view.text(cells[0])}")
                continue
            if head in NAMES:
                continue
            yield None
            # Limits of unlike quantities, each row with its own unit behind its blank: rows of one unit are compared.
            kinds = {}
            for cell, line in plain_numbers:
                kinds.setdefault(unit_of_row(view, cell), []).append((cell, len(NUMBER.match(line.text.strip())[1] or "")))
            for unit, alike in kinds.items():
                if len(decimals := {places for _, places in alike}) > 1:
                    yield Fault(page, f"{sorted(decimals)} decimals in {head!r}{unit and f', {unit}'}: "
                                      f"{', '.join(view.text(c) for c, _ in alike[:8])}")
            by_page = {}
            for _, line in plain_numbers:
                last = [l for l in line.letters if l.text.strip()]
                point = next((l.x for l in last if l.text == "."), None)
                end = max(l.x + l.advance for l in last)
                by_page.setdefault(line.mark.page, []).append((end, point))
            for number, ends in by_page.items():
                right = max(e for e, _ in ends) - min(e for e, _ in ends)
                # Without a point the end of the number stands where the point would.
                points = [p if p is not None else e for e, p in ends]
                if right > 0.3 and max(points) - min(points) > 0.3:
                    yield Fault(number, f"column {head!r} is neither right nor decimal aligned")
        for row in view.rows(table):
            for cell in row:
                box = view.box(cell)
                figures = any(n.role == "Figure" for n in cell.walk())
                if cell.role == "TD" and not box and not figures:
                    yield Fault(page, f"an empty cell beside {' | '.join(view.text(c) for c in row)[:80]!r}")
    for face in view.packet.faces:
        wide = {round(face.widths[c], 3) for c, t in face.texts.items() if t in set("0123456789") and c in face.widths}
        if len(wide) > 1 and "DejaVu" not in face.name:
            yield Fault(None, f"{face.name}: figures of widths {sorted(wide)}")


@rule(58, "a row rule or gap at least every five rows; heads repeated on the next page")
def row_rules(view):
    for table in view.tables:
        rows = [(joined([b for c in row if (b := view.box(c))]), row) for row in view.rows(table)]
        rows = [(box, view.page_of(next(c for c in row if view.page_of(c))), row) for box, row in rows if box]
        run, pages, last = 0, [], None
        for box, number, row in rows:
            if number not in pages:
                pages.append(number)
                run, last = 0, None
            page = view.pages[number - 1]
            if last:
                yield None
                between = any(s.width and s.box[3] - s.box[1] < 0.1 and s.box[2] - s.box[0] > 20 and last[3] - 2 < s.box[1] < box[1] + 2.5
                              and s.box[0] < box[2] and s.box[2] > box[0] for s in page.strokes)
                # 1.25 lines of 11 pt leave 1.9 mm between rows set solid; 4 mm is a gap.
                run = 0 if between or box[1] - last[3] >= 4 else run + 1
                if run == 5:
                    yield Fault(number, f"six rows without a rule: {view.text(row[0])}")
            last = box
        head = next((r for r in view.rows(table) if all(c.role == "TH" for c in r)), None)
        if head and len(pages) > 1:
            words = plain(" ".join(view.text(c) for c in head)).split()
            for number in pages[1:]:
                again = plain(" ".join(l.text for l in view.furniture_lines(view.pages[number - 1]))).split()
                if any(w not in again for w in words):
                    yield Fault(number, f"head not repeated: {' '.join(words)[:80]}")


@rule(59, "mm first, inches in a column of their own; no plain space before a unit; leading zero",
      "the rounding step of inches where there is such a column")
def units(view):
    for page in view.pages:
        yield None
        for line in page.lines():
            text = line.text
            if found := re.search(rf"\d ({UNITS})(?![\w²³/·’'-])", text):
                if "in" != found[1]:
                    yield Fault(page.number, f"plain space before {found[1]}: {text!r}")
            # "33 CFR 183.455 and .460": a paragraph of a regulation is no decimal.
            if re.search(r"(?<![\d\w).])\.\d", re.sub(r"and \.\d{3}\b", "", text)):
                yield Fault(page.number, f"no leading zero: {text!r}")
            # "1 × 1 × 1/16 in" names a section as it is sold; it is no size that stands before its mm.
            if re.search(rf"(?<!×)[{NBSP} ][\d/]+[{NBSP}]in\b.*\d[{NBSP}]mm\b", text):
                yield Fault(page.number, f"inches before mm: {text!r}")
        # A unit must not begin the next line: number and unit break apart.
        for one, two in zip(page.lines(), page.lines()[1:]):
            if one.mark is two.mark and re.search(r"\d\s*$", one.text) and re.match(rf"{UNITS}(\s|$)", two.text.strip()) \
                    and not two.text.startswith("in ") and two.y > one.y + 1 and abs(one.size - two.size) < 0.1 and two.x < one.x + 1 and not one.text.strip().isdigit():
                yield Fault(page.number, f"number and unit parted: {one.text!r} / {two.text!r}")
    for table in view.tables:
        heads = [view.text(c) for row in view.rows(table)[:2] for c in row if c.role == "TH"]
        inches = [i for i, h in enumerate(heads) if re.search(r", in\b(?! \w)", h)]
        if inches and not any(re.search(r"(^|, )mm\b", h) for h in heads[:inches[0]]):
            yield Fault(view.page_of(table), f"inches without mm before: {heads}")


@rule(60, "claims PDF/UA-1 and PDF/A-3b with their schema; every figure has a text; each mark in the tree",
      "all machine rules of both standards: the programs of .ci/outside.py")
def file(view):
    yield None
    xmp = bytes(view.packet.root.Root.Metadata.read_bytes())
    for claim in (b"<pdfuaid:part>1<", b"<pdfaid:part>3<", b"<pdfaid:conformance>B<", b"<pdfaSchema:prefix>pdfuaid"):
        if claim not in xmp:
            yield Fault(None, f"XMP lacks {claim.decode()}")
    for node in view.packet.nodes:
        if node.role == "Figure" and not (node.alt or "").strip():
            yield Fault(view.page_of(node), "a figure without a text in its place")
        if node.role == "TH" and node.scope not in ("Column", "Row", "Both"):
            yield Fault(view.page_of(node), f"a head cell without scope: {view.text(node)}")
    nested = {"LI": {"L"}, "Lbl": {"LI"}, "LBody": {"LI"}, "TR": {"Table", "THead", "TBody", "TFoot"}, "TD": {"TR"}, "TH": {"TR"},
              "THead": {"Table"}, "TBody": {"Table"}, "TOCI": {"TOC"}, "Table": {"Sect", "Div"}, "H1": {"Sect", "Div"}}
    for node in view.packet.nodes:
        if node.role in nested and node.parent and node.parent.role not in nested[node.role]:
            yield Fault(view.page_of(node), f"{node.role} inside {node.parent.role}: {view.text(node)[:60]}")
    for page in view.pages:
        for mark in page.marks:
            if mark.mcid is None:
                continue
            if mark.node is None:
                yield Fault(page.number, f"content {mark.mcid} is in no node")
            elif mark.tag != mark.node.role:
                yield Fault(page.number, f"content tagged {mark.tag} belongs to {mark.node.role}")
        for thing in (*page.letters, *page.strokes):
            if thing.mark is None:
                yield Fault(page.number, "something drawn outside of marks")
                break
        for word in page.operators:
            if word.startswith("unread"):
                yield Fault(page.number, f"an operator that this reader does not know: {word}")
    # What is drawn first is read first: numbers of marks grow along the tree.
    last = {}
    for mark in view.packet.tree.marks():
        if mark.mcid < last.get(mark.page, -1):
            yield Fault(mark.page, f"read after what is drawn behind it: {mark.tag} {mark.mcid}")
            break
        last[mark.page] = mark.mcid
    level = 0
    for node in view.packet.nodes:
        if found := re.fullmatch(r"H(\d)", node.role):
            if int(found[1]) > level + 1:
                yield Fault(view.page_of(node), f"{node.role} under H{level}")
            level = int(found[1])
