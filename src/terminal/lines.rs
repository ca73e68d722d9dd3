//! One line a finding, for editors and for searching.

use super::{ordered, words::one_line};
use crate::source::{Finding, Text};
use std::fmt::Write;

/// `file:line:column: stop: H012 message`, one line each; without line and column for what has no
/// place.
pub fn lines(text: &Text, findings: &[Finding]) -> String {
    let mut out = String::new();
    for finding in ordered(findings) {
        out.push_str(&one_line(text.name()));
        if let Some(span) = finding.primary {
            let place = text.place(span.start());
            // Writing to a String has no failure.
            let _ = write!(out, ":{}:{}", place.line, place.column);
        }
        let _ = writeln!(
            out,
            ": {}: {} {}",
            finding.severity,
            finding.rule.code,
            one_line(&finding.message)
        );
    }
    out
}
