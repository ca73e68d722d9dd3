"""Sound packets broken on purpose: each fault has to be seen by the rule that it breaks."""

import argparse
import pathlib
import re
import sys

sys.path.insert(0, str(pathlib.Path(__file__).parent))

import pikepdf  # noqa: E402
from pikepdf import Operator  # noqa: E402

import drawings  # noqa: E402, F401
import paper  # noqa: E402
import procedure  # noqa: E402, F401
import safety  # noqa: E402, F401
import tables  # noqa: E402, F401
import type_rules  # noqa: E402, F401
from rules import RULES  # noqa: E402
from sheets import load  # noqa: E402

MM = 72 / 25.4


def edit(pdf, number, change):
    """Rewrites the content of a page: `change` gets the list of (operands, operator) and alters it."""
    page = pdf.pages[number - 1]
    steps = [(list(operands), str(operator)) for operands, operator in pikepdf.parse_content_stream(page)]
    change(steps)
    page.Contents = pdf.make_stream(pikepdf.unparse_content_stream([(o, Operator(w)) for o, w in steps]))


def element(pdf, kind, where=lambda e: True):
    return next(o for o in pdf.objects if isinstance(o, pikepdf.Dictionary) and o.get("/S") == kind and where(o))


def mutations(view):
    """What is broken, the rules of which one at least has to see it, and how."""
    step = view.steps[0].pages[0]
    template = paper.templates(view)[0].number

    def no_alt(pdf):
        element(pdf, "/Figure")["/Alt"] = pikepdf.String("")

    def wrong_tag(pdf):
        # One with words of its own, not one that holds a box to tick.
        element(pdf, "/TD", lambda e: isinstance(e.get("/K"), int)).S = pikepdf.Name("/P")

    def wrong_level(pdf):
        element(pdf, "/H1").S = pikepdf.Name("/H3")

    def no_scope(pdf):
        del element(pdf, "/TH")["/A"]

    def small(pdf):
        def change(steps):
            at = [i for i, (o, w) in enumerate(steps) if w == "Tf" and float(o[1]) == 11][0]
            steps[at][0][1] = 8
        edit(pdf, step, change)

    def small_action(pdf):
        def change(steps):
            for o, w in steps:
                if w == "Tf" and float(o[1]) == 14:
                    o[1] = 12
        edit(pdf, step, change)

    def thin(pdf):
        def change(steps):
            at = [i for i, (o, w) in enumerate(steps) if w == "w"][0]
            steps[at][0][0] = 0.1 * MM
        edit(pdf, step, change)

    def over(pdf):
        def change(steps):
            # The second text of a block takes the place of the first.
            at = [i for i, (o, w) in enumerate(steps) if w == "Td" and i and steps[i - 1][1] in ("Tj", "TJ") and float(o[1]) < -10]
            steps[at[0]][0][1] = -4
        edit(pdf, step, change)

    def fingerprint(pdf):
        def change(steps):
            # Two letters of it change places.
            line = next(l for l in view.furniture_lines(view.pages[step - 1]) if re.fullmatch(r"[A-Z2-9]{4}\s[A-Z2-9]{4}", l.text.strip()))
            shown = [i for i, (_, w) in enumerate(steps) if w in ("Tj", "TJ")]
            last = shown[line.letters[0].run - 1]
            o, w = steps[last]
            size = line.letters[0].face.code
            pieces = [o[0]] if w == "Tj" else list(o[0])
            at = next(i for i, p in enumerate(pieces) if isinstance(p, pikepdf.String) and len(bytes(p)) >= 2 * size)
            data = bytes(pieces[at])
            codes = [data[i:i + size] for i in range(0, len(data), size)]
            pair = next(i for i, (one, two) in enumerate(zip(codes, codes[1:])) if one != two)
            codes[pair:pair + 2] = codes[pair + 1], codes[pair]
            turned = b"".join(codes)
            pieces[at] = pikepdf.String(turned)
            steps[last] = (pieces, "Tj") if w == "Tj" else ([pikepdf.Array(pieces)], w)
        edit(pdf, step, change)

    def page_lost(pdf):
        del pdf.pages[len(pdf.pages) - 1]

    def short_bar(pdf):
        def change(steps):
            for i, (o, w) in enumerate(steps):
                if w == "l" and steps[i - 1][1] == "m":
                    x, y = (float(v) for v in steps[i - 1][0])
                    for axis in (0, 1):
                        if abs(abs(float(o[axis]) - (x, y)[axis]) - 200 * MM) < 0.2:
                            start = steps[i - 1][0]
                            start[axis] = float(start[axis]) + (MM if float(o[axis]) > (x, y)[axis] else -MM)
                            return
            raise LookupError("no bar of 200 mm")
        edit(pdf, template, change)

    def scaled(pdf):
        del pdf.Root.ViewerPreferences["/PrintScaling"]

    def added(operators):
        def mutate(pdf):
            def change(steps):
                steps[0:0] = [(list(o), w) for o, w in operators]
            edit(pdf, step, change)
        return mutate

    artifact = ([pikepdf.Name("/Artifact"), pikepdf.Dictionary(Type=pikepdf.Name("/Layout"))], "BDC")
    hue = added([artifact, ([1, 0, 0], "rg"), ([300, 400, 20, 20], "re"), ([], "f"), ([0], "g"), ([], "EMC")])
    bound = added([artifact, ([1.417], "w"), ([10 * MM, 300], "m"), ([10 * MM, 400], "l"), ([], "S"), ([], "EMC")])
    edge = added([artifact, ([1.417], "w"), ([200, 3 * MM], "m"), ([300, 3 * MM], "l"), ([], "S"), ([], "EMC")])
    untagged = added([([300, 400, 20, 20], "re"), ([], "f")])

    def number_changed(pdf):
        # An action loses its place: the next list item comes first.
        body = next(e for e in pdf.objects if isinstance(e, pikepdf.Dictionary) and e.get("/S") == "/L" and len(e.K) > 3
                    and any("box to tick" in str(k.get("/Alt", "")) for k in label(e)))
        kids = list(body.K)
        kids[0], kids[1] = kids[1], kids[0]
        body.K = pikepdf.Array(kids)

    def label(listed):
        first = listed.K[0].K[0].get("/K", [])
        return [k for k in (list(first) if isinstance(first, pikepdf.Array) else [first]) if isinstance(k, pikepdf.Dictionary)]

    return [
        ("a text taken from a figure", {60}, no_alt),
        ("a wrong tag", {60}, wrong_tag),
        ("a heading two levels down", {60}, wrong_level),
        ("a head cell without scope", {60}, no_scope),
        ("something untagged", {60}, untagged),
        ("a text of 8 pt", {3}, small),
        ("actions of 12 pt", {1}, small_action),
        ("a line of 0.1 mm", {35}, thin),
        ("a text moved over another", {0}, over),
        ("a fingerprint changed on one page", {54}, fingerprint),
        ("the last page lost", {54}, page_lost),
        ("a bar of 199 mm", {46}, short_bar),
        ("scaling left to the printer", {50}, scaled),
        ("a red square", {12}, hue),
        ("a line in the bound margin", {52}, bound),
        ("a line 3 mm from the edge", {48}, edge),
        ("two actions changed about", {22}, number_changed),
    ]


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("file", type=pathlib.Path)
    parser.add_argument("--work", type=pathlib.Path, required=True)
    options = parser.parse_args()
    view = load(options.file)
    sound = {rule.number: [f.text for f in rule.check(view) if f] for rule in RULES}
    blind = 0
    for place, (what, expected, mutate) in enumerate(mutations(view)):
        target = options.work / f"broken-rule-{place}.pdf"
        with pikepdf.open(options.file) as pdf:
            mutate(pdf)
            pdf.save(target, fix_metadata_version=False)
        changed = load(target)
        seen = [f for rule in RULES if rule.number in expected for f in rule.check(changed) if f and f.text not in sound[rule.number]]
        blind += not seen
        said = f"page {seen[0].page}: {seen[0].text[:90]}" if seen else "NOT SEEN"
        print(f"  broken on purpose, {what}: rule {', '.join(map(str, expected))}: {said}")
        target.unlink()
    print("broken on purpose: all seen" if not blind else f"broken on purpose: {blind} not seen")
    return 1 if blind else 0


if __name__ == "__main__":
    sys.exit(main())
