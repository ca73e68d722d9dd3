"""Rules 46 to 56: templates, margins, identity, booklet."""

import collections
import math
import re

from reader import joined, lines_of
from rules import Fault, inside, rule
from sheets import plain
from type_rules import HALF

EPS = 0.02


def content(page):
    """Boxes of everything on a page, widened by half a line; what is clipped away does not count."""
    for letter in page.letters:
        if letter.box:
            yield letter.box, letter.mark, letter.text
    for s in page.strokes:
        if s.fill == 1 and s.width is None:
            continue  # white on white
        half = (s.width or 0) / 2
        box = (s.box[0] - half, s.box[1] - half, s.box[2] + half, s.box[3] + half)
        if s.clip:
            box = (max(box[0], s.clip[0]), max(box[1], s.clip[1]), min(box[2], s.clip[2]), min(box[3], s.clip[3]))
            if box[0] > box[2] or box[1] > box[3]:
                continue
        yield box, s.mark, "line"


def templates(view):
    return [page for page in view.pages if view.kinds[page.number] == "Template"]


def long_lines(page):
    """Straight lines: (start, end, length)."""
    for s in page.strokes:
        if s.width is None:
            continue
        for part in s.parts:
            for one, two in zip(part, part[1:]):
                yield one, two, math.dist(one, two)


@rule(46, "check bars of 150 and 200 mm at right angles, within 0.05 mm")
def check_bars(view):
    for page in templates(view):
        yield None
        found = {}
        for one, two, length in long_lines(page):
            across = abs(one[1] - two[1]) < EPS
            for nominal in (150, 200):
                if abs(length - nominal) < 2.5 and (across or abs(one[0] - two[0]) < EPS):
                    found.setdefault(nominal, []).append((length, across))
        for nominal in (150, 200):
            exact = [f for f in found.get(nominal, []) if abs(f[0] - nominal) <= 0.05]
            if not exact:
                told = ", ".join(f"{l:.3f}" for l, _ in found.get(nominal, [])) or "none"
                yield Fault(page.number, f"no bar of {nominal} mm: {told}")
        ways = [{w for l, w in found.get(n, []) if abs(l - n) <= 0.05} for n in (150, 200)]
        if all(ways) and not any(a != b for a in ways[0] for b in ways[1]):
            yield Fault(page.number, "check bars are not at right angles")


@rule(48, "templates inside 190 × 259 mm and 10 mm from each edge, other sheets 7 mm")
def live_area(view):
    for page in view.pages:
        yield None
        edge = 10 if view.kinds[page.number] == "Template" else 7
        live = (edge, edge, page.width - edge, page.height - edge)
        for box, mark, text in content(page):
            # Head, foot and tab are no content of the template.
            own_live = (7, 7, page.width - 7, page.height - 7) if mark and mark.artifact == "Pagination" else live
            if not inside(box, own_live, EPS):
                yield Fault(page.number, f"{text!r} at {tuple(round(v, 1) for v in box)}")
                break
        if edge == 10:
            own = joined([box for box, mark, _ in content(page) if mark and mark.node])
            if own and (own[2] - own[0] > 190 + EPS or own[3] - own[1] > 259 + EPS):
                yield Fault(page.number, f"template of {own[2] - own[0]:.0f} × {own[3] - own[1]:.0f} mm")


@rule(49, "tiles overlap 10 mm, share two crosses an edge, have map and datum line",
      "lengths of overlaps and crosses of tiles, which `tiles.py` measures; an inner tile tells how far the datum line is")
def tiles(view):
    for page in templates(view):
        text = plain(" ".join(l.text for l in page.lines())).lower()
        if not (found := re.search(r"\btile (\d+) of (\d+)\b", text)) or found[2] == "1":
            continue  # one sheet holds it whole
        yield None
        for word in ("overlap", "datum", "single-sided"):
            if word not in text:
                yield Fault(page.number, f"a tile without {word!r}")


@rule(50, "templates say actual size, 100 %, no fit to page, the table wins; PrintScaling None")
def actual_size(view):
    for page in templates(view):
        yield None
        text = plain(" ".join(l.text for l in page.lines())).lower()
        for words in ("actual size", "100 %", "no fit to page", "table wins"):
            if words not in text:
                yield Fault(page.number, f"does not say {words!r}")
    yield None
    if view.packet.root.Root.get("/ViewerPreferences", {}).get("/PrintScaling") != "/None":
        yield Fault(None, "PrintScaling is not None")


@rule(51, "bolts under M8 in hand-drilled pairs are drilled through their mate or slotted",
      "pairs are told by the columns drilled and mates; sizes by the part's own hole")
