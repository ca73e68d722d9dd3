//! How the bracket of a foot or clamp meets a slope: bent from flat stuff, or straight on a wedge.

use crate::source::Stated;
use crate::tables::{Material, Section};
use crate::units::Length;

/// A bracket bent from sheet or flat bar. Legs are outside sizes, to where the outer faces would meet.
#[derive(Debug, Clone)]
pub struct Fold {
    /// Material row.
    pub material: Stated<Material>,
    /// Thickness.
    pub thickness: Stated<Length>,
    /// Leg that stands up to the tube.
    pub standing: Stated<Length>,
    /// Leg that lies outboard.
    pub lying: Stated<Length>,
    /// Inside radius of the bend.
    pub radius: Stated<Length>,
    /// Place of the neutral line from the inside as a share of the thickness, found by a trial bend;
    /// DIN 6935 tells it where none is stated.
    pub k: Option<Stated<f64>>,
}

impl Fold {
    /// Its cross-section as that of an angle, the bend's outside taken as sharp. The legs' sizes are
    /// what its metal is checked by.
    pub fn section(&self) -> Section {
        Section::folded(
            &self.material,
            (*self.standing, *self.lying, *self.thickness),
            *self.radius,
        )
    }
}

/// A wedge under the lying leg, which then needs no bend.
#[derive(Debug, Clone)]
pub struct Wedge {
    /// Material row.
    pub material: Stated<Material>,
    /// Thickness of its thin edge.
    pub least: Stated<Length>,
}
