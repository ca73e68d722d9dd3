//! `[weather]` and `[crew]`.

use crate::source::{Span, Stated};
use crate::units::{Length, Ratio, Temperature};
use jiff::civil::{Date, Time};

/// Air over the work and the cure.
#[derive(Debug, Clone)]
pub struct Weather {
    /// Warmest part of the day (15:00).
    pub day: Air,
    /// Coldest part of the night (05:00).
    pub night: Air,
    /// Above sea level; absent: air of 1.25 kg/m³ (EN 1991-1-4).
    pub altitude: Option<Stated<Length>>,
    /// Lowest temperature that a panel meets at first light, for the highest voltage.
    pub record_low: Stated<Temperature>,
    /// Place of the table; none where it was not written.
    pub span: Span,
}

/// Temperature and relative humidity.
#[derive(Debug, Clone)]
pub struct Air {
    /// Air temperature.
    pub temperature: Stated<Temperature>,
    /// Relative humidity, 0 to 1.
    pub humidity: Stated<Ratio>,
}

/// Who works and when.
#[derive(Debug, Clone)]
pub struct Crew {
    /// How many people.
    pub people: Stated<u32>,
    /// First day of work.
    pub start: Stated<Date>,
    /// Work begins, each day.
    pub from: Stated<Time>,
    /// Work ends, each day.
    pub to: Stated<Time>,
}
