//! Text without a character.

use crate::read::field::Field;
use crate::source::{Finding, Rule, Severity};

/// F016.
pub static RULE: Rule = Rule {
    code: "F016",
    name: "empty-text",
    severity: Severity::Stop,
    checks: "Whether text between quotation marks has anything in it.",
    why: "A nameless part can't be told from another on the sheets.",
    example: "[[part]]\nname = \"\"",
    remedy: "Write a word, or take the line out if the key may be left out.",
    source_limits: super::WRITING,
};

/// Nothing but spaces.
pub(in crate::read) fn raise(field: &Field<'_>) -> Finding {
    let finding = Finding::new(&RULE, format!("`{}` is empty", field.key))
        .at(field.span, "nothing between the quotation marks")
        .means("its place on the sheets would be blank");
    match field.example() {
        Some(example) => finding.help(format!("write it as in `{example}`")),
        None => finding.help("write a word or two"),
    }
}
