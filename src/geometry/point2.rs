//! Places and distances in a plane.

use crate::units::{Angle, Area, Length};
use serde::Serialize;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub};

/// A place in a plane.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize)]
pub struct Point2 {
    /// First coordinate.
    pub x: Length,
    /// Second coordinate.
    pub y: Length,
}

/// From one place to another.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize)]
pub struct Vec2 {
    /// Along the first axis.
    pub x: Length,
    /// Along the second axis.
    pub y: Length,
}

impl Point2 {
    /// Where both coordinates are zero.
    pub const ORIGIN: Self = Self::new(Length::ZERO, Length::ZERO);

    /// A place from its coordinates.
    pub const fn new(x: Length, y: Length) -> Self {
        Self { x, y }
    }

    /// A place from millimetres.
    pub const fn mm(x: f64, y: f64) -> Self {
        Self::new(Length::mm(x), Length::mm(y))
    }

    /// How far the other place is.
    pub fn distance(self, other: Self) -> Length {
        (other - self).length()
    }

    /// Half way to the other place.
    #[must_use]
    pub fn midpoint(self, other: Self) -> Self {
        self.towards(other, 0.5)
    }

    /// A part of the way to the other place: 0 is here, 1 is there.
    #[must_use]
    pub fn towards(self, other: Self, part: f64) -> Self {
        self + (other - self) * part
    }

    /// Turned about a centre, positive from x towards y.
    #[must_use]
    pub fn turned_about(self, centre: Self, angle: Angle) -> Self {
        centre + (self - centre).turned(angle)
    }
}

impl Vec2 {
    /// Nowhere else.
    pub const ZERO: Self = Self::new(Length::ZERO, Length::ZERO);

    /// A distance from its parts.
    pub const fn new(x: Length, y: Length) -> Self {
        Self { x, y }
    }

    /// A distance from millimetres.
    pub const fn mm(x: f64, y: f64) -> Self {
        Self::new(Length::mm(x), Length::mm(y))
    }

    /// A distance in a direction, from x towards y.
    #[must_use]
    pub fn polar(length: Length, angle: Angle) -> Self {
        Self::new(length * angle.cos(), length * angle.sin())
    }

    /// How far it is.
    pub fn length(self) -> Length {
        self.x.hypot(self.y)
    }

    /// Which way it goes, −180° to 180° from x towards y; 0° for no distance.
    pub fn angle(self) -> Angle {
        Angle::atan2(self.y.to_mm(), self.x.to_mm())
    }

    /// Length of one times length of the other along it.
    pub fn dot(self, other: Self) -> Area {
        self.x * other.x + self.y * other.y
    }

    /// Area of the parallelogram, positive when `other` lies to the left (from x towards y).
    pub fn cross(self, other: Self) -> Area {
        self.x * other.y - self.y * other.x
    }

    /// Turned, positive from x towards y.
    #[must_use]
    pub fn turned(self, angle: Angle) -> Self {
        let (sin, cos) = (angle.sin(), angle.cos());
        Self::new(self.x * cos - self.y * sin, self.x * sin + self.y * cos)
    }

    /// Turned by a quarter, exactly.
    #[must_use]
    pub fn left(self) -> Self {
        Self::new(-self.y, self.x)
    }

    /// The same way with another length; `None` for no distance.
    pub fn with_length(self, length: Length) -> Option<Self> {
        let own = self.length();
        (own > Length::ZERO).then(|| self * (length / own))
    }
}

impl Sub for Point2 {
    type Output = Vec2;
    fn sub(self, other: Self) -> Vec2 {
        Vec2::new(self.x - other.x, self.y - other.y)
    }
}

impl Add<Vec2> for Point2 {
    type Output = Self;
    fn add(self, way: Vec2) -> Self {
        Self::new(self.x + way.x, self.y + way.y)
    }
}

impl AddAssign<Vec2> for Point2 {
    fn add_assign(&mut self, way: Vec2) {
        *self = *self + way;
    }
}

impl Sub<Vec2> for Point2 {
    type Output = Self;
    fn sub(self, way: Vec2) -> Self {
        Self::new(self.x - way.x, self.y - way.y)
    }
}

impl Add for Vec2 {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.x + other.x, self.y + other.y)
    }
}

impl Sub for Vec2 {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::new(self.x - other.x, self.y - other.y)
    }
}

impl Neg for Vec2 {
    type Output = Self;
    fn neg(self) -> Self {
        Self::new(-self.x, -self.y)
    }
}

impl Mul<f64> for Vec2 {
    type Output = Self;
    fn mul(self, number: f64) -> Self {
        Self::new(self.x * number, self.y * number)
    }
}

impl Div<f64> for Vec2 {
    type Output = Self;
    fn div(self, number: f64) -> Self {
        Self::new(self.x / number, self.y / number)
    }
}

impl Sum for Vec2 {
    fn sum<I: Iterator<Item = Self>>(items: I) -> Self {
        items.fold(Self::ZERO, Add::add)
    }
}
