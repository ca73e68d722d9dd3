//! An action of the reader's own is too long to be read at arm's length.

use crate::compute::steps::words::MOST_WORDS;
use crate::source::{Finding, Rule, Severity, Stated};

/// The rule.
pub static RULE: Rule = Rule {
    code: "T102",
    name: "action-too-long",
    severity: Severity::Note,
    checks: "That an action of a [[step]] has 20 words or fewer.",
    why: "A long sentence is read twice, or not to its end, with a drill in the other hand.",
    example: "[[step]]\ntitle = \"Paint\"\nactions = [\"Take the brush that was cleaned \
        the day before and paint the rail from the front to the rear in one go, twice.\"]",
    remedy: "Split it into two actions; begin each with its verb.",
    source_limits: "ASD-STE100, rule 5.1. A number with its unit counts as one word only where a \
        no-break space joins them.",
};

pub(in crate::compute::steps) fn raise(action: &Stated<String>, count: usize) -> Finding {
    Finding::new(&RULE, format!("this action has {count} words; {MOST_WORDS} is the limit"))
        .at(action.span, "too long for one line of a step sheet")
        .means("it is read twice, or not to its end, with a drill in the other hand")
        .help("split it into two actions, each with its verb first")
}
