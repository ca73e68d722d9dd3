//! Mounts as springs: how stiff each is, and where the frame is pinned to it.

use super::sharing::Spring;
use crate::build::Edge;
use crate::derive::{Bond, MountPlace, MountShape, Work};
use crate::geometry::{Point3, Rect};

/// Stiffness of a hinge with its bolts in any direction, `N/mm`. It matters only against other
/// mounts; from memory, an order of magnitude.
const HINGE_STIFFNESS: f64 = 4000.0;
/// Stiffness of a foot bolted through thin skin onto a spreader, `N/mm`: stiff in the skin's plane,
/// soft square to it, where skin and bracket bend. From memory, an order of magnitude.
const BOLTED_STIFFNESS: [f64; 3] = [2000.0, 2000.0, 500.0];
/// Stiffness of a clamp on a rail, `N/mm`; as a hinge's, the bracket bending with the pull.
const CLAMP_STIFFNESS: [f64; 3] = [2000.0, 2000.0, 1000.0];
/// Stiffness of a foot without a bond that found room, `N/mm`; its finding comes from derive.
const NO_BOND: f64 = 1000.0;
/// Shear modulus over modulus of a soft, nearly incompressible layer: 1/3.
const SHEAR_SHARE: f64 = 1.0 / 3.0;

/// Springs at the mounts: a hinge at its pin, a foot at the bolts that join it to the tube.
pub(crate) fn springs(work: &Work) -> Vec<Spring> {
    work.mounts
        .iter()
        .map(|mount| match &mount.kind {
            MountShape::Hinge { pin, .. } => {
                Spring { at: xyz(pin), stiffness: [HINGE_STIFFNESS; 3] }
            }
            MountShape::BondedFoot { .. } => foot(work, mount),
            MountShape::BoltedFoot { .. } => {
                Spring { at: pin_of(work, mount), stiffness: BOLTED_STIFFNESS }
            }
            MountShape::RailClamp { .. } => {
                Spring { at: pin_of(work, mount), stiffness: CLAMP_STIFFNESS }
            }
        })
        .collect()
}

fn xyz(p: &Point3) -> [f64; 3] {
    [p.x.to_mm(), p.y.to_mm(), p.z.to_mm()]
}

/// Where a foot is bolted to the tube: at its middle height.
pub(crate) fn pin_of(work: &Work, mount: &MountPlace) -> [f64; 3] {
    let [x, y, z] = xyz(&mount.at);
    let half = work.arrays.get(mount.frame).map_or(0.0, |a| (a.tube_top - a.under).to_mm() / 2.0);
    [x, y, z + half]
}

/// Height of the pin over the bond, mm.
pub(crate) fn pin_height(work: &Work, mount: &MountPlace) -> f64 {
    (pin_of(work, mount)[2] - mount.roof.z.to_mm()).max(0.0)
}

/// Tape and bead stretch side by side: their stiffnesses add up, whatever they may carry. A push at
/// the pin also tips the plate on its layer: `1/k = 1/kₛ + h²/k_θ`; a pull beside the middle of the
/// plate too: `1/k = 1/kₙ + e²/k_θ`.
fn foot(work: &Work, mount: &MountPlace) -> Spring {
    let at = pin_of(work, mount);
    let Some(bond) = work.bonds.iter().find(|b| b.mark == mount.mark) else {
        return Spring { at, stiffness: [NO_BOND; 3] };
    };
    let layers = layers(bond);
    let normal: f64 = layers.iter().map(|(k, rect)| k * rect.area().to_mm2()).sum();
    if normal <= 0.0 {
        return Spring { at, stiffness: [NO_BOND; 3] };
    }
    let [across, along] = [tilting(&layers, 1), tilting(&layers, 0)];
    let height = pin_height(work, mount);
    let middle = layers
        .iter()
        .map(|(k, rect)| k * rect.area().to_mm2() * rect.centre().y.to_mm())
        .sum::<f64>()
        / normal;
    let lever = bond.leg.to_mm() - middle;
    let series = |k: f64, arm: f64, turn: f64| 1.0 / (1.0 / k + arm * arm / turn.max(1e-9));
    let shear = normal * SHEAR_SHARE;
    let edgewise = series(shear, height, along);
    let crosswise = series(shear, height, across);
    let upright = series(normal, lever, across);
    let stiffness = match mount.edge {
        Edge::Left | Edge::Right => [edgewise, crosswise, upright],
        Edge::Front | Edge::Rear => [crosswise, edgewise, upright],
    };
    Spring { at, stiffness }
}

/// Strips and beads with their stiffness by area, N/mm³.
fn layers(bond: &Bond) -> Vec<(f64, Rect)> {
    let thick = bond.thickness.to_mm().max(0.1);
    let tape = bond.tape.as_ref().map_or(0.0, |(tape, _)| tape.modulus.to_mpa() / thick);
    let bead = bond.adhesive.as_ref().map_or(0.0, |row| row.modulus.to_mpa() / thick);
    let strips = bond.strips.iter().map(|rect| (tape, *rect));
    strips.chain(bond.beads.iter().map(|rect| (bead, *rect))).collect()
}

/// Stiffness against tipping about the layer's middle, N·mm per radian; axis 1: across the plate.
fn tilting(layers: &[(f64, Rect)], axis: usize) -> f64 {
    let of = |rect: &Rect| {
        let (centre, size) = if axis == 1 {
            (rect.centre().y.to_mm(), rect.height().to_mm())
        } else {
            (rect.centre().x.to_mm(), rect.width().to_mm())
        };
        (rect.area().to_mm2(), centre, size)
    };
    let weight: f64 = layers.iter().map(|(k, rect)| k * of(rect).0).sum();
    let middle =
        layers.iter().map(|(k, rect)| k * of(rect).0 * of(rect).1).sum::<f64>() / weight.max(1e-12);
    layers
        .iter()
        .map(|(k, rect)| {
            let (area, centre, size) = of(rect);
            k * area * (size * size / 12.0 + (centre - middle).powi(2))
        })
        .sum()
}
