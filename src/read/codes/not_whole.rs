//! A count that is no whole number.

use crate::read::field::Field;
use crate::read::reader::Reader;
use crate::source::{Finding, Rule, Severity};

/// U009.
pub static RULE: Rule = Rule {
    code: "U009",
    name: "not-a-whole-number",
    severity: Severity::Stop,
    checks: "Whether counts are whole numbers without quotation marks.",
    why: "Half a mount holds nothing.",
    example: "[[panel]]\ncount = 2.5",
    remedy: "Write a whole number.",
    source_limits: super::WRITING,
};

/// A number with a fraction.
pub(in crate::read) fn raise(r: &Reader<'_>, field: &Field<'_>, number: f64) -> Finding {
    Finding::new(
        &RULE,
        format!("`{}` is {}; it counts whole things", field.key, field.written(r.text)),
    )
    .at(field.span, "not a whole number")
    .means("there is no part of one")
    .help(format!(
        "write `{}` or `{}`",
        field.line(&format!("{:.0}", number.floor())),
        field.line(&format!("{:.0}", number.ceil()))
    ))
}

/// No number at all.
pub(in crate::read) fn no_number(r: &Reader<'_>, field: &Field<'_>) -> Finding {
    let inner = field.value.as_str().unwrap_or("").trim();
    let finding =
        Finding::new(&RULE, format!("`{}` takes a whole number, not {}", field.key, field.shape()))
            .at(field.span, field.written(r.text))
            .means("it counts whole things");
    if !inner.is_empty() && inner.len() < 7 && inner.bytes().all(|b| b.is_ascii_digit()) {
        return finding.help(format!("write `{}` without quotation marks", field.line(inner)));
    }
    match field.example() {
        Some(example) => finding.help(format!("write it as in `{example}`")),
        None => finding.help("write a whole number"),
    }
}
