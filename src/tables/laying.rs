//! How cables are laid: bends, slack, clips, sleeves.

use super::{Row, RowOrigin, Table};
use crate::units::{Length, Ratio, Unit};

/// Least bend radius of a cable, over its outside diameter.
#[derive(Clone, Debug, PartialEq)]
pub struct CableLay {
    /// Insulation as build files name it: `pvc-70`.
    pub name: String,
    /// Laid once: radius over the diameter, for cables up to a diameter.
    fixed: Vec<(Length, f64)>,
    /// Moved often, as in the loop at a hinge.
    moved: f64,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl CableLay {
    fn from_row(row: &mut Row<'_>) -> Self {
        let fixed: Vec<[f64; 2]> = row.number_rows("fixed");
        if fixed.is_empty() {
            row.refuse("fixed", "needs a row at least");
        }
        Self {
            name: row.words("name"),
            fixed: fixed.into_iter().map(|[most, by]| (Length::mm(most), by)).collect(),
            moved: row.number("moved"),
            origin: row.origin(),
        }
    }

    /// Least inner radius of a bend that is laid once.
    pub fn fixed(&self, outer: Length) -> Length {
        let row = self.fixed.iter().find(|(most, _)| outer <= *most).or(self.fixed.last());
        outer * row.map_or(0.0, |(_, by)| *by)
    }

    /// Least inner radius of a bend that moves.
    pub fn moved(&self, outer: Length) -> Length {
        outer * self.moved
    }
}

entry!(CableLay, "cable-lay", from_row);

/// A length that work adds or keeps, or a share of one.
#[derive(Clone, Debug, PartialEq)]
pub struct Allowance {
    /// `end-loop`.
    pub name: String,
    /// For people.
    pub words: String,
    /// The length; zero where it is a share.
    pub length: Length,
    /// The share; zero where it is a length.
    pub share: Ratio,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl Allowance {
    fn from_row(row: &mut Row<'_>) -> Self {
        let length = row.maybe("length", Unit::MM);
        let share: Option<Ratio> = row.maybe("share", Unit::PERCENT);
        if length.is_some() == share.is_some() {
            row.refuse("length", "either a length or a share");
        }
        Self {
            name: row.words("name"),
            words: row.words("words"),
            length: length.unwrap_or_default(),
            share: share.unwrap_or_default(),
            origin: row.origin(),
        }
    }
}

entry!(Allowance, "allowance", from_row);

/// Shrinking sleeve with adhesive.
#[derive(Clone, Debug, PartialEq)]
pub struct HeatShrink {
    /// `heat-shrink-6`, by its bore as sold.
    pub name: String,
    /// Bore as sold.
    pub before: Length,
    /// Bore when shrunk free.
    pub after: Length,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl HeatShrink {
    fn from_row(row: &mut Row<'_>) -> Self {
        Self {
            name: row.words("name"),
            before: row.quantity_above_zero("before", Unit::MM),
            after: row.quantity_above_zero("after", Unit::MM),
            origin: row.origin(),
        }
    }
}

entry!(HeatShrink, "heat-shrink", from_row);

impl Table<HeatShrink> {
    /// The smallest sleeve that slides over a lug's barrel on a cable and grips the cable. A barrel is
    /// taken a third thicker than its cable (common practice).
    pub fn sleeve_for(&self, cable: Length) -> Option<&HeatShrink> {
        const BARREL: f64 = 4.0 / 3.0;
        self.iter()
            .filter(|sleeve| sleeve.before >= cable * BARREL && sleeve.after < cable)
            .min_by(|a, b| a.before.total_cmp(&b.before))
    }
}
