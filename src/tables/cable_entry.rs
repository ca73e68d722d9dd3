//! Glands and grommets.

use super::{Row, RowOrigin, Table};
use crate::units::{Length, Unit};

/// A cable gland.
#[derive(Clone, Debug, PartialEq)]
pub struct Gland {
    /// `gland-M20`.
    pub name: String,
    /// Thread diameter.
    pub diameter: Length,
    /// Thread pitch.
    pub pitch: Length,
    /// Thinnest cable it clamps.
    pub clamp_min: Length,
    /// Thickest cable it clamps.
    pub clamp_max: Length,
    /// Plain hole for its thread.
    pub hole: Length,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl Gland {
    fn from_row(row: &mut Row<'_>) -> Self {
        let [clamp_min, clamp_max] = row.quantities("clamp", Unit::MM);
        Self {
            name: row.words("name"),
            diameter: row.quantity("diameter", Unit::MM),
            pitch: row.quantity("pitch", Unit::MM),
            clamp_min,
            clamp_max,
            hole: row.quantity("hole", Unit::MM),
            origin: row.origin(),
        }
    }
}

impl Table<Gland> {
    /// The smallest gland that clamps a cable of this outside diameter.
    pub fn gland_for(&self, cable: Length) -> Option<&Gland> {
        self.iter()
            .filter(|gland| gland.clamp_min <= cable && cable <= gland.clamp_max)
            .min_by(|a, b| a.diameter.total_cmp(&b.diameter))
    }
}

entry!(Gland, "gland", from_row);

/// An open grommet for a hole in sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Grommet {
    /// `grommet-10`, by its bore.
    pub name: String,
    /// Hole in the sheet.
    pub hole: Length,
    /// Bore for the cable.
    pub bore: Length,
    /// Thickness of sheet that fills its groove.
    pub groove: Length,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl Grommet {
    fn from_row(row: &mut Row<'_>) -> Self {
        Self {
            name: row.words("name"),
            hole: row.quantity("hole", Unit::MM),
            bore: row.quantity("bore", Unit::MM),
            groove: row.quantity("groove", Unit::MM),
            origin: row.origin(),
        }
    }
}

impl Table<Grommet> {
    /// The smallest grommet that a cable or bundle of this diameter passes through.
    pub fn grommet_for(&self, cable: Length) -> Option<&Grommet> {
        self.iter().filter(|grommet| cable <= grommet.bore).min_by(|a, b| a.bore.total_cmp(&b.bore))
    }
}

entry!(Grommet, "grommet", from_row);
