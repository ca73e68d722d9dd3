//! Rules of the cutting chapter.

use crate::source::{Finding, Rule, Severity, Span};
use crate::tables::Section;
use crate::units::Length;

/// Rules of this chapter.
pub static RULES: &[&Rule] = &[
    &NO_STOCK,
    &PIECE_TOO_LONG,
    &NOT_ENOUGH,
    &NO_PLAN,
    &NOT_PROVEN,
    &PRICE_MISSING,
    &LEFTOVER_TWICE,
    &KERF_WIDER,
    &MITRES_MEET,
    &NO_SUCH_SIDE,
    &SAW_WITHOUT_ANGLE,
];

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

/// Stock without a price.
pub static PRICE_MISSING: Rule = Rule {
    code: "C006",
    name: "price-missing",
    severity: Severity::Note,
    checks: "That every bar and sheet that can be bought has a price, where there is more than one to choose from.",
    why: "Without prices the plan takes the least length or area, which may cost more.",
    example: "[[stock]]\nsection = \"aluminium-tube-25x25x2\"\nlength = 3000   # price missing, and 6000 has one",
    remedy: "Add price = \"…\" to each [[stock]].",
    source_limits: "Follows from the build file.",
};

/// One leftover in two tables.
pub static LEFTOVER_TWICE: Rule = Rule {
    code: "C007",
    name: "leftover-listed-twice",
    severity: Severity::Caution,
    checks: "That no leftover is listed in two tables of one section, size and label.",
    why: "A bar that is there once and planned twice is missing on the day.",
    example: "[[leftover]]\nsection = \"aluminium-tube-25x25x2\"\nlength = 1120\nlabel = \"K1\"   # and the same again",
    remedy: "Take one out, or tell them apart by label; of several alike state count.",
    source_limits: "Follows from the build file.",
};

/// A saw cut wider than a piece.
pub static KERF_WIDER: Rule = Rule {
    code: "C008",
    name: "kerf-wider-than-piece",
    severity: Severity::Caution,
    checks: "That no piece is shorter than the saw cut is wide.",
    why: "Such a piece flies or goes into the blade; mostly a unit was mistaken.",
    example: "[[part]]\nlength = 0.9   # kerf 1.2",
    remedy: "Check the unit of the piece and of the kerf; file or punch what is really so small.",
    source_limits: "Length of the piece against the kerf.",
};

/// Mitres that leave no short side.
pub static MITRES_MEET: Rule = Rule {
    code: "C009",
    name: "mitred-ends-meet",
    severity: Severity::Stop,
    checks: "That a mitred piece is longer than its slanting ends.",
    why: "The two cuts cross inside the piece, which then has no short side.",
    example: "[[part]]\nsection = \"aluminium-tube-40x40x2\"\nlength = 70\nzero-end = \"45°\"\nfar-end = \"45°\"",
    remedy: "Make the piece longer, or the angles smaller.",
    source_limits: "Length against the side of the section times tan(angle), each end.",
};

/// A mitre across a side that the section does not have.
pub static NO_SUCH_SIDE: Rule = Rule {
    code: "C010",
    name: "no-such-side",
    severity: Severity::Stop,
    checks: "That a mitre runs across a side of the section.",
    why: "The slant, and so every mark behind it, would be wrong.",
    example: "[[part]]\nsection = \"aluminium-tube-40x20x2\"\nacross = 25\nzero-end = \"45°\"",
    remedy: "State across as one of the section's two sizes, or leave it out for its width.",
    source_limits: "Sizes of the section.",
};

/// Mitres with a saw that has no angle stop.
pub static SAW_WITHOUT_ANGLE: Rule = Rule {
    code: "C011",
    name: "saw-without-angle",
    severity: Severity::Note,
    checks: "Whether the saw can be set to an angle where an end is mitred.",
    why: "A mitre cut by eye leaves a gap on one side of the corner.",
    example: "[cutting]\nsaw = \"hacksaw\"   # and a part with zero-end = \"45°\"",
    remedy: "Use a mitre saw or box, or guide the blade along a block cut to the angle.",
    source_limits: "The table of saws; common practice.",
};

