//! A price that is none.

use crate::read::field::Field;
use crate::read::reader::Reader;
use crate::source::{Finding, Rule, Severity};
use crate::units::MoneyFault;

/// U016.
pub static RULE: Rule = Rule {
    code: "U016",
    name: "unreadable-price",
    severity: Severity::Stop,
    checks: "Whether a price is digits between quotation marks, with a point and at most two places.",
    why: "A bare number is a length everywhere in the file; a price must not look like one.",
    example: "[[stock]]\nprice = 21.50",
    remedy: "Write the price between quotation marks without the currency, which stands in [job].",
    source_limits: super::WRITING,
};

/// Not between quotation marks.
pub(in crate::read) fn not_text(r: &Reader<'_>, field: &Field<'_>) -> Finding {
    Finding::new(
        &RULE,
        format!("`{}` takes a price between quotation marks, not {}", field.key, field.shape()),
    )
    .at(field.span, field.shape())
    .means("a bare number would be a length")
    .help(format!("write `{}`", field.line(&format!("\"{}\"", field.written(r.text)))))
}

/// Text that is no price.
pub(in crate::read) fn raise(field: &Field<'_>, fault: MoneyFault) -> Finding {
    Finding::new(&RULE, format!("`{}` can't be read: {fault}", field.key))
        .at(field.span, "not a price")
        .means("costs can't be added up")
        .help(format!(
            "write digits alone, as in `{}`; the currency stands in `[job]`",
            field.example().unwrap_or_default()
        ))
}
