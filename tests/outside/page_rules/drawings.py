"""Rules 35 to 45: drawings, hole tables, wiring, parts lists."""

import math
import re

from reader import MM, joined, lines_of
from rules import Fault, rule
from sheets import plain
from type_rules import within

WIDTHS = (0.18, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4)
SCALES = {"1:1", "1:2", "1:5", "1:10", "1:20", "1:50", "1:100", "2:1", "5:1", "10:1", "20:1", "50:1"}
FIGURE = re.compile(r"[−-]?\d[\d\u2009\u202f\u00a0]*(\.\d+)?°?$")
MARK = re.compile(r"[A-Z]\d{1,3}[a-z]?$")


def name(node):
    return (node.alt or "")[:70]


@rule(35, "line widths of the series, 0.18 mm or more; on step sheets 0.25 mm or more",
      "which line is a visible outline is not told in the file")
def widths(view):
    for page in view.pages:
        yield None
        least = 0.25 if view.kinds[page.number] == "Step" else 0.18
        for width in {round(s.width, 3) for s in page.strokes if s.width is not None}:
            if min(abs(width - w) for w in WIDTHS) > 0.005 or width < least - 0.005:
                yield Fault(page.number, f"a line of {width} mm")
    for node in view.drawings():
        strokes = [s for s in view.strokes(node) if s.width is not None]
        # A scale bar for several drawings has no outline of anything.
        alone = (node.alt or "").startswith("scale bar")
        if len(strokes) > 3 and not alone and not diagram(node) and not any(s.width >= 0.5 - 0.005 for s in strokes):
            yield Fault(view.page_of(node), f"no line of 0.5 mm or more: {name(node)}")


def straight(strokes):
    for stroke in strokes:
        if stroke.width is None or stroke.dash:
            continue
        for part in stroke.parts:
            for one, two in zip(part, part[1:]):
                if math.dist(one, two) > 2:
                    yield one, two, stroke


@rule(36, "wide to narrow lines 2:1 in a drawing; parallel lines 0.7 mm apart or more",
      "level and upright lines of over 2 mm that nothing covers")
def wide_to_narrow(view):
    for node in view.drawings():
        strokes = view.strokes(node)
        used = sorted({round(s.width, 2) for s in strokes if s.width is not None})
        if len(used) < 2:
            continue
        yield None
        if used[-1] / used[0] < 2 - 0.03:
            yield Fault(view.page_of(node), f"widths {used}: {name(node)}")
        segments = list(straight(strokes))
        for way, axis in (("level", 1), ("upright", 0)):
            lines = sorted(((one[axis], *sorted((one[1 - axis], two[1 - axis])), stroke) for one, two, stroke in segments
                            if abs(one[axis] - two[axis]) < 0.01), key=lambda line: line[:3])
            least = None
            for place, (at, low, high, stroke) in enumerate(lines):
                for at_two, low_two, high_two, other in lines[place + 1:]:
                    if at_two - at >= 0.7 - 0.01:
                        break
                    near, far = max(low, low_two), min(high, high_two)
                    if at_two - at < 0.02 or far - near < 2:
                        continue
                    middle = (near + far) / 2
                    if seen(strokes, stroke, at, middle, axis) and seen(strokes, other, at_two, middle, axis):
                        least = min(least or (9,), (at_two - at, stroke.box, other.box))
            if least:
                yield Fault(view.page_of(node), f"{way} lines {least[0]:.2f} mm apart at {least[1][0]:.0f}, {least[1][1]:.0f} mm: {name(node)}")


def seen(strokes, stroke, at, middle, axis):
    """Whether nothing is filled over a point of a line."""
    x, y = (middle, at) if axis else (at, middle)
    return not any(s.order > stroke.order and s.fill is not None and s.box[0] + 0.01 < x < s.box[2] - 0.01
                   and s.box[1] + 0.01 < y < s.box[3] - 0.01 and within(s.parts, x, y) for s in strokes)


@rule(37, "dimension figures 3.5 mm on step drawings, 2.5 mm elsewhere, one height a drawing")
def figures_high(view):
    # The sheet before a step that is handed over shows where the work is, not sizes to work by.
    steps = {page for sheet in view.steps for page in sheet.pages}
    for node in view.drawings():
        page = view.page_of(node)
        least = 3.5 if page in steps else 2.5
        heights = {}
        for line in view.lines(node):
            said = plain(line.text)
            if FIGURE.match(said):
                letter = line.letters[0]
                heights[round(letter.face.cap_height * letter.size * MM, 2)] = said
        if not heights:
            continue
        yield None
        if min(heights) < least - 0.01:
            yield Fault(page, f"{heights[min(heights)]} is {min(heights)} mm high: {name(node)}")
        if len(heights) > 1:
            yield Fault(page, f"heights {sorted(heights)}: {name(node)}")


