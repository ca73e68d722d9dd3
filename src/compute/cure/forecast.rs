//! Air over the days, and what sun and open sky do to a skin.
//!
//! Air is one value, a simple curve between the coldest and the warmest hour, or stated by the hour
//! with straight lines between. Clocks count from midnight before the first day of work.

use super::daylight::hours_of_light;
use super::moist_air::{dew_point, vapour};
use crate::build::{Build, HourAir, Sky, Weather};
use crate::units::{Duration, Pressure, Ratio, Temperature, TemperatureRise};
use jiff::civil::Date;

/// Clock of the coldest and of the warmest air, hours after midnight; common practice.
const COLDEST: f64 = 5.0;
const WARMEST: f64 = 15.0;
/// Hours of windows are looked for in quarters.
const QUARTER: Duration = Duration::minutes(15.0);

/// Air by the clock.
#[derive(Debug, Clone)]
pub struct Forecast {
    course: Course,
    skin: Skin,
    warmer: TemperatureRise,
    wetter: Ratio,
}

#[derive(Debug, Clone)]
enum Course {
    /// Half cosine waves between night and day, the same every day.
    Curve { day: (Temperature, Ratio), night: (Temperature, Ratio) },
    /// Points by hours after midnight, the same every day.
    Daily(Vec<Point>),
    /// Points by hours after midnight before the first day.
    Dated(Vec<Point>),
}

#[derive(Debug, Clone, Copy)]
struct Point {
    hour: f64,
    celsius: f64,
    percent: f64,
    rain: bool,
}

/// What sun and sky do to a skin.
#[derive(Debug, Clone, Copy)]
struct Skin {
    sky: Sky,
    sun: TemperatureRise,
    night: TemperatureRise,
    /// Clock at which it gets light and dark.
    light: (Duration, Duration),
}

/// Air at one moment.
#[derive(Debug, Clone, Copy)]
pub struct Moment {
    /// Air temperature.
    pub temperature: Temperature,
    /// Relative humidity.
    pub humidity: Ratio,
}

impl Moment {
    /// Vapour pressure.
    pub fn vapour(&self) -> Pressure {
        vapour(self.temperature, self.humidity)
    }

    /// Dew point.
    pub fn dew_point(&self) -> Temperature {
        dew_point(self.temperature, self.humidity)
    }

    /// How far a surface at air temperature lies over the dew point.
    pub fn dew_margin(&self) -> TemperatureRise {
        self.temperature - self.dew_point()
    }
}

/// Limits of a surface while a joint is made.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Coldest.
    pub low: Temperature,
    /// Hottest.
    pub high: Temperature,
    /// Over the dew point.
    pub margin: TemperatureRise,
}

impl Limits {
    /// What keeps both.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self {
            low: self.low.max(other.low),
            high: self.high.min(other.high),
            margin: self.margin.max(other.margin),
        }
    }
}

impl Forecast {
    /// By the build file.
    pub fn of(build: &Build) -> Self {
        let weather = &build.weather;
        let start = *build.crew.start;
        let air = |air: &crate::build::Air| (*air.temperature, *air.humidity);
        let course = match weather.hours.first() {
            None => Course::Curve { day: air(&weather.day), night: air(&weather.night) },
            Some(first) if first.date.is_none() => Course::Daily(points(&weather.hours, start)),
            Some(_) => Course::Dated(points(&weather.hours, start)),
        };
        let skin = Skin {
            sky: *weather.sky,
            sun: *weather.sun_warms,
            night: *weather.night_cools,
            light: light(weather, start),
        };
        Self { course, skin, warmer: TemperatureRise::ZERO, wetter: Ratio::ZERO }
    }

    /// Always the same air, and a skin as warm.
    pub const fn steady(temperature: Temperature, humidity: Ratio) -> Self {
        let air = (temperature, humidity);
        Self {
            course: Course::Curve { day: air, night: air },
            skin: Skin {
                sky: Sky::Covered,
                sun: TemperatureRise::ZERO,
                night: TemperatureRise::ZERO,
                light: (Duration::hours(6.0), Duration::hours(18.0)),
            },
            warmer: TemperatureRise::ZERO,
            wetter: Ratio::ZERO,
        }
    }

