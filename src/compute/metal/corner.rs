//! What the corners of a frame carry: the shear of the tubes that end there, by the angle in the inner
//! corner with its rivets or screws, or by the weld.
//!
//! Tubes are pinned to each other in the model of the frame, so no moment goes through a corner. The
//! angle is taken as hinged at its heel: each leg's row carries the shear and its lever to the row's
//! middle. Push-in connectors have no published strength: their force is told, and not judged.

use super::frame::Own;
use super::joint::{self, JOINT};
use super::{Basis, MetalUse, enter, newtons};
use crate::build::{Corner, CornerAngle, CornerFastener};
use crate::compute::beams::Bent;
use crate::source::{Figure, Ledger, Seen};
use crate::tables::{Material, MaterialKind};
use crate::units::{Length, Pressure};

/// What heat leaves of the ultimate strength of hard aluminium beside a weld: 100 of 170 `MPa` for
/// EN AW-6060 T6 (EN 1999-1-1, table 3.2b, from memory).
const HEATED: f64 = 0.59;

/// Greatest shear at the ends of the four outer tubes, with its case.
fn greatest<'c>(bent: &[(&'c str, &Bent)]) -> (f64, &'c str) {
    let mut worst = (0.0_f64, "");
    for (words, bent) in bent {
        let last = bent.beams.len().saturating_sub(1);
        for number in [0, 1, 2, last] {
            let shear =
                bent.beams.get(number).map_or(0.0, crate::compute::beams::BentBeam::end_shear);
            if shear > worst.0 {
                worst = (shear, *words);
            }
        }
    }
    worst
}

pub(super) fn corners(
    basis: &Basis,
    own: Own,
    bent: &[(&str, &Bent)],
    material: &Material,
    uses: &mut Vec<MetalUse>,
    ledger: &mut Ledger,
) {
    let (shear, case) = greatest(bent);
    let build = basis.build;
    let key = format!("frame.{}", enter::key_of(build, own.array.frame, "corner"));
    let at = match build.frames.len() {
        0 | 1 => "frame corner".to_owned(),
        _ => format!("corner of {}", build.the_frame(own.array.frame)),
    };
    let start = MetalUse {
        key: key.clone(),
        at: at.clone(),
        what: "",
        case: case.to_owned(),
        effect: shear,
        capacity: 0.0,
        unit: "N",
        share: 0.0,
        formula: "",
        inputs: Vec::new(),
        source: "",
        seen: Seen::Memory,
        remedy: "",
        span: own.frame.corner.span(),
    };
    match &own.frame.corner {
        Corner::Connector(row) => {
            ledger.push(
                Figure::new(format!("metal.{key}"), format!("greatest force through a {at}"), shear, "N")
                    .formula("shear at the tube's end, beams on the mounts")
                    .input("case", case)
                    .source("beam theory", Seen::Computed)
                    .assume(format!("{}: no strength is published, so it is not judged", row.words))
                    .assume("its hold against pulling out is not counted: mounts on both sides hold the frame together"),
            );
        }
        Corner::Tubes(_) => match own.frame.corner.angle() {
            Some(angle) => uses.push(by_angle(own, angle, material, start)),
            None => uses.push(by_weld(own, material, start)),
        },
    }
}

fn by_weld(own: Own, material: &Material, start: MetalUse) -> MetalUse {
    let section = &own.frame.section.value;
    let share = if material.kind == MaterialKind::Aluminium { HEATED } else { 1.0 };
    let strength = material.strength_at(section.t).ultimate * share;
    let walls = section.height() * section.t * 2.0;
    let capacity = (strength * walls).to_n() / 3.0_f64.sqrt() / JOINT;
    MetalUse {
        what: "weld in shear",
        capacity,
        share: start.effect / capacity.max(1e-9),
        formula: "V ≤ 2 h t ρ fᵤ / √3 / 1.25",
        inputs: vec![
            ("h, t".into(), format!("{}, {}", section.height(), section.t)),
            ("ρ".into(), format!("{share:.2}")),
            ("fᵤ".into(), format!("{:.0} MPa", material.strength_at(section.t).ultimate.to_mpa())),
        ],
        source: "EN 1999-1-1, 8.6.3, weld as strong as the heated metal beside it",
        remedy: "take a tube with thicker walls",
        ..start
    }
}

