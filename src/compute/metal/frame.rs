//! Tubes of the frame in bending: side tubes over their mounts, end and cross tubes between the side
//! tubes, all as beams that cross and carry each other.
//!
//! End and cross tubes take the air on the panels, each over half of the way to its neighbours, by the
//! local zones of the table; side tubes get it from them. Tubes are pinned to each other: connectors
//! and joint angles clamp less than they look, and panels stiffen nothing here. Both err on the safe
//! side.

use super::joint::{JOINT, YIELD};
use super::{Basis, Metal, MetalUse, TubeBow, corner, enter};
use crate::build::{Edge, Frame};
use crate::compute::beams::{Beam, Bent, Grid};
use crate::compute::loads::{springs, weight};
use crate::derive::{Array, HoleAt, HoleKind, Part, PartKind, Screw};
use crate::source::{Ledger, Seen};
use crate::tables::{Material, Section};
use crate::units::Length;

/// Nodes nearer to each other than this are one, mm.
const SAME: f64 = 1.0;
/// What could give way.
pub(super) const BENDING: &str = "tube in bending";
/// Bumps of rough roads beside the weight itself, in g (as in the load cases).
const BUMP: f64 = 2.0;

/// The frame as a grid: beams 0 and 1 are the side tubes, then the tubes across from the front.
struct Tubes {
    grid: Grid,
    /// Places across the vehicle, from the front, mm.
    across: Vec<f64>,
    /// Places of supports along each side tube, mm.
    supports: [Vec<f64>; 2],
}

/// One frame with what lies on it.
#[derive(Clone, Copy)]
pub(super) struct Own<'a> {
    pub array: &'a Array,
    pub frame: &'a Frame,
}

/// A frame as a grid and how it lies under a case.
type Solved = (Tubes, Bent);

pub(super) fn frames(basis: &Basis, metal: &mut Metal, ledger: &mut Ledger) {
    for (array, frame) in basis.work.arrays.iter().zip(&basis.build.frames) {
        one_frame(basis, Own { array, frame }, metal, ledger);
    }
}

fn one_frame(basis: &Basis, own: Own, metal: &mut Metal, ledger: &mut Ledger) {
    let Own { array, frame } = own;
    let section = &frame.section.value;
    let Ok(material) = basis.tables.material(&section.material) else { return };
    let cases = [
        ("local suction", suction(basis, array)),
        ("air, snow or a bump pressing", pressing(basis, array)),
    ];
    let bent: Vec<Option<Solved>> = cases
        .iter()
        .map(|(_, by_strip)| {
            let tubes = tubes(basis, array, section, material, by_strip)?;
            let bent = tubes.grid.bend()?;
            Some((tubes, bent))
        })
        .collect();
    let Some(Some((model, _))) = bent.first() else { return };
    let count = model.grid.beams.len();
    let names: Vec<(String, PartKind)> = (0..count)
        .map(|beam| {
            let name = match (beam, kind_of(beam, count)) {
                (0, _) => "left side tube".to_owned(),
                (1, _) => "right side tube".to_owned(),
                (2, _) => "front end tube".to_owned(),
                (_, PartKind::EndTube) => "rear end tube".to_owned(),
                (n, _) => format!("cross tube {}", n - 2),
            };
            (name, kind_of(beam, count))
        })
        .collect();
    for (number, (name, kind)) in names.iter().enumerate() {
        let mut worst = (0.0, "");
        let mut bows = [Length::ZERO; 2];
        let mut longest = 0.0_f64;
        for (which, ((words, _), solved)) in cases.iter().zip(&bent).enumerate() {
            let Some((tubes, bent)) = solved else { continue };
            let moment = bent.beams[number].greatest_moment();
            if moment > worst.0 {
                worst = (moment, *words);
            }
            let beam = &tubes.grid.beams[number];
            let (first, last) = (beam.nodes[0].1, beam.nodes[beam.nodes.len() - 1].1);
            let mut stops = tubes.supports.get(number).cloned().unwrap_or_default();
            if stops.len() < 2 {
                stops = vec![first, last];
            }
            for pair in stops.windows(2) {
                longest = longest.max(pair[1] - pair[0]);
                let bow = Length::mm(bent.beams[number].sag(pair[0], pair[1]));
                bows[which] = bows[which].max(bow);
            }
        }
        let bow = TubeBow {
            frame: array.frame,
            name: name.clone(),
            span: Length::mm(longest),
            bow: bows,
        };
        metal.uses.push(bending(basis, own, (&bow, *kind), material, worst));
        metal.tubes.push(bow);
    }
    rivets(basis, own, (&bent, &cases), metal);
    let more = enough(basis, own, material, metal);
    metal.cross_tubes.push(more);
    let solved: Vec<(&str, &Bent)> = cases
        .iter()
        .zip(&bent)
        .filter_map(|((words, _), solved)| Some((*words, &solved.as_ref()?.1)))
        .collect();
    corner::corners(basis, own, &solved, material, &mut metal.uses, ledger);
}

