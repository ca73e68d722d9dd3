"""Rules 14 to 28: how work is told."""

import re

from reader import Node, joined
from rules import Fault, rule, words
from sheets import NBSP, Action, Hold, Message, count_words, plain, sentences

VERBS = words("verbs")
BREAKS = words("function") | words("finite")
NOUNS = words("nouns")
NUMBER = r"[−-]?\d[\d" + NBSP + r" ]*(?:\.\d+)?"


def clause(text):
    """The instruction behind an IF or WHEN clause."""
    return text.split(", ", 1)[1] if re.match(r"(IF|WHEN|If|When)\b", text) and ", " in text else text


def first_word(text):
    said = re.match(r"[A-Za-z-]+", text)
    return said[0].lower() if said else ""


@rule(14, "actions of 20 words or fewer")
def short_actions(view):
    for action in view.actions:
        yield None
        if (count := count_words(action.raw)) > 20:
            yield Fault(action.page, f"action {action.number}: {count} words")


@rule(15, "an action is one sentence with one approved verb, first or behind IF or WHEN")
def one_verb(view):
    for action in view.actions:
        yield None
        told = clause(action.text)
        if len(sentences(action.text)) != 1 or not action.text.endswith("."):
            yield Fault(action.page, f"action {action.number}: not one sentence: {action.text}")
        if first_word(told) not in VERBS:
            yield Fault(action.page, f"action {action.number}: begins with {first_word(told)!r}")
        for join, word in re.findall(r"\b(and|then|or)\s+([a-z-]+)", told):
            if word in VERBS - NOUNS:
                yield Fault(action.page, f"action {action.number}: a second verb, {word}: {told}")


def prose(view):
    """Paragraphs, list texts and cells that are not actions: (page, node, text)."""
    actions = {id(a.node) for a in view.actions}
    for node in view.packet.nodes:
        if node.role in ("P", "LBody", "TD", "TH", "Caption") and id(node.parent) not in actions:
            if text := view.text(node):
                yield view.page_of(node), node, text


@rule(16, "sentences of 25 words or fewer, paragraphs of 6 sentences or fewer")
def short_notes(view):
    for page, node, _ in prose(view):
        yield None
        text = " ".join(line.text.strip(" ") for line in view.lines(node))
        told = re.split(r"(?<=[.!?])\s+(?=[A-Z“(])|[:;]\s+| · ", text)
        count = len(re.findall(r"[.!?](?=\s+[A-Z“(]|$)", plain(text)))
        if count > 6:
            yield Fault(page, f"{count} sentences: {plain(text)[:90]}")
        for sentence in told:
            if count_words(sentence) > 25:
                yield Fault(page, f"{count_words(sentence)} words: {plain(sentence)[:160]}")


@rule(17, "no cluster of over three nouns; one name for a part",
      "a cluster is a run of words that are neither of the list of function words nor of verb form")
def nouns(view):
    for page, text in texts(view):
        yield None
        for part in re.split(r"[,.;:()·–—/=×]|\d\S*", text):
            cluster = []
            for word in [*part.split(), "the"]:
                if re.fullmatch(r"[a-z][a-z-]+", word) and word not in BREAKS and not re.search(r"(ed|ly|n’t|ing)$", word):
                    cluster.append(word)
                    continue
                if len(cluster) > 3:
                    yield Fault(page, f"{' '.join(cluster)} in {part.strip()[:100]!r}")
                cluster = []
    names = part_names(view)
    heads = {name.split()[-1] for name in names.values()}
    for page, text in texts(view):
        for word, mark in re.findall(r"\b([a-z]+) ([A-Z]\d+)\b", text):
            if mark in names and word in heads and word != names[mark].split()[-1]:
                yield Fault(page, f"{word} {mark} is called {names[mark]} in the cut list: {text[:90]}")


def texts(view):
    for node in view.packet.nodes:
        if node.role in ("P", "LBody", "TD", "TH", "H1", "H2", "H3", "Caption"):
            if text := view.text(node):
                yield view.page_of(node), text


def part_names(view):
    """Mark to name, from the cut list."""
    names = {}
    for table in view.tables:
        if view.kinds.get(view.page_of(table)) != "Cut":
            continue
        rows = view.rows(table)
        head = [view.text(cell) for cell in rows[0]] if rows else []
        if "mark" in head and "name" in head:
            for row in rows[1:]:
                said = [view.text(cell) for cell in row]
                if len(said) == len(head):
                    names[said[head.index("mark")]] = said[head.index("name")]
    return names


@rule(18, "no imperative aimed at the work in notes, cautions and cells; warnings hold the avoiding act alone",
      "a sentence that begins with an approved verb")
