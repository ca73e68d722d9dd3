//! When it is light enough to work on a roof, from the date and the place on the globe.

use crate::units::{Angle, Duration};
use jiff::civil::Date;

/// Hours of light of a day, from and to, with noon at 12:00 of the clock.
///
/// Declination by Cooper 1969, δ = 23.45° sin(360° (284 + n) / 365); cos ω = −tan φ tan δ; the sun is
/// up for 2 ω / 15° hours. Refraction and twilight, some minutes more of light, are left out. Summer
/// time and the place within a time zone shift the hours of the clock; stated hours win.
pub fn hours_of_light(date: Date, latitude: Angle) -> (Duration, Duration) {
    let day = f64::from(date.day_of_year());
    let declination = Angle::deg(23.45 * Angle::deg(360.0 * (284.0 + day) / 365.0).sin());
    let cosine = -latitude.tan() * declination.tan();
    // Beyond the polar circles it is never or always light.
    let half = Angle::acos(cosine.clamp(-1.0, 1.0)).map_or(90.0, Angle::to_deg) / 15.0;
    (Duration::hours(12.0 - half), Duration::hours(12.0 + half))
}
