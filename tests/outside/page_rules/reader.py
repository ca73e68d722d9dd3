"""Reads a finished PDF into pages of letters and lines, in millimetres from the upper left corner.

Takes nothing from the program that wrote the file: objects and content streams through pikepdf, the
outlines of letters through fontTools from the faces that are embedded in the file. `agreement` holds
what was read against another reader, pdfium.
"""

import io
import math
import re
import unicodedata
from dataclasses import dataclass, field

import pikepdf
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont

MM = 25.4 / 72


@dataclass(eq=False)
class Face:
    """An embedded face. Metrics in ems."""

    name: str
    x_height: float
    cap_height: float
    bounds: dict
    widths: dict
    texts: dict
    code: int  # bytes of a code

    @property
    def family(self):
        return re.split(r"[-,]", self.name)[0]

    @property
    def style(self):
        return (re.split(r"[-,]", self.name, maxsplit=1) + ["Regular"])[1]


@dataclass(eq=False)
class Letter:
    """A glyph. `box` is that of its outline, (left, top, right, bottom) in mm; None for a space."""

    text: str
    face: Face
    size: float
    x: float
    y: float
    angle: int
    advance: float
    box: tuple | None
    grey: float
    mark: object
    run: int
    order: int


@dataclass(eq=False)
class Stroke:
    """A path as painted: points in mm, width in mm (None if not stroked), greys (None if not painted)."""

    parts: list
    width: float | None
    grey: float | None
    fill: float | None
    dash: tuple
    mark: object
    order: int
    box: tuple = None
    clip: tuple | None = None


@dataclass(eq=False)
class Mark:
    """A marked-content sequence: an artifact of a kind, or content of a node."""

    page: int
    artifact: str | None = None
    mcid: int | None = None
    tag: str = ""
    node: object = None


@dataclass(eq=False)
class Node:
    """An element of the tag tree."""

    role: str
    parent: object
    alt: str | None = None
    kids: list = field(default_factory=list)
    scope: str | None = None
    columns: int = 1
    order: int = 0
    bbox: tuple | None = None

    def walk(self):
        yield self
        for kid in self.kids:
            if isinstance(kid, Node):
                yield from kid.walk()

    def marks(self):
        for kid in self.kids:
            if isinstance(kid, Node):
                yield from kid.marks()
            elif isinstance(kid, Mark):
                yield kid

    def above(self):
        node = self.parent
        while node:
            yield node
            node = node.parent


@dataclass(eq=False)
class Line:
    """Letters on one baseline without a wide gap, in reading direction."""

    letters: list

    @property
    def text(self):
        return "".join(letter.text for letter in self.letters)

    @property
    def size(self):
        return max(letter.size for letter in self.letters)

    @property
    def box(self):
        return joined([letter.box for letter in self.letters if letter.box])

    @property
    def x(self):
        return self.letters[0].x

    @property
    def y(self):
        return self.letters[0].y

    @property
    def mark(self):
        return self.letters[0].mark


@dataclass(eq=False)
class Page:
    number: int
    width: float
    height: float
    letters: list
    strokes: list
    marks: list
    operators: set
    colours: set
    spacing: set
    whole: list = None

    @property
    def folded(self):
        """A pocket booklet: the sheet lies across and is folded to eight panels."""
        return self.width > self.height

    def lines(self, letters=None):
        if letters is not None:
            return lines_of(letters)
        if self.whole is None:
            self.whole = lines_of(self.letters)
        return self.whole


def joined(boxes):
    if not boxes:
        return None
    return (min(b[0] for b in boxes), min(b[1] for b in boxes), max(b[2] for b in boxes), max(b[3] for b in boxes))


