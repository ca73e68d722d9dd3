//! The array lifted about its hinges while parked: what its hinges and its prop get in a storm, and
//! the gust that lifts it off its prop.
//!
//! Air acts square to the panels with the coefficients of EN 1991-1-4 table 7.6 at the tilt, full
//! blockage, a quarter of the depth behind the edge that meets the wind. The array turns about its
//! pins; a prop from its far tube down to where that tube lies while driving holds it both ways.

use super::{Terrain, air, coefficients, weight};
use crate::build::{Build, Edge};
use crate::derive::{MountShape, Tilt, Work};
use crate::tables::Tables;
use crate::units::{Angle, Density, Force, Mass, Pressure, Speed};

/// The lifted array.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lifted {
    /// Which of the frames it is.
    pub frame: usize,
    /// Tilt.
    pub angle: Angle,
    /// Uplift coefficient at the tilt; negative.
    pub coefficient: f64,
    /// Gust that lifts a plain prop off its foot; the array then turns over its hinges.
    pub gust: Speed,
    /// Pull on the prop in the parked storm, if it is fixed at both ends.
    pub prop: Force,
    /// Greatest force on one hinge in that storm.
    pub hinge: Force,
    /// Same for the greatest push on the prop.
    pub push: Force,
}

/// A single prop near one end leaves twice the mean to the hinges beside it.
const UNEVEN: f64 = 2.0;

pub(super) fn lifted(
    build: &Build,
    work: &Work,
    tables: &Tables,
    (density, storm, masses): (Density, Pressure, &[Mass]),
) -> Vec<Lifted> {
    let one = |tilt: &Tilt| {
        let mass = *masses.get(tilt.frame)?;
        lifted_frame(build, work, tables, tilt, (density, storm, mass))
    };
    work.lifts.iter().filter_map(one).collect()
}

fn lifted_frame(
    build: &Build,
    work: &Work,
    tables: &Tables,
    tilt: &Tilt,
    (density, storm, mass): (Density, Pressure, Mass),
) -> Option<Lifted> {
    let array = work.arrays.get(tilt.frame)?;
    let (up, down) = coefficients(build, tables, tilt.angle, 1.0)?;
    let hinges = work
        .mounts_of(tilt.frame)
        .filter(|(_, mount)| matches!(mount.kind, MountShape::Hinge { .. }))
        .count()
        .max(1);
    let area = array.outline.area();
    let depth = match tilt.edge {
        Edge::Left | Edge::Right => array.outline.height(),
        Edge::Front | Edge::Rear => array.outline.width(),
    };
    let weight = weight(mass);
    let (sine, cosine) = (tilt.angle.sin(), tilt.angle.cos());
    // Moments about the pins over the depth: air at three quarters where the free edge meets the
    // wind, weight at the middle.
    let own = weight.to_n() * 0.5 * cosine;
    let lift = |q: Pressure| -up.force * (q * area).to_n();
    let press = |q: Pressure| down.force * (q * area).to_n();
    // The prop is the chord of the swing: its arm about the pins is depth × cos(θ/2).
    let arm = (tilt.angle / 2.0).cos();
    let prop = (lift(storm) * 0.75 - own) / arm;
    let push = (press(storm) * 0.75 + own) / arm;
    let reaction = |air_up: f64, prop_down: f64| {
        // Air square to the panel, weight down, prop along its chord (half the tilt from upright).
        let (half_sine, half_cosine) = ((tilt.angle / 2.0).sin(), (tilt.angle / 2.0).cos());
        let upright = air_up * cosine - weight.to_n() - prop_down * half_cosine;
        let level = air_up * sine - prop_down * half_sine;
        upright.hypot(level)
    };
    let hinge = reaction(lift(storm), prop.max(0.0)).max(reaction(-press(storm), -push));
    let per_pascal = lift(Pressure::pa(1.0)) * 0.75;
    let tipping = if per_pascal > 0.0 { own / per_pascal } else { f64::INFINITY };
    let gust = (2.0 * tipping / density.to_kg_per_m3()).sqrt();
    Some(Lifted {
        frame: tilt.frame,
        angle: tilt.angle,
        coefficient: up.force,
        gust: Speed::m_per_s(if depth.is_zero() { 0.0 } else { gust.min(100.0) }),
        prop: Force::n(prop.max(0.0)),
        push: Force::n(push),
        hinge: Force::n(hinge / hinges as f64 * UNEVEN),
    })
}

/// Mean wind in open country whose gusts reach a speed: the peak factor √(1 + 7 I) of EN 1991-1-4
/// at its least height.
pub(super) fn mean_of_gust(gust: Speed) -> Speed {
    let one =
        air::gust(air::STANDARD_DENSITY, Speed::m_per_s(1.0), Terrain::OPEN, Terrain::OPEN.least);
    gust / (1.0 + 7.0 * one.intensity).sqrt()
}
