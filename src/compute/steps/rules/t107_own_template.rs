//! A fault in a template of a step of the reader's own.

use crate::compute::steps::template::TemplateFault;
use crate::source::{Finding, Rule, Severity};

/// The rule.
pub static RULE: Rule = Rule {
    code: "T107",
    name: "own-template",
    severity: Severity::Stop,
    checks: "Whether each of your own templates of steps can be read, keeps the hold points and warnings \
        of the one whose place it takes, asks for nothing that the build does not have, and words its \
        actions as one sentence of at most 20 words, verb first.",
    why: "A step is worked by as it is printed; a gap in it, or a hold point left out, is found with the \
        drill in the roof.",
    example: "key = \"paint\"\norder = 45\n[[line]]\naction = \"The tubes are painted.\"",
    remedy: "Mend the line that is shown. The files in `templates/steps` of the source show every key.",
    source_limits: "ASD-STE100, rules 5.1 to 5.3, for actions. Whether the work itself is right is not \
        checked.",
};

/// The findings of one file.
pub fn raise<'a>(faults: impl IntoIterator<Item = &'a TemplateFault>) -> Vec<Finding> {
    let told = faults.into_iter().map(|fault| {
        Finding::new(&RULE, &fault.message)
            .at(fault.span, "here")
            .means("the step can't be printed as it is written")
            .help(&fault.help)
    });
    let mut findings: Vec<Finding> = told.collect();
    crate::source::sort(&mut findings);
    findings
}
