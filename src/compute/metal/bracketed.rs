//! Brackets that are bolted through the skin or clamped on a rail: bolts with the prying of their leg,
//! the bracket in bending, spreader and skin, friction of a clamp along its rail.
//!
//! A pull U at the standing leg and a push H at its bolts turn the lying leg about its end (outboard
//! push) or its heel (inboard push); the row of bolts holds it. Statics of a rigid leg, all textbook.

use super::foot::{Entry, at_tube};
use super::hinge::{ALPHA, GRADE};
use super::joint::{self, JOINT, YIELD, strip_modulus};
use super::{Basis, EdgeLoad, MetalUse, entry_of, millimetres, newtons, worst};
use crate::build::{BoltedFoot, MountKind, RailClamp};
use crate::derive::{MountShape, PartKind};
use crate::source::Seen;
use crate::tables::{Section, Thread};
use crate::units::Length;

/// Friction of bare or painted metal on metal that is not looked after (common practice; EN 1993-1-8
/// table 3.7 has 0.2 for untreated surfaces).
const FRICTION: f64 = 0.15;

/// A lying leg on its bolts.
#[derive(Clone, Copy)]
struct Leg<'a> {
    section: &'a Section,
    /// Along the heel.
    length: Length,
    /// Bolts into the tube over the leg's upper face, mm.
    height: f64,
    /// From the heel to the row of bolts that holds it, mm.
    row: f64,
    /// From the heel to where the leg turns when it is pulled or pushed outboard, mm.
    turns: f64,
    bolt: &'a Thread,
}

impl Leg<'_> {
    /// Pull of one of the two bolts of the row.
    fn pull(&self, on: EdgeLoad) -> f64 {
        let (up, out, into) = (on.up.max(0.0), on.outboard.max(0.0), (-on.outboard).max(0.0));
        let about_end = (up * self.turns + out * self.height) / (self.turns - self.row).max(1.0);
        let about_heel = up + into * self.height / self.row.max(1.0);
        about_end.max(about_heel) / 2.0
    }

    /// Moments at the bend and at the row, N·mm.
    fn moments(&self, on: EdgeLoad) -> (f64, f64) {
        let thick = self.section.t.to_mm();
        let push = on.outboard.abs() * (self.height + thick / 2.0);
        (push, push + on.up.max(0.0) * (self.row - thick / 2.0).max(0.0))
    }

    fn judge(&self, basis: &Basis, index: usize, uses: &mut Vec<MetalUse>, entry: &Entry<'_>) {
        let Ok(grade) = basis.tables.bolt_grade(GRADE) else { return };
        let area = self.bolt.stress_area;
        let (shear_limit, pull_limit) = (
            joint::bolt_shear(ALPHA, grade.ultimate, area).to_n(),
            joint::bolt_tension(false, grade.ultimate, area).to_n(),
        );
        if let Some((share, pull, loaded)) = worst(basis, index, |on| {
            let (pull, shear) = (self.pull(on), on.outboard.hypot(on.lengthwise) / 2.0);
            (joint::together(shear / shear_limit, pull / pull_limit), pull)
        }) {
            uses.push(MetalUse {
                share,
                formula: "T = (U b + H h) / (b − a) / 2; V/Vᵣ + T/(1.4 Tᵣ), Tᵣ = 0.9 f Aₛ / 1.25",
                inputs: vec![
                    ("a, b".into(), format!("{:.1}, {:.1} mm from the heel", self.row, self.turns)),
                    ("h".into(), millimetres(self.height)),
                    ("bolt".into(), format!("{} {GRADE}, two", self.bolt.name)),
                ],
                source: "statics of a rigid leg; EN 1993-1-8:2005, table 3.4",
                seen: Seen::Verified,
                remedy: "take the next larger bolt, or a bracket with a longer lying leg",
                ..entry("down", "bolt that holds the leg down", pull, pull_limit, &loaded.case.name)
            });
        }
        self.bend(basis, index, uses, entry);
    }

    fn bend(&self, basis: &Basis, index: usize, uses: &mut Vec<MetalUse>, entry: &Entry<'_>) {
        let Ok(material) = basis.tables.material(&self.section.material) else { return };
        let yields = material.strength_at(self.section.t).proof.to_mpa() / YIELD;
        let whole = strip_modulus(self.length, self.section.t) * yields;
        let holes = self.bolt.clearance.medium * 2.0;
        let net = strip_modulus(self.length - holes, self.section.t) * yields;
        let Some((share, (at_bend, at_row), loaded)) = worst(basis, index, |on| {
            let (at_bend, at_row) = self.moments(on);
            ((at_bend / whole).max(at_row / net), (at_bend, at_row))
        }) else {
            return;
        };
        let by_row = at_row / net >= at_bend / whole;
        let (effect, capacity) = if by_row { (at_row, net) } else { (at_bend, whole) };
        uses.push(MetalUse {
            unit: "N·m",
            share,
            formula: "M = U a + H h ≤ l t²/6 f / 1.1",
            inputs: vec![
                ("a".into(), format!("{:.1} mm from heel to the bolts", self.row)),
                ("h".into(), format!("{:.1} mm from bend to bolts", self.height)),
                ("l".into(), self.length.to_string()),
                ("t".into(), self.section.t.to_string()),
                ("f".into(), format!("{:.0} MPa", yields * YIELD)),
            ],
            source: "statics; EN 1999-1-1, 6.2.5, elastic",
            seen: Seen::Memory,
            remedy: "take a longer bracket or a thicker angle",
            ..entry("bend", "bracket in bending", effect / 1e3, capacity / 1e3, &loaded.case.name)
        });
    }
}

