//! Hinges: pin, curled knuckles, leaf in bending, bolts to rail and tube.

use super::foot::Entry;
use super::joint::{self, JOINT, YIELD, strip_modulus};
use super::{Basis, MetalUse, entry_of, millimetres, newtons, worst};
use crate::build::MountKind;
use crate::derive::{MountShape, Screw};
use crate::source::Seen;
use crate::units::{Area, Length};

/// A butt hinge has three knuckles or more: the pin is cut in two planes or more.
const PLANES: f64 = 2.0;
/// Bolts of the shopping list.
pub(super) const GRADE: &str = "A2-70";
/// Bolts of stainless steel in shear, EN 1999-1-1 table 8.5.
pub(super) const ALPHA: f64 = 0.5;

pub(super) fn hinge(basis: &Basis, index: usize, uses: &mut Vec<MetalUse>) {
    let mount = &basis.work.mounts[index];
    let MountShape::Hinge { hinge, .. } = &mount.kind else { return };
    let Ok(steel) = basis.tables.material(&hinge.material) else { return };
    let Some(MountKind::Hinge(line)) = basis.build.mounts.get(mount.mount).map(|m| &m.kind) else {
        return;
    };
    let Ok(grade) = basis.tables.bolt_grade(GRADE) else { return };
    let lifted = basis
        .loads
        .lifted
        .iter()
        .find(|lifted| lifted.frame == mount.frame)
        .map_or(0.0, |lifted| lifted.hinge.to_n());
    let entry = |key: &str, what, effect: f64, capacity: f64, case: &str| MetalUse {
        remedy: "take a larger or thicker hinge, or one hinge more",
        ..entry_of(&mount.mark, "hinge", line.hinge.span)(key, what, effect, capacity, case)
    };
    // Pin and knuckles take the whole force, whichever way.
    let Some((_, most, loaded)) = worst(basis, index, |on| {
        let all = on.lengthwise.hypot(on.outboard).hypot(on.up);
        (all, all)
    }) else {
        return;
    };
    let (most, case) = if lifted > most {
        (lifted, "lifted, parked storm".to_owned())
    } else {
        (most, loaded.case.name.clone())
    };
    let cut = Area::mm2(std::f64::consts::PI * hinge.pin.to_mm().powi(2) / 4.0);
    let pin = joint::bolt_shear(0.6, steel.ultimate, cut).to_n() * PLANES;
    uses.push(MetalUse {
        formula: "F ≤ 2 × 0.6 f A / 1.25",
        inputs: vec![
            ("F".into(), newtons(most)),
            ("f".into(), format!("{:.0} MPa", steel.ultimate.to_mpa())),
            ("A".into(), format!("{:.1} mm²", cut.to_mm2())),
        ],
        source: "EN 1993-1-8:2005, 3.13.2; two planes, common practice for butt hinges",
        ..entry("pin", "hinge pin in shear", most, pin, &case)
    });
    let thick = hinge.thickness.to_mm();
    let arm = f64::midpoint(hinge.pin.to_mm(), thick);
    let curl =
        strip_modulus(hinge.length / 2.0, hinge.thickness) * steel.proof.to_mpa() / YIELD / arm;
    uses.push(MetalUse {
        formula: "F (d + t)/2 ≤ (l/2) t²/6 f / 1.1",
        inputs: vec![
            ("F".into(), newtons(most)),
            ("d".into(), millimetres(hinge.pin.to_mm())),
            ("t".into(), millimetres(thick)),
            ("l".into(), millimetres(hinge.length.to_mm())),
            ("f".into(), format!("{:.0} MPa", steel.proof.to_mpa())),
        ],
        source: "statics of an open curl; half of the length is one leaf's knuckles",
        ..entry("knuckle", "hinge knuckle opening", most, curl, &case)
    });
    // A pull at the pin bends the lying leaf over its bolts; it pivots about its outer edge.
    let Some((_, up, loaded)) = worst(basis, index, |on| (on.up, on.up.max(0.0))) else { return };
    let case = loaded.case.name.clone();
    let washer = line.bolt.washer.outer.to_mm() / 2.0;
    let lever = (hinge.hole_in.to_mm() - washer).max(0.0);
    let leaf = strip_modulus(hinge.length, hinge.thickness) * steel.proof.to_mpa()
        / YIELD
        / lever.max(0.1);
    uses.push(MetalUse {
        formula: "F a ≤ l t²/6 f / 1.1",
        inputs: vec![
            ("F".into(), newtons(up)),
            ("a".into(), format!("{lever:.1} mm from pin to washer")),
            ("l".into(), millimetres(hinge.length.to_mm())),
            ("t".into(), millimetres(thick)),
        ],
        source: "statics; yield of the leaf's row of the tables",
        ..entry("leaf", "hinge leaf bending", up, leaf, &case)
    });
    let behind = (hinge.leaf - hinge.hole_in).max(Length::mm(1.0));
    let pull = up * (hinge.leaf / behind) / f64::from(hinge.holes.max(1));
    let stress_area = line.bolt.stress_area;
    let bolt = joint::bolt_tension(false, grade.ultimate, stress_area).to_n();
    uses.push(MetalUse {
        formula: "T = F w / (w − a) / n ≤ 0.9 f Aₛ / 1.25",
        inputs: vec![
            ("F".into(), newtons(up)),
            ("w".into(), millimetres(hinge.leaf.to_mm())),
            ("a".into(), millimetres(hinge.hole_in.to_mm())),
            ("n".into(), hinge.holes.to_string()),
            ("bolt".into(), format!("{} {GRADE}", line.bolt.name)),
        ],
        source: "EN 1993-1-8:2005, table 3.4; the leaf pivots about its outer edge",
        seen: Seen::Verified,
        ..entry("bolt", "rail bolt in tension", pull, bolt, &case)
    });
    // The rail's metal is not stated: the weakest aluminium of the tables stands for it.
    if let Some(weak) = weakest(basis) {
        let wall = *line.rail.thickness;
        let through = joint::punching(line.bolt.washer.outer, wall, weak).to_n();
        uses.push(MetalUse {
            formula: "T ≤ 0.6 π d t f / 1.25",
            inputs: vec![
                ("T".into(), newtons(pull)),
                ("d".into(), format!("{} washer", line.bolt.washer.outer)),
                ("t".into(), wall.to_string()),
                ("f".into(), format!("{:.0} MPa, weakest aluminium of the tables", weak.to_mpa())),
            ],
            source: "EN 1993-1-8:2005, table 3.4, punching",
            remedy: "put a wider washer or a strip of plate under the rail's top",
            ..entry("rail", "rail top, bolt pulled through", pull, through, &case)
        });
    }
    tube_side(basis, index, uses, &entry);
}