def lines_of(letters):
    """Letters in lines: same sequence, angle and baseline, no gap."""
    lines, now, base = [], [], None
    for letter in letters:
        if now and letter.text and all(c == "\u200b" or unicodedata.category(c) in ("Mn", "Me") for c in letter.text):
            # A mark stands over or under the letter before it; glyphs of a letter behind its first are silent.
            now.append(letter)
            continue
        if now:
            last = base
            along, off = offset(last, letter)
            same = letter.mark is last.mark and letter.angle == last.angle
            # Within one showing of text gaps are kerns; a new showing that begins apart is another column.
            most = letter.size * MM * (3 if letter.run == last.run else 0.12)
            # "°." is kerned by a fifth of its size.
            least = -letter.size * MM * (0.25 if letter.run == last.run else 0.1)
            if not same or abs(off) > 0.05 or not least < along - last.advance < most:
                lines.append(now)
                now = []
        now.append(letter)
        base = letter
    if now:
        lines.append(now)
    return [Line(line) for line in lines if any(letter.box and letter.text.strip() for letter in line)]


def offset(one, two):
    """How far the second letter's origin lies along and across the first one's direction."""
    dx, dy = two.x - one.x, two.y - one.y
    if not one.angle:
        return dx, dy
    turn = math.radians(one.angle)
    return dx * math.cos(turn) - dy * math.sin(turn), dx * math.sin(turn) + dy * math.cos(turn)


def unicode_map(stream):
    """Code to text from a ToUnicode stream."""
    texts = {}
    said = stream.read_bytes().decode("latin-1")

    def word(digits):
        return bytes.fromhex(digits).decode("utf-16-be", "replace")

    for block in re.findall(r"beginbfchar(.*?)endbfchar", said, re.S):
        for code, text in re.findall(r"<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]+)>", block):
            texts[int(code, 16)] = word(text)
    for block in re.findall(r"beginbfrange(.*?)endbfrange", said, re.S):
        for low, high, rest in re.findall(r"<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]+)>\s*(\[.*?\]|<[0-9A-Fa-f]+>)", block, re.S):
            first = int(low, 16)
            if rest.startswith("["):
                for place, text in enumerate(re.findall(r"<([0-9A-Fa-f]+)>", rest)):
                    texts[first + place] = word(text)
            else:
                base = word(rest[1:-1])
                for code in range(first, int(high, 16) + 1):
                    texts[code] = base[:-1] + chr(ord(base[-1]) + code - first)
    return texts


