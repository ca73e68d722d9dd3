//! L031 plate-meets-tube.

use super::written;
use crate::build::Frame;
use crate::source::{Finding, Rule, Severity};
use crate::units::Length;

/// A plate touches the frame.
pub static RULE: Rule = Rule {
    code: "L031",
    name: "plate-meets-tube",
    severity: Severity::Stop,
    checks: "Between a foot's plate and the tube above its inboard half there are 3 mm of air.",
    why: "The plate reaches under the frame. If it touches the tube, the frame rests on the \
          bond and hammers on it while driving.",
    example: "[frame]\nclearance = 3",
    remedy: "Raise the frame's clearance by what is missing.",
    source_limits: "3 mm is common practice, no source.",
};

/// Between the plate of `mark` and the tube there is `air`.
pub fn finding(mark: &str, air: Length, least: Length, frame: &Frame) -> Finding {
    Finding::new(
        &RULE,
        format!(
            "between the plate of {mark} and the tube there is {air:.1}; {least:.0} is the least"
        ),
    )
    .at(written(&[frame.clearance.span, frame.span]), "the frame's clearance")
    .means("the frame would rest on the plate and hammer on it")
    .help(format!(
        "raise `clearance` to {:.0} or more",
        *frame.clearance + least - air + Length::mm(0.5)
    ))
}