/// Bolts of the upright leaf in their rivet nuts.
fn tube_side(basis: &Basis, index: usize, uses: &mut Vec<MetalUse>, entry: &Entry<'_>) {
    let Some(nut) = basis.work.fastenings.iter().find_map(|f| match &f.screw {
        Screw::BoltInRivetNut { nut, .. } if f.name == "hinge to tube" => Some(nut),
        _ => None,
    }) else {
        return;
    };
    let MountShape::Hinge { hinge, .. } = &basis.work.mounts[index].kind else { return };
    let count = f64::from(hinge.holes.max(1));
    let Some((_, shear, loaded)) = worst(basis, index, |on| {
        let one = on.up.hypot(on.lengthwise) / count;
        (one, one)
    }) else {
        return;
    };
    uses.push(MetalUse {
        formula: "V / n ≤ F / 1.25",
        inputs: vec![("n".into(), hinge.holes.to_string()), ("nut".into(), nut.words.clone())],
        source: "shear strength of the rivet nut by its row of the tables",
        remedy: "take a larger bolt with its rivet nut, or one hinge more",
        ..entry("nut", "rivet nut in shear", shear, nut.shear.to_n() / JOINT, &loaded.case.name)
    });
    let Some((_, pull, loaded)) = worst(basis, index, |on| {
        let one = on.outboard.max(0.0) / count;
        (one, one)
    }) else {
        return;
    };
    uses.push(MetalUse {
        formula: "T / n ≤ F / 1.25",
        inputs: vec![("n".into(), hinge.holes.to_string()), ("nut".into(), nut.words.clone())],
        source: "pull-out of the rivet nut by its row of the tables",
        remedy: "take a larger bolt with its rivet nut, or one hinge more",
        ..entry(
            "pull-out",
            "rivet nut pulled out",
            pull,
            nut.pull_out.to_n() / JOINT,
            &loaded.case.name,
        )
    });
}

/// Tensile strength of the weakest aluminium of the tables.
pub(super) fn weakest(basis: &Basis) -> Option<crate::units::Pressure> {
    use crate::tables::MaterialKind;
    basis
        .tables
        .materials
        .iter()
        .filter(|row| row.kind == MaterialKind::Aluminium)
        .map(|row| row.ultimate)
        .reduce(crate::units::Pressure::min)
}
