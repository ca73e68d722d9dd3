//! Holes.

use crate::geometry::Point2;
use crate::source::Span;
use crate::units::Length;

/// One hole. Alike pieces of a part share it.
#[derive(Debug, Clone)]
pub struct Hole {
    /// Id, unique in the packet: "H21".
    pub id: String,
    /// Index into [`Work::parts`](super::Work::parts).
    pub part: usize,
    /// Index into that part's faces.
    pub face: usize,
    /// Running dimension and offset on that face.
    pub at: Point2,
    /// Finished diameter.
    pub diameter: Length,
    /// What it is for.
    pub kind: HoleKind,
    /// Drill diameters in order, last the finished one; empty for a hole that is bought ready.
    pub drills: Vec<Length>,
    /// Countersink.
    pub countersink: Option<Countersink>,
    /// Ids of the holes that the same fastener passes, in order of id.
    pub mates: Vec<String>,
    /// Index into [`Work::fastenings`](super::Work::fastenings).
    pub fastening: Option<usize>,
    /// Whether it may be drilled by itself.
    pub drilling: Drilling,
    /// Least distance from its centre to an edge that the rules ask for, and what it has.
    pub edge: EdgeDistance,
    /// Place in the build file.
    pub span: Span,
}

/// Countersink of a hole, 90° for metric heads.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Countersink {
    /// Diameter on the surface.
    pub diameter: Length,
    /// It is on the far side of the wall: the hole is marked on one side and sunk from the other.
    pub far_side: bool,
}

/// Edge distance asked and had.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EdgeDistance {
    /// Centre to the edge that decides: the one with the least to spare.
    pub has: Length,
    /// Least for any use.
    pub least: Length,
}

/// What a hole is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum HoleKind {
    /// A bolt or screw passes freely.
    Clearance,
    /// A rivet nut is set in it.
    RivetNut,
    /// A tapping screw cuts its thread in it.
    Pilot,
    /// A countersunk screw.
    Countersunk,
    /// A screwdriver or socket passes.
    Access,
    /// A blind rivet.
    Rivet,
    /// A cable passes.
    Cable,
    /// Water runs out.
    Drain,
}

impl HoleKind {
    /// As printed.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Clearance => "clearance",
            Self::RivetNut => "rivet nut",
            Self::Pilot => "pilot",
            Self::Countersunk => "countersunk",
            Self::Access => "access",
            Self::Rivet => "rivet",
            Self::Cable => "cable",
            Self::Drain => "drain",
        }
    }
}

/// Whether a hole may be drilled by itself.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Drilling {
    /// From its own marks.
    Apart,
    /// Clamped to the part of the hole with this id and drilled through that hole.
    Through(String),
    /// Bought with it.
    Ready,
}
