//! Waits in other air than the forecast's, so that paper still answers when the weather turns.

use super::forecast::Forecast;
use super::joint::Stage;
use super::{TAPE_STAGES, bead_wait, models};
use crate::tables::{Adhesive, Tape};
use crate::units::{Duration, Length, Ratio, Temperature};

/// Waits at other temperatures and humidities, for when the weather turns.
#[derive(Debug, Clone, Default)]
pub struct DayTable {
    /// Heads of the columns that depend on temperature alone: "tape at 75 %".
    pub tape: Vec<String>,
    /// Depth of the bead that the humidity columns are for.
    pub depth: Option<Length>,
    /// Humidities of those columns.
    pub humidities: Vec<Ratio>,
    /// One row a temperature.
    pub rows: Vec<DayRow>,
}

/// One row of a [`DayTable`].
#[derive(Debug, Clone)]
pub struct DayRow {
    /// Steady temperature.
    pub temperature: Temperature,
    /// Time in which the bead must be closed, in the wettest of the airs; absent without a bead.
    pub open: Option<Duration>,
    /// Waits of the tape columns.
    pub tape: Vec<Option<Duration>>,
    /// Waits of the humidity columns.
    pub bead: Vec<Option<Duration>>,
}

/// Temperatures and humidities of the tables for the day.
pub(super) const TABLE_AIR: ([f64; 6], [f64; 3]) =
    ([5.0, 10.0, 15.0, 20.0, 25.0, 30.0], [40.0, 60.0, 80.0]);

pub(super) fn table(
    tape: Option<&Tape>,
    bead: Option<&Adhesive>,
    path: Option<Length>,
) -> DayTable {
    let (temperatures, humidities) = TABLE_AIR;
    let stages: Vec<f64> = TAPE_STAGES
        .iter()
        .filter(|(stage, _)| matches!(stage, Stage::Load | Stage::Drive))
        .map(|(_, share)| *share)
        .collect();
    let rows = temperatures
        .iter()
        .map(|t| {
            let temperature = Temperature::celsius(*t);
            let steady = |rh: f64| Forecast::steady(temperature, Ratio::percent(rh));
            let wettest = humidities.into_iter().fold(0.0, f64::max);
            DayRow {
                temperature,
                open: bead
                    .and_then(|bead| models::open_wait(bead, Duration::ZERO, &steady(wettest))),
                tape: tape.map_or_else(Vec::new, |tape| {
                    stages
                        .iter()
                        .map(|s| {
                            models::tape_wait(
                                tape,
                                Ratio::of_one(*s),
                                Duration::ZERO,
                                &steady(50.0),
                            )
                        })
                        .collect()
                }),
                bead: bead.zip(path).map_or_else(Vec::new, |(bead, path)| {
                    humidities
                        .iter()
                        .map(|rh| bead_wait(bead, path, Duration::ZERO, &steady(*rh)))
                        .collect()
                }),
            }
        })
        .collect();
    DayTable {
        tape: tape.map_or_else(Vec::new, |_| {
            stages.iter().map(|s| format!("tape at {:.0} %", s * 100.0)).collect()
        }),
        depth: path,
        humidities: bead
            .map_or_else(Vec::new, |_| humidities.iter().map(|h| Ratio::percent(*h)).collect()),
        rows,
    }
}