    /// The same course, all of it warmer and wetter, as a measurement at one hour showed it.
    #[must_use]
    pub fn corrected(&self, warmer: TemperatureRise, wetter: Ratio) -> Self {
        Self { warmer: self.warmer + warmer, wetter: self.wetter + wetter, ..self.clone() }
    }

    /// Clock of a day at which it gets light and dark.
    pub const fn light(&self) -> (Duration, Duration) {
        self.skin.light
    }

    /// Whether the air never changes.
    pub fn is_steady(&self) -> bool {
        matches!(self.course, Course::Curve { day, night } if day == night)
    }

    /// Air at a clock.
    pub fn at(&self, clock: Duration) -> Moment {
        let (celsius, percent) = match &self.course {
            Course::Curve { day, night } => {
                let warm = warmth(clock.to_hours().rem_euclid(24.0));
                let between = |night: f64, day: f64| night + (day - night) * warm;
                (
                    between(night.0.to_celsius(), day.0.to_celsius()),
                    between(night.1.to_percent(), day.1.to_percent()),
                )
            }
            Course::Daily(points) => {
                let found = around(points, clock.to_hours().rem_euclid(24.0));
                (found.celsius, found.percent)
            }
            Course::Dated(points) => {
                let found = between(points, within(points, clock.to_hours()));
                (found.celsius, found.percent)
            }
        };
        Moment {
            temperature: Temperature::celsius(celsius) + self.warmer,
            humidity: Ratio::percent((percent + self.wetter.to_percent()).clamp(1.0, 100.0)),
        }
    }

    /// Whether rain is stated for a clock.
    pub fn rains(&self, clock: Duration) -> bool {
        match &self.course {
            Course::Curve { .. } => false,
            Course::Daily(points) => around(points, clock.to_hours().rem_euclid(24.0)).rain,
            Course::Dated(points) => between(points, within(points, clock.to_hours())).rain,
        }
    }

    /// Coldest and warmest that a skin may be at a clock, by sun and sky.
    pub fn skin(&self, clock: Duration) -> (Temperature, Temperature) {
        let air = self.at(clock).temperature;
        let hour = clock.to_hours().rem_euclid(24.0);
        let (from, to) = (self.skin.light.0.to_hours(), self.skin.light.1.to_hours());
        let up = hour > from && hour < to;
        // The sun warms by the sine of its way over the sky; common practice.
        let sun = if up {
            self.skin.sun * crate::units::Angle::deg(180.0 * (hour - from) / (to - from)).sin()
        } else {
            TemperatureRise::ZERO
        };
        let night = if up { TemperatureRise::ZERO } else { self.skin.night };
        match self.skin.sky {
            Sky::Covered | Sky::Rain => (air, air),
            Sky::Clear => (air + sun - night, air + sun - night),
            Sky::Changing => (air - night, air + sun),
        }
    }

    /// Kelvins by which a surface misses its limits at a clock; zero or less is fit. Rain is a miss
    /// of any size.
    pub fn misses(&self, limits: &Limits, clock: Duration) -> f64 {
        let (cold, warm) = self.skin(clock);
        let dew = self.at(clock).dew_point();
        let dry = if self.rains(clock) { 99.0 } else { f64::NEG_INFINITY };
        (limits.low - cold)
            .to_k()
            .max((warm - limits.high).to_k())
            .max((limits.margin - (cold - dew)).to_k())
            .max(dry)
    }

    /// Hours between two clocks in which a surface keeps its limits; looked at every quarter of an
    /// hour.
    pub fn windows(
        &self,
        limits: &Limits,
        from: Duration,
        to: Duration,
    ) -> Vec<(Duration, Duration)> {
        let count = ((to - from) / QUARTER).round().max(0.0) as u32;
        let mut windows: Vec<(Duration, Duration)> = Vec::new();
        let mut open = None;
        for quarter in 0..=count {
            let clock = from + QUARTER * f64::from(quarter);
            let good = quarter < count && self.misses(limits, clock) <= 0.0;
            match (open, good) {
                (None, true) => open = Some(clock),
                (Some(begin), false) => {
                    windows.push((begin, clock));
                    open = None;
                }
                _ => {}
            }
        }
        windows
    }

    /// The first hours from a clock on, as long as `long`, in which a surface keeps its limits; looked
    /// for on the days of the forecast and the day after.
    pub fn next_window(
        &self,
        limits: &Limits,
        from: Duration,
        long: Duration,
    ) -> Option<(Duration, Duration)> {
        let day = Duration::days(1.0);
        let first = (from / day).floor();
        let last = day * (first + f64::from(self.days()) + 2.0);
        let start = QUARTER * (from / QUARTER).ceil();
        self.windows(limits, start, last).into_iter().find(|(from, to)| *to - *from >= long)
    }

