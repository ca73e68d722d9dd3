//! Too many dots on a line.

use crate::source::{Finding, Rule, Severity, Span};

/// F006.
pub static RULE: Rule = Rule {
    code: "F006",
    name: "nested-too-deep",
    severity: Severity::Stop,
    checks: "Whether a line has at most 500 dots.",
    why: "Each dot in a key opens a table in a table. A build file needs three levels; thousands are a damaged file.",
    example: "a.a.a.a.a … = 1",
    remedy: "Break a long list over several lines.",
    source_limits: "Limit of our own, checked before the file is read as TOML; comment lines do not count.",
};

/// For the first line that has too many.
pub(in crate::read) fn raise(span: Span, dots: usize, most: usize) -> Finding {
    Finding::new(&RULE, format!("the line has {dots} dots; {most} is the most"))
        .at(span, "starts here")
        .means("nothing in the file was read")
        .help("break a long list over several lines")
}
