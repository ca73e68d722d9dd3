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

/// Two plates overlap; the later one is to move.
pub fn finding(
    (first, first_span): (&str, Span),
    (later, later_span): (&str, Span),
    advice: &str,
) -> Finding {
    Finding::new(&RULE, format!("the plates of {first} and {later} overlap"))
        .at(later_span, "this foot")
        .also(first_span, "overlaps this one")
        .means("two plates can't be fixed to one place")
        .help(advice)
}
