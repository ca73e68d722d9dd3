//! Rectangles along the axes.

use super::{Point2, Vec2};
use crate::units::{Area, Length};
use serde::Serialize;
use std::ops::{Add, Sub};

/// A rectangle along the axes; its low corner never lies beyond its high corner.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Rect {
    low: Point2,
    high: Point2,
}

/// Distances from the four sides of a rectangle. Positive is outwards when added to a rectangle
/// and inwards when taken from it.
///
/// ```
/// use rungsheet::geometry::{Insets, Point2, Rect};
/// use rungsheet::units::Length;
/// let panel = Rect::from_corners(Point2::mm(0.0, 0.0), Point2::mm(1000.0, 500.0));
/// let clear = panel - Insets::all(Length::mm(20.0));
/// assert_eq!(clear.width(), Length::mm(960.0));
/// assert_eq!(panel - clear, Insets::all(Length::mm(20.0)));
/// assert_eq!(clear + Insets::all(Length::mm(20.0)), panel);
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Insets {
    /// At the side of least x.
    pub x_low: Length,
    /// At the side of greatest x.
    pub x_high: Length,
    /// At the side of least y.
    pub y_low: Length,
    /// At the side of greatest y.
    pub y_high: Length,
}

impl Insets {
    /// The same on all sides.
    pub const fn all(distance: Length) -> Self {
        Self { x_low: distance, x_high: distance, y_low: distance, y_high: distance }
    }

    /// One distance for both sides of each axis.
    pub const fn each(x: Length, y: Length) -> Self {
        Self { x_low: x, x_high: x, y_low: y, y_high: y }
    }
}

impl Rect {
    /// Between any two opposite corners.
    pub const fn from_corners(a: Point2, b: Point2) -> Self {
        Self {
            low: Point2::new(a.x.min(b.x), a.y.min(b.y)),
            high: Point2::new(a.x.max(b.x), a.y.max(b.y)),
        }
    }

    /// From a corner and a size; a negative size reaches the other way.
    #[must_use]
    pub fn from_size(corner: Point2, width: Length, height: Length) -> Self {
        Self::from_corners(corner, corner + Vec2::new(width, height))
    }

    /// About its middle.
    #[must_use]
    pub fn about(centre: Point2, width: Length, height: Length) -> Self {
        Self::from_size(centre - Vec2::new(width, height) / 2.0, width, height)
    }

    /// The least that holds all points; `None` for no points.
    pub fn around(points: impl IntoIterator<Item = Point2>) -> Option<Self> {
        let mut points = points.into_iter();
        let first = points.next()?;
        Some(points.fold(Self { low: first, high: first }, Self::reaching))
    }

    fn reaching(self, point: Point2) -> Self {
        Self {
            low: Point2::new(self.low.x.min(point.x), self.low.y.min(point.y)),
            high: Point2::new(self.high.x.max(point.x), self.high.y.max(point.y)),
        }
    }

    /// Corner of least x and y.
    pub const fn low(self) -> Point2 {
        self.low
    }

    /// Corner of greatest x and y.
    pub const fn high(self) -> Point2 {
        self.high
    }

    /// Size along x.
    pub fn width(self) -> Length {
        self.high.x - self.low.x
    }

    /// Size along y.
    pub fn height(self) -> Length {
        self.high.y - self.low.y
    }

    /// Both sizes.
    pub fn size(self) -> Vec2 {
        self.high - self.low
    }

    /// The middle.
    pub fn centre(self) -> Point2 {
        self.low.midpoint(self.high)
    }

    /// Width times height.
    pub fn area(self) -> Area {
        self.width() * self.height()
    }

    /// Corners from the lowest, counter-clockwise when x goes right and y up.
    pub const fn corners(self) -> [Point2; 4] {
        [
            self.low,
            Point2::new(self.high.x, self.low.y),
            self.high,
            Point2::new(self.low.x, self.high.y),
        ]
    }

    /// Whether a place lies inside or on a side.
    pub fn contains(self, point: Point2) -> bool {
        self.inside_by(point) >= Length::ZERO
    }

    /// Whether another rectangle lies inside, sides included.
    pub fn contains_rect(self, other: Self) -> bool {
        self.contains(other.low) && self.contains(other.high)
    }

    /// Distance from a place to the nearest side: positive inside, negative outside.
    ///
    /// ```
    /// use rungsheet::geometry::{Point2, Rect};
    /// use rungsheet::units::Length;
    /// let plate = Rect::from_corners(Point2::mm(0.0, 0.0), Point2::mm(40.0, 40.0));
    /// assert_eq!(plate.inside_by(Point2::mm(8.0, 20.0)), Length::mm(8.0));
    /// assert_eq!(plate.inside_by(Point2::mm(-3.0, 44.0)), Length::mm(-5.0));
    /// ```
    pub fn inside_by(self, point: Point2) -> Length {
        let x = (point.x - self.low.x).min(self.high.x - point.x);
        let y = (point.y - self.low.y).min(self.high.y - point.y);
        if x < Length::ZERO && y < Length::ZERO { -x.hypot(y) } else { x.min(y) }
    }

