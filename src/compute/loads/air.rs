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

/// Ground that the wind has come over (EN 1991-1-4 table 4.1).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Terrain {
    /// Roughness length z₀.
    pub roughness: Length,
    /// Least height `z_min`; below it the wind of this height counts.
    pub least: Length,
}

impl Terrain {
    /// Category II: open country with single trees.
    pub const OPEN: Self = Self { roughness: Length::m(0.05), least: Length::m(2.0) };
}

/// Wind at a height, EN 1991-1-4 4.3 to 4.5.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gust {
    /// Roughness factor `c_r`.
    pub roughness: f64,
    /// Mean wind over ten minutes.
    pub mean: Speed,
    /// Intensity of turbulence `I_v`.
    pub intensity: f64,
    /// Peak pressure `q_p`.
    pub peak: Pressure,
}

/// Peak pressure of the wind at a height over level ground without hills:
/// k = 0.19 (z₀ / 0.05 m)^0.07, c = k ln(z/z₀), I = 1 / ln(z/z₀), q = (1 + 7 I) ½ ρ (c v)².
pub fn gust(air: Density, basic: Speed, terrain: Terrain, height: Length) -> Gust {
    let log = (height.max(terrain.least) / terrain.roughness).ln();
    let roughness = 0.19 * (terrain.roughness / Terrain::OPEN.roughness).powf(0.07) * log;
    let mean = basic * roughness;
    let intensity = 1.0 / log;
    Gust {
        roughness,
        mean,
        intensity,
        peak: Pressure::dynamic(air, mean) * (1.0 + 7.0 * intensity),
    }
}

/// Dynamic pressure of air that meets the vehicle at its own speed plus a wind from ahead.
pub fn driving_pressure(air: Density, speed: Speed, head_wind: Speed) -> Pressure {
    Pressure::dynamic(air, speed + head_wind)
}

/// Dynamic pressure of air that meets the vehicle at its own speed with a wind square to it:
/// `v_rel`² = v² + w² (vector sum).
pub fn oblique_pressure(air: Density, speed: Speed, cross_wind: Speed) -> Pressure {
    let relative = speed.to_m_per_s().hypot(cross_wind.to_m_per_s());
    Pressure::dynamic(air, Speed::m_per_s(relative))
}
