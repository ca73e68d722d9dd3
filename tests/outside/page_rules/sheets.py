"""What a packet's pages and tags mean: kinds of page, steps, actions, messages, tables, drawings."""

import re
from dataclasses import dataclass, field
from functools import cached_property

import reader
from reader import Node, joined, lines_of

SIGNALS = ("DANGER", "WARNING", "CAUTION", "NOTICE")
SYMBOLS = re.compile(r"^(box to tick|blank to fill in|.* sign, ISO )")
NBSP = "\u00a0\u202f\u2007\u2009"


def plain(text):
    """Text with every kind of space as a space."""
    return re.sub(r"\s+", " ", text).strip()


def running(lines):
    """Text of lines, with words whole again that were broken at their hyphen ("one- and two-part" is none)."""
    return re.sub(r"(?<=[a-z])- (?!and |or )(?=[a-z])", "-", plain(" ".join(line.text for line in lines)))


def count_words(text):
    """Words: number and unit are one, an id is one, a hyphenated compound is one, signs are none."""
    text = re.sub(r"(?<=\d)[" + NBSP + r"](?=\S)", "", text)
    return sum(bool(re.search(r"\w", word)) for word in text.split())


def sentences(text):
    """Sentences; a colon or semicolon ends one for the count."""
    parts = re.split(r"(?<=[.!?])\s+(?=[A-Z“(])|[:;]\s+", plain(text))
    return [part for part in parts if part]


@dataclass(eq=False)
class Action:
    node: Node
    number: str
    boxes: list
    lines: list
    rest: list
    pages: set
    page: int

    @property
    def text(self):
        return plain(" ".join(line.text for line in self.lines))

    @property
    def raw(self):
        return " ".join(line.text.strip(" ") for line in self.lines)

    @property
    def done(self):
        return plain(" ".join(line.text for line in self.rest))


@dataclass(eq=False)
class Message:
    node: Node
    word: str
    parts: list
    sign: Node | None
    page: int
    box: tuple


@dataclass(eq=False)
class Hold:
    node: Node
    text: str
    blanks: list
    page: int


@dataclass(eq=False)
class Sheet:
    node: Node
    title: str
    kind: str
    pages: list
    events: list = field(default_factory=list)


