"""Rules 1 to 12: type and colour; and that no letter lies on another."""

import re
import unicodedata

from reader import MM, lines_of
from rules import Fault, overlap, rule, words
from sheets import SIGNALS, plain

EPS = 0.01
TURNED = 90


def furniture(letter):
    return bool(letter.mark and letter.mark.artifact == "Pagination")


def in_drawing(view, letter):
    node = letter.mark.node if letter.mark else None
    return bool(node) and (node.role == "Figure" or any(n.role == "Figure" for n in node.above()))


HALF = re.compile(r"rev \S+ \d{4}-\d{2}-\d{2} [A-Z2-9]{4} [A-Z2-9]{4}")


def own_identity(view, line):
    """The identity line that a cut-out part bears for itself (rule 53), or its second half."""
    number = view.identity(view.pages[0]).split(" ")[0]
    return bool(number) and (line.text.startswith(number) or HALF.fullmatch(plain(line.text)) is not None)


@rule(1, "actions 14 pt or larger, x-height 2.5 mm or more")
def actions_are_large(view):
    for action in view.actions:
        yield None
        for line in action.lines:
            letter = min((l for l in line.letters if l.box), key=lambda l: l.size)
            height = letter.face.x_height * letter.size * MM
            if letter.size < 14 - EPS or height < 2.5 - EPS:
                yield Fault(action.page, f"action {action.number}: {letter.size:.1f} pt, x-height {height:.2f} mm")


@rule(2, "other text 11 pt or larger; 10 pt in drawings")
def text_is_large(view):
    for page in view.pages:
        if page.folded:
            continue  # rule 4
        yield None
        for line in page.lines():
            least = 10 if in_drawing(view, line.letters[0]) else 11
            if not furniture(line.letters[0]) and line.size < least - EPS and not own_identity(view, line):
                yield Fault(page.number, f"{line.size:.1f} pt: {line.text!r}")


@rule(3, "identity line 9 pt or larger, nothing under 9 pt")
def nothing_is_tiny(view):
    for page in view.pages:
        yield None
        for line in page.lines():
            small = min(letter.size for letter in line.letters)
            if small < 9 - EPS:
                yield Fault(page.number, f"{small:.1f} pt: {line.text!r}")


@rule(4, "pocket booklet 10 pt or larger, x-height 1.8 mm or more")
def booklet_text(view):
    for page in view.pages:
        if not page.folded:
            continue
        yield None
        for letter in page.letters:
            if letter.box and not furniture(letter) and (letter.size < 10 - EPS or letter.face.x_height * letter.size * MM < 1.8 - EPS):
                yield Fault(page.number, f"{letter.size:.1f} pt: {letter.text!r}")


@rule(5, "headings 14 pt or larger, in the pocket booklet 12 pt, 2 pt over the text they head")
def headings_stand_out(view):
    nodes = view.packet.nodes
    for place, node in enumerate(nodes):
        if not re.fullmatch(r"H\d", node.role):
            continue
        own = view.lines(node)
        if not own:
            continue
        yield None
        size, page = min(line.size for line in own), view.page_of(node)
        if size < (12 if view.pages[page - 1].folded else 14) - EPS:
            yield Fault(page, f"{size:.1f} pt: {own[0].text!r}")
        for other in nodes[place + 1:place + 12]:
            if re.fullmatch(r"H\d", other.role) or other.role == "Sect":
                break
            if other.role in ("P", "TH", "TD", "Lbl", "LBody") and (lines := view.lines(other)):
                if lines[0].text.strip() in SIGNALS:
                    continue  # 14 pt by rule 34: a label, not text that the heading heads
                if size < lines[0].size + 2 - EPS:
                    yield Fault(page, f"{own[0].text!r} at {size:.0f} pt heads {lines[0].text!r} at {lines[0].size:.0f} pt")
                break


@rule(6, "leading 125 % or more, 130 % in actions")
def leading(view):
    large = {id(a.node) for a in view.actions}
    for node in view.packet.nodes:
        if node.role not in ("P", "LBody", "Lbl", "TD", "TH", "H1", "H2", "H3", "Caption"):
            continue
        lines = [line for line in lines_of([l for m in node.kids if not hasattr(m, "role") for l in view.packet.by_mark.get(id(m), [])])
                 if line.letters[0].angle == 0]
        least = 1.3 if id(node.parent) in large else 1.25
        for one, two in zip(lines, lines[1:]):
            apart = two.y - one.y
            same = one.mark.page == two.mark.page and abs(one.size - two.size) < EPS
            over = one.box[0] < two.box[2] and two.box[0] < one.box[2]
            if same and over and apart > 0.5:
                yield None
                ratio = apart / (one.size * MM)
                need = least if one.size > 12.5 else 1.25
                if ratio < need - 0.005:
                    yield Fault(one.mark.page, f"{ratio:.2f}: {one.text!r} over {two.text!r}")


@rule(7, "lines of 75 characters or fewer, actions 60 or fewer; ragged right")
def line_length(view):
    for page in view.pages:
        yield None
        for word in page.spacing:
            yield Fault(page.number, f"{word} changes the space between letters or words")
        for line in page.lines():
            if len(line.text.strip()) > 75 and not furniture(line.letters[0]):
                yield Fault(page.number, f"{len(line.text.strip())} characters: {line.text!r}")
    for action in view.actions:
        for line in action.lines:
            if len(line.text.strip()) > 60:
                yield Fault(action.page, f"{len(line.text.strip())} characters: {line.text!r}")


