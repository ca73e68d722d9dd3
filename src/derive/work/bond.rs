//! Bonded joints.

use crate::geometry::Rect;
use crate::source::Span;
use crate::tables::{Adhesive, Material, Tape};
use crate::units::Length;

/// One bonded joint between a plate and the skin.
#[derive(Debug, Clone)]
pub struct Bond {
    /// Mark of the mount or entry.
    pub mark: String,
    /// Plate along its own x.
    pub length: Length,
    /// Plate along its own y.
    pub width: Length,
    /// Tape row and its thickness.
    pub tape: Option<(Tape, Length)>,
    /// Strips of tape in the plate's own axes.
    pub strips: Vec<Rect>,
    /// Adhesive row.
    pub adhesive: Option<Adhesive>,
    /// Pressed beads in the plate's own axes.
    pub beads: Vec<Rect>,
    /// Thickness of the bond where the plate is nearest to the skin.
    pub thickness: Length,
    /// Thickness of the bond where the plate is farthest from the skin.
    pub thickest: Length,
    /// Material of the plate, which moves with heat.
    pub plate: Material,
    /// Whether both faces keep moisture out, so that a bead cures from its open edges only.
    pub trapped: bool,
    /// Where the load comes in: leg over this line of the plate (own y).
    pub leg: Length,
    /// Place in the build file.
    pub span: Span,
}
