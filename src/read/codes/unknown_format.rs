//! An edition that this program does not read.

use crate::read::field::Field;
use crate::source::{Finding, Rule, Severity, Text};

/// F008.
pub static RULE: Rule = Rule {
    code: "F008",
    name: "unknown-format",
    severity: Severity::Stop,
    checks: "Whether the edition stated in format is one that this program reads.",
    why: "A file of a later edition may mean other things by the same keys.",
    example: "format = 2",
    remedy: "Write format = 1, or use the program that the file was written for.",
    source_limits: "This program reads format 1 alone.",
};

/// Only format 1 is read.
pub(in crate::read) fn raise(text: &Text, field: &Field<'_>) -> Finding {
    Finding::new(&RULE, format!("format {} is not one that is read here", field.written(text)))
        .at(field.span, "only 1 is known")
        .means("keys may mean something else in that format, so nothing is printed")
        .help("write `format = 1` if the file was written for this program")
}
