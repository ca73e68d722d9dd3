//! Materials against their standards.

use super::{near, tables};
use rungsheet::units::Length;

#[test]
fn materials_have_the_strengths_of_their_standards() {
    // EN 755-2: 6060 T66 profile 160/215 to 3 mm, 150/195 above; T6 150/190 and 140/170.
    let strength = |name: &str, wall: f64| {
        let row = tables().material(name).unwrap_or_else(|unknown| panic!("{unknown}"));
        let strength = row.strength_at(Length::mm(wall));
        (strength.proof.to_mpa(), strength.ultimate.to_mpa())
    };
    assert_eq!(strength("aluminium-6060-t66", 2.0), (160.0, 215.0));
    assert_eq!(strength("aluminium-6060-t66", 5.0), (150.0, 195.0));
    assert_eq!(strength("aluminium-6060-t6", 2.0), (150.0, 190.0));
    assert_eq!(strength("aluminium-6060-t6", 5.0), (140.0, 170.0));
    // ASTM B221: 6063-T5 16 and 22 ksi, 6061-T6 35 and 38 ksi; 1 ksi = 6.894757 MPa.
    for (name, proof, ultimate) in
        [("aluminium-6063-t5", 16.0, 22.0), ("aluminium-6061-t6", 35.0, 38.0)]
    {
        let (found_proof, found_ultimate) = strength(name, 3.0);
        near(found_proof, proof * 6.894_757, 0.005, name);
        near(found_ultimate, ultimate * 6.894_757, 0.005, name);
    }
    // EN 1993-1-1 table 3.1: S235 235 and 360.
    assert_eq!(strength("steel-s235", 3.0), (235.0, 360.0));
}

#[test]
fn aluminium_and_glass_part_as_the_handbook_says() {
    // 1500 mm warmed by 60 K: aluminium 23.4e-6 2.106 mm, glass 9e-6 0.810 mm (handbook
    // coefficients, arithmetic).
    let grown = |name: &str| {
        let row = tables().material(name).unwrap_or_else(|unknown| panic!("{unknown}"));
        1500.0 * 60.0 * row.expansion.to_per_k()
    };
    near(grown("aluminium-6060-t66"), 2.106, 1e-6, "aluminium");
    near(grown("glass"), 0.810, 1e-6, "glass");
    // Building materials text: polyester laminate 20 to 35e-6.
    let laminate = tables().material("gfrp-laminate").unwrap_or_else(|unknown| panic!("{unknown}"));
    let [low, high] = laminate.expansion_range.expect("a range is given");
    assert!(low < laminate.expansion && laminate.expansion < high);
}

#[test]
fn drill_speeds_are_those_of_the_shop_formula() {
    // n = 1000 v / (π d): 60 m/min and 6.6 mm give 2894 rev/min; a lathe table prints 320 and 480
    // for 20 and 30 m/min at 20 mm.
    let speeds = |name: &str, mm: f64| {
        let row = tables().material(name).unwrap_or_else(|unknown| panic!("{unknown}"));
        row.drill_speed(Length::mm(mm)).expect("it is drilled")
    };
    near(speeds("aluminium-6060-t66", 6.6)[0], 2894.0, 1e-3, "aluminium");
    let [low, high] = speeds("steel-s235", 20.0);
    near(low, 320.0, 0.01, "slow");
    near(high, 480.0, 0.01, "fast");
}
