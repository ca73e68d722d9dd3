//! The array lifted about its hinges while parked: what its hinges and its prop get in a storm, and
//! the gust that lifts it off its prop.
//!
//! Air acts square to the panels with the coefficients of EN 1991-1-4 table 7.6 at the tilt, full
//! blockage, a quarter of the depth behind the edge that meets the wind; above the table's last tilt as
//! on a board that stands in the wind. The array turns about its pins; its props hold it both ways, or,
//! where none is made, one from its far tube down to where that tube lies while driving.

use super::{Terrain, air, coefficients, weight};
use crate::build::{Build, Edge};
use crate::derive::{MountShape, PropPlace, Tilt, Work};
use crate::tables::Tables;
use crate::units::{Angle, Density, Force, Length, Mass, Pressure, Speed};

/// The lifted array.
#[derive(Debug, Clone, PartialEq)]
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
    /// Props at both ends hold the hinges alike.
    pub alike: bool,
    /// What one prop carries at each of its angles; empty where none is made.
    pub stands: Vec<PropLoad>,
}

/// What one prop carries at an angle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PropLoad {
    /// Tilt.
    pub angle: Angle,
    /// Along it, towards each other.
    pub push: Force,
    /// Along it, apart.
    pub pull: Force,
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

/// Last tilt of the table.
const TABLE_ENDS: Angle = Angle::deg(30.0);
/// Force coefficient of a board in the wind (EN 1991-1-4, 7.4.3 (2), signboards).
const BOARD: f64 = 1.8;

/// Force coefficients up and down.
fn forces(build: &Build, tables: &Tables, angle: Angle) -> Option<(f64, f64)> {
    let (up, down) = coefficients(build, tables, angle.min(TABLE_ENDS), 1.0)?;
    if angle <= TABLE_ENDS {
        return Some((up.force, down.force));
    }
    Some((up.force.min(-BOARD), down.force.max(BOARD)))
}

/// The line of a prop, or of all of a frame, at an angle.
struct Line {
    /// Its arm about the pins over the frame's depth.
    arm: f64,
    /// Inboard and up, from its foot to the frame.
    way: (f64, f64),
    /// How many share.
    count: f64,
}

fn line_of(work: &Work, frame: usize, angle: Angle, depth: Length) -> Line {
    let props: Vec<&PropPlace> = work.props.iter().filter(|prop| prop.frame == frame).collect();
    let stand = |prop: &&PropPlace| {
        prop.stands.iter().find(|stand| stand.asked == angle).map(|stand| stand.arm)
    };
    let found = props.first().and_then(|first| Some((first, stand(first)?)));
    match found {
        Some((prop, arm)) if !depth.is_zero() => {
            Line { arm: (arm / depth).max(1e-3), way: prop.way(angle), count: props.len() as f64 }
        }
        _ => {
            // The chord of the swing: half the tilt from upright.
            let half = angle / 2.0;
            Line { arm: half.cos(), way: (-half.sin(), half.cos()), count: 1.0 }
        }
    }
}

/// Moments of air and weight about the pins, over the depth.
struct Moments {
    lift: f64,
    press: f64,
    own: f64,
}

fn lifted_frame(
    build: &Build,
    work: &Work,
    tables: &Tables,
    tilt: &Tilt,
    (density, storm, mass): (Density, Pressure, Mass),
) -> Option<Lifted> {
    let array = work.arrays.get(tilt.frame)?;
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
    // Air at three quarters of the depth where the free edge meets the wind, weight at the middle.
    let moments = |angle: Angle| -> Option<((f64, f64), Moments)> {
        let (up, down) = forces(build, tables, angle)?;
        let air = (-up * (storm * area).to_n(), down * (storm * area).to_n());
        let own = weight.to_n() * 0.5 * angle.cos();
        Some((air, Moments { lift: air.0 * 0.75, press: air.1 * 0.75, own }))
    };
    let ((lift, press), about) = moments(tilt.angle)?;
    let line = line_of(work, tilt.frame, tilt.angle, depth);
    let prop = (about.lift - about.own) / line.arm;
    let push = (about.press + about.own) / line.arm;
    let (sine, cosine) = (tilt.angle.sin(), tilt.angle.cos());
    let reaction = |air_up: f64, pull: f64| {
        // Air square to the panel, weight down, the prop along its own line.
        let upright = air_up * cosine - weight.to_n() - pull * line.way.1;
        let level = -air_up * sine - pull * line.way.0;
        upright.hypot(level)
    };
    let hinge = reaction(lift, prop.max(0.0)).max(reaction(-press, -push));
    let (coefficient, _) = forces(build, tables, tilt.angle)?;
    let per_pascal = (-coefficient * (Pressure::pa(1.0) * area).to_n()) * 0.75;
    let tipping = if per_pascal > 0.0 { about.own / per_pascal } else { f64::INFINITY };
    let gust = (2.0 * tipping / density.to_kg_per_m3()).sqrt();
    let stood = work.props.iter().find(|prop| prop.frame == tilt.frame);
    let stands = stood.map_or_else(Vec::new, |prop| {
        let one = |angle: Angle| {
            let (_, about) = moments(angle)?;
            let line = line_of(work, tilt.frame, angle, depth);
            let each = line.arm * line.count;
            Some(PropLoad {
                angle,
                push: Force::n((about.press + about.own) / each),
                pull: Force::n(((about.lift - about.own) / each).max(0.0)),
            })
        };
        prop.stands.iter().filter_map(|stand| one(stand.asked)).collect()
    });
    // Props at both ends hold the hinges alike.
    let uneven = if line.count > 1.0 { 1.0 } else { UNEVEN };
    Some(Lifted {
        frame: tilt.frame,
        angle: tilt.angle,
        coefficient,
        gust: Speed::m_per_s(if depth.is_zero() { 0.0 } else { gust.min(100.0) }),
        prop: Force::n(prop.max(0.0)),
        push: Force::n(push),
        hinge: Force::n(hinge / hinges as f64 * uneven),
        alike: line.count > 1.0,
        stands,
    })
}

/// Mean wind in open country whose gusts reach a speed: the peak factor √(1 + 7 I) of EN 1991-1-4
/// at its least height.
pub(super) fn mean_of_gust(gust: Speed) -> Speed {
    let one =
        air::gust(air::STANDARD_DENSITY, Speed::m_per_s(1.0), Terrain::OPEN, Terrain::OPEN.least);
    gust / (1.0 + 7.0 * one.intensity).sqrt()
}
