//! A cable end that is nearly one of the known ones.

use crate::read::field::{Field, shorten};
use crate::source::{Finding, Rule, Severity};

/// N006.
pub static RULE: Rule = Rule {
    code: "N006",
    name: "nearly-a-known-end",
    severity: Severity::Stop,
    checks: "Whether the end of a circuit that looks like panels, controller or battery is spelt so.",
    why: "Any other word is taken for a load by that name. A misspelt battery would become a load, and its fuse would be left out.",
    example: "[[circuit]]\nto = \"batery\"",
    remedy: "Spell it as offered, or give the load a name that differs more.",
    source_limits: super::WRITING,
};

/// `near` is the end that it looks like.
pub(in crate::read) fn raise(field: &Field<'_>, written: &str, near: &str) -> Finding {
    Finding::new(
        &RULE,
        format!("`{}` looks like `{near}` but is not spelt so", shorten(written, 40)),
    )
    .at(field.span, "taken for the name of a load")
    .means("a load needs no fuse at its own end; the battery does")
    .help(format!("write `{}`", field.line(&format!("\"{near}\""))))
    .help("if it is a load, give it a name that differs more")
}
