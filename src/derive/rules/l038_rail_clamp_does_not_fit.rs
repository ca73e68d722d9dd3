//! L038 rail-clamp-does-not-fit.

use crate::build::RailClamp;
use crate::source::{Finding, Rule, Severity};
use crate::units::Length;

/// A clamp that does not go round the rail.
pub static RULE: Rule = Rule {
    code: "L038",
    name: "rail-clamp-does-not-fit",
    severity: Severity::Stop,
    checks: "The lying leg of a rail clamp reaches over the rail with room for bolts on either side, \
          and the space under the rail takes plate, nut and the end of the bolt.",
    why: "A clamp with bolts on one side only tips off the rail; a nut that meets the skin can't be \
          turned, and wears through the paint.",
    example: "[[mount]]\nkind = \"rail-clamp\"\nrail = { y = -544, height = 20, width = 70 }",
    remedy: "Move the frame towards or away from the rail, or take an angle with a longer leg; \
          take thinner bolts or a thinner plate where the space under the rail is low.",
    source_limits: "Edge distance 1.2 d0 (EN 1993-1-8 table 3.3); 5 mm of air over the skin: common \
          practice.",
};

/// The outer bolts of `mark` lie `short` too far out, the inner ones `near` too near to the heel.
pub fn no_room(mark: &str, short: Length, near: Length, clamp: &RailClamp) -> Finding {
    let told = if short > Length::ZERO && near > Length::ZERO {
        format!("the lying leg of {mark} is {:.1} too short for bolts on both sides", short + near)
    } else if short > Length::ZERO {
        format!("the outer bolts of {mark} miss the lying leg by {short:.1}")
    } else {
        format!("the inner bolts of {mark} are {near:.1} too near to the standing leg")
    };
    let finding = Finding::new(&RULE, told)
        .at(clamp.rail.y.span.to(clamp.rail.width.span), "the rail")
        .also(clamp.angle.span, "this section")
        .means("the clamp has no bolts on one side of the rail and tips off");
    if short > Length::ZERO && near > Length::ZERO {
        finding.help("take an angle with a longer leg, or thinner bolts")
    } else if short > Length::ZERO {
        finding.help(format!("move the frame's edge {short:.0} towards the rail"))
    } else {
        finding.help(format!("move the frame's edge {near:.0} away from the rail"))
    }
}

/// Under the rail at `mark` there is `has`; the clamp needs `needed`.
pub fn too_low(mark: &str, has: Length, needed: Length, clamp: &RailClamp) -> Finding {
    Finding::new(
        &RULE,
        format!("under the rail at {mark} there is {has:.1}; plate and nut need {needed:.1}"),
    )
    .at(clamp.rail.height.span, "height of the rail")
    .means("the nuts meet the skin")
    .help("take thinner bolts or a thinner clamp plate")
}
