//! `[[mount]]`: lines of mounts along an edge of the frame.

use super::{Fold, Latch, LatchKind, Prop, Wedge};
use crate::source::{Span, Stated};
use crate::tables::{Adhesive, Hinge, Material, Section, Tape, Thread};
use crate::units::{Angle, Length, Pressure};

/// One line of mounts of a kind along an edge of the frame.
#[derive(Debug, Clone)]
pub struct Mount {
    /// Letter before the number of each mount.
    pub mark: Stated<String>,
    /// Name used on every sheet.
    pub name: Stated<String>,
    /// Which of the frames it holds.
    pub frame: usize,
    /// Edge of the frame.
    pub edge: Stated<Edge>,
    /// Middle of each mount along that edge: from the frame's front end for left and right,
    /// from its left end for front and rear.
    pub at: Vec<Stated<Length>>,
    /// What it is and what its kind needs.
    pub kind: MountKind,
    /// Place of the table.
    pub span: Span,
}

/// Edge of the frame, seen from above with the front of the vehicle ahead.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Edge {
    /// Least Y.
    Left,
    /// Greatest Y.
    Right,
    /// Least X.
    Front,
    /// Greatest X.
    Rear,
}

/// Kinds of mount.
#[derive(Debug, Clone)]
// A build has a handful of them: a box would cost every reader more than the room saves.
#[allow(clippy::large_enum_variant)]
pub enum MountKind {
    /// Hinges onto an existing rail.
    Hinge(HingeLine),
    /// Plate bonded to the skin with an angle bracket on it.
    BondedFoot(BondedFoot),
    /// Angle bracket bolted through the skin onto a spreader plate below it.
    BoltedFoot(BoltedFoot),
    /// Angle bracket clamped onto an existing rail.
    RailClamp(RailClamp),
}

impl MountKind {
    /// The rail that it holds on to.
    pub const fn rail(&self) -> Option<&Rail> {
        match self {
            Self::Hinge(line) => Some(&line.rail),
            Self::RailClamp(clamp) => Some(&clamp.rail),
            Self::BondedFoot(_) | Self::BoltedFoot(_) => None,
        }
    }
}

impl MountKind {
    /// What holds the frame to it, "M6 bolt", "M6 knob bolt" or "draw latch".
    pub fn holds_by(&self) -> String {
        let bolt = match self {
            Self::Hinge(line) => &line.bolt,
            Self::BondedFoot(foot) => &foot.bolt,
            Self::BoltedFoot(foot) => &foot.bolt,
            Self::RailClamp(clamp) => &clamp.bolt,
        };
        match self.latch().map(|latch| *latch.kind) {
            Some(LatchKind::DrawLatch) => LatchKind::DrawLatch.words().to_owned(),
            Some(LatchKind::Knob) => format!("{} {}", bolt.name, LatchKind::Knob.words()),
            None => format!("{} bolt", bolt.name),
        }
    }

    /// What holds the frame to it in place of bolts.
    pub const fn latch(&self) -> Option<&Latch> {
        match self {
            Self::Hinge(_) => None,
            Self::BondedFoot(foot) => foot.latch.as_ref(),
            Self::BoltedFoot(foot) => foot.latch.as_ref(),
            Self::RailClamp(clamp) => clamp.latch.as_ref(),
        }
    }
}

/// Angle bracket bolted through the skin onto a spreader plate below it.
#[derive(Debug, Clone)]
pub struct BoltedFoot {
    /// Angle section of the bracket; its longer leg stands up to the frame.
    pub angle: Stated<Section>,
    /// Bent from flat stuff of this; `angle` is then its cross-section.
    pub fold: Option<Fold>,
    /// Cut length of the bracket.
    pub angle_length: Stated<Length>,
    /// Two bolts through the standing leg into rivet nuts in the tube.
    pub bolt: Stated<Thread>,
    /// Two bolts through lying leg, skin and spreader.
    pub roof_bolt: Stated<Thread>,
    /// Plate below the skin, over which the nuts spread their pull.
    pub spreader: Spreader,
    /// Ring round each bolt and bed under the leg.
    pub sealing: Stated<Adhesive>,
    /// Takes up the slope across, above the skin and below it.
    pub wedge: Option<Wedge>,
    /// Opened by hand to lift the frame, instead of bolts to the tube.
    pub latch: Option<Latch>,
}

/// Plate below the skin.
#[derive(Debug, Clone)]
pub struct Spreader {
    /// Material row.
    pub material: Stated<Material>,
    /// Along the frame's edge.
    pub length: Stated<Length>,
    /// Across the edge.
    pub width: Stated<Length>,
    /// Thickness.
    pub thickness: Stated<Length>,
}

