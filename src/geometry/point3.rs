//! Places, distances and directions in space.

use super::{Point2, Vec2};
use crate::units::{Angle, Area, Length};
use serde::Serialize;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub};

/// A place in space.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize)]
pub struct Point3 {
    /// First coordinate.
    pub x: Length,
    /// Second coordinate.
    pub y: Length,
    /// Third coordinate.
    pub z: Length,
}

/// From one place to another.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize)]
pub struct Vec3 {
    /// Along the first axis.
    pub x: Length,
    /// Along the second axis.
    pub y: Length,
    /// Along the third axis.
    pub z: Length,
}

/// A direction: three numbers whose squares sum to one.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Dir3 {
    x: f64,
    y: f64,
    z: f64,
}

impl Point3 {
    /// Where all coordinates are zero.
    pub const ORIGIN: Self = Self::new(Length::ZERO, Length::ZERO, Length::ZERO);

    /// A place from its coordinates.
    pub const fn new(x: Length, y: Length, z: Length) -> Self {
        Self { x, y, z }
    }

    /// A place from millimetres.
    pub const fn mm(x: f64, y: f64, z: f64) -> Self {
        Self::new(Length::mm(x), Length::mm(y), Length::mm(z))
    }

    /// How far the other place is.
    pub fn distance(self, other: Self) -> Length {
        (other - self).length()
    }

    /// A part of the way to the other place: 0 is here, 1 is there.
    #[must_use]
    pub fn towards(self, other: Self, part: f64) -> Self {
        self + (other - self) * part
    }

    /// Seen along z.
    pub const fn xy(self) -> Point2 {
        Point2::new(self.x, self.y)
    }
}

impl Point2 {
    /// At this height.
    pub const fn at_z(self, z: Length) -> Point3 {
        Point3::new(self.x, self.y, z)
    }
}

impl Vec3 {
    /// Nowhere else.
    pub const ZERO: Self = Self::new(Length::ZERO, Length::ZERO, Length::ZERO);

    /// A distance from its parts.
    pub const fn new(x: Length, y: Length, z: Length) -> Self {
        Self { x, y, z }
    }

    /// A distance from millimetres.
    pub const fn mm(x: f64, y: f64, z: f64) -> Self {
        Self::new(Length::mm(x), Length::mm(y), Length::mm(z))
    }

    /// How far it is.
    pub fn length(self) -> Length {
        self.dot(self).sqrt()
    }

    /// Length of one times length of the other along it.
    pub fn dot(self, other: Self) -> Area {
        self.x * other.x + self.y * other.y + self.z * other.z
    }

    /// How far it goes in a direction.
    pub fn along(self, direction: Dir3) -> Length {
        self.x * direction.x + self.y * direction.y + self.z * direction.z
    }

    /// What is left of it across a direction.
    #[must_use]
    pub fn across(self, direction: Dir3) -> Self {
        self - direction * self.along(direction)
    }

    /// Its direction; `None` for no distance.
    pub fn direction(self) -> Option<Dir3> {
        Dir3::of(self.x.to_mm(), self.y.to_mm(), self.z.to_mm())
    }

    /// Seen along z.
    pub const fn xy(self) -> Vec2 {
        Vec2::new(self.x, self.y)
    }
}

impl Dir3 {
    /// Along the first axis.
    pub const X: Self = Self { x: 1.0, y: 0.0, z: 0.0 };
    /// Along the second axis.
    pub const Y: Self = Self { x: 0.0, y: 1.0, z: 0.0 };
    /// Along the third axis.
    pub const Z: Self = Self { x: 0.0, y: 0.0, z: 1.0 };

    /// The direction of three numbers; `None` when they are all zero or not finite.
    pub fn of(x: f64, y: f64, z: f64) -> Option<Self> {
        let length = (x * x + y * y + z * z).sqrt();
        let found = Self { x: x / length, y: y / length, z: z / length };
        (length > 0.0 && [found.x, found.y, found.z].iter().all(|part| part.is_finite()))
            .then_some(found)
    }

