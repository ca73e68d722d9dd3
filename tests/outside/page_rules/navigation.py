"""Holds what a reader opens against what is printed: links, page labels, outline, viewer's wishes, the build
file, and which sheets lie back to back. Read through pikepdf; words through the reader of the rules.

`navigation.py FILE.pdf=BUILD.toml…`
"""

import argparse
import pathlib
import re
import sys

sys.path.insert(0, str(pathlib.Path(__file__).parent))

import pikepdf  # noqa: E402

from sheets import load, plain  # noqa: E402

MM = 72 / 25.4


def places(pdf):
    return {page.objgen: number for number, page in enumerate(pdf.pages, 1)}


def words_in(page, rect):
    """What is printed inside a link's frame."""
    left, low, right, high = (float(v) / MM for v in rect)
    top, bottom = page.height - high, page.height - low
    return plain("".join(l.text for l in page.letters if l.box and left - 0.6 < (l.box[0] + l.box[2]) / 2 < right + 0.6
                         and top - 0.6 < (l.box[1] + l.box[3]) / 2 < bottom + 0.6))


def titles(view):
    """Sheet titles in their order: title and first page."""
    return [(sheet.title, sheet.pages[0]) for sheet in view.sheets]


def links(view, pdf):
    """Each link leads to the page that its words name: a page number, a hole, a kind of sheet, a title."""
    at, kinds = places(pdf), {"hole": 0, "number": 0, "words": 0}
    starts = {number: title for title, number in titles(view)}
    holes = {}
    for table in view.tables:
        for row in view.rows(table):
            if row and re.fullmatch(r"H\d+", mark := view.text(row[0])):
                holes.setdefault(mark, view.page_of(row[0]))
    spans = {}
    for sheet in view.sheets:
        for number in sheet.pages:
            spans[number] = (sheet.pages[0], sheet.pages[-1], sheet.title)
    for number, page in enumerate(pdf.pages, 1):
        for link in page.get("/Annots", []):
            target = at.get(getattr(link.Dest[0], "objgen", None))
            said = words_in(view.pages[number - 1], link.Rect).rstrip(",;.")
            if target is None:
                yield number, f"a link to no page: {said!r}"
                continue
            first, last, title = spans.get(target, (target, target, ""))
            told = str(link.Contents)
            if not said:
                yield number, f"nothing is printed where a link is: {told!r}"
            elif re.fullmatch(r"H\d+", said):
                kinds["hole"] += 1
                home = holes.get(said)
                if home is None or not first <= home <= last:
                    yield number, f"{said} leads to page {target}, its row is on {home}"
            elif found := re.search(r"(\d+)(?:, \d+| to \d+)?$", told if number == 1 else said):
                kinds["number"] += 1
                if view.kinds[number] == "Safety" and said.isdigit():
                    # Steps by their number: the head of the sheet says which it is.
                    heads = plain(" ".join(l.text for l in view.pages[target - 1].lines()))
                    if not re.search(rf"\bstep {said} of \d+", heads):
                        yield number, f"step {said} leads to page {target}"
                elif int(found[1]) != target:
                    yield number, f"{said!r} leads to page {target}"
                name = re.sub(r",? (?:sheet )?\d+(?:, \d+| to \d+)?$", "", told)
                if name and name != told and number == 1 and not any(
                        name.lower()[:3] in t.lower() for t in (title, view.kinds[target])):
                    yield number, f"the index calls page {target} {name!r}; it is {title!r}, {view.kinds[target]!r}"
            else:
                kinds["words"] += 1
                if target not in starts and first != target:
                    yield number, f"{said!r} leads into the middle of {title!r}"
    print("      links: " + ", ".join(f"{count} by {kind}" for kind, count in kinds.items()), flush=True)
    if not kinds["number"]:
        yield None, "no link by number"
    mated = any(plain(view.text(c)) == "mates" for t in view.tables for r in view.rows(t)[:2] for c in r)
    if mated and not kinds["hole"] and any(re.match(r"H\d+", view.text(c)) for t in view.tables for r in view.rows(t) for c in r[1:]):
        yield None, "holes meet, and none leads to its mate"


