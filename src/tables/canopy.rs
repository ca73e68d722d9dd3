//! Net pressure coefficients of canopy roofs, EN 1991-1-4 table 7.6.

use super::interpolate::{RISING, at, rises};
use super::{Row, RowOrigin};
use crate::units::{Angle, Ratio, Unit};

/// Net coefficients: of the whole roof, and of its zones for single fixings. Positive presses down,
/// negative lifts.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct CanopyValues {
    /// The whole roof, `c_f`.
    pub force: f64,
    /// Zone A: the middle.
    pub a: f64,
    /// Zone B: the edges along the slope, a tenth of the width wide.
    pub b: f64,
    /// Zone C: the edges across the slope, a tenth of the depth wide.
    pub c: f64,
}

impl CanopyValues {
    fn between(self, other: Self, part: f64) -> Self {
        let mix = |x: f64, y: f64| x + (y - x) * part;
        Self {
            force: mix(self.force, other.force),
            a: mix(self.a, other.a),
            b: mix(self.b, other.b),
            c: mix(self.c, other.c),
        }
    }
}

/// Coefficients at one roof angle.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct CanopyRow {
    /// Greatest, for every blockage.
    pub down: CanopyValues,
    /// Least with nothing under the roof, φ = 0.
    pub up_free: CanopyValues,
    /// Least with the space under it blocked, φ = 1.
    pub up_blocked: CanopyValues,
}

impl CanopyRow {
    /// Least coefficients at a blockage φ from 0 to 1, straight between the two.
    pub fn up(&self, blockage: Ratio) -> CanopyValues {
        let part = blockage.to_fraction().clamp(0.0, 1.0);
        self.up_free.between(self.up_blocked, part)
    }
}

/// A table of canopy coefficients by roof angle.
#[derive(Clone, Debug, PartialEq)]
pub struct Canopy {
    /// `en-1991-1-4-table-7.6`.
    pub name: String,
    /// For people.
    pub words: String,
    /// Angle in degrees and coefficients, rising.
    rows: Vec<(f64, [f64; 12])>,
    /// Where the resultant acts: this share of the depth behind the windward edge.
    pub resultant_from_edge: Ratio,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl Canopy {
    /// Coefficients at a roof angle, straight between the rows. None beyond the table (0 to 30°).
    pub fn at(&self, angle: Angle) -> Option<CanopyRow> {
        let values = at(&self.rows, angle.to_deg())?;
        let group = |i: usize| CanopyValues {
            force: values[i],
            a: values[i + 1],
            b: values[i + 2],
            c: values[i + 3],
        };
        Some(CanopyRow { down: group(0), up_free: group(4), up_blocked: group(8) })
    }

    fn from_row(row: &mut Row<'_>) -> Self {
        let rows: Vec<(f64, [f64; 12])> = row
            .number_rows("rows")
            .into_iter()
            .map(|values: [f64; 13]| (values[0], std::array::from_fn(|i| values[i + 1])))
            .collect();
        if !rises(&rows) {
            row.refuse("rows", RISING);
        }
        Self {
            name: row.words("name"),
            words: row.words("words"),
            rows,
            resultant_from_edge: row.quantity("resultant-from-edge", Unit::ONE),
            origin: row.origin(),
        }
    }
}

entry!(Canopy, "canopy", from_row);
