//! L037 spreader-too-small.

use crate::build::BoltedFoot;
use crate::source::{Finding, Rule, Severity};
use crate::units::Length;

/// A spreader that is smaller than the foot above it.
pub static RULE: Rule = Rule {
    code: "L037",
    name: "spreader-too-small",
    severity: Severity::Caution,
    checks: "The plate below the skin is at least as long and as wide as the leg above it.",
    why: "The skin is thin: between a large leg above and a small plate below it bends at the \
          plate's edge, tires and cracks.",
    example: "[[mount]]\nkind = \"bolted-foot\"\nspreader = { length = 60, width = 25 }",
    remedy: "Make the spreader as large as the lying leg, or larger.",
    source_limits: "Common practice, no source.",
};

/// The spreader of `mark` is smaller than the lying leg, which is `lying` wide.
pub fn finding(mark: &str, lying: Length, foot: &BoltedFoot) -> Finding {
    let (plate, leg) = (&foot.spreader, *foot.angle_length);
    Finding::new(
        &RULE,
        format!(
            "the spreader of {mark} is {:.0} by {:.0}; the leg above it is {leg:.0} by {lying:.0}",
            *plate.length, *plate.width
        ),
    )
    .at(plate.length.span.to(plate.width.span), "this plate")
    .means("the skin bends over the edge of the plate and cracks in time")
    .help(format!(
        "make it {:.0} by {:.0} or larger",
        leg.max(*plate.length),
        lying.max(*plate.width)
    ))
}