/// Tells of stock without prices, where another choice may cost less.
pub(super) fn price_missing(words: &str, what: &str, spans: &[Span]) -> Option<Finding> {
    let (first, rest) = spans.split_first()?;
    let mut finding = Finding::new(&PRICE_MISSING, format!("{words}: a price is missing"))
        .at(*first, "no price here")
        .means(format!("the plan buys the least {what}, which may cost more than the least money"))
        .help("add price = \"…\" with what one costs");
    for span in rest {
        finding = finding.also(*span, "nor here");
    }
    Some(finding)
}

/// Tells of a leftover in two tables.
pub(super) fn leftover_twice(label: &str, size: &str, again: Span, first: Span) -> Finding {
    Finding::new(&LEFTOVER_TWICE, format!("the leftover \"{label}\" of {size} is listed twice"))
        .at(again, "this one")
        .also(first, "is like this one")
        .means("if there is only one, a piece will have no bar on the day")
        .help("take one out; if there are two, state count = 2, or a label each")
}

/// Tells of a piece smaller than the saw cut.
pub(super) fn kerf_wider(mark: &str, size: &str, kerf: &str, at: (Span, Span)) -> Finding {
    let finding =
        Finding::new(&KERF_WIDER, format!("the saw cut is {kerf} wide, the piece {mark} {size}"))
            .at(at.0, "smaller than the saw cut")
            .means("the blade takes more than the piece: it flies off, or nothing is left of it")
            .help("check the units; a bare number is in the job's unit");
    if at.1.is_none() { finding } else { finding.also(at.1, "the saw cut") }
}

/// Tells of mitres that cross.
pub(super) fn mitres_meet(mark: &str, length: Length, lost: Length, at: Span) -> Finding {
    Finding::new(
        &MITRES_MEET,
        format!(
            "the mitres of {mark} take {:.1} mm of its short side; it is {:.1} mm long",
            lost.to_mm(),
            length.to_mm()
        ),
    )
    .at(at, "too short for these ends")
    .means("the two cuts cross inside the piece")
    .help(format!("make it longer than {:.0} mm, or the angles smaller", lost.to_mm().ceil()))
}

/// Tells of a mitre across a side that is not there.
pub(super) fn no_such_side(mark: &str, across: Length, section: &Section, at: Span) -> Finding {
    Finding::new(
        &NO_SUCH_SIDE,
        format!(
            "the mitre of {mark} is to run across {:.1} mm; {} has no such side",
            across.to_mm(),
            section.words
        ),
    )
    .at(at, "its mitre runs across that side")
    .means("the slant and the marks behind it would be wrong")
    .help(format!("across is {} or {} here", section.a.to_mm(), section.b.to_mm()))
}

/// Tells that the saw has no angle stop.
pub(super) fn saw_without_angle(mark: &str, saw: &str, at: Span, by: Span) -> Finding {
    let finding = Finding::new(
        &SAW_WITHOUT_ANGLE,
        format!("the {saw} can't be set to an angle, and {mark} has a mitred end"),
    )
    .at(at, "cut at an angle")
    .means("cut by eye, the corner gapes on one side")
    .help("use a saw with an angle stop, or guide the blade along a block cut to the angle");
    if by.is_none() { finding } else { finding.also(by, "this saw") }
}

/// Tells of sheets whose cost may not be the least; without prices areas are compared, in square
/// millimetres.
pub(super) fn sheet_not_proven(words: &str, value: i64, bound: i64, priced: bool) -> Finding {
    let told = |number: i64| {
        if priced {
            format!("{:.2}", number as f64 / 100.0)
        } else {
            format!("{:.2} m² of sheet", number as f64 / 1e6)
        }
    };
    Finding::new(
        &NOT_PROVEN,
        format!(
            "the cut list of {words} takes {}; a cheaper one may exist, but none under {}",
            told(value),
            told(bound)
        ),
    )
    .means("the plan can be used as it is; at most the difference could be saved")
    .help("fewer different sizes let the search come to its end")
}

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
