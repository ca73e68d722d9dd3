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

#[cfg(test)]
mod tests {
    use super::*;

    /// psychrolib 2.5.0: temperature °C, humidity %, saturation Pa, dew point °C, g/m³.
    const PSYCHROLIB: [(f64, f64, f64, f64, f64); 7] = [
        (23.0, 50.0, 2810.4, 12.028, 10.281),
        (20.0, 70.0, 2338.8, 14.367, 12.101),
        (10.0, 80.0, 1228.0, 6.713, 7.518),
        (30.0, 60.0, 4246.0, 21.388, 18.209),
        (5.0, 90.0, 872.5, 3.498, 6.117),
        (35.0, 30.0, 5627.8, 14.844, 11.872),
        (15.0, 85.0, 1705.4, 12.501, 10.901),
    ];

    #[test]
    fn agrees_with_psychrolib() {
        for (t, rh, es, td, ah) in PSYCHROLIB {
            let (at, humidity) = (Temperature::celsius(t), Ratio::percent(rh));
            assert!((saturation(at).to_pa() / es - 1.0).abs() < 0.004, "es at {t} °C");
            assert!(
                (dew_point(at, humidity).to_celsius() - td).abs() < 0.03,
                "dew point at {t} °C"
            );
            assert!((absolute_humidity(at, humidity) / ah - 1.0).abs() < 0.005, "water at {t} °C");
        }
    }

    #[test]
    fn painters_examples_come_out_as_published() {
        // Painting guide, worked examples of the 3 K rule (ISO 8502-4): 21 °C with a wet bulb of
        // 17 °C gives about 15 °C; 16 °C and 71 % gives 11 °C. Glossary: 30 °C, 55 % gives 20 °C.
        let near =
            |t: f64, rh: f64| dew_point(Temperature::celsius(t), Ratio::percent(rh)).to_celsius();
        assert_eq!(near(16.0, 71.0).round(), 11.0);
        assert_eq!(near(30.0, 55.0).round(), 20.0);
    }
}
