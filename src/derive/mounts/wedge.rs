//! A wedge under the lying leg of a foot: the angle keeps its right angle, the wedge takes the slope.
//!
//! Bolts stay square to the leg. Under a foot that is bolted through the skin a second wedge of the
//! same cut lies below, turned over, so that the nuts pull square on their plate.

use super::Site;
use super::flat::Flat;
use super::foot_stance::{Stance, frame_of};
use crate::build::Wedge;
use crate::derive::Drawing;
use crate::derive::rules::written;
use crate::derive::work::PartKind;
use crate::geometry::Frame3;
use crate::source::{Figure, Seen};
use crate::units::{Angle, Length, Unit, display};

/// A wedge's shape, seen across the edge of the frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Slant {
    /// Between its faces.
    pub angle: Angle,
    /// Thickness at the heel of the angle.
    pub heel: Length,
    /// Thickness at the end of the lying leg.
    pub toe: Length,
    /// Along the leg.
    pub width: Length,
}

impl Slant {
    /// Between a square leg and a plane at `base` to the standing one.
    pub fn new(base: Angle, thin: Length, width: Length) -> Self {
        let angle = (base - Angle::RIGHT).abs();
        let thick = thin + width * angle.tan();
        // Where the roof falls away outboard the toe is packed up.
        let (heel, toe) = if base > Angle::RIGHT { (thin, thick) } else { (thick, thin) };
        Self { angle, heel, toe, width }
    }

    /// Thickness so far from the heel.
    pub fn at(&self, from_heel: Length) -> Length {
        self.heel + (self.toe - self.heel) * (from_heel / self.width)
    }

    pub fn thin(&self) -> Length {
        self.heel.min(self.toe)
    }

    pub fn thick(&self) -> Length {
        self.heel.max(self.toe)
    }

    /// How the wedge was found.
    pub fn figure(&self, mark: &str, exact: Angle) -> Figure {
        let told = |length: Length| display::in_unit_short(length, Unit::MM, 1);
        let degrees = |angle: Angle| display::in_unit(angle, Unit::DEG, 1);
        Figure::new(
            format!("mount.{mark}.wedge"),
            format!("thick edge of the wedge at {mark}"),
            self.thick().to_mm(),
            "mm",
        )
        .formula("t = t₀ + w tan α, α = slope of the skin to the square leg")
        .input("t₀", told(self.thin()))
        .input("w", told(self.width))
        .input("α", degrees(self.angle))
        .input("exact", degrees((exact - Angle::RIGHT).abs()))
        .source("geometry on the measured roof", Seen::Computed)
        .assume("rounded to half a degree")
        .decides()
    }
}

/// Where a wedge lies by its flat face.
#[derive(Debug, Clone, Copy)]
pub(super) enum Lies {
    /// Its flat face up against the leg.
    UnderLeg,
    /// Turned over; its flat face so far below the leg.
    Below(Length),
}

/// Adds a wedge as long as the bracket.
pub(super) fn add(
    drawing: &mut Drawing<'_>,
    site: &Site<'_>,
    wedge: &Wedge,
    (stance, slant): (&Stance, &Slant),
    length: Length,
    lies: Lies,
) -> usize {
    Flat {
        kind: PartKind::Wedge,
        name: "foot wedge",
        length,
        width: slant.width,
        thickness: slant.thick(),
        place: place(stance, slant, length, lies),
        span: written(&[wedge.least.span, site.mount.span]),
    }
    .wedge(drawing, &wedge.material, slant.thin())
}

/// Own axes: y from the thin edge to the thick one, z out of the flat face.
fn place(stance: &Stance, slant: &Slant, length: Length, lies: Lies) -> Frame3 {
    let thick_outboard = slant.toe > slant.heel;
    let (depth, grows_outboard) = match lies {
        Lies::UnderLeg => (slant.thick(), thick_outboard),
        Lies::Below(flat) => (flat - slant.thick(), !thick_outboard),
    };
    let edge = if grows_outboard { Length::ZERO } else { slant.width };
    // Its own x runs with the heel where its z points up and its y outboard, or where both are turned.
    let with_heel = matches!(lies, Lies::UnderLeg) == grows_outboard;
    let side = if with_heel { -0.5 } else { 0.5 };
    let x = if with_heel { stance.heel_way } else { -stance.heel_way };
    let y = if grows_outboard { stance.out } else { -stance.out };
    let corner = stance.heel
        + stance.heel_way * (length * side)
        + stance.out * edge
        + stance.normal * -depth;
    frame_of(corner, x, y)
}
