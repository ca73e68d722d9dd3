//! What every quantity can do, in one macro.

use super::unit::Kind;

/// A quantity that can be read with a unit and written with one.
pub trait Quantity: Copy + Sized {
    /// What it measures.
    const KIND: Kind;
    /// From the stored unit (see [`super`]). Infinite or NaN values break an invariant.
    fn from_stored(value: f64) -> Self;
    /// In the stored unit.
    fn stored(self) -> f64;
}

/// Writes `value` rounded to six significant figures without trailing zeros: enough for a message,
/// never so many digits that they hide the number. `Formatter::precision` sets decimals instead.
pub(super) fn write_short(
    f: &mut std::fmt::Formatter<'_>,
    value: f64,
    symbol: &str,
) -> std::fmt::Result {
    let gap = if symbol == "°" || symbol.is_empty() { "" } else { " " };
    if let Some(decimals) = f.precision() {
        return write!(f, "{value:.decimals$}{gap}{symbol}");
    }
    write!(f, "{}{gap}{symbol}", super::display::plain(value, 6))
}

/// The frame of a quantity: the type, its constructors and readers, and what needs no sense of
/// direction or scale (order, zero, text).
macro_rules! scale {
    (
        $(#[$doc:meta])*
        $name:ident, kind $kind:ident, shown $symbol:literal by $shown:ident;
        $($unit:literal: $from:ident, $to:ident, $factor:expr;)*
    ) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Default, PartialEq, PartialOrd)]
        pub struct $name(pub(super) f64);

        impl $name {
            $(
                #[doc = concat!("From ", $unit, ".")]
                pub const fn $from(value: f64) -> Self {
                    debug_assert!(value.is_finite(), "a quantity is finite");
                    Self(value * $factor)
                }

                #[doc = concat!("In ", $unit, ".")]
                pub const fn $to(self) -> f64 {
                    self.0 / $factor
                }
            )*

            /// Total order; no value is NaN, so it agrees with `<`.
            pub fn total_cmp(&self, other: &Self) -> std::cmp::Ordering {
                self.0.total_cmp(&other.0)
            }

            /// The lesser of the two.
            #[must_use]
            pub const fn min(self, other: Self) -> Self {
                if other.0 < self.0 { other } else { self }
            }

            /// The greater of the two.
            #[must_use]
            pub const fn max(self, other: Self) -> Self {
                if other.0 > self.0 { other } else { self }
            }

            /// Neither NaN nor infinite, as after a division by nothing.
            pub const fn is_finite(self) -> bool {
                self.0.is_finite()
            }
        }

        impl $crate::units::Quantity for $name {
            const KIND: $crate::units::Kind = $crate::units::Kind::$kind;

            fn from_stored(value: f64) -> Self {
                debug_assert!(value.is_finite(), "a quantity is finite");
                Self(value)
            }

            fn stored(self) -> f64 {
                self.0
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                $crate::units::quantity::write_short(f, self.$shown(), $symbol)
            }
        }

        impl std::fmt::Debug for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                write!(f, "{:?} {}", self.$shown(), $symbol)
            }
        }

        #[doc = concat!("As a number in ", $symbol, ".")]
        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
                to.serialize_f64(self.$shown())
            }
        }
    };
}

/// A quantity that adds up: `+ − neg`, `× ÷` number, `÷` itself, order, sum.
macro_rules! quantity {
    (
        $(#[$doc:meta])*
        $name:ident, kind $kind:ident, shown $symbol:literal by $shown:ident;
        $($unit:literal: $from:ident, $to:ident, $factor:expr;)*
    ) => {
        scale! {
            $(#[$doc])*
            $name, kind $kind, shown $symbol by $shown;
            $($unit: $from, $to, $factor;)*
        }

        impl $name {
            /// Nothing.
            pub const ZERO: Self = Self(0.0);

            /// Without its sign.
            #[must_use]
            pub const fn abs(self) -> Self {
                Self(self.0.abs())
            }

            /// Kept between `least` and `most`; `least` wins where they cross.
            #[must_use]
            pub const fn clamp(self, least: Self, most: Self) -> Self {
                self.min(most).max(least)
            }

            /// Whether the two differ by no more than `slack`.
            pub fn is_near(self, other: Self, slack: Self) -> bool {
                (self.0 - other.0).abs() <= slack.0
            }

            /// Exactly zero.
            pub const fn is_zero(self) -> bool {
                self.0 == 0.0
            }
        }

        impl std::ops::Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl std::ops::Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }

        impl std::ops::AddAssign for $name {
            fn add_assign(&mut self, other: Self) {
                self.0 += other.0;
            }
        }

        impl std::ops::SubAssign for $name {
            fn sub_assign(&mut self, other: Self) {
                self.0 -= other.0;
            }
        }

        impl std::ops::Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }

        impl std::ops::Mul<f64> for $name {
            type Output = Self;
            fn mul(self, number: f64) -> Self {
                Self(self.0 * number)
            }
        }

        impl std::ops::Mul<$name> for f64 {
            type Output = $name;
            fn mul(self, quantity: $name) -> $name {
                $name(self * quantity.0)
            }
        }

        impl std::ops::Div<f64> for $name {
            type Output = Self;
            fn div(self, number: f64) -> Self {
                Self(self.0 / number)
            }
        }

        impl std::ops::Div for $name {
            type Output = f64;
            fn div(self, other: Self) -> f64 {
                self.0 / other.0
            }
        }

        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(items: I) -> Self {
                items.fold(Self::ZERO, |total, item| total + item)
            }
        }

        impl<'a> std::iter::Sum<&'a $name> for $name {
            fn sum<I: Iterator<Item = &'a Self>>(items: I) -> Self {
                items.copied().sum()
            }
        }
    };
}
