//! A part's own axes, placed in space.

use super::{Dir3, Point3, Vec3};
use crate::units::Angle;
use serde::Serialize;

/// One of a frame's own axes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum Axis3 {
    /// The first.
    X,
    /// The second.
    Y,
    /// The third.
    Z,
}

/// An origin and three axes at right angles, right-handed. It takes a place told in a part's own
/// coordinates to where that is in the frame around it.
///
/// ```
/// use rungsheet::geometry::{Frame3, Point3, Vec3};
/// // A bar that runs across the roof: its own x is y outside.
/// let bar = Frame3::new(Point3::mm(100.0, 0.0, 50.0), Vec3::mm(0.0, 1.0, 0.0), Vec3::mm(-1.0, 0.0, 0.0))
///     .expect("two directions");
/// let hole = Point3::mm(30.0, 5.0, 0.0);
/// assert_eq!(bar.place(hole), Point3::mm(95.0, 30.0, 50.0));
/// assert_eq!(bar.local(bar.place(hole)), hole);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Frame3 {
    origin: Point3,
    x: Dir3,
    y: Dir3,
    z: Dir3,
}

impl Frame3 {
    /// The frame around everything: what is placed in it stays where it is.
    pub const WORLD: Self = Self::at(Point3::ORIGIN);

    /// Shifted only.
    pub const fn at(origin: Point3) -> Self {
        Self { origin, x: Dir3::X, y: Dir3::Y, z: Dir3::Z }
    }

    /// From where it stands, the way its x goes and a way on the side of its y, which is set
    /// square. `None` when the two ways are in line or one of them is no distance.
    pub fn new(origin: Point3, x: Vec3, towards_y: Vec3) -> Option<Self> {
        let x = x.direction()?;
        let z = x.cross(towards_y.direction()?)?;
        let y = z.cross(x)?;
        Some(Self { origin, x, y, z })
    }

    /// From where it stands, the way its z goes (the outward normal of a face) and a way on the
    /// side of its x, which is set square. `None` as for [`Frame3::new`].
    pub fn on_face(origin: Point3, z: Vec3, towards_x: Vec3) -> Option<Self> {
        let z = z.direction()?;
        let y = z.cross(towards_x.direction()?)?;
        let x = y.cross(z)?;
        Some(Self { origin, x, y, z })
    }

    /// Where its own origin is.
    pub const fn origin(self) -> Point3 {
        self.origin
    }

    /// One of its axes as a direction outside.
    pub const fn axis(self, axis: Axis3) -> Dir3 {
        match axis {
            Axis3::X => self.x,
            Axis3::Y => self.y,
            Axis3::Z => self.z,
        }
    }

    /// Where a place of its own is outside.
    pub fn place(self, own: Point3) -> Point3 {
        self.origin + self.place_vec(own - Point3::ORIGIN)
    }

    /// Which way a distance of its own goes outside.
    pub fn place_vec(self, own: Vec3) -> Vec3 {
        self.x * own.x + self.y * own.y + self.z * own.z
    }

    /// Which way a direction of its own goes outside.
    #[must_use]
    pub fn place_dir(self, own: Dir3) -> Dir3 {
        let [x, y, z] = own.parts();
        let (a, b, c) = (self.x.parts(), self.y.parts(), self.z.parts());
        let part = |i: usize| a[i] * x + b[i] * y + c[i] * z;
        // The axes are square, so the length stays one and only rounding is taken off.
        Dir3::of(part(0), part(1), part(2)).unwrap_or(own)
    }

    /// A place outside in its own coordinates.
    pub fn local(self, outside: Point3) -> Point3 {
        Point3::ORIGIN + self.local_vec(outside - self.origin)
    }

    /// A distance outside in its own coordinates.
    pub fn local_vec(self, outside: Vec3) -> Vec3 {
        Vec3::new(outside.along(self.x), outside.along(self.y), outside.along(self.z))
    }

