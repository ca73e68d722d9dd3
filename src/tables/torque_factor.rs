//! Factors K of the torque formula.

use super::{Row, RowOrigin};
use crate::units::{Ratio, Unit};

/// K in `T = K F d` for a condition of the thread. State it with every torque.
#[derive(Clone, Debug, PartialEq)]
pub struct TorqueFactor {
    /// Kebab-case name of the condition.
    pub name: String,
    /// For people.
    pub words: String,
    /// Lowest K: greatest preload for a torque.
    pub k_low: f64,
    /// K to plan with.
    pub k: f64,
    /// Highest K: least preload for a torque.
    pub k_high: f64,
    /// Scatter of the preload either way with a torque wrench.
    pub scatter: Ratio,
    /// Where the row came from.
    pub origin: RowOrigin,
}

entry!(TorqueFactor, "torque-factor", from_row);

impl TorqueFactor {
    fn from_row(row: &mut Row<'_>) -> Self {
        let [k_low, k, k_high] = row.numbers("k");
        if !(0.0 < k_low && k_low <= k && k <= k_high) {
            row.refuse("k", "takes low, planned and high, in that order and above zero");
        }
        Self {
            name: row.words("name"),
            words: row.words("words"),
            k_low,
            k,
            k_high,
            scatter: row.quantity("scatter", Unit::ONE),
            origin: row.origin(),
        }
    }
}
