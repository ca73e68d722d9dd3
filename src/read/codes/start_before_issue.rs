//! Work that begins before the packet is issued.

use crate::source::{Finding, Rule, Severity, Span};

/// U013.
pub static RULE: Rule = Rule {
    code: "U013",
    name: "start-before-issue",
    severity: Severity::Caution,
    checks: "Whether the first day of work is not before the date of issue.",
    why: "A packet dated after its own work was printed for the record, or one of the dates is wrong.",
    example: "[job]\ndate = \"2026-05-09\"\n[crew]\nstart = \"2026-04-16\"",
    remedy: "Correct the date that is wrong.",
    source_limits: super::WRITING,
};

/// Both dates as printed.
pub(in crate::read) fn raise(start: (Span, &str), issue: (Span, &str)) -> Finding {
    Finding::new(&RULE, format!("work starts on {}, before the date of issue {}", start.1, issue.1))
        .at(start.0, "first day of work")
        .also(issue.0, "date of issue")
        .means("the timeline would lie in the past")
        .help("correct the date that is wrong")
}
