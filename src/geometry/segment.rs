//! Straight pieces between two places.

use super::{Point2, Point3, Vec2, Vec3};
use crate::units::{Area, Length};

/// A straight piece in a plane.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Segment2 {
    /// Where it begins.
    pub from: Point2,
    /// Where it ends.
    pub to: Point2,
}

/// A straight piece in space.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Segment3 {
    /// Where it begins.
    pub from: Point3,
    /// Where it ends.
    pub to: Point3,
}

impl Segment2 {
    /// Between two places.
    pub const fn new(from: Point2, to: Point2) -> Self {
        Self { from, to }
    }

    /// From begin to end.
    pub fn way(self) -> Vec2 {
        self.to - self.from
    }

    /// How long it is.
    pub fn length(self) -> Length {
        self.way().length()
    }

    /// The place on it nearest to `point`.
    pub fn nearest(self, point: Point2) -> Point2 {
        let way = self.way();
        let square = way.dot(way);
        if square <= Area::ZERO {
            return self.from;
        }
        let part = (way.dot(point - self.from) / square).clamp(0.0, 1.0);
        self.from + way * part
    }

    /// The shortest way from a place.
    pub fn distance(self, point: Point2) -> Length {
        self.nearest(point).distance(point)
    }

    /// Distance of a place from the whole line on which the piece lies: positive on the left, from
    /// x towards y. From a piece without length it is the distance to its place.
    ///
    /// ```
    /// use rungsheet::geometry::{Point2, Segment2};
    /// use rungsheet::units::Length;
    /// let edge = Segment2::new(Point2::mm(0.0, 0.0), Point2::mm(10.0, 0.0));
    /// assert_eq!(edge.offset(Point2::mm(99.0, 4.0)), Length::mm(4.0));
    /// assert_eq!(edge.distance(Point2::mm(13.0, 4.0)), Length::mm(5.0));
    /// ```
    pub fn offset(self, point: Point2) -> Length {
        let length = self.length();
        if length <= Length::ZERO {
            return self.from.distance(point);
        }
        self.way().cross(point - self.from) / length
    }

    /// Whether the two have a place in common, ends included.
    pub fn meets(self, other: Self) -> bool {
        let side = |a: Self, p: Point2| a.way().cross(p - a.from);
        let (a, b) = (side(self, other.from), side(self, other.to));
        let (c, d) = (side(other, self.from), side(other, self.to));
        let apart =
            |p: Area, q: Area| p > Area::ZERO && q < Area::ZERO || p < Area::ZERO && q > Area::ZERO;
        if apart(a, b) && apart(c, d) {
            return true;
        }
        let on = |s: Self, area: Area, p: Point2| {
            area.is_zero()
                && p.x >= s.from.x.min(s.to.x)
                && p.x <= s.from.x.max(s.to.x)
                && p.y >= s.from.y.min(s.to.y)
                && p.y <= s.from.y.max(s.to.y)
        };
        on(self, a, other.from)
            || on(self, b, other.to)
            || on(other, c, self.from)
            || on(other, d, self.to)
    }

    /// The shortest way between the two; zero where they meet.
    pub fn gap_to(self, other: Self) -> Length {
        if self.meets(other) {
            return Length::ZERO;
        }
        self.distance(other.from)
            .min(self.distance(other.to))
            .min(other.distance(self.from))
            .min(other.distance(self.to))
    }
}

impl Segment3 {
    /// Between two places.
    pub const fn new(from: Point3, to: Point3) -> Self {
        Self { from, to }
    }

    /// From begin to end.
    pub fn way(self) -> Vec3 {
        self.to - self.from
    }

    /// How long it is.
    pub fn length(self) -> Length {
        self.way().length()
    }

    /// The place on it nearest to `point`.
    pub fn nearest(self, point: Point3) -> Point3 {
        let way = self.way();
        let square = way.dot(way);
        if square <= Area::ZERO {
            return self.from;
        }
        let part = (way.dot(point - self.from) / square).clamp(0.0, 1.0);
        self.from + way * part
    }

    /// The shortest way from a place.
    pub fn distance(self, point: Point3) -> Length {
        self.nearest(point).distance(point)
    }

    /// The shortest way between the two: the nearest places of the two whole lines where both lie
    /// on the pieces, else from an end.
    pub fn gap_to(self, other: Self) -> Length {
        let ends = self
            .distance(other.from)
            .min(self.distance(other.to))
            .min(other.distance(self.from))
            .min(other.distance(self.to));
        let (u, v, w) = (self.way(), other.way(), self.from - other.from);
        let (uu, uv, vv) = (u.dot(u).to_mm2(), u.dot(v).to_mm2(), v.dot(v).to_mm2());
        let (uw, vw) = (u.dot(w).to_mm2(), v.dot(w).to_mm2());
        let square = uu * vv - uv * uv;
        // Nearly in line, the ends decide.
        if square <= 1e-12 * uu * vv {
            return ends;
        }
        let (s, t) = ((uv * vw - vv * uw) / square, (uu * vw - uv * uw) / square);
        if !(0.0..=1.0).contains(&s) || !(0.0..=1.0).contains(&t) {
            return ends;
        }
        ends.min((self.from + u * s).distance(other.from + v * t))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn piece(a: (f64, f64), b: (f64, f64)) -> Segment2 {
        Segment2::new(Point2::mm(a.0, a.1), Point2::mm(b.0, b.1))
    }

    #[test]
    fn pieces_meet_at_an_end_too() {
        let flat = piece((0.0, 0.0), (10.0, 0.0));
        assert!(flat.meets(piece((5.0, 0.0), (5.0, 5.0))));
        assert!(flat.meets(piece((10.0, 0.0), (20.0, 0.0))));
        assert!(flat.meets(piece((2.0, -1.0), (3.0, 1.0))));
        assert!(!flat.meets(piece((11.0, 0.0), (20.0, 0.0))));
        assert_eq!(flat.gap_to(piece((13.0, 4.0), (20.0, 9.0))), Length::mm(5.0));
    }

    #[test]
    fn skew_pieces_pass_at_their_common_square() {
        let a = Segment3::new(Point3::mm(-5.0, 0.0, 0.0), Point3::mm(5.0, 0.0, 0.0));
        let b = Segment3::new(Point3::mm(0.0, -5.0, 3.0), Point3::mm(0.0, 5.0, 3.0));
        assert_eq!(a.gap_to(b), Length::mm(3.0));
        let far = Segment3::new(Point3::mm(9.0, -5.0, 3.0), Point3::mm(9.0, 5.0, 3.0));
        assert_eq!(a.gap_to(far), Length::mm(5.0));
    }

    proptest! {
        #[test]
        fn no_pair_of_places_is_nearer_than_the_gap(
            c in proptest::array::uniform12(-100.0..100.0_f64), s in 0.0..=1.0_f64, t in 0.0..=1.0_f64,
        ) {
            let a = Segment3::new(Point3::mm(c[0], c[1], c[2]), Point3::mm(c[3], c[4], c[5]));
            let b = Segment3::new(Point3::mm(c[6], c[7], c[8]), Point3::mm(c[9], c[10], c[11]));
            let apart = (a.from + a.way() * s).distance(b.from + b.way() * t);
            prop_assert!(a.gap_to(b) <= apart + Length::SLACK);
        }
    }
}
