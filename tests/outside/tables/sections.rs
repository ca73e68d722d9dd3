//! Bars and tubes against section tables.

use super::{check_section, near, section, tables};
use rungsheet::units::Length;

#[test]
fn cold_formed_tube_has_the_properties_of_the_steel_tables() {
    // EN 10219-2 table values, printed to three figures.
    let rows = [
        ("steel-tube-25x25x2", [1.74, 1.48, 1.48, 1.19, 1.36]),
        ("steel-tube-25x25x3", [2.41, 1.84, 1.84, 1.47, 1.89]),
        ("steel-tube-30x30x2", [2.14, 2.72, 2.72, 1.81, 1.68]),
        ("steel-tube-30x30x3", [3.01, 3.50, 3.50, 2.34, 2.36]),
        ("steel-tube-40x40x2", [2.94, 6.94, 6.94, 3.47, 2.31]),
        ("steel-tube-40x40x3", [4.21, 9.32, 9.32, 4.66, 3.30]),
        ("steel-tube-50x50x3", [5.41, 19.47, 19.47, 7.79, 4.25]),
        ("steel-tube-40x20x2", [2.14, 4.05, 1.34, 2.02, 1.68]),
        ("steel-tube-40x30x2", [2.54, 5.49, 3.51, 2.75, 1.99]),
        ("steel-tube-50x30x3", [4.21, 12.83, 5.70, 5.13, 3.30]),
        ("steel-tube-60x40x3", [5.41, 25.38, 13.44, 8.46, 4.25]),
    ];
    for (name, expected) in rows {
        check_section(name, expected, 0.005);
    }
}

#[test]
fn rolled_angle_has_the_properties_of_the_steel_tables() {
    // EN 10056-1: area cm², second moment cm⁴, mass kg/m (a handbook prints 1.40 for L30).
    for (name, area, i, mass) in [
        ("steel-angle-30x30x3", 1.74, 1.41, 1.36),
        ("steel-angle-40x40x4", 3.08, 4.47, 2.42),
        ("steel-angle-50x50x5", 4.80, 11.0, 3.77),
    ] {
        let bar = section(name);
        near(bar.area().to_cm2(), area, 0.005, name);
        near(bar.second_moment_x().to_cm4(), i, 0.01, name);
        near(bar.second_moment_y().to_cm4(), i, 0.01, name);
        let steel = tables().material(&bar.material).unwrap_or_else(|unknown| panic!("{unknown}"));
        near(bar.linear_mass(steel).to_kg_per_m(), mass, 0.01, name);
    }
}

#[test]
fn rolled_angle_buckles_about_its_slanting_axis() {
    // EN 10056-1 section tables, from memory: Iv 0.58 cm⁴ for L30x30x3, 1.86 for L40x40x4, 4.54
    // (some print 4.55) for L50x50x5; centroid 8.35, 11.2 and 14.0 mm.
    for (name, least, centroid) in [
        ("steel-angle-30x30x3", 0.58, 8.35),
        ("steel-angle-40x40x4", 1.86, 11.2),
        ("steel-angle-50x50x5", 4.55, 14.0),
    ] {
        let bar = section(name);
        near(bar.least_second_moment().to_cm4(), least, 0.015, name);
        near(bar.centroid().0.to_mm(), centroid, 0.01, name);
    }
}

#[test]
fn aluminium_tube_has_the_properties_of_sharp_corners() {
    // A = BH − bh, I = (BH³ − bh³)/12; 25x25x2: 184 mm², 16345.3 mm⁴, 1307.6 mm³, 0.4968 kg/m.
    check_section("aluminium-tube-25x25x2", [1.84, 1.63453, 1.63453, 1.30763, 0.4968], 1e-4);
    check_section("aluminium-tube-40x20x2", [2.24, 4.4459, 1.4379, 2.2229, 0.605], 1e-3);
    check_section("aluminium-tube-50x30x3", [4.44, 14.2132, 6.1812, 5.6853, 1.199], 1e-3);
    check_section("aluminium-tube-20x20x1.5", [1.11, 0.6373, 0.6373, 0.6373, 0.300], 2e-3);
}

#[test]
fn sharp_angle_follows_from_two_rectangles() {
    // Two rectangles: 25x25x3 centroid 7.351 mm, I 0.8204 cm⁴, W 0.4648 cm³; 40x40x4 11.474 mm.
    let small = section("aluminium-angle-25x25x3");
    near(small.centroid().0.to_mm(), 7.351, 1e-4, "centroid");
    near(small.second_moment_x().to_cm4(), 0.8204, 1e-4, "I");
    near(small.modulus_x().to_cm3(), 0.4648, 1e-3, "W");
    near(section("aluminium-angle-40x40x4").centroid().1.to_mm(), 11.474, 1e-4, "centroid");
    near(section("aluminium-angle-40x40x4").area().to_cm2(), 3.04, 1e-9, "area");
}

#[test]
fn flat_bar_and_round_tube_follow_textbook_formulas() {
    // Textbook: b h³/12; π/64 (D⁴ − d⁴).
    let flat = section("steel-flat-90x3");
    near(flat.second_moment_x().to_mm4(), 3.0 * 90f64.powi(3) / 12.0, 1e-12, "standing");
    near(flat.second_moment_y().to_mm4(), 90.0 * 27.0 / 12.0, 1e-12, "lying");
    // 90 × 3 mm steel at 7850 kg/m³ is 2.12 kg/m in stock lists (common practice).
    let steel = tables().material("steel-s235").unwrap_or_else(|unknown| panic!("{unknown}"));
    near(flat.linear_mass(steel).to_kg_per_m(), 2.12, 0.002, "mass");
    let round = section("aluminium-round-tube-25x2");
    let expected = std::f64::consts::PI / 64.0 * (25f64.powi(4) - 21f64.powi(4));
    near(round.second_moment_x().to_mm4(), expected, 1e-12, "round");
}

#[test]
fn inch_bars_are_the_inch_sizes_exactly() {
    // 1 in = 25.4 mm, exact since the international yard and pound agreement of 1959.
    let angle = section("aluminum-angle-1-1/4x1-1/4x1/8in");
    assert_eq!(
        (angle.a, angle.b, angle.t),
        (Length::mm(31.75), Length::mm(31.75), Length::mm(3.175))
    );
    let flat = section("aluminium-flat-4x1/8in");
    assert_eq!((flat.a, flat.t), (Length::mm(101.6), Length::mm(3.175)));
}
