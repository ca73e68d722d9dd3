//! Rules of the chapter on planning.

use crate::source::{Rule, Severity};

/// Rules of this chapter.
pub static RULES: &[&Rule] = &[&NO_PLAN, &NOT_PROVEN];

/// No plan exists.
pub static NO_PLAN: Rule = Rule {
    code: "T201",
    name: "no-plan",
    severity: Severity::Stop,
    checks: "That the steps can be put into working hours with the crew, the places and the weather.",
    why: "Without a plan nobody knows when the vehicle may be driven.",
    example: "[crew]\npeople = 2\nstart = \"2026-05-16\"\nday = [\"08:00\", \"08:10\"]",
    remedy: "A longer working day, more people, other weather, or steps that do not wait for each other.",
    source_limits: "Exact search over 120 days; a step that makes a joint lies in hours fit for bonding.",
};

/// The plan may not be the shortest.
pub static NOT_PROVEN: Rule = Rule {
    code: "T202",
    name: "plan-not-proven",
    severity: Severity::Note,
    checks: "Whether the end of the plan equals its lower bound.",
    why: "An hour may be saved by another order; nothing else depends on it.",
    example: "several dozen steps of the reader's own with many people",
    remedy: "Use the plan.",
    source_limits: "The search counts its decisions and ends after a set number, so that each machine gives the same plan.",
};
