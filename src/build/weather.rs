//! `[weather]`, `[crew]`, `[[rate]]` and `[[record]]`.

use crate::source::{Span, Stated};
use crate::tables::Rate;
use crate::units::{Angle, Duration, Length, Ratio, Temperature, TemperatureRise};
use jiff::civil::{Date, Time, Weekday};

/// Air over the work and the cure.
#[derive(Debug, Clone)]
pub struct Weather {
    /// Warmest part of the day (15:00, or the warmest of the hours).
    pub day: Air,
    /// Coldest part of the night (05:00, or the coldest of the hours).
    pub night: Air,
    /// Air by the hour, in order; empty: a simple curve from night to day.
    pub hours: Vec<HourAir>,
    /// What the sky does to the skin.
    pub sky: Stated<Sky>,
    /// How much warmer than the air the sun makes the skin at noon.
    pub sun_warms: Stated<TemperatureRise>,
    /// How much colder than the air a clear night makes the skin.
    pub night_cools: Stated<TemperatureRise>,
    /// When it is light, from and to.
    pub daylight: Option<(Stated<Time>, Stated<Time>)>,
    /// Where on the globe, north positive; tells when it is light where that is not stated.
    pub latitude: Stated<Angle>,
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

/// Air at one hour.
#[derive(Debug, Clone)]
pub struct HourAir {
    /// The day; absent: every day alike.
    pub date: Option<Date>,
    /// The clock.
    pub time: Time,
    /// Air then.
    pub air: Air,
    /// What the sky does from then on to the next stated hour; absent: as for all hours.
    pub sky: Option<Sky>,
    /// Where it was written.
    pub span: Span,
}

/// What is over the roof.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sky {
    /// The skin is as warm as the air.
    Covered,
    /// Sun warms it by day, the open sky cools it by night.
    Clear,
    /// Not known: the worse of both counts.
    Changing,
    /// Rain falls; only said of an hour.
    Rain,
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
    /// Days of the week on which there is work; never empty.
    pub days: Stated<Vec<Weekday>>,
    /// Tools of which there are two or more.
    pub spare_tools: Vec<Stated<String>>,
}

/// A work time of the reader's own in place of the table's.
#[derive(Debug, Clone)]
pub struct RateChange {
    /// Which.
    pub rate: Stated<Rate>,
    /// Time for one.
    pub time: Stated<Duration>,
}
