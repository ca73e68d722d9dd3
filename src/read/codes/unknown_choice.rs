//! A word that is none of the few a key takes.

use super::{nearest, or_list};
use crate::read::field::{Field, shorten};
use crate::source::{Finding, Rule, Severity};

/// N002.
pub static RULE: Rule = Rule {
    code: "N002",
    name: "unknown-choice",
    severity: Severity::Stop,
    checks: "Whether a key that takes one of a few words has one of them.",
    why: "An edge called \"starboard\" could be on either side of the drawing.",
    example: "[[mount]]\nedge = \"rigth\"",
    remedy: "Write one of the words that the help lists.",
    source_limits: super::WRITING,
};

/// `words` are those that the key takes.
pub(in crate::read) fn raise(field: &Field<'_>, written: &str, words: &[&str]) -> Finding {
    let finding =
        Finding::new(&RULE, format!("`{}` can't be `{}`", field.key, shorten(written, 40)))
            .at(field.span, "not one of its words")
            .means("it is not known what to do here");
    let all = format!("`{}` takes {}", field.key, or_list(words));
    match nearest(written, words.iter().copied()) {
        Some(near) => {
            finding.help(format!("write `{}`", field.line(&format!("\"{near}\"")))).help(all)
        }
        None => finding.help(all),
    }
}
