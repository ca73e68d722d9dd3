//! Bonded feet: bolts and rivet nuts at the tube, the tube's wall, the bracket at its bend, plate
//! screws, the plate over its tape, the roof skin at the plate's rim.

use super::hinge::{ALPHA, GRADE};
use super::joint::{self, JOINT, YIELD, strip_modulus};
use super::{Basis, EdgeLoad, MetalUse, entry_of, millimetres, newtons, worst};
use crate::build::{BondedFoot, Latch, LatchKind, Mount, MountKind};
use crate::compute::bonding::{BondUse, written};
use crate::derive::bearing::bearings;
use crate::derive::{HoleKind, MountShape, PartKind, Screw};
use crate::source::Seen;
use crate::tables::Thread;
use crate::units::{Length, Pressure};

/// Bolts through the standing leg.
const BOLTS: f64 = 2.0;

struct Foot<'a> {
    foot: &'a BondedFoot,
    /// Bolts over the upper face of the lying leg, mm.
    height: f64,
    /// Rows of plate screws from the heel, mm.
    rows: [f64; 2],
}

pub(super) fn foot(basis: &Basis, index: usize, bonds: &[BondUse], uses: &mut Vec<MetalUse>) {
    let mount = &basis.work.mounts[index];
    let MountShape::BondedFoot { bolt_height, .. } = &mount.kind else { return };
    let Some((foot, _)) = written(basis.build, basis.work, &mount.mark) else { return };
    let Some(rows) = screw_rows(basis, foot) else { return };
    let it = Foot { foot, height: bolt_height.to_mm(), rows };
    let entry = entry_of(&mount.mark, "foot", foot.bolt.span);
    at_tube(basis, index, (&foot.bolt.value, "foot angle to tube"), uses, &entry);
    bracket(basis, index, &it, uses, &entry);
    plate(basis, &it, bonds.iter().find(|b| b.mark == mount.mark), uses, &entry);
    skin(basis, index, &it, uses, &entry);
}

/// Distances of the screw rows from the heel, from the holes of the lying leg.
fn screw_rows(basis: &Basis, foot: &BondedFoot) -> Option<[f64; 2]> {
    let (number, part) = basis
        .work
        .parts
        .iter()
        .enumerate()
        .find(|(_, p)| p.kind == PartKind::FootAngle && p.span == foot.angle.span)?;
    let lying = part.faces.iter().position(|face| face.name == "lying leg")?;
    let rows = basis
        .work
        .holes
        .iter()
        .filter(|hole| hole.part == number && hole.face == lying)
        .map(|hole| hole.at.y.to_mm());
    let (low, high) = rows.fold((f64::MAX, 0.0_f64), |(low, high), y| (low.min(y), high.max(y)));
    (high - low > 0.5).then_some([low, high])
}

pub(super) type Entry<'e> = dyn Fn(&str, &'static str, f64, f64, &str) -> MetalUse + 'e;

