//! Panels and frames in place.

use crate::geometry::{Point3, Rect};
use crate::source::Span;
use crate::units::Length;

/// One frame with its panels in place.
#[derive(Debug, Clone)]
pub struct Array {
    /// Which of the build's frames it is; arrays stand in their order.
    pub frame: usize,
    /// Its name, "frame" where it is the only one.
    pub name: String,
    /// Outside of the frame seen from above (X, Y).
    pub outline: Rect,
    /// Lower face of the tubes over the roof's zero height.
    pub under: Length,
    /// Upper face of the tubes, which is the lower edge of the panels.
    pub tube_top: Length,
    /// Highest point of the panels.
    pub top: Length,
    /// Highest skin under the array.
    pub crown: Length,
    /// Middles of the cross members along X, from the front.
    pub cross: Vec<Length>,
    /// Panels by mark.
    pub panels: Vec<PanelPlace>,
    /// Both diagonals of the finished frame, outside corner to outside corner.
    pub diagonal: Length,
    /// Height of the vehicle afterwards; absent where the height before was not given.
    pub height_after: Option<Length>,
    /// Place in the build file.
    pub span: Span,
}

/// One panel in place.
#[derive(Debug, Clone)]
pub struct PanelPlace {
    /// Mark, "P1".
    pub mark: String,
    /// Which `[[panel]]` it is.
    pub panel: usize,
    /// Outside seen from above.
    pub outline: Rect,
    /// Thickness of the packer under its middle, where there is one.
    pub packer: Option<Length>,
}

/// Hole through the roof for the cables.
#[derive(Debug, Clone)]
pub struct EntryPlace {
    /// Mark, "E1".
    pub mark: String,
    /// Middle, on the skin.
    pub at: Point3,
    /// Id of the hole.
    pub hole: String,
    /// Foot of the housing (X, Y).
    pub foot: Rect,
    /// Place in the build file.
    pub span: Span,
}
