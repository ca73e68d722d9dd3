//! The frame lifted about its hinges.

use crate::build::Edge;
use crate::units::{Angle, Length};

/// What lifting the frame about its hinges does.
#[derive(Debug, Clone, PartialEq)]
pub struct Tilt {
    /// Which of the frames it is.
    pub frame: usize,
    /// Edge with the hinges.
    pub edge: Edge,
    /// Angle to which it is lifted.
    pub angle: Angle,
    /// Highest point of the lifted panels over roof zero.
    pub top: Length,
    /// Prop from where the far tube lies while driving to where it is when lifted.
    pub prop: Length,
    /// Length of cable that lifting takes between roof and frame.
    pub slack: Length,
    /// How far the panels' upper edge swings outboard of the pins.
    pub reach: Length,
    /// Least height of the tubes' lower face over the skin below it.
    pub clearance: Length,
    /// The keep-out that is nearest to the frame at this angle, and how near.
    pub keep_out: Option<(String, Length)>,
}
