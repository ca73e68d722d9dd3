//! What is wrong with a row of a table file.

use std::ops::Range;

/// What is wrong with a row, and where in the file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TableFault {
    /// Kind and name of the row, such as `section steel-flat-90x3`.
    pub row: String,
    /// What is wrong.
    pub message: String,
    /// What to write instead.
    pub help: Option<String>,
    /// Bytes of the file that are at fault.
    pub span: Range<usize>,
}

impl std::fmt::Display for TableFault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}: {}", self.row, self.message)
    }
}
