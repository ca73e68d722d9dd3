//! Where a row of a table came from and how well it is known.

use crate::source::Seen;
use std::collections::BTreeMap;

/// Who put a row into the tables.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum GivenBy {
    /// The tables that come with the program; the file's name.
    Program(&'static str),
    /// The reader's own file or build file, by the name it was given under.
    Reader(String),
}

/// Where a row came from: who gave it, which publication, how well it is known.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RowOrigin {
    /// Who put the row in.
    pub given_by: GivenBy,
    /// The standard, handbook or paper, or `common practice`.
    pub source: String,
    /// How the row as a whole is known.
    pub seen: Seen,
    /// Columns that are known in another way than the row as a whole.
    pub columns: BTreeMap<String, Seen>,
    /// What else must be said with the figures.
    pub note: Option<String>,
}

impl RowOrigin {
    /// How one column is known, by its name in the table file.
    pub fn seen_of(&self, column: &str) -> Seen {
        self.columns.get(column).copied().unwrap_or(self.seen)
    }

    /// Whether the row is the reader's own.
    pub const fn is_readers(&self) -> bool {
        matches!(self.given_by, GivenBy::Reader(_))
    }
}
