//! L030 entry-in-the-way.

use super::written;
use crate::build::Entry;
use crate::source::{Finding, Rule, Severity, Span};
use crate::units::Length;

/// The cable entry has no room.
pub static RULE: Rule = Rule {
    code: "L030",
    name: "entry-in-the-way",
    severity: Severity::Stop,
    checks: "The housing of the cable entry lies on the roof, 10 mm clear of frame, feet and \
          keep-outs.",
    why: "It is stuck down and sealed all round: a bead must be drawn along every side, and \
          nothing may stand on it.",
    example: "[entry]\nx = 2470\ny = 330",
    remedy: "Move the entry; the finding tells the shortest way.",
    source_limits: "10 mm for a bead and a finger: common practice, no source.",
};

/// The housing reaches over the roof's edge.
pub fn off_roof(entry: &Entry, advice: &str) -> Finding {
    Finding::new(&RULE, "the housing of the cable entry reaches over the roof's edge")
        .at(written(&[entry.x.span.to(entry.y.span), entry.span]), "placed here")
        .means("it can't be sealed all round")
        .help(advice)
}

/// What the housing is too near to.
pub struct Near<'a> {
    pub what: &'a str,
    pub span: Span,
    pub gap: Length,
    pub least: Length,
}

/// The housing lies too near to something else.
pub fn beside(entry: &Entry, near: &Near<'_>, advice: &str) -> Finding {
    let Near { what, span, gap, least } = *near;
    let told = if gap.is_zero() {
        format!("the cable entry lies under or on {what}")
    } else {
        format!("the cable entry is {gap:.0} from {what}; {least:.0} is the least")
    };
    Finding::new(&RULE, told)
        .at(written(&[entry.x.span.to(entry.y.span), entry.span]), "placed here")
        .also(span, "too near to this")
        .means("its housing can't be sealed all round")
        .help(advice)
}
