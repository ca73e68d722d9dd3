//! L027 frame-too-low-for-hinge.

use super::written;
use crate::build::{Frame, Rail};
use crate::source::{Finding, Rule, Severity};
use crate::units::Length;

/// The rail is higher than the hinge's leaf.
pub static RULE: Rule = Rule {
    code: "L027",
    name: "frame-too-low-for-hinge",
    severity: Severity::Stop,
    checks: "Between the rail's top and the lying leaf of a hinge there is room: the packer is \
          zero or thicker.",
    why: "If the rail stands higher than the leaf, the frame's edge is held up and the panels \
          stand askew, or the hinge is forced.",
    example: "[frame]\nclearance = 2\n[[mount]]\nrail = { height = 80 }",
    remedy: "Raise the clearance by what is missing, or use a hinge with thinner leaves.",
    source_limits: "Geometry on the measured roof.",
};

/// At hinge `mark` the rail is `missing` too high.
pub fn finding(mark: &str, missing: Length, frame: &Frame, rail: &Rail) -> Finding {
    Finding::new(&RULE, format!("the rail is {missing:.1} too high for hinge {mark}"))
        .at(written(&[frame.clearance.span, frame.span]), "the frame's clearance")
        .also(rail.height.span, "the rail's height")
        .means("the frame can't come down to where it should lie")
        .help(format!(
            "raise `clearance` to {:.0} or more",
            *frame.clearance + missing + Length::mm(0.5)
        ))
}