fn bending(
    basis: &Basis,
    own: Own,
    (tube, kind): (&TubeBow, PartKind),
    material: &Material,
    (moment, case): (f64, &str),
) -> MetalUse {
    let section = &own.frame.section.value;
    let build = basis.build;
    let strength = material.strength_at(section.t);
    let Bears { whole, net, hole, capacity } = bears(basis, own, kind, material);
    MetalUse {
        key: format!("frame.{}", enter::key_of(build, tube.frame, &tube.name)),
        at: enter::named(build, tube),
        what: BENDING,
        case: case.to_owned(),
        effect: moment / 1e3,
        capacity: capacity / 1e3,
        unit: "N·m",
        share: moment / capacity.max(1e-9),
        formula: "M ≤ least of W f₀ / 1.1 and Wₙ fᵤ / 1.25",
        inputs: vec![
            ("W".into(), format!("{whole:.0} mm³")),
            ("Wₙ".into(), format!("{net:.0} mm³ with a hole of {hole} through both walls")),
            (
                "f₀, fᵤ".into(),
                format!("{:.0}, {:.0} MPa", strength.proof.to_mpa(), strength.ultimate.to_mpa()),
            ),
            ("longest stretch".into(), format!("{:.0} mm", tube.span.to_mm())),
        ],
        source: "beams on the mounts; EN 1999-1-1, 6.2.5",
        seen: Seen::Memory,
        remedy: "add a cross tube or a mount, or take a larger tube",
        span: own.frame.section.span,
    }
}

/// What a tube bears in bending.
struct Bears {
    /// Elastic modulus, mm³.
    whole: f64,
    /// The same beside its largest hole.
    net: f64,
    hole: Length,
    /// Moment, N·mm.
    capacity: f64,
}

fn bears(basis: &Basis, own: Own, kind: PartKind, material: &Material) -> Bears {
    let section = &own.frame.section.value;
    let strength = material.strength_at(section.t);
    let whole = section.modulus_x().to_mm3();
    let yields = whole * strength.proof.to_mpa() / YIELD;
    let hole = largest_hole(basis, own, kind).min((section.b - section.t * 2.0).max(Length::ZERO));
    // The hole in the upper and the lower wall at one place.
    let arm = (section.a - section.t).to_mm() / 2.0;
    let lost = 2.0 * hole.to_mm() * section.t.to_mm() * arm * arm;
    let net = (section.second_moment_x().to_mm4() - lost).max(0.0) / (section.a.to_mm() / 2.0);
    let breaks = net * strength.ultimate.to_mpa() / JOINT;
    Bears { whole, net, hole, capacity: yields.min(breaks) }
}

/// What a beam of the grid is: side tubes first, then those across from the front.
const fn kind_of(number: usize, count: usize) -> PartKind {
    match number {
        0 | 1 => PartKind::SideTube,
        2 => PartKind::EndTube,
        n if n + 1 == count => PartKind::EndTube,
        _ => PartKind::CrossTube,
    }
}

