//! Rows of the reader's own that are used.

use crate::source::{Finding, Rule, Severity, Span};

/// N011.
pub static RULE: Rule = Rule {
    code: "N011",
    name: "own-rows",
    severity: Severity::Note,
    checks: "Whether the build uses rows of tables of your own.",
    why: "The build file travels in the packet; your tables do not. In years to come the same file would not be read alike without them.",
    example: "materials = \"my-tables\"",
    remedy: "Keep the folder of your tables with the build file.",
    source_limits: "Rows that the build names are told; those that are found by a size, as screws are, are not.",
};

/// Names of rows, each with its file.
pub fn raise(rows: &[(Span, String, String)]) -> Option<Finding> {
    let ((span, name, file), others) = rows.split_first()?;
    let count = rows.len();
    let told = if count == 1 {
        format!("`{name}` is a row of your own table {file}")
    } else {
        format!("{count} rows are of your own tables, among them `{name}` of {file}")
    };
    let mut finding = Finding::new(&RULE, told).at(*span, format!("from {file}"));
    for (span, _, file) in others.iter().take(5) {
        finding = finding.also(*span, format!("from {file}"));
    }
    Some(
        finding
            .means("these values are yours to answer for; the packet does not hold the tables")
            .help("keep the folder of your tables with the build file"),
    )
}
