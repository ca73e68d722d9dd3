//! The work while it is being put together: single pieces and holes by handle, no marks or ids yet.

use super::work::{Body, Countersink, Face, HoleKind, PartKind, Screw};
use crate::geometry::{Dir3, Frame3, Point2, Point3};
use crate::source::Span;
use crate::units::{Angle, Length, Mass};

/// One single piece, a part to be.
#[derive(Debug, Clone)]
pub(super) struct DraftPiece {
    pub kind: PartKind,
    pub name: String,
    /// Mark that the build file gives; numbered by its kind's letter otherwise.
    pub mark: Option<String>,
    pub body: Body,
    pub faces: Vec<Face>,
    pub place: Frame3,
    pub mass: Mass,
    pub holes: Vec<DraftHole>,
    pub span: Span,
}

/// A hole of one piece.
#[derive(Debug, Clone)]
pub(super) struct DraftHole {
    pub face: usize,
    pub at: Point2,
    pub diameter: Length,
    /// Nominal diameter of what goes through or sits in it.
    pub fastener: Length,
    pub kind: HoleKind,
    pub countersink: Option<Countersink>,
    pub drilling: DraftDrilling,
    pub span: Span,
}

/// Whether a hole may be drilled by itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum DraftDrilling {
    Apart,
    Through(HoleRef),
    Ready,
}

/// A hole by its piece and its place among that piece's holes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct HoleRef {
    pub piece: usize,
    pub hole: usize,
}

/// A kind of fastener with the holes of each place, from the head.
#[derive(Debug, Clone)]
pub(super) struct DraftFastening {
    pub name: String,
    pub screw: Screw,
    pub stack: Vec<(String, Length)>,
    pub places: Vec<Vec<HoleRef>>,
    /// The axis leans so far from square to the layers under its head.
    pub lean: Angle,
    pub undone: bool,
    pub span: Span,
}

/// Everything put together so far.
#[derive(Debug, Clone, Default)]
pub(super) struct Draft {
    /// The frame that pieces are added for.
    pub frame: Option<usize>,
    /// Frame of each piece.
    pub frames: Vec<Option<usize>>,
    pub pieces: Vec<DraftPiece>,
    pub fastenings: Vec<DraftFastening>,
}

impl Draft {
    /// Adds a piece and gives its handle.
    pub fn add(&mut self, piece: DraftPiece) -> usize {
        self.pieces.push(piece);
        self.frames.push(self.frame);
        self.pieces.len() - 1
    }

    /// Adds a hole to a piece and gives its handle.
    pub fn drill(&mut self, piece: usize, hole: DraftHole) -> HoleRef {
        let holes = &mut self.pieces[piece].holes;
        holes.push(hole);
        HoleRef { piece, hole: holes.len() - 1 }
    }

    /// The hole behind a handle.
    pub fn hole(&self, at: HoleRef) -> &DraftHole {
        &self.pieces[at.piece].holes[at.hole]
    }

    /// Where the middle of a hole is on the vehicle, on its face.
    pub fn place_of(&self, at: HoleRef) -> Point3 {
        let piece = &self.pieces[at.piece];
        let hole = &piece.holes[at.hole];
        piece.place.place(piece.faces[hole.face].point(hole.at))
    }

    /// The face of a piece with this name.
    ///
    /// # Panics
    /// Never on names that the piece was made with: faces are made beside their users.
    pub fn face(&self, piece: usize, name: &str) -> usize {
        self.pieces[piece]
            .faces
            .iter()
            .position(|face| face.name == name)
            .expect("the piece was made with this face")
    }

    /// Running dimension and offset on a face of the place on the vehicle, seen square to the face.
    pub fn on_face(&self, piece: usize, face: usize, place: Point3) -> Point2 {
        let piece = &self.pieces[piece];
        let face = &piece.faces[face];
        let way = piece.place.local(place) - face.origin;
        Point2::new(way.along(face.along), way.along(face.across))
    }

    /// Adds places to the fastening of this name, screw and stack, or begins it.
    pub fn fasten(&mut self, fastening: DraftFastening) {
        let same = self.fastenings.iter_mut().find(|other| {
            other.name == fastening.name
                && other.screw == fastening.screw
                && other.lean == fastening.lean
                && other.stack.len() == fastening.stack.len()
                && other
                    .stack
                    .iter()
                    .zip(&fastening.stack)
                    .all(|(a, b)| a.0 == b.0 && a.1.is_near(b.1, Length::mm(1e-3)))
        });
        match same {
            Some(other) => other.places.extend(fastening.places),
            None => self.fastenings.push(fastening),
        }
    }
}

/// What a tube's two upright faces are called, at its own y = 0 and at full width.
pub(super) struct Sides {
    pub low: &'static str,
    pub high: &'static str,
}

/// The four faces of a tube: `top`, `bottom` and the two sides. Top and bottom are measured from
/// the outer side, or from y = 0 where neither side is the outer one.
pub(super) fn tube_faces(
    length: Length,
    width: Length,
    height: Length,
    wall: Length,
    sides: &Sides,
) -> Vec<Face> {
    let zero = Length::ZERO;
    let from_high = sides.high == OUTER;
    let (edge, inwards) = if from_high { (width, -Dir3::Y) } else { (zero, Dir3::Y) };
    let mut faces = vec![
        face(
            "top",
            Point3::new(zero, edge, height),
            (Dir3::X, inwards, Dir3::Z),
            (length, width),
            wall,
        ),
        face(
            "bottom",
            Point3::new(zero, edge, zero),
            (Dir3::X, inwards, -Dir3::Z),
            (length, width),
            wall,
        ),
        face(
            sides.low,
            Point3::new(zero, zero, zero),
            (Dir3::X, Dir3::Z, -Dir3::Y),
            (length, height),
            wall,
        ),
        face(
            sides.high,
            Point3::new(zero, width, zero),
            (Dir3::X, Dir3::Z, Dir3::Y),
            (length, height),
            wall,
        ),
    ];
    for face in &mut faces {
        face.free_sides = false;
    }
    faces
}

/// Name of the side of a tube that looks away from the frame.
pub(super) const OUTER: &str = "outer";
/// Name of the side of a tube that looks into the frame.
pub(super) const INNER: &str = "inner";

/// A face from its zero corner, its three ways (along, across, outward), its extents and its wall.
pub(super) fn face(
    name: &str,
    origin: Point3,
    (along, across, outward): (Dir3, Dir3, Dir3),
    (length, width): (Length, Length),
    wall: Length,
) -> Face {
    let runs_left = along.cross(across).is_some_and(|normal| normal.dot(outward) < 0.0);
    Face {
        name: name.to_owned(),
        seen: String::new(),
        origin,
        along,
        across,
        outward,
        length,
        width,
        wall,
        free_sides: true,
        runs_left,
    }
}
