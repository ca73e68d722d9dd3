//! H002 holes-too-close.

use crate::derive::{Hole, Part};
use crate::source::{Finding, Rule, Severity};
use crate::units::Length;

/// Two holes with too little metal between.
pub static RULE: Rule = Rule {
    code: "H002",
    name: "holes-too-close",
    severity: Severity::Stop,
    checks: "Between the middles of two holes in one face: 2.2 times the larger hole for bolts \
          and screws, 3 times the fastener for rivets and rivet nuts, and countersinks do not \
          run into each other.",
    why: "Between close holes the metal tears or the heads don't sit flat.",
    example: "[[hole]]\nx = 40\ny = 10\n[[hole]]\nx = 48\ny = 10",
    remedy: "Move one of the two, or take smaller fasteners.",
    source_limits: "EN 1993-1-8:2005 table 3.3 (2.2 d0); rivets 3 d: US Army TM 10-5410-229-13&P.",
};

/// Two holes `apart` where `least` is asked for.
pub fn finding(hole: &Hole, other: &Hole, part: &Part, apart: Length, least: Length) -> Finding {
    Finding::new(
        &RULE,
        format!(
            "the {} hole and the {} hole in the {} are {apart:.1} apart; {least:.1} is the least",
            hole.kind.name(),
            other.kind.name(),
            part.name
        ),
    )
    .at(other.span, "this hole")
    .also(hole.span, "is too close to this one")
    .means("the metal between them tears, or heads don't sit flat")
    .help(format!("move one of them by {:.1}", least - apart))
}
