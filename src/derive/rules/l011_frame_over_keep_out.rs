//! L011 frame-over-keep-out.

use super::written;
use crate::build::{Frame, KeepOut};
use crate::geometry::Rect;
use crate::source::{Finding, Rule, Severity};

/// Frame and keep-out in one place.
pub static RULE: Rule = Rule {
    code: "L011",
    name: "frame-over-keep-out",
    severity: Severity::Stop,
    checks: "The frame's outline does not cover a keep-out.",
    why: "A vent that can't open, an aerial or a lamp under the panels is broken on the first \
          drive, or breaks the panel.",
    example: "[frame]\nposition = { x = 1400, y = 0 }\n[[roof.keep-out]]\nname = \"roof vent\"",
    remedy: "Move the frame clear of it; the finding tells the shortest way.",
    source_limits: "Geometry, seen from above.",
};

/// The frame's `outline` covers part of what the keep-out has `taken`.
pub fn finding(the: &str, frame: &Frame, outline: Rect, keep_out: &KeepOut, taken: Rect) -> Finding {
    let ways = [
        ("forward", outline.high().x - taken.low().x),
        ("rearward", taken.high().x - outline.low().x),
        ("to the left", outline.high().y - taken.low().y),
        ("to the right", taken.high().y - outline.low().y),
    ];
    let shortest = ways.into_iter().min_by(|a, b| a.1.total_cmp(&b.1)).unwrap_or(ways[0]);
    Finding::new(&RULE, format!("{the} covers the {}", *keep_out.name))
        .at(
            written(&[frame.position.x.span.to(frame.position.y.span), frame.span]),
            "the frame is placed here",
        )
        .also(keep_out.span, "what it covers")
        .means("the two can't be in one place")
        .help(format!("move {the} {:.0} {}", shortest.1, shortest.0))
}
