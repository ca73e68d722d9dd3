//! Findings for other programs.

use super::ordered;
use crate::source::{Finding, Severity, Span, Text};
use serde::Serialize;

/// Version of the document's shape.
const FORMAT: u32 = 1;

/// A build file with all that is to be said of it.
pub struct ToldFile<'a> {
    /// Its name.
    pub name: &'a str,
    /// It and tables of the reader's own, each with its findings.
    pub texts: Vec<(&'a Text, &'a [Finding])>,
    /// A finding forbids the use of its packet.
    pub stopped: bool,
    /// Value and words of the figures that matter.
    pub summary: Vec<(String, String)>,
}

#[derive(Serialize)]
struct Document<'a> {
    format: u32,
    files: Vec<File<'a>>,
}

#[derive(Serialize)]
struct File<'a> {
    file: &'a str,
    stopped: bool,
    stops: usize,
    cautions: usize,
    notes: usize,
    findings: Vec<Told<'a>>,
    summary: Vec<Line<'a>>,
}

#[derive(Serialize)]
struct Line<'a> {
    value: &'a str,
    words: &'a str,
}

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

/// `{ format, files: [{ file, stopped, stops, cautions, notes, findings, summary }] }`, findings in
/// the order in which to deal with them. What a finding hasn't got is left out.
///
/// # Errors
/// Only what `serde_json` may raise for a type with other than text keys, which there is none of.
pub fn json(files: &[ToldFile<'_>]) -> serde_json::Result<String> {
    let files = files.iter().map(file).collect();
    serde_json::to_string_pretty(&Document { format: FORMAT, files })
}

fn file<'a>(told: &'a ToldFile<'_>) -> File<'a> {
    let all = || told.texts.iter().flat_map(|(_, findings)| findings.iter());
    let count = |severity| all().filter(|finding| finding.severity == severity).count();
    File {
        file: told.name,
        stopped: told.stopped,
        stops: count(Severity::Stop),
        cautions: count(Severity::Caution),
        notes: count(Severity::Note),
        findings: told
            .texts
            .iter()
            .flat_map(|(text, findings)| self::findings(text, findings))
            .collect(),
        summary: told.summary.iter().map(|(value, words)| Line { value, words }).collect(),
    }
}

fn findings<'a>(text: &'a Text, findings: &'a [Finding]) -> Vec<Told<'a>> {
    ordered(findings)
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
        .collect()
}
