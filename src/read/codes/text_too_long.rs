//! More characters than the place on paper holds.

use crate::read::field::Field;
use crate::source::{Finding, Rule, Severity};

/// F015.
pub static RULE: Rule = Rule {
    code: "F015",
    name: "text-too-long",
    severity: Severity::Stop,
    checks: "Whether a text fits its place on the sheets.",
    why: "A title that is cut off on paper no longer tells one packet from another.",
    example: "[job]\ntitle = \"Solar roof for the long blue van with the bent bumper\"",
    remedy: "Shorten the text; details go into a step of your own.",
    source_limits: "ISO 7200: title 25 characters, document number 16, revision 2; other limits are our own.",
};

/// Characters counted as a reader sees them.
pub(in crate::read) fn raise(field: &Field<'_>, count: usize, most: usize) -> Finding {
    Finding::new(&RULE, format!("`{}` has {count} characters; {most} is the most", field.key))
        .at(field.span, format!("{} too many", count.saturating_sub(most)))
        .means("it does not fit its place on the sheets")
        .help(format!("shorten it to {most} characters"))
}
