//! Single mounts in place.

use crate::build::Edge;
use crate::geometry::Point3;
use crate::source::Span;
use crate::tables::Hinge;
use crate::units::{Angle, Length};

/// One mount in place.
#[derive(Debug, Clone)]
pub struct MountPlace {
    /// Mark, "F1".
    pub mark: String,
    /// Name with its kind, "bonded foot".
    pub name: String,
    /// Which `[[mount]]` it comes from.
    pub mount: usize,
    /// Which of the frames it holds.
    pub frame: usize,
    /// Edge of the frame that it holds.
    pub edge: Edge,
    /// Where the frame's outer face and lower face meet, at the middle of the mount.
    pub at: Point3,
    /// Point of the roof skin below it.
    pub roof: Point3,
    /// Slope of the skin across (dz/dy), as an angle; positive rises to the right.
    pub slope_across: Angle,
    /// Slope of the skin along (dz/dx), as an angle; positive rises to the rear.
    pub slope_along: Angle,
    /// Greatest gap between a flat plate of the mount's size and the skin, over the bond's own
    /// thickness. Zero for a mount without a plate.
    pub plate_gap: Length,
    /// What its kind adds.
    pub kind: MountShape,
    /// Place in the build file.
    pub span: Span,
}

/// What a mount of each kind adds.
#[expect(clippy::large_enum_variant, reason = "a few dozen in a packet; plain rows read best")]
#[derive(Debug, Clone)]
pub enum MountShape {
    /// Hinge on a rail.
    Hinge {
        /// Hinge row.
        hinge: Hinge,
        /// Thickness to pack between rail top and leaf.
        packer: Length,
        /// Pin line over roof zero.
        pin: Point3,
    },
    /// Bonded foot.
    BondedFoot {
        /// Heel of the angle to the bolt line, along the standing leg: the datum of its hole map.
        bolt_height: Length,
        /// Length of the standing leg that the section gives.
        leg: Length,
        /// Angle between the legs, 90° where the roof is level.
        bend: Angle,
    },
    /// Foot bolted through the skin.
    BoltedFoot {
        /// Heel of the angle to the bolt line, along the standing leg.
        bolt_height: Length,
        /// Angle between the legs, 90° where the roof is level.
        bend: Angle,
        /// Heel to the row of bolts through the skin, along the lying leg.
        row: Length,
        /// Sealant between leg and skin where they are nearest.
        bed: Length,
    },
    /// Clamp on a rail.
    RailClamp {
        /// Heel of the angle to the bolt line, along the standing leg.
        bolt_height: Length,
        /// Thickness to pack between rail top and lying leg.
        packer: Length,
        /// Top of the rail over roof zero.
        rail_top: Length,
    },
}

impl MountShape {
    /// Whether it is a foot: it stands on the skin, bonded or bolted.
    pub const fn is_foot(&self) -> bool {
        matches!(self, Self::BondedFoot { .. } | Self::BoltedFoot { .. })
    }
}
