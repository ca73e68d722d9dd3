//! The file is not UTF-8.

use crate::source::{Finding, Rule, Severity};

/// F001.
pub static RULE: Rule = Rule {
    code: "F001",
    name: "not-text",
    severity: Severity::Stop,
    checks: "Whether the build file is plain text in UTF-8.",
    why: "A word processor's document, a picture or a text in another encoding has no keys and values that can be read; a guess could turn a degree or ½ into another character.",
    example: "a file saved as \"Unicode (UTF-16)\" or as a document",
    remedy: "Save the file as plain text with the encoding UTF-8.",
    source_limits: "TOML 1.0: a TOML file must be a valid UTF-8 encoded document.",
};

/// `byte` is the first one that is no text, on that line counted from 1.
pub(in crate::read) fn raise(byte: usize, line: usize, bytes: &[u8]) -> Finding {
    let finding = Finding::new(&RULE, format!("the file is not UTF-8 text: the byte at offset {byte}, on line {line}, fits no character"))
        .means("nothing in the file was read");
    let finding = if bytes.starts_with(&[0xFF, 0xFE]) || bytes.starts_with(&[0xFE, 0xFF]) {
        finding.help("the file begins like UTF-16: save it again with the encoding UTF-8")
    } else if bytes.starts_with(b"PK")
        || bytes.starts_with(b"%PDF")
        || bytes.starts_with(b"\x89PNG")
    {
        finding.help("this is a document or picture, not a text: write the build file with a plain text editor")
    } else {
        finding
    };
    finding.help("save the file as plain text with the encoding UTF-8, and look at that line again")
}