def face_of(font):
    """A composite TrueType face with codes of two bytes, or of one where its encoding says so."""
    inner = font.DescendantFonts[0]
    descriptor = inner.FontDescriptor
    outlines = TTFont(io.BytesIO(descriptor.FontFile2.read_bytes()), lazy=True)
    em = outlines["head"].unitsPerEm
    glyphs, order = outlines.getGlyphSet(), outlines.getGlyphOrder()
    places = inner.get("/CIDToGIDMap", "/Identity")
    if isinstance(places, pikepdf.Stream):
        data = places.read_bytes()
        glyph_of = {i // 2: data[i] << 8 | data[i + 1] for i in range(0, len(data) - 1, 2)}
    else:
        glyph_of = {i: i for i in range(len(order))}
    bounds, widths = {}, {}
    for code, glyph in glyph_of.items():
        if glyph >= len(order):
            continue
        name = order[glyph]
        pen = BoundsPen(glyphs)
        glyphs[name].draw(pen)
        bounds[code] = tuple(v / em for v in pen.bounds) if pen.bounds else None
    listed = list(inner.W)
    while listed:
        first, then = int(listed.pop(0)), listed.pop(0)
        if isinstance(then, pikepdf.Array):
            widths.update({first + i: float(w) / 1000 for i, w in enumerate(then)})
        else:
            width = float(listed.pop(0)) / 1000
            widths.update({code: width for code in range(first, int(then) + 1)})
    texts = unicode_map(font.ToUnicode)

    def height(letters, stated):
        for code, text in texts.items():
            if text in letters and bounds.get(code):
                return bounds[code][3]
        return float(descriptor.get(stated, 0)) / 1000

    name = str(font.BaseFont).lstrip("/").split("+")[-1]
    code = 2
    if isinstance(font.Encoding, pikepdf.Stream):
        said = font.Encoding.read_bytes().decode("latin-1")
        assert re.search(r"begincodespacerange\s*<00>\s*<FF>", said) and re.search(r"begincidrange\s*<00>\s*<FF>\s*0\s", said)
        code = 1
    return Face(name, height(list("xzv"), "/XHeight"), height(list("HIE"), "/CapHeight"), bounds, widths, texts, code)


class Painter:
    """Walks one content stream."""

    def __init__(self, page, number, faces):
        box = [float(v) for v in page.MediaBox]
        self.left, self.top = box[0], box[3]
        self.page = Page(number, (box[2] - box[0]) * MM, (box[3] - box[1]) * MM, [], [], [], set(), set(), set())
        self.faces, self.resources = faces, page.Resources.get("/Font", {})
        self.state = {"cm": (1, 0, 0, 1, 0, 0), "w": 1.0, "d": (), "S": 0.0, "f": 0.0, "clip": None,
                      "face": None, "size": 0.0, "Tc": 0.0, "Tw": 0.0, "Tz": 1.0, "Ts": 0.0}
        self.stack, self.open, self.parts, self.here = [], [], [], []
        self.run = self.order = 0
        self.pending_clip = False
        for operands, operator in pikepdf.parse_content_stream(page):
            self.step(str(operator), operands)

    def at(self, x, y):
        a, b, c, d, e, f = self.state["cm"]
        return ((a * x + c * y + e - self.left) * MM, (self.top - (b * x + d * y + f)) * MM)

    def mark(self):
        return next((m for m in reversed(self.open) if m), None)

    def step(self, word, operands):
        page, state = self.page, self.state
        page.operators.add(word)
        number = [float(o) for o in operands if isinstance(o, (int, float)) or type(o).__name__ == "Decimal"]
        if word == "q":
            self.stack.append(dict(state))
        elif word == "Q":
            self.state = self.stack.pop()
        elif word == "cm":
            state["cm"] = times(number, state["cm"])
        elif word in ("BDC", "BMC"):
            self.open_mark(operands)
        elif word == "EMC":
            self.open.pop()
        elif word == "w":
            state["w"] = number[0]
        elif word == "d":
            state["d"] = tuple(float(v) * MM for v in operands[0])
        elif word in ("g", "G"):
            state["f" if word == "g" else "S"] = number[0]
        elif word in ("rg", "RG", "k", "K", "sc", "SC", "scn", "SCN"):
            self.colour(word, number)
        elif word in ("m", "l", "c", "v", "y", "re", "h"):
            self.path(word, number)
        elif word in ("S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "n"):
            self.paint(word)
        elif word in ("W", "W*"):
            self.pending_clip = True
        else:
            self.text(word, operands, number)

    def open_mark(self, operands):
        properties = operands[1] if len(operands) > 1 else {}
        if str(operands[0]) == "/Artifact":
            mark = Mark(self.page.number, artifact=str(properties.get("/Type", "/?"))[1:])
        elif "/MCID" in properties:
            mark = Mark(self.page.number, mcid=int(properties["/MCID"]), tag=str(operands[0])[1:])
        else:
            mark = None
        if mark:
            self.page.marks.append(mark)
        self.open.append(mark)

    def colour(self, word, number):
        key = "f" if word.islower() else "S"
        if word.lower() == "rg":
            red, green, blue = number
            self.state[key] = 0.299 * red + 0.587 * green + 0.114 * blue
            if max(number) - min(number) > 0.02:
                self.page.colours.add(tuple(number))
        else:
            self.page.colours.add((word, *number))

    def path(self, word, n):
        if word == "re":
            x, y, w, h = n
            corners = [(x, y), (x + w, y), (x + w, y + h), (x, y + h), (x, y)]
            self.parts.append([self.at(*c) for c in corners])
        elif word == "m":
            self.parts.append([self.at(*n)])
        elif word == "h":
            self.parts[-1].append(self.parts[-1][0])
        elif word == "l":
            self.parts[-1].append(self.at(*n))
        else:
            last = self.parts[-1][-1]
            points = [self.at(*n[i:i + 2]) for i in range(0, len(n), 2)]
            control = [last, *points] if word == "c" else [last, last, *points] if word == "v" else [last, points[0], points[1], points[1]]
            self.parts[-1].extend(bezier(control, t / 8) for t in range(1, 9))

    def paint(self, word):
        state, points = self.state, [p for part in self.parts for p in part]
        if points:
            box = (min(p[0] for p in points), min(p[1] for p in points), max(p[0] for p in points), max(p[1] for p in points))
            if self.pending_clip:
                state["clip"] = meet(state["clip"], box) if state["clip"] else box
            elif word != "n":
                stroked, filled = word in "SsB*b*", word in ("f", "F", "f*", "B", "B*", "b", "b*")
                scale = math.sqrt(abs(state["cm"][0] * state["cm"][3] - state["cm"][1] * state["cm"][2]))
                self.order += 1
                self.page.strokes.append(Stroke(
                    self.parts, state["w"] * MM * scale if stroked else None, state["S"] if stroked else None,
                    state["f"] if filled else None, state["d"], self.mark(), self.order, box, state["clip"]))
        self.parts, self.pending_clip = [], False

    def text(self, word, operands, number):
        state = self.state
        if word == "BT":
            self.matrix = self.line = (1, 0, 0, 1, 0, 0)
        elif word == "Tf":
            key = str(operands[0])
            font = self.resources[key]
            if font.objgen not in self.faces:
                self.faces[font.objgen] = face_of(font)
            state["face"], state["size"] = self.faces[font.objgen], float(operands[1])
        elif word in ("Td", "TD"):
            self.line = times((1, 0, 0, 1, *number), self.line)
            self.matrix = self.line
        elif word == "Tm":
            self.matrix = self.line = tuple(number)
        elif word in ("Tc", "Tw"):
            state[word] = number[0]
            self.page.spacing.add(word)
        elif word == "Ts":
            state["Ts"] = number[0]
        elif word == "Tz":
            state["Tz"] = number[0] / 100
        elif word in ("Tj", "TJ"):
            self.run += 1
            for piece in operands[0] if word == "TJ" else [operands[0]]:
                if isinstance(piece, pikepdf.String):
                    self.glyphs(bytes(piece))
                else:
                    self.matrix = times((1, 0, 0, 1, -float(piece) / 1000 * state["size"] * state["Tz"], 0), self.matrix)
        elif word not in ("ET", "J", "j", "M", "i", "ri", "gs"):
            self.page.operators.add("unread " + word)

    def glyphs(self, data):
        state, face = self.state, self.state["face"]
        for place in range(0, len(data), face.code):
            code = int.from_bytes(data[place:place + face.code], "big")
            whole = times((1, 0, 0, 1, 0, state["Ts"]), times(self.matrix, state["cm"]))
            a, b, c, d, e, f = whole
            size = state["size"] * math.hypot(c, d)
            angle = round(math.degrees(math.atan2(b, a)))
            width = face.widths.get(code, 0.0) * state["size"] + state["Tc"]
            outline, box = face.bounds.get(code), None
            if outline:
                corners = [(outline[i] * state["size"], outline[j] * state["size"]) for i in (0, 2) for j in (1, 3)]
                points = [((a * x + c * y + e - self.left) * MM, (self.top - (b * x + d * y + f)) * MM) for x, y in corners]
                box = (min(p[0] for p in points), min(p[1] for p in points), max(p[0] for p in points), max(p[1] for p in points))
            self.order += 1
            self.page.letters.append(Letter(
                face.texts.get(code, "\ufffd"), face, size, (e - self.left) * MM, (self.top - f) * MM, angle,
                width * MM * math.hypot(a, b), box, state["f"], self.mark(), self.run, self.order))
            self.matrix = times((1, 0, 0, 1, width * state["Tz"], 0), self.matrix)


def times(m, n):
    a, b, c, d, e, f = m
    A, B, C, D, E, F = n
    return (a * A + b * C, a * B + b * D, c * A + d * C, c * B + d * D, e * A + f * C + E, e * B + f * D + F)


def bezier(p, t):
    u = 1 - t
    return tuple(u**3 * p[0][k] + 3 * u * u * t * p[1][k] + 3 * u * t * t * p[2][k] + t**3 * p[3][k] for k in (0, 1))


def meet(one, two):
    return (max(one[0], two[0]), max(one[1], two[1]), min(one[2], two[2]), min(one[3], two[3]))


@dataclass(eq=False)
class Packet:
    path: object
    pages: list
    tree: Node
    nodes: list
    faces: list
    root: object
    links: dict


def read(path):
    """Everything of a file that the rules look at."""
    pdf = pikepdf.open(path)
    faces = {}
    pages = [Painter(page, number, faces).page for number, page in enumerate(pdf.pages, 1)]
    places = {page.objgen: number for number, page in enumerate(pdf.pages, 1)}
    marks = {(m.page, m.mcid): m for page in pages for m in page.marks if m.mcid is not None}
    nodes = []

    def grow(element, parent, page):
        page = places.get(element.Pg.objgen, page) if "/Pg" in element else page
        node = Node(str(element.S)[1:], parent, re.sub(r"\s+", " ", str(element.Alt)) if "/Alt" in element else None, order=len(nodes))
        nodes.append(node)
        attributes = element.get("/A", [])
        for table in [attributes] if isinstance(attributes, pikepdf.Dictionary) else list(attributes):
            if "/Scope" in table:
                node.scope = str(table.Scope)[1:]
            if "/ColSpan" in table:
                node.columns = int(table.ColSpan)
            if "/BBox" in table:
                l, b, r, t = (float(v) for v in table.BBox)
                node.bbox = (l * MM, pages[page - 1].height - t * MM, r * MM, pages[page - 1].height - b * MM) if page else None
        kids = element.get("/K", pikepdf.Array())
        for kid in list(kids) if isinstance(kids, pikepdf.Array) else [kids]:
            if isinstance(kid, int) or not isinstance(kid, (pikepdf.Dictionary, pikepdf.Array)):
                claim(node, page, int(kid))
            elif kid.get("/Type") == "/MCR":
                claim(node, places.get(kid.Pg.objgen, page) if "/Pg" in kid else page, int(kid.MCID))
            elif kid.get("/Type") == "/OBJR":
                pass
            else:
                node.kids.append(grow(kid, node, page))
        return node

    def claim(node, page, mcid):
        mark = marks.get((page, mcid))
        if mark:
            mark.node = node
            node.kids.append(mark)

    top = pdf.Root.StructTreeRoot.K
    top = top[0] if isinstance(top, pikepdf.Array) else top
    tree = grow(top, None, None)
    by_mark = {}
    for page in pages:
        for letter in page.letters:
            by_mark.setdefault(id(letter.mark), []).append(letter)
        for stroke in page.strokes:
            by_mark.setdefault(("s", id(stroke.mark)), []).append(stroke)
    packet = Packet(path, pages, tree, nodes, list(faces.values()), pdf, {})
    packet.by_mark = by_mark
    return packet


def agreement(packet):
    """Places where pdfium reads other letters, or sees them elsewhere by more than 0.2 mm."""
    import pypdfium2

    faults = []
    document = pypdfium2.PdfDocument(packet.path)
    for page in packet.pages:
        text = document[page.number - 1].get_textpage()
        boxes = []
        for index in range(text.count_chars()):
            said = text.get_text_range(index, 1)
            # A combining mark has no place of its own: it lies on its letter, whose box pdfium shares out.
            if said.strip() and said != "\ufffe" and unicodedata.category(said[0])[0] != "M":
                left, bottom, right, top = text.get_charbox(index)
                boxes.append((left * MM, page.height - top * MM, right * MM, page.height - bottom * MM))
        ours = [letter for letter in page.letters if letter.box]
        grid = {}
        for letter in ours:
            grid.setdefault((round(letter.box[0]), round(letter.box[1])), []).append(letter.box)
        lost = 0
        for box in boxes:
            cell = (round(box[0]), round(box[1]))
            near = [b for dx in (-1, 0, 1) for dy in (-1, 0, 1) for b in grid.get((cell[0] + dx, cell[1] + dy), [])]
            lost += not any(all(abs(a - b) < 0.2 for a, b in zip(box, other)) for other in near)
        # A ligature is one outline and several characters: pdfium cuts it into shares.
        spare = sum(max(4, len(letter.text)) for letter in ours if len(letter.text) > 1)
        if lost > spare or not boxes and ours:
            faults.append(f"page {page.number}: pdfium sees {lost} of {len(boxes)} letters elsewhere")
    return faults
