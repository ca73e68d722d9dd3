//! Own axes of each edge of the frame, so that a mount is worked out once for all four.

use crate::build::Edge;
use crate::geometry::{Dir3, Point2, Point3, Rect, Vec3};
use crate::units::{Angle, Length};

/// Ways at an edge: along it, outboard and up, right-handed in that order. Seen from inside the
/// frame looking outboard, `along` runs to the right.
#[derive(Debug, Clone, Copy)]
pub(super) struct EdgeAxes {
    pub edge: Edge,
    pub along: Dir3,
    pub outboard: Dir3,
}

impl EdgeAxes {
    /// Axes of an edge.
    pub fn new(edge: Edge) -> Self {
        // along × outboard = up.
        let (along, outboard) = match edge {
            Edge::Right => (Dir3::X, Dir3::Y),
            Edge::Left => (-Dir3::X, -Dir3::Y),
            Edge::Rear => (-Dir3::Y, Dir3::X),
            Edge::Front => (Dir3::Y, -Dir3::X),
        };
        Self { edge, along, outboard }
    }

    /// Length of the edge.
    pub fn length_of(self, outline: Rect) -> Length {
        match self.edge {
            Edge::Left | Edge::Right => outline.width(),
            Edge::Front | Edge::Rear => outline.height(),
        }
    }

    /// The place on the outer face at a distance along the edge, counted from the front for the
    /// sides and from the left for front and rear.
    pub fn point(self, outline: Rect, height: Length, at: Length) -> Point3 {
        let (low, high) = (outline.low(), outline.high());
        let plan = match self.edge {
            Edge::Left => Point2::new(low.x + at, low.y),
            Edge::Right => Point2::new(low.x + at, high.y),
            Edge::Front => Point2::new(low.x, low.y + at),
            Edge::Rear => Point2::new(high.x, low.y + at),
        };
        plan.at_z(height)
    }

    /// Direction of the edge seen from above, from X towards Y.
    pub fn turn(self) -> Angle {
        let [x, y, _] = self.along.parts();
        Angle::atan2(y, x)
    }

    /// A way told along the edge, outboard and up.
    pub fn way(self, along: Length, outboard: Length, up: Length) -> Vec3 {
        self.along * along + self.outboard * outboard + Dir3::Z * up
    }
}
