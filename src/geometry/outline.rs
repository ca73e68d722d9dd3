//! Closed outlines of straight pieces.

use super::{Point2, Rect, Segment2, Vec2};
use crate::units::{Area, Length, SecondMoment};
use std::fmt;

/// A simple polygon: three corners at least, an inside, no piece crossing or touching another one
/// but its neighbours at their common corner. Corners run counter-clockwise (from x towards y)
/// however they were given.
///
/// ```
/// use rungsheet::geometry::{Outline, Point2, Rect};
/// use rungsheet::units::{Area, Length};
/// let pad = Outline::rect(Rect::from_corners(Point2::ORIGIN, Point2::mm(60.0, 40.0))).expect("an area");
/// assert_eq!(pad.area(), Area::mm2(2400.0));
/// assert_eq!(pad.centroid(), Point2::mm(30.0, 20.0));
/// assert_eq!(pad.inside_by(Point2::mm(30.0, 8.0)), Length::mm(8.0));
/// assert_eq!(pad.second_moments().about_x.to_mm4(), 60.0 * 40.0_f64.powi(3) / 12.0);
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    corners: Vec<Point2>,
}

/// Second moments of area about axes through the centroid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SecondMoments {
    /// About the axis along x: ∫ y² dA.
    pub about_x: SecondMoment,
    /// About the axis along y: ∫ x² dA.
    pub about_y: SecondMoment,
    /// Product ∫ x y dA, zero for what is symmetric about either axis.
    pub product: SecondMoment,
}

/// Why corners don't make an outline.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OutlineFault {
    /// Fewer than three corners.
    TooFew,
    /// The corner with this index, counted from 0, lies on the one before.
    Repeated(usize),
    /// The pieces that begin at these two corners, counted from 0, cross or touch.
    Crossing(usize, usize),
    /// All corners are in line.
    NoArea,
}

impl fmt::Display for OutlineFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooFew => f.write_str("an outline needs three corners at least"),
            Self::Repeated(i) => write!(f, "corner {} lies on the one before it", i + 1),
            Self::Crossing(i, j) => {
                write!(f, "the sides that begin at corners {} and {} cross or touch", i + 1, j + 1)
            }
            Self::NoArea => f.write_str("the corners are in line"),
        }
    }
}

impl std::error::Error for OutlineFault {}

impl Outline {
    /// From its corners in order, either way round, the first not repeated at the end.
    ///
    /// # Errors
    /// When they make no simple polygon.
    pub fn new(mut corners: Vec<Point2>) -> Result<Self, OutlineFault> {
        let count = corners.len();
        if count < 3 {
            return Err(OutlineFault::TooFew);
        }
        if let Some(i) = (0..count).find(|i| corners[*i] == corners[(*i + count - 1) % count]) {
            return Err(OutlineFault::Repeated(i));
        }
        let area = signed_area(&corners);
        let line = Segment2::new(corners[0], corners[1]);
        if corners.iter().all(|corner| line.offset(*corner).abs() <= Length::SLACK) {
            return Err(OutlineFault::NoArea);
        }
        let side = |i: usize| Segment2::new(corners[i], corners[(i + 1) % count]);
        for i in 0..count {
            for j in i + 1..count {
                let neighbours = j == i + 1 || (i == 0 && j == count - 1);
                // Neighbours share a corner; they are at fault only when one folds back on the other.
                let fault = if neighbours {
                    let (first, second) =
                        if j == i + 1 { (side(i), side(j)) } else { (side(j), side(i)) };
                    first.way().cross(second.way()).is_zero()
                        && first.way().dot(second.way()) < Area::ZERO
                } else {
                    side(i).meets(side(j))
                };
                if fault {
                    return Err(OutlineFault::Crossing(i, j));
                }
            }
        }
        if area < Area::ZERO {
            corners.reverse();
        }
        Ok(Self { corners })
    }

    /// A rectangle.
    ///
    /// # Errors
    /// When it has no width or no height.
    pub fn rect(rect: Rect) -> Result<Self, OutlineFault> {
        Self::new(rect.corners().to_vec())
    }

