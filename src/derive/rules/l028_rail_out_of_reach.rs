//! L028 rail-out-of-reach.

use crate::build::Rail;
use crate::source::{Finding, Rule, Severity};
use crate::units::Length;

/// Hinge holes beside the rail.
pub static RULE: Rule = Rule {
    code: "L028",
    name: "rail-out-of-reach",
    severity: Severity::Stop,
    checks: "The holes of the lying leaf fall on the rail's flat top, 1.2 times the hole from its \
          edges at least.",
    why: "A bolt at the rail's very edge tears out, and beyond it there is nothing to bolt to.",
    example: "[[mount]]\nkind = \"hinge\"\nrail = { y = -600, width = 40 }",
    remedy: "Move the frame towards the rail by the amount told, or take a hinge with wider \
          leaves.",
    source_limits: "Edge distance 1.2 d0: EN 1993-1-8 table 3.3.",
};

/// The hole row of hinge `mark` lies `off` the rail's middle (positive: beyond it, outboard) and
/// has `room` to the rail's edge.
pub fn finding(mark: &str, off: Length, room: Length, least: Length, rail: &Rail) -> Finding {
    let way = if off < Length::ZERO { "towards" } else { "away from" };
    let told = if room < Length::ZERO {
        format!("the holes of hinge {mark} miss the rail by {:.1}", -room)
    } else {
        format!(
            "the holes of hinge {mark} are {room:.1} from the rail's edge; {least:.1} is the least"
        )
    };
    Finding::new(&RULE, told)
        .at(rail.y.span.to(rail.width.span), "the rail")
        .means(if room < Length::ZERO {
            "the bolts miss the rail"
        } else {
            "the bolts would tear out of the rail's edge"
        })
        .help(format!("move the frame {:.0} {way} the rail", off.abs()))
}
