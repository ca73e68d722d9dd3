//! Text that is no quantity.

use crate::read::field::Field;
use crate::source::{Finding, Rule, Severity, Span};
use crate::units::QuantityFault;

/// U008.
pub static RULE: Rule = Rule {
    code: "U008",
    name: "unreadable-quantity",
    severity: Severity::Stop,
    checks: "Whether a quantity is a number with its unit: 1180 mm, 46 1/2 in, 5 ft 6 in, -0.28 %/K.",
    why: "Words such as \"about a metre\" can't be cut to.",
    example: "[[panel]]\nmass = \"about 6 kg\"",
    remedy: "Write one number and its unit, as measured.",
    source_limits: super::WRITING,
};

/// What `units` says about it.
pub(in crate::read) fn raise(field: &Field<'_>, fault: &QuantityFault, span: Span) -> Finding {
    let finding = Finding::new(&RULE, format!("`{}` can't be read: {fault}", field.key))
        .at(span, "here")
        .means("the value is not known");
    match field.example() {
        Some(example) => finding.help(format!("write it as in `{example}`")),
        None => finding.help(fault.help()),
    }
}