def diagram(node):
    """A circuit, a plan by the clock, a bar chart: nothing in it has a size or is seen from anywhere."""
    return bool(re.search(r"^circuit|the plan's table|uses \S+ of|lengths to scale, heights not", node.alt or ""))


def full_size(node):
    return (node.alt or "").startswith("full size template")


@rule(38, "a scale of the list with a drawn bar, or NOT TO SCALE")
def scales(view):
    for node in view.drawings():
        said = (node.alt or "") + " " + " ".join(plain(l.text) for l in view.lines(node))
        page = view.page_of(node)
        if diagram(node) or full_size(node):
            continue  # a template has check instead: rules 46 and 50
        yield None
        found = re.search(r"scale\s+(\d+:\d+)", said)
        text = plain(" ".join(l.text for l in view.pages[page - 1].lines()))
        if found and found[1] not in SCALES:
            yield Fault(page, f"scale {found[1]}: {name(node)}")
        elif not found and not re.search(r"not to scale", said, re.I):
            near = near_text(view, node)
            beside = re.search(r"\b(\d+:\d+)\b", near)
            if beside and beside[1] in SCALES and re.search(rf"scale {beside[1]}", text):
                continue  # one bar and one caption serve all strips of that scale on the page
            yield Fault(page, f"neither a scale nor NOT TO SCALE: {name(node)}")
        elif found and not scale_bar(view, node):
            yield Fault(page, f"no scale bar: {name(node)}")


def near_text(view, node):
    """Words within 12 mm over or under a drawing."""
    page, box = view.pages[view.page_of(node) - 1], view.box(node) or node.bbox
    return " ".join(plain(l.text) for l in page.lines() if l.box and box[1] - 12 < l.box[1] and l.box[3] < box[3] + 12)


def scale_bar(view, node):
    """A row of black and white blocks, as long as the words under its end say at the scale."""
    said = (node.alt or "") + " " + " ".join(plain(l.text) for l in view.lines(node))
    ratio = re.search(r"scale\s+(\d+):(\d+)", said)
    factor = int(ratio[1]) / int(ratio[2])
    blocks = [s.box for s in view.strokes(node) if s.fill in (0, 1) and s.width and 0.5 < s.box[3] - s.box[1] < 3]
    for line in view.lines(node):
        if told := re.fullmatch(r"([\d ]+) mm", plain(line.text)):
            length = int(told[1].replace(" ", "")) * factor
            row = joined([b for b in blocks if 0 < line.box[1] - b[3] < 3])
            if row and abs(row[2] - row[0] - length) < 0.05:
                return True
    return False


def hole_tables(view, kinds=("Part",)):
    """Rows of hole tables: (page, sheet, head, cells)."""
    for sheet in view.sheets:
        if sheet.kind not in kinds:
            continue
        for table in (n for n in sheet.node.walk() if n.role == "Table"):
            rows = view.rows(table)
            head = [view.text(c) for c in rows[0]] if rows else []
            if "id" in head and any(h.startswith("X") for h in head):
                for row in rows[1:]:
                    yield view.page_of(row[0]), sheet, head, [view.text(c) for c in row]


@rule(39, "holes from one datum in a table of X and Y, datum drawn and named, no chains",
      "that no dimension chains is held by the tests of drawings")
def one_datum(view):
    for sheet in view.sheets:
        if sheet.kind != "Part":
            continue
        for node in sheet.node.walk():
            if node.role != "Figure" or "holes" not in (node.alt or ""):
                continue
            yield None
            said = [plain(l.text) for l in view.lines(node)]
            listed = any(s is sheet and "Y, mm" in head for _, s, head, _ in hole_tables(view))
            if not listed:
                yield Fault(view.page_of(node), f"no table of X and Y: {name(node)}")
            alone = len(re.findall(r"\bH\d+", node.alt)) and not any(s == "zero" for s in said)
            if alone and not any(s == "0" for s in said):
                yield Fault(view.page_of(node), f"no datum named: {name(node)}")


