//! Areas with four corners.

use super::{Point2, Segment2};
use crate::units::Length;

/// A convex area with four corners, told all round in one way or the other.
///
/// ```
/// use rungsheet::geometry::{Point2, Quad};
/// use rungsheet::units::Length;
/// let square = |x: f64| {
///     Quad([(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)].map(|(a, b)| Point2::mm(a + x, b)))
/// };
/// assert_eq!(square(0.0).gap_to(square(25.0)), Length::mm(15.0));
/// assert_eq!(square(0.0).gap_to(square(5.0)), Length::ZERO);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quad(pub [Point2; 4]);

impl Quad {
    /// Its sides.
    pub fn sides(self) -> [Segment2; 4] {
        [0, 1, 2, 3].map(|k| Segment2::new(self.0[k], self.0[(k + 1) % 4]))
    }

    /// Whether a place lies inside or on a side.
    pub fn contains(self, point: Point2) -> bool {
        let turns = self.sides().map(|side| {
            let (way, at) = (side.way(), point - side.from);
            way.x.to_mm() * at.y.to_mm() - way.y.to_mm() * at.x.to_mm()
        });
        turns.iter().all(|turn| *turn >= 0.0) || turns.iter().all(|turn| *turn <= 0.0)
    }

    /// The shortest way between the two; zero where they meet.
    pub fn gap_to(self, other: Self) -> Length {
        if self.contains(other.0[0]) || other.contains(self.0[0]) {
            return Length::ZERO;
        }
        let others = other.sides();
        self.sides()
            .into_iter()
            .flat_map(|side| others.map(|other| side.gap_to(other)))
            .reduce(Length::min)
            .unwrap_or_default()
    }
}
