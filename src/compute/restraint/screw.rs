//! Wood screws in shear between a block and the floor, EN 1995-1-1:2004, 8.2.2 (from memory).
//!
//! The screw is driven down through the block, sunk until its point reaches through the floor, or as
//! far as its length goes. The rope effect is not counted: a block on the floor may gape.

use crate::units::{Density, Force, Length};

/// Short-term load, service classes 1 and 2 (table 3.1).
pub(super) const K_MOD: f64 = 0.9;
/// Connections (table 2.3).
pub(super) const GAMMA_M: f64 = 1.3;
/// Tensile strength of wood screws, N/mm²; a low value, common practice.
const STRENGTH: f64 = 400.0;
/// Effective diameter over nominal: 1.1 times the root (8.7.1 (3)), the root two thirds of the
/// diameter, common practice for wood screws with thread to the head.
const EFFECTIVE: f64 = 1.1 * 2.0 / 3.0;
/// Blocks are not stated: softwood C24, characteristic density (EN 338).
pub(super) const BLOCK: Density = Density::kg_per_m3(350.0);
/// What the embedment formulas hold for; a denser floor (metal) counts no more than hardwood.
pub const DENSEST: Density = Density::kg_per_m3(700.0);
/// Depth of the point over the diameter for full strength (8.3.1.2); with less the strength is taken
/// down in proportion, common practice.
const FULL_DEPTH: f64 = 6.0;

/// A screw through a block into the floor.
#[derive(Debug, Clone, Copy)]
pub struct Joint {
    /// Nominal diameter.
    pub diameter: Length,
    /// Length under the head.
    pub length: Length,
    /// Thickness of the floor.
    pub floor: Length,
    /// Density of the floor.
    pub floor_density: Density,
}

impl Joint {
    /// Force across one screw by design: least of the modes, times `k_mod` over `γ_M`.
    pub fn design_shear(&self) -> Force {
        let point = self.floor.min(self.length);
        let head = (self.length - point).max(Length::ZERO);
        let d = self.diameter * EFFECTIVE;
        let shear = Shear {
            diameter: d,
            head,
            point,
            head_embedment: embedment(BLOCK, d),
            point_embedment: embedment(self.floor_density, d),
            yield_moment: yield_moment(STRENGTH, d),
        };
        let depth = (point / (self.diameter * FULL_DEPTH)).min(1.0);
        shear.least() * (depth * K_MOD / GAMMA_M)
    }
}

/// Embedment strength of wood without a pilot hole, N/mm²: 0.082 ρ d^−0.3 (8.15), ρ in kg/m³, d in mm.
/// Lower than the value with a pilot hole, and than that of plywood (8.20).
pub fn embedment(density: Density, diameter: Length) -> f64 {
    0.082 * density.to_kg_per_m3() * diameter.to_mm().powf(-0.3)
}

/// Yield moment of a round fastener, N·mm: 0.3 `f_u` d^2.6 (8.14), `f_u` in N/mm², d in mm.
pub fn yield_moment(strength: f64, diameter: Length) -> f64 {
    0.3 * strength * diameter.to_mm().powf(2.6)
}

/// A fastener in single shear between two pieces of wood.
#[derive(Debug, Clone, Copy)]
pub struct Shear {
    /// Effective diameter.
    pub diameter: Length,
    /// Length in the piece under the head, t₁.
    pub head: Length,
    /// Length in the piece with the point, t₂.
    pub point: Length,
    /// Embedment strength of the former, N/mm².
    pub head_embedment: f64,
    /// Embedment strength of the latter, N/mm².
    pub point_embedment: f64,
    /// Yield moment of the fastener, N·mm.
    pub yield_moment: f64,
}

impl Shear {
    /// Characteristic force by each mode (a) to (f) of (8.6), without the rope effect. All zero where
    /// the fastener does not reach into both pieces.
    pub fn modes(&self) -> [Force; 6] {
        let (d, t1, t2) = (self.diameter.to_mm(), self.head.to_mm(), self.point.to_mm());
        let (f1, f2, m) = (self.head_embedment, self.point_embedment, self.yield_moment);
        if [d, t1, t2, f1, f2].iter().any(|v| *v <= 0.0) {
            return [Force::ZERO; 6];
        }
        let b = f2 / f1;
        let t = t2 / t1;
        let tilts = f1 * t1 * d / (1.0 + b)
            * ((b + 2.0 * b * b * (1.0 + t + t * t) + b.powi(3) * t * t).sqrt() - b * (1.0 + t));
        let bends_in = |t: f64, by: f64, first: f64| {
            1.05 * f1 * t * d / by * ((first + 4.0 * b * by * m / (f1 * d * t * t)).sqrt() - b)
        };
        [
            f1 * t1 * d,
            f2 * t2 * d,
            tilts,
            bends_in(t1, 2.0 + b, 2.0 * b * (1.0 + b)),
            bends_in(t2, 1.0 + 2.0 * b, 2.0 * b * b * (1.0 + b)),
            1.15 * (2.0 * b / (1.0 + b)).sqrt() * (2.0 * m * f1 * d).sqrt(),
        ]
        .map(Force::n)
    }

    /// The least of them.
    pub fn least(&self) -> Force {
        self.modes().into_iter().reduce(Force::min).unwrap_or(Force::ZERO)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn alike(t1: f64, t2: f64, moment: f64) -> [f64; 6] {
        let shear = Shear {
            diameter: Length::mm(10.0),
            head: Length::mm(t1),
            point: Length::mm(t2),
            head_embedment: 20.0,
            point_embedment: 20.0,
            yield_moment: moment,
        };
        shear.modes().map(Force::to_n)
    }

    #[test]
    fn a_stiff_pin_in_two_alike_pieces_holds_as_johansen_says() {
        // Johansen 1949: (√2 − 1) f t d for a stiff pin that tilts in two alike pieces.
        let modes = alike(40.0, 40.0, 1e6);
        let tilts = (2.0_f64.sqrt() - 1.0) * 20.0 * 40.0 * 10.0;
        assert!((modes[2] - tilts).abs() < 1e-9, "{modes:?}");
        // With alike pieces the modes of head and point are the same.
        assert!((modes[3] - modes[4]).abs() < 1e-9 && (modes[0] - modes[1]).abs() < 1e-9);
    }

    #[test]
    fn a_slim_pin_in_thick_pieces_bends_in_both() {
        // Two hinges in the pin: √(4 M f d) for alike pieces (statics), with the code's 1.15.
        let modes = alike(200.0, 200.0, 5000.0);
        let least = modes.into_iter().fold(f64::INFINITY, f64::min);
        assert!((least - 1.15 * (2.0 * 5000.0 * 20.0 * 10.0_f64).sqrt()).abs() < 1e-9);
        assert_eq!(least, modes[5]);
    }

    #[test]
    fn a_screw_that_does_not_pass_its_block_holds_nothing() {
        let joint = |length, floor| Joint {
            diameter: Length::mm(5.0),
            length: Length::mm(length),
            floor: Length::mm(floor),
            floor_density: Density::kg_per_m3(680.0),
        };
        assert_eq!(joint(15.0, 18.0).design_shear(), Force::ZERO);
        assert!(joint(60.0, 18.0).design_shear() > joint(60.0, 9.0).design_shear());
    }
}
