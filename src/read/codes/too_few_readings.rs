//! Too few readings for a curve.

use crate::source::{Finding, Rule, Severity, Span};

/// U015.
pub static RULE: Rule = Rule {
    code: "U015",
    name: "too-few-readings",
    severity: Severity::Stop,
    checks: "Whether a straightedge across has at least three readings, and one lengthwise at least two.",
    why: "Two readings give a straight line: the height of feet and packers would be wrong by the whole curve of the roof.",
    example: "[roof]\nsections = [{ x = 400, gaps = [[0, 0]] }]",
    remedy: "Measure at the middle and at both sides, better at five places.",
    source_limits: "no source: three points are the least for a curve.",
};

/// `count` of at least `least`.
pub(in crate::read) fn raise(what: &str, count: usize, least: usize, span: Span) -> Finding {
    Finding::new(&RULE, format!("{what} has {count} readings; {least} is the least"))
        .at(span, "too few for a curve")
        .means("heights on the roof would be guessed")
        .help("measure the gap at the middle and towards both ends of the straightedge, and add the pairs")
}
