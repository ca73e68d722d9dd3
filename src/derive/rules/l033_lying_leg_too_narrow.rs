//! L033 lying-leg-too-narrow.

use crate::build::BondedFoot;
use crate::source::{Finding, Rule, Severity};
use crate::units::Length;

/// No room for the plate screws' nuts.
pub static RULE: Rule = Rule {
    code: "L033",
    name: "lying-leg-too-narrow",
    severity: Severity::Stop,
    checks: "The lying leg of a foot's angle has room for two rows of plate screws with their \
          nuts.",
    why: "The rows keep the leg from rolling over on the plate. A nut that does not lie flat \
          beside the standing leg can't be tightened.",
    example: "[[mount]]\nangle = \"aluminium-angle-60x30x3\"\nplate-screw = \"M6\"",
    remedy: "Take an angle with a wider lying leg, or thinner screws.",
    source_limits: "Rows 2.4 d0 apart (EN 1993-1-8 table 3.3), 1.5 d0 from the toe.",
};

/// The lying leg of `mark` is narrower than `needed`.
pub fn finding(mark: &str, leg: Length, needed: Length, foot: &BondedFoot) -> Finding {
    Finding::new(
        &RULE,
        format!(
            "the lying leg of {mark} is {leg:.0} wide; two rows of {} need {needed:.0}",
            foot.plate_screw.name
        ),
    )
    .at(foot.angle.span, "this section")
    .also(foot.plate_screw.span, "these screws")
    .means("the nuts don't lie flat beside the standing leg")
    .help(format!("take an angle with a shorter leg of {needed:.0} or more"))
    .help("take thinner plate screws")
}