def no_hidden_action(view):
    avoid = {id(part) for message in view.messages for part in message.parts[-1:]}
    steps = tuple(sheet.title for sheet in view.steps)
    for page, node, text in prose(view):
        if id(node) in avoid or text.startswith(steps) or text.startswith("Hold"):
            continue
        if node.role in ("TD", "TH") and view.kinds.get(page) == "Timeline" and not text.endswith("."):
            continue  # the name of a piece of work in the plan
        if any(node in sheet.node.walk() for sheet in view.handed_over) and re.search(r": done(;|$)", text):
            continue  # the name of a step that has to be done before, and its state
        yield None
        for sentence in re.split(r"(?<=[.!?])\s+|; ", text):
            verb = first_word(clause(sentence))
            lone = len(sentence.split()) < 3
            if verb in VERBS and sentence[:1].isupper() and not lone:
                yield Fault(page, f"{sentence[:120]}")


@rule(19, "a message stands before its action, on its page, with no action between")
def messages_before(view):
    for sheet in view.steps:
        for place, event in enumerate(sheet.events):
            if not isinstance(event, Message):
                continue
            yield None
            after = next((e for e in sheet.events[place + 1:] if isinstance(e, Action)), None)
            if not after:
                yield Fault(event.page, f"{event.word} has no action behind it on sheet {sheet.title!r}")
            elif after.page != event.page:
                yield Fault(event.page, f"{event.word} before action {after.number} of page {after.page}")
            elif event.box and after.lines[0].y < event.box[1]:
                yield Fault(event.page, f"{event.word} is drawn under action {after.number}")


@rule(20, "no action split over pages; a figure on a page of its step")
def not_split(view):
    for sheet in view.steps:
        first = {e.page for e in sheet.events if isinstance(e, Action)}
        for event in sheet.events:
            yield None
            if isinstance(event, Action) and len(event.pages) > 1:
                yield Fault(event.page, f"action {event.number} on pages {sorted(event.pages)}")
            if isinstance(event, (Message, Hold)) and len({m.page for m in event.node.marks()}) > 1:
                yield Fault(event.page, f"split: {view.text(event.node)[:60]}")
            if isinstance(event, Node) and (page := view.page_of(event)) not in first:
                yield Fault(page, f"a figure without an action on its page: {(event.alt or '')[:70]}")


@rule(21, "7 actions or fewer a page, 9 or fewer between pauses")
def few(view):
    pages = {}
    for action in view.actions:
        yield None
        pages[action.page] = pages.get(action.page, 0) + 1
    for page, count in pages.items():
        if count > 7:
            yield Fault(page, f"{count} actions")
    for sheet in view.steps:
        run, last = 0, None
        for event in sheet.events:
            if isinstance(event, Hold):
                run = 0
            elif isinstance(event, Action):
                run, last = run + 1, event
                if run == 10:
                    yield Fault(event.page, f"{sheet.title}: action {event.number} is the tenth without a hold")


@rule(22, "a tick box of 5 mm or more at the left of each action, numbers run on")
def boxes_and_numbers(view):
    expected, home = None, {id(e): sheet for sheet in view.steps for e in sheet.events}
    sheet = None
    for action in view.actions:
        yield None
        if view.picked and home[id(action)] is not sheet:
            # Numbers are those of the whole packet: within a step they run on, steps between may be left out.
            sheet, expected = home[id(action)], None
        for box in action.boxes:
            if not box.bbox or min(box.bbox[2] - box.bbox[0], box.bbox[3] - box.bbox[1]) < 5 - 0.01:
                yield Fault(action.page, f"action {action.number}: tick box {box.bbox}")
            elif box.bbox[2] > action.lines[0].x:
                yield Fault(action.page, f"action {action.number}: tick box right of its text")
        if not action.number.isdigit():
            yield Fault(action.page, f"action without a number: {action.text[:60]}")
            continue
        if expected is not None and int(action.number) != expected:
            yield Fault(action.page, f"action {action.number} where {expected} is due")
        expected = int(action.number) + 1
    if view.actions and not view.picked and view.actions[0].number != "1":
        yield Fault(view.actions[0].page, f"the first action is {view.actions[0].number}")


# What cannot be undone: holes and cuts in what stays, joints that cure, first power.
GRAVE = re.compile(r"(Drill|Cut|Saw|Peel|Stick|Prime|Connect|Close) ")


@rule(23, "a hold line with initials, date and time before what cannot be undone",
      "sheets whose actions drill, cut, bond or connect, by their verbs")
def holds(view):
    for sheet in view.steps:
        held = None
        for event in sheet.events:
            if isinstance(event, Hold):
                yield None
                held = event
                said = [(n.alt or "").removeprefix("blank to fill in").strip(": ") for n in event.blanks]
                for blank in ("initials", "date", "time"):
                    if blank not in said:
                        yield Fault(event.page, f"no blank for {blank}: {event.text[:60]}")
            elif isinstance(event, Action) and GRAVE.match(clause(event.text)) and held is None:
                yield Fault(event.page, f"no hold on sheet {sheet.title!r} before action {event.number}: {event.text}")
                held = False


