//! A unit that measures something else.

use crate::read::field::Field;
use crate::source::{Finding, Rule, Severity, Span};
use crate::units::Kind;

/// U002.
pub static RULE: Rule = Rule {
    code: "U002",
    name: "wrong-kind-of-unit",
    severity: Severity::Stop,
    checks: "Whether the unit measures what the key asks for.",
    why: "A mass in place of a thickness is two lines swapped: the other line is wrong as well.",
    example: "[[panel]]\nmass = \"30 mm\"",
    remedy: "Write the value that belongs to this key; check the lines beside it.",
    source_limits: super::WRITING,
};

/// `written` measures `found`.
pub(in crate::read) fn raise(
    field: &Field<'_>,
    span: Span,
    written: &str,
    found: Kind,
    wanted: Kind,
) -> Finding {
    let finding = Finding::new(
        &RULE,
        format!(
            "`{}` takes {}, but `{written}` measures {}",
            field.key,
            wanted.name(),
            found.name()
        ),
    )
    .at(span, format!("measures {}", found.name()))
    .means("two lines may have been swapped");
    match field.example() {
        Some(example) => finding.help(format!("write {} as in `{example}`", wanted.name())),
        None => finding.help(format!("write {} such as `{}`", wanted.name(), wanted.example())),
    }
}
