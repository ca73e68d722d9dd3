//! `[frame]` or `[[frame]]`: home-made frames under the panels.

use super::Corner;
use crate::source::{Span, Stated};
use crate::tables::{Material, Section, TappingScrew};
use crate::units::Length;

/// One frame and how the panels lie on it.
#[derive(Debug, Clone)]
pub struct Frame {
    /// Name used on every sheet, "frame" where it is the only one.
    pub name: Stated<String>,
    /// Tube that it is made of.
    pub section: Stated<Section>,
    /// How tubes meet at the corners.
    pub corner: Corner,
    /// Grid of panels.
    pub arrangement: Arrangement,
    /// Between neighbouring panels.
    pub gap: Stated<Length>,
    /// Where on the roof.
    pub position: Place,
    /// Of the frame beyond its panels.
    pub overhang: Overhang,
    /// From the highest point of the roof under the frame up to the lower face of the tubes.
    pub clearance: Stated<Length>,
    /// Tubes across between the two end tubes.
    pub cross_members: Stated<u32>,
    /// Screw from the tube up into the panel's flange.
    pub panel_screw: Stated<TappingScrew>,
    /// Length of that screw.
    pub panel_screw_length: Stated<Length>,
    /// Greatest distance between panel screws.
    pub panel_screw_pitch: Stated<Length>,
    /// Supports under the panel centres; absent: none.
    pub packer: Option<Packer>,
    /// Place of the table.
    pub span: Span,
}

/// Grid of panels. Columns count along X, rows along Y.
#[derive(Debug, Clone)]
pub struct Arrangement {
    /// Which way the panels' long side lies.
    pub long_side: Stated<LongSide>,
    /// Panels along Y.
    pub rows: Stated<u32>,
    /// Panels along X.
    pub columns: Stated<u32>,
}

/// Which way the panels' long side lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LongSide {
    /// Along Y.
    Across,
    /// Along X.
    Along,
}

/// Place of the frame: its front edge and the middle of its width.
#[derive(Debug, Clone)]
pub struct Place {
    /// Front edge behind the datum.
    pub x: Stated<Length>,
    /// Middle of the frame right of the centre line.
    pub y: Stated<Length>,
}

/// How far the frame reaches beyond its panels.
#[derive(Debug, Clone)]
pub struct Overhang {
    /// Ahead of them.
    pub front: Stated<Length>,
    /// Behind them.
    pub rear: Stated<Length>,
    /// Left of them.
    pub left: Stated<Length>,
    /// Right of them.
    pub right: Stated<Length>,
}

/// Soft support under the middle of each panel.
#[derive(Debug, Clone)]
pub struct Packer {
    /// What it is made of.
    pub material: Stated<Material>,
    /// Along X.
    pub length: Stated<Length>,
    /// Along Y.
    pub width: Stated<Length>,
    /// Room left between packer and back sheet, so that the sheet is not pressed.
    pub free: Stated<Length>,
}
