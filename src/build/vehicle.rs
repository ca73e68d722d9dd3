//! `[vehicle]`.

use super::record::Photo;
use crate::source::{Span, Stated};
use crate::tables::Material;
use crate::units::{Length, Mass, Speed};

/// The vehicle that the equipment goes on.
#[derive(Debug, Clone)]
pub struct Vehicle {
    /// What it is, in the reader's words.
    pub name: Stated<String>,
    /// Ground to the highest point before the work; absent where height does not matter.
    pub height: Option<Stated<Length>>,
    /// Highest speed that the loads are worked out for.
    pub speed: Stated<Speed>,
    /// Roof skin.
    pub skin: RoofSkin,
    /// What the roof may carry by the vehicle's maker.
    pub limit: Option<RoofLimit>,
    /// Its mass and how high the middle of that lies, where stated.
    pub balance: Option<Balance>,
    /// What runs under the skin, in the reader's words: each is looked for before drilling.
    pub behind_roof: Vec<Stated<String>>,
    /// Photographs of it for the sheet of sizes.
    pub photos: Vec<Photo>,
    /// Place of the table.
    pub span: Span,
}

/// Where the vehicle's own weight lies.
#[derive(Debug, Clone, Copy)]
pub struct Balance {
    /// Mass of the vehicle as it is driven.
    pub mass: Stated<Mass>,
    /// Ground to its centre of gravity.
    pub centre_height: Stated<Length>,
    /// Its centre of gravity behind the datum.
    pub centre_x: Option<Stated<Length>>,
    /// Its centre of gravity right of the centre line; on it where not stated.
    pub centre_y: Stated<Length>,
}

/// Middle of a thing inside the vehicle.
#[derive(Debug, Clone, Copy)]
pub struct Centre {
    /// Behind the datum.
    pub x: Stated<Length>,
    /// Right of the centre line.
    pub y: Stated<Length>,
    /// Over the ground.
    pub over_ground: Stated<Length>,
}

/// Roof skin.
#[derive(Debug, Clone)]
pub struct RoofSkin {
    /// Material row.
    pub material: Stated<Material>,
    /// Thickness of the skin.
    pub thickness: Stated<Length>,
    /// What a bond would stick to.
    pub finish: Stated<Finish>,
}

/// What the surface of the skin is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Finish {
    /// Sound vehicle paint.
    Paint,
    /// Paint that is old, peeling, sprayed over or of unknown kind.
    OldPaint,
    /// Gelcoat of glass-reinforced plastic.
    Gelcoat,
    /// Gelcoat that has weathered to a chalky face.
    ChalkyGelcoat,
    /// Bare metal.
    Bare,
}

/// What the roof may carry.
#[derive(Debug, Clone)]
pub struct RoofLimit {
    /// While driving.
    pub moving: Stated<Mass>,
    /// People on it at once during the work.
    pub people: Stated<u32>,
    /// At rest, people included.
    pub standing: Stated<Mass>,
}