    /// Corners, counter-clockwise.
    pub fn corners(&self) -> &[Point2] {
        &self.corners
    }

    /// Sides, counter-clockwise; the inside is on the left of each.
    pub fn sides(&self) -> impl Iterator<Item = Segment2> {
        let next = self.corners.iter().cycle().skip(1);
        self.corners.iter().zip(next).map(|(from, to)| Segment2::new(*from, *to))
    }

    /// Area, by triangles from the first corner.
    pub fn area(&self) -> Area {
        signed_area(&self.corners)
    }

    /// Length of all sides.
    pub fn perimeter(&self) -> Length {
        self.sides().map(Segment2::length).sum()
    }

    /// Middle of the area.
    pub fn centroid(&self) -> Point2 {
        let origin = self.corners[0];
        let double = self.area().to_mm2() * 2.0;
        let (mut x, mut y) = (0.0, 0.0);
        for side in self.sides() {
            let (a, b) = (side.from - origin, side.to - origin);
            let cross = a.cross(b).to_mm2();
            x += (a.x + b.x).to_mm() * cross;
            y += (a.y + b.y).to_mm() * cross;
        }
        origin + Vec2::mm(x, y) / (3.0 * double)
    }

    /// Second moments about the centroid.
    pub fn second_moments(&self) -> SecondMoments {
        let centroid = self.centroid();
        let (mut xx, mut yy, mut xy) = (0.0, 0.0, 0.0);
        for side in self.sides() {
            let (a, b) = (side.from - centroid, side.to - centroid);
            let cross = a.cross(b).to_mm2();
            let (ax, ay, bx, by) = (a.x.to_mm(), a.y.to_mm(), b.x.to_mm(), b.y.to_mm());
            xx += (ay * ay + ay * by + by * by) * cross;
            yy += (ax * ax + ax * bx + bx * bx) * cross;
            xy += (ax * by + 2.0 * ax * ay + 2.0 * bx * by + bx * ay) * cross;
        }
        SecondMoments {
            about_x: SecondMoment::mm4(xx / 12.0),
            about_y: SecondMoment::mm4(yy / 12.0),
            product: SecondMoment::mm4(xy / 24.0),
        }
    }

    /// Whether a place lies inside or on a side.
    pub fn contains(&self, point: Point2) -> bool {
        if self.sides().any(|side| side.distance(point) <= Length::SLACK) {
            return true;
        }
        // Counts the sides that a ray along x crosses; a corner belongs to the side above it.
        let crossed = self.sides().filter(|side| {
            let rises = side.from.y <= point.y && side.to.y > point.y;
            let falls = side.to.y <= point.y && side.from.y > point.y;
            let left = side.way().cross(point - side.from);
            (rises && left > Area::ZERO) || (falls && left < Area::ZERO)
        });
        crossed.count() % 2 == 1
    }

    /// The shortest way from a place to a side.
    pub fn edge_distance(&self, point: Point2) -> Length {
        let mut least: Option<Length> = None;
        for side in self.sides() {
            let distance = side.distance(point);
            least = Some(least.map_or(distance, |least| least.min(distance)));
        }
        least.unwrap_or(Length::ZERO)
    }

    /// Distance from a place to the nearest side: positive inside, negative outside.
    pub fn inside_by(&self, point: Point2) -> Length {
        let distance = self.edge_distance(point);
        if self.contains(point) { distance } else { -distance }
    }

    /// The least rectangle along the axes that holds it.
    pub fn bounds(&self) -> Rect {
        Rect::around(self.corners.iter().copied()).unwrap_or_default()
    }

    /// Shifted.
    #[must_use]
    pub fn moved(&self, way: Vec2) -> Self {
        Self { corners: self.corners.iter().map(|corner| *corner + way).collect() }
    }
}

