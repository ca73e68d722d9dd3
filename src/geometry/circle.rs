//! Circles.

use super::Point2;
use crate::units::Length;

/// A circle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Circle {
    /// Its middle.
    pub centre: Point2,
    /// From the middle to the rim.
    pub radius: Length,
}

impl Circle {
    /// The circle through three places; `None` when they are in line, two are the same, or so near
    /// to it that the radius passes a kilometre.
    ///
    /// ```
    /// use rungsheet::geometry::{Circle, Point2};
    /// use rungsheet::units::Length;
    /// let found = Circle::through(Point2::mm(5.0, 0.0), Point2::mm(0.0, 5.0), Point2::mm(-5.0, 0.0));
    /// assert_eq!(found, Some(Circle { centre: Point2::ORIGIN, radius: Length::mm(5.0) }));
    /// ```
    pub fn through(a: Point2, b: Point2, c: Point2) -> Option<Self> {
        // Circumcentre of a triangle with its first corner as origin.
        let (u, v) = (b - a, c - a);
        let (uu, vv) = (u.dot(u).to_mm2(), v.dot(v).to_mm2());
        let double = 2.0 * u.cross(v).to_mm2();
        let x = (v.y.to_mm() * uu - u.y.to_mm() * vv) / double;
        let y = (u.x.to_mm() * vv - v.x.to_mm() * uu) / double;
        let radius = x.hypot(y);
        (radius.is_finite() && radius > 0.0 && radius <= 1e6)
            .then(|| Self { centre: a + super::Vec2::mm(x, y), radius: Length::mm(radius) })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{geometry::Vec2, units::Angle};
    use proptest::prelude::*;

    #[test]
    fn places_in_line_have_no_circle() {
        let p = Point2::mm(1.0, 1.0);
        assert_eq!(Circle::through(p, Point2::mm(2.0, 2.0), Point2::mm(3.0, 3.0)), None);
        assert_eq!(Circle::through(p, p, Point2::mm(3.0, 4.0)), None);
        assert_eq!(Circle::through(p, p, p), None);
    }

    proptest! {
        #[test]
        fn three_places_of_a_circle_give_it_back(
            x in -500.0..500.0_f64, y in -500.0..500.0_f64, r in 1.0..5000.0_f64,
            a in 0.0..100.0_f64, b in 120.0..220.0_f64, c in 240.0..340.0_f64,
        ) {
            let centre = Point2::mm(x, y);
            let at = |deg: f64| centre + Vec2::polar(Length::mm(r), Angle::deg(deg));
            let found = Circle::through(at(a), at(b), at(c)).expect("they are not in line");
            prop_assert!(found.radius.is_near(Length::mm(r), Length::mm(1e-6)));
            prop_assert!(found.centre.distance(centre) < Length::mm(1e-6));
        }
    }
}
