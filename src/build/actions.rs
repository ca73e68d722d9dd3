//! `[loads]`: wind, snow and measured coefficients, where the usual ones do not fit.

use crate::source::{Span, Stated};
use crate::units::{Pressure, Speed};

/// What acts on the array beside its own weight and the road.
#[derive(Debug, Clone)]
pub struct Actions {
    /// Wind from ahead on top of the design speed.
    pub head_wind: Stated<Speed>,
    /// Wind from the side while driving.
    pub cross_wind: Stated<Speed>,
    /// Basic wind speed of the parked storm: mean over ten minutes, 10 m over open country.
    pub storm_wind: Stated<Speed>,
    /// Uplift coefficient of the whole array from a measurement, instead of the table's.
    pub uplift: Option<Uplift>,
    /// Peak pressure of the parked storm from a map or a station, instead of the computed one.
    pub storm_pressure: Option<StormPressure>,
    /// Snow on the ground, where snow is asked for.
    pub snow: Option<Stated<Pressure>>,
    /// Class of the vehicle for crash levels, which are shown as information.
    pub crash: Option<Stated<CrashClass>>,
    /// Place of the table; none where it was not written.
    pub span: Span,
}

/// A measured uplift coefficient.
#[derive(Debug, Clone)]
pub struct Uplift {
    /// Size of it; the air lifts by as many times the dynamic pressure.
    pub coefficient: Stated<f64>,
    /// Where it was measured.
    pub source: Stated<String>,
}

/// A stated storm.
#[derive(Debug, Clone)]
pub struct StormPressure {
    /// Peak pressure of the gusts.
    pub pressure: Stated<Pressure>,
    /// Where it is from.
    pub source: Stated<String>,
}

/// Vehicle classes of ISO 12991 table 1, by the g that a tank on its mounts must stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CrashClass {
    /// Cars and vans to 3.5 t: 20 g along, 8 g across.
    M1N1,
    /// Small buses and lorries to 12 t: 10 g along, 5 g across.
    M2N2,
    /// Heavier ones: 6.6 g along, 5 g across.
    M3N3,
}

impl CrashClass {
    /// As written on the sheets.
    pub const fn name(self) -> &'static str {
        match self {
            Self::M1N1 => "M1, N1",
            Self::M2N2 => "M2, N2",
            Self::M3N3 => "M3, N3",
        }
    }

    /// Levels along and across, in g (ISO 12991 table 1).
    pub const fn levels(self) -> [f64; 2] {
        match self {
            Self::M1N1 => [20.0, 8.0],
            Self::M2N2 => [10.0, 5.0],
            Self::M3N3 => [6.6, 5.0],
        }
    }
}

impl Actions {
    /// What holds where nothing is stated.
    pub const fn usual() -> Self {
        Self {
            head_wind: Stated::default_of(
                Speed::m_per_s(3.0),
                "head wind of a moderate day (Beaufort 3 ends at 5 m/s): common practice",
            ),
            cross_wind: Stated::default_of(
                Speed::m_per_s(8.0),
                "side wind of a fresh day (Beaufort 4 ends at 8 m/s): common practice",
            ),
            storm_wind: Stated::default_of(
                Speed::m_per_s(26.0),
                "basic wind that national maps of EN 1991-1-4 give for open country: common practice",
            ),
            uplift: None,
            storm_pressure: None,
            snow: None,
            crash: None,
            span: Span::NONE,
        }
    }
}
