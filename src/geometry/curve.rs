//! A smooth curve through measured places that shows no hump which nobody measured.

use crate::units::{Angle, Length};
use std::fmt;

/// A shape-preserving cubic through places with growing x: between two places it never leaves the
/// range of their heights, and it is smooth in slope. At an end it goes on straight.
///
/// Slopes at the places: F. N. Fritsch and J. Butland, *A method for constructing local monotone
/// piecewise cubic interpolants*, SIAM J. Sci. Stat. Comput. 5 (1984) 300–304 (a weighted harmonic
/// mean of the slopes on both sides); ends by the three-point formula of C. Moler, *Numerical
/// Computing with MATLAB*, 2004, chapter 3.
///
/// ```
/// use rungsheet::geometry::Curve;
/// use rungsheet::units::Length;
/// let heights = [(0.0, 0.0), (400.0, 22.0), (800.0, 30.0)];
/// let roof = Curve::through(heights.map(|(x, y)| (Length::mm(x), Length::mm(y)))).expect("in order");
/// assert_eq!(roof.height(Length::mm(400.0)), Length::mm(22.0));
/// assert!(roof.slope(Length::mm(200.0)) > 0.0);
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    knots: Vec<Knot>,
}

/// A place and the slope there; mm.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Knot {
    x: f64,
    y: f64,
    slope: f64,
}

/// Why no curve goes through the places.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CurveFault {
    /// Fewer than two places.
    TooFew,
    /// The place with this index, counted from 0, doesn't lie beyond the one before.
    NotGrowing(usize),
}

impl fmt::Display for CurveFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooFew => f.write_str("a curve needs two places at least"),
            Self::NotGrowing(index) => {
                write!(f, "place {} does not lie beyond place {index}", index + 1)
            }
        }
    }
}

impl std::error::Error for CurveFault {}

impl Curve {
    /// Through places (distance, height).
    ///
    /// # Errors
    /// When there are fewer than two, or their distances don't grow.
    pub fn through(places: impl IntoIterator<Item = (Length, Length)>) -> Result<Self, CurveFault> {
        let mut knots: Vec<Knot> = places
            .into_iter()
            .map(|(x, y)| Knot { x: x.to_mm(), y: y.to_mm(), slope: 0.0 })
            .collect();
        if knots.len() < 2 {
            return Err(CurveFault::TooFew);
        }
        let steps: Vec<f64> = knots.windows(2).map(|pair| pair[1].x - pair[0].x).collect();
        if let Some(index) = steps.iter().position(|step| *step <= 0.0 || step.is_nan()) {
            return Err(CurveFault::NotGrowing(index + 1));
        }
        let slopes: Vec<f64> = knots
            .windows(2)
            .zip(&steps)
            .map(|(pair, step)| (pair[1].y - pair[0].y) / step)
            .collect();
        let last = slopes.len() - 1;
        for (i, knot) in knots.iter_mut().enumerate() {
            knot.slope = if last == 0 {
                slopes[0]
            } else if i == 0 {
                end_slope(steps[0], steps[1], slopes[0], slopes[1])
            } else if i > last {
                end_slope(steps[last], steps[last - 1], slopes[last], slopes[last - 1])
            } else {
                inner_slope(steps[i - 1], steps[i], slopes[i - 1], slopes[i])
            };
        }
        Ok(Self { knots })
    }

    /// Distance of the first place.
    pub fn start(&self) -> Length {
        self.knots.first().map_or(Length::ZERO, |knot| Length::mm(knot.x))
    }

    /// Distance of the last place.
    pub fn end(&self) -> Length {
        self.knots.last().map_or(Length::ZERO, |knot| Length::mm(knot.x))
    }

    /// Whether the curve was measured there; beyond its ends it is only drawn on.
    pub fn covers(&self, x: Length) -> bool {
        x >= self.start() && x <= self.end()
    }

    /// Height.
    pub fn height(&self, x: Length) -> Length {
        Length::mm(self.evaluate(x).0)
    }

    /// Slope, rise over run.
    pub fn slope(&self, x: Length) -> f64 {
        self.evaluate(x).1
    }

    /// Slope as an angle, positive where it rises.
    pub fn slope_angle(&self, x: Length) -> Angle {
        Angle::atan(self.slope(x))
    }

    /// Curvature κ = y″ / (1 + y′²)^(3/2) in 1/mm, positive where it is hollow seen from above (the
    /// slope grows). It jumps at a place; the piece that begins there counts.
    pub fn curvature(&self, x: Length) -> f64 {
        let (_, slope, bend) = self.evaluate(x);
        bend / (1.0 + slope * slope).powf(1.5)
    }

    /// Second derivative of the height in 1/mm, under the same rule as [`Curve::curvature`].
    pub fn bend(&self, x: Length) -> f64 {
        self.evaluate(x).2
    }