@rule(40, "holes drawn are those of the table, ids once in the packet, two check diagonals")
def drawn_and_listed(view):
    seen = {}
    for page, sheet, _, cells in hole_tables(view):
        yield None
        if cells[0] in seen:
            yield Fault(page, f"{cells[0]} is listed on page {seen[cells[0]]} as well")
        seen[cells[0]] = page
    for sheet in view.sheets:
        if sheet.kind != "Part":
            continue
        drawings = [n for n in sheet.node.walk() if n.role == "Figure" and "holes" in (n.alt or "")]
        drawn = {w for n in drawings for l in view.lines(n) for w in re.findall(r"\bH\d+", l.text)}
        listed = {cells[0] for _, s, _, cells in hole_tables(view) if s is sheet}
        if drawings:
            for hole in sorted(drawn ^ listed):
                yield Fault(sheet.pages[0], f"{hole} is {'drawn' if hole in drawn else 'listed'} alone on {sheet.title!r}")
        for node in drawings:
            holes = re.findall(r"H\d+", (node.alt or "").split(";")[0])
            rows = {c[0]: dict(zip(h, c)) for _, s, h, c in hole_tables(view) if s is sheet}
            at = [(rows[h].get("X, mm"), rows[h].get("Y, mm")) for h in holes if h in rows]
            spread = len({x for x, _ in at}) > 1 and len({y for _, y in at}) > 1
            checks = re.findall(r"(H\d+) to (H\d+)", view.text(sheet.node))
            # Along a tube a diagonal tells no more than the distances: a row, not a pattern.
            xs, ys = [[float(v.replace(" ", "")) for v in side] for side in zip(*at)] if spread else ([0], [0])
            pattern = min(max(xs) - min(xs), max(ys) - min(ys)) > 0.1 * max(max(xs) - min(xs), max(ys) - min(ys))
            if len(at) >= 4 and spread and pattern and sum(a in holes and b in holes for a, b in checks) < 2:
                yield Fault(view.page_of(node), f"no two diagonals: {name(node)}")


@rule(41, "each dimension once; repeats in brackets", "equal figures of unlike features are told apart by their place")
def once(view):
    for node in view.drawings():
        lines = [l for l in view.lines(node) if FIGURE.match(plain(l.text)) and plain(l.text) != "0"]
        yield None
        seen = {}
        for line in lines:
            key = (plain(line.text), line.letters[0].angle)
            other = seen.get(key)
            # Twice on one dimension line level: the same span of the same view said again.
            if other is not None and abs(other.y - line.y) < 0.1 and line.letters[0].angle == 0 and abs(other.x - line.x) < 1:
                yield Fault(view.page_of(node), f"{key[0]} twice: {name(node)}")
            seen[key] = line


FROM = r"(seen )?from (above|below|outside|inside|the (left|right|front|rear|side)|its \w+ end|the \w+ end|the rear|inboard|outboard)|cut across|cut along|along the (?:bar|length)|in the order of|section|full size"
WAY = r"front at|front is|front up|rear at|zero end|zero corner|zero at left|upper edge to zero|left side|right side|outboard|inboard|lengths? to scale|along the bar|in the order|from the rear|from the front|left to right|cut across|its \w+ edge|standing|lying|long point"


@rule(42, "every view says where it is seen from and which way is forward",
      "projection symbols: no two views are aligned by projection, each says its own direction")
def views(view):
    for node in view.drawings():
        if re.match(r"full size template of labels\b", node.alt or ""):
            continue  # strips of words to cut out: no view of anything
        yield None
        said = (node.alt or "") + " " + " ".join(plain(l.text) for l in view.lines(node)) + " " + (near_text(view, node) if view.box(node) else "")
        if diagram(node) or re.search(r"not to scale", said, re.I):
            continue
        if re.search(r"^(?:bar|length) \d+ with .* from the left", node.alt or ""):
            # The strips of a page are all seen alike; one caption serves them.
            said += plain(" ".join(l.text for l in view.pages[view.page_of(node) - 1].lines()))
        if full_size(node):
            # The head of a template's sheet speaks of the one drawing that it has.
            said += plain(" ".join(l.text for l in view.pages[view.page_of(node) - 1].lines()))
        if not re.search(FROM, said):
            yield Fault(view.page_of(node), f"seen from where: {name(node)}")
        if not re.search(WAY, said):
            yield Fault(view.page_of(node), f"which way is forward: {name(node)}")


