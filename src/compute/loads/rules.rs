//! Rules of the loads chapter.

use crate::source::{Rule, Severity};

/// Rules of this chapter.
pub static RULES: &[&Rule] = &[&NOT_HELD];

/// The mounts leave the frame free to move.
pub static NOT_HELD: Rule = Rule {
    code: "A001",
    name: "frame-not-held",
    severity: Severity::Stop,
    checks: "That the mounts hold the frame against every load: at least three, not all in one line.",
    why: "Mounts in one line are a hinge: the first gust turns the array over.",
    example: "[[mount]]\nmark = \"G\"\nkind = \"hinge\"\nedge = \"left\"\nat = [200, 1400]   # and no other mount",
    remedy: "Add mounts on the opposite edge.",
    source_limits: "Statics: six equations of equilibrium of a rigid body. The frame is taken as rigid.",
};
