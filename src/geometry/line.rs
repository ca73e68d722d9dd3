//! Straight lines without ends.

use super::{Dir3, Point3};
use crate::units::Length;

/// A straight line in space: the axis of a hole, a hinge pin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line3 {
    /// A place on it.
    pub through: Point3,
    /// Which way it goes.
    pub direction: Dir3,
}

impl Line3 {
    /// Through a place in a direction.
    pub const fn new(through: Point3, direction: Dir3) -> Self {
        Self { through, direction }
    }

    /// The place on it nearest to `point`.
    pub fn nearest(self, point: Point3) -> Point3 {
        self.through + self.direction * (point - self.through).along(self.direction)
    }

    /// How far a place is from it.
    pub fn distance(self, point: Point3) -> Length {
        (point - self.through).across(self.direction).length()
    }

    /// The shortest way between two lines, parallel ones included.
    ///
    /// ```
    /// use rungsheet::geometry::{Dir3, Line3, Point3};
    /// use rungsheet::units::Length;
    /// let pin = Line3::new(Point3::ORIGIN, Dir3::X);
    /// let bolt = Line3::new(Point3::mm(40.0, 0.0, 6.0), Dir3::Y);
    /// assert_eq!(pin.gap_to(bolt), Length::mm(6.0));
    /// ```
    pub fn gap_to(self, other: Self) -> Length {
        match self.direction.cross(other.direction) {
            Some(square) => (other.through - self.through).along(square).abs(),
            None => self.distance(other.through),
        }
    }
}