    /// A frame that is told in this one's coordinates, outside: first `inner`, then this.
    #[must_use]
    pub fn compose(self, inner: Self) -> Self {
        Self {
            origin: self.place(inner.origin),
            x: self.place_dir(inner.x),
            y: self.place_dir(inner.y),
            z: self.place_dir(inner.z),
        }
    }

    /// The frame that undoes this one.
    #[must_use]
    pub fn inverse(self) -> Self {
        let (a, b, c) = (self.x.parts(), self.y.parts(), self.z.parts());
        // The rows of the square matrix whose columns are the axes; each has length one.
        let row = |i: usize, else_is| Dir3::of(a[i], b[i], c[i]).unwrap_or(else_is);
        Self {
            origin: self.local(Point3::ORIGIN),
            x: row(0, Dir3::X),
            y: row(1, Dir3::Y),
            z: row(2, Dir3::Z),
        }
    }

    /// Turned about one of its own axes, right-handed; the origin stays.
    #[must_use]
    pub fn turned(self, about: Axis3, angle: Angle) -> Self {
        let axis = self.axis(about);
        let turn = |own: Dir3| if own == axis { own } else { own.turned_about(axis, angle) };
        Self { origin: self.origin, x: turn(self.x), y: turn(self.y), z: turn(self.z) }
    }

    /// Shifted by a distance outside.
    #[must_use]
    pub fn moved(self, way: Vec3) -> Self {
        Self { origin: self.origin + way, ..self }
    }
}

impl Default for Frame3 {
    fn default() -> Self {
        Self::WORLD
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Length;
    use proptest::prelude::*;

    fn frame() -> impl Strategy<Value = Frame3> {
        let part = || -1000.0..1000.0_f64;
        ((part(), part(), part()), 0.0..360.0_f64, 0.0..360.0_f64, 0.0..360.0_f64).prop_map(
            |((x, y, z), a, b, c)| {
                Frame3::at(Point3::mm(x, y, z))
                    .turned(Axis3::X, Angle::deg(a))
                    .turned(Axis3::Y, Angle::deg(b))
                    .turned(Axis3::Z, Angle::deg(c))
            },
        )
    }

    fn point() -> impl Strategy<Value = Point3> {
        let part = || -5000.0..5000.0_f64;
        (part(), part(), part()).prop_map(|(x, y, z)| Point3::mm(x, y, z))
    }

    fn same(a: Point3, b: Point3) -> bool {
        a.distance(b) < Length::mm(1e-8)
    }

    proptest! {
        #[test]
        fn what_is_placed_is_found_again(f in frame(), p in point()) {
            prop_assert!(same(f.local(f.place(p)), p));
            prop_assert!(same(f.inverse().place(f.place(p)), p));
        }

        #[test]
        fn frames_follow_one_another(f in frame(), g in frame(), p in point()) {
            prop_assert!(same(f.compose(g).place(p), f.place(g.place(p))));
        }

        #[test]
        fn distances_stay(f in frame(), p in point(), q in point()) {
            let moved = f.place(p).distance(f.place(q));
            prop_assert!(moved.is_near(p.distance(q), Length::mm(1e-8)));
        }

        #[test]
        fn axes_stay_right_handed(f in frame()) {
            let z = f.axis(Axis3::X).cross(f.axis(Axis3::Y)).expect("they are square");
            prop_assert!(z.dot(f.axis(Axis3::Z)) > 1.0 - 1e-12);
        }
    }

    #[test]
    fn a_quarter_turn_about_z_takes_x_to_y() {
        let f = Frame3::WORLD.turned(Axis3::Z, Angle::RIGHT);
        assert!(same(f.place(Point3::mm(1.0, 0.0, 0.0)), Point3::mm(0.0, 1.0, 0.0)));
    }

    #[test]
    fn ways_in_line_make_no_frame() {
        let x = Vec3::mm(1.0, 2.0, 3.0);
        assert_eq!(Frame3::new(Point3::ORIGIN, x, x * -2.0), None);
        assert_eq!(Frame3::new(Point3::ORIGIN, Vec3::ZERO, x), None);
    }
}
