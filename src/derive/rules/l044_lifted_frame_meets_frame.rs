//! L044 lifted-frame-meets-frame.

use super::written;
use crate::build::{HingeLine, Mount};
use crate::source::{Finding, Rule, Severity, Span};
use crate::units::{Angle, Length};

/// The lifted frame swings into another frame or its feet.
pub static RULE: Rule = Rule {
    code: "L044",
    name: "lifted-frame-meets-frame",
    severity: Severity::Stop,
    checks: "On its whole way up to its lift the frame with its panels stays 15 mm clear of every other \
             frame with its panels, and of the feet of other frames.",
    why: "The upper edge of the panels turns out over the hinges. What lies behind them is a second frame \
          as often as not, and glass meets glass.",
    example: "[[mount]]\nkind = \"hinge\"\nframe = \"rear frame\"\nedge = \"front\"\nlift = \"80 °\"",
    remedy: "Lift less far, put the hinges on another edge, or the frames farther apart.",
    source_limits: "Geometry, in steps of a quarter of a degree, each taken as near as anything could \
                    come between two steps; the other frame lies. 15 mm for bending and play is common \
                    practice.",
};

/// What the frame comes near on its way up.
pub struct Meets<'a> {
    pub what: &'a str,
    pub span: Span,
    /// Where they are nearest.
    pub angle: Angle,
    pub room: Length,
    pub needed: Length,
}

/// The lifted frame comes too near.
pub fn finding(the: &str, meets: &Meets<'_>, line: &HingeLine, mount: &Mount) -> Finding {
    let Meets { what, span, angle, room, needed } = *meets;
    let (words, severity) = if room <= Length::ZERO {
        (format!("lifted to {angle:.0} {the} meets {what}"), Severity::Stop)
    } else {
        let words = format!(
            "lifted to {angle:.0} {the} comes within {room:.0} of {what}; {needed:.0} is the least"
        );
        (words, Severity::Caution)
    };
    Finding::new(&RULE, words)
        .severity(severity)
        .at(written(&[line.lift.span, mount.span]), "lifted about this edge")
        .also(span, "lies in its way")
        .means("the panels break the first time that it is lifted")
        .help("lift less far with `lift`, or put the hinges on another edge")
        .help("put the frames farther apart")
}
