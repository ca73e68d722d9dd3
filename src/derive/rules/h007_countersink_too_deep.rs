//! H007 countersink-too-deep.

use crate::derive::{Hole, Part};
use crate::source::{Finding, Rule, Severity};
use crate::units::Length;

/// Heads deeper than the plate.
pub static RULE: Rule = Rule {
    code: "H007",
    name: "countersink-too-deep",
    severity: Severity::Stop,
    checks: "A countersink is no deeper than its plate.",
    why: "Sunk deeper, the hole grows, the head drops through and stands on the far side; \
          below the plate it would stand on the roof.",
    example: "[[mount]]\nplate = { thickness = 2 }\nplate-screw = \"M6\"",
    remedy: "Take a thicker plate or thinner screws.",
    source_limits: "Depth (D − d) / 2 at 90°: ISO 15065; head diameters: the largest of ISO 10642, ISO \
          2009 and DIN 7991.",
};

/// A countersink of `depth` in a plate of `plate`.
pub fn finding(hole: &Hole, part: &Part, depth: Length, plate: Length) -> Finding {
    Finding::new(
        &RULE,
        format!("the countersink in the {} is {depth:.1} deep; the plate is {plate:.1}", part.name),
    )
    .at(hole.span, "these screws")
    .also(part.span, "this plate")
    .means("the heads stand proud and rest on the skin")
    .help(format!("take a plate of {:.0} or more", Length::mm(depth.to_mm().ceil())))
    .help("take thinner screws")
}
