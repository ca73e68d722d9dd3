//! Wood screws pulled along their length, bolts through a floor, and what the floor bears under them.

use super::screw::{self, GAMMA_M, K_MOD, Shear};
use crate::build::{Anchor, Restraint, ThroughBolt, WoodScrew};
use crate::compute::cables::share;
use crate::tables::{Material, MaterialKind, Tables};
use crate::units::{Density, Force, Length};

/// Load duration of ten minutes (NDS table 2.3.2; from memory).
const C_D: f64 = 1.6;
/// Characteristic density over the mean that tables give (EN 338: 350 of 420 kg/m³).
const CHARACTERISTIC: f64 = 0.83;
/// Oven-dry specific gravity over density at 12 % moisture (NDS; from memory).
const OVEN_DRY: f64 = 0.9;
/// Bolts and plates (EN 1993-1-8 table 2.1).
const GAMMA_M2: f64 = 1.25;

/// Characteristic withdrawal of screws in side grain, EN 1995-1-1:2004+A1:2008 (8.38) to (8.40), at right
/// angles to the grain; diameter and effective length in mm, density in kg/m³.
pub fn withdrawal_eurocode(diameter: Length, depth: Length, density: Density, count: f64) -> Force {
    let (d, lef) = (diameter.to_mm(), depth.to_mm());
    if d <= 0.0 || lef <= 0.0 || count <= 0.0 {
        return Force::ZERO;
    }
    let strength = 0.52 * d.powf(-0.5) * lef.powf(-0.1) * density.to_kg_per_m3().powf(0.8);
    Force::n(count.powf(0.9) * strength * d * lef * (d / 8.0).min(1.0))
}

/// Reference withdrawal of one wood screw in side grain, NDS 12.2.2: 2850 G² D pounds an inch of thread.
pub fn withdrawal_nds(diameter: Length, depth: Length, gravity: f64) -> Force {
    let pounds = 2850.0 * gravity.powi(2) * diameter.to_inches() * depth.to_inches();
    Force::lbf(pounds.max(0.0))
}

/// Tension that a bolt bears, N: 0.9 f A / 1.25 (EN 1993-1-8 table 3.4), N/mm² and mm².
pub fn steel_tension(ultimate: f64, area: f64) -> f64 {
    0.9 * ultimate * area / GAMMA_M2
}

/// Shear that the thread of a bolt of class 4.6, 5.6 or 8.8 bears, N: 0.6 f A / 1.25 (the same).
pub fn steel_shear(ultimate: f64, area: f64) -> f64 {
    0.6 * ultimate * area / GAMMA_M2
}

/// What screws of a fitting may be pulled with by design: the lesser of the two codes.
pub(super) fn screws(screw: &WoodScrew, count: u32, held: &Restraint) -> Force {
    let depth = held.floor_thickness.min(*screw.length);
    let mean = held.floor.density.min(screw::DENSEST);
    let count = f64::from(count);
    let eurocode = withdrawal_eurocode(*screw.diameter, depth, mean * CHARACTERISTIC, count)
        * (K_MOD / GAMMA_M);
    let gravity = mean.to_kg_per_m3() / 1000.0 * OVEN_DRY;
    let nds = withdrawal_nds(*screw.diameter, depth, gravity) * (count * C_D);
    eurocode.min(nds)
}

/// What one bolt through the floor bears by design.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bolt {
    /// Pulled up through the floor.
    pub pull: Force,
    /// What gives first.
    pub gives: &'static str,
    /// Across, through a thin metal foot.
    pub across: Force,
    /// Across, through a block.
    pub in_block: Force,
}

