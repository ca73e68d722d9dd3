//! More of a thing than a packet can hold.

use crate::read::field::Field;
use crate::source::{Finding, Rule, Severity, Span};

/// F014.
pub static RULE: Rule = Rule {
    code: "F014",
    name: "too-many",
    severity: Severity::Stop,
    checks: "Whether counts stay within what one packet can hold: 200 panels, 10 000 parts, 500 steps.",
    why: "A count with two zeros too many would print thousands of sheets and take hours to cut up.",
    example: "[[part]]\nmark = \"S\"\nlength = 640\ncount = 100000",
    remedy: "Check the count, or split the build into several files.",
    source_limits: "Limits of our own, far above what a vehicle holds.",
};

/// A list with more elements than fit.
pub(in crate::read) fn raise(
    field: &Field<'_>,
    count: usize,
    most: usize,
    beyond: Span,
) -> Finding {
    Finding::new(&RULE, format!("`{}` comes {count} times; {most} is the most", field.key))
        .at(beyond, "one too many")
        .means("the rest was not read")
        .help("split the build into several files")
}

/// Alike things that add up to more than fit.
pub(in crate::read) fn sum(what: &str, count: u64, most: u64, span: Span) -> Finding {
    Finding::new(&RULE, format!("the file has {count} {what}; {most} is the most"))
        .at(span, "with these it is too many")
        .means("a packet for so many can't be used on a roof")
        .help("check the counts, or split the build into several files")
}
