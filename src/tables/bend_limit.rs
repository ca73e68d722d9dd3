//! How tightly a material may be bent cold.

use super::{Row, RowOrigin};
use crate::units::{Length, Unit};

/// Least bend radii of some materials.
#[derive(Clone, Debug, PartialEq)]
pub struct BendLimit {
    /// Kebab-case class name.
    pub name: String,
    /// Names of the materials that it holds for.
    pub materials: Vec<String>,
    /// Up to this thickness, least inside radius; rising.
    pub radius: Vec<(Length, Length)>,
    /// Place of the neutral line from the inside as a share of the thickness, low and high.
    pub k: [f64; 2],
    /// Its makers advise against bending it cold.
    pub avoid: bool,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl BendLimit {
    /// Least inside radius of a right-angled bend in this thickness; none in thicker stuff than was
    /// tabulated.
    pub fn least(&self, thickness: Length) -> Option<Length> {
        self.radius.iter().find(|(up_to, _)| thickness.fits(*up_to)).map(|(_, least)| *least)
    }

    fn from_row(row: &mut Row<'_>) -> Self {
        Self {
            name: row.words("name"),
            materials: row.words_list("for"),
            radius: row
                .quantity_rows("radius", Unit::MM)
                .into_iter()
                .map(|[up_to, least]| (up_to, least))
                .collect(),
            k: row.numbers("k"),
            avoid: row.flag("avoid"),
            origin: row.origin(),
        }
    }
}

entry!(BendLimit, "bend-limit", from_row);
