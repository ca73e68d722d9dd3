//! One key written twice.

use crate::source::{Finding, Rule, Severity, Span, Text};

/// F005.
pub static RULE: Rule = Rule {
    code: "F005",
    name: "key-written-twice",
    severity: Severity::Stop,
    checks: "Whether a key or a table of which there is one is written once.",
    why: "Two values for one thing: nobody can tell which one is meant.",
    example: "[frame]\ngap = 10\ngap = 12",
    remedy: "Take one of them out. For a second panel, mount or circuit write its header with two brackets again: [[panel]].",
    source_limits: "TOML 1.0: defining a key multiple times is invalid.",
};

/// The second place is known; the first is looked up by the caller where that is possible.
pub(in crate::read) fn raise(text: &Text, span: Span, first: Option<Span>) -> Finding {
    let name = text.slice(span).trim();
    let finding = Finding::new(&RULE, format!("`{name}` is written twice"))
        .at(span, "written again here")
        .means("only one of them can hold");
    let finding = match first {
        Some(first) => finding.also(first, "first written here"),
        None => finding,
    };
    finding.help(format!("take one `{name}` out, or give the second its own table"))
}
