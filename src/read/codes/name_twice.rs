//! Two things with one name.

use crate::source::{Finding, Rule, Severity, Stated};

/// N004.
pub static RULE: Rule = Rule {
    code: "N004",
    name: "name-used-twice",
    severity: Severity::Stop,
    checks: "Whether frames, mounts, circuits, parts and things on the roof have different names.",
    why: "Sheets and steps call them by name; with one name for two, a step can be done on the wrong one.",
    example: "two [[mount]] tables with name = \"bonded foot\"",
    remedy: "Add what tells them apart, such as left and right.",
    source_limits: super::WRITING,
};

/// The later of the two is to change.
pub(in crate::read) fn raise(name: &Stated<String>, first: &Stated<String>) -> Finding {
    Finding::new(&RULE, format!("the name `{}` is used twice", name.value))
        .at(
            name.span,
            if name.is_default() {
                "its name, taken as none was stated"
            } else {
                "used again here"
            },
        )
        .also(
            first.span,
            if first.is_default() { "taken here, as none was stated" } else { "first used here" },
        )
        .means("a step for one could be done on the other")
        .help(format!("tell them apart, as in `name = \"second {}\"`", name.value))
}
