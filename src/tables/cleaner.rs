//! Cleaners for bond faces.

use super::{Row, RowOrigin};
use crate::units::{Area, Duration, Temperature, Unit, Volume};

/// A cleaner.
#[derive(Clone, Debug, PartialEq)]
pub struct Cleaner {
    /// Kebab-case class name.
    pub name: String,
    /// For people.
    pub words: String,
    /// Time to dry, least and most.
    pub flash_off: [Duration; 2],
    /// Time to dry in the cold.
    pub cold_flash_off: Duration,
    /// Below this it is cold.
    pub cold_below: Temperature,
    /// Surface that one ml wipes once.
    pub covers_by_ml: Area,
    /// Clean wipes for a square metre.
    pub wipes_per_m2: f64,
    /// Names of materials it harms.
    pub unfit_for: Vec<String>,
    /// Hazard keys; see [`super::Protective`].
    pub hazards: Vec<String>,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl Cleaner {
    /// Time to wait after wiping, the longer end.
    pub fn wait(&self, at: Temperature) -> Duration {
        if at < self.cold_below { self.cold_flash_off } else { self.flash_off[1] }
    }

    /// Volume for wiping an area once.
    pub fn volume_for(&self, area: Area) -> Volume {
        Volume::ml(area / self.covers_by_ml)
    }
}

entry!(Cleaner, "cleaner", from_row);

impl Cleaner {
    fn from_row(row: &mut Row<'_>) -> Self {
        Self {
            name: row.words("name"),
            words: row.words("words"),
            flash_off: row.quantities("flash-off", Unit::MIN),
            cold_flash_off: row.quantity("cold-flash-off", Unit::MIN),
            cold_below: row.quantity("cold-below", Unit::CELSIUS),
            covers_by_ml: row.quantity_above_zero("covers", Unit::CM2),
            wipes_per_m2: row.number("wipes-per-m2"),
            unfit_for: row.words_list("unfit-for"),
            hazards: row.words_list("hazards"),
            origin: row.origin(),
        }
    }
}