    /// Height, slope and second derivative.
    fn evaluate(&self, x: Length) -> (f64, f64, f64) {
        let x = x.to_mm();
        let [first, .., last] = self.knots.as_slice() else {
            return (0.0, 0.0, 0.0);
        };
        let straight_from = |end: &Knot| (end.y + end.slope * (x - end.x), end.slope, 0.0);
        if x < first.x {
            return straight_from(first);
        }
        if x > last.x {
            return straight_from(last);
        }
        let after = self.knots.partition_point(|knot| knot.x <= x).clamp(1, self.knots.len() - 1);
        let (a, b) = (self.knots[after - 1], self.knots[after]);
        // Cubic Hermite piece: y = a.y + t (a.slope + t (c + t d)), t = x − a.x.
        let step = b.x - a.x;
        let chord = (b.y - a.y) / step;
        let excess = (a.slope + b.slope - 2.0 * chord) / step;
        let c = (chord - a.slope) / step - excess;
        let d = excess / step;
        let t = x - a.x;
        (
            a.y + t * (a.slope + t * (c + t * d)),
            a.slope + t * (2.0 * c + t * 3.0 * d),
            2.0 * c + 6.0 * d * t,
        )
    }
}

/// Weighted harmonic mean of the slopes on both sides; level at a top, a bottom or a flat.
fn inner_slope(step_before: f64, step: f64, before: f64, after: f64) -> f64 {
    if before * after <= 0.0 {
        return 0.0;
    }
    let near = 2.0 * step + step_before;
    let far = step + 2.0 * step_before;
    (near + far) / (near / before + far / after)
}

/// One-sided three-point slope, held level against the first piece's direction and to three times
/// its slope where the direction turns.
fn end_slope(step: f64, next_step: f64, own: f64, next: f64) -> f64 {
    let slope = ((2.0 * step + next_step) * own - step * next) / (step + next_step);
    if sign(slope) != sign(own) {
        0.0
    } else if sign(own) != sign(next) && slope.abs() > 3.0 * own.abs() {
        3.0 * own
    } else {
        slope
    }
}

/// −1, 0 or 1; `f64::signum` has no zero.
fn sign(value: f64) -> i8 {
    i8::from(value > 0.0) - i8::from(value < 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn curve(places: &[(f64, f64)]) -> Curve {
        Curve::through(places.iter().map(|(x, y)| (Length::mm(*x), Length::mm(*y))))
            .expect("places in order")
    }

    #[test]
    fn places_out_of_order_are_refused() {
        let places =
            [(0.0, 0.0), (5.0, 1.0), (5.0, 2.0)].map(|(x, y)| (Length::mm(x), Length::mm(y)));
        assert_eq!(Curve::through(places), Err(CurveFault::NotGrowing(2)));
        assert_eq!(Curve::through(places[..1].to_vec()), Err(CurveFault::TooFew));
    }

    #[test]
    fn two_places_make_a_straight_line_that_goes_on() {
        let line = curve(&[(0.0, 0.0), (10.0, 5.0)]);
        for x in [-4.0, 0.0, 3.0, 10.0, 14.0] {
            assert!((line.height(Length::mm(x)).to_mm() - x / 2.0).abs() < 1e-12);
            assert_eq!(line.slope(Length::mm(x)), 0.5);
        }
        assert!(!line.covers(Length::mm(-4.0)) && line.covers(Length::mm(10.0)));
    }

    proptest! {
        #[test]
        fn between_two_places_it_keeps_to_their_heights(
            steps in proptest::collection::vec((1.0..500.0_f64, -80.0..80.0_f64), 2..9),
            part in 0.0..=1.0_f64,
        ) {
            let mut x = 0.0;
            let places: Vec<(f64, f64)> = steps.iter().map(|(step, y)| { x += step; (x, *y) }).collect();
            let curve = curve(&places);
            for pair in places.windows(2) {
                let (a, b) = (pair[0], pair[1]);
                let y = curve.height(Length::mm(a.0 + (b.0 - a.0) * part)).to_mm();
                prop_assert!(y >= a.1.min(b.1) - 1e-9 && y <= a.1.max(b.1) + 1e-9);
            }
        }

        #[test]
        fn slope_and_bend_are_derivatives(
            ys in proptest::collection::vec(-50.0..50.0_f64, 4), part in 0.05..0.95_f64, piece in 0..3_usize,
        ) {
            let places: Vec<(f64, f64)> = ys.iter().enumerate().map(|(i, y)| (i as f64 * 100.0, *y)).collect();
            let curve = curve(&places);
            let x = (piece as f64 + part) * 100.0;
            let at = |shift: f64| Length::mm(x + shift);
            let slope = (curve.height(at(0.01)) - curve.height(at(-0.01))) / Length::mm(0.02);
            prop_assert!((slope - curve.slope(at(0.0))).abs() < 1e-6);
            let bend = (curve.slope(at(0.01)) - curve.slope(at(-0.01))) / 0.02;
            prop_assert!((bend - curve.bend(at(0.0))).abs() < 1e-6);
        }
    }
}
