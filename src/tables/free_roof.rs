//! Net pressure coefficients of free roofs, ASCE 7 figure 27.3-4.

use super::interpolate::{RISING, at, rises};
use super::{Row, RowOrigin, Table};
use crate::source::Seen;
use crate::units::Angle;

/// Which edge meets the wind.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum WindwardEdge {
    /// The high edge: the wind gets under (wind direction 0° of the figure).
    High,
    /// The low edge: the wind presses down (180°).
    Low,
}

/// Load case of the figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LoadCase {
    /// A.
    A,
    /// B.
    B,
}

/// Whether goods under the roof stop more than half of the flow.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Flow {
    /// At most half is blocked.
    Clear,
    /// More than half is blocked.
    Obstructed,
}

/// One column of the figure, by roof angle.
#[derive(Clone, Debug, PartialEq)]
pub struct FreeRoof {
    /// `asce-7-wind-0-case-a-clear`.
    pub name: String,
    /// For people.
    pub words: String,
    /// Which edge meets the wind.
    pub windward: WindwardEdge,
    /// Load case.
    pub case: LoadCase,
    /// Clear or obstructed.
    pub flow: Flow,
    /// Angle in degrees; coefficient of the windward half, of the leeward half.
    rows: Vec<(f64, [f64; 2])>,
    /// Rows above this angle in degrees are from memory.
    from_memory_above: Option<f64>,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl FreeRoof {
    /// Coefficients of the windward and the leeward half, positive down. Below the second row the
    /// first holds unchanged; above it straight between rows. None beyond the table.
    pub fn at(&self, angle: Angle) -> Option<[f64; 2]> {
        let degrees = angle.to_deg();
        let [(first, values), rest @ ..] = self.rows.as_slice() else { return None };
        let second = rest.first()?.0;
        if *first <= degrees && degrees < second - 1e-9 {
            return Some(*values);
        }
        at(rest, degrees)
    }

    /// How the coefficients at an angle are known.
    pub fn seen_at(&self, angle: Angle) -> Seen {
        match self.from_memory_above {
            Some(limit) if angle.to_deg() > limit + 1e-9 => Seen::Memory,
            _ => self.origin.seen,
        }
    }

    fn from_row(row: &mut Row<'_>) -> Self {
        let rows: Vec<(f64, [f64; 2])> =
            row.number_rows("rows").into_iter().map(|[x, w, l]| (x, [w, l])).collect();
        if !rises(&rows) {
            row.refuse("rows", RISING);
        }
        Self {
            name: row.words("name"),
            words: row.words("words"),
            windward: if row.number("wind") == 180.0 {
                WindwardEdge::Low
            } else {
                WindwardEdge::High
            },
            case: row.choice("case", &[("a", LoadCase::A), ("b", LoadCase::B)]),
            flow: row.choice("flow", &[("clear", Flow::Clear), ("obstructed", Flow::Obstructed)]),
            rows,
            from_memory_above: row.maybe_number("from-memory-above"),
            origin: row.origin(),
        }
    }
}

impl Table<FreeRoof> {
    /// The column for an edge, a case and a flow.
    pub fn column(&self, windward: WindwardEdge, case: LoadCase, flow: Flow) -> Option<&FreeRoof> {
        self.iter().find(|row| row.windward == windward && row.case == case && row.flow == flow)
    }
}

entry!(FreeRoof, "free-roof", from_row);
