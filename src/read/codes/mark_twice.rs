//! Two things with one mark.

use crate::source::{Finding, Rule, Severity, Stated};

/// N003.
pub static RULE: Rule = Rule {
    code: "N003",
    name: "mark-used-twice",
    severity: Severity::Stop,
    checks: "Whether panels, mounts, entry, battery, controller and parts each have a mark of their own.",
    why: "The mark is written on the part with a pen. Two parts marked F1 are drilled from each other's hole map.",
    example: "two [[mount]] tables with mark = \"F\"",
    remedy: "Give one of them another letter.",
    source_limits: "Marks of parts that are derived from the frame are kept apart later.",
};

/// The later of the two is to change.
pub(in crate::read) fn raise(mark: &Stated<String>, first: &Stated<String>, free: &str) -> Finding {
    let finding = Finding::new(&RULE, format!("the mark `{}` is used twice", mark.value))
        .at(
            mark.span,
            if mark.is_default() {
                "its mark, taken as none was stated"
            } else {
                "used again here"
            },
        )
        .also(
            first.span,
            if first.is_default() { "taken here, as none was stated" } else { "first used here" },
        )
        .means("two different things would carry the same mark on the sheets");
    finding.help(format!("write another letter, such as `mark = \"{free}\"`"))
}
