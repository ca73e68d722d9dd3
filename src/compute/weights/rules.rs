//! Rules of the chapter on mass and height.

use crate::source::{Rule, Severity};

/// Rules of this chapter.
pub static RULES: &[&Rule] = &[&ROOF_LIMIT];

/// More on the roof than it may carry.
pub static ROOF_LIMIT: Rule = Rule {
    code: "M001",
    name: "roof-limit",
    severity: Severity::Stop,
    checks: "The mass on the roof against its limits while driving and at rest with one person on it.",
    why: "The limit covers braking, bends and bumps; beyond it the roof or its gutters give way.",
    example: "[vehicle]\nroof-limit = { moving = \"20 kg\", standing = \"60 kg\" }",
    remedy: "While driving: fewer or lighter panels. At rest: work from a ladder or scaffold, nobody on the roof.",
    source_limits: "Limit as stated from the vehicle's handbook. Stop above 1.0, caution from 0.8; a person is taken as 90 kg with tools, common practice.",
};
