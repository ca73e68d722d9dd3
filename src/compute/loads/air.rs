//! Air: density by altitude and temperature, pressure by speed.

use crate::units::{Density, Length, Pressure, Speed, Temperature};

/// Density to use where neither altitude nor temperature is known, EN 1991-1-4:2005, 4.5 note 2.
pub const STANDARD_DENSITY: Density = Density::kg_per_m3(1.25);

/// Gas constant of dry air, J/(kg·K) (ISO 2533:1975).
const GAS_CONSTANT: f64 = 287.052_87;
/// Sea-level temperature in K, pressure in Pa and lapse rate in K/m of the ISO 2533:1975 standard
/// atmosphere, good to 11 000 m.
const SEA_LEVEL: (f64, f64, f64) = (288.15, 101_325.0, 0.0065);
/// g / (R · lapse rate) of the same standard.
const EXPONENT: f64 = 5.255_88;

/// Temperature of the standard atmosphere at an altitude (ISO 2533:1975), up to 11 000 m.
pub fn standard_temperature(altitude: Length) -> Temperature {
    let (base, _, lapse) = SEA_LEVEL;
    Temperature::k(base - lapse * altitude.to_m().clamp(-1000.0, 11_000.0))
}

/// Density of dry air at an altitude of the standard atmosphere and a temperature: p(h) / (R T).
pub fn density(altitude: Length, temperature: Temperature) -> Density {
    let (base, pressure, _) = SEA_LEVEL;
    let ratio = standard_temperature(altitude).to_k() / base;
    Density::kg_per_m3(pressure * ratio.powf(EXPONENT) / (GAS_CONSTANT * temperature.to_k()))
}

/// Dynamic pressure of air that meets the vehicle at its own speed plus a wind from ahead.
pub fn driving_pressure(air: Density, speed: Speed, head_wind: Speed) -> Pressure {
    Pressure::dynamic(air, speed + head_wind)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn density_follows_the_standard_atmosphere() {
        // ISO 2533:1975 values as the open library `fluids` 1.3.1 gives them (ATMOSPHERE_1976).
        for (metres, expected) in [
            (0.0, 1.2250),
            (500.0, 1.1673),
            (1000.0, 1.1117),
            (1500.0, 1.0581),
            (2000.0, 1.0066),
            (2500.0, 0.9570),
            (3000.0, 0.9093),
        ] {
            let altitude = Length::m(metres);
            let got = density(altitude, standard_temperature(altitude)).to_kg_per_m3();
            assert!((got - expected).abs() < 1e-4, "{metres} m: {got}");
        }
    }
}