/// More cross tubes than this are no remedy.
const MOST_MORE: usize = 4;

/// How many cross tubes, spread evenly, make every tube hold and stay off the roof; none where the
/// frame holds as it is, or where more of them do not help.
fn enough(basis: &Basis, own: Own, material: &Material, metal: &Metal) -> Option<u32> {
    let mine = |entry: &&MetalUse| entry.what == BENDING && entry.span == own.frame.section.span;
    let room = own.array.under - own.array.crown;
    let bent_too_far = metal.uses.iter().filter(mine).any(|entry| entry.share > 1.0);
    let low = |tube: &TubeBow| tube.frame == own.array.frame && tube.bow[1] > room;
    if !bent_too_far && !metal.tubes.iter().any(low) {
        return None;
    }
    let has = own.array.cross.len();
    (has + 1..=has + MOST_MORE)
        .find(|count| holds_with(basis, own, material, *count))
        .and_then(|count| u32::try_from(count).ok())
}

fn holds_with(basis: &Basis, own: Own, material: &Material, count: usize) -> bool {
    let mut array = own.array.clone();
    let (from, long) = (array.outline.low().x, array.outline.width());
    array.cross = (1..=count).map(|k| from + long * (k as f64 / (count + 1) as f64)).collect();
    let section = &own.frame.section.value;
    let room = (array.under - array.crown).to_mm();
    [suction(basis, &array), pressing(basis, &array)].iter().enumerate().all(|(which, by_strip)| {
        let Some(tubes) = tubes(basis, &array, section, material, by_strip) else { return false };
        let Some(bent) = tubes.grid.bend() else { return false };
        bent.beams.iter().enumerate().all(|(number, beam)| {
            let kind = kind_of(number, bent.beams.len());
            let ends = &tubes.grid.beams[number].nodes;
            let (first, last) = (ends[0].1, ends[ends.len() - 1].1);
            let low = number > 1 && which == 1 && beam.sag(first, last) > room;
            beam.greatest_moment() <= bears(basis, own, kind, material).capacity && !low
        })
    })
}

/// The largest hole in any tube of a kind; those in the side walls are counted as if in the upper one.
fn largest_hole(basis: &Basis, own: Own, kind: PartKind) -> Length {
    let here = |part: &Part| {
        part.kind == kind && part.pieces.iter().any(|piece| piece.frame == Some(own.array.frame))
    };
    basis
        .work
        .holes
        .iter()
        .filter(|hole| basis.work.parts.get(hole.part).is_some_and(here))
        .filter(|hole| hole.kind != HoleKind::Drain)
        .map(|hole| hole.diameter)
        .fold(Length::ZERO, Length::max)
}

/// Line load of each tube across by its place: up positive, N/mm.
type ByStrip<'a> = Box<dyn Fn(f64, f64) -> f64 + 'a>;

/// Suction by zones less the panels' weight on a strip from one X to another, N/mm.
fn suction<'a>(basis: &'a Basis, array: &'a Array) -> ByStrip<'a> {
    let up = basis.loads.up;
    let q = basis.loads.driving.max(basis.loads.storm).to_mpa();
    let outline = array.outline;
    let (low, high) = (outline.low().x.to_mm(), outline.high().x.to_mm());
    let tenth = (high - low) / 10.0;
    let heavy = by_area(basis, array);
    Box::new(move |from, to| {
        let edge = (low + tenth - from).clamp(0.0, to - from)
            + (to - (high - tenth)).clamp(0.0, to - from);
        let inner = to - from - edge;
        // Of the rest a tenth on each side is zone B.
        q * -(edge * up.c + inner * (0.8 * up.a + 0.2 * up.b)) - heavy * (to - from)
    })
}

