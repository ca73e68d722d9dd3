//! Temperatures, their differences and what changes with them.

use super::factors::{CELSIUS_ZERO, FAHRENHEIT_STEP, FAHRENHEIT_ZERO};
use std::ops::{Add, Sub};

scale! {
    /// A temperature, a place on the scale; stored in K.
    Temperature, kind Temperature, shown "°C" by to_celsius;
    "kelvin": k, to_k, 1.0;
}

quantity! {
    /// A difference of temperatures; stored in K.
    TemperatureRise, kind TemperatureRise, shown "K" by to_k;
    "kelvin": k, to_k, 1.0;
    "degrees Fahrenheit of difference": fahrenheit, to_fahrenheit, FAHRENHEIT_STEP;
}

quantity! {
    /// A relative change by kelvin (thermal expansion, drift of a voltage); stored in 1/K.
    PerKelvin, kind PerKelvin, shown "1/K" by to_per_k;
    "1/K": per_k, to_per_k, 1.0;
    "per cent by kelvin": percent_per_k, to_percent_per_k, 1e-2;
    "millionths by kelvin, which is µm/(m·K)": ppm_per_k, to_ppm_per_k, 1e-6;
}

impl Temperature {
    /// From degrees Celsius.
    pub const fn celsius(value: f64) -> Self {
        debug_assert!(value.is_finite(), "a temperature is finite");
        Self(value + CELSIUS_ZERO)
    }

    /// In degrees Celsius, free of the trace that the shift from kelvin leaves in the last places.
    pub fn to_celsius(self) -> f64 {
        tidy(self.0 - CELSIUS_ZERO)
    }

    /// From degrees Fahrenheit.
    pub const fn fahrenheit(value: f64) -> Self {
        debug_assert!(value.is_finite(), "a temperature is finite");
        Self(value * FAHRENHEIT_STEP + FAHRENHEIT_ZERO)
    }

    /// In degrees Fahrenheit, tidied like [`Temperature::to_celsius`].
    pub fn to_fahrenheit(self) -> f64 {
        tidy((self.0 - FAHRENHEIT_ZERO) / FAHRENHEIT_STEP)
    }
}

/// A billionth of a degree is below any meaning; what is smaller comes from 273.15 not being a
/// binary fraction.
fn tidy(degrees: f64) -> f64 {
    (degrees * 1e9).round() / 1e9
}

impl Sub for Temperature {
    type Output = TemperatureRise;
    fn sub(self, other: Self) -> TemperatureRise {
        TemperatureRise(tidy(self.0 - other.0))
    }
}

impl Add<TemperatureRise> for Temperature {
    type Output = Self;
    fn add(self, rise: TemperatureRise) -> Self {
        Self(self.0 + rise.0)
    }
}

impl Sub<TemperatureRise> for Temperature {
    type Output = Self;
    fn sub(self, rise: TemperatureRise) -> Self {
        Self(self.0 - rise.0)
    }
}
