//! Moist air: vapour pressure and dew point.

use crate::units::{Pressure, Ratio, Temperature};

/// Magnus coefficients over water of Alduchov and Eskridge 1996, −40 °C to 50 °C: hPa, –, °C.
const MAGNUS: (f64, f64, f64) = (6.1094, 17.625, 243.04);

/// Vapour pressure of saturated air over water, Magnus form.
pub fn saturation(at: Temperature) -> Pressure {
    let (a, b, c) = MAGNUS;
    let t = at.to_celsius().max(-80.0);
    Pressure::hpa(a * (b * t / (c + t)).exp())
}

/// Vapour pressure at a relative humidity.
pub fn vapour(at: Temperature, humidity: Ratio) -> Pressure {
    saturation(at) * humidity.to_fraction()
}

/// Temperature at which dew forms, Magnus form. Humidity is taken as at least 1 %.
pub fn dew_point(at: Temperature, humidity: Ratio) -> Temperature {
    let (_, b, c) = MAGNUS;
    let t = at.to_celsius().max(-80.0);
    let g = humidity.to_fraction().clamp(0.01, 1.0).ln() + b * t / (c + t);
    Temperature::celsius(c * g / (b - g))
}

/// Mass of water in a volume of air, g/m³: e / (Rv T) with Rv = 461.5 J/(kg·K).
pub fn absolute_humidity(at: Temperature, humidity: Ratio) -> f64 {
    vapour(at, humidity).to_pa() / (461.5 * at.to_k()) * 1000.0
}