/// A foot bolted through the skin.
pub(super) fn bolted(basis: &Basis, index: usize, uses: &mut Vec<MetalUse>) {
    let mount = &basis.work.mounts[index];
    let MountShape::BoltedFoot { bolt_height, row, .. } = &mount.kind else { return };
    let Some(MountKind::BoltedFoot(foot)) = basis.build.mounts.get(mount.mount).map(|m| &m.kind)
    else {
        return;
    };
    let entry = entry_of(&mount.mark, "foot", foot.bolt.span);
    at_tube(basis, index, (&foot.bolt.value, "foot angle to tube"), uses, &entry);
    let lying = foot.fold.as_ref().map_or(foot.angle.a.min(foot.angle.b), |fold| *fold.lying);
    let leg = Leg {
        section: &foot.angle,
        length: *foot.angle_length,
        height: bolt_height.to_mm(),
        row: row.to_mm(),
        turns: lying.to_mm(),
        bolt: &foot.roof_bolt,
    };
    let at_roof = entry_of(&mount.mark, "foot", foot.roof_bolt.span);
    leg.judge(basis, index, uses, &at_roof);
    spreader(basis, index, foot, &leg, uses);
    skin(basis, index, foot, lying, uses);
}

/// The plate below the skin: the bolts pull its middle down on the skin along its two long halves.
fn spreader(
    basis: &Basis,
    index: usize,
    foot: &BoltedFoot,
    leg: &Leg<'_>,
    uses: &mut Vec<MetalUse>,
) {
    let mark = &basis.work.mounts[index].mark;
    let plate = &foot.spreader;
    let yields = plate.material.strength_at(*plate.thickness).proof.to_mpa() / YIELD;
    let net = *plate.length - foot.roof_bolt.clearance.medium * 2.0;
    let capacity = strip_modulus(net, *plate.thickness) * yields;
    let wide = plate.width.to_mm();
    let moment = |on: EdgeLoad| leg.pull(on) * 2.0 * wide / 8.0;
    let Some((_, effect, loaded)) = worst(basis, index, |on| (moment(on), moment(on))) else {
        return;
    };
    uses.push(MetalUse {
        unit: "N·m",
        formula: "M = 2 T w / 8 ≤ l t²/6 f / 1.1",
        inputs: vec![
            ("2 T".into(), newtons(effect * 8.0 / wide.max(1e-9))),
            ("w".into(), plate.width.to_string()),
            ("l".into(), format!("{} less two holes", *plate.length)),
            ("t".into(), plate.thickness.to_string()),
            ("f".into(), format!("{:.0} MPa", yields * YIELD)),
        ],
        source: "statics, the skin pressing evenly; yield of the plate's row of the tables",
        remedy: "take a thicker spreader",
        ..entry_of(mark, "foot", plate.thickness.span)(
            "spreader",
            "spreader in bending",
            effect / 1e3,
            capacity / 1e3,
            &loaded.case.name,
        )
    });
}

/// The skin at the rim of the spreader when pulled up, at that of the leg when pressed down.
fn skin(basis: &Basis, index: usize, foot: &BoltedFoot, lying: Length, uses: &mut Vec<MetalUse>) {
    let Some(vehicle) = &basis.build.vehicle else { return };
    let (mark, skin) = (&basis.work.mounts[index].mark, &vehicle.skin);
    let proof = skin.material.strength_at(*skin.thickness).proof;
    let pads = [
        (
            "skin-pull",
            "roof skin pulled up",
            (*foot.spreader.length + *foot.spreader.width) * 2.0,
            "the spreader",
            (|on: EdgeLoad| on.up.max(0.0)) as fn(EdgeLoad) -> f64,
        ),
        (
            "skin-dent",
            "roof skin dented",
            (*foot.angle_length + lying) * 2.0,
            "the leg",
            |on: EdgeLoad| (-on.up).max(0.0),
        ),
    ];
    for (key, what, rim, pad, of) in pads {
        let capacity =
            joint::skin_at_rim(rim, *skin.thickness, proof, skin.material.modulus).to_n();
        let Some((_, effect, loaded)) = worst(basis, index, |on| (of(on), of(on))) else {
            continue;
        };
        uses.push(MetalUse {
            formula: "F ≤ u t f √(2 f / E) / 1.1",
            inputs: vec![
                ("F".into(), newtons(effect)),
                ("u".into(), format!("{} round {pad}", millimetres(rim.to_mm()))),
                ("t".into(), skin.thickness.to_string()),
                ("f".into(), format!("{:.0} MPa", proof.to_mpa())),
            ],
            source: "a cone of membrane round a stiff pad: statics and Hooke's law; no published source",
            remedy: "take a larger spreader, or set the foot over a roof bow",
            ..entry_of(mark, "foot", skin.thickness.span)(
                key,
                what,
                effect,
                capacity,
                &loaded.case.name,
            )
        });
    }
}