/// The greatest of air, snow and a bump down, with weight.
fn pressing<'a>(basis: &'a Basis, array: &'a Array) -> ByStrip<'a> {
    let down = basis.loads.down;
    let q = basis.loads.driving.max(basis.loads.storm).to_mpa();
    let heavy = by_area(basis, array);
    let snow = basis.loads.snow.map_or(0.0, crate::units::Pressure::to_mpa);
    let zones = 0.64 * down.a + 0.16 * down.b + 0.20 * down.c;
    let most = (q * zones).max(heavy * BUMP).max(snow) + heavy;
    Box::new(move |from, to| -most * (to - from))
}

/// Weight by area, N/mm².
fn by_area(basis: &Basis, array: &Array) -> f64 {
    weight(basis.loads.masses[array.frame]).to_n() / array.outline.area().to_mm2().max(1.0)
}

fn tubes(
    basis: &Basis,
    array: &Array,
    section: &Section,
    material: &Material,
    by_strip: &ByStrip,
) -> Option<Tubes> {
    let (low, high) = (array.outline.low(), array.outline.high());
    let half = section.b.to_mm() / 2.0;
    let xs = [low.x.to_mm() + half, high.x.to_mm() - half];
    let ys = [low.y.to_mm() + half, high.y.to_mm() - half];
    let mut across = vec![xs[0]];
    across.extend(array.cross.iter().map(|x| x.to_mm()));
    across.push(xs[1]);
    across.sort_by(f64::total_cmp);
    let stiffness = material.modulus.to_mpa() * section.second_moment_x().to_mm4();

    // Where each side tube and each end tube has nodes, and which mounts stand there.
    let mut along: [Vec<f64>; 2] = [across.clone(), across.clone()];
    let mut ends: [Vec<f64>; 2] = [ys.to_vec(), ys.to_vec()];
    for (_, mount) in basis.work.mounts_of(array.frame) {
        let (x, y) = (mount.at.x.to_mm(), mount.at.y.to_mm());
        match mount.edge {
            Edge::Left => add(&mut along[0], x),
            Edge::Right => add(&mut along[1], x),
            Edge::Front => add(&mut ends[0], y),
            Edge::Rear => add(&mut ends[1], y),
        }
    }
    let mut grid = Grid::default();
    let mut node = |grid: &mut Grid| {
        grid.nodes += 1;
        grid.nodes - 1
    };
    let line = |places: &[f64], grid: &mut Grid, node: &mut dyn FnMut(&mut Grid) -> usize| {
        places.iter().map(|at| (node(grid), *at)).collect::<Vec<(usize, f64)>>()
    };
    let sides = [line(&along[0], &mut grid, &mut node), line(&along[1], &mut grid, &mut node)];
    for side in &sides {
        grid.beams.push(Beam { nodes: side.clone(), stiffness, load: 0.0, turned: Vec::new() });
    }
    let at = |nodes: &[(usize, f64)], place: f64| {
        nodes
            .iter()
            .min_by(|a, b| (a.1 - place).abs().total_cmp(&(b.1 - place).abs()))
            .map(|(node, _)| *node)
    };
    let length = (ys[1] - ys[0]).max(1.0);
    for (number, x) in across.iter().enumerate() {
        let from = if number == 0 { low.x.to_mm() } else { f64::midpoint(across[number - 1], *x) };
        let to = across.get(number + 1).map_or(high.x.to_mm(), |next| f64::midpoint(*x, *next));
        let (left, right) = (at(&sides[0], *x)?, at(&sides[1], *x)?);
        let places: &[f64] = match number {
            0 => &ends[0],
            n if n + 1 == across.len() => &ends[1],
            _ => &ys,
        };
        let last = places.len() - 1;
        let nodes: Vec<(usize, f64)> = places
            .iter()
            .enumerate()
            .map(|(i, y)| match i {
                0 => (left, *y),
                i if i == last => (right, *y),
                _ => (node(&mut grid), *y),
            })
            .collect();
        // The whole width's load on the way between the side tubes' middles.
        let whole = by_strip(from, to) * (high.y - low.y).to_mm() / length;
        grid.beams.push(Beam { nodes, stiffness, load: whole, turned: Vec::new() });
    }
    let mut supports: [Vec<f64>; 2] = Default::default();
    let springs = springs(basis.work);
    for (index, mount) in basis.work.mounts_of(array.frame) {
        let spring = springs[index];
        let (x, y) = (mount.at.x.to_mm(), mount.at.y.to_mm());
        let held = match mount.edge {
            Edge::Left => at(&sides[0], x),
            Edge::Right => at(&sides[1], x),
            Edge::Front => at(&grid.beams[2].nodes, y),
            Edge::Rear => grid.beams.last().and_then(|beam| at(&beam.nodes, y)),
        }?;
        grid.springs.push((held, spring.stiffness[2]));
        match mount.edge {
            Edge::Left => supports[0].push(x),
            Edge::Right => supports[1].push(x),
            Edge::Front | Edge::Rear => {}
        }
    }
    for list in &mut supports {
        list.sort_by(f64::total_cmp);
    }
    Some(Tubes { grid, across, supports })
}

