//! Screws, bolts and rivets.

use crate::source::Span;
use crate::tables::{BlindRivet, RivetNut, TappingScrew, Thread};
use crate::units::{Angle, Length};

/// One kind of fastener at all its places.
#[derive(Debug, Clone)]
pub struct Fastening {
    /// What it does, "angle to side tube".
    pub name: String,
    /// What it is.
    pub screw: Screw,
    /// What it clamps, from the head: words and thickness.
    pub stack: Vec<(String, Length)>,
    /// How many in the whole work: as many as there are places.
    pub count: u32,
    /// Holes that it passes, from the head; one row a place.
    pub places: Vec<Vec<HoleAt>>,
    /// The axis leans so far from square to the layers under its head, as where a wedge lies between.
    pub lean: Angle,
    /// May be undone in use (knob or wing): no threadlocker.
    pub undone: bool,
    /// Place in the build file.
    pub span: Span,
}

/// A hole of one single piece, as a fastener passes it.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct HoleAt {
    /// Mark of the piece.
    pub piece: String,
    /// Id of the hole.
    pub hole: String,
}

/// What a fastener is.
#[expect(clippy::large_enum_variant, reason = "a few dozen in a packet; plain rows read best")]
#[derive(Debug, Clone, PartialEq)]
pub enum Screw {
    /// Bolt into a rivet nut, with a plain washer under its head.
    BoltInRivetNut {
        /// Thread row.
        thread: Thread,
        /// Standard length.
        length: Length,
        /// Rivet nut row.
        nut: RivetNut,
    },
    /// Bolt with a locking nut; plain washers under nut and hexagon head.
    BoltAndNut {
        /// Thread row.
        thread: Thread,
        /// Standard length.
        length: Length,
        /// Countersunk head.
        countersunk: bool,
        /// The washer under its head is a sealing washer.
        sealed: bool,
    },
    /// Tapping screw.
    Tapping {
        /// Screw row.
        screw: TappingScrew,
        /// Length.
        length: Length,
    },
    /// Blind rivet.
    BlindRivet {
        /// Rivet row.
        rivet: BlindRivet,
        /// Length for the stack.
        length: Length,
    },
    /// Clevis pin with a washer and a spring clip, taken out by hand.
    Pin {
        /// Diameter.
        diameter: Length,
        /// Standard length under its head.
        length: Length,
    },
}
