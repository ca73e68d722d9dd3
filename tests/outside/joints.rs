//! Bolts, walls and sheet against worked examples of EN 1993-1-8 and load tables of bolts.

use crate::support::{near, worked};
use rungsheet::compute::metal::joint;
use rungsheet::derive::bearing;
use rungsheet::tables::Tables;
use rungsheet::units::{Area, Length, Pressure, Torque};

fn mm(value: f64) -> Length {
    Length::mm(value)
}

/// A published worked example: M20 8.8, threads in the plane of shear, 245 mm²: 94.08 kN. A verification
/// test of an open library: 244.794 mm², two planes, 188.002 kN; through the shank 241.274 kN.
#[test]
fn bolts_in_shear() {
    let steel = Pressure::mpa(800.0);
    near(joint::bolt_shear(0.6, steel, Area::mm2(245.0)).to_kn(), 94.08, 1e-4, "M20");
    near(
        2.0 * joint::bolt_shear(0.6, steel, Area::mm2(244.794)).to_kn(),
        188.002,
        1e-5,
        "two planes",
    );
    let shank = Area::mm2(std::f64::consts::PI * 100.0);
    near(2.0 * joint::bolt_shear(0.6, steel, shank).to_kn(), 241.274, 1e-5, "shank");
    // M6 8.8 by the nominal 20.1 mm²: 7718 N.
    near(joint::bolt_shear(0.6, steel, Area::mm2(20.1)).to_n(), 7718.0, 1e-4, "M6");
}

/// A published worked example: M20 in a 22 mm hole, S355 (470 `MPa`), e1 40, e2 30: α 0.606, k 2.118;
/// in 10 mm 96.54 kN.
#[test]
fn bearing_of_steel() {
    let factors = joint::bearing_factors(mm(22.0), mm(40.0), mm(30.0), 800.0 / 470.0);
    near(factors.0, 0.606, 1e-3, "alpha");
    near(factors.1, 2.118, 1e-3, "k");
    let force = joint::bearing(factors, Pressure::mpa(470.0), mm(20.0), mm(10.0), false);
    near(force.to_kn(), 96.54, 1e-3, "bearing");
}

/// M6 8.8 in 2 mm of 6060-T66 (215 `MPa`), hole 6.6, e1 15, e2 12.5: α 0.7576, k 2.5, 3909 N; a single bolt
/// in a single lap is held to 3096 N (form of EN 1999-1-1 8.5, computed with another program).
#[test]
fn bearing_of_a_thin_wall() {
    let factors = joint::bearing_factors(mm(6.6), mm(15.0), mm(12.5), 800.0 / 215.0);
    near(factors.0, 0.7576, 1e-4, "alpha");
    near(factors.1, 2.5, 1e-12, "k");
    let wall =
        |single| joint::bearing(factors, Pressure::mpa(215.0), mm(6.0), mm(2.0), single).to_n();
    near(wall(false), 3909.0, 1e-3, "bearing");
    near(wall(true), 3096.0, 1e-3, "single lap");
}

/// 0.9 f A / 1.25 is 0.72 of the least tensile load that ISO 898-1 tabulates: M6 16 100 N, M8 29 200 N;
/// countersunk heads have 0.7 of it.
#[test]
fn bolts_in_tension() {
    let tables = Tables::builtin();
    for (name, least) in [("M6", 16_100.0), ("M8", 29_200.0), ("M5", 11_350.0)] {
        let area = tables.thread(name).expect("a row").stress_area;
        let plain = joint::bolt_tension(false, Pressure::mpa(800.0), area).to_n();
        near(plain, 0.72 * least, 3e-3, name);
        near(joint::bolt_tension(true, Pressure::mpa(800.0), area).to_n(), 0.7 * plain, 1e-9, name);
    }
}

/// A2-70 of ISO 3506-1 as tabulated: M5 9940 N, M6 14 070 N, M8 25 620 N least tensile load.
#[test]
fn stainless_bolts_have_their_tabulated_loads() {
    let tables = Tables::builtin();
    let grade = tables.bolt_grade("A2-70").expect("a row");
    for (name, least) in [("M5", 9940.0), ("M6", 14_070.0), ("M8", 25_620.0)] {
        let area = tables.thread(name).expect("a row").stress_area;
        near((grade.ultimate * area).to_n(), least, 1e-3, name);
    }
}

/// 0.6 π d t f / 1.25 (EN 1993-1-8 table 3.4): 12 mm washer on 2 mm of 215 `MPa`, by hand 7782 N.
#[test]
fn a_washer_pulled_through() {
    near(joint::punching(mm(12.0), mm(2.0), Pressure::mpa(215.0)).to_n(), 7781.6, 1e-4, "punching");
}

/// Shear and tension together, V/Vr + T/(1.4 Tr), and T/Tr by itself (EN 1993-1-8 table 3.4): a bolt in
/// full tension may still have 1 − 1/1.4 = 0.286 of its shear.
#[test]
fn shear_and_tension_together() {
    near(joint::together(1.0 - 1.0 / 1.4, 1.0), 1.0, 1e-12, "corner");
    near(joint::together(0.0, 1.0), 1.0, 1e-12, "tension alone");
    near(joint::together(0.5, 0.35), 0.75, 1e-12, "both");
}

