"""The table of rules: what is checked, by which function, and what a function found."""

import pathlib
from dataclasses import dataclass

HERE = pathlib.Path(__file__).parent


@dataclass
class Fault:
    """A place where a rule is broken."""

    page: int | None
    text: str


@dataclass
class Rule:
    number: int
    title: str
    check: object
    partly: str = ""


RULES = []


def rule(number, title, partly=""):
    """Registers a check: a function from a view to faults. `partly` says what of the rule it cannot see.
    A check that yields None has found something to look at and no fault in it; one that yields nothing at
    all has found nothing to look at."""

    def keep(check):
        RULES.append(Rule(number, title, check, partly))
        return check

    return keep


def words(name):
    """A list of words kept beside the checks; # starts a comment."""
    lines = (HERE / "words" / f"{name}.txt").read_text().splitlines()
    return {line.split("#")[0].strip() for line in lines} - {""}


def overlap(one, two):
    """How far two boxes reach into each other, the lesser way; negative if apart."""
    return min(min(one[2], two[2]) - max(one[0], two[0]), min(one[3], two[3]) - max(one[1], two[1]))


def inside(box, outer, slack=0.0):
    return (box[0] >= outer[0] - slack and box[1] >= outer[1] - slack
            and box[2] <= outer[2] + slack and box[3] <= outer[3] + slack)
