"""Holds finished packets against the page rules; see README.md."""

import argparse
import os
import pathlib
import re
import sys
import tomllib
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass

HERE = pathlib.Path(__file__).parent
sys.path.insert(0, str(HERE))

import drawings  # noqa: E402, F401  (each registers its rules)
import paper  # noqa: E402, F401
import procedure  # noqa: E402, F401
import reader  # noqa: E402
import safety  # noqa: E402, F401
import tables  # noqa: E402, F401
import type_rules  # noqa: E402, F401
from rules import RULES, Fault  # noqa: E402
from sheets import load  # noqa: E402

MOST = 12


def reviewed():
    """Exceptions that were looked at: rule, pattern of the fault, reason, and whether the packet is to change."""
    with open(HERE / "exceptions.toml", "rb") as file:
        return tomllib.load(file)["exception"]


def examine(path, exceptions, used=None):
    """(rule, outcome, faults, excused) by rule; outcome is kept, broken or nothing to look at."""
    view = load(path)
    for rule in sorted(RULES, key=lambda r: r.number):
        found = list(rule.check(view))
        faults, excused = [], []
        for fault in (f for f in found if f):
            reason = next((
                e for e in exceptions
                if e["rule"] == rule.number and re.search(e["fault"], fault.text)
                and re.search(e.get("packet", ""), str(path))
            ), None)
            (excused.append((fault, reason)) if reason else faults.append(fault))
            if reason and used is not None:
                used.add(exceptions.index(reason))
        looked = sum(f is None for f in found)
        outcome = "BROKEN" if faults else "kept" if looked or excused else "nothing to look at"
        yield rule, outcome, looked, faults, excused
    apart = reader.agreement(view.packet)
    yield Agreement, "BROKEN" if apart else "kept", len(view.pages), [Said(a) for a in apart], []


def examined_alone(path):
    """Outcomes of a file as plain values, and the exceptions that it needed: for a process of its own."""
    used = set()
    outcomes = [(Told(rule.number, rule.title), outcome, looked, [Fault(f.page, f.text) for f in faults], excused)
                for rule, outcome, looked, faults, excused in examine(path, reviewed(), used)]
    return outcomes, used


@dataclass
class Told:
    number: int
    title: str


class Agreement:
    number, title, partly = 0, "pdfium reads the same letters at the same places", ""


class Said:
    def __init__(self, text):
        self.page, self.text = None, text


def main():
    parser = argparse.ArgumentParser(prog="page_rules", description=__doc__)
    parser.add_argument("files", nargs="*", type=pathlib.Path)
    parser.add_argument("--table", action="store_true", help="which rule is checked where, as a table")
    parser.add_argument("--brief", action="store_true", help="say broken rules alone")
    options = parser.parse_args()
    exceptions, used, broken, open_faults, seen = reviewed(), set(), 0, 0, {}
    # A file takes one processor a few seconds; what is found is told in the order of the files.
    with ProcessPoolExecutor(os.cpu_count()) as pool:
        examined = list(pool.map(examined_alone, options.files)) if len(options.files) > 1 else map(examined_alone, options.files)
    for path, (outcomes, needed) in zip(options.files, examined):
        used |= needed
        print(f"page rules: {path}")
        for rule, outcome, looked, faults, excused in outcomes:
            seen.setdefault(rule.number, set()).add(outcome)
            broken += bool(faults)
            waiting = [reason for _, reason in excused if "mend" in reason]
            open_faults += len(waiting)
            if waiting and not faults:
                outcome = "open"
            extra = f", {len(excused) - len(waiting)} reviewed, {len(waiting)} to mend" if excused else ""
            count = f" ({looked} looked at{extra})" if outcome != "nothing to look at" else ""
            if options.brief and outcome not in ("BROKEN", "open"):
                continue
            print(f"  rule {rule.number:>2}: {outcome}{count}: {rule.title}")
            for fault in faults[:MOST]:
                print(f"      {f'page {fault.page}' if fault.page else 'packet'}: {fault.text}")
            if len(faults) > MOST:
                print(f"      and {len(faults) - MOST} more")
            for mend in dict.fromkeys(reason["mend"] for reason in waiting):
                print(f"      to mend in the packet, {sum(reason['mend'] == mend for reason in waiting)} places: {mend}")
    for exception in exceptions:
        if options.files and exceptions.index(exception) not in used:
            print(f"  exception of rule {exception['rule']} was not needed: {exception['fault']}")
    if options.table:
        table(seen)
    if options.files:
        print(f"page rules: {f'{broken} broken' if broken else 'all kept'}, {open_faults} places known and to mend")
    return 1 if broken else 0


def table(seen):
    """Every rule with where it is checked."""
    with open(HERE / "elsewhere.toml", "rb") as file:
        elsewhere = tomllib.load(file)
    own = {rule.number: rule for rule in RULES}
    print("rule  checked here  by tests of the program, or why not")
    for number in range(1, 61):
        rule, other = own.get(number), elsewhere.get(str(number), {})
        here = "no" if not rule else "in part" if rule.partly else "yes"
        if rule and seen.get(number) == {"nothing to look at"}:
            here += ", absent"
        told = [f"cargo: {', '.join(other['tests'])}"] if other.get("tests") else []
        told += [f"unseen here: {rule.partly}"] if rule and rule.partly else []
        told += [other["why"]] if other.get("why") else []
        print(f"{number:>4}  {here:<14}  {'; '.join(told) or '-'}")


if __name__ == "__main__":
    sys.exit(main())
