//! H006 fasteners-meet-inside.

use crate::derive::{Hole, Part};
use crate::source::{Finding, Rule, Severity};
use crate::units::Length;

/// Two fasteners in one place inside a tube.
pub static RULE: Rule = Rule {
    code: "H006",
    name: "fasteners-meet-inside",
    severity: Severity::Stop,
    checks: "Rivet nuts, bolts' ends, rivets' tails and the way of a screwdriver keep 1 mm from \
          each other inside a tube.",
    why: "What meets inside can't be set, or is drilled through by the next hole.",
    example: "[[mount]]\nedge = \"left\"\nat = [545]",
    remedy: "Move the mount along its edge by the amount told.",
    source_limits: "Sizes from the tables; a rivet's tail is taken as one and a half diameters wide and \
          long.",
};

/// Two things in one tube that are too close by `by`.
pub fn finding(hole: &Hole, other: &Hole, part: &Part, by: Length) -> Finding {
    Finding::new(
        &RULE,
        format!(
            "inside the {} the {} at {:.0} and the {} at {:.0} are {by:.1} too close",
            part.name,
            hole.kind.name(),
            hole.at.x,
            other.kind.name(),
            other.at.x
        ),
    )
    .at(hole.span, "this one")
    .also(other.span, "and this one")
    .means("the second can't be set, or the drill meets the first")
    .help(format!("move the mount along its edge by {by:.0} or more"))
}
