//! A recorded value belongs to no action of its step.

use crate::build::Measured;
use crate::compute::steps::Step;
use crate::source::{Finding, Rule, Severity};

/// The rule.
pub static RULE: Rule = Rule {
    code: "T106",
    name: "no-such-value",
    severity: Severity::Caution,
    checks: "That `what` under `measured` of a [[record]] names a value of its step, and that `value` \
        is a number in the unit of that value.",
    why: "A value that belongs to nothing is compared with nothing.",
    example: "[[record]]\nstep = \"bond\"\nstarted = \"2026-05-16 14:20\"\nmeasured = [{ what = \
        \"bead hight\", value = \"8 mm\" }]",
    remedy: "Use the number of the action, or its words under \u{201c}done when\u{201d} on the step sheet.",
    source_limits: "Words are compared without regard to capitals.",
};

pub(in crate::compute::steps) fn raise(step: &Step, measured: &Measured) -> Finding {
    let known: Vec<String> = step
        .actions()
        .filter_map(|action| Some((action.number, action.done.as_ref()?)))
        .filter(|(_, done)| done.measured())
        .map(|(number, done)| format!("{number} {}", done.words))
        .collect();
    let finding = Finding::new(
        &RULE,
        format!("“{}” has no value named `{}`", step.title, measured.what.value),
    )
    .at(measured.what.span, "no value of this step")
    .means("it is printed on the record sheet, but compared with no limits");
    if known.is_empty() {
        finding.help("the step has no measured values; tell it under `changes`")
    } else {
        finding.help(format!("its values are: {}", known.join("; ")))
    }
}

/// A value that can't be read in the unit of its limits.
pub(in crate::compute::steps) fn unreadable(unit: &str, measured: &Measured) -> Finding {
    Finding::new(&RULE, format!("`{}` is no number in {unit}", measured.value.value))
        .at(measured.value.span, "can't be compared")
        .means("it is printed on the record sheet, but compared with no limits")
        .help(format!("write the number and its unit, as in `value = \"8 {unit}\"`"))
}
