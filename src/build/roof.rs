//! `[roof]`: what a straightedge and a tape tell.

use crate::source::{Span, Stated};
use crate::units::Length;

/// Roof shape and what is in the way.
#[derive(Debug, Clone)]
pub struct Roof {
    /// Where X and Y are zero, in words that a person with a tape understands.
    pub datum: Stated<String>,
    /// Along X from the datum.
    pub length: Stated<Length>,
    /// Across Y, half on each side of the centre line.
    pub width: Stated<Length>,
    /// How the shape was measured.
    pub shape: RoofShape,
    /// What the frame and feet must stay clear of.
    pub keep_outs: Vec<KeepOut>,
    /// Place of the table.
    pub span: Span,
}

/// How the shape was measured.
#[derive(Debug, Clone)]
pub enum RoofShape {
    /// Gaps under a straightedge.
    Gaps {
        /// Stations across the roof, by increasing X.
        stations: Vec<Station>,
        /// Gaps under a straightedge along the centre line, by increasing X; empty if not measured.
        along: Vec<Gap>,
        /// Place of `along`, for findings.
        along_span: Span,
    },
    /// One circular arc across, alike over the whole length.
    Crown(Crown),
    /// Level and flat (default where nothing is stated).
    Flat,
}

/// One station: a straightedge across the roof, level on the crown.
#[derive(Debug, Clone)]
pub struct Station {
    /// Distance behind the datum.
    pub x: Stated<Length>,
    /// Gaps by increasing Y.
    pub gaps: Vec<Gap>,
    /// Place of the station.
    pub span: Span,
}

/// One reading: distance along the straightedge and the gap down to the skin.
#[derive(Debug, Clone, Copy)]
pub struct Gap {
    /// Position along the straightedge (Y at a station, X along the centre line).
    pub at: Length,
    /// From the straightedge down to the skin; never negative.
    pub gap: Length,
    /// Place of the reading.
    pub span: Span,
}

/// Chord and rise of an arc across.
#[derive(Debug, Clone)]
pub struct Crown {
    /// Straight distance across.
    pub chord: Stated<Length>,
    /// Height of the arc over the middle of the chord.
    pub rise: Stated<Length>,
}

/// Something on the roof that stays.
#[derive(Debug, Clone)]
pub struct KeepOut {
    /// What it is.
    pub name: Stated<String>,
    /// Front edge.
    pub x: Stated<Length>,
    /// Left edge.
    pub y: Stated<Length>,
    /// Along X.
    pub length: Stated<Length>,
    /// Along Y.
    pub width: Stated<Length>,
    /// Over the skin.
    pub height: Stated<Length>,
    /// Place of the table.
    pub span: Span,
}