# A face of signs stands in for characters that the text face lacks; it is not a second text face.
SIGNS_ONLY = re.compile(r"[\u2190-\u2bff\u2070-\u209f\u0370-\u04ff]")


@rule(8, "one sans family, two weights, one italic; no long italics")
def one_family(view):
    faces = {}
    for page in view.pages:
        for letter in page.letters:
            faces.setdefault(letter.face, set()).update(letter.text)
    text = [f for f, said in faces.items() if any(c.isalpha() and not SIGNS_ONLY.match(c) for c in said)]
    yield None
    families = {face.family for face in text}
    if len(families) > 1:
        yield Fault(None, f"families: {', '.join(sorted(families))}")
    weights = {face.style.replace("Italic", "").replace("Oblique", "") for face in text}
    if len(weights) > 2:
        yield Fault(None, f"weights: {', '.join(sorted(weights))}")
    for page in view.pages:
        for line in page.lines():
            italic = "".join(l.text for l in line.letters if re.search("Italic|Oblique", l.face.style))
            if len(italic.split()) > 12 or italic.strip() and any(line.mark.node in (a.node, *a.node.kids) for a in view.actions):
                yield Fault(page.number, f"italics: {italic!r}")


@rule(9, "no word in capitals but signal words, ids and marks; no run over four")
def capitals(view):
    known = words("capitals")
    identity = set(view.identity(view.pages[0]).split())
    for page in view.pages:
        yield None
        for line in page.lines():
            said = re.findall(r"[^\s,.;:()/“”‘’=·+×]+", line.text)
            run = 0
            for word in said:
                letters = re.sub(r"[^A-Za-z]", "", word)
                shout = len(letters) > 1 and letters.isupper()
                run = run + 1 if shout else 0
                if shout and not re.search(r"\d", word) and word not in known and word not in identity:
                    yield Fault(page.number, f"{word} in {plain(line.text)!r}")
                if run > 4 and not set(said) <= identity:
                    yield Fault(page.number, f"{run} words in capitals: {plain(line.text)!r}")


def ground(page, letter):
    """The grey behind a letter."""
    grey = 1.0
    x, y = (letter.box[0] + letter.box[2]) / 2, (letter.box[1] + letter.box[3]) / 2
    for stroke in page.strokes:
        if stroke.order > letter.order:
            break
        b = stroke.box
        if stroke.fill is not None and b[0] <= x <= b[2] and b[1] <= y <= b[3] and within(stroke.parts, x, y):
            grey = stroke.fill
    return grey


def within(parts, x, y):
    odd = False
    for part in parts:
        for (x1, y1), (x2, y2) in zip(part, part[1:] + part[:1]):
            if (y1 > y) != (y2 > y) and x < (x2 - x1) * (y - y1) / (y2 - y1) + x1:
                odd = not odd
    return odd


@rule(10, "text black on white or a 10 % tint; reversed only in DANGER and on tabs, 12 pt, 6 words")
def black_on_white(view):
    for page in view.pages:
        yield None
        for line in page.lines():
            letter = next(l for l in line.letters if l.box)
            behind = ground(page, letter)
            if letter.grey == 0 and behind >= 0.9 - EPS:
                continue
            tab = furniture(letter) and letter.angle
            danger = line.text.strip() == "DANGER"
            if letter.grey == 1 and behind <= EPS and (tab or danger) and line.size >= 12 - EPS and len(line.text.split()) <= 6:
                continue
            yield Fault(page.number, f"grey {letter.grey} on {behind}, {line.size:.0f} pt: {line.text!r}")


@rule(12, "nothing differs by hue alone")
def no_hue(view):
    for page in view.pages:
        yield None
        for colour in page.colours:
            yield Fault(page.number, f"colour {colour}")


@rule(0, "letters never lie on letters; boxes of outlines, tight")
def letters_apart(view):
    for page in view.pages:
        yield None
        cells = {}
        for letter in page.letters:
            if letter.box:
                for column in range(int(letter.box[0] // 5), int(letter.box[2] // 5) + 1):
                    for row in range(int(letter.box[1] // 5), int(letter.box[3] // 5) + 1):
                        cells.setdefault((column, row), []).append(letter)
        told = set()
        for near in cells.values():
            for place, one in enumerate(near):
                for two in near[place + 1:]:
                    # Neighbours in a word may be kerned into each other's boxes.
                    joint = one.run == two.run or one.angle == two.angle and abs(one.y - two.y) < 0.01 and one.mark is two.mark and abs(one.order - two.order) == 1
                    # A combining mark belongs on its letter.
                    joint = joint or one.mark is two.mark and abs(one.order - two.order) < 9 and (combines(one) or combines(two))
                    if joint or overlap(one.box, two.box) <= 0.05 or (one.run, two.run) in told:
                        continue
                    told.add((one.run, two.run))
                    yield Fault(page.number, f"{run_text(page, one)!r} and {run_text(page, two)!r} overlap by {overlap(one.box, two.box):.2f} mm")


def combines(letter):
    return all(unicodedata.category(c)[0] in "MC" for c in letter.text[-1:])


def run_text(page, letter):
    return "".join(l.text for l in page.letters if l.run == letter.run)
