//! Two readings at one place.

use crate::source::{Finding, Rule, Severity, Span};

/// U014.
pub static RULE: Rule = Rule {
    code: "U014",
    name: "reading-twice",
    severity: Severity::Stop,
    checks: "Whether each place under a straightedge has one reading, each straightedge its own place, and each hour of a forecast one air.",
    why: "A roof can't have two heights at one place; the curve through both would be a wall.",
    example: "[roof]\nalong = [[400, 7], [400, 9]]",
    remedy: "Keep the right reading, or correct the place of one.",
    source_limits: "Places nearer than 1 mm to each other count as one.",
};

/// Two at the same place.
pub(in crate::read) fn raise(what: &str, place: &str, span: Span, first: Span) -> Finding {
    Finding::new(&RULE, format!("two {what} at {place}"))
        .at(span, "the same place again")
        .also(first, "first here")
        .means("the roof would have two heights at one place")
        .help("take one out, or correct its place")
}

/// Two airs at one hour.
pub(in crate::read) fn hour(span: Span, first: Span) -> Finding {
    Finding::new(&RULE, "two airs at one hour")
        .at(span, "the same hour again")
        .also(first, "first here")
        .means("the air would have two temperatures at once")
        .help("take one out, or correct its clock")
}
