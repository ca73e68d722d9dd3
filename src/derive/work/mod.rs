//! The work as plain values: what stands where, what it is made of, where its holes are.

mod array;
mod bond;
mod fastening;
mod hole;
mod mount;
mod part;
mod tilt;

pub use array::{Array, EntryPlace, PanelPlace};
pub use bond::Bond;
pub use fastening::{Fastening, HoleAt, Screw};
pub use hole::{Countersink, Drilling, EdgeDistance, Hole, HoleKind};
pub use mount::{MountPlace, MountShape};
pub use part::{Body, Ends, Face, Part, PartKind, Piece};
pub use tilt::Tilt;

use super::roof::RoofSurface;
use crate::source::Ledger;

/// Everything that is made and fitted, in place on the vehicle.
#[derive(Debug, Clone, Default)]
pub struct Work {
    /// The measured roof; absent for a build without one.
    pub roof: Option<RoofSurface>,
    /// Panels and frame in place.
    pub array: Option<Array>,
    /// Single mounts, in the order of the file and along their edge.
    pub mounts: Vec<MountPlace>,
    /// The frame lifted about its hinges; absent without hinges.
    pub tilt: Option<Tilt>,
    /// The same at several angles up to that one; empty without hinges.
    pub tilts: Vec<Tilt>,
    /// Parts to make or buy; alike pieces share one entry.
    pub parts: Vec<Part>,
    /// Every hole, by part, then along it.
    pub holes: Vec<Hole>,
    /// Screws, bolts and rivets with what they clamp.
    pub fastenings: Vec<Fastening>,
    /// Bonded joints.
    pub bonds: Vec<Bond>,
    /// Hole through the roof for the cables.
    pub entry: Option<EntryPlace>,
    /// How the printed numbers were worked out, in that order.
    pub ledger: Ledger,
}

impl Work {
    /// The part and the single piece with this mark.
    pub fn piece(&self, mark: &str) -> Option<(&Part, &Piece)> {
        self.parts.iter().find_map(|part| {
            part.pieces.iter().find(|piece| piece.mark == mark).map(|piece| (part, piece))
        })
    }

    /// The hole with this id.
    pub fn hole(&self, id: &str) -> Option<&Hole> {
        self.holes.iter().find(|hole| hole.id == id)
    }

    /// Parts of a kind.
    pub fn parts_of(&self, kind: PartKind) -> impl Iterator<Item = &Part> {
        self.parts.iter().filter(move |part| part.kind == kind)
    }
}
