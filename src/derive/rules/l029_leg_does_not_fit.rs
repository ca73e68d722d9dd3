//! L029 leg-does-not-fit.

use super::written;
use crate::build::Frame;
use crate::source::{Finding, Rule, Severity, Stated};
use crate::tables::Section;
use crate::units::Length;

/// Bolts beside the standing leg.
pub static RULE: Rule = Rule {
    code: "L029",
    name: "leg-does-not-fit",
    severity: Severity::Stop,
    checks: "The bolt line of a foot lies on its standing leg: 1.2 times the hole below the leg's \
          end, and high enough that the washer clears the lying leg.",
    why: "The roof falls away from the frame; where it is far below, an angle is too short to \
          reach the tube's middle.",
    example: "[[mount]]\nangle = \"aluminium-angle-40x40x3\"",
    remedy: "Take an angle with a longer leg, or change the frame's clearance.",
    source_limits: "Edge distance 1.2 d0: EN 1993-1-8 table 3.3, EN 1999-1-1 table 8.2.",
};

/// The leg of foot `mark` is shorter than `needed`.
pub fn too_short(mark: &str, needed: Length, leg: Length, angle: &Stated<Section>) -> Finding {
    Finding::new(
        &RULE,
        format!("the standing leg of {mark} is {leg:.0}; it must be {needed:.1} or more"),
    )
    .at(angle.span, "this section")
    .means("the bolts have too little metal above them, or miss the leg")
    .help(format!("take an angle with a leg of {:.0} or more", Length::mm(needed.to_mm().ceil())))
    .help("lower the frame's `clearance`")
}

/// The bolt line of foot `mark` is too near to the lying leg by `missing`.
pub fn too_low(mark: &str, missing: Length, frame: &Frame) -> Finding {
    Finding::new(&RULE, format!("the bolts of {mark} are {missing:.1} too near to the lying leg"))
        .at(written(&[frame.clearance.span, frame.span]), "the frame's clearance")
        .means("head and washer don't fit between the legs")
        .help(format!("raise `clearance` by {missing:.0} or more"))
}
