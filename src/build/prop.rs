//! What holds a lifted frame up.

use crate::source::{Span, Stated};
use crate::tables::Section;
use crate::units::Length;

/// A bar with a row of holes, pinned to the outer face of the tube at a neighbouring edge and to the
/// bracket of a mount there. While driving it lies along that tube.
#[derive(Debug, Clone)]
pub struct Prop {
    /// Flat bar, square or rectangular tube.
    pub section: Stated<Section>,
    /// Marks of the mounts that it stands on: one prop at each neighbouring edge that has one.
    pub on: Vec<Stated<String>>,
    /// From the pins of the hinges to its pin in the tube; as far out as there is room where absent.
    pub at: Option<Stated<Length>>,
    /// Place of the table.
    pub span: Span,
}