    /// Its three numbers.
    pub const fn parts(self) -> [f64; 3] {
        [self.x, self.y, self.z]
    }

    /// Cosine of the angle between the two.
    pub fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y + self.z * other.z
    }

    /// The direction at right angles to both, right-handed; `None` when they are in line.
    pub fn cross(self, other: Self) -> Option<Self> {
        let [x, y, z] = self.cross_parts(other);
        // Shorter than this, rounding decides where it points.
        if x * x + y * y + z * z < 1e-24 { None } else { Self::of(x, y, z) }
    }

    /// The angle between the two, 0° to 180°; good for small angles too.
    pub fn angle_to(self, other: Self) -> Angle {
        let [x, y, z] = self.cross_parts(other);
        Angle::atan2((x * x + y * y + z * z).sqrt(), self.dot(other))
    }

    /// Turned about an axis, right-handed (Rodrigues' formula).
    #[must_use]
    pub fn turned_about(self, axis: Self, angle: Angle) -> Self {
        let (sin, cos) = (angle.sin(), angle.cos());
        let along = self.dot(axis) * (1.0 - cos);
        let [x, y, z] = axis.cross_parts(self);
        let turned = Self {
            x: self.x * cos + x * sin + axis.x * along,
            y: self.y * cos + y * sin + axis.y * along,
            z: self.z * cos + z * sin + axis.z * along,
        };
        // A turn keeps the length; this takes off what rounding added.
        Self::of(turned.x, turned.y, turned.z).unwrap_or(turned)
    }

    fn cross_parts(self, other: Self) -> [f64; 3] {
        [
            self.y * other.z - self.z * other.y,
            self.z * other.x - self.x * other.z,
            self.x * other.y - self.y * other.x,
        ]
    }
}

impl Sub for Point3 {
    type Output = Vec3;
    fn sub(self, other: Self) -> Vec3 {
        Vec3::new(self.x - other.x, self.y - other.y, self.z - other.z)
    }
}

impl Add<Vec3> for Point3 {
    type Output = Self;
    fn add(self, way: Vec3) -> Self {
        Self::new(self.x + way.x, self.y + way.y, self.z + way.z)
    }
}

impl AddAssign<Vec3> for Point3 {
    fn add_assign(&mut self, way: Vec3) {
        *self = *self + way;
    }
}

impl Sub<Vec3> for Point3 {
    type Output = Self;
    fn sub(self, way: Vec3) -> Self {
        Self::new(self.x - way.x, self.y - way.y, self.z - way.z)
    }
}

impl Add for Vec3 {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.x + other.x, self.y + other.y, self.z + other.z)
    }
}

impl Sub for Vec3 {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::new(self.x - other.x, self.y - other.y, self.z - other.z)
    }
}

impl Neg for Vec3 {
    type Output = Self;
    fn neg(self) -> Self {
        Self::new(-self.x, -self.y, -self.z)
    }
}

impl Mul<f64> for Vec3 {
    type Output = Self;
    fn mul(self, number: f64) -> Self {
        Self::new(self.x * number, self.y * number, self.z * number)
    }
}

impl Div<f64> for Vec3 {
    type Output = Self;
    fn div(self, number: f64) -> Self {
        Self::new(self.x / number, self.y / number, self.z / number)
    }
}

impl Sum for Vec3 {
    fn sum<I: Iterator<Item = Self>>(items: I) -> Self {
        items.fold(Self::ZERO, Add::add)
    }
}

impl Mul<Length> for Dir3 {
    type Output = Vec3;
    fn mul(self, length: Length) -> Vec3 {
        Vec3::new(length * self.x, length * self.y, length * self.z)
    }
}

impl Neg for Dir3 {
    type Output = Self;
    fn neg(self) -> Self {
        Self { x: -self.x, y: -self.y, z: -self.z }
    }
}
