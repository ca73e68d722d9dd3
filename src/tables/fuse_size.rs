//! Fuses by type, with the ratings they are sold in.

use super::{Row, RowOrigin};
use crate::units::{Current, Length, Unit, Voltage};

/// Where a type of fuse belongs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum FusePlace {
    /// At the plus of a battery.
    Battery,
    /// In the plus of a solar string.
    String,
}

/// A type of fuse and its ratings.
#[derive(Clone, Debug, PartialEq)]
pub struct FuseSize {
    /// `blade`, `class-t`.
    pub name: String,
    /// For people.
    pub words: String,
    /// Where it belongs.
    pub place: FusePlace,
    /// What takes it, in words.
    pub holder: String,
    /// Ratings sold, rising.
    pub ratings: Vec<Current>,
    /// Breaking capacity up to a voltage, rising by voltage.
    pub breaking: Vec<(Voltage, Current)>,
    /// Thread of its studs.
    pub bolt: Option<String>,
    /// Spacing of its studs.
    pub spacing: Option<Length>,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl FuseSize {
    /// The smallest rating that is at least `current`.
    pub fn rating_at_or_above(&self, current: Current) -> Option<Current> {
        self.ratings.iter().copied().find(|rating| *rating >= current)
    }

    /// The largest rating that is at most `current`.
    pub fn rating_at_or_below(&self, current: Current) -> Option<Current> {
        self.ratings.iter().copied().rfind(|rating| *rating <= current)
    }

    /// The current it can break at a voltage. None above its voltage.
    pub fn breaking_at(&self, voltage: Voltage) -> Option<Current> {
        self.breaking.iter().find(|(up_to, _)| voltage <= *up_to).map(|(_, amps)| *amps)
    }

    fn from_row(row: &mut Row<'_>) -> Self {
        let mut ratings: Vec<Current> = row.quantity_list("ratings", Unit::A);
        ratings.sort_by(Current::total_cmp);
        let mut breaking: Vec<(Voltage, Current)> = row
            .number_rows("breaking")
            .into_iter()
            .map(|[volts, amps]| (Voltage::v(volts), Current::a(amps)))
            .collect();
        breaking.sort_by(|a, b| a.0.total_cmp(&b.0));
        Self {
            name: row.words("name"),
            words: row.words("words"),
            place: row
                .choice("place", &[("battery", FusePlace::Battery), ("string", FusePlace::String)]),
            holder: row.words("holder"),
            ratings,
            breaking,
            bolt: row.maybe_words("bolt"),
            spacing: row.maybe("spacing", Unit::MM),
            origin: row.origin(),
        }
    }
}

entry!(FuseSize, "fuse", from_row);
