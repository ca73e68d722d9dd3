//! L019 frame-on-rib.

use super::written;
use crate::build::{Frame, KeepOut};
use crate::source::{Finding, Rule, Severity};
use crate::units::Length;

/// The frame touches a rib of the skin that it lies over.
pub static RULE: Rule = Rule {
    code: "L019",
    name: "frame-on-rib",
    severity: Severity::Stop,
    checks: "Where a frame passes over ribs of the skin, its tubes stay 5 mm over them.",
    why: "A tube that lies on a rib rubs through its paint on every road, and no foot beside it \
          reaches its bond thickness.",
    example: "[frame]\nclearance = 8\n[[roof.keep-out]]\nname = \"roof ribs\"\nkind = \"rib\"\nheight = 10",
    remedy: "Raise `clearance` by the amount told.",
    source_limits: "Geometry; the roof's readings are taken between the ribs. 5 mm is common practice, no source.",
};

/// Least room over a rib.
pub const LEAST: Length = Length::mm(5.0);

/// The frame has `room` over the ribs, which may be less than nothing.
pub fn finding(the: &str, frame: &Frame, rib: &KeepOut, room: Length) -> Finding {
    let told = if room > Length::ZERO {
        format!("{the} passes the {} at {room:.1}; {LEAST:.0} is the least", *rib.name)
    } else {
        format!("{the} lies {:.1} too low for the {}", -room, *rib.name)
    };
    let more = Length::mm((LEAST - room).to_mm().ceil());
    Finding::new(&RULE, told)
        .at(written(&[frame.clearance.span, frame.span]), "clearance of the frame")
        .also(rib.span, "what it passes over")
        .means("the tubes rub on the ribs")
        .help(format!("set `clearance` {more:.0} higher"))
}
