//! L034 lifted-frame-meets-keep-out.

use super::written;
use crate::build::{HingeLine, KeepOut, Mount};
use crate::source::{Finding, Rule, Severity};
use crate::units::{Angle, Length};

/// The lifted frame swings into something.
pub static RULE: Rule = Rule {
    code: "L034",
    name: "lifted-frame-meets-keep-out",
    severity: Severity::Stop,
    checks: "On its whole way up to its lift the frame with its panels stays 15 mm clear of every \
             keep-out and of all that its lid sweeps, in height as well as from above.",
    why: "The upper edge of the panels turns out over the hinges, and the frame may turn into what \
          stands behind them. It breaks the panels or is broken the first time that the frame is lifted.",
    example: "[[mount]]\nkind = \"hinge\"\nlift = \"60 °\"\n[[roof.keep-out]]\nname = \"aerial\"",
    remedy: "Lift less far, put the hinges on another edge, or move what stands there.",
    source_limits: "Geometry, in steps of a quarter of a degree, each taken as near as anything could \
                    come between two steps. 15 mm for bending and play is common practice.",
};

/// What the frame comes near on its way up.
pub struct Meets<'a> {
    pub keep_out: &'a KeepOut,
    /// Its open lid.
    pub lid: bool,
    /// Where they are nearest.
    pub angle: Angle,
    pub room: Length,
    pub needed: Length,
}

/// The lifted frame comes too near.
pub fn finding(meets: &Meets<'_>, line: &HingeLine, mount: &Mount) -> Finding {
    let Meets { keep_out, lid, angle, room, needed } = *meets;
    let name =
        if lid { format!("lid of the {}", *keep_out.name) } else { keep_out.name.value.clone() };
    let words = if room <= Length::ZERO {
        format!("lifted to {angle:.0} the frame meets the {name}")
    } else {
        format!(
            "lifted to {angle:.0} the frame comes within {room:.0} of the {name}; {needed:.0} is the least"
        )
    };
    // A lid may be kept shut while the frame is up.
    let severity = if room <= Length::ZERO && !lid { Severity::Stop } else { Severity::Caution };
    let place = match (lid, &keep_out.lid) {
        (true, Some(lid)) => written(&[lid.opens.span, keep_out.span]),
        _ => keep_out.span,
    };
    let finding = Finding::new(&RULE, words)
        .severity(severity)
        .at(written(&[line.lift.span, mount.span]), "lifted about this edge")
        .also(place, if lid { "opens into its way" } else { "stands in its way" })
        .means("the panels break, or what stands there is broken off")
        .help("lift less far with `lift`")
        .help("put the hinges on another edge");
    if lid { finding.help("label the lid: shut while the frame is lifted") } else { finding }
}
