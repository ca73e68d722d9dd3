//! Title block but no work.

use crate::source::{Finding, Rule, Severity, Span};

/// F019.
pub static RULE: Rule = Rule {
    code: "F019",
    name: "nothing-to-build",
    severity: Severity::Stop,
    checks: "Whether the file tells anything to make or to fit.",
    why: "A packet without work would be a cover and blank sheets.",
    example: "a file with [job] alone",
    remedy: "Add a [[panel]] with a [frame], a [battery], a [[circuit]], a [[part]] or a [[step]].",
    source_limits: super::WRITING,
};

/// At the title block.
pub(in crate::read) fn raise(job: Span) -> Finding {
    Finding::new(&RULE, "the file has nothing to make or to fit")
        .at(job, "a title alone")
        .means("there is no work to print")
        .help("add `[[panel]]` and `[frame]`, `[battery]`, `[[circuit]]`, `[[part]]` or `[[step]]`")
}
