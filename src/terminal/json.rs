//! Findings for other programs.

use super::ordered;
use crate::source::{Finding, Severity, Span, Text};
use serde::Serialize;

#[derive(Serialize)]
struct Told<'a> {
    code: &'a str,
    name: &'a str,
    severity: Severity,
    message: &'a str,
    file: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    at: Option<Stretch<'a>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    also: Vec<Stretch<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    means: Option<&'a str>,
    #[serde(skip_serializing_if = "<[String]>::is_empty")]
    helps: &'a [String],
    #[serde(skip_serializing_if = "Option::is_none")]
    sheet: Option<&'a str>,
}

/// Lines and columns count from 1, columns in characters; bytes count from 0.
#[derive(Serialize)]
struct Stretch<'a> {
    line: usize,
    column: usize,
    end_line: usize,
    end_column: usize,
    bytes: [usize; 2],
    #[serde(skip_serializing_if = "str::is_empty")]
    label: &'a str,
}

fn stretch<'a>(text: &Text, span: Span, label: &'a str) -> Stretch<'a> {
    let (start, end) = (text.place(span.start()), text.place(span.end()));
    Stretch {
        line: start.line,
        column: start.column,
        end_line: end.line,
        end_column: end.column,
        bytes: [span.start(), span.end()],
        label,
    }
}

/// A JSON array with an object a finding, in the order in which to deal with them. What a finding
/// hasn't got is left out.
///
/// # Errors
/// Only what `serde_json` may raise for a type with other than text keys, which there is none of.
pub fn json(text: &Text, findings: &[Finding]) -> serde_json::Result<String> {
    let told: Vec<Told<'_>> = ordered(findings)
        .into_iter()
        .map(|finding| Told {
            code: finding.rule.code,
            name: finding.rule.name,
            severity: finding.severity,
            message: &finding.message,
            file: text.name(),
            at: finding.primary.map(|span| stretch(text, span, &finding.label)),
            also: finding.others.iter().map(|(span, label)| stretch(text, *span, label)).collect(),
            means: finding.means.as_deref(),
            helps: &finding.helps,
            sheet: finding.where_on.as_deref(),
        })
        .collect();
    serde_json::to_string_pretty(&told)
}
