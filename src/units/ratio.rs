//! Numbers without a unit that are told in per cent.

use super::{
    Acceleration, Angle, Area, Charge, Current, Density, Duration, Energy, Force, Length, LineLoad,
    Mass, Moment, Power, Pressure, Resistance, Speed, TemperatureRise, Voltage, Volume,
};
use std::ops::{Div, Mul};

quantity! {
    /// A part of a whole; stored as a fraction of one.
    Ratio, kind Ratio, shown "%" by to_percent;
    "a fraction of one": of_one, to_fraction, 1.0;
    "per cent": percent, to_percent, 1e-2;
}

impl Ratio {
    /// The whole.
    pub const ONE: Self = Self(1.0);

    /// What is left of the whole.
    #[must_use]
    pub const fn rest(self) -> Self {
        Self(1.0 - self.0)
    }
}

impl Mul for Ratio {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        Self(self.0 * other.0)
    }
}

/// A part of a quantity, and the quantity of which this is the part.
macro_rules! part_of {
    ($($name:ident)*) => {$(
        impl Mul<Ratio> for $name {
            type Output = Self;
            fn mul(self, part: Ratio) -> Self {
                Self(self.0 * part.0)
            }
        }

        impl Mul<$name> for Ratio {
            type Output = $name;
            fn mul(self, whole: $name) -> $name {
                $name(self.0 * whole.0)
            }
        }

        impl Div<Ratio> for $name {
            type Output = Self;
            fn div(self, part: Ratio) -> Self {
                Self(self.0 / part.0)
            }
        }
    )*};
}

part_of! {
    Acceleration Angle Area Charge Current Density Duration Energy Force Length LineLoad Mass
    Moment Power Pressure Resistance Speed TemperatureRise Voltage Volume
}
