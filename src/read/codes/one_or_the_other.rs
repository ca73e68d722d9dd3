//! Two keys that exclude each other, or neither of them.

use crate::source::{Finding, Rule, Severity, Span};

/// F018.
pub static RULE: Rule = Rule {
    code: "F018",
    name: "one-or-the-other",
    severity: Severity::Stop,
    checks: "Whether exactly one is written where two keys answer the same question.",
    why: "A roof measured by gaps and by an arc as well has two shapes; a foot without tape and bead is held by nothing.",
    example: "[roof]\ncrown = { chord = 1400, rise = 68 }\nsections = [{ x = 400, gaps = [[-700, 68], [0, 0], [700, 68]] }]",
    remedy: "Keep the one that holds and take the other out.",
    source_limits: super::WRITING,
};

/// Both are there.
pub(in crate::read) fn both(first: (&str, Span), second: (&str, Span)) -> Finding {
    Finding::new(&RULE, format!("`{}` and `{}` exclude each other", first.0, second.0))
        .at(second.1, "this one")
        .also(first.1, "or this one")
        .means("they answer the same question")
        .help(format!("take out `{}` or `{}`", first.0, second.0))
}

/// Neither is there.
pub(in crate::read) fn neither(
    home: &str,
    first: &str,
    second: &str,
    span: Span,
    means: &str,
) -> Finding {
    Finding::new(&RULE, format!("{home} has neither `{first}` nor `{second}`"))
        .at(span, "at least one of them is needed")
        .means(means.to_owned())
        .help(format!("add `{first}`, `{second}` or both"))
}