@rule(43, "the default tolerance, ISO 2768-1 class c, stated with each drawing of a part",
      "limits of each value are checked by the tests of sheets")
def tolerance(view):
    for sheet in view.sheets:
        # What is drawn taken apart shows an order, no sizes.
        drawn = [n for n in sheet.node.walk() if n.role == "Figure" and n in view.drawings()]
        if sheet.kind in ("Part", "Cut") and any("taken apart" not in (n.alt or "") for n in drawn):
            yield None
            if not re.search(r"ISO\s2768-1 class c", view.text(sheet.node)):
                yield Fault(sheet.pages[0], f"no default tolerance on {sheet.title!r}")


COLOURS = {"BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "GD", "TQ", "SR", "GNYE"}


@rule(44, "wires: number, colour letters, area, length in the table, number and terminals in the diagram",
      "a conductor drawn whole bears its number once, at both ends alike")
def wires(view):
    for sheet in view.sheets:
        if sheet.kind != "Wiring":
            continue
        drawn = " ".join(plain(l.text) for n in sheet.node.walk() if n.role == "Figure" for l in view.lines(n))
        for table in (n for n in sheet.node.walk() if n.role == "Table"):
            rows = view.rows(table)
            head = [view.text(c) for c in rows[0]] if rows else []
            if "colour" not in head:
                continue
            for row in rows[1:]:
                yield None
                told = dict(zip(head, (view.text(c) for c in row)))
                wire, page = told[head[0]], view.page_of(row[0])
                if told["colour"] not in COLOURS:
                    yield Fault(page, f"{wire}: colour letters {told['colour']!r}")
                lengths = [v for k, v in told.items() if "mm" in k and "²" not in k]
                if not any(re.search(r"\d", v) for v in lengths) or not re.search(r"\d", told.get("mm²", "")):
                    yield Fault(page, f"{wire}: {told}")
                if wire not in drawn:
                    yield Fault(page, f"{wire} is not in the diagram")
                for key in ("from", "to"):
                    terminal = told.get(key, "").split(" by ")[0]
                    # Plus and minus of a load stand beside its name, at either side of its box.
                    device, sign = re.fullmatch(r"(.*?)(?: ([+−]))?", terminal).groups()
                    if terminal and (device not in drawn or sign and sign not in drawn):
                        yield Fault(page, f"terminal {terminal} is not in the diagram")


@rule(45, "every mark in a figure is in a list, and every mark of a list in a figure")
def marks(view):
    listed, drawn, cut = set(), {}, {}
    for node in view.packet.nodes:
        if node.role in ("TD", "TH", "LBody", "H1", "H2"):
            listed |= expand(view.text(node))
    for node in view.drawings():
        for line in view.lines(node):
            for mark in expand(plain(line.text)):
                drawn.setdefault(mark, view.page_of(node))
    for sheet in view.sheets:
        if sheet.kind == "Cut":
            for node in sheet.node.walk():
                if node.role in ("TD", "TH") and MARK.match(view.text(node)) and not view.text(node).startswith("K"):
                    cut[view.text(node)] = view.page_of(node)
    if drawn:
        yield None
    # A sheet picked out leaves its lists behind: cut list, hole tables. What a step that is handed over draws is named
    # on the sheet before it.
    told = {page for sheet in view.steps for page in sheet.pages if view.handed_over}
    for mark, page in sorted(drawn.items()):
        if view.picked and page not in told:
            continue
        if mark not in listed:
            yield Fault(page, f"{mark} is drawn but in no list")
    for mark, page in sorted(cut.items()):
        if mark not in drawn and not view.picked:
            yield Fault(page, f"{mark} is listed but not drawn")


def expand(text):
    """Marks in words, ranges told out: "J1 to J3" are three. A group of a fingerprint goes on in capitals."""
    text = re.sub(r"\b(ISO|EN|DIN|ASME|VDI|IEC)\s+\S+", "", text)
    found = set(re.findall(r"(?<![\w.])([A-JL-Z]\d{1,3})(?![\w.]*\d)(?![A-Z])", text)) - {"M3", "M4", "M5", "M6", "M8", "M10", "M12"}
    for letter, low, high in re.findall(r"\b([A-Z])(\d+) to \1(\d+)", text):
        found |= {f"{letter}{n}" for n in range(int(low), min(int(high), int(low) + 500) + 1)}
    return found
