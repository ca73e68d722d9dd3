//! `[[fixture]]`: something that is no panel, bolted through a skin by the holes of a stated part.

use super::direct::{DirectHole, HolePurpose};
use crate::source::{Span, Stated};
use crate::tables::{Adhesive, Material, Thread};
use crate::units::{Length, Mass};

/// What a fixture is bolted to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FixedOn {
    /// The roof: lying.
    Roof,
    /// The rear door: standing across the vehicle, facing backwards.
    RearDoor,
}

impl Fixture {
    /// The holes of its part that its bolts go through.
    pub fn holes<'a>(&'a self, all: &'a [DirectHole]) -> impl Iterator<Item = &'a DirectHole> {
        all.iter().filter(|hole| {
            hole.part.eq_ignore_ascii_case(&self.part) && *hole.purpose == HolePurpose::Clearance
        })
    }
}

/// A thing bolted through a skin.
#[derive(Debug, Clone)]
pub struct Fixture {
    /// Mark on the sheets.
    pub mark: Stated<String>,
    /// What it is.
    pub name: Stated<String>,
    /// What it is bolted to.
    pub on: Stated<FixedOn>,
    /// Mark of the stated part whose clearance holes are its bolts.
    pub part: Stated<String>,
    /// Middle of that part: behind the datum on a roof, right of the middle on a door.
    pub x: Stated<Length>,
    /// Middle of that part: right of the centre line on a roof, over the lower edge on a door.
    pub y: Stated<Length>,
    /// Its bolts.
    pub thread: Stated<Thread>,
    /// All that they hold outside, with what it carries; the part too, where a plate lies behind.
    pub mass: Stated<Mass>,
    /// Skin to the middle of that mass.
    pub reach: Stated<Length>,
    /// How far it stands off the skin.
    pub depth: Stated<Length>,
    /// Its width across the vehicle.
    pub width: Stated<Length>,
    /// Its length along a roof, or its height on a door.
    pub length: Stated<Length>,
    /// Material of the skin.
    pub skin: Stated<Material>,
    /// Thickness of the skin.
    pub skin_thickness: Stated<Length>,
    /// Thickness of the plate behind the skin; nothing for washers alone.
    pub backing: Option<Stated<Length>>,
    /// Opening to be cut: along a roof, or up a door, and across.
    pub opening: Option<[Stated<Length>; 2]>,
    /// Sealant between it and the skin.
    pub sealing: Stated<Adhesive>,
    /// Place of the table.
    pub span: Span,
}
