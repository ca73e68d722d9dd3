//! L013 panel-without-screws.

use super::written;
use crate::build::Frame;
use crate::derive::PanelPlace;
use crate::source::{Finding, Rule, Severity};

/// A panel that nothing holds.
pub static RULE: Rule = Rule {
    code: "L013",
    name: "panel-without-screws",
    severity: Severity::Stop,
    checks: "Each panel has an edge on an outer tube that it can be screwed to.",
    why: "Panel screws go through the outer tubes, where the panel's flange lies over the \
          whole tube. A panel without such an edge is held by nothing.",
    example: "[frame]\nrows = 3\ncolumns = 3",
    remedy: "Lay the panels so that each touches the frame's outside, or state parts of your own \
          for the inner ones.",
    source_limits: "Geometry: the screw in the middle of the tube must have 1.2 d0 of flange on either \
          side (EN 1993-1-8 table 3.3).",
};

/// A panel that touches no outer tube.
pub fn finding(place: &PanelPlace, frame: &Frame) -> Finding {
    Finding::new(&RULE, format!("panel {} has no edge over an outer tube", place.mark))
        .at(
            written(&[frame.arrangement.columns.span.to(frame.arrangement.rows.span), frame.span]),
            "rows and columns",
        )
        .means("no screw can hold it")
        .help("use at most two rows or two columns, or build two frames")
        .help("check `flange`: it must reach over the middle of the tube")
}
