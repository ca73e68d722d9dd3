//! Props against published libraries: bars as struts against finite differences and boundary value
//! problems (scipy), their lines against turned shapes (shapely); buckling curves against printed tables.

use super::reference::{near, number, rows_by};
use crate::support::worked;
use rungsheet::compute::metal::strut::{Curve, euler, grows};
use rungsheet::derive::Stand;
use rungsheet::tables::MaterialKind;
use rungsheet::units::{Angle, Length, Pressure, SecondMoment};

/// `props.py`: least eigenvalue of the pinned bar; moment in the middle of the bent bar, pushed 2 mm off.
#[test]
fn struts_agree_with_scipy() {
    for row in rows_by(include_str!("reference/struts.csv"), "props.py") {
        let [e, i, l, critical, push, moment] = [0, 1, 2, 3, 4, 5].map(|k| number(row[k]));
        let ours = euler(Pressure::mpa(e), SecondMoment::mm4(i), Length::mm(l)).to_n();
        assert!(near(ours, critical, 1e-6, 0.0), "{ours} {row:?}");
        let ours = push * 2.0 * grows(push / critical);
        assert!(near(ours, moment, 1e-6, 0.0), "{ours} {row:?}");
    }
}

/// `props.py`: a pin turned about the origin, its way to the foot, and that line's distance from the origin.
#[test]
fn props_reach_as_shapely_turns_them() {
    let mm = Length::mm;
    for row in rows_by(include_str!("reference/props.csv"), "props.py") {
        let [ux, uz, lx, lz, angle, length, arm, back] =
            [0, 1, 2, 3, 4, 5, 6, 7].map(|k| number(row[k]));
        assert!((angle - back).abs() < 1e-6);
        let stand = Stand::new((mm(lx), mm(lz)), (mm(ux), mm(uz)), Angle::deg(angle));
        assert!((stand.length.to_mm() - length.round()).abs() < 1e-9, "{stand:?} {row:?}");
        // Half a millimetre of length turns the frame by no more than this, and moves the arm as little.
        assert!((stand.angle.to_deg() - angle).abs() < 0.1, "{stand:?} {row:?}");
        assert!(near(stand.arm.to_mm(), arm, 2e-3, 0.0), "{stand:?} {row:?}");
    }
}

/// EN 1993-1-1:2005, 6.3.1.2, curve c as design handbooks tabulate χ by λ (steel designers' tables, from
/// memory): 0.5 0.843, 1.0 0.540, 1.5 0.315, 2.0 0.196.
#[test]
fn curve_c_has_its_tabulated_values() {
    let curve = Curve::of(MaterialKind::Steel);
    for (slender, left) in [(0.2, 1.0), (0.5, 0.843), (1.0, 0.540), (1.5, 0.315), (2.0, 0.196)] {
        assert!((curve.left(slender) - left).abs() < 6e-4, "{slender} {}", curve.left(slender));
    }
}

/// No curve promises more than yield or Euler.
#[test]
fn no_curve_is_above_yield_or_euler() {
    for kind in [MaterialKind::Aluminium, MaterialKind::Steel] {
        for k in 0..=400 {
            let slender = f64::from(k) / 40.0;
            let left = Curve::of(kind).left(slender);
            assert!(left <= 1.0 && left * slender * slender <= 1.0 + 1e-9, "{slender} {left}");
        }
    }
}

/// Statics of a stiff leg, by hand from the build file and the loads sheet of a frame with props: the
/// bracket's flat foot is 60 mm, its bolts 100 mm apart, its leg 140 × 5 mm. The pulled leg turns about
/// its end; the level part of the force at the pin tips it from bolt to bolt.
#[test]
fn the_mount_under_a_prop_is_in_balance() {
    let worked = worked(include_str!("../../examples/forest-pod.toml"));
    let (prop, lifted) = (&worked.work.props[0], &worked.results.loads.as_ref().unwrap().lifted[0]);
    let (part, _) = worked.work.piece(&prop.leg_hole.piece).expect("a bracket");
    let number = worked.work.parts.iter().position(|other| std::ptr::eq(other, part)).unwrap();
    let row = worked
        .work
        .holes
        .iter()
        .find(|hole| hole.part == number && part.faces[hole.face].name == "lying leg");
    let row = row.expect("a bolt").at.y.to_mm();
    let high = worked.work.hole(&prop.leg_hole.hole).expect("a pin").at.y.to_mm();
    // A bar of 20 mm flat on a leg of 5 mm: its middle is 15 mm from the heel's outer side.
    let off = 15.0;
    let pulls = lifted.stands.iter().zip(&prop.stands).map(|(load, stand)| {
        let (level, up) = prop.way(stand.angle);
        let (up, level) = (load.pull.to_n() * up, load.pull.to_n() * level.abs());
        up * (60.0 - off) / (60.0 - row) / 2.0 + level * high / 100.0
    });
    let most = pulls.fold(0.0_f64, f64::max);
    let used = |key: &str| {
        let all = &worked.results.metal.uses;
        all.iter().find(|used| used.key == format!("prop.{key}.{}", prop.mark)).expect("judged")
    };
    assert!(near(used("foot").effect, most, 0.02, 0.0), "{most}");
    // Bent off its plane by what presses 12.5 mm beside its middle: 140 × 5² / 6 mm³ of metal.
    let pressed = lifted.stands.iter().zip(&prop.stands).map(|(load, stand)| {
        let (level, up) = prop.way(stand.angle);
        let push = load.push.to_n();
        let bent = push * up * 12.5 / (140.0 * 25.0 / 6.0);
        bent + push * level.abs() * high / (5.0 * 140.0 * 140.0 / 6.0) + push * up / 700.0
    });
    let stress = pressed.fold(0.0_f64, f64::max);
    let proof = 130.0 / 1.1;
    assert!((used("bracket").share - stress / proof).abs() < 0.02 * stress / proof);
}
