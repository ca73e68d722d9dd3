//! A step takes more people than there are.

use crate::compute::steps::Step;
use crate::source::{Finding, Rule, Severity, Span};

/// The rule.
pub static RULE: Rule = Rule {
    code: "T103",
    name: "crew-too-small",
    severity: Severity::Caution,
    checks: "That the crew has as many people as each step takes.",
    why: "An array lifted or a foot set by too few falls, or is set down where it touches first.",
    example: "[crew]\npeople = 1",
    remedy: "Ask for help on those steps and state the people in [crew].",
    source_limits: "People of a step: lifting by mass (HSE INDG143), the rest common practice.",
};

pub(in crate::compute::steps) fn raise(
    worst: &Step,
    short: &[&Step],
    crew: u32,
    span: Span,
) -> Finding {
    let titles: Vec<String> = short.iter().map(|step| format!("“{}”", step.title)).collect();
    Finding::new(
        &RULE,
        format!("step “{}” takes {} people; the crew has {crew}", worst.title, worst.people),
    )
    .at(span, format!("{crew} stated here"))
    .means(format!("not to be done with so few: {}", titles.join(", ")))
    .help(format!("find help for those steps and set `people = {}` in [crew]", worst.people))
}
