//! L018 corner-angle-does-not-fit.

use super::written;
use crate::build::{CornerAngle, Frame};
use crate::source::{Finding, Rule, Severity};
use crate::units::Length;

/// The angle in the inner corner has no room for its fasteners.
pub static RULE: Rule = Rule {
    code: "L018",
    name: "corner-angle-does-not-fit",
    severity: Severity::Stop,
    checks: "Each leg of the angle in a frame's inner corner has room for its fasteners with their edge \
          distance and pitch, the tube is high enough for them, and one is sold that grips leg and wall.",
    why: "A rivet too near to the edge tears out; one too near to the other leg can't be set, as the \
          tool's nose meets it. The corner then has less than it was counted with.",
    example: "[[frame]]\ncorner = { cut = \"mitre\", angle = \"aluminium-angle-20x20x2\", each = 2, \
              rivet = \"blind-rivet-4.8-aluminium\" }",
    remedy: "Take an angle with longer legs, thinner rivets or fewer of them.",
    source_limits: "Rivets keep 2 d to an edge and 3 d between two (US Army TM 10-5410-229-13&P); screws \
              1.2 d0 and 2.2 d0 (EN 1993-1-8, table 3.3). Room for the tool: common practice, no source.",
};

/// Legs too short for their row.
pub fn leg_too_short(angle: &CornerAngle, least: Length) -> Finding {
    let short = angle.section.a.min(angle.section.b);
    Finding::new(
        &RULE,
        format!(
            "a leg of {short:.0} has no room for {} fasteners; {least:.0} is needed",
            *angle.each
        ),
    )
    .at(written(&[angle.section.span, angle.each.span]), "the corner angle")
    .means("a rivet or screw would sit too near to the toe or to the other leg")
    .help(format!("take an angle with legs of {least:.0} or more"))
    .help("or fewer or thinner fasteners in each leg")
}

/// The tube is too low for the fasteners' edge distance.
pub fn tube_too_low(frame: &Frame, angle: &CornerAngle, least: Length) -> Finding {
    Finding::new(
        &RULE,
        format!(
            "a tube {:.0} high takes no corner angle with these fasteners; {least:.0} is needed",
            frame.section.height()
        ),
    )
    .at(written(&[frame.section.span, frame.span]), "the tube")
    .also(angle.section.span, "the angle that stands against it")
    .means("the fasteners would sit too near to the angle's ends")
    .help("take a higher tube or thinner fasteners")
}

/// None is sold in a length that grips leg and wall.
pub fn no_length(angle: &CornerAngle, stack: Length) -> Finding {
    Finding::new(&RULE, format!("no such fastener is sold for leg and wall of {stack:.1} together"))
        .at(angle.section.span, "the corner angle")
        .means("the tube can't be fixed to it")
        .help("take another rivet or screw, or a thinner angle")
}
