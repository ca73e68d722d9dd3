//! Blind rivets.

use super::{Row, RowOrigin};
use crate::units::{Force, Length, Unit};

/// A length of rivet and the stack that it grips.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RivetLength {
    /// Length under the head.
    pub length: Length,
    /// Thinnest stack.
    pub grip_min: Length,
    /// Thickest stack.
    pub grip_max: Length,
}

/// A blind rivet by diameter and metal.
#[derive(Clone, Debug, PartialEq)]
pub struct BlindRivet {
    /// `blind-rivet-4.8-aluminium`.
    pub name: String,
    /// For people.
    pub words: String,
    /// Name of its [`super::Material`].
    pub material: String,
    /// Shank diameter.
    pub diameter: Length,
    /// Hole to drill.
    pub hole: Length,
    /// Greatest head diameter.
    pub head_diameter: Length,
    /// Greatest head height.
    pub head_height: Length,
    /// Least shear strength.
    pub shear: Force,
    /// Least tensile strength.
    pub tension: Force,
    /// Lengths sold, with their grips.
    pub lengths: Vec<RivetLength>,
    /// Whether the end is closed, so that water stays out.
    pub sealed: bool,
    /// Least edge distance.
    pub edge: Length,
    /// Least pitch in a row.
    pub pitch: Length,
    /// Least distance between rows.
    pub row_distance: Length,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl BlindRivet {
    /// The shortest rivet that grips a stack of this thickness.
    pub fn for_stack(&self, stack: Length) -> Option<RivetLength> {
        self.lengths
            .iter()
            .copied()
            .filter(|rivet| rivet.grip_min <= stack && stack <= rivet.grip_max)
            .min_by(|a, b| a.length.total_cmp(&b.length))
    }

    fn from_row(row: &mut Row<'_>) -> Self {
        let diameter: Length = row.quantity("diameter", Unit::MM);
        let (head_diameter, head_height) = row.needed_inner("head", |row| {
            (row.quantity("diameter", Unit::MM), row.quantity("height", Unit::MM))
        });
        Self {
            name: row.words("name"),
            words: row.words("words"),
            material: row.words("material"),
            diameter,
            hole: row.quantity("hole", Unit::MM),
            head_diameter,
            head_height,
            shear: row.quantity("shear", Unit::N),
            tension: row.quantity("tension", Unit::N),
            lengths: row
                .quantity_rows("lengths", Unit::MM)
                .into_iter()
                .map(|[length, grip_min, grip_max]| RivetLength { length, grip_min, grip_max })
                .collect(),
            sealed: row.flag("sealed"),
            edge: diameter * row.number("edge"),
            pitch: diameter * row.number("pitch"),
            row_distance: diameter * row.number("row"),
            origin: row.origin(),
        }
    }
}

entry!(BlindRivet, "blind-rivet", from_row);