/// Bolts and rivet nuts by which a mount holds its tube, and the tube's wall.
pub(super) fn at_tube(
    basis: &Basis,
    index: usize,
    (bolt, joint): (&Thread, &str),
    uses: &mut Vec<MetalUse>,
    entry: &Entry,
) {
    let Some(frame) = basis.build.frames.get(basis.work.mounts[index].frame) else { return };
    let Ok(grade) = basis.tables.bolt_grade(GRADE) else { return };
    let latch = written_at(basis, index).and_then(|mount| mount.kind.latch());
    latched(basis, index, latch, uses, entry);
    if latch.is_some_and(|latch| *latch.kind == LatchKind::DrawLatch) {
        return;
    }
    let nut = basis.work.fastenings.iter().find_map(|f| match &f.screw {
        Screw::BoltInRivetNut { nut, thread, .. }
            if f.name == joint && thread.name == bolt.name =>
        {
            Some(nut)
        }
        _ => None,
    });
    let Some(nut) = nut else { return };
    let one = |on: EdgeLoad| (on.up.hypot(on.lengthwise) / BOLTS, on.outboard.max(0.0) / BOLTS);
    let shear_limit = joint::bolt_shear(ALPHA, grade.ultimate, bolt.stress_area).to_n();
    let pull_limit = joint::bolt_tension(false, grade.ultimate, bolt.stress_area).to_n();
    let bolts = vec![("bolt".to_owned(), format!("{} {GRADE}, two", bolt.name))];
    let remedy = "take the next larger bolt with its rivet nut";
    if let Some((share, (shear, _), loaded)) = worst(basis, index, |on| {
        let (shear, pull) = one(on);
        (joint::together(shear / shear_limit, pull / pull_limit), (shear, pull))
    }) {
        uses.push(MetalUse {
            share,
            formula: "V/Vᵣ + T/(1.4 Tᵣ), Vᵣ = 0.5 f Aₛ / 1.25, Tᵣ = 0.9 f Aₛ / 1.25",
            inputs: bolts,
            source: "EN 1993-1-8:2005, table 3.4",
            seen: Seen::Verified,
            remedy,
            ..entry("bolt", "foot bolt", shear, shear_limit, &loaded.case.name)
        });
    }
    let nut_inputs = || vec![("nut".to_owned(), nut.words.clone())];
    if let Some((_, shear, loaded)) = worst(basis, index, |on| (one(on).0, one(on).0)) {
        uses.push(MetalUse {
            formula: "V ≤ F / 1.25",
            inputs: nut_inputs(),
            source: "shear strength of the rivet nut by its row of the tables",
            remedy,
            ..entry("nut", "rivet nut in shear", shear, nut.shear.to_n() / JOINT, &loaded.case.name)
        });
        let section = &frame.section;
        if let Ok(material) = basis.tables.material(&section.material) {
            let ultimate = material.strength_at(section.t).ultimate;
            let edge = nut_edge(basis).unwrap_or(section.a / 2.0);
            let factors = joint::bearing_factors(nut.hole, edge, edge, f64::INFINITY);
            let wall = joint::bearing(factors, ultimate, bolt.diameter, section.t, false).to_n();
            uses.push(MetalUse {
                formula: "V ≤ k α f d t / 1.25",
                inputs: vec![
                    ("k, α".into(), format!("{:.2}, {:.2}", factors.1, factors.0)),
                    ("hole".into(), nut.hole.to_string()),
                    ("edge".into(), edge.to_string()),
                    ("f".into(), format!("{:.0} MPa", ultimate.to_mpa())),
                    ("t".into(), section.t.to_string()),
                ],
                source: "EN 1999-1-1, 8.5.5, in the form of EN 1993-1-8 table 3.4",
                seen: Seen::Memory,
                remedy: "take a tube with a thicker wall, or a smaller bolt farther from the edge",
                ..entry("wall", "tube wall, tearing out", shear, wall, &loaded.case.name)
            });
            pull_out(basis, index, uses, entry, (nut, ultimate, section.t));
            leg(basis, index, uses, entry, (bolt, shear, &loaded.case.name));
        }
    }
    // Knobs are tightened by hand.
    let by_wrench = latch.is_none();
    if let Some(tight) = basis.tightening.iter().find(|t| by_wrench && t.thread == bolt.name) {
        let turning = joint::turning_of_nut(
            tight.torque,
            tight.factor.k,
            (bolt.diameter, bolt.pitch),
            (nut.hole, nut.flange_diameter),
        );
        uses.push(MetalUse {
            unit: "N·m",
            formula: "M = F (0.159 P + 0.577 μ d − 0.05 r) ≤ torque that turns the nut, F = T / (K d)",
            inputs: vec![
                ("nut".into(), nut.words.clone()),
                ("T".into(), format!("{:.1} N·m", tight.torque.to_nm())),
                ("K".into(), format!("{:.2}", tight.factor.k)),
            ],
            source: "MIL-HDBK-60, 100.5.2, short form, less the least friction of the clamped flange; spin torque by the nut's row",
            remedy: "tighten less, or take a rivet nut with a hexagonal body",
            ..entry("spin", "rivet nut turning", turning.to_nm(), nut.spin_torque.to_nm(), "tightening")
        });
    }
}

