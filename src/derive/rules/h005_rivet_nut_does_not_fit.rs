//! H005 rivet-nut-does-not-fit.

use crate::derive::{Hole, Part};
use crate::source::{Finding, Rule, Severity, Span};
use crate::tables::{Section, Thread};
use crate::units::Length;

/// A rivet nut that can't be set.
pub static RULE: Rule = Rule {
    code: "H005",
    name: "rivet-nut-does-not-fit",
    severity: Severity::Stop,
    checks: "There is a rivet nut whose grip range holds the tube's wall, and it ends before the \
          far wall.",
    why: "A rivet nut that is made for a thicker wall turns in its hole; one that meets the \
          far wall can't be set.",
    example: "[frame]\nsection = \"aluminium-tube-20x20x1.5\"\n[[mount]]\nbolt = \"M10\"",
    remedy: "Take another thread, or a tube with another wall.",
    source_limits: "Grip ranges and lengths of generic rivet nuts: common practice; the maker's sheet \
          wins.",
};

/// No rivet nut of this thread grips the wall of this tube.
pub fn none(thread: &Thread, tube: &Section, span: Span) -> Finding {
    Finding::new(&RULE, format!("no rivet nut {} grips a wall of {:.1}", thread.name, tube.t))
        .at(span, "this thread")
        .means("the bolts would have nothing to hold in")
        .help("take another thread, or a tube with another wall")
}

/// Nut or bolt reach further than there is room.
pub fn too_deep(hole: &Hole, part: &Part, reach: Length, room: Length) -> Finding {
    Finding::new(
        &RULE,
        format!("rivet nut and bolt reach {reach:.1} into the {}, which has {room:.1}", part.name),
    )
    .at(hole.span, "this rivet nut")
    .also(part.span, "in this tube")
    .means("it meets the far wall before it grips")
    .help("take a smaller thread or a deeper tube")
}
