//! A working day that ends before it begins.

use crate::source::{Finding, Rule, Severity, Span};

/// U012.
pub static RULE: Rule = Rule {
    code: "U012",
    name: "times-out-of-order",
    severity: Severity::Stop,
    checks: "Whether the working day and the hours of light end at least one hour after they begin, and a recorded step not before it began.",
    why: "No step fits into a day without hours.",
    example: "[crew]\nday = [\"18:00\", \"08:00\"]",
    remedy: "Write when work begins, then when it ends, on the same day.",
    source_limits: "Limit of our own; work over midnight can't be planned.",
};

/// A recorded step that ended before it began.
pub(in crate::read) fn record(start: (Span, &str), end: (Span, &str)) -> Finding {
    Finding::new(
        &RULE,
        format!("the step began at {} and ended at {}, before that", start.1, end.1),
    )
    .at(end.0, "ended")
    .also(start.0, "began")
    .means("the waits after it can't be counted")
    .help("correct the clock or the date that is wrong")
}

/// `end` is not late enough.
pub(in crate::read) fn raise(
    key: &str,
    (begin, begins): (Span, &str),
    (end, ends): (Span, &str),
) -> Finding {
    let what = if key == "day" { "the working day" } else { "daylight" };
    Finding::new(&RULE, format!("{what} begins at {begins} and ends at {ends}"))
        .at(end, "at least an hour after it begins")
        .also(begin, "begins")
        .means("no step fits into the day")
        .help(if ends < begins {
            format!(
                "write both on one day, as in `{key} = [\"{ends}\", \"{begins}\"]` if they are swapped"
            )
        } else {
            format!("write a later end, as in `{key} = [\"{begins}\", \"20:00\"]`")
        })
}
