//! Places and shapes in [`Length`](crate::units::Length).
//!
//! Takes and gives plain `Copy` values. A place is not a distance: `Point − Point = Vec`, and two
//! points have no sum. The module knows no roof: which way x, y and z point is said where it is used;
//! here all systems are right-handed and a turn from x towards y is positive.
//!
//! ```
//! use rungsheet::geometry::{Point2, Rect, Vec2};
//! use rungsheet::units::Length;
//! let plate = Rect::from_corners(Point2::mm(0.0, 0.0), Point2::mm(60.0, 40.0));
//! let hole = Point2::mm(50.0, 20.0);
//! assert_eq!(hole - Point2::ORIGIN, Vec2::mm(50.0, 20.0));
//! assert_eq!(plate.inside_by(hole), Length::mm(10.0));
//! ```
mod bend;
mod circle;
mod crown;
mod curve;
mod frame;
mod line;
mod outline;
mod point2;
mod point3;
mod quad;
mod rect;
mod segment;
mod unroll;

pub use bend::Bend;
pub use circle::Circle;
pub use crown::Crown;
pub use curve::Curve;
pub use frame::{Axis3, Frame3};
pub use line::Line3;
pub use outline::{Outline, OutlineFault, SecondMoments};
pub use point2::{Point2, Vec2};
pub use point3::{Dir3, Point3, Vec3};
pub use quad::Quad;
pub use rect::{Insets, Rect};
pub use segment::{Segment2, Segment3};
pub use unroll::Unrolled;
