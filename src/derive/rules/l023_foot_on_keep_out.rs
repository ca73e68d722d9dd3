//! L023 foot-on-keep-out.

use crate::build::{Edge, KeepOut};
use crate::derive::check::Foot;
use crate::geometry::Rect;
use crate::source::{Finding, Rule, Severity};

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

/// The plate of a foot covers part of what the keep-out has `taken`.
pub fn finding(foot: &Foot, keep_out: &KeepOut, taken: Rect) -> Finding {
    let (low, high) = (foot.plate.low(), foot.plate.high());
    let ways = match foot.edge {
        Edge::Left | Edge::Right => {
            [("forward", high.x - taken.low().x), ("rearward", taken.high().x - low.x)]
        }
        Edge::Front | Edge::Rear => {
            [("to the left", high.y - taken.low().y), ("to the right", taken.high().y - low.y)]
        }
    };
    let [(way, by), (other, far)] = if ways[1].1 < ways[0].1 { [ways[1], ways[0]] } else { ways };
    Finding::new(&RULE, format!("the plate of {} covers the {}", foot.mark, *keep_out.name))
        .at(foot.span, "this foot")
        .also(keep_out.span, "what it covers")
        .means("the plate can't be bonded there")
        .help(format!("move the foot along its edge: {by:.0} {way}, or {far:.0} {other}"))
}
