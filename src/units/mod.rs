//! Quantities with their units.
//!
//! Takes numbers with a unit at the edges (the build file, tables), gives small `Copy` types that
//! the compiler keeps apart, and text for paper. Inside, only this module knows what is stored:
//! mm, N, `MPa`, kg, s, K, rad, V, A.
//!
//! ```
//! use rungsheet::units::{Area, Force, Length, Pressure};
//! let pad: Area = Length::mm(50.0) * Length::mm(60.0);
//! let stress: Pressure = Force::n(255.0) / pad;
//! assert_eq!(stress.to_kpa(), 85.0);
//! ```
//!
//! A length can't be added to a force:
//!
//! ```compile_fail
//! use rungsheet::units::{Force, Length};
//! let nonsense = Length::mm(1.0) + Force::n(1.0);
//! ```
//!
//! A temperature is a place on a scale, so two of them have a difference but no sum:
//!
//! ```
//! use rungsheet::units::{Temperature, TemperatureRise};
//! let rise: TemperatureRise = Temperature::celsius(70.0) - Temperature::celsius(20.0);
//! assert_eq!(rise, TemperatureRise::k(50.0));
//! ```
#[macro_use]
mod quantity;

mod angle;
mod area;
pub mod display;
mod electric;
mod factors;
mod force;
mod length;
mod mass;
mod money;
mod motion;
pub mod parse;
mod pressure;
mod products;
mod ratio;
mod temperature;
mod unit;

pub use angle::Angle;
pub use area::{Area, SecondMoment, SectionModulus, Volume};
pub use electric::{Charge, Current, Energy, LinearResistance, Power, Resistance, Voltage};
pub use force::{Force, LineLoad, Moment, Torque};
pub use length::Length;
pub use mass::{Density, LinearMass, Mass};
pub use money::{Money, MoneyFault};
pub use motion::{Acceleration, Duration, STANDARD_GRAVITY, Speed};
pub use parse::{QuantityFault, QuantityFaultKind, parse};
pub use pressure::Pressure;
pub use quantity::Quantity;
pub use ratio::Ratio;
pub use temperature::{PerKelvin, Temperature, TemperatureRise};
pub use unit::{Kind, Unit};
