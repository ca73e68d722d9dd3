//! A currency that is not three letters.

use crate::read::field::{Field, shorten};
use crate::source::{Finding, Rule, Severity};

/// N007.
pub static RULE: Rule = Rule {
    code: "N007",
    name: "unreadable-currency",
    severity: Severity::Stop,
    checks: "Whether the currency is three capital letters.",
    why: "A sign such as $ stands for more than twenty currencies.",
    example: "[job]\ncurrency = \"$\"",
    remedy: "Write the three letters of your currency.",
    source_limits: "ISO 4217; whether the letters are in use is not checked.",
};

/// Offers the usual letters for a sign.
pub(in crate::read) fn raise(field: &Field<'_>, written: &str) -> Finding {
    let offer = match written.trim() {
        "€" => "EUR".to_owned(),
        "£" => "GBP".to_owned(),
        "$" => "USD".to_owned(),
        other if other.len() == 3 && other.bytes().all(|b| b.is_ascii_alphabetic()) => {
            other.to_ascii_uppercase()
        }
        _ => "EUR".to_owned(),
    };
    Finding::new(&RULE, format!("`{}` is not the letters of a currency", shorten(written, 20)))
        .at(field.span, "three capital letters")
        .means("prices would not be clear")
        .help(format!("write three capital letters, such as `currency = \"{offer}\"`"))
}