def through(view):
    from drawings import hole_tables
    rows = {}
    for page, _, head, cells in hole_tables(view):
        rows[cells[0]] = (page, dict(zip(head, cells)))
    for hole, (page, told) in rows.items():
        for mate in re.findall(r"H\d+", told.get("mates", "")):
            if mate not in rows:
                continue
            yield None
            other = rows[mate][1]
            if hole < mate and told.get("drilled") == "apart" and other.get("drilled") == "apart":
                sizes = [float(v) for v in re.findall(r"\d+(?:\.\d+)?", told.get("bits, mm", ""))]
                both = [float(v) for v in re.findall(r"\d+(?:\.\d+)?", other.get("bits, mm", ""))]
                # Clearance of M8 coarse, 10 mm, is the least that two hand-drilled patterns meet in.
                if sizes and both and max(sizes + both) < 10:
                    yield Fault(page, f"{hole} and {mate} are both drilled apart")


@rule(52, "bound side clear of content for 20 mm")
def bound_side(view):
    duplex = str(view.packet.root.Root.get("/ViewerPreferences", {}).get("/Duplex", "")) not in ("/Simplex", "")
    for page in view.pages:
        if page.folded:
            continue  # kept folded, not bound: rule 56
        yield None
        right = duplex and page.number % 2 == 0
        for box, _, text in content(page):
            if (box[2] > page.width - 20 + 0.4 if right else box[0] < 20 - 0.4):
                yield Fault(page.number, f"{text!r} at {box[0]:.1f} to {box[2]:.1f} mm")
                break


PARTS = re.compile(r"^(?P<number>\S+) (?P<title>.+) rev (?P<revision>\S+) (?P<date>\d{4}-\d{2}-\d{2}) sheet (?P<n>\d+) of (?P<m>\d+) (?P<print>[A-Z2-9]{4} [A-Z2-9]{4})$")


@rule(53, "each sheet, and each part cut out of one, has number, title, revision, date, n of m, fingerprint")
def identity(view):
    whole = None
    for page in view.pages:
        yield None
        if page.folded:
            yield from panels_bear_it(view, page, whole)
            continue
        said = view.identity(page)
        if not (found := PARTS.match(said)):
            yield Fault(page.number, f"identity line {said!r}")
            continue
        whole = whole or found
    for page in templates(view):
        labels = [n for n in view.drawings() if view.page_of(n) == page.number and (n.alt or "").startswith(LABELS)]
        if labels and whole:
            yield from labels_bear_it(view, page, labels[0], whole)
            continue
        inner = lines_of([l for l in page.letters if l.mark and l.mark.node])
        told = [plain(l.text) for l in inner]
        # Whole, or in two lines where the piece is short.
        own = [said if " rev " in said else f"{said} {after}" for said, after in zip(told, [*told[1:], ""])
               if whole and said.startswith(whole["number"]) and (" rev " in said or HALF.fullmatch(after))]
        named = [n for node in view.drawings() if view.page_of(node) == page.number
                 for n in (node.alt or "").removeprefix("full size template of ").split(", with")[0].split(";")]
        if len(own) < len(named):
            yield Fault(page.number, f"{len(own)} of {len(named)} cut-out parts bear their identity")
        for said in own:
            # A title too wide for the foot ends in an ellipsis there; on a short part it may end sooner.
            title = whole["title"].rstrip("…")
            short = re.match(r"\S+ (.{3,})… rev ", said)
            # From right to left the ellipsis stands before the letters.
            turned = re.match(r"\S+ …(.{3,}) rev ", said)
            if title not in said and not (short and title.startswith(short[1])) \
                    and not (turned and title.startswith(turned[1])):
                yield Fault(page.number, f"a cut-out part lacks its title: {said!r}")
            for key in ("number", "revision", "date", "print"):
                if whole[key] not in said:
                    yield Fault(page.number, f"a cut-out part lacks its {key}: {said!r}")


LABELS = "full size template of labels"


def labels_bear_it(view, page, drawing, whole):
    """Each label has number, revision and fingerprint under its words; title and date would take the room of
    what it is read for, and the fingerprint leads to them."""
    lines = [l for l in view.lines(drawing) if len(l.text.strip()) > 1 and l.letters[0].angle % 360 == 0]
    heads = [l for l in lines if "Bold" in l.letters[0].face.name]
    if not heads:
        yield Fault(page.number, "labels without words")
    own = rf"(\S+) (.* rev )?{re.escape(whole['revision'])} (.* )?{whole['print']}"

    def bears_it(said):
        found = re.fullmatch(own, said)
        # A number too long for a label ends in an ellipsis there.
        cut = found and found[1].endswith("…") and len(found[1]) > 3 and whole["number"].startswith(found[1][:-1])
        return found and (found[1] == whole["number"] or cut)

    for head in heads:
        yield None
        column = [l for l in lines if head.y < l.y < head.y + 25 and l.x < end(head) and end(l) > head.x]
        below = next((l for l in column if l in heads), None)
        if not any(bears_it(plain(l.text)) for l in column if not below or l.y < below.y):
            yield Fault(page.number, f"label {plain(head.text)!r} lacks number, revision or fingerprint")


