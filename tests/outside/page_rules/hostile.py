"""Build files with texts and amounts that nobody expects, on the way that every build takes.

Each has to end in findings of its own or in a packet in which every rule of soundness holds: no letter on
another, nothing outside the live area, marks and tags whole, identity on each sheet. Never in a crash.
"""

import argparse
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import tomllib
from concurrent.futures import ProcessPoolExecutor

sys.path.insert(0, str(pathlib.Path(__file__).parent))

import drawings  # noqa: E402, F401
import paper  # noqa: E402, F401
import procedure  # noqa: E402, F401
import reader  # noqa: E402
import safety  # noqa: E402, F401
import tables  # noqa: E402, F401
import type_rules  # noqa: E402, F401
from rules import RULES  # noqa: E402
from sheets import load  # noqa: E402

# Rules that no text and no amount may break; the others depend on what the words say.
SOUND = {0, 3, 6, 10, 12, 20, 22, 35, 46, 48, 52, 53, 60}

with open(pathlib.Path(__file__).parent / "exceptions.toml", "rb") as listed:
    KNOWN = tomllib.load(listed)["exception"]

TEXTS = {
    "right-to-left text": "שלום עולם abc مرحبا ٣٤",
    "combining marks": "e\u0301\u0301\u0301\u0301 Z\u030a\u0327\u0336\u0489 \u0301",
    "emoji": "van 🚐👨\u200d👩\u200d👧\u200d👦🇩🇪☀\ufe0f",
    "turned about": "abc\u202edef\u202c ghi\u200f",
    "unseen": "a\u200bb\ufeffc\u00add",
    "control characters": "a\u0007b\u001bc",
    "far scripts": "漢字 ಕನ್ನಡ \U0010ffff\ue000\ufffd",
    "one long word": "W" * 90,
    "brackets": "<b>&amp;</b> \\(x) {y} %s $HOME",
}

# Where the reader's own words stand in a build file: (name, pattern of the line, what replaces it).
FIELDS = [
    ("title", r'(?m)^title = "Field van solar roof"$', "title = {}"),
    ("by", r'(?m)^by = "expedition workshop"$', "by = {}"),
    ("number", r'(?m)^number = "FV-0526"$', "number = {}"),
    ("vehicle", r'(?m)^name = "botanist\'s field van"$', "name = {}"),
    ("behind the roof", r'(?m)^behind-roof = .*$', "behind-roof = [{}]"),
    ("datum", r'(?m)^datum = .*$', "datum = {}"),
    ("keep-out", r'(?m)^name = "roof vent"$', "name = {}"),
    ("mount", r'(?m)^name = "bonded foot"$', "name = {}"),
    ("leftover", r'(?m)^label = .*$', "label = {}"),
    ("place of the battery", r'(?m)^place = .*$', "place = {}"),
    ("circuit", r'(?m)^name = "roof to controller"$', "name = {}"),
]


def quoted(text):
    """A TOML string with every unusual character escaped."""
    return '"' + "".join(c if 32 <= ord(c) < 127 and c not in '"\\' else f"\\U{ord(c):08x}" for c in text) + '"'


def put(build, field, text):
    name, pattern, line = field
    if name == "number":
        text = text.replace(" ", "")  # the identity line is read up to its first space
    changed, count = re.subn(pattern, lambda _: line.format(quoted(text)), build)
    if count != 1:
        raise LookupError(f"{name} stands {count} times in the example")
    return changed


def step(title, action):
    return f'\n[[step]]\ntitle = {quoted(title)}\nactions = [{quoted(action)}]\ntime = "20 min"\n'


def part(holes):
    lines = ['\n[[part]]\nmark = "Q"\nname = "full plate"\nsection = "steel-flat-90x3"\nlength = 900\n']
    for i in range(holes):
        lines.append(f'\n[[hole]]\npart = "Q"\nface = "top"\nx = {20 + i % 50 * 17}\ny = {8 + i // 50 * 8}\ndiameter = 3\npurpose = "clearance"\n')
    return "".join(lines)


