//! Findings for people at a terminal, for other programs, and for a screen reader.
//!
//! Takes the build file's [`Text`](crate::source::Text) and findings in any order; gives text in the
//! order in which to deal with them. Nothing here writes to a stream: `cli` does.
mod drawn;
mod json;
mod lines;
mod words;

pub use drawn::{Look, drawn};
pub use json::{ToldFile, json};
pub use lines::lines;
pub use words::{count, lines_of, tally};

use crate::source::Finding;

/// In the order in which to deal with them.
fn ordered(findings: &[Finding]) -> Vec<&Finding> {
    let mut sorted: Vec<&Finding> = findings.iter().collect();
    sorted.sort_by(|a, b| a.order(b));
    sorted
}
