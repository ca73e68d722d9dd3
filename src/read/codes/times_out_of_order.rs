//! A working day that ends before it begins.

use crate::source::{Finding, Rule, Severity, Span};

/// U012.
pub static RULE: Rule = Rule {
    code: "U012",
    name: "times-out-of-order",
    severity: Severity::Stop,
    checks: "Whether the working day ends at least one hour after it begins.",
    why: "No step fits into a day without hours.",
    example: "[crew]\nday = [\"18:00\", \"08:00\"]",
    remedy: "Write when work begins, then when it ends, on the same day.",
    source_limits: "Limit of our own; work over midnight can't be planned.",
};

/// `end` is not late enough.
pub(in crate::read) fn raise(begin: Span, end: Span, begins: &str, ends: &str) -> Finding {
    Finding::new(&RULE, format!("the working day begins at {begins} and ends at {ends}"))
        .at(end, "at least an hour after it begins")
        .also(begin, "work begins")
        .means("no step fits into the day")
        .help(format!(
            "write both on one day, as in `day = [\"{ends}\", \"{begins}\"]` if they are swapped"
        ))
}
