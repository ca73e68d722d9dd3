//! H008 panel-screw-length.

use crate::build::{Frame, Panel};
use crate::source::{Finding, Rule, Severity};
use crate::units::Length;

/// A panel screw of the wrong length.
pub static RULE: Rule = Rule {
    code: "H008",
    name: "panel-screw-length",
    severity: Severity::Stop,
    checks: "A panel screw goes through the flange with its full thread and ends 3 mm or more \
          below the panel's back sheet.",
    why: "Too short, it holds with its point; too long, it pierces the back sheet, which is \
          under voltage when the sun shines.",
    example: "[frame]\npanel-screw = { size = \"ST4.8\", length = 38 }",
    remedy: "Take the length told.",
    source_limits: "Two pitches for the point: ISO 1478, type C; 3 mm of air: common practice.",
};

/// The screw must have `least`.
pub fn too_short(frame: &Frame, least: Length) -> Finding {
    let mut finding = Finding::new(
        &RULE,
        format!(
            "the panel screw is {:.1} long; {least:.1} is the least",
            *frame.panel_screw_length
        ),
    )
    .at(frame.panel_screw_length.span, "this length")
    .means("it holds in the flange with its point alone");
    if let Some(length) = frame.panel_screw.length_at_least(least) {
        finding = finding.help(format!("take {length:.1}"));
    }
    finding
}

/// The screw stands `reach` over the panel's lower edge, where the back sheet is.
pub fn too_long(frame: &Frame, panel: &Panel, reach: Length, air: Length) -> Finding {
    Finding::new(
        &RULE,
        format!(
            "the panel screw reaches {reach:.1} into the panel, whose back sheet is at {:.1}",
            *panel.recess
        ),
    )
    .at(frame.panel_screw_length.span, "this length")
    .also(panel.recess.span, "the back sheet")
    .means("it pierces the back sheet, which is under voltage when the sun shines")
    .help(format!(
        "take a screw of at most {:.1}",
        *frame.panel_screw_length - (reach + air - *panel.recess)
    ))
}
