//! An arc told by its chord and its rise.

use crate::units::{Angle, Length};

/// A circular arc over a chord, as a roof is told by its width and its crown. Places are told by
/// their distance from the middle of the chord; heights above the chord are positive towards the
/// rise, so a negative rise is a hollow.
///
/// ```
/// use rungsheet::geometry::Crown;
/// use rungsheet::units::Length;
/// let crown = Crown::new(Length::mm(8.0), Length::mm(2.0)).expect("a flat arc");
/// assert_eq!(crown.radius(), Some(Length::mm(5.0)));
/// assert_eq!(crown.height(Length::mm(0.0)), Some(Length::mm(2.0)));
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crown {
    chord: Length,
    rise: Length,
}

impl Crown {
    /// `None` unless the chord is positive and the arc at most half a circle.
    pub fn new(chord: Length, rise: Length) -> Option<Self> {
        (chord > Length::ZERO && chord.is_finite() && rise.abs() <= chord / 2.0)
            .then_some(Self { chord, rise })
    }

    /// The arc of this radius over a chord, rising; `None` when the chord doesn't go into the circle.
    pub fn with_radius(chord: Length, radius: Length) -> Option<Self> {
        let (half, r) = (chord.to_mm() / 2.0, radius.to_mm());
        // h = R − √(R² − c²/4), written so that a flat arc keeps its digits.
        let rise = half * half / (r + (r * r - half * half).sqrt());
        if rise.is_finite() { Self::new(chord, Length::mm(rise)) } else { None }
    }

    /// The straight way from end to end.
    pub const fn chord(self) -> Length {
        self.chord
    }

    /// Height of the middle above the chord.
    pub const fn rise(self) -> Length {
        self.rise
    }

    /// Radius R = h/2 + c²/(8h); `None` for a flat one. Positive for a hollow too.
    pub fn radius(self) -> Option<Length> {
        let (c, h) = (self.chord.to_mm(), self.rise.to_mm().abs());
        let radius = h / 2.0 + c * c / (8.0 * h);
        radius.is_finite().then(|| Length::mm(radius))
    }

    /// Half of the angle that the arc spans, asin(c / 2R) = 2 atan(2h / c): also the slope at its
    /// ends.
    #[must_use]
    pub fn half_angle(self) -> Angle {
        Angle::atan(2.0 * self.rise.abs() / self.chord) * 2.0
    }

    /// Length of the arc, 2 R asin(c / 2R).
    #[must_use]
    pub fn arc_length(self) -> Length {
        self.radius().map_or(self.chord, |radius| radius * (2.0 * self.half_angle().to_rad()))
    }

    /// Height above the chord at a distance from its middle, y = √(R² − x²) − (R − h); below the
    /// chord it goes on along the same circle. `None` beyond the circle.
    pub fn height(self, from_middle: Length) -> Option<Length> {
        let Some(radius) = self.radius() else { return Some(Length::ZERO) };
        let (r, x) = (radius.to_mm(), from_middle.to_mm());
        let root = r * r - x * x;
        // The same with √(R² − x²) − R = −x²/(R + √(R² − x²)), which keeps its digits when R is large.
        let drop = x * x / (r + root.max(0.0).sqrt());
        let sign = if self.rise < Length::ZERO { -1.0 } else { 1.0 };
        (root >= 0.0).then(|| self.rise - Length::mm(sign * drop))
    }

    /// Slope there, rise over run: negative where it falls with growing distance. `None` at the rim
    /// of the circle and beyond.
    pub fn slope(self, from_middle: Length) -> Option<f64> {
        let Some(radius) = self.radius() else { return Some(0.0) };
        let (r, x) = (radius.to_mm(), from_middle.to_mm());
        let root = r * r - x * x;
        let sign = if self.rise < Length::ZERO { 1.0 } else { -1.0 };
        (root > 0.0).then(|| sign * x / root.sqrt())
    }

    /// How much the radius changes when the rise was read wrong by a little,
    /// dR = (1/2 − c²/(8h²)) dh; `None` for a flat one.
    pub fn radius_error(self, rise_error: Length) -> Option<Length> {
        let ratio = self.chord / self.rise;
        let factor = 0.5 - ratio * ratio / 8.0;
        factor.is_finite().then(|| rise_error * factor)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_is_no_arc_is_refused() {
        assert_eq!(Crown::new(Length::ZERO, Length::ZERO), None);
        assert_eq!(Crown::new(Length::mm(10.0), Length::mm(5.1)), None);
        assert_eq!(Crown::with_radius(Length::mm(10.0), Length::mm(4.0)), None);
    }

    #[test]
    fn a_flat_roof_has_no_radius() {
        let flat = Crown::new(Length::mm(1500.0), Length::ZERO).expect("flat is fine");
        assert_eq!(flat.radius(), None);
        assert_eq!(flat.arc_length(), Length::mm(1500.0));
        assert_eq!(flat.height(Length::mm(700.0)), Some(Length::ZERO));
        assert_eq!(flat.slope(Length::mm(700.0)), Some(0.0));
    }

    proptest! {
        #[test]
        fn the_ends_lie_on_the_chord(c in 100.0..3000.0_f64, part in -0.5..0.5_f64) {
            let crown = Crown::new(Length::mm(c), Length::mm(c * part)).expect("at most half a circle");
            let end = crown.height(crown.chord() / 2.0).expect("the end lies on the circle");
            prop_assert!(end.abs() < Length::mm(1e-6), "{end:?}");
        }

        #[test]
        fn radius_and_rise_give_each_other(c in 100.0..3000.0_f64, r in 0.5..50.0_f64) {
            let crown = Crown::with_radius(Length::mm(c), Length::mm(c * r)).expect("it goes in");
            let back = crown.radius().expect("it isn't flat");
            prop_assert!((back / Length::mm(c * r) - 1.0).abs() < 1e-9);
        }

        #[test]
        fn the_slope_is_that_of_the_height(c in 500.0..3000.0_f64, part in 0.01..0.3_f64, at in -0.45..0.45_f64) {
            let crown = Crown::new(Length::mm(c), Length::mm(c * part)).expect("at most half a circle");
            let x = Length::mm(c * at);
            let step = Length::mm(0.01);
            let rise = crown.height(x + step).expect("inside") - crown.height(x - step).expect("inside");
            let slope = crown.slope(x).expect("inside");
            prop_assert!((rise / (step * 2.0) - slope).abs() < 1e-6);
        }
    }
}