/// The standing leg of the bracket under its bolts, with the share of full bearing that its least hole has.
fn leg(
    basis: &Basis,
    index: usize,
    uses: &mut Vec<MetalUse>,
    entry: &Entry,
    (bolt, shear, case): (&Thread, f64, &str),
) {
    let section = match written_at(basis, index).map(|mount| &mount.kind) {
        Some(MountKind::BondedFoot(foot)) => &foot.angle,
        Some(MountKind::BoltedFoot(foot)) => &foot.angle,
        Some(MountKind::RailClamp(clamp)) => &clamp.angle,
        _ => return,
    };
    let Ok(material) = basis.tables.material(&section.material) else { return };
    let work = basis.work;
    let brackets = work.parts.iter().enumerate().filter(|(_, part)| {
        part.span == section.span && matches!(part.kind, PartKind::FootAngle | PartKind::ClampAngle)
    });
    let least = brackets
        .flat_map(|(number, part)| {
            let standing = |face: usize| part.faces[face].name == "standing leg";
            bearings(work, number).into_iter().filter(move |one| standing(one.face))
        })
        .min_by(|a, b| a.share.total_cmp(&b.share));
    let share = least.as_ref().map_or(1.0, |one| one.share);
    let ultimate = material.strength_at(section.t).ultimate;
    let holds = joint::bearing((share, 2.5), ultimate, bolt.diameter, section.t, true).to_n();
    uses.push(MetalUse {
        formula: "V ≤ k α f d t / 1.25, k α 1.5 at most",
        inputs: vec![
            (
                "k α".into(),
                least.map_or_else(
                    || "2.5, full bearing".to_owned(),
                    |one| format!("{:.2}: {} {} from {}", 2.5 * one.share, one.hole, one.has,
                        one.beside.unwrap_or_else(|| "an edge".into())),
                ),
            ),
            ("f".into(), format!("{:.0} MPa", ultimate.to_mpa())),
            ("d, t".into(), format!("{}, {}", bolt.diameter, section.t)),
        ],
        source: "EN 1999-1-1, 8.5.5, in the form of EN 1993-1-8 table 3.4; 3.6.1 (10) for a single lap",
        seen: Seen::Memory,
        remedy: "put the bolts farther from the edges of the bracket, or take a thicker one",
        ..entry("leg", "bracket under its bolts, tearing out", shear, holds, case)
    });
}

fn written_at<'a>(basis: &'a Basis, index: usize) -> Option<&'a Mount> {
    basis.build.mounts.get(basis.work.mounts[index].mount)
}

/// A latch against what it holds by its own sheet.
fn latched(
    basis: &Basis,
    index: usize,
    latch: Option<&Latch>,
    uses: &mut Vec<MetalUse>,
    entry: &Entry,
) {
    let Some((latch, strength)) = latch.and_then(|latch| Some((latch, latch.strength.as_ref()?)))
    else {
        return;
    };
    let each = f64::from(latch.kind.each());
    let force =
        |on: EdgeLoad| on.up.max(0.0).hypot(on.outboard.max(0.0)).hypot(on.lengthwise) / each;
    if let Some((_, effect, loaded)) = worst(basis, index, |on| (force(on), force(on))) {
        uses.push(MetalUse {
            formula: "F = √(U² + H² + L²) / n ≤ strength",
            inputs: vec![
                ("latch".into(), latch.kind.words().to_owned()),
                ("n".into(), latch.kind.each().to_string()),
                ("strength".into(), strength.value.to_string()),
            ],
            source: "statics; strength by the latch's own sheet, in the build file",
            remedy: "take a stronger latch, or one mount more with its own",
            span: strength.span,
            ..entry("latch", "latch", effect, strength.to_n(), &loaded.case.name)
        });
        let keeper = basis.work.fastenings.iter().find_map(|fastening| match &fastening.screw {
            Screw::BlindRivet { rivet, .. } if fastening.name == "keeper to tube" => Some(rivet),
            _ => None,
        });
        if let Some(rivet) = keeper.filter(|_| *latch.kind == LatchKind::DrawLatch) {
            let one = effect / 2.0;
            uses.push(MetalUse {
                formula: "V = F / 2 ≤ F_r / 1.25",
                inputs: vec![("rivet".into(), rivet.words.clone()), ("n".into(), "2".into())],
                source: "least shear strength of the rivet by its row of the tables (ISO 15977)",
                remedy: "take a latch with more rivets, or one mount more with its own",
                span: latch.kind.span,
                ..entry(
                    "keeper",
                    "rivet of the latch's keeper",
                    one,
                    rivet.shear.to_n() / JOINT,
                    &loaded.case.name,
                )
            });
        }
    }
}

