//! L010 frame-beyond-roof.

use super::written;
use crate::build::Frame;
use crate::geometry::Rect;
use crate::source::{Finding, Rule, Severity};

/// The frame is partly off the roof.
pub static RULE: Rule = Rule {
    code: "L010",
    name: "frame-beyond-roof",
    severity: Severity::Stop,
    checks: "The frame's outline lies within the roof's length and width.",
    why: "A frame that stands over the edge of the roof makes the vehicle wider or longer, \
          catches branches and cannot be carried by feet on the skin.",
    example: "[frame]\nposition = { x = 2600, y = 0 }",
    remedy: "Move the frame, lay the panels the other way, or take fewer.",
    source_limits: "Geometry; the roof's length and width as stated.",
};

/// The frame's outline against the roof's edge.
pub fn finding(the: &str, frame: &Frame, (outline, edge): (Rect, Rect), advice: &str) -> Finding {
    let larger = outline.width() > edge.width() || outline.height() > edge.height();
    Finding::new(
        &RULE,
        format!(
            "{the} of {:.0} × {:.0} does not lie on the roof of {:.0} × {:.0}",
            outline.width(),
            outline.height(),
            edge.width(),
            edge.height()
        ),
    )
    .at(written(&[frame.position.x.span.to(frame.position.y.span), frame.span]), "placed here")
    .means("it stands over the roof's edge")
    .help(if larger { "lay the panels the other way, or take fewer" } else { advice })
}
