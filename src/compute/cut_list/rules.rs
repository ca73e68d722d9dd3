//! Rules of the cutting chapter.

use crate::source::{Rule, Severity};

/// Rules of this chapter.
pub static RULES: &[&Rule] = &[&NO_STOCK, &PIECE_TOO_LONG, &NOT_ENOUGH, &NO_PLAN, &NOT_PROVEN];

/// Parts of a section that no stock is stated for.
pub static NO_STOCK: Rule = Rule {
    code: "C001",
    name: "no-stock-for-section",
    severity: Severity::Stop,
    checks: "That every section which parts are cut from has stock to buy or leftovers on hand.",
    why: "A cut list without bars can't be bought or sawn.",
    example: "[frame]\nsection = \"aluminium-tube-25x25x2\"   # and no [[stock]] of that section",
    remedy: "Add [[stock]] with the section, the length as sold and the price.",
    source_limits: "Follows from the build file.",
};

/// A piece longer than any bar.
pub static PIECE_TOO_LONG: Rule = Rule {
    code: "C002",
    name: "piece-longer-than-stock",
    severity: Severity::Stop,
    checks: "That each piece fits a bar once the trimmed end is off.",
    why: "A piece that is pieced together from two is not the part that was calculated.",
    example: "[[stock]]\nsection = \"aluminium-tube-25x25x2\"\nlength = 1000\nprice = \"8.00\"   # the side tube needs 1590",
    remedy: "State longer stock, or a frame with shorter sides.",
    source_limits: "Length of the bar less trim; one saw cut may fall off the end.",
};

/// Leftovers on hand that do not suffice.
pub static NOT_ENOUGH: Rule = Rule {
    code: "C003",
    name: "not-enough-stock",
    severity: Severity::Stop,
    checks: "That the leftovers on hand suffice where nothing can be bought.",
    why: "The last pieces would be missing on the day.",
    example: "[[leftover]]\nsection = \"steel-flat-90x3\"\nlength = 300\ncount = 1   # three plates of 180 are wanted",
    remedy: "Add [[stock]] of the section.",
    source_limits: "Exact search over all ways to cut.",
};

/// A job that can't be planned for another reason.
pub static NO_PLAN: Rule = Rule {
    code: "C004",
    name: "no-cut-list",
    severity: Severity::Stop,
    checks: "That lengths, counts and trims of a section make a job that can be planned.",
    why: "Without a plan there are no marks to saw by.",
    example: "[cutting]\ntrim = 4000   # longer than the bars",
    remedy: "Correct the lengths that the message names.",
    source_limits: "At most 20 000 pieces a section; lengths to 10 km.",
};

/// A plan whose least cost is not proven.
pub static NOT_PROVEN: Rule = Rule {
    code: "C005",
    name: "cut-list-not-proven",
    severity: Severity::Note,
    checks: "Whether the cost of the cut list equals its lower bound.",
    why: "Money may be saved by another plan; nothing else depends on it.",
    example: "several hundred pieces of many different lengths",
    remedy: "Use the plan, or use fewer different lengths.",
    source_limits: "The search counts its steps and ends after a set number, so that each machine gives the same plan.",
};
