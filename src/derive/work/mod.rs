//! The work as plain values: what stands where, what it is made of, where its holes are.

mod array;
mod bond;
mod fastening;
mod hole;
mod mount;
mod part;
mod prop;
mod tilt;

pub use array::{Array, EntryPlace, PanelPlace};
pub use bond::Bond;
pub use fastening::{Fastening, HoleAt, Screw};
pub use hole::{Countersink, Drilling, EdgeDistance, Hole, HoleKind};
pub use mount::{MountPlace, MountShape};
pub use part::{Body, Bracket, Ends, Face, Folded, Part, PartKind, Piece};
pub use prop::{PropPlace, Stand};
pub use tilt::Tilt;

use super::roof::RoofSurface;
use crate::source::Ledger;
use crate::units::Length;
use std::collections::BTreeMap;

/// Everything that is made and fitted, in place on the vehicle.
#[derive(Debug, Clone, Default)]
pub struct Work {
    /// The measured roof; absent for a build without one.
    pub roof: Option<RoofSurface>,
    /// Each frame with its panels in place, in the order of the build's frames.
    pub arrays: Vec<Array>,
    /// Single mounts, in the order of the file and along their edge.
    pub mounts: Vec<MountPlace>,
    /// Each frame that has hinges, lifted about them.
    pub lifts: Vec<Tilt>,
    /// The same at several angles up to that one; empty without hinges.
    pub tilts: Vec<Tilt>,
    /// What holds lifted frames up.
    pub props: Vec<PropPlace>,
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
    /// Part and piece of each mark, once all are known.
    pub(crate) by_mark: BTreeMap<String, (usize, usize)>,
}

impl Work {
    /// The part and the single piece with this mark.
    pub fn piece(&self, mark: &str) -> Option<(&Part, &Piece)> {
        if self.by_mark.is_empty() {
            return self.parts.iter().find_map(|part| {
                part.pieces.iter().find(|piece| piece.mark == mark).map(|piece| (part, piece))
            });
        }
        let (part, piece) = self.by_mark.get(mark)?;
        let part = self.parts.get(*part)?;
        Some((part, part.pieces.get(*piece)?))
    }

    /// Notes where each piece is; parts do not change from then on.
    pub(super) fn note_marks(&mut self) {
        self.by_mark.clear();
        for (index, part) in self.parts.iter().enumerate() {
            for (at, piece) in part.pieces.iter().enumerate() {
                self.by_mark.entry(piece.mark.clone()).or_insert((index, at));
            }
        }
    }

    /// The hole with this id.
    pub fn hole(&self, id: &str) -> Option<&Hole> {
        self.holes.iter().find(|hole| hole.id == id)
    }

    /// All panels in place, frame by frame.
    pub fn panels(&self) -> impl Iterator<Item = &PanelPlace> {
        self.arrays.iter().flat_map(|array| &array.panels)
    }

    /// Mounts of a frame, each with its place in [`Work::mounts`].
    pub fn mounts_of(&self, frame: usize) -> impl Iterator<Item = (usize, &MountPlace)> {
        self.mounts.iter().enumerate().filter(move |(_, mount)| mount.frame == frame)
    }

    /// Height of the vehicle afterwards, over its highest frame.
    pub fn height_after(&self) -> Option<Length> {
        self.arrays.iter().filter_map(|array| array.height_after).reduce(Length::max)
    }

    /// Parts of a kind.
    pub fn parts_of(&self, kind: PartKind) -> impl Iterator<Item = &Part> {
        self.parts.iter().filter(move |part| part.kind == kind)
    }
}
