//! L016 frame-near-keep-out.

use crate::build::{Frame, KeepOut, KeepOutKind};
use crate::source::{Finding, Rule, Severity};
use crate::units::Length;

/// The frame is close to something.
pub static RULE: Rule = Rule {
    code: "L016",
    name: "frame-near-keep-out",
    severity: Severity::Note,
    checks: "The frame stays 50 mm clear of keep-outs.",
    why: "A vent's lid opens wider than its frame, sealant is drawn round it, and a hand must \
          get in between.",
    example: "[frame]\nposition = { x = 900, y = 0 }",
    remedy: "Open the lid before the frame is bolted down and look at the gap, or move the frame.",
    source_limits: "50 mm is common practice, no source.",
};

/// Closer than this is told.
pub const NEAR: Length = Length::mm(50.0);

/// The frame passes a keep-out at a small gap.
pub fn finding(the: &str, frame: &Frame, gap: Length, keep_out: &KeepOut) -> Finding {
    let (means, help) = match *keep_out.kind {
        KeepOutKind::Antenna => (
            "a rod that bends in the wind beats on the glass, and its shadow costs power",
            "bend it over by hand and look whether it meets the panels",
        ),
        KeepOutKind::Walkway => (
            "a shoe beside its edge comes down on the glass",
            "mark the edge of the walkway on the roof, or move the frame",
        ),
        KeepOutKind::Thing | KeepOutKind::Fan | KeepOutKind::Hatch | KeepOutKind::Rib => (
            "a lid may open against the panels, and there is little room for a hand",
            "open its lid fully and look whether it meets the panels",
        ),
    };
    Finding::new(&RULE, format!("{the} passes the {} at {gap:.0}", *keep_out.name))
        .at(keep_out.span, "the keep-out")
        .also(frame.position.x.span, "the frame")
        .means(means)
        .help(help)
}
