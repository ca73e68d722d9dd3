//! A date that is none.

use crate::read::field::Field;
use crate::read::reader::Reader;
use crate::source::{Finding, Rule, Severity};

/// U010.
pub static RULE: Rule = Rule {
    code: "U010",
    name: "unreadable-date",
    severity: Severity::Stop,
    checks: "Whether a date is year-month-day and a day of the calendar, from 2000 to 2199.",
    why: "09.05.26 and 05/09/26 are the same day in two countries and other days in others.",
    example: "[job]\ndate = \"09.05.2026\"",
    remedy: "Write the year with four digits, then month and day with two each.",
    source_limits: "ISO 8601, date of the calendar in extended form.",
};

/// At the value.
pub(in crate::read) fn raise(r: &Reader<'_>, field: &Field<'_>) -> Finding {
    Finding::new(&RULE, format!("`{}` is not a date: {}", field.key, field.written(r.text)))
        .at(field.span, "year-month-day")
        .means("the day is not known")
        .help(format!("write year, month and day, as in `{}`", field.example().unwrap_or_default()))
}