@rule(24, "each action says when it is done; limits are low and high with a unit")
def done_when(view):
    for action in view.actions:
        yield None
        count = re.search(r"\b(\d+) \1$", action.done)  # so many and no other number: a count has no unit
        if re.search(rf"{NUMBER} {NUMBER}\s*$", action.done) and not count:
            yield Fault(action.page, f"action {action.number}: limits without a unit: {action.done}")
        if not action.done and not blanks(action):
            yield Fault(action.page, f"action {action.number}: no state and no limits: {action.text}")


def blanks(action):
    return [n for n in action.node.walk() if n.role == "Figure" and n not in action.boxes]


@rule(25, "blanks for measured values 10 mm high, 35 mm wide or more, unit behind")
def measured(view):
    for node in view.packet.nodes:
        if node.role != "Figure" or not (node.alt or "").startswith("blank to fill in") or not node.bbox:
            continue
        page = view.pages[view.page_of(node) - 1]
        left, top, right, bottom = node.bbox
        behind = [l for l in page.letters if l.box and l.text.strip() and top - 1 < l.y < bottom + 1 and 0 < l.x - right < 3]
        if not behind:
            continue  # not for a value: a name, a date, initials
        yield None
        if bottom - top < 10 - 0.01 or right - left < 35 - 0.01:
            unit = "".join(l.text for l in behind)
            yield Fault(page.number, f"{right - left:.1f} × {bottom - top:.1f} mm before {unit!r}: {node.alt}")


@rule(26, "a wait says how long, has a blank for the earliest clock time, and its condition")
def waits(view):
    for action in view.actions:
        if not action.text.startswith("Wait"):
            continue
        yield None
        if not re.search(r"\d\s?(h|min|days?)\b", action.text + action.done):
            yield Fault(action.page, f"action {action.number}: no duration: {action.text}")
        if not blanks(action):
            yield Fault(action.page, f"action {action.number}: no blank for the clock")
        if not re.search(r"°C|%", action.done) and not re.search(r"\bbefore\b.*\bdry|touch", action.text):
            yield Fault(action.page, f"action {action.number}: no temperature or humidity: {action.done}")


@rule(27, "lists say READ-DO or DO-CONFIRM; the last line says complete and what is next")
def list_ends(view):
    for sheet in view.steps:
        yield None
        said = view.text(sheet.node)
        if not re.search(r"READ-DO|DO-CONFIRM", said):
            yield Fault(sheet.pages[0], f"{sheet.title}: neither READ-DO nor DO-CONFIRM")
        last = next((view.text(n) for n in reversed(list(sheet.node.walk())) if n.role == "P" and view.text(n)), "")
        if not re.match(r"List complete\..*\b(sheet|Next|end)", last):
            yield Fault(sheet.pages[-1], f"{sheet.title} ends with {last[:80]!r}")


@rule(28, "label to value 25 mm or less, or bridged by dots or a row rule")
def gaps(view):
    for table in view.tables:
        rows = view.rows(table)
        tall = [joined([b for cell in row if (b := view.box(cell))]) for row in rows]
        for place, row in enumerate(rows):
            boxes = [(view.box(cell), view.page_of(cell)) for cell in row if view.box(cell)]
            for (one, page), (two, page_two) in zip(boxes, boxes[1:]):
                if page != page_two or two[0] - one[2] <= 25:
                    continue
                yield None
                # A rule serves the rows of its group, two up or down (rule 58 has one every 3 to 5 rows).
                near = [tall[i] for i in range(max(0, place - 2), min(len(rows), place + 3)) if tall[i] and view.page_of(rows[i][0]) == page]
                reach = (min(b[1] for b in near) - 3, max(b[3] for b in near) + 3) if near else (one[1] - 3, one[3] + 3)
                if not ruled(view.pages[page - 1], one, two, reach):
                    yield Fault(page, f"{two[0] - one[2]:.0f} mm: {' | '.join(view.text(c) for c in row)[:100]}")
    for node in view.packet.nodes:
        if node.role != "LI":
            continue
        kids = [k for k in node.kids if isinstance(k, Node)]
        if len(kids) == 2 and all(view.box(k) for k in kids) and view.page_of(kids[0]) == view.page_of(kids[1]):
            one, two = view.lines(kids[0])[-1:], view.lines(kids[1])[:1]
            if one and two and abs(one[0].y - two[0].y) < 0.1 and two[0].x - one[0].box[2] > 25:
                yield None
                page = view.pages[view.page_of(node) - 1]
                dots = [l for l in page.letters if l.text == "." and abs(l.y - one[0].y) < 0.5 and one[0].box[2] < l.x < two[0].x]
                dots += [s for s in page.strokes if s.dash and abs(s.box[1] - one[0].y) < 1 and s.box[0] < two[0].x and s.box[2] > one[0].box[2]]
                if not dots:
                    yield Fault(page.number, f"no dots: {view.text(node)[:80]}")


def ruled(page, one, two, reach):
    """A rule from label to value at a height within reach."""
    return any(s.width and s.box[3] - s.box[1] < 0.1 and s.box[0] < one[2] and s.box[2] > two[0] and reach[0] < s.box[1] < reach[1]
               for s in page.strokes)
