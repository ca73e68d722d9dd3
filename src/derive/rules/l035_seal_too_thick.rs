//! L035 seal-too-thick.

use crate::build::BoltedFoot;
use crate::source::{Finding, Rule, Severity};
use crate::units::Length;

/// The leg of a bolted foot stands too far off the skin somewhere.
pub static RULE: Rule = Rule {
    code: "L035",
    name: "seal-too-thick",
    severity: Severity::Caution,
    checks: "The sealant between the leg of a bolted foot and the skin is nowhere thicker than 4 mm.",
    why: "A tight bolt pulls the thin skin up into the gap: the roof dents, the bolt works loose, \
          and a thick bed of sealant tears.",
    example: "[[mount]]\nkind = \"bolted-foot\"\nangle-length = 400",
    remedy: "Take a shorter bracket or a narrower leg, or set the foot where the roof is flatter.",
    source_limits: "4 mm: common practice, no source.",
};

/// Thicker than this is told.
pub const MOST: Length = Length::mm(4.0);

/// Under foot `mark` the sealant would be `thickest`.
pub fn finding(mark: &str, thickest: Length, foot: &BoltedFoot) -> Finding {
    Finding::new(
        &RULE,
        format!("the sealant under {mark} would be {thickest:.1} thick; {MOST:.0} is the most"),
    )
    .at(foot.angle_length.span, "this bracket is stiff")
    .also(foot.angle.span, "its lying leg")
    .means("tight bolts pull the skin up into the gap")
    .help("make `angle-length` shorter, or take an angle with a narrower lying leg")
    .help("move the foot where the roof is flatter")
}
