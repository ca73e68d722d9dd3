//! Rules of the chapter on planning.

use crate::source::{Finding, Rule, Severity};

/// Rules of this chapter.
pub static RULES: &[&Rule] = &[&NO_PLAN, &NOT_PROVEN];

/// No plan exists.
pub static NO_PLAN: Rule = Rule {
    code: "T201",
    name: "no-plan",
    severity: Severity::Stop,
    checks: "That the steps can be put into working hours with the crew, the places and the weather.",
    why: "Without a plan nobody knows when the vehicle may be driven.",
    example: "[crew]\nday = [\"00:00\", \"04:00\"]   # while the skin is dry from ten in the morning only",
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

/// Tells of a plan that may not be the shortest.
pub(super) fn not_proven() -> Finding {
    Finding::new(
        &NOT_PROVEN,
        "the plan may not be the shortest: the search ended before it was proven",
    )
    .means("the plan can be used as it is; another order might save an hour")
    .help("fewer [[step]] tables, or several joined to one, let the search come to its end")
}

#[cfg(test)]
mod tests {
    use super::*;

    // A build file whose search does not come to its end takes many seconds, so none is kept.
    #[test]
    fn a_plan_that_is_not_proven_says_that_it_can_be_used() {
        let finding = not_proven();
        assert_eq!(finding.rule, &NOT_PROVEN);
        assert_eq!(finding.severity, Severity::Note);
        assert!(finding.means.is_some_and(|means| means.contains("can be used")));
        assert!(!finding.helps.is_empty());
    }
}
