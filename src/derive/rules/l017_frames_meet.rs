//! L017 frames-meet.

use super::written;
use crate::build::Build;
use crate::derive::Array;
use crate::source::{Finding, Rule, Severity};
use crate::units::Length;

/// Two frames in one place.
pub static RULE: Rule = Rule {
    code: "L017",
    name: "frames-meet",
    severity: Severity::Stop,
    checks: "Frames do not overlap, seen from above, and stay 20 mm apart.",
    why: "Two frames can't lie in one place. Closer than a finger's width they knock together on the \
          road, and neither can be lowered onto its feet beside the other.",
    example: "[[frame]]\nname = \"front frame\"\nposition = { x = 400, y = 0 }\n[[frame]]\nname = \
              \"rear frame\"\nposition = { x = 900, y = 0 }",
    remedy: "Move one of them; the finding tells how far and which way.",
    source_limits: "Geometry, seen from above. 20 mm is common practice, no source.",
};

/// Least way between two frames.
pub const APART: Length = Length::mm(20.0);

/// The later of two frames is the one to move.
pub fn finding(build: &Build, first: &Array, later: &Array, advice: &str) -> Finding {
    let (a, b) = (first.outline, later.outline);
    let places = [first, later].map(|array| {
        build.frames.get(array.frame).map_or(array.span, |frame| {
            written(&[frame.position.x.span.to(frame.position.y.span), frame.span])
        })
    });
    let the = [first, later].map(|array| build.the_frame(array.frame));
    let overlap = a.overlaps(b);
    let words = if overlap {
        format!("{} and {} overlap", the[0], the[1])
    } else {
        format!("{} and {} are only {:.0} apart", the[0], the[1], a.gap_to(b))
    };
    Finding::new(&RULE, words)
        .at(places[1], "this one is placed here")
        .also(places[0], "the other one")
        .means(if overlap {
            "the two can't be in one place"
        } else {
            "they knock together, and no hand gets in between"
        })
        .help(advice)
}
