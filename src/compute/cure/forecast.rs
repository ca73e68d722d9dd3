//! Air over the day: a simple curve between the coldest and the warmest hour.

use super::moist_air::{dew_point, vapour};
use crate::build::Weather;
use crate::units::{Duration, Pressure, Ratio, Temperature, TemperatureRise};

/// Clock of the coldest and of the warmest air, hours after midnight; common practice.
const COLDEST: f64 = 5.0;
const WARMEST: f64 = 15.0;

/// Air by the clock, the same every day.
#[derive(Debug, Clone, Copy)]
pub struct Forecast {
    day: (Temperature, Ratio),
    night: (Temperature, Ratio),
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

impl Forecast {
    /// By the build file.
    pub fn of(weather: &Weather) -> Self {
        let air = |air: &crate::build::Air| (*air.temperature, *air.humidity);
        Self { day: air(&weather.day), night: air(&weather.night) }
    }

    /// Always the same air.
    pub const fn steady(temperature: Temperature, humidity: Ratio) -> Self {
        Self { day: (temperature, humidity), night: (temperature, humidity) }
    }

    /// Air at a clock time, counted from midnight before any day.
    ///
    /// Half cosine waves: rising from 05:00 to 15:00, falling until 05:00.
    pub fn at(&self, clock: Duration) -> Moment {
        let hour = clock.to_hours().rem_euclid(24.0);
        let warm = if (COLDEST..WARMEST).contains(&hour) {
            0.5 - 0.5 * half_turn((hour - COLDEST) / (WARMEST - COLDEST))
        } else {
            let since = (hour - WARMEST).rem_euclid(24.0);
            0.5 + 0.5 * half_turn(since / (24.0 - WARMEST + COLDEST))
        };
        let between = |night: f64, day: f64| night + (day - night) * warm;
        Moment {
            temperature: Temperature::celsius(between(
                self.night.0.to_celsius(),
                self.day.0.to_celsius(),
            )),
            humidity: Ratio::of_one(between(self.night.1.to_fraction(), self.day.1.to_fraction())),
        }
    }

    /// Hours of the day, from and to, in which a surface at air temperature keeps within the limits
    /// and the margin over the dew point; looked at every quarter of an hour.
    pub fn windows(
        &self,
        low: Temperature,
        high: Temperature,
        margin: TemperatureRise,
    ) -> Vec<(Duration, Duration)> {
        let fits = |quarter: u32| {
            let air = self.at(Duration::minutes(f64::from(quarter) * 15.0));
            air.temperature >= low && air.temperature <= high && air.dew_margin() >= margin
        };
        let mut windows: Vec<(Duration, Duration)> = Vec::new();
        let mut open = None;
        for quarter in 0..=96 {
            let good = quarter < 96 && fits(quarter);
            match (open, good) {
                (None, true) => open = Some(quarter),
                (Some(from), false) => {
                    let clock = |q: u32| Duration::minutes(f64::from(q) * 15.0);
                    windows.push((clock(from), clock(quarter)));
                    open = None;
                }
                _ => {}
            }
        }
        windows
    }
}

/// Cosine of a part of a half turn.
fn half_turn(part: f64) -> f64 {
    crate::units::Angle::deg(180.0 * part).cos()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_day_turns_at_five_and_fifteen() {
        let forecast = Forecast {
            day: (Temperature::celsius(15.0), Ratio::percent(60.0)),
            night: (Temperature::celsius(7.0), Ratio::percent(86.0)),
        };
        let at = |hour: f64| forecast.at(Duration::hours(hour)).temperature.to_celsius();
        assert!((at(5.0) - 7.0).abs() < 1e-9);
        assert!((at(15.0) - 15.0).abs() < 1e-9);
        assert!((at(10.0) - 11.0).abs() < 1e-9);
        assert!((at(22.0) - 11.0).abs() < 1e-9);
        assert!((at(29.0) - at(5.0)).abs() < 1e-9);
    }

    #[test]
    fn dew_closes_the_night() {
        let forecast = Forecast {
            day: (Temperature::celsius(15.0), Ratio::percent(60.0)),
            night: (Temperature::celsius(7.0), Ratio::percent(90.0)),
        };
        let open = forecast.windows(
            Temperature::celsius(5.0),
            Temperature::celsius(35.0),
            TemperatureRise::k(3.0),
        );
        // What is still open at midnight begins the next day's list.
        assert_eq!(open.len(), 2, "{open:?}");
        let closes = open[0].1;
        assert_eq!((open[0].0, open[1].1), (Duration::ZERO, Duration::hours(24.0)));
        assert!(closes < Duration::hours(5.0) && open[1].0 > Duration::hours(5.0));
        assert!(open[1].0 < Duration::hours(15.0));
    }
}
