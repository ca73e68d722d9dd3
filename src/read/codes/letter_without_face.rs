//! Letters that the packet has no face for.

use crate::read::field::Field;
use crate::source::{Finding, Rule, Severity, Text};

/// F021.
pub static RULE: Rule = Rule {
    code: "F021",
    name: "letter-without-face",
    severity: Severity::Caution,
    checks: "Whether the faces that are embedded in the packet have every letter and sign of a text.",
    why: "A letter that no face has is printed as a question mark: whoever reads the sheet has to guess.",
    example: "[job]\ntitle = \"Van 漢\"",
    remedy: "Write the text in Latin, Greek, Cyrillic, Hebrew or Arabic letters, without pictures.",
    source_limits: "The character tables of the embedded faces (Inter 4.001, DejaVu Sans 2.37).",
};

/// Most letters that are named.
const NAMED: usize = 6;

/// `missing` has at least one letter.
pub(in crate::read) fn raise(text: &Text, field: &Field<'_>, missing: &[char]) -> Finding {
    let named: Vec<String> =
        missing.iter().take(NAMED).map(|c| format!("{c} (U+{:04X})", u32::from(*c))).collect();
    let more = if missing.len() > NAMED { " and more" } else { "" };
    let first = missing.first().copied().unwrap_or('?');
    let at = field.value.as_str().and_then(|s| s.find(first)).unwrap_or(0);
    Finding::new(
        &RULE,
        format!("`{}` has letters that can't be set: {}{more}", field.key, named.join(", ")),
    )
    .at(field.inner(text, &(at..at + first.len_utf8())), "here")
    .means("each of them is printed as “?”")
    .help("write it in Latin, Greek, Cyrillic, Hebrew or Arabic letters, without pictures")
}