/// A bolt through the floor, with its plate under it.
pub(super) fn bolt(bolt: &ThroughBolt, held: &Restraint, tables: &Tables) -> Bolt {
    let thread = &*bolt.thread;
    let (d, floor) = (thread.diameter.to_mm(), held.floor_thickness.to_mm());
    let ultimate = bolt.grade.ultimate.to_mpa();
    let area = thread.stress_area.to_mm2();
    // Plate or large washer: sides, and what it bends under.
    let washer = thread.large_washer.outer.to_mm();
    let (sides, plate) = bolt.spreader.as_ref().map_or(((washer, washer), f64::INFINITY), |own| {
        let sides = (own.length.to_mm(), own.width.to_mm());
        let overhang = ((sides.0.max(sides.1) - thread.hex_width.to_mm()) / 2.0).max(0.1);
        let strength = own.material.strength_at(*own.thickness).proof.to_mpa();
        // A strip as wide as the plate under an even pressure: p a² / 2 = f t² / 6.
        let pressure = strength * own.thickness.to_mm().powi(2) / (3.0 * overhang * overhang);
        (sides, pressure * sides.0 * sides.1)
    });
    let hole = std::f64::consts::PI / 4.0 * (d + 1.0).powi(2);
    let pressed = if bolt.spreader.is_some() {
        (sides.0 * sides.1 - hole).max(0.0)
    } else {
        (std::f64::consts::PI / 4.0 * washer * washer - hole).max(0.0)
    };
    let round = if bolt.spreader.is_some() {
        2.0 * (sides.0 + sides.1)
    } else {
        std::f64::consts::PI * washer
    };
    let (crush, punch) = floor_bears(&held.floor, pressed, round * floor, tables);
    let ways = [
        (steel_tension(ultimate, area), "the bolt"),
        (plate, "the spreader plate"),
        (crush, "the floor, crushed"),
        (punch, "the floor, punched"),
    ];
    let least = ways.into_iter().min_by(|a, b| a.0.total_cmp(&b.0)).unwrap_or((0.0, "the bolt"));
    let density = held.floor.density.min(screw::DENSEST);
    let embeds = |density: Density| 0.082 * (1.0 - 0.01 * d) * density.to_kg_per_m3();
    let moment = screw::yield_moment(ultimate, thread.diameter);
    let wood = K_MOD / GAMMA_M;
    let thin =
        (0.4 * embeds(density) * floor * d).min(1.15 * (2.0 * moment * embeds(density) * d).sqrt());
    let shear = Shear {
        diameter: thread.diameter,
        head: *held.block_height,
        point: *held.floor_thickness,
        head_embedment: embeds(screw::BLOCK),
        point_embedment: embeds(density),
        yield_moment: moment,
    };
    Bolt {
        pull: Force::n(least.0),
        gives: least.1,
        across: Force::n((thin * wood).min(steel_shear(ultimate, area))),
        in_block: (shear.least() * wood).min(Force::n(steel_shear(ultimate, area))),
    }
}

/// What a floor bears under a plate, N: crushed over an area in mm², punched along a cut in mm².
fn floor_bears(floor: &Material, pressed: f64, cut: f64, tables: &Tables) -> (f64, f64) {
    let bends = floor.ultimate.to_mpa();
    if floor.kind == MaterialKind::Wood {
        let of = |name: &str| bends * share(tables, name).to_fraction() * K_MOD / GAMMA_M;
        // Three times as much under a washer (8.5.2 (2)).
        (3.0 * of("wood-crush") * pressed, of("wood-shear") * cut)
    } else {
        // EN 1993-1-8 table 3.4, punching; a sheet is not crushed before.
        (f64::INFINITY, 0.6 * bends * cut / GAMMA_M2)
    }
}

/// What one end of a strap may be pulled with, how it is told, and whether wood screws carry it.
pub(super) fn anchor(held: &Restraint, tables: &Tables) -> Option<(Force, String, bool)> {
    Some(match held.anchor.as_ref()? {
        Anchor::Fitting(capacity) => (**capacity, "fitting, by its maker".to_owned(), false),
        Anchor::Screws(screw, count) => {
            (screws(screw, **count, held), format!("{} wood screws, pulled along", **count), true)
        }
        Anchor::Bolts(own) => {
            let one = self::bolt(own, held, tables);
            let bolts = match *own.count {
                1 => format!("bolt {} through the floor", own.thread.name),
                many => format!("{many} bolts {} through the floor", own.thread.name),
            };
            let words = format!("{bolts}; {} gives first", one.gives);
            (one.pull * f64::from(*own.count), words, false)
        }
    })
}
