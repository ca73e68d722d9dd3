//! How long work takes.

use super::{Row, RowOrigin};
use crate::units::{Duration, Unit};

/// Time for one piece of work by one careful person who does it for the first time.
#[derive(Clone, Debug, PartialEq)]
pub struct Rate {
    /// `set-rivet-nut`.
    pub name: String,
    /// For people.
    pub words: String,
    /// Time for one.
    pub time: Duration,
    /// One of what: `hole`, `cut`, `m`.
    pub each: String,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl Rate {
    fn from_row(row: &mut Row<'_>) -> Self {
        Self {
            name: row.words("name"),
            words: row.words("words"),
            time: row.quantity("minutes", Unit::MIN),
            each: row.words("each"),
            origin: row.origin(),
        }
    }
}

entry!(Rate, "rate", from_row);