/// Adds a place unless one is there already; the mount then stands at that one.
fn add(places: &mut Vec<f64>, at: f64) {
    let (first, last) = (places[0], places[places.len() - 1]);
    let at = at.clamp(first, last);
    if places.iter().all(|known| (known - at).abs() > SAME) {
        places.push(at);
        places.sort_by(f64::total_cmp);
    }
}

/// Blind rivets of the angles that hold a cross tube's ends.
fn rivets(
    basis: &Basis,
    own: Own,
    (bent, cases): (&[Option<Solved>], &[(&str, ByStrip)]),
    metal: &mut Metal,
) {
    let here = |row: &Vec<HoleAt>| {
        row.iter().any(|at| {
            let piece = basis.work.piece(&at.piece).map(|(_, piece)| piece);
            piece.is_some_and(|piece| piece.frame == Some(own.array.frame))
        })
    };
    let Some((rivet, fastening)) = basis.work.fastenings.iter().find_map(|f| match &f.screw {
        Screw::BlindRivet { rivet, .. }
            if f.name == "joint angle to side tube" && f.places.iter().any(here) =>
        {
            Some((rivet, f))
        }
        _ => None,
    }) else {
        return;
    };
    let mut worst = (0.0_f64, "");
    let mut ends = 0_u32;
    for ((words, _), solved) in cases.iter().zip(bent) {
        let Some((tubes, _)) = solved else { continue };
        let crossing = 2..tubes.across.len();
        ends = 2 * u32::try_from(tubes.across.len().saturating_sub(2)).unwrap_or(0);
        for number in crossing.map(|n| n + 1) {
            let Some(beam) = tubes.grid.beams.get(number) else { continue };
            let long = beam.nodes[beam.nodes.len() - 1].1 - beam.nodes[0].1;
            let end = (beam.load * long / 2.0).abs();
            if end > worst.0 {
                worst = (end, *words);
            }
        }
    }
    if ends == 0 || worst.0 == 0.0 {
        return;
    }
    let count = fastening.places.iter().filter(|row| here(row)).count();
    let each = (count as f64 / f64::from(ends)).max(1.0);
    let (effect, capacity) = (worst.0 / each, rivet.shear.to_n() / JOINT);
    metal.uses.push(MetalUse {
        key: format!("frame.{}", enter::key_of(basis.build, own.array.frame, "joint-rivet")),
        at: match basis.build.frames.len() {
            0 | 1 => "cross tube".to_owned(),
            _ => format!("cross tube of {}", basis.build.the_frame(own.array.frame)),
        },
        what: "joint angle rivet in shear",
        case: worst.1.to_owned(),
        effect,
        capacity,
        unit: "N",
        share: effect / capacity.max(1e-9),
        formula: "V = w l / 2 / n ≤ F / 1.25",
        inputs: vec![
            ("n".into(), format!("{each:.0} rivets at an end")),
            ("rivet".into(), rivet.words.clone()),
        ],
        source: "least shear strength of the rivet by its row of the tables",
        seen: Seen::Computed,
        remedy: "add a cross tube",
        span: own.frame.cross_members.span,
    });
}
