//! A clock time that is none.

use crate::read::field::Field;
use crate::read::reader::Reader;
use crate::source::{Finding, Rule, Severity};

/// U011.
pub static RULE: Rule = Rule {
    code: "U011",
    name: "unreadable-time",
    severity: Severity::Stop,
    checks: "Whether a clock time is hours and minutes from 00:00 to 23:59.",
    why: "The plan tells by clock when a bond may be loaded and the vehicle driven.",
    example: "[crew]\nday = [\"8 am\", \"6 pm\"]",
    remedy: "Write two digits, a colon and two digits, on the clock of 24 hours.",
    source_limits: "ISO 8601, clock of 24 hours, to the minute.",
};

/// At the value.
pub(in crate::read) fn raise(r: &Reader<'_>, field: &Field<'_>) -> Finding {
    Finding::new(&RULE, format!("{} is not a clock time", field.written(r.text)))
        .at(field.span, "hours:minutes")
        .means("what depends on this clock can't be planned")
        .help(format!(
            "write hours and minutes on the clock of 24 hours, as in `{}`",
            field.example().unwrap_or_default()
        ))
}
