"""Rules 30 to 34: messages about what can hurt."""

import re

from reader import MM
from rules import Fault, rule, words
from sheets import SIGNALS, Action, Hold, Message, count_words

INJURY = words("injury")
SIGN = re.compile(r"(.+) sign, ISO\s7010 ([WPMEF])\d{3}$")
INJURING = ("DANGER", "WARNING", "CAUTION")


@rule(30, "signal words are the four; NOTICE has no triangle and no word of injury",
      "whether the word fits the harm is a matter of the text's author")
def signal_words(view):
    for page in view.pages:
        for line in page.lines():
            if line.size >= 14 and line.text.strip().isupper() and re.fullmatch(r"[A-Z]{5,}", line.text.strip()):
                yield None
                if line.text.strip() not in SIGNALS:
                    yield Fault(page.number, f"signal word {line.text.strip()}")
    for message in view.messages:
        if message.word != "NOTICE":
            continue
        yield None
        if message.sign and (found := SIGN.match(message.sign.alt or "")) and found[2] == "W":
            yield Fault(message.page, f"NOTICE with a triangle: {message.sign.alt}")
        text = " ".join(view.text(part) for part in message.parts).lower()
        for word in re.findall(r"[a-z]+", text):
            if word in INJURY:
                yield Fault(message.page, f"NOTICE tells of {word}: {text[:90]}")


@rule(31, "a message has hazard, consequence and avoidance in 40 words",
      "two sentences or clauses and an avoiding act; their meaning is looked at by eye")
def whole_messages(view):
    for message in view.messages:
        yield None
        told = " ".join(line.text.strip(" ") for part in message.parts for line in view.lines(part))
        text = " ".join(view.text(part) for part in message.parts)
        if len(message.parts) < 2:
            yield Fault(message.page, f"{message.word} in {len(message.parts)} part: {text[:80]}")
        elif len(re.findall(r"[.!?](?:\s|$)|;| and | can ", view.text(message.parts[0]))) < 2:
            yield Fault(message.page, f"hazard without consequence: {view.text(message.parts[0])[:120]}")
        told = re.sub(r"\bSteps? \d+(, \d+)*( and \d+)?\.", "", told)  # where it comes again is no part of it
        if count_words(told) > 40:
            yield Fault(message.page, f"{count_words(told)} words: {text[:80]}")


@rule(32, "DANGER on 2 % of steps or fewer; one DANGER or WARNING above a step")
def rare(view):
    dangers = sum(isinstance(e, Message) and e.word == "DANGER" for s in view.steps for e in s.events)
    if view.actions:
        yield None
        if dangers > 0.02 * len(view.actions):
            yield Fault(None, f"{dangers} DANGER over {len(view.actions)} actions")
    for sheet in view.steps:
        run = 0
        for event in sheet.events:
            if isinstance(event, Message) and event.word in ("DANGER", "WARNING"):
                run += 1
                if run > 1:
                    yield Fault(event.page, f"{sheet.title}: {run} DANGER or WARNING above one action")
            elif isinstance(event, Action):
                run = 0


@rule(33, "signs have ISO 7010 outlines, their number in the alternative text, 10 mm height",
      "outlines are told by ISO 7010 letter, drawn shapes are looked at by eye")
def signs(view):
    for message in view.messages:
        if not message.sign:
            continue
        yield None
        if not SIGN.match(message.sign.alt or ""):
            yield Fault(message.page, f"sign {message.sign.alt!r}")
        high = max((s.box[3] - s.box[1] + (s.width or 0) for s in view.strokes(message.sign)), default=0)
        if high < 10 - 0.01:
            yield Fault(message.page, f"sign of {high:.1f} mm: {message.sign.alt}")


@rule(34, "message text 12 pt, signal word 14 pt bold, border 0.7 mm or more")
def message_type(view):
    for message in view.messages:
        yield None
        word = view.lines(next(n for n in message.node.kids if n.role == "P"))[0]
        if word.size < 14 - 0.01 or "Bold" not in word.letters[0].face.name:
            yield Fault(message.page, f"{message.word} at {word.size:.0f} pt {word.letters[0].face.style}")
        for part in message.parts:
            for line in view.lines(part):
                if line.size < 12 - 0.01:
                    yield Fault(message.page, f"{line.size:.1f} pt: {line.text!r}")
        page, box = view.pages[message.page - 1], message.box
        if message.word == "NOTICE":
            continue  # rules above and below, no panel: section 3 of the standard asks for a plain rule
        around = [s.width for s in page.strokes if s.width and s.box[0] <= box[0] and s.box[1] <= box[1] and s.box[2] >= box[2]
                  and s.box[3] >= box[3] and s.box[3] - s.box[1] < 80]
        if not around or max(around) < 0.7 - 0.005:
            yield Fault(message.page, f"border of {message.word}: {max(around, default=0):.2f} mm")
