//! A mark that a number can't follow.

use crate::read::field::{Field, shorten};
use crate::source::{Finding, Rule, Severity};

/// N005.
pub static RULE: Rule = Rule {
    code: "N005",
    name: "unfit-mark",
    severity: Severity::Stop,
    checks: "Whether a mark is one to three capital letters.",
    why: "A number is written behind it (F1, F2): a mark that ends in a digit would give F11 two meanings, and a long one has no room on a small part.",
    example: "[[mount]]\nmark = \"foot1\"",
    remedy: "Write one to three capital letters A to Z.",
    source_limits: "no source: common practice on workshop drawings.",
};

/// Offers the letters that can be kept.
pub(in crate::read) fn raise(field: &Field<'_>, written: &str) -> Finding {
    let letters: String = written
        .chars()
        .filter(char::is_ascii_alphabetic)
        .take(1)
        .map(|c| c.to_ascii_uppercase())
        .collect();
    let offer = if letters.is_empty() { "A".to_owned() } else { letters };
    Finding::new(&RULE, format!("`{}` can't be a mark", shorten(written, 40)))
        .at(field.span, "one to three capital letters")
        .means("a number is written behind it on each piece")
        .help(format!(
            "write capital letters alone, such as `{}`",
            field.line(&format!("\"{offer}\""))
        ))
}
