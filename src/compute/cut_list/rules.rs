//! Rules of the cutting chapter.

use crate::source::{Finding, Rule, Severity};

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

/// Tells of a plan whose cost may not be the least: hundredths of money where the bars have prices,
/// hundredths of a millimetre of bars where they have none.
pub(super) fn not_proven(section: &str, value: i64, bound: i64, priced: bool) -> Finding {
    let told = |hundredths: i64| {
        let number = hundredths as f64 / 100.0;
        if priced { format!("{number:.2}") } else { format!("{number:.0} mm of bar") }
    };
    Finding::new(
        &NOT_PROVEN,
        format!(
            "the cut list of {section} takes {}; a cheaper one may exist, but none under {}",
            told(value),
            told(bound)
        ),
    )
    .means("the plan can be used as it is; at most the difference could be saved")
    .help("fewer different lengths let the search come to its end")
}

#[cfg(test)]
mod tests {
    use super::*;

    // A build file whose search does not come to its end takes many seconds, so none is kept.
    #[test]
    fn a_plan_that_is_not_proven_says_what_could_be_saved() {
        let finding = not_proven("flat bar", 4250, 4100, true);
        assert_eq!(finding.rule, &NOT_PROVEN);
        assert_eq!(
            finding.message,
            "the cut list of flat bar takes 42.50; a cheaper one may exist, but none under 41.00"
        );
        let unpriced = not_proven("flat bar", 600_000, 500_000, false);
        assert!(
            unpriced.message.ends_with(
                "6000 mm of bar; a cheaper one may exist, but none under 5000 mm of bar"
            )
        );
        assert!(unpriced.means.is_some() && !unpriced.helps.is_empty());
    }
}