/// Positive when the corners run counter-clockwise.
fn signed_area(corners: &[Point2]) -> Area {
    let Some(origin) = corners.first() else { return Area::ZERO };
    let double: Area =
        corners.windows(2).map(|pair| (pair[0] - *origin).cross(pair[1] - *origin)).sum();
    double / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Angle;
    use proptest::prelude::*;

    fn outline(corners: &[(f64, f64)]) -> Result<Outline, OutlineFault> {
        Outline::new(corners.iter().map(|(x, y)| Point2::mm(*x, *y)).collect())
    }

    #[test]
    fn what_is_no_simple_polygon_is_refused() {
        assert_eq!(outline(&[(0.0, 0.0), (1.0, 1.0)]), Err(OutlineFault::TooFew));
        assert_eq!(outline(&[(0.0, 0.0), (1.0, 1.0), (2.0, 2.0)]), Err(OutlineFault::NoArea));
        assert_eq!(
            outline(&[(0.0, 0.0), (9.0, 0.0), (9.0, 0.0), (0.0, 9.0)]),
            Err(OutlineFault::Repeated(2))
        );
        assert_eq!(
            outline(&[(0.0, 0.0), (9.0, 9.0), (9.0, 0.0), (0.0, 9.0)]),
            Err(OutlineFault::Crossing(0, 2))
        );
        assert_eq!(
            outline(&[(0.0, 0.0), (9.0, 0.0), (4.0, 0.0), (4.0, 9.0)]),
            Err(OutlineFault::Crossing(0, 1))
        );
    }

    #[test]
    fn a_notch_is_outside() {
        let notched = outline(&[
            (0.0, 0.0),
            (30.0, 0.0),
            (30.0, 30.0),
            (20.0, 30.0),
            (20.0, 10.0),
            (10.0, 10.0),
            (10.0, 30.0),
            (0.0, 30.0),
        ])
        .expect("simple");
        assert_eq!(notched.inside_by(Point2::mm(15.0, 20.0)), Length::mm(-5.0));
        assert_eq!(notched.inside_by(Point2::mm(15.0, 5.0)), Length::mm(5.0));
        assert_eq!(notched.inside_by(Point2::mm(15.0, 10.0)), Length::ZERO);
        assert!(!notched.contains(Point2::mm(-1.0, 10.0)));
        assert_eq!(notched.area(), Area::mm2(700.0));
    }

    /// A star-shaped outline about the origin, so never crossing itself.
    fn star() -> impl Strategy<Value = Outline> {
        proptest::collection::vec(5.0..100.0_f64, 3..12).prop_map(|radii| {
            let turn = 360.0 / radii.len() as f64;
            let corner = |(i, r): (usize, &f64)| {
                Point2::ORIGIN + Vec2::polar(Length::mm(*r), Angle::deg(turn * i as f64))
            };
            Outline::new(radii.iter().enumerate().map(corner).collect()).expect("simple")
        })
    }

    proptest! {
        #[test]
        fn moving_far_changes_no_shape(shape in star(), x in -1e6..1e6_f64, y in -1e6..1e6_f64) {
            let way = Vec2::mm(x, y);
            let moved = shape.moved(way);
            prop_assert!((moved.area() / shape.area() - 1.0).abs() < 1e-6);
            prop_assert!(moved.centroid().distance(shape.centroid() + way) < Length::mm(1e-4));
            let (a, b) = (shape.second_moments(), moved.second_moments());
            prop_assert!((a.about_x / b.about_x - 1.0).abs() < 1e-5);
            prop_assert!((a.about_y / b.about_y - 1.0).abs() < 1e-5);
        }

        #[test]
        fn the_way_round_does_not_matter(shape in star()) {
            let mut corners = shape.corners().to_vec();
            corners.reverse();
            let back = Outline::new(corners).expect("as simple as before");
            prop_assert!((back.area() / shape.area() - 1.0).abs() < 1e-12);
            prop_assert!(back.area() > Area::ZERO);
        }

        #[test]
        fn it_is_the_sum_of_what_a_cut_leaves(shape in star()) {
            // Every triangle from the origin is inside a star about it.
            let triangles: Area = shape
                .sides()
                .map(|s| (s.from - Point2::ORIGIN).cross(s.to - Point2::ORIGIN) / 2.0)
                .sum();
            prop_assert!((triangles / shape.area() - 1.0).abs() < 1e-9);
            prop_assert!(shape.contains(Point2::mm(0.01, 0.01)));
        }
    }
}
