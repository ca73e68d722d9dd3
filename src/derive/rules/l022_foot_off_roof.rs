//! L022 foot-off-roof.

use crate::geometry::Rect;
use crate::source::{Finding, Rule, Severity, Span};
use crate::units::Length;

/// A plate is partly off the roof.
pub static RULE: Rule = Rule {
    code: "L022",
    name: "foot-off-roof",
    severity: Severity::Stop,
    checks: "The whole plate of a foot lies on the roof.",
    why: "A plate over the edge holds on part of its face: a bond peels from there, a bolt tears out.",
    example: "[[mount]]\nkind = \"bonded-foot\"\nedge = \"right\"",
    remedy: "Move the frame or the foot, or take a smaller plate.",
    source_limits: "Geometry; the roof's length and width as stated.",
};

/// The plate of `mark` against the roof's `edge`.
pub fn finding(mark: &str, plate: Rect, edge: Rect, span: Span) -> Finding {
    let (p, e) = ((plate.low(), plate.high()), (edge.low(), edge.high()));
    let over = [e.0.x - p.0.x, p.1.x - e.1.x, e.0.y - p.0.y, p.1.y - e.1.y]
        .into_iter()
        .fold(Length::ZERO, Length::max);
    Finding::new(&RULE, format!("the plate of {mark} reaches {over:.0} over the roof's edge"))
        .at(span, "this foot")
        .means(
            "it holds on part of its face: a bond peels from the edge, a bolt tears the skin there",
        )
        .help(format!("move the frame or the foot inwards by {over:.0}"))
}
