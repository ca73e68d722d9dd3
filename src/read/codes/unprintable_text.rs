//! Characters that no printer shows.

use crate::read::field::Field;
use crate::source::{Finding, Rule, Severity, Text};

/// F017.
pub static RULE: Rule = Rule {
    code: "F017",
    name: "unprintable-text",
    severity: Severity::Stop,
    checks: "Whether text has only characters that can be printed on one line.",
    why: "Control characters and marks that turn the direction of writing can hide or reorder what stands on a sheet.",
    example: "[job]\ntitle = \"Solar\\troof\"",
    remedy: "Take the character out; write longer texts as several parts of a list.",
    source_limits: "Unicode general category Cc, line separators and the bidirectional controls of UAX #9.",
};

/// `odd` is the first such character.
pub(in crate::read) fn raise(text: &Text, field: &Field<'_>, odd: char) -> Finding {
    let at = field.value.as_str().and_then(|s| s.find(odd)).unwrap_or(0);
    let name = match odd {
        '\n' | '\r' | '\u{2028}' | '\u{2029}' => "a line break".to_owned(),
        '\t' => "a tab".to_owned(),
        '\u{FFFD}' => "a character lost in an earlier conversion".to_owned(),
        odd => format!("the character U+{:04X}, which can't be seen", odd as u32),
    };
    Finding::new(&RULE, format!("`{}` holds {name}", field.key))
        .at(field.inner(text, &(at..at + odd.len_utf8())), "here")
        .means("it can't be printed")
        .help("write the text on one line with plain spaces")
}