    /// Whether the insides of the two meet; touching sides don't.
    pub fn overlaps(self, other: Self) -> bool {
        self.low.x < other.high.x
            && other.low.x < self.high.x
            && self.low.y < other.high.y
            && other.low.y < self.high.y
    }

    /// What both cover; `None` unless they touch at least.
    pub fn intersection(self, other: Self) -> Option<Self> {
        let low = Point2::new(self.low.x.max(other.low.x), self.low.y.max(other.low.y));
        let high = Point2::new(self.high.x.min(other.high.x), self.high.y.min(other.high.y));
        (low.x <= high.x && low.y <= high.y).then_some(Self { low, high })
    }

    /// The least that holds both.
    #[must_use]
    pub fn union(self, other: Self) -> Self {
        self.reaching(other.low).reaching(other.high)
    }

    /// The shortest way between the two; zero where they meet.
    pub fn gap_to(self, other: Self) -> Length {
        let apart = |a_low: Length, a_high: Length, b_low: Length, b_high: Length| {
            (b_low - a_high).max(a_low - b_high).max(Length::ZERO)
        };
        let x = apart(self.low.x, self.high.x, other.low.x, other.high.x);
        let y = apart(self.low.y, self.high.y, other.low.y, other.high.y);
        x.hypot(y)
    }

    /// Smaller by the insets; `None` when nothing is left.
    pub fn shrink(self, by: Insets) -> Option<Self> {
        let low = self.low + Vec2::new(by.x_low, by.y_low);
        let high = self.high - Vec2::new(by.x_high, by.y_high);
        (low.x <= high.x && low.y <= high.y).then_some(Self { low, high })
    }
}

impl Add<Vec2> for Rect {
    type Output = Self;
    fn add(self, way: Vec2) -> Self {
        Self { low: self.low + way, high: self.high + way }
    }
}

/// Larger by the insets.
impl Add<Insets> for Rect {
    type Output = Self;
    fn add(self, by: Insets) -> Self {
        self - Insets { x_low: -by.x_low, x_high: -by.x_high, y_low: -by.y_low, y_high: -by.y_high }
    }
}

/// Smaller by the insets; sides that would pass each other meet half way.
impl Sub<Insets> for Rect {
    type Output = Self;
    fn sub(self, by: Insets) -> Self {
        let meet = |low: Length, high: Length| {
            if low <= high { (low, high) } else { ((low + high) / 2.0, (low + high) / 2.0) }
        };
        let (x_low, x_high) = meet(self.low.x + by.x_low, self.high.x - by.x_high);
        let (y_low, y_high) = meet(self.low.y + by.y_low, self.high.y - by.y_high);
        Self { low: Point2::new(x_low, y_low), high: Point2::new(x_high, y_high) }
    }
}

/// How far the second lies inside the first, side by side.
impl Sub for Rect {
    type Output = Insets;
    fn sub(self, inner: Self) -> Insets {
        Insets {
            x_low: inner.low.x - self.low.x,
            x_high: self.high.x - inner.high.x,
            y_low: inner.low.y - self.low.y,
            y_high: self.high.y - inner.high.y,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rect(x0: f64, y0: f64, x1: f64, y1: f64) -> Rect {
        Rect::from_corners(Point2::mm(x0, y0), Point2::mm(x1, y1))
    }

    #[test]
    fn touching_is_not_overlapping() {
        let left = rect(0.0, 0.0, 10.0, 10.0);
        let right = rect(10.0, 0.0, 20.0, 10.0);
        assert!(!left.overlaps(right));
        assert_eq!(left.gap_to(right), Length::ZERO);
        assert_eq!(left.intersection(right).map(Rect::area), Some(Area::ZERO));
        assert_eq!(left.intersection(rect(11.0, 0.0, 20.0, 10.0)), None);
    }

    #[test]
    fn the_gap_between_corners_is_slanted() {
        assert_eq!(rect(0.0, 0.0, 1.0, 1.0).gap_to(rect(4.0, 5.0, 6.0, 6.0)), Length::mm(5.0));
    }

    #[test]
    fn shrinking_past_the_middle_leaves_nothing() {
        let plate = rect(0.0, 0.0, 10.0, 40.0);
        assert_eq!(plate.shrink(Insets::all(Length::mm(6.0))), None);
        assert_eq!(plate - Insets::all(Length::mm(6.0)), rect(5.0, 6.0, 5.0, 34.0));
    }
}
