//! How a load spreads over the strips or beads under a plate that bends.
//!
//! The plate is a beam across the edge on a soft bed: each strip pushes back by its modulus over its
//! thickness. A pull at the standing leg and a moment there are worked out once each; a case is their
//! sum. Lengthwise plate and bracket are stiff, so a lever that way spreads evenly rising.

use super::layer::Layer;
use crate::compute::beams::{Beam, Grid};
use crate::derive::Bond;
use crate::units::Length;

/// Stretches that the plate's width is cut into, besides the edges of its strips.
const STRETCHES: u32 = 36;
/// Poisson's ratio where a material's row has none.
const POISSON: f64 = 0.3;

/// Response of layer and plate, by N of pull and N·mm of moment at the leg.
pub(super) struct Spread {
    /// Stress under each place that is stuck: by pull, by moment; N/mm².
    places: Vec<[f64; 2]>,
    /// Greatest moment of the plate by pull and by moment, N·mm.
    plate: [f64; 2],
    /// Half of the stuck length over its second moment along the plate, 1/mm³.
    lengthwise: f64,
}

/// What a load does to the joint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stress {
    /// Greatest pull by area, at the edge that peels; never under zero.
    pub peel: f64,
    /// Greatest moment across the plate, N·mm.
    pub plate_moment: f64,
}

impl Spread {
    /// Of a joint; `None` without anything stuck.
    pub fn new(bond: &Bond, layer: &Layer, plate_thickness: Length) -> Option<Self> {
        let width = bond.width.to_mm();
        let leg = bond.leg.to_mm().clamp(0.0, width);
        let bed = layer.modulus.to_mpa() / layer.thickness;
        let mut cuts: Vec<f64> =
            (0..=STRETCHES).map(|i| width * f64::from(i) / f64::from(STRETCHES)).collect();
        cuts.push(leg);
        for rect in layer.rects {
            cuts.extend([rect.low().y.to_mm(), rect.high().y.to_mm()]);
        }
        cuts.retain(|y| (0.0..=width).contains(y));
        cuts.sort_by(f64::total_cmp);
        cuts.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
        let leg_node = cuts.iter().position(|y| (y - leg).abs() < 1e-5)?;

        // Stuck length by width at a place, and what of it belongs to each node.
        let stuck = |low: f64, high: f64| -> f64 {
            layer
                .rects
                .iter()
                .map(|r| {
                    let (from, to) = (r.low().y.to_mm().max(low), r.high().y.to_mm().min(high));
                    (to - from).max(0.0) * r.width().to_mm()
                })
                .sum()
        };
        let tributary: Vec<f64> = (0..cuts.len())
            .map(|i| {
                let low = if i == 0 { cuts[0] } else { f64::midpoint(cuts[i - 1], cuts[i]) };
                let high = cuts.get(i + 1).map_or(cuts[i], |next| f64::midpoint(cuts[i], *next));
                stuck(low, high)
            })
            .collect();
        let material = &bond.plate;
        let poisson = material.poisson.unwrap_or(POISSON);
        let thick = plate_thickness.to_mm();
        let stiffness = material.modulus.to_mpa() * thick.powi(3) / 12.0 / (1.0 - poisson.powi(2))
            * bond.length.to_mm();
        let solve = |force: f64, moment: f64| {
            Grid {
                nodes: cuts.len(),
                beams: vec![Beam {
                    nodes: cuts.iter().copied().enumerate().collect(),
                    stiffness,
                    load: 0.0,
                    turned: vec![(leg_node, moment)],
                }],
                springs: tributary.iter().enumerate().map(|(n, area)| (n, area * bed)).collect(),
                forces: vec![(leg_node, force)],
            }
            .bend()
        };
        let (pulled, turned) = (solve(1.0, 0.0)?, solve(0.0, 1.0)?);
        let places = (0..cuts.len())
            .filter(|n| tributary[*n] > 0.0)
            .map(|n| [pulled.rise[n] * bed, turned.rise[n] * bed])
            .collect();
        Some(Self {
            places,
            plate: [pulled.beams[0].greatest_moment(), turned.beams[0].greatest_moment()],
            lengthwise: lengthwise(layer),
        })
    }

    /// Stress of a pull at the leg, a moment there that lifts the outboard edge, and a moment along
    /// the plate.
    pub fn stress(&self, pull: f64, outboard: f64, lengthwise: f64) -> Stress {
        let across = self
            .places
            .iter()
            .map(|[by_pull, by_moment]| pull * by_pull + outboard * by_moment)
            .fold(f64::NEG_INFINITY, f64::max);
        Stress {
            peel: (across + lengthwise.abs() * self.lengthwise).max(0.0),
            plate_moment: (pull * self.plate[0]).abs() + (outboard * self.plate[1]).abs(),
        }
    }
}

/// Farthest end over second moment along the plate, 1/mm³.
fn lengthwise(layer: &Layer) -> f64 {
    let area = layer.area().to_mm2();
    let middle =
        layer.rects.iter().map(|r| r.area().to_mm2() * r.centre().x.to_mm()).sum::<f64>() / area;
    let second: f64 = layer
        .rects
        .iter()
        .map(|r| {
            let long = r.width().to_mm();
            r.area().to_mm2() * (long * long / 12.0 + (r.centre().x.to_mm() - middle).powi(2))
        })
        .sum();
    let far = layer
        .rects
        .iter()
        .flat_map(|r| [r.low().x.to_mm(), r.high().x.to_mm()])
        .fold(0.0_f64, |far, x| far.max((x - middle).abs()));
    if second > 0.0 { far / second } else { 0.0 }
}
