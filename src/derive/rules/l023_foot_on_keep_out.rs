//! L023 foot-on-keep-out.

use crate::build::KeepOut;
use crate::geometry::Rect;
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

/// The plate of `mark` covers part of what the keep-out has `taken`.
pub fn finding(mark: &str, plate: Rect, keep_out: &KeepOut, taken: Rect, span: Span) -> Finding {
    let forward = plate.high().x - taken.low().x;
    let rearward = taken.high().x - plate.low().x;
    let (way, by) = if forward <= rearward { ("forward", forward) } else { ("rearward", rearward) };
    Finding::new(&RULE, format!("the plate of {mark} covers the {}", *keep_out.name))
        .at(span, "this foot")
        .also(keep_out.span, "what it covers")
        .means("the plate can't be bonded there")
        .help(format!("move the foot {by:.0} {way}"))
}
