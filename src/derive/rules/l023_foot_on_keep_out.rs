//! L023 foot-on-keep-out.

use crate::build::{KeepOut, KeepOutKind};
use crate::source::{Finding, Rule, Severity, Span};

/// A plate over something that stays.
pub static RULE: Rule = Rule {
    code: "L023",
    name: "foot-on-keep-out",
    severity: Severity::Stop,
    checks: "No plate of a foot covers a keep-out.",
    why: "The plate needs clean, whole skin under all of its face.",
    example: "[[roof.keep-out]]\nname = \"aerial\"\nx = 1000\ny = 500",
    remedy: "Move the foot along its edge; the finding tells how far.",
    source_limits: "Geometry, seen from above.",
};

/// The plate of `mark` covers part of a keep-out.
pub fn finding(mark: &str, keep_out: &KeepOut, span: Span, advice: &str) -> Finding {
    let rib = *keep_out.kind == KeepOutKind::Rib;
    Finding::new(&RULE, format!("the plate of {mark} covers the {}", *keep_out.name))
        .at(span, "this foot")
        .also(keep_out.span, "what it covers")
        .means(if rib {
            "a flat plate rocks on a rib, and water comes in beside it"
        } else {
            "the plate can't be fixed there"
        })
        .help(advice)
}
