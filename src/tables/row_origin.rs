//! Where a row of a table came from and how well it is known.

use super::Row;
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

impl Row<'_> {
    /// Source, how it is known, and note. A reader's row may leave out the first two.
    pub fn origin(&mut self) -> RowOrigin {
        const SEEN: &[(&str, Seen)] = &[
            ("verified", Seen::Verified),
            ("memory", Seen::Memory),
            ("common-practice", Seen::CommonPractice),
            ("computed", Seen::Computed),
            ("data-sheet", Seen::DataSheet),
        ];
        let own = self.is_readers();
        let source = if let GivenBy::Reader(file) = self.given_by() {
            let file = file.clone();
            match self.maybe_words("source") {
                Some(source) => format!("{source} (your table {file})"),
                None => format!("your table {file}"),
            }
        } else {
            self.words("source")
        };
        let seen =
            if own && !self.has("seen") { Seen::DataSheet } else { self.choice("seen", SEEN) };
        let mut columns = BTreeMap::new();
        for (key, seen) in SEEN {
            for column in self.words_list(key) {
                if !self.has(&column) {
                    self.refuse(key, &format!("the row has no `{column}`"));
                }
                columns.insert(column, *seen);
            }
        }
        let note = self.maybe_words("note");
        RowOrigin { given_by: self.given_by().clone(), source, seen, columns, note }
    }
}
