//! L034 lifted-frame-meets-keep-out.

use super::written;
use crate::build::{HingeLine, KeepOut, Mount};
use crate::source::{Finding, Rule, Severity};
use crate::units::{Angle, Length};

/// The lifted frame swings into something beside its hinges.
pub static RULE: Rule = Rule {
    code: "L034",
    name: "lifted-frame-meets-keep-out",
    severity: Severity::Stop,
    checks: "What the frame sweeps outboard of its hinges when it is lifted is clear of keep-outs.",
    why: "The upper edge of the panels turns out over the hinges. What stands there breaks the panels \
          or is broken by them the first time that the frame is lifted.",
    example: "[[mount]]\nkind = \"hinge\"\nlift = \"60 °\"\n[[roof.keep-out]]\nname = \"aerial\"",
    remedy: "Lift less far, put the hinges on another edge, or move what stands there.",
    source_limits: "Geometry, seen from above: height of the panels over the pins times the sine of \
                    the angle. What is lower than the pins is told too, to be looked at.",
};

/// Lifted to `angle` the frame swings out by `reach` and meets the keep-out.
pub fn finding(
    keep_out: &KeepOut,
    angle: Angle,
    reach: Length,
    line: &HingeLine,
    mount: &Mount,
) -> Finding {
    Finding::new(
        &RULE,
        format!(
            "lifted to {angle:.0} the frame swings {reach:.0} out and meets the {}",
            *keep_out.name
        ),
    )
    .at(written(&[line.lift.span, mount.span]), "lifted about this edge")
    .also(keep_out.span, "stands in its way")
    .means("the panels break, or what stands there is broken off")
    .help("lift less far with `lift`")
    .help("put the hinges on another edge")
}
