//! Densities of what has no row of its own among the materials.

use super::{Row, RowOrigin};
use crate::units::Unit;

/// Density of a stuff.
#[derive(Clone, Debug, PartialEq)]
pub struct Density {
    /// `copper`.
    pub name: String,
    /// Mass by volume.
    pub density: crate::units::Density,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl Density {
    fn from_row(row: &mut Row<'_>) -> Self {
        Self {
            name: row.words("name"),
            density: row.quantity_above_zero("density", Unit::KG_PER_M3),
            origin: row.origin(),
        }
    }
}

entry!(Density, "density", from_row);
