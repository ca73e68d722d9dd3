//! Primers, adhesion promoters and activators.

use super::{Row, RowOrigin};
use crate::units::{Area, Duration, Unit, Volume};

/// A primer.
#[derive(Clone, Debug, PartialEq)]
pub struct Primer {
    /// Kebab-case class name.
    pub name: String,
    /// For people.
    pub words: String,
    /// Time to dry before bonding, least and most.
    pub flash_off: [Duration; 2],
    /// Bond within this time, else clean and prime again.
    pub bond_within: Duration,
    /// Surface that one ml covers once.
    pub covers_by_ml: Area,
    /// Names of the tapes, adhesives or threadlockers it goes under.
    pub goes_under: Vec<String>,
    /// Names of the materials, or keys of finishes, it goes on.
    pub goes_on: Vec<String>,
    /// Hazard keys; see [`super::Protective`].
    pub hazards: Vec<String>,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl Primer {
    /// Whether it is made for this adhesive on this material.
    pub fn suits(&self, adhesive: &str, material: &str) -> bool {
        self.goes_under.iter().any(|name| name == adhesive)
            && self.goes_on.iter().any(|name| name == material)
    }

    /// Volume for one coat on an area.
    pub fn volume_for(&self, area: Area) -> Volume {
        Volume::ml(area / self.covers_by_ml)
    }
}

entry!(Primer, "primer", from_row);

impl Primer {
    fn from_row(row: &mut Row<'_>) -> Self {
        Self {
            name: row.words("name"),
            words: row.words("words"),
            flash_off: row.quantities("flash-off", Unit::MIN),
            bond_within: row.quantity("bond-within", Unit::MIN),
            covers_by_ml: row.quantity_above_zero("covers", Unit::CM2),
            goes_under: row.words_list("for"),
            goes_on: row.words_list("on"),
            hazards: row.words_list("hazards"),
            origin: row.origin(),
        }
    }
}