def labels(view, pdf):
    """The label of each page is the number that its foot has."""
    if "/PageLabels" not in pdf.Root:
        yield None, "no page labels"
        return
    ranges = list(pdf.Root.PageLabels.Nums)
    for number, page in enumerate(view.pages, 1):
        start, style = max(((int(ranges[i]), ranges[i + 1]) for i in range(0, len(ranges), 2) if int(ranges[i]) < number), key=lambda r: r[0])
        label = str(style.get("/P", "")) + str(int(style.get("/St", 1)) + number - 1 - start) if style.get("/S") == "/D" else str(style.get("/P", ""))
        said = view.identity(page)
        if said and not re.search(rf"sheet {label} of {len(view.pages)}\b", said) and not page.folded:
            yield number, f"labelled {label}, its foot says {said!r}"


def outline(view, pdf):
    """First level: the sheets, in order, each at its page."""
    at, entries = places(pdf), []
    with pdf.open_outline() as tree:
        for item in tree.root:
            entries.append((plain(item.title), at[item.destination[0].objgen]))
    wanted = [(plain(title), number) for title, number in titles(view)]
    for one, two in zip(entries, wanted):
        if one != two:
            yield two[1], f"the outline has {one}, the sheet is {two}"
            return
    if len(entries) != len(wanted):
        yield None, f"{len(entries)} entries for {len(wanted)} sheets"


def wishes(view, pdf):
    """What a reader shows and how it prints."""
    root, prefer = pdf.Root, pdf.Root.get("/ViewerPreferences", {})
    for key, value in (("/PrintScaling", "/None"), ("/DisplayDocTitle", True), ("/PickTrayByPDFSize", True)):
        if prefer.get(key) != value:
            yield None, f"{key} is {prefer.get(key)}"
    if root.get("/PageMode") != "/UseOutlines":
        yield None, "the outline is not shown"
    if not re.fullmatch(r"[a-z]{2}(-[A-Z]{2})?", str(root.get("/Lang", ""))):
        yield None, f"language {root.get('/Lang')}"
    title, own = str(pdf.docinfo.get("/Title", "")), plain(view.identity(view.pages[0]))
    if not title or title.split("…")[0][:12] not in own:
        yield None, f"title {title!r}, the foot says {own!r}"
    day = re.search(r"\d{4}-\d{2}-\d{2}", own)
    for key in ("/CreationDate", "/ModDate"):
        if day and key in pdf.docinfo and not str(pdf.docinfo[key]).startswith("D:" + day[0].replace("-", "")):
            yield None, f"{key} {pdf.docinfo[key]}, the foot says {day[0]}"


def attached(build):
    def check(_view, pdf):
        """The build file, byte for byte."""
        files = [bytes(f.get_file().read_bytes()) for f in pdf.attachments.values()]
        if files != [build.read_bytes()]:
            yield None, f"{len(files)} files attached, not {build.name} byte for byte"
    return check


def back_to_back(view, pdf):
    """Where people write or cut, the back stays blank: in duplex each such sheet has a front of its own."""
    if pdf.Root.get("/ViewerPreferences", {}).get("/Duplex") != "/DuplexFlipLongEdge":
        return
    for number, kind in view.kinds.items():
        if kind not in ("Template", "Record"):
            continue
        if number % 2 == 0:
            yield number, f"{kind} on a back"
        elif number < len(view.pages) and len(plain(" ".join(l.text for l in view.pages[number].lines()
                                                             if l.mark and l.mark.node))) > 60:
            yield number + 1, f"the back of a {kind} sheet is printed"


def faults(view, pdf, build):
    """(check, page, text) of every check."""
    for check in (links, labels, outline, wishes, attached(build), back_to_back):
        for page, text in check(view, pdf):
            yield check.__name__, page, text


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("files", nargs="+", help="FILE.pdf=BUILD.toml")
    failed = 0
    for pair in parser.parse_args().files:
        path, build = (pathlib.Path(p) for p in pair.split("="))
        print(f"  navigation: {path.name}")
        view = load(path)
        with pikepdf.open(path) as pdf:
            for _, page, text in faults(view, pdf, build):
                failed += 1
                print(f"      {f'page {page}' if page else 'packet'}: {text}")
    print("navigation: all kept" if not failed else f"navigation: {failed} faults")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