class View:
    """A packet with its meaning."""

    def __init__(self, packet):
        self.packet, self.pages = packet, packet.pages
        self.set, self.texts = {}, {}
        self.kinds = {page.number: self.tab(page) for page in self.pages}

    def letters(self, node):
        return [letter for mark in node.marks() for letter in self.packet.by_mark.get(id(mark), [])]

    def strokes(self, node):
        return [s for mark in node.marks() for s in self.packet.by_mark.get(("s", id(mark)), [])]

    def lines(self, node):
        if node not in self.set:
            self.set[node] = lines_of(self.letters(node))
        return self.set[node]

    def text(self, node):
        if node not in self.texts:
            self.texts[node] = running(self.lines(node))
        return self.texts[node]

    def page_of(self, node):
        mark = next(node.marks(), None)
        return mark.page if mark else None

    def box(self, node):
        boxes = [l.box for l in self.letters(node) if l.box] + [s.box for s in self.strokes(node)]
        return joined(boxes)

    @staticmethod
    def tab(page):
        """The word on the tab: white, turned, in furniture."""
        word = "".join(l.text for l in page.letters if l.mark and l.mark.artifact and l.angle and l.grey > 0.9)
        return plain(word)

    def identity(self, page):
        """The line at the foot, left to right."""
        foot = [l for l in page.letters if l.mark and l.mark.artifact == "Pagination" and not l.angle and l.y > page.height - 20]
        return plain(" ".join(line.text for line in sorted(lines_of(foot), key=lambda line: line.x)))

    def drawings(self):
        """Figures that are drawings, not boxes, blanks and signs."""
        return [n for n in self.packet.nodes if n.role == "Figure" and not SYMBOLS.match(n.alt or "")]

    def figure_lines(self, node):
        return self.lines(node)

    @cached_property
    def sheets(self):
        found = []
        for node in self.packet.tree.kids:
            if isinstance(node, Node) and node.role == "Sect":
                pages = sorted({m.page for m in node.marks()})
                title = next((self.text(n) for n in node.walk() if n.role == "H1"), "")
                sheet = Sheet(node, title, self.kinds.get(pages[0], "") if pages else "", pages)
                self.events(node, sheet.events)
                found.append(sheet)
        return found

    @cached_property
    def handed_over(self):
        """Sheets that lie before a step handed over alone: what must be so, names, what can hurt. They hold no
        actions, so rules of a step's sheet say nothing of them."""
        return [s for s in self.sheets if s.kind == "Step" and re.match(r"Hand over \d+: ", s.title)]

    @cached_property
    def steps(self):
        return [s for s in self.sheets if s.kind == "Step" and s not in self.handed_over]

    @cached_property
    def picked(self):
        """Only some sheets of a packet, as `--only` and `--step` print them: the cover, which lists all, is not there.
        Rules that join one sheet to another hold for the whole packet."""
        return "Cover" not in self.kinds.values()

    @cached_property
    def actions(self):
        return [e for s in self.steps for e in s.events if isinstance(e, Action)]

    @cached_property
    def messages(self):
        return [e for s in self.sheets for e in s.events if isinstance(e, Message)]

    @cached_property
    def tables(self):
        return [n for n in self.packet.nodes if n.role == "Table"]

    def events(self, node, out):
        for kid in node.kids:
            if not isinstance(kid, Node):
                continue
            if message := self.as_message(kid):
                out.append(message)
            elif hold := self.as_hold(kid):
                out.append(hold)
            elif action := self.as_action(kid):
                out.append(action)
            elif kid.role == "Figure":
                out.append(kid)
            else:
                self.events(kid, out)

    def as_message(self, node):
        kids = [k for k in node.kids if isinstance(k, Node)]
        words = [k for k in kids if k.role == "P"]
        if node.role not in ("Div", "Sect") or not words or self.text(words[0]) not in SIGNALS:
            return None
        sign = next((n for n in node.walk() if n.role == "Figure"), None)
        return Message(node, self.text(words[0]), words[1:], sign, self.page_of(node), self.box(node))

    def as_hold(self, node):
        kids = [k for k in node.kids if isinstance(k, Node) and k.role == "P"]
        if node.role != "Div" or not kids or not self.text(kids[0]).startswith("Hold"):
            return None
        blanks = [n for n in node.walk() if n.role == "Figure"]
        return Hold(node, self.text(node), blanks, self.page_of(node))

    def as_action(self, node):
        if node.role != "LI":
            return None
        label = next((k for k in node.kids if isinstance(k, Node) and k.role == "Lbl"), None)
        body = next((k for k in node.kids if isinstance(k, Node) and k.role == "LBody"), None)
        if not label or not body or not any((n.alt or "").startswith("box to tick") for n in label.walk()):
            return None
        lines = self.lines(body)
        if not lines:
            return None
        left, size = lines[0].x, lines[0].size
        own, rest = [], []
        for line in lines:
            (own if abs(line.x - left) < 0.4 and abs(line.size - size) < 0.1 and not rest else rest).append(line)
        boxes = [n for n in label.walk() if n.role == "Figure"]
        pages = {m.page for m in node.marks()}
        return Action(node, self.text(label), boxes, own, rest, pages, min(pages))

    def rows(self, table):
        """Rows of a table as lists of cells."""
        return [[k for k in row.kids if isinstance(k, Node) and k.role in ("TH", "TD")] for row in table.walk() if row.role == "TR"]

    def furniture_lines(self, page):
        return lines_of([l for l in page.letters if l.mark and l.mark.artifact])


def load(path):
    return View(reader.read(path))
