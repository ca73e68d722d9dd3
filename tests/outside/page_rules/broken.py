"""Sound packets broken on purpose: each fault has to be seen by the rule that it breaks.

`broken.py FILE.pdf --work FOLDER` breaks page rules; with `--build BUILD.toml` what a reader opens too: links,
labels, outline, wishes, the build file.
"""

import argparse
import contextlib
import io
import pathlib
import re
import sys

sys.path.insert(0, str(pathlib.Path(__file__).parent))

import pikepdf  # noqa: E402
from pikepdf import Operator  # noqa: E402

import drawings  # noqa: E402, F401
import navigation  # noqa: E402
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


def misled():
    """What a reader opens, broken: what, the check that has to see it, words of what it says, and how."""

    def links(pdf):
        return (link for page in pdf.pages for link in page.get("/Annots", []))

    def astray(pdf):
        # The first link of the index leads to the last page.
        next(links(pdf)).Dest[0] = pdf.pages[-1].obj

    def dangling(pdf):
        next(links(pdf)).Dest[0] = pdf.make_indirect(pikepdf.Dictionary(Type=pikepdf.Name("/Page")))

    def no_labels(pdf):
        del pdf.Root["/PageLabels"]

    def shifted(pdf):
        pdf.Root.PageLabels.Nums[1].St = 2

    def no_outline(pdf):
        del pdf.Root["/Outlines"]

    def outline_off(pdf):
        with pdf.open_outline() as tree:
            one, two = tree.root[1], tree.root[2]
            one.title, two.title = two.title, one.title

    def entry_lost(pdf):
        with pdf.open_outline() as tree:
            tree.root.pop()

    def hidden(pdf):
        del pdf.Root["/PageMode"]

    def scaled(pdf):
        del pdf.Root.ViewerPreferences["/PrintScaling"]

    def no_wishes(pdf):
        del pdf.Root["/ViewerPreferences"]

    def untold(pdf):
        del pdf.Root["/Lang"]

    def other_day(pdf):
        pdf.docinfo["/CreationDate"] = "D:19990101000000Z"

    def other_title(pdf):
        pdf.docinfo["/Title"] = "Something else"

    def detached(pdf):
        for name in list(pdf.attachments):
            del pdf.attachments[name]

    def altered(pdf):
        for name in list(pdf.attachments):
            data = pdf.attachments[name].get_file().read_bytes()
            pdf.attachments[name] = pikepdf.AttachedFileSpec(pdf, data + b"\n", filename=name)

    return [
        ("a link of the index that leads elsewhere", "links", "leads to page|calls page", astray),
        ("a link to a page that is not there", "links", "a link to no page", dangling),
        ("page labels left out", "labels", "no page labels", no_labels),
        ("page labels that begin at 2", "labels", "labelled 2", shifted),
        ("the outline left out", "outline", "0 entries", no_outline),
        ("two titles of the outline changed about", "outline", "the outline has", outline_off),
        ("an entry of the outline lost", "outline", "entries for", entry_lost),
        ("an outline that is not shown", "wishes", "outline is not shown", hidden),
        ("scaling left to the printer", "wishes", "PrintScaling", scaled),
        ("no wishes at all", "wishes", "PrintScaling", no_wishes),
        ("no language", "wishes", "language", untold),
        ("made on another day than it says", "wishes", "CreationDate", other_day),
        ("another title than its foot has", "wishes", "title", other_title),
        ("the build file left out", "check", "0 files attached", detached),
        ("the build file altered", "check", "byte for byte", altered),
    ]


def lost(file, build, work):
    """How many of what was broken for a reader are not seen."""
    blind = 0
    for place, (what, check, words, mutate) in enumerate(misled()):
        target = work / f"broken-way-{place}.pdf"
        with pikepdf.open(file) as pdf:
            mutate(pdf)
            pdf.save(target, fix_metadata_version=False)
        with pikepdf.open(target) as pdf, contextlib.redirect_stdout(io.StringIO()):
            seen = [text for name, _, text in navigation.faults(load(target), pdf, build)
                    if name == check and re.search(words, text)]
        blind += not seen
        print(f"  broken on purpose, {what}: {check}: {seen[0][:90] if seen else 'NOT SEEN'}")
        target.unlink()
    return blind


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("file", type=pathlib.Path)
    parser.add_argument("--work", type=pathlib.Path, required=True)
    parser.add_argument("--build", type=pathlib.Path, help="the build file of the packet")
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
    if options.build:
        with pikepdf.open(options.file) as pdf, contextlib.redirect_stdout(io.StringIO()):
            before = list(navigation.faults(view, pdf, options.build))
        if before:
            print(f"  before anything was broken: {before[0]}")
        blind += len(before) + lost(options.file, options.build, options.work)
    print("broken on purpose: all seen" if not blind else f"broken on purpose: {blind} not seen")
    return 1 if blind else 0


if __name__ == "__main__":
    sys.exit(main())
