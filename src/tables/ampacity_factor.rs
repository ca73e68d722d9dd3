//! Correction of ampacity for hot air and for bundles.

use super::{Row, RowOrigin};
use crate::units::{Ratio, Temperature, Unit};

/// Factors for one insulation temperature: up to an air temperature, a factor.
#[derive(Clone, Debug, PartialEq)]
pub struct RatingFactors {
    /// Temperature that the insulation may reach.
    pub rating: Temperature,
    /// Air temperature up to which the factor holds, rising, and the factor.
    pub steps: Vec<(Temperature, Ratio)>,
}

/// Factors on ampacity by air temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct AmbientFactor {
    /// `nec-30`.
    pub name: String,
    /// Air temperature of the ampacity tables it belongs to.
    pub base: Temperature,
    /// By insulation temperature, rising.
    pub ratings: Vec<RatingFactors>,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl AmbientFactor {
    /// The factor for a cable rated `insulation` in air of `ambient`: of the hottest column that
    /// the rating covers, the first step that the air doesn't exceed. None where the table ends.
    pub fn factor(&self, insulation: Temperature, ambient: Temperature) -> Option<Ratio> {
        let column = self.ratings.iter().rfind(|column| column.rating <= insulation)?;
        column.steps.iter().find(|(up_to, _)| ambient <= *up_to).map(|(_, factor)| *factor)
    }

    fn from_row(row: &mut Row<'_>) -> Self {
        let mut ratings: Vec<RatingFactors> = row.inner_list("ratings", |row| {
            let steps = row
                .number_rows("steps")
                .into_iter()
                .map(|[up_to, factor]| (Temperature::celsius(up_to), Ratio::of_one(factor)))
                .collect();
            RatingFactors { rating: row.quantity("rating", Unit::CELSIUS), steps }
        });
        ratings.sort_by(|a, b| a.rating.total_cmp(&b.rating));
        Self {
            name: row.words("name"),
            base: row.quantity("base", Unit::CELSIUS),
            ratings,
            origin: row.origin(),
        }
    }
}

entry!(AmbientFactor, "ambient-factor", from_row);

/// What a bundle is counted in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Counts {
    /// Current-carrying conductors: two for a DC circuit.
    Conductors,
    /// Circuits, that is pairs.
    Circuits,
}

/// Factors on ampacity by number in a bundle.
#[derive(Clone, Debug, PartialEq)]
pub struct BundleFactor {
    /// `iec`.
    pub name: String,
    /// What is counted.
    pub counts: Counts,
    /// From this number, rising, a factor.
    pub steps: Vec<(u32, Ratio)>,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl BundleFactor {
    /// The factor for a bundle of `circuits` DC pairs.
    pub fn factor(&self, circuits: u32) -> Ratio {
        let number = match self.counts {
            Counts::Conductors => circuits.saturating_mul(2),
            Counts::Circuits => circuits,
        };
        let step = self.steps.iter().rfind(|(from, _)| *from <= number);
        step.map_or(Ratio::ONE, |(_, factor)| *factor)
    }

    fn from_row(row: &mut Row<'_>) -> Self {
        Self {
            name: row.words("name"),
            counts: row.choice(
                "counts",
                &[("conductors", Counts::Conductors), ("circuits", Counts::Circuits)],
            ),
            steps: row
                .number_rows("steps")
                .into_iter()
                .map(|[from, factor]| (from.max(0.0) as u32, Ratio::of_one(factor)))
                .collect(),
            origin: row.origin(),
        }
    }
}

entry!(BundleFactor, "bundle-factor", from_row);