/// EN 1993-1-3 table 8.2 (from memory): ST4.8 in 1.5 mm of 160 `MPa`, pitch 1.6: 0.45 · 4.8 · 1.5 · 160 /
/// 1.25 = 414.7 N; in 2 mm 0.65 counts.
#[test]
fn a_tapping_screw_pulled_out() {
    let force =
        |t: f64| joint::thread_pull_out(mm(4.8), mm(1.6), mm(t), Pressure::mpa(160.0)).to_n();
    near(force(1.5), 414.7, 1e-3, "thin");
    near(force(2.0), 0.65 * 4.8 * 2.0 * 160.0 / 1.25, 1e-9, "thick");
}

/// b t² / 6 (any handbook): 160 x 4 mm is 426.7 mm³; a plate of 200 x 3 mm 300 mm³.
#[test]
fn strips_in_bending() {
    near(joint::strip_modulus(mm(160.0), mm(4.0)), 426.67, 1e-4, "bracket");
    near(joint::strip_modulus(mm(200.0), mm(3.0)), 300.0, 1e-12, "plate");
}

/// A membrane that slopes by θ stretches by 1/cos θ − 1, about θ²/2 (geometry): at θ = √(2 f / E) that is
/// the yield strain of the skin, 140 `MPa` on 210 `GPa`, within a part in a thousand.
#[test]
fn a_skin_yields_at_its_rim() {
    let (proof, modulus) = (140.0_f64, 210_000.0_f64);
    let slope: f64 = (2.0 * proof / modulus).sqrt();
    near(1.0 / slope.atan().cos() - 1.0, proof / modulus, 1e-3, "stretch");
    let force =
        joint::skin_at_rim(mm(600.0), mm(0.8), Pressure::mpa(proof), Pressure::mpa(modulus));
    near(force.to_n(), 600.0 * 0.8 * proof * slope / 1.1, 1e-9, "upright part");
}

/// MIL-HDBK-60 100.5.2: T = P (0.159 L + 1.156 μ d); zinc, μ 0.17, M8 x 1.25 has K 0.2214 (read). Of it the
/// thread has 0.159 L + 0.577 μ d (its other half rubs under the head).
#[test]
fn half_of_the_friction_is_in_the_thread() {
    let (d, pitch, friction) = (8.0, 1.25, 0.17);
    let k: f64 = (0.159 * pitch + 1.156 * friction * d) / d;
    near(k, 0.2214, 1e-3, "K");
    let preload = 10_000.0;
    let torque = Torque::nm(preload * k * d / 1e3);
    // A flange of no size rubs nowhere.
    let left = joint::turning_of_nut(torque, k, (mm(d), mm(pitch)), (mm(0.0), mm(0.0)));
    near(left.to_nm(), preload * (0.159 * pitch + 0.577 * friction * d) / 1e3, 1e-3, "thread");
    let clamped = joint::turning_of_nut(torque, k, (mm(d), mm(pitch)), (mm(11.0), mm(16.0)));
    assert!(clamped < left);
}

/// EN 1993-1-8:2005, tables 3.3 and 3.4, by hand for holes of 6.6 mm in a flat 30 mm wide, 15 mm from its long
/// edges: at the least 1.2 d₀ from its end α = 0.4; 1.5 d₀ from it α = 0.5 while k is full; at 3 d₀ the
/// long edge decides, 15 / 19.8; two at
/// 2.2 d₀ bear least across the line between them, where k = 1.4 × 2.2 − 1.7 of 2.5; at 3.2 d₀ no more.
#[test]
fn walls_bear_by_the_table_of_distances() {
    let least = |places: &[f64]| {
        let hole = |x: &f64| {
            format!(
                "\n[[hole]]\npart = \"W\"\nface = \"top\"\nx = {x}\ny = 15\ndiameter = 6.6\npurpose = \"clearance\"\n"
            )
        };
        let text = format!(
            "format = 1\n[job]\ntitle = \"Shelf\"\ndate = \"2026-05-09\"\n[[part]]\nmark = \"W\"\nname = \"shelf rail\"\nsection = \"aluminium-flat-30x4\"\nlength = 300\n{}[[stock]]\nsection = \"aluminium-flat-30x4\"\nlength = 2000\n",
            places.iter().map(hole).collect::<String>()
        );
        let worked = worked(&text);
        let found = bearing::bearings(&worked.work, 0);
        found.first().map_or((1.0, false), |one| (one.share, one.beside.is_some()))
    };
    for (places, share, beside) in [
        (&[7.92][..], 0.4, false),
        (&[9.9], 0.5, false),
        (&[19.8], 15.0 / 19.8, false),
        (&[100.0, 114.52], 15.0 / 19.8 * (1.4 * 2.2 - 1.7) / 2.5, true),
        (&[100.0, 114.52 + 6.6], 15.0 / 19.8, false),
    ] {
        let (found, by) = least(places);
        near(found, share, 1e-6, "share of full bearing");
        assert_eq!(by, beside, "{places:?}");
    }
}
