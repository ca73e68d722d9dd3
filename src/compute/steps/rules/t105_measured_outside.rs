//! A recorded value lies outside the limits of its action.

use crate::build::Measured;
use crate::compute::steps::{Action, Done, Step};
use crate::source::{Finding, Rule, Severity};

/// The rule.
pub static RULE: Rule = Rule {
    code: "T105",
    name: "measured-outside",
    severity: Severity::Caution,
    checks: "Whether a value under `measured` of a [[record]] lies within low and high of its action.",
    why: "What was built is not what was worked out: loads, bonds and fits rest on these limits.",
    example: "[[record]]\nstep = \"bond\"\nstarted = \"2026-05-16 14:20\"\nmeasured = [{ what = \
        \"bead height\", value = \"4 mm\" }]",
    remedy: "Measure once more; make it good, or change the build file so that it tells what is there.",
    source_limits: "Values in the unit of the step sheet, lengths in any unit. Which of several alike \
        things a value belongs to is not known.",
};

pub(in crate::compute::steps) fn raise(
    step: &Step,
    action: &Action,
    done: &Done,
    measured: &Measured,
) -> Finding {
    let limits = match (done.low.is_empty(), done.high.is_empty()) {
        (false, false) => format!("{} to {} {}", done.low, done.high, done.unit),
        (false, true) => format!("{} {} or more", done.low, done.unit),
        _ => format!("{} {} or less", done.high, done.unit),
    };
    let message = format!(
        "{} of action {} was measured as {}; the limits are {limits}",
        done.words, action.number, measured.value.value
    );
    Finding::new(&RULE, message)
        .at(measured.value.span, "outside its limits")
        .means(format!("“{}” is not as it was worked out", step.title))
        .help("measure once more; then make it good, or change the build file to what is there")
}