fn pull_out(
    basis: &Basis,
    index: usize,
    uses: &mut Vec<MetalUse>,
    entry: &Entry,
    (nut, ultimate, wall): (&crate::tables::RivetNut, Pressure, Length),
) {
    let Some((_, pull, loaded)) = worst(basis, index, |on| {
        let one = on.outboard.max(0.0) / BOLTS;
        (one, one)
    }) else {
        return;
    };
    let through = joint::punching(nut.hole, wall, ultimate).to_n();
    uses.push(MetalUse {
        formula: "T ≤ least of F / 1.25 and 0.6 π d t f / 1.25",
        inputs: vec![
            ("nut".into(), nut.words.clone()),
            ("d".into(), nut.hole.to_string()),
            ("t".into(), wall.to_string()),
        ],
        source: "pull-out by its row of the tables; EN 1993-1-8:2005, table 3.4, punching",
        remedy: "take a larger rivet nut or a thicker wall",
        ..entry(
            "pull-out",
            "rivet nut pulled out",
            pull,
            through.min(nut.pull_out.to_n() / JOINT),
            &loaded.case.name,
        )
    });
}

/// Nearest edge of any rivet nut's hole in a tube.
fn nut_edge(basis: &Basis) -> Option<Length> {
    basis
        .work
        .holes
        .iter()
        .filter(|hole| hole.kind == HoleKind::RivetNut)
        .map(|hole| hole.edge.has)
        .reduce(Length::min)
}

fn bracket(basis: &Basis, index: usize, it: &Foot, uses: &mut Vec<MetalUse>, entry: &Entry) {
    let section = &it.foot.angle.value;
    let Ok(material) = basis.tables.material(&section.material) else { return };
    let yields = material.strength_at(section.t).proof.to_mpa() / YIELD;
    let length = *it.foot.angle_length;
    let thick = section.t.to_mm();
    // At the bend the push at the bolts; at the first row of screws the pull as well.
    let root = |on: EdgeLoad| on.outboard.abs() * (it.height + thick / 2.0);
    let row = |on: EdgeLoad| {
        (on.up.max(0.0) * (it.rows[0] - thick / 2.0)).max(0.0)
            + on.outboard.abs() * (it.height + thick / 2.0)
    };
    let whole = strip_modulus(length, section.t) * yields;
    let holes = it.foot.plate_screw.clearance.medium * 2.0;
    let net = strip_modulus(length - holes, section.t) * yields;
    if let Some((share, (at_bend, at_row), loaded)) = worst(basis, index, |on| {
        let (at_bend, at_row) = (root(on), row(on));
        ((at_bend / whole).max(at_row / net), (at_bend, at_row))
    }) {
        let by_row = at_row / net >= at_bend / whole;
        let (effect, capacity) = if by_row { (at_row, net) } else { (at_bend, whole) };
        uses.push(MetalUse {
            unit: "N·m",
            share,
            formula: "M = U a + H h ≤ l t²/6 f / 1.1",
            inputs: vec![
                ("a".into(), format!("{:.1} mm from heel to the first screws", it.rows[0])),
                ("h".into(), format!("{:.1} mm from bend to bolts", it.height)),
                ("l".into(), length.to_string()),
                ("t".into(), section.t.to_string()),
                ("f".into(), format!("{:.0} MPa", yields * YIELD)),
            ],
            source: "statics; EN 1999-1-1, 6.2.5, elastic",
            seen: Seen::Memory,
            remedy: "take a longer bracket or a thicker angle",
            ..entry("bend", "bracket in bending", effect / 1e3, capacity / 1e3, &loaded.case.name)
        });
    }
    let Ok(grade) = basis.tables.bolt_grade(GRADE) else { return };
    let screw = &it.foot.plate_screw.value;
    let limit = joint::bolt_tension(true, grade.ultimate, screw.stress_area).to_n();
    let apart = it.rows[1] - it.rows[0];
    // The heel is pulled up beside the screws: the row nearer to it takes more than the whole pull.
    let pull = |on: EdgeLoad| {
        (on.up.max(0.0) * it.rows[1] + on.outboard.abs() * (it.height + thick)) / apart / 2.0
    };
    if let Some((_, effect, loaded)) = worst(basis, index, |on| (pull(on), pull(on))) {
        uses.push(MetalUse {
            formula: "T = (U a₂ + H h) / (a₂ − a₁) / 2 ≤ 0.63 f Aₛ / 1.25",
            inputs: vec![
                ("a₁, a₂".into(), format!("{:.1}, {:.1} mm", it.rows[0], it.rows[1])),
                ("screw".into(), format!("{} {GRADE}, two a row", screw.name)),
            ],
            source: "EN 1993-1-8:2005, table 3.4, countersunk",
            seen: Seen::Verified,
            remedy: "take the next larger plate screw",
            ..entry("screw", "plate screw in tension", effect, limit, &loaded.case.name)
        });
    }
}