    /// Clock from which on every day is like the one before.
    pub fn repeats(&self) -> Duration {
        match &self.course {
            Course::Curve { .. } | Course::Daily(_) => Duration::days(-36_500.0),
            Course::Dated(points) => {
                points.last().map_or(Duration::ZERO, |last| Duration::hours(last.hour))
            }
        }
    }

    /// Days after which every day is like the one before.
    pub fn days(&self) -> u32 {
        match &self.course {
            Course::Curve { .. } | Course::Daily(_) => 1,
            Course::Dated(points) => points
                .last()
                .map_or(1, |last| (last.hour / 24.0).floor().clamp(0.0, 60.0) as u32 + 2),
        }
    }
}

/// Stated hours as points, in order.
fn points(hours: &[HourAir], start: Date) -> Vec<Point> {
    hours
        .iter()
        .map(|hour| {
            let days = hour.date.map_or(0.0, |date| f64::from(days_between(start, date)));
            let clock = f64::from(hour.time.hour()) + f64::from(hour.time.minute()) / 60.0;
            Point {
                hour: days * 24.0 + clock,
                celsius: hour.air.temperature.to_celsius(),
                percent: hour.air.humidity.to_percent(),
                rain: hour.sky == Some(Sky::Rain),
            }
        })
        .collect()
}

/// Whole days from one date to another.
pub fn days_between(from: Date, to: Date) -> i32 {
    // Dates of the build file lie within two centuries.
    from.until(to).map_or(0, |span| span.get_days())
}

/// Clock at which it gets light and dark.
fn light(weather: &Weather, start: Date) -> (Duration, Duration) {
    let clock = |time: jiff::civil::Time| {
        Duration::minutes(f64::from(time.hour()) * 60.0 + f64::from(time.minute()))
    };
    weather.daylight.as_ref().map_or_else(
        || hours_of_light(start, *weather.latitude),
        |(from, to)| (clock(**from), clock(**to)),
    )
}

/// A clock drawn into the stated hours by whole days, so that the first or last day repeats.
fn within(points: &[Point], hour: f64) -> f64 {
    let (Some(first), Some(last)) = (points.first(), points.last()) else { return hour };
    if hour > last.hour {
        let back = ((hour - last.hour) / 24.0).ceil() * 24.0;
        (hour - back).max(first.hour)
    } else if hour < first.hour {
        let on = ((first.hour - hour) / 24.0).ceil() * 24.0;
        (hour + on).min(last.hour)
    } else {
        hour
    }
}

/// Straight lines between points; level beyond them. Rain holds from its point to the next.
fn between(points: &[Point], hour: f64) -> Point {
    let after = points.iter().position(|point| point.hour > hour);
    let (low, high) = match after {
        Some(0) => (points[0], points[0]),
        Some(after) => (points[after - 1], points[after]),
        None => {
            let last = points.last().copied().unwrap_or(Point {
                hour,
                celsius: 20.0,
                percent: 50.0,
                rain: false,
            });
            (last, last)
        }
    };
    blend(low, high, hour)
}

/// Straight lines round the clock, from the last point of a day to the first of the next.
fn around(points: &[Point], hour: f64) -> Point {
    let (Some(first), Some(last)) = (points.first(), points.last()) else {
        return between(points, hour);
    };
    if hour < first.hour {
        blend(Point { hour: last.hour - 24.0, ..*last }, *first, hour)
    } else if hour >= last.hour {
        blend(*last, Point { hour: first.hour + 24.0, ..*first }, hour)
    } else {
        between(points, hour)
    }
}

fn blend(low: Point, high: Point, hour: f64) -> Point {
    let wide = high.hour - low.hour;
    let part = if wide > 0.0 { (hour - low.hour) / wide } else { 0.0 };
    Point {
        hour,
        celsius: low.celsius + (high.celsius - low.celsius) * part,
        percent: low.percent + (high.percent - low.percent) * part,
        rain: low.rain,
    }
}

