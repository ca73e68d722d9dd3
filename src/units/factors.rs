//! Conversion factors, in stored units.
//!
//! Exact by definition where marked so: NIST SP 811 (2008), appendix B.8, in which exact factors
//! are printed in bold; the international yard and pound (1959) and standard gravity (3rd CGPM,
//! 1901) stand behind them.

/// Millimetres in an inch, exact.
pub const INCH: f64 = 25.4;
/// Millimetres in a foot, exact.
pub const FOOT: f64 = 12.0 * INCH;
/// Millimetres in a yard, exact.
pub const YARD: f64 = 3.0 * FOOT;
/// Metres in a mile, exact.
pub const MILE_M: f64 = 1609.344;
/// Metres in a nautical mile, exact.
pub const NAUTICAL_MILE_M: f64 = 1852.0;
/// Kilograms in a pound (avoirdupois), exact.
pub const POUND: f64 = 0.453_592_37;
/// Kilograms in an ounce, exact: a sixteenth of a pound.
pub const OUNCE: f64 = POUND / 16.0;
/// Standard gravity in m/s², exact.
pub const GRAVITY: f64 = 9.806_65;
/// Newtons in a pound-force, exact.
pub const POUND_FORCE: f64 = POUND * GRAVITY;
/// Megapascals in a pound-force per square inch: N/mm² from the two definitions.
pub const PSI: f64 = POUND_FORCE / (INCH * INCH);
/// Megapascals in a pound-force per square foot.
pub const PSF: f64 = POUND_FORCE / (FOOT * FOOT);
/// Kilograms per cubic metre in a pound per cubic foot.
pub const POUND_PER_CUBIC_FOOT: f64 = POUND / (FOOT * FOOT * FOOT) * 1e9;
/// Metres per second in a kilometre per hour.
pub const KMH: f64 = 1.0 / 3.6;
/// Metres per second in a mile per hour.
pub const MPH: f64 = MILE_M / HOUR;
/// Metres per second in a knot.
pub const KNOT: f64 = NAUTICAL_MILE_M / HOUR;
/// Seconds in a minute.
pub const MINUTE: f64 = 60.0;
/// Seconds in an hour.
pub const HOUR: f64 = 3600.0;
/// Seconds in a day.
pub const DAY: f64 = 24.0 * HOUR;
/// Kelvin in a degree Fahrenheit of difference, exact.
pub const FAHRENHEIT_STEP: f64 = 5.0 / 9.0;
/// Kelvin at 0 °C, exact.
pub const CELSIUS_ZERO: f64 = 273.15;
/// Kelvin at 0 °F: 459.67 °R, exact.
pub const FAHRENHEIT_ZERO: f64 = 459.67 * FAHRENHEIT_STEP;