fn plate(
    basis: &Basis,
    it: &Foot,
    bond: Option<&BondUse>,
    uses: &mut Vec<MetalUse>,
    entry: &Entry,
) {
    let Some(bond) = bond else { return };
    let plate = &it.foot.plate;
    let yields = plate.material.strength_at(*plate.thickness).proof.to_mpa() / YIELD;
    // Two countersinks in a row are cut out.
    let net = *plate.length - it.foot.plate_screw.countersunk_head.diameter * 2.0;
    let capacity = strip_modulus(net, *plate.thickness) * yields;
    let _ = basis;
    let (moment, case) = &bond.plate_moment;
    uses.push(MetalUse {
        unit: "N·m",
        formula: "M ≤ l t²/6 f / 1.1, M of the plate on its elastic layer",
        inputs: vec![
            ("l".into(), format!("{} less two countersinks", *plate.length)),
            ("t".into(), plate.thickness.to_string()),
            ("f".into(), format!("{:.0} MPa", yields * YIELD)),
        ],
        source: "beam on an elastic layer; yield of the plate's row of the tables",
        remedy: "take a thicker plate",
        span: plate.thickness.span,
        ..entry("plate", "plate bending over its tape", moment / 1e3, capacity / 1e3, case)
    });
}

fn skin(basis: &Basis, index: usize, it: &Foot, uses: &mut Vec<MetalUse>, entry: &Entry) {
    let Some(vehicle) = &basis.build.vehicle else { return };
    let (skin, plate) = (&vehicle.skin, &it.foot.plate);
    let rim = (*plate.length + *plate.width) * 2.0;
    let capacity = joint::skin_at_rim(
        rim,
        *skin.thickness,
        skin.material.strength_at(*skin.thickness).proof,
        skin.material.modulus,
    )
    .to_n();
    let inputs = || {
        vec![
            ("u".to_owned(), format!("{} round the plate", millimetres(rim.to_mm()))),
            ("t".to_owned(), skin.thickness.to_string()),
            ("f".to_owned(), format!("{:.0} MPa", skin.material.proof.to_mpa())),
        ]
    };
    for (key, what, of) in [
        ("skin-pull", "roof skin pulled up", (|on| on.up.max(0.0)) as fn(EdgeLoad) -> f64),
        ("skin-dent", "roof skin dented", |on| (-on.up).max(0.0)),
    ] {
        let Some((_, effect, loaded)) = worst(basis, index, |on| (of(on), of(on))) else {
            continue;
        };
        let mut found = MetalUse {
            formula: "F ≤ u t f √(2 f / E) / 1.1",
            inputs: inputs(),
            source: "a cone of membrane round a stiff pad: statics and Hooke's law; no published source",
            remedy: "take a larger plate, set it over a roof bow, or bond a spreader plate under the skin",
            span: skin.thickness.span,
            ..entry(key, what, effect, capacity, &loaded.case.name)
        };
        found.inputs.insert(0, ("F".to_owned(), newtons(effect)));
        uses.push(found);
    }
}
