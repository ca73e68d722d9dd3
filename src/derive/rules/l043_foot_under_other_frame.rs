//! L043 foot-under-other-frame.

use crate::source::{Finding, Rule, Severity, Span};

/// A foot of one frame reaches under another one.
pub static RULE: Rule = Rule {
    code: "L043",
    name: "foot-under-other-frame",
    severity: Severity::Caution,
    checks: "Plates of feet stay beside the frames that they do not hold, seen from above.",
    why: "Under another frame no tool reaches the foot's screws, its bond cannot be pressed, looked at or \
          cut, and that frame cannot be lowered onto its own feet beside it.",
    example: "[[frame]]\nname = \"rear frame\"\n[[mount]]\nkind = \"bonded-foot\"\nframe = \"front \
              frame\"\nedge = \"rear\"",
    remedy: "Put the foot on another edge of its frame, or the frames farther apart; the finding tells \
             how far.",
    source_limits: "Geometry, seen from above.",
};

/// `foot` reaches under `the` frame, which is placed at `frame`.
pub fn finding((foot, span): (&str, Span), (the, frame): (&str, Span), advice: &str) -> Finding {
    Finding::new(&RULE, format!("the plate of {foot} reaches under {the}"))
        .at(span, "this foot")
        .also(frame, "the frame above it")
        .means("its screws and its seal are out of reach once that frame is on")
        .help(advice)
}
