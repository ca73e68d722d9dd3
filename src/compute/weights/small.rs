//! What is too small to have a part of its own: fasteners, tape, adhesive, cables.

use crate::build::{Build, MountKind};
use crate::compute::electrics::{Conductor, Electrics};
use crate::compute::quantities::{self, packer_sealant};
use crate::derive::{Screw, Work};
use crate::tables::{Adhesive, Tables, Thread};
use crate::units::{Area, Density, Length, Mass, Volume};
use std::f64::consts::PI;

/// A density by its name; tables of a reader add rows, they take none away.
fn density(tables: &Tables, name: &str) -> Density {
    tables.densities.get(name).map_or(Density::kg_per_m3(0.0), |row| row.density)
}

fn round(diameter: Length) -> Area {
    diameter * diameter * (PI / 4.0)
}

/// A hexagon over its flats, without the chamfer.
fn hexagon(flats: Length) -> Area {
    flats * flats * (f64::sqrt(3.0) / 2.0)
}

/// All screws, nuts, washers and rivets: shanks of their stress area, heads and nuts as plain
/// hexagons or discs.
pub(super) fn fasteners(work: &Work, tables: &Tables) -> Mass {
    let metals = (density(tables, "steel-fastener"), density(tables, "aluminium-rivet"));
    let driven: Mass = work
        .fastenings
        .iter()
        .map(|fastening| one(&fastening.screw, metals) * f64::from(fastening.count))
        .sum();
    let loose: Mass = work.props.iter().map(|prop| one(&prop.foot_screw(), metals)).sum();
    driven + loose
}

fn one(screw: &Screw, (steel, aluminium): (Density, Density)) -> Mass {
    match screw {
        Screw::BoltInRivetNut { thread, length, nut } => {
            let body = (round(nut.hole) - round(thread.diameter)) * nut.length;
            let flange = (round(nut.flange_diameter) - round(nut.hole)) * nut.flange_thickness;
            steel * (bolt(thread, *length) + washer(thread) + body + flange)
        }
        Screw::BoltAndNut { thread, length, countersunk, sealed } => {
            let washers = if *countersunk { 1.0 } else { 2.0 + f64::from(u8::from(*sealed)) };
            let nut =
                (hexagon(thread.nut_width) - round(thread.diameter)) * thread.locking_nut_height;
            let shank = if *countersunk {
                // A cone from the shank to the head's rim.
                let head = thread.countersunk_head;
                thread.stress_area * *length + round(head.diameter) * (head.height / 3.0)
            } else {
                bolt(thread, *length)
            };
            steel * (shank + nut + washer(thread) * washers)
        }
        // A head of one and a half diameters, half as thick.
        Screw::Pin { diameter, length } => {
            steel * (round(*diameter) * *length + round(*diameter * 1.5) * (*diameter / 2.0))
        }
        Screw::Tapping { screw, length } => {
            steel * (round(screw.core) * *length + round(screw.head_diameter) * screw.head_height)
        }
        Screw::BlindRivet { rivet, length } => {
            aluminium
                * (round(rivet.diameter) * *length + round(rivet.head_diameter) * rivet.head_height)
        }
    }
}

fn bolt(thread: &Thread, length: Length) -> Volume {
    thread.stress_area * length + hexagon(thread.hex_width) * thread.hex_height
}

fn washer(thread: &Thread) -> Volume {
    let washer = thread.washer;
    (round(washer.outer) - round(washer.bore)) * washer.thickness
}

/// Tape and pressed beads under the mounts, seals and fillets.
pub(super) fn bonding(build: &Build, work: &Work) -> Mass {
    let tape: Mass = work
        .bonds
        .iter()
        .filter_map(|bond| {
            let (tape, thickness) = bond.tape.as_ref()?;
            let area: Area = bond.strips.iter().map(|strip| strip.area()).sum();
            Some(tape.density * (area * *thickness))
        })
        .sum();
    let kinds = adhesives(build, work);
    let laid: Mass = quantities::laid(build, work)
        .iter()
        .filter_map(|amount| {
            let kind = kinds.iter().find(|kind| kind.words == amount.what)?;
            Some(kind.density * amount.volume?)
        })
        .sum();
    tape + laid
}

fn adhesives<'a>(build: &'a Build, work: &'a Work) -> Vec<&'a Adhesive> {
    let beads = work.bonds.iter().filter_map(|bond| bond.adhesive.as_ref());
    let entry = build.entry.iter().map(|entry| &entry.sealing.value);
    let feet = build.mounts.iter().filter_map(|mount| match &mount.kind {
        MountKind::BoltedFoot(foot) => Some(&foot.sealing.value),
        _ => None,
    });
    beads.chain(entry).chain(feet).chain(packer_sealant(build)).collect()
}

/// Both conductors of the runs that are asked for, and what lies alone: copper and what is round it.
pub(super) fn cables(
    electrics: Option<&Electrics>,
    tables: &Tables,
    wanted: impl Fn(&str) -> bool,
) -> Mass {
    let (copper, around_it) = (density(tables, "copper"), density(tables, "cable-insulation"));
    let one = |conductor: &Conductor, cut: Length| {
        let around = conductor
            .outer
            .map_or(Area::ZERO, |outer| (round(outer) - conductor.area).max(Area::ZERO));
        copper * (conductor.area * cut) + around_it * (around * cut)
    };
    let Some(electrics) = electrics else { return Mass::ZERO };
    let pairs: Mass = electrics
        .runs
        .iter()
        .filter(|run| wanted(&run.mark))
        .filter_map(|run| Some(one(run.conductor.as_ref()?, run.cut.all) * 2.0))
        .sum();
    let alone: Mass = electrics
        .singles()
        .filter(|single| wanted(&single.mark))
        .map(|single| one(&single.conductor, single.cut.all))
        .sum();
    pairs + alone
}
