//! A unit that is not known.

use crate::read::field::{Field, shorten};
use crate::source::{Finding, Rule, Severity, Span};
use crate::units::{Kind, QuantityFault};

/// U003.
pub static RULE: Rule = Rule {
    code: "U003",
    name: "unknown-unit",
    severity: Severity::Stop,
    checks: "Whether the unit is one that is known, in the right case: mA is not MA.",
    why: "A unit that is guessed wrongly can be wrong by a thousand.",
    example: "[[panel]]\nmass = \"6.4 kgs\"",
    remedy: "Write the unit as offered.",
    source_limits: "SI units with the usual multiples, inch and pound units of the trade; symbols by ISO 80000.",
};

/// `nearest` is the unit that it looks like.
pub(in crate::read) fn raise(
    field: &Field<'_>,
    fault: &QuantityFault,
    span: Span,
    written: &str,
    nearest: Option<&str>,
    wanted: Kind,
) -> Finding {
    let finding = Finding::new(
        &RULE,
        format!("`{}` is not a unit of {}", shorten(written, 20), bare(wanted)),
    )
    .at(span, "not known")
    .means(format!("`{}` can't be read without its unit", field.key));
    let number = field.value.as_str().and_then(|text| text.get(..fault.range.start)).map(str::trim);
    match (nearest, number) {
        (Some(unit), Some(number)) => {
            finding.help(format!("write `{}`", field.line(&format!("\"{number} {unit}\""))))
        }
        _ => finding.help(fault.help()),
    }
}

fn bare(kind: Kind) -> &'static str {
    let name = kind.name();
    name.strip_prefix("an ").or_else(|| name.strip_prefix("a ")).unwrap_or(name)
}
