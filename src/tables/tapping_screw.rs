//! Tapping screws.

use super::{Entry, MaterialKind, Row, RowOrigin};
use crate::units::{Length, Unit};

/// A pilot hole for a band of sheet thickness.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pilot {
    /// Steel (also stands for copper and brass) or aluminium.
    pub metal: MaterialKind,
    /// Sheets thicker than this.
    pub over: Length,
    /// Sheets up to and including this.
    pub up_to: Length,
    /// Drilled hole.
    pub hole: Length,
}

/// A tapping screw, `ST4.2`.
#[derive(Clone, Debug, PartialEq)]
pub struct TappingScrew {
    /// `ST4.2`.
    pub name: String,
    /// Screw number, `#8`.
    pub also: Vec<String>,
    /// Greatest thread diameter.
    pub diameter: Length,
    /// Greatest core diameter.
    pub core: Length,
    /// Pitch; the sheet should be thicker.
    pub pitch: Length,
    /// Hole in the part on top.
    pub clearance: Length,
    /// Pan head, greatest diameter.
    pub head_diameter: Length,
    /// Pan head, greatest height.
    pub head_height: Length,
    /// Countersunk head, greatest diameter.
    pub countersunk_diameter: Length,
    /// Hexagon head across flats.
    pub hex_width: Length,
    /// Number of the cross recess.
    pub recess: u32,
    /// Pilot holes by metal and thickness.
    pub pilots: Vec<Pilot>,
    /// Lengths as sold.
    pub lengths: Vec<Length>,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl TappingScrew {
    /// The pilot hole in a sheet, where the table covers it. Stainless takes the steel hole.
    pub fn pilot_in(&self, metal: MaterialKind, thickness: Length) -> Option<Length> {
        let metal = if metal == MaterialKind::Stainless { MaterialKind::Steel } else { metal };
        self.pilots
            .iter()
            .find(|pilot| {
                pilot.metal == metal && pilot.over < thickness && thickness <= pilot.up_to
            })
            .map(|pilot| pilot.hole)
    }

    /// The shortest length sold that is at least `least`.
    pub fn length_at_least(&self, least: Length) -> Option<Length> {
        self.lengths.iter().copied().filter(|length| *length >= least).min_by(Length::total_cmp)
    }
}

impl Entry for TappingScrew {
    const KIND: &'static str = "tapping-screw";

    fn name(&self) -> &str {
        &self.name
    }

    fn also(&self) -> &[String] {
        &self.also
    }

    fn origin(&self) -> &RowOrigin {
        &self.origin
    }

    fn read_all(row: &mut Row<'_>) -> Vec<Self> {
        vec![Self::from_row(row)]
    }
}

impl TappingScrew {
    fn from_row(row: &mut Row<'_>) -> Self {
        let (head_diameter, head_height) = row.needed_inner("pan-head", |row| {
            (row.quantity("diameter", Unit::MM), row.quantity("height", Unit::MM))
        });
        Self {
            name: row.words("name"),
            also: row.words_list("also"),
            diameter: row.quantity("diameter", Unit::MM),
            core: row.quantity("core", Unit::MM),
            pitch: row.quantity("pitch", Unit::MM),
            clearance: row.quantity("clearance", Unit::MM),
            head_diameter,
            head_height,
            countersunk_diameter: row.quantity("countersunk-head", Unit::MM),
            hex_width: row.quantity("hex-width", Unit::MM),
            recess: row.whole("recess"),
            pilots: row.inner_list("pilot", |row| Pilot {
                metal: row.choice("in", MaterialKind::ALL),
                over: row.quantity("over", Unit::MM),
                up_to: row.quantity("up-to", Unit::MM),
                hole: row.quantity("hole", Unit::MM),
            }),
            lengths: row.quantity_list("lengths", Unit::MM),
            origin: row.origin(),
        }
    }
}
