//! H001 hole-too-near-edge.

use crate::derive::{Hole, Part};
use crate::source::{Finding, Rule, Severity};

/// A hole without enough metal to the edge.
pub static RULE: Rule = Rule {
    code: "H001",
    name: "hole-too-near-edge",
    severity: Severity::Stop,
    checks: "From the middle of a hole to the nearest edge of its face: 1.2 times the hole for \
          bolts and screws, twice the fastener for rivets and rivet nuts, half the hole, the \
          wall and 1 mm for holes that carry nothing.",
    why: "The strip between hole and edge tears out, bulges when a rivet nut is set, or is cut \
          through by the drill.",
    example: "[[hole]]\npart = \"W\"\nface = \"top\"\nx = 4\ny = 10\ndiameter = 6.6",
    remedy: "Move the hole inwards by the amount told, or take a smaller fastener.",
    source_limits: "EN 1993-1-8:2005 table 3.3 (1.2 d0), the same in EN 1999-1-1 table 8.2 (from \
          memory); rivets 2 d: US Army TM 10-5410-229-13&P; rivet nuts: common practice.",
};

/// A hole whose edge distance is below the least.
pub fn finding(hole: &Hole, part: &Part) -> Finding {
    let (has, least) = (hole.edge.has, hole.edge.least);
    Finding::new(
        &RULE,
        format!(
            "the {} hole of {:.1} in the {} is {has:.1} from the edge; {least:.1} is the least",
            hole.kind.name(),
            hole.diameter,
            part.name
        ),
    )
    .at(hole.span, "this hole")
    .also(part.span, "in this part")
    .means("the strip between hole and edge tears out")
    .help(format!("move the hole inwards by {:.1}", least - has))
    .help("take a smaller fastener or a wider section")
}
