//! Butt hinges.

use super::{Row, RowOrigin};
use crate::units::{Length, Unit};

/// A butt hinge with two equal leaves.
#[derive(Clone, Debug, PartialEq)]
pub struct Hinge {
    /// `butt-hinge-50x50-stainless`.
    pub name: String,
    /// For people.
    pub words: String,
    /// Name of its [`super::Material`].
    pub material: String,
    /// Length along the pin.
    pub length: Length,
    /// Width of a leaf from the pin's axis to its edge.
    pub leaf: Length,
    /// Thickness of a leaf.
    pub thickness: Length,
    /// Diameter of the pin.
    pub pin: Length,
    /// Holes in each leaf.
    pub holes: u32,
    /// Diameter of the holes.
    pub hole: Length,
    /// Hole row from the pin's axis.
    pub hole_in: Length,
    /// End holes from the end of the hinge.
    pub hole_end: Length,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl Hinge {
    /// Where the holes of a leaf are, along the pin from one end: spread evenly.
    pub fn hole_places(&self) -> Vec<Length> {
        let between = self.length - self.hole_end * 2.0;
        match self.holes {
            0 => Vec::new(),
            1 => vec![self.length / 2.0],
            n => (0..n)
                .map(|i| self.hole_end + between * (f64::from(i) / f64::from(n - 1)))
                .collect(),
        }
    }

    fn from_row(row: &mut Row<'_>) -> Self {
        Self {
            name: row.words("name"),
            words: row.words("words"),
            material: row.words("material"),
            length: row.quantity("length", Unit::MM),
            leaf: row.quantity("leaf", Unit::MM),
            thickness: row.quantity("thickness", Unit::MM),
            pin: row.quantity("pin", Unit::MM),
            holes: row.whole("holes"),
            hole: row.quantity("hole", Unit::MM),
            hole_in: row.quantity("hole-in", Unit::MM),
            hole_end: row.quantity("hole-end", Unit::MM),
            origin: row.origin(),
        }
    }
}

entry!(Hinge, "hinge", from_row);