def end(line):
    return line.letters[-1].x + line.letters[-1].advance


# Panels of the folded sheet, upper row and lower row, as they lie (6.1 of the notes behind the rules).
PANELS = (("5", "4", "3", "2"), ("6", "7", "8", "1"))


def panels_bear_it(view, page, whole):
    """The booklet has its title on its front; each panel has the rest and its own number, upright when folded."""
    if not whole:
        yield Fault(page.number, "no sheet before the booklet has an identity line")
        return
    rest = f"{whole['number']} rev {whole['revision']} {whole['date']} sheet {page.number} of {whole['m']} {whole['print']}"
    for row, numbers in enumerate(PANELS):
        for column, number in enumerate(numbers):
            own = [l for l in page.letters if l.box and int(l.box[0] // (page.width / 4)) == column
                   and int(l.box[1] // (page.height / 2)) == row]
            said = plain(" ".join(l.text for l in page.lines() if l.letters[0] in own and l.mark.artifact == "Pagination"))
            if said != f"{rest} {number}":
                yield Fault(page.number, f"panel {number}: identity {said!r}")
            if any(l.angle % 360 != (0 if row else 180) for l in own):
                yield Fault(page.number, f"panel {number}: letters stand the wrong way")
            if number == "1":
                front = plain(" ".join(l.text for l in page.lines() if l.letters[0] in own and l.mark.node))
                # Lines from right to left are read in the order in which they are drawn.
                if collections.Counter(re.sub("[… ]", "", whole["title"])) - collections.Counter(front):
                    yield Fault(page.number, f"the front does not say {whole['title']!r}")


@rule(54, "n of m agree, fingerprints are equal, titles of 25 characters or fewer",
      "the title of the packet in the identity line")
def numbering(view):
    prints = {}
    for page in view.pages:
        yield None
        if not (found := PARTS.match(view.identity(page))):
            continue
        if (int(found["n"]), int(found["m"])) != (page.number, len(view.pages)):
            yield Fault(page.number, f"sheet {found['n']} of {found['m']} is {page.number} of {len(view.pages)}")
        prints.setdefault(found["print"], []).append(page.number)
        if len(found["title"]) > 25:
            yield Fault(page.number, f"title of {len(found['title'])} characters: {found['title']}")
        for line in page.lines():
            said = plain(line.text)
            if line.mark and line.mark.node and said.startswith(found["number"] + " ") and (own := re.search(r"[A-Z2-9]{4} [A-Z2-9]{4}$", said)):
                prints.setdefault(own[0], []).append(page.number)
    if len(prints) > 1:
        rare = min(prints, key=lambda key: len(prints[key]))
        yield Fault(prints[rare][0], f"fingerprints {', '.join(sorted(prints))}")


@rule(55, "sign-off, as-built and template sheets single-sided; the as-built sheet has its blanks")
def record(view):
    for sheet in view.sheets:
        if sheet.kind != "Record":
            continue
        yield None
        alts = " ".join((n.alt or "") for s in view.sheets if s.kind == "Record" for n in s.node.walk())
        for word in ("changes", "photo", "done by", "date"):
            if word not in alts:
                yield Fault(sheet.pages[0], f"no blank for {word}")
        break
    duplex = str(view.packet.root.Root.get("/ViewerPreferences", {}).get("/Duplex", ""))
    if duplex not in ("/Simplex", ""):
        for number, kind in view.kinds.items():
            if kind in ("Template", "Record") and number % 2 == 0:
                yield Fault(number, f"{kind} sheet on a back")


@rule(56, "pocket booklet: order, turning and folds")
def booklet(view):
    for page in view.pages:
        if not page.folded:
            continue
        yield None
        for box, _, text in content(page):
            folds = [page.width * k / 4 for k in (1, 2, 3)]
            if text != "line" and (any(box[0] < f + 5 and box[2] > f - 5 for f in folds)
                                   or box[1] < page.height / 2 + 5 and box[3] > page.height / 2 - 5):
                yield Fault(page.number, f"{text!r} within 5 mm of a fold")
                break
