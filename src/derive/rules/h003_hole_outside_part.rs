//! H003 hole-outside-part.

use crate::derive::{Face, Hole, Part};
use crate::source::{Finding, Rule, Severity};

/// A hole beside its part.
pub static RULE: Rule = Rule {
    code: "H003",
    name: "hole-outside-part",
    severity: Severity::Stop,
    checks: "Each hole lies wholly on its face.",
    why: "A drill that comes out at the edge grabs and breaks.",
    example: "[[part]]\nlength = 300\n[[hole]]\nx = 320\ny = 12",
    remedy: "Correct the distance: it counts from the zero end and from the datum edge of the \
          face.",
    source_limits: "Geometry.",
};

/// A hole that is partly or wholly beside its face.
pub fn finding(hole: &Hole, part: &Part, face: &Face) -> Finding {
    Finding::new(
        &RULE,
        format!(
            "the hole at {:.1}, {:.1} is not on the {} of the {}, which is {:.1} × {:.1}",
            hole.at.x, hole.at.y, face.name, part.name, face.length, face.width
        ),
    )
    .at(hole.span, "this hole")
    .also(part.span, "this part")
    .means("there is no metal to drill")
    .help("count from the zero end along the part, then from the datum edge across")
}
