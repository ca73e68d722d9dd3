//! How hard a vehicle or a boat pulls on what is fixed in it.

use super::{Row, RowOrigin};

/// Accelerations to hold against, in g.
#[derive(Clone, Debug, PartialEq)]
pub struct RestraintLevel {
    /// `road`, `m1-n1`.
    pub name: String,
    /// For people.
    pub words: String,
    /// Forward, rearward, sideways, up.
    pub pulls: [f64; 4],
    /// Whether friction under the battery may count.
    pub friction: bool,
    /// Whether wood screws that are pulled along their length may count.
    pub withdrawal: bool,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl RestraintLevel {
    fn from_row(row: &mut Row<'_>) -> Self {
        Self {
            name: row.words("name"),
            words: row.words("words"),
            pulls: row.numbers("pulls"),
            friction: row.flag("friction"),
            withdrawal: row.flag("withdrawal"),
            origin: row.origin(),
        }
    }
}

entry!(RestraintLevel, "restraint-level", from_row);
