//! A circuit that ends where it begins.

use crate::source::{Finding, Rule, Severity, Span};

/// N008.
pub static RULE: Rule = Rule {
    code: "N008",
    name: "both-ends-alike",
    severity: Severity::Stop,
    checks: "Whether a circuit leads from one thing to another.",
    why: "A cable from the battery to the battery is a short circuit, or one of the ends is misnamed.",
    example: "[[circuit]]\nfrom = \"battery\"\nto = \"battery\"",
    remedy: "Name the thing at the other end.",
    source_limits: super::WRITING,
};

/// At the second end.
pub(in crate::read) fn raise(from: Span, to: Span) -> Finding {
    Finding::new(&RULE, "the circuit ends where it begins")
        .at(to, "the same end again")
        .also(from, "begins here")
        .means("the cable would lead nowhere")
        .help("name the thing at the other end, such as `to = \"water pump\"`")
}
