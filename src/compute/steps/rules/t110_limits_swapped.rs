//! Limits of an action of the reader's own that no value can keep.

use crate::source::{Finding, Rule, Severity, Stated};

/// The rule.
pub static RULE: Rule = Rule {
    code: "T110",
    name: "limits-swapped",
    severity: Severity::Stop,
    checks: "That `low` of an action of a [[step]] is not above its `high`.",
    why: "What is measured on the day can't lie between limits that are the wrong way round.",
    example: "[[step]]\ntitle = \"Hang the door\"\nactions = [{ do = \"Set the gap.\", done = \"gap\", \
        low = 4, high = 2, unit = \"mm\" }]",
    remedy: "Swap the two, or leave one out where there is no such limit.",
    source_limits: "Arithmetic.",
};

pub(in crate::compute::steps) fn raise(low: &Stated<f64>, high: &Stated<f64>) -> Finding {
    Finding::new(&RULE, format!("the least value, {}, is above the greatest, {}", **low, **high))
        .at(low.span, "the least value")
        .also(high.span, "the greatest value")
        .means("no value that is measured can be right")
        .help(format!("write low = {} and high = {}", **high, **low))
        .help("leave one out where there is no such limit")
}