/// 0 at the coldest hour, 1 at the warmest: half cosine waves, rising from 05:00 to 15:00.
fn warmth(hour: f64) -> f64 {
    if (COLDEST..WARMEST).contains(&hour) {
        0.5 - 0.5 * half_turn((hour - COLDEST) / (WARMEST - COLDEST))
    } else {
        let since = (hour - WARMEST).rem_euclid(24.0);
        0.5 + 0.5 * half_turn(since / (24.0 - WARMEST + COLDEST))
    }
}

/// Cosine of a part of a half turn.
fn half_turn(part: f64) -> f64 {
    crate::units::Angle::deg(180.0 * part).cos()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn curve(day: (f64, f64), night: (f64, f64)) -> Forecast {
        let air = |(t, rh)| (Temperature::celsius(t), Ratio::percent(rh));
        let steady = Forecast::steady(Temperature::celsius(0.0), Ratio::percent(50.0));
        Forecast { course: Course::Curve { day: air(day), night: air(night) }, ..steady }
    }

    const LIMITS: Limits = Limits {
        low: Temperature::celsius(5.0),
        high: Temperature::celsius(35.0),
        margin: TemperatureRise::k(3.0),
    };

    #[test]
    fn the_day_turns_at_five_and_fifteen() {
        let forecast = curve((15.0, 60.0), (7.0, 86.0));
        let at = |hour: f64| forecast.at(Duration::hours(hour)).temperature.to_celsius();
        assert!((at(5.0) - 7.0).abs() < 1e-9);
        assert!((at(15.0) - 15.0).abs() < 1e-9);
        assert!((at(10.0) - 11.0).abs() < 1e-9);
        assert!((at(22.0) - 11.0).abs() < 1e-9);
        assert!((at(29.0) - at(5.0)).abs() < 1e-9);
    }

    #[test]
    fn dew_closes_the_night() {
        let open = curve((15.0, 60.0), (7.0, 90.0)).windows(
            &LIMITS,
            Duration::ZERO,
            Duration::hours(24.0),
        );
        // What is still open at midnight begins the next day's list.
        assert_eq!(open.len(), 2, "{open:?}");
        let closes = open[0].1;
        assert_eq!((open[0].0, open[1].1), (Duration::ZERO, Duration::hours(24.0)));
        assert!(closes < Duration::hours(5.0) && open[1].0 > Duration::hours(5.0));
        assert!(open[1].0 < Duration::hours(15.0));
    }

    #[test]
    fn sun_and_open_sky_close_more_hours_than_a_covered_sky() {
        let covered = curve((26.0, 45.0), (8.0, 80.0));
        let mut changing = covered.clone();
        changing.skin.sky = Sky::Changing;
        changing.skin.sun = TemperatureRise::k(15.0);
        changing.skin.night = TemperatureRise::k(4.0);
        let hours = |forecast: &Forecast| -> Duration {
            let list = forecast.windows(&LIMITS, Duration::ZERO, Duration::hours(24.0));
            list.iter().map(|(from, to)| *to - *from).sum()
        };
        assert!(hours(&changing) < hours(&covered));
        // At noon the skin may be 15 K warmer, at midnight 4 K colder.
        let (cold, warm) = changing.skin(Duration::hours(12.0));
        assert!(((warm - cold).to_k() - 15.0).abs() < 1e-9);
        let (cold, warm) = changing.skin(Duration::hours(24.0));
        assert!(((warm - cold).to_k() - 4.0).abs() < 1e-9);
    }

    #[test]
    fn hours_are_joined_by_straight_lines_and_their_last_day_repeats() {
        let point = |hour, celsius| Point { hour, celsius, percent: 60.0, rain: false };
        let points: Vec<Point> = (0..=4)
            .map(|k| point(f64::from(k) * 12.0, [10.0, 20.0, 4.0, 14.0, 6.0][k as usize]))
            .collect();
        let steady = Forecast::steady(Temperature::celsius(0.0), Ratio::percent(50.0));
        let forecast = Forecast { course: Course::Dated(points), ..steady };
        let at = |hour: f64| forecast.at(Duration::hours(hour)).temperature.to_celsius();
        assert!((at(6.0) - 15.0).abs() < 1e-9);
        assert!((at(30.0) - 9.0).abs() < 1e-9);
        // The third day is like the second, the day before the first like the first.
        assert!((at(54.0) - 9.0).abs() < 1e-9);
        assert!((at(-18.0) - 15.0).abs() < 1e-9);
    }
}