/// A clamp on a rail.
pub(super) fn clamp(basis: &Basis, index: usize, uses: &mut Vec<MetalUse>) {
    let mount = &basis.work.mounts[index];
    let MountShape::RailClamp { bolt_height, .. } = &mount.kind else { return };
    let Some(MountKind::RailClamp(clamp)) = basis.build.mounts.get(mount.mount).map(|m| &m.kind)
    else {
        return;
    };
    let Some([inner, outer]) = rows(basis, clamp) else { return };
    let entry = entry_of(&mount.mark, "clamp", clamp.bolt.span);
    at_tube(basis, index, (&clamp.bolt.value, "clamp angle to tube"), uses, &entry);
    let leg = Leg {
        section: &clamp.angle,
        length: *clamp.angle_length,
        height: bolt_height.to_mm(),
        row: inner,
        // The rail's outer edge lies beside the outer row.
        turns: f64::midpoint(inner, outer) + clamp.rail.width.to_mm() / 2.0,
        bolt: &clamp.clamp_bolt,
    };
    let at_rail = entry_of(&mount.mark, "clamp", clamp.clamp_bolt.span);
    leg.judge(basis, index, uses, &at_rail);
    friction(basis, index, clamp, uses, &at_rail);
}

/// Rows of bolts from the heel, from the holes of the lying leg.
fn rows(basis: &Basis, clamp: &RailClamp) -> Option<[f64; 2]> {
    let work = basis.work;
    let (number, part) = work
        .parts
        .iter()
        .enumerate()
        .find(|(_, part)| part.kind == PartKind::ClampAngle && part.span == clamp.angle.span)?;
    let lying = part.faces.iter().position(|face| face.name == "lying leg")?;
    let (low, high) = work
        .holes
        .iter()
        .filter(|hole| hole.part == number && hole.face == lying)
        .map(|hole| hole.at.y.to_mm())
        .fold((f64::MAX, 0.0_f64), |(low, high), y| (low.min(y), high.max(y)));
    (high - low > 0.5).then_some([low, high])
}

/// What keeps a clamp from sliding along its rail: its bolts' preload at the low end of its scatter.
pub(super) struct Grip {
    torque: f64,
    k: f64,
    /// Preload of all four bolts, N.
    all: f64,
}

pub(super) const SLIDES: &str = "L ≤ μ (2 × 4 F − U) / 1.25, F = T / (K d) less its scatter";
pub(super) const FRICTION_SOURCE: &str =
    "EN 1993-1-8:2005, 3.9.1, both faces of the rail; friction: common practice";

impl Grip {
    pub(super) fn new(basis: &Basis, clamp: &RailClamp) -> Option<Self> {
        let bolt = &clamp.clamp_bolt.value;
        let tight = basis.tightening.iter().find(|tight| tight.thread == bolt.name)?;
        let (torque, k) = (tight.torque.to_nm(), tight.factor.k);
        let preload = torque * 1e3 / (k * bolt.diameter.to_mm());
        let all = preload * (1.0 - tight.factor.scatter.to_percent() / 100.0) * 4.0;
        Some(Self { torque, k, all })
    }

    /// Along the rail while so much pulls it up, N.
    pub(super) fn holds(&self, up: f64) -> f64 {
        FRICTION * (2.0 * self.all - up.max(0.0)).max(0.0) / JOINT
    }

    pub(super) fn inputs(&self) -> Vec<(String, String)> {
        vec![
            ("μ".into(), FRICTION.to_string()),
            ("T".into(), format!("{:.1} N·m", self.torque)),
            ("K".into(), format!("{:.2}", self.k)),
            ("4 F".into(), newtons(self.all)),
        ]
    }
}

fn friction(
    basis: &Basis,
    index: usize,
    clamp: &RailClamp,
    uses: &mut Vec<MetalUse>,
    entry: &Entry<'_>,
) {
    let Some(grip) = Grip::new(basis, clamp) else { return };
    let Some((_, (effect, capacity), loaded)) = worst(basis, index, |on| {
        let (along, holds) = (on.lengthwise.abs(), grip.holds(on.up));
        (along / holds.max(1e-9), (along, holds))
    }) else {
        return;
    };
    uses.push(MetalUse {
        formula: SLIDES,
        inputs: grip.inputs(),
        source: FRICTION_SOURCE,
        seen: Seen::Memory,
        remedy: "take one clamp more, larger bolts, or a bolt through the rail as a stop",
        ..entry("slide", "clamp sliding along the rail", effect, capacity, &loaded.case.name)
    });
}