def cases(build):
    """(name, build file)"""
    yield "a title of 10 000 characters", put(build, FIELDS[0], "Set the feet " * 770)
    yield "a title of 25 letters W", put(build, FIELDS[0], "W" * 25)
    yield "an action of 200 words", build + step("Press the seal", "Press " + "the seal down " * 66 + "now.")
    yield "an own step in another script", build + step("שלום", "Check مرحبا the lamp 🚐.")
    yield "a drawing of 500 holes and its tiles", build + part(500)
    yield "a table of 320 rows, small parts", build + '\n[[part]]\nmark = "Q"\nname = "small clip"\nsection = "aluminium-angle-30x30x3"\nlength = 20\ncount = 320\n' \
        + '\n[[stock]]\nsection = "aluminium-angle-30x30x3"\nlength = 2000\nprice = "9.10"\n'
    keep = "".join(f'\n[[roof.keep-out]]\nname = "rib {i}"\nx = {20 + i % 40 * 3}\ny = {-790 + i // 40 * 5}\nlength = 2\nwidth = 2\nheight = 3\n' for i in range(300))
    yield "a drawing of 300 keep-outs", build.replace("\n[weather]", keep + "\n[weather]", 1)


def run(program, *words, given):
    done = subprocess.run([program, *words], input=given, capture_output=True, text=True, errors="replace", timeout=300)
    said = done.stdout + done.stderr
    crashed = done.returncode not in (0, 1) or "panicked" in said
    return done.returncode, said, crashed


def unsound(view):
    """Faults of soundness that are not on the list of what is known."""
    return [(rule.number, f) for rule in RULES if rule.number in SOUND for f in rule.check(view)
            if f and not any(
                e["rule"] == rule.number and "packet" not in e and re.search(e["fault"], f.text) for e in KNOWN)]


def packet(program, text, work):
    """Prints a build file: the packet, or what was said instead of one as a fault."""
    with tempfile.TemporaryDirectory(dir=work) as folder:
        target = pathlib.Path(folder) / "hostile.pdf"
        status, said, crashed = run(program, "print", "-", "-o", target, given=text)
        if crashed:
            return None, f"NO: status {status}: {said.strip()[-300:]}"
        if status == 1:
            told = re.findall(r"\b[A-Z]\d{3}\b", said)
            return None, f"told of: {', '.join(sorted(set(told)))}" if told else f"NO: refused without a finding: {said[-200:]}"
        view = load(target)
        return ([(number, f.page, f.text) for number, f in unsound(view)], reader.agreement(view.packet), len(view.pages)), ""


def printed(asked):
    """What is said of a build file whose packet has to be sound but for what the example itself breaks."""
    name, text, program, work, known = asked
    made, said = packet(program, text, work)
    if made is None:
        return [(name, said)]
    found, apart, pages = made
    faults = [f"rule {number}: page {page}: {text[:120]}" for number, page, text in found if (number, text) not in known] + apart
    return [(name, "NO: " + "; ".join(faults[:4]) + f" ({len(faults)})" if faults else f"a sound packet of {pages} sheets")]


def everywhere(asked):
    """A text in every field; in those that take it where not all do."""
    what, text, build, program, work, known = asked
    told, whole, taken = [], build, []
    for field in FIELDS:
        whole = put(whole, field, text)
    status, said, crashed = run(program, "check", "-", given=whole)
    if not crashed and status == 0:
        return printed((f"{what} in every field", whole, program, work, known))
    whole = build
    for field in FIELDS:
        status, said, crashed = run(program, "check", "-", given=put(build, field, text))
        if crashed:
            told.append((f"{what} as {field[0]}", f"NO: status {status}: {said.strip()[-300:]}"))
        elif status == 0:
            whole, taken = put(whole, field, text), [*taken, field[0]]
    if taken:
        return told + printed((f"{what} as {', '.join(taken)}", whole, program, work, known))
    return [*told, (what, "told of in each field")]


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("program", type=pathlib.Path)
    parser.add_argument("build", type=pathlib.Path, help="the field van's build file")
    parser.add_argument("--work", type=pathlib.Path, required=True)
    options = parser.parse_args()
    build, program, failed = options.build.read_text(), options.program.resolve(), 0
    # What the example itself breaks is told by the page rules; here only what a hostile text adds.
    found, _, _ = packet(program, build, options.work)[0]
    known = {(number, text) for number, _, text in found}
    with ProcessPoolExecutor(os.cpu_count()) as pool:
        texts = [pool.submit(everywhere, (what, text, build, program, options.work, known)) for what, text in TEXTS.items()]
        others = [pool.submit(printed, (name, text, program, options.work, known)) for name, text in cases(build)]
        for job in texts + others:
            for name, said in job.result():
                failed += said.startswith("NO:")
                print(f"  {name}: {said}", flush=True)
    print("hostile builds: sound or told of" if not failed else f"hostile builds: {failed} neither sound nor told of")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
