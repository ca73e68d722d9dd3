//! Props of lifted frames.

use super::{HoleAt, Screw};
use crate::build::Edge;
use crate::geometry::Point3;
use crate::source::Span;
use crate::tables::Section;
use crate::units::{Angle, Length};

/// One prop in place: while driving along its tube, in use from a bracket up to that tube.
#[derive(Debug, Clone)]
pub struct PropPlace {
    /// Mark of its piece.
    pub mark: String,
    /// Which of the frames it holds up.
    pub frame: usize,
    /// Edge with the hinges.
    pub hinges: Edge,
    /// Edge whose tube it is pinned to.
    pub edge: Edge,
    /// Mark of the mount that it stands on.
    pub on: String,
    /// A point of the hinges' pin line.
    pub pin: Point3,
    /// Bar that it is cut from.
    pub section: Section,
    /// Diameter of its pins.
    pub diameter: Length,
    /// Lower pin inboard of the hinges' pins and up from them.
    pub lower: (Length, Length),
    /// Upper pin in the same way, the frame lying.
    pub upper: (Length, Length),
    /// From the tube's face to the prop: it passes the bracket.
    pub stand_off: Length,
    /// Thickness of the bracket's leg that it stands on.
    pub leg: Length,
    /// From the middle of that leg to the bar's.
    pub off_leg: Length,
    /// Least grip of the pin through bracket and prop, and its standard length.
    pub foot_pin: (Length, Length),
    /// Its hole for the lower pin.
    pub foot_hole: HoleAt,
    /// Hole of the bracket's leg.
    pub leg_hole: HoleAt,
    /// Outer hole of the tube for the upper pin.
    pub tube_hole: HoleAt,
    /// Angles at which it holds, rising.
    pub stands: Vec<Stand>,
    /// Place in the build file.
    pub span: Span,
}

impl PropPlace {
    /// From its foot to its upper pin at an angle, inboard and up, of length one.
    pub fn way(&self, angle: Angle) -> (f64, f64) {
        let (sin, cos) = (angle.sin(), angle.cos());
        let (x, z) = self.upper;
        let (dx, dz) = (x * cos - z * sin - self.lower.0, x * sin + z * cos - self.lower.1);
        let length = dx.hypot(dz);
        (dx / length, dz / length)
    }

    /// The pin through bracket and prop.
    pub const fn foot_screw(&self) -> Screw {
        Screw::Pin { diameter: self.diameter, length: self.foot_pin.1 }
    }
}

/// A prop at one angle.
#[derive(Debug, Clone, PartialEq)]
pub struct Stand {
    /// The lift that is asked for.
    pub asked: Angle,
    /// The lift that its whole millimetres give.
    pub angle: Angle,
    /// Pin to pin.
    pub length: Length,
    /// Its upper hole for that.
    pub hole: String,
    /// Arm of its force about the hinges' pins.
    pub arm: Length,
}

/// Within this of what is asked lies the angle that a whole millimetre gives.
const NEAR: Angle = Angle::deg(2.0);

impl Stand {
    /// The prop at the whole millimetre that comes nearest to an angle, with the angle that this makes.
    /// Its pins are told inboard of the hinges' pins and up from them, the upper one with the frame lying.
    pub fn new(lower: (Length, Length), upper: (Length, Length), asked: Angle) -> Self {
        let to = |angle: Angle| {
            let (sin, cos) = (angle.sin(), angle.cos());
            (upper.0 * cos - upper.1 * sin - lower.0, upper.0 * sin + upper.1 * cos - lower.1)
        };
        let reach = |angle: Angle| {
            let (dx, dz) = to(angle);
            dx.hypot(dz)
        };
        let whole = Length::mm(reach(asked).to_mm().round().max(1.0));
        let (mut low, mut high) = (asked - NEAR, asked + NEAR);
        // It grows with the angle, but for a frame that hardly leaves its foot.
        let found = reach(low) <= whole && whole <= reach(high);
        for _ in 0..60 {
            let middle = (low + high) / 2.0;
            if reach(middle) < whole { low = middle } else { high = middle }
        }
        let angle = if found { (low + high) / 2.0 } else { asked };
        let length = if found { whole } else { reach(asked) };
        let (dx, dz) = to(angle);
        // Arm of a force along the bar about the pins.
        let arm = (lower.0 * (dz / length) - lower.1 * (dx / length)).abs();
        Self { asked, angle, length, hole: String::new(), arm }
    }
}