/// Angle bracket clamped onto an existing rail: its lying leg above, a plate below, bolts on either
/// side of the rail.
#[derive(Debug, Clone)]
pub struct RailClamp {
    /// Angle section of the bracket; its longer leg lies over the rail.
    pub angle: Stated<Section>,
    /// Bent from flat stuff of this; `angle` is then its cross-section.
    pub fold: Option<Fold>,
    /// Cut length of the bracket, along the rail.
    pub angle_length: Stated<Length>,
    /// Two bolts through the standing leg into rivet nuts in the tube.
    pub bolt: Stated<Thread>,
    /// Four bolts, two on either side of the rail.
    pub clamp_bolt: Stated<Thread>,
    /// Material of the plate below the rail's flange; it is as long as the bracket.
    pub material: Stated<Material>,
    /// Its thickness.
    pub thickness: Stated<Length>,
    /// The rail; its thickness is that of the flange that is clamped.
    pub rail: Rail,
    /// Opened by hand to lift the frame, instead of bolts to the tube.
    pub latch: Option<Latch>,
}

/// Hinges onto an existing rail along the edge.
#[derive(Debug, Clone)]
pub struct HingeLine {
    /// Hinge row.
    pub hinge: Stated<Hinge>,
    /// Bolt through each hole of a leaf, into rivet nuts in the tube and through the rail.
    pub bolt: Stated<Thread>,
    /// The rail that is already there.
    pub rail: Rail,
    /// Greatest angle to which the frame is lifted, for prop and sweep.
    pub lift: Stated<Angle>,
    /// Angles at which it is propped, rising; every ten degrees up to the greatest where none is stated.
    pub angles: Vec<Stated<Angle>>,
    /// What holds it up.
    pub prop: Option<Prop>,
}

/// An existing rail along the vehicle.
#[derive(Debug, Clone)]
pub struct Rail {
    /// Middle of the rail's flat top.
    pub y: Stated<Length>,
    /// From the skin beside it up to its top.
    pub height: Stated<Length>,
    /// Width of its flat top.
    pub width: Stated<Length>,
    /// Thickness of the rail's top, that the bolt passes through.
    pub thickness: Stated<Length>,
}

/// Plate bonded to the skin with an angle bracket on it.
#[derive(Debug, Clone)]
pub struct BondedFoot {
    /// Plate on the skin.
    pub plate: Plate,
    /// Angle section of the bracket; its longer leg stands up to the frame.
    pub angle: Stated<Section>,
    /// Bent from flat stuff of this; `angle` is then its cross-section.
    pub fold: Option<Fold>,
    /// Cut length of the bracket.
    pub angle_length: Stated<Length>,
    /// Two bolts through the standing leg into rivet nuts in the tube.
    pub bolt: Stated<Thread>,
    /// Four countersunk screws from below the plate through the lying leg.
    pub plate_screw: Stated<Thread>,
    /// Foam tape under the plate; absent: bead alone.
    pub tape: Option<TapeStrips>,
    /// Adhesive bead under the plate; absent: tape alone.
    pub bead: Option<Bead>,
    /// Takes up the slope across, between plate and leg.
    pub wedge: Option<Wedge>,
    /// Opened by hand to lift the frame, instead of bolts to the tube.
    pub latch: Option<Latch>,
}

/// Plate on the skin; its length lies along the frame's edge.
#[derive(Debug, Clone)]
pub struct Plate {
    /// Material row.
    pub material: Stated<Material>,
    /// Along the edge.
    pub length: Stated<Length>,
    /// Across the edge.
    pub width: Stated<Length>,
    /// Thickness.
    pub thickness: Stated<Length>,
    /// Its middle outboard of the middle of the bracket's standing leg.
    pub shift: Stated<Length>,
}

/// Strips of foam tape, full length of the plate, spread evenly from edge to edge.
#[derive(Debug, Clone)]
pub struct TapeStrips {
    /// Tape row.
    pub kind: Stated<Tape>,
    /// Width of a strip.
    pub width: Stated<Length>,
    /// Thickness.
    pub thickness: Stated<Length>,
    /// How many.
    pub strips: Stated<u32>,
    /// Design stress for seconds by the tape's own sheet, instead of the table's.
    pub short_term: Option<Stated<Pressure>>,
}

/// Bead laid in each space between strips (or one in the middle where there are none).
#[derive(Debug, Clone)]
pub struct Bead {
    /// Adhesive row.
    pub kind: Stated<Adhesive>,
    /// Width once pressed to the tape's thickness.
    pub width: Stated<Length>,
    /// Strength by the adhesive's own sheet; a factor turns it into a design stress.
    pub strength: Option<Stated<Pressure>>,
}
