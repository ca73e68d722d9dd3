//! What the open-circuit voltage of panels rises by in the cold, by a code's table.

use super::{Row, RowOrigin};
use crate::units::{Ratio, Temperature};

/// Factors on the open-circuit voltage at 25 °C by the coldest air.
#[derive(Clone, Debug, PartialEq)]
pub struct ColdVoltage {
    /// `nec-690-7`.
    pub name: String,
    /// Down to this temperature, falling, a factor.
    pub steps: Vec<(Temperature, Ratio)>,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl ColdVoltage {
    /// The factor at an air temperature: 1 where the table has not begun, none where it ends.
    pub fn factor(&self, coldest: Temperature) -> Option<Ratio> {
        // The table speaks of whole degrees: 19.5 °C belongs to the step under 20 °C.
        if coldest >= Temperature::celsius(25.0) {
            return Some(Ratio::ONE);
        }
        self.steps.iter().find(|(down_to, _)| coldest >= *down_to).map(|(_, factor)| *factor)
    }

    fn from_row(row: &mut Row<'_>) -> Self {
        let mut steps: Vec<(Temperature, Ratio)> = row
            .number_rows("steps")
            .into_iter()
            .map(|[down_to, factor]| (Temperature::celsius(down_to), Ratio::of_one(factor)))
            .collect();
        steps.sort_by(|a, b| b.0.total_cmp(&a.0));
        Self { name: row.words("name"), steps, origin: row.origin() }
    }
}

entry!(ColdVoltage, "cold-voltage", from_row);
