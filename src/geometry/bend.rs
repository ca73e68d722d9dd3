//! One bend in a sheet: how much of the flat it takes.

use crate::units::{Angle, Length};

/// A sheet bent once. Legs are told outside, to where their outer faces would meet.
///
/// ```
/// use rungsheet::geometry::Bend;
/// use rungsheet::units::{Angle, Length};
/// let bend = Bend { thickness: Length::mm(3.0), inside: Length::mm(3.0), through: Angle::RIGHT };
/// assert_eq!(bend.din_k(), 0.65);
/// let flat = bend.flat(Length::mm(50.0), Length::mm(50.0), bend.din_k() / 2.0);
/// assert!(flat.is_near(Length::mm(94.24), Length::mm(0.01)));
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bend {
    /// Thickness of the sheet.
    pub thickness: Length,
    /// Radius on the inside.
    pub inside: Length,
    /// Angle through which a leg is turned: what lacks to straight.
    pub through: Angle,
}

impl Bend {
    /// A bend whose legs stand at this angle to each other.
    pub fn between_legs(thickness: Length, inside: Length, legs: Angle) -> Self {
        Self { thickness, inside, through: Angle::HALF_TURN - legs }
    }

    /// DIN 6935: k = 0.65 + ½ log10(r / s), at most 1 and at least nothing; twice the share of the
    /// thickness at which the neutral line lies from the inside.
    pub fn din_k(self) -> f64 {
        let ratio = self.inside / self.thickness;
        // A sharp corner has no neutral line of its own: the formula goes below nothing there.
        if ratio <= 0.0 { 0.0 } else { (0.65 + 0.5 * ratio.log10()).clamp(0.0, 1.0) }
    }

    /// Length of the neutral line through the bend, φ (r + K s), its place a share K of the thickness
    /// from the inside. DIN 6935 takes K = k / 2.
    #[must_use]
    pub fn allowance(self, share: f64) -> Length {
        (self.inside + self.thickness * share) * self.through.to_rad()
    }

    /// From the end of a leg's straight part to where the outer faces would meet, (r + s) tan(φ/2).
    #[must_use]
    pub fn setback(self) -> Length {
        (self.inside + self.thickness) * (self.through / 2.0).tan()
    }

    /// What is taken off the sum of the outside legs, 2 (r + s) tan(φ/2) − φ (r + K s).
    #[must_use]
    pub fn deduction(self, share: f64) -> Length {
        self.setback() * 2.0 - self.allowance(share)
    }

    /// Flat length of two outside legs.
    #[must_use]
    pub fn flat(self, first: Length, second: Length, share: f64) -> Length {
        first + second - self.deduction(share)
    }
}
