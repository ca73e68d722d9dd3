//! NaN and infinity.

use crate::read::field::Field;
use crate::source::{Finding, Rule, Severity, Span};

/// U005.
pub static RULE: Rule = Rule {
    code: "U005",
    name: "not-a-finite-number",
    severity: Severity::Stop,
    checks: "Whether each number is a number: neither nan nor inf.",
    why: "TOML can write them, a tape can't measure them, and they would spread through every result.",
    example: "[[panel]]\nlength = nan",
    remedy: "Write the value as measured.",
    source_limits: super::WRITING,
};

/// `span` is the number within the value.
pub(in crate::read) fn raise(field: &Field<'_>, span: Span) -> Finding {
    let finding = Finding::new(&RULE, format!("`{}` has no finite value", field.key))
        .at(span, "not a number that can be measured")
        .means("nothing can be worked out from it");
    match field.example() {
        Some(example) => finding.help(format!("write the value as measured, as in `{example}`")),
        None => finding.help("write the value as measured"),
    }
}
