//! L011 frame-over-keep-out.

use super::written;
use crate::build::{Frame, KeepOut};
use crate::source::{Finding, Rule, Severity};

/// Frame and keep-out in one place.
pub static RULE: Rule = Rule {
    code: "L011",
    name: "frame-over-keep-out",
    severity: Severity::Stop,
    checks: "The frame's outline does not cover a keep-out, nor what its open lid takes: a lid that opens \
          beyond upright reaches over its hinge by its depth times −cos of the angle. Frames may \
          pass over ribs.",
    why: "A vent that can't open, an aerial or a lamp under the panels is broken on the first \
          drive, or breaks the panel.",
    example: "[frame]\nposition = { x = 1400, y = 0 }\n[[roof.keep-out]]\nname = \"roof vent\"",
    remedy: "Move the frame clear of it; the finding tells the shortest way.",
    source_limits: "Geometry, seen from above.",
};

/// The frame covers part of what the keep-out takes: where it `stands`, or its open lid.
pub fn finding(
    the: &str,
    frame: &Frame,
    keep_out: &KeepOut,
    (stands, advice): (bool, &str),
) -> Finding {
    let what = if stands { "the" } else { "the open lid of the" };
    Finding::new(&RULE, format!("{the} covers {what} {}", *keep_out.name))
        .at(
            written(&[frame.position.x.span.to(frame.position.y.span), frame.span]),
            "the frame is placed here",
        )
        .also(keep_out.span, "what it covers")
        .means(if stands {
            "the two can't be in one place"
        } else {
            "the lid can't open, or breaks a panel when it does"
        })
        .help(advice)
}
