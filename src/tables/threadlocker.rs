//! Anaerobic threadlockers.

use super::{Row, RowOrigin};
use crate::units::{Duration, Length, Temperature, TemperatureRise, Unit, Volume};

/// A threadlocker.
#[derive(Clone, Debug, PartialEq)]
pub struct Threadlocker {
    /// Kebab-case class name.
    pub name: String,
    /// For people.
    pub words: String,
    /// Largest thread.
    pub most_diameter: Length,
    /// Gap up to which it reaches full strength.
    pub gap_full: Length,
    /// Gap from which it is slow.
    pub gap_slow: Length,
    /// Gap beyond which it doesn't set.
    pub gap_limit: Length,
    /// Time to full strength on active metal at `cure_at`.
    pub full_cure: Duration,
    /// Time until it holds by itself.
    pub fixture: Duration,
    /// Temperature of the times.
    pub cure_at: Temperature,
    /// Warming that halves the times.
    pub halves_per: TemperatureRise,
    /// Time from wetting to full torque.
    pub open_time: Duration,
    /// Metals and finishes that need an activator on both threads.
    pub activator_on: Vec<String>,
    /// Highest service temperature.
    pub service: Temperature,
    /// What undoes it.
    pub removal: String,
    /// Volume for one M6 thread; larger threads by the square of the diameter.
    pub volume_per_m6: Volume,
    /// Hazard keys; see [`super::Protective`].
    pub hazards: Vec<String>,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl Threadlocker {
    /// Time to full strength at a steady temperature: halved or doubled by each `halves_per`.
    pub fn full_cure_at(&self, at: Temperature) -> Duration {
        self.full_cure * 2f64.powf((self.cure_at - at) / self.halves_per)
    }

    /// Whether a metal or finish needs an activator.
    pub fn needs_activator(&self, finish: &str) -> bool {
        self.activator_on.iter().any(|metal| metal == finish)
    }

    /// Volume for one thread of a diameter.
    pub fn volume_for(&self, diameter: Length) -> Volume {
        self.volume_per_m6 * (diameter / Length::mm(6.0)).powi(2)
    }
}

entry!(Threadlocker, "threadlocker", from_row);

impl Threadlocker {
    fn from_row(row: &mut Row<'_>) -> Self {
        let [gap_full, gap_slow, gap_limit] = row.needed_inner("gap", |row| {
            [
                row.quantity("full", Unit::MM),
                row.quantity("slow", Unit::MM),
                row.quantity("limit", Unit::MM),
            ]
        });
        Self {
            name: row.words("name"),
            words: row.words("words"),
            most_diameter: row.quantity("most-diameter", Unit::MM),
            gap_full,
            gap_slow,
            gap_limit,
            full_cure: row.quantity("full-cure", Unit::H),
            fixture: row.quantity("fixture", Unit::MIN),
            cure_at: row.quantity("cure-at", Unit::CELSIUS),
            halves_per: row.quantity_above_zero("halves-per", Unit::KELVIN_RISE),
            open_time: row.quantity("open-time", Unit::MIN),
            activator_on: row.words_list("activator-on"),
            service: row.quantity("service", Unit::CELSIUS),
            removal: row.words("removal"),
            volume_per_m6: row.quantity("volume-m6", Unit::ML),
            hazards: row.words_list("hazards"),
            origin: row.origin(),
        }
    }
}