/// Shear at the worst fastener of a row of `each` at `pitch` whose middle lies `lever` from the hinge.
fn on_one(shear: f64, each: u32, pitch: f64, lever: f64) -> f64 {
    let count = f64::from(each);
    if each < 2 {
        return shear;
    }
    let places = (0..each).map(|k| (f64::from(k) - (count - 1.0) / 2.0) * pitch);
    let squares: f64 = places.map(|x| x * x).sum();
    shear / count + shear * lever * (count - 1.0) / 2.0 * pitch / squares
}

fn by_angle(own: Own, angle: &CornerAngle, material: &Material, start: MetalUse) -> MetalUse {
    let (leg, wall) = (angle.section.t, own.frame.section.t);
    let (diameter, edge, pitch, own_shear, factor, words, remedy) = match &angle.fastener {
        CornerFastener::Rivet(rivet) => (
            rivet.diameter,
            rivet.edge,
            rivet.pitch,
            Some(rivet.shear.to_n() / JOINT),
            RIVET,
            rivet.words.clone(),
            "take thicker rivets or one more in each leg",
        ),
        CornerFastener::Screw(screw) => (
            screw.diameter,
            screw.clearance * 1.2,
            (screw.clearance * 2.2).max(screw.head_diameter + Length::mm(1.0)),
            None,
            SCREW,
            format!("tapping screw {}", screw.name),
            "take thicker screws or one more in each leg",
        ),
    };
    let each = *angle.each;
    let pitch = pitch.to_mm().ceil();
    let last = (angle.section.a.max(angle.section.b) - edge).to_mm() - 2.0;
    let lever = last - pitch * (f64::from(each) - 1.0) / 2.0;
    let effect = on_one(start.effect, each, pitch, lever);
    let ultimate = material.strength_at(wall).ultimate;
    let bearing = in_sheet(factor, ultimate, diameter, wall.min(leg));
    let capacity = own_shear.map_or(bearing, |shear| shear.min(bearing));
    let mut inputs = vec![
        ("V".into(), newtons(start.effect)),
        ("n, p".into(), format!("{each}, {pitch:.0} mm")),
        ("e".into(), format!("{lever:.0} mm, heel to the middle of the row")),
        ("wall tears at".into(), newtons(bearing)),
        ("fastener".into(), words),
    ];
    match own_shear {
        Some(shear) => inputs.push(("rivet shears at".into(), newtons(shear))),
        None => inputs.push(("its own shear".into(), "not in the tables, not judged".into())),
    }
    if each < 2 {
        inputs.push(("one in a leg".into(), "its lever is left to friction, not counted".into()));
    }
    MetalUse {
        what: "corner angle fastener in shear",
        effect,
        capacity,
        share: effect / capacity.max(1e-9),
        formula: "V/n + V e x / Σx² ≤ least of rivet shear and α fᵤ d t, over 1.25",
        inputs,
        source: "elastic row of fasteners; bearing by EN 1993-1-3, tables 8.1 and 8.2",
        remedy,
        ..start
    }
}

/// Bearing factor of a blind rivet: 3.6 √(t/d), at most 2.1 (EN 1993-1-3, table 8.1).
const RIVET: f64 = 3.6;
/// The same of a tapping screw: 3.2 √(t/d), at most 2.1 (table 8.2).
const SCREW: f64 = 3.2;

/// Bearing of a fastener in thin sheet.
fn in_sheet(factor: f64, ultimate: Pressure, diameter: Length, sheet: Length) -> f64 {
    let alpha = (factor * (sheet / diameter).sqrt()).min(2.1);
    (ultimate * (diameter * sheet)).to_n() * alpha / joint::JOINT
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_carries_shear_and_lever_as_worked_by_hand() {
        // 300 N, two fasteners 15 mm apart, middle 33 mm from the heel: 150 + 300 × 33 / 15 = 810 N
        // (statics of a couple); three at 15: 100 + 300 × 33 × 15 / (2 × 15²) = 430 N.
        assert!((on_one(300.0, 2, 15.0, 33.0) - 810.0).abs() < 1e-9);
        assert!((on_one(300.0, 3, 15.0, 33.0) - 430.0).abs() < 1e-9);
        assert!((on_one(300.0, 1, 15.0, 33.0) - 300.0).abs() < 1e-9);
    }

    #[test]
    fn bearing_in_thin_sheet() {
        // EN 1993-1-3 table 8.1 by hand: d 4.8, t 2: α = 3.6 √(2/4.8) = 2.324, capped at 2.1;
        // 2.1 × 215 × 4.8 × 2 / 1.25 = 3467.5 N.
        let f = in_sheet(RIVET, Pressure::mpa(215.0), Length::mm(4.8), Length::mm(2.0));
        assert!((f - 3_467.52).abs() < 0.01, "{f}");
    }
}
