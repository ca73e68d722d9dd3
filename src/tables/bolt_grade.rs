//! Property classes of bolts.

use super::{MaterialKind, Row, RowOrigin};
use crate::units::{Pressure, Unit};

/// A property class.
#[derive(Clone, Debug, PartialEq)]
pub struct BoltGrade {
    /// `8.8`, `A2-70`, `grade-5`.
    pub name: String,
    /// For people.
    pub words: String,
    /// Steel or stainless.
    pub metal: MaterialKind,
    /// Least tensile strength.
    pub ultimate: Pressure,
    /// Nominal yield or 0.2 % proof stress.
    pub yield_stress: Pressure,
    /// Stress under proof load, against which preload is measured.
    pub proof: Pressure,
    /// Where the row came from.
    pub origin: RowOrigin,
}

entry!(BoltGrade, "bolt-grade", from_row);

impl BoltGrade {
    fn from_row(row: &mut Row<'_>) -> Self {
        Self {
            name: row.words("name"),
            words: row.words("words"),
            metal: row.choice("metal", MaterialKind::ALL),
            ultimate: row.quantity("ultimate", Unit::MPA),
            yield_stress: row.quantity("yield", Unit::MPA),
            proof: row.quantity("proof-stress", Unit::MPA),
            origin: row.origin(),
        }
    }
}
