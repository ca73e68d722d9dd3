//! L024 feet-overlap.

use crate::source::{Finding, Rule, Severity, Span};

/// Two plates in one place.
pub static RULE: Rule = Rule {
    code: "L024",
    name: "feet-overlap",
    severity: Severity::Stop,
    checks: "Plates of neighbouring feet do not overlap.",
    why: "Two plates can't be bonded to one place.",
    example: "[[mount]]\nkind = \"bonded-foot\"\nat = [220, 300]",
    remedy: "Move the feet apart by more than the length of a plate.",
    source_limits: "Geometry, seen from above.",
};

/// Plates of two feet in one place.
pub fn finding(mark: &str, other: &str, span: Span, other_span: Span) -> Finding {
    Finding::new(&RULE, format!("the plates of {mark} and {other} overlap"))
        .at(other_span, "this foot")
        .also(span, "overlaps this one")
        .means("two plates can't be bonded to one place")
        .help("move one of the two along the edge by more than a plate's length")
}
