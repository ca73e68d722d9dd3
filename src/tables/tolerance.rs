//! General tolerances and what hand marking holds.

use super::{Row, RowOrigin};
use crate::units::{Angle, Length, Unit};

/// A class of general tolerances, ISO 2768-1.
#[derive(Clone, Debug, PartialEq)]
pub struct Tolerance {
    /// `iso-2768-m`.
    pub name: String,
    /// For people: "medium".
    pub words: String,
    /// Over this length (from it, for the first), plus or minus this much; rising.
    pub linear: Vec<(Length, Length)>,
    /// Longest length covered.
    pub end: Length,
    /// Over this length of the shorter leg, plus or minus this angle; rising.
    pub angular: Vec<(Length, Angle)>,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl Tolerance {
    /// Plus or minus for a length; none outside the class.
    pub fn linear(&self, nominal: Length) -> Option<Length> {
        let (first, at_first) = *self.linear.first()?;
        if nominal == first {
            return Some(at_first);
        }
        if nominal > self.end {
            return None;
        }
        self.linear.iter().rfind(|(over, _)| *over < nominal).map(|(_, plus)| *plus)
    }

    /// Plus or minus for an angle whose shorter leg has this length.
    pub fn angular(&self, shorter_leg: Length) -> Option<Angle> {
        self.angular.iter().rfind(|(over, _)| *over < shorter_leg).map(|(_, plus)| *plus)
    }

    fn from_row(row: &mut Row<'_>) -> Self {
        let minutes = |[over, minutes]: [f64; 2]| (Length::mm(over), Angle::deg(minutes / 60.0));
        Self {
            name: row.words("name"),
            words: row.words("words"),
            linear: row
                .quantity_rows("linear", Unit::MM)
                .into_iter()
                .map(|[over, plus]| (over, plus))
                .collect(),
            end: row.quantity("end", Unit::MM),
            angular: row.number_rows("angle").into_iter().map(minutes).collect(),
            origin: row.origin(),
        }
    }
}

entry!(Tolerance, "tolerance", from_row);

/// A way to place holes, and how well it places them.
#[derive(Clone, Debug, PartialEq)]
pub struct Marking {
    /// `hand`, `jig`, `template`, `in-place`.
    pub name: String,
    /// For people.
    pub words: String,
    /// Diameter of the circle round the true place in which the hole's centre lies.
    pub zone: Length,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl Marking {
    fn from_row(row: &mut Row<'_>) -> Self {
        Self {
            name: row.words("name"),
            words: row.words("words"),
            zone: row.quantity("zone", Unit::MM),
            origin: row.origin(),
        }
    }
}

entry!(Marking, "marking", from_row);
