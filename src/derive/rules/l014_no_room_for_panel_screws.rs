//! L014 no-room-for-panel-screws.

use super::written;
use crate::build::{Edge, Frame};
use crate::derive::PanelPlace;
use crate::source::{Finding, Rule, Severity};

/// No room for screws along a panel's edge.
pub static RULE: Rule = Rule {
    code: "L014",
    name: "no-room-for-panel-screws",
    severity: Severity::Stop,
    checks: "Along each panel edge on an outer tube there is room for two screws, clear of \
          connectors, cross tubes, mounts and their rivet nuts, no further apart than the \
          pitch asked for.",
    why: "With one screw a panel turns about it; over a longer stretch the flange lifts and \
          flutters.",
    example: "[frame]\npanel-screw-pitch = 60",
    remedy: "Ask for a larger pitch, or move the mounts along their edge.",
    source_limits: "Two screws an edge: common practice. The first is 50 mm or more from the panel's \
          corner.",
};

/// No room along an edge of a panel.
pub fn finding(place: &PanelPlace, edge: Edge, frame: &Frame) -> Finding {
    let side = match edge {
        Edge::Left => "left",
        Edge::Right => "right",
        Edge::Front => "front",
        Edge::Rear => "rear",
    };
    Finding::new(
        &RULE,
        format!(
            "no places for screws at most {:.0} apart along the {side} edge of panel {}",
            *frame.panel_screw_pitch, place.mark
        ),
    )
    .at(
        written(&[frame.panel_screw_pitch.span, frame.panel_screw.span, frame.span]),
        "the pitch asked for",
    )
    .means("the panel's edge would be held at too few places")
    .help("ask for a larger `panel-screw-pitch`")
    .help("move the mounts on that edge, so that their rivet nuts leave room")
}
