//! Rows of the tables, and what follows from them, against published tables.
//! Each check names its source; `from memory` where the source was not read again.

use rungsheet::tables::{Fit, MaterialKind, Section, Tables, Thread};
use rungsheet::units::{Area, Length, Pressure};

fn tables() -> &'static Tables {
    Tables::builtin()
}

fn section(name: &str) -> &'static Section {
    tables().section(name).unwrap_or_else(|unknown| panic!("{unknown}"))
}

fn thread(name: &str) -> &'static Thread {
    tables().thread(name).unwrap_or_else(|unknown| panic!("{unknown}"))
}

/// Within a share of the expected value.
fn near(found: f64, expected: f64, share: f64, what: &str) {
    assert!((found - expected).abs() <= expected.abs() * share, "{what}: {found}, not {expected}");
}

/// Area cm², Ix and Iy cm⁴, modulus cm³, mass kg/m.
fn check_section(name: &str, [area, ix, iy, wx, mass]: [f64; 5], share: f64) {
    let bar = section(name);
    let material = tables().material(&bar.material).unwrap_or_else(|unknown| panic!("{unknown}"));
    near(bar.area().to_cm2(), area, share, &format!("{name} area"));
    near(bar.second_moment_x().to_cm4(), ix, share, &format!("{name} Ix"));
    near(bar.second_moment_y().to_cm4(), iy, share, &format!("{name} Iy"));
    near(bar.modulus_x().to_cm3(), wx, share, &format!("{name} Wx"));
    near(bar.linear_mass(material).to_kg_per_m(), mass, share, &format!("{name} mass"));
}

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

#[test]
fn clearance_holes_are_those_of_iso_273() {
    // ISO 273:1979; M12 is 13 / 13.5 / 14.5, not the 13 / 14 / 15 of a common library.
    for (name, fine, medium, coarse) in [
        ("M3", 3.2, 3.4, 3.6),
        ("M4", 4.3, 4.5, 4.8),
        ("M5", 5.3, 5.5, 5.8),
        ("M6", 6.4, 6.6, 7.0),
        ("M8", 8.4, 9.0, 10.0),
        ("M10", 10.5, 11.0, 12.0),
        ("M12", 13.0, 13.5, 14.5),
    ] {
        let clearance = thread(name).clearance;
        assert_eq!(clearance.of(Fit::Fine), Length::mm(fine), "{name}");
        assert_eq!(clearance.of(Fit::Medium), Length::mm(medium), "{name}");
        assert_eq!(clearance.of(Fit::Coarse), Length::mm(coarse), "{name}");
    }
}

#[test]
fn inch_clearance_holes_are_those_of_asme_b18_2_8() {
    // ASME B18.2.8-1999 table 1a: 1/4 in close 17/64, normal 9/32, loose 19/64; #10 normal #2.
    let quarter = thread("1/4-20").clearance;
    near(quarter.fine.to_inches(), 17.0 / 64.0, 2e-4, "close");
    near(quarter.medium.to_inches(), 9.0 / 32.0, 2e-4, "normal");
    near(quarter.coarse.to_inches(), 19.0 / 64.0, 2e-4, "loose");
    near(thread("#10-32").clearance.medium.to_inches(), 0.2210, 1e-4, "#10");
    // A shop chart gives 3/16 in for #10, under the thread itself.
    for row in &tables().threads {
        assert!(row.clearance.fine > row.diameter, "{}", row.name);
        assert!(row.clearance.fine < row.clearance.medium, "{}", row.name);
        assert!(row.clearance.medium < row.clearance.coarse, "{}", row.name);
    }
}

#[test]
fn tapping_drills_are_those_of_iso_2306() {
    // ISO 2306:1972: M8 6.8 (not d − P = 6.75), M12 10.2 (not 10.3).
    for (name, drill) in [
        ("M3", 2.5),
        ("M4", 3.3),
        ("M5", 4.2),
        ("M6", 5.0),
        ("M8", 6.8),
        ("M10", 8.5),
        ("M12", 10.2),
    ] {
        assert_eq!(thread(name).tapping_drill, Length::mm(drill), "{name}");
    }
    // Tap chart: 1/4-20 takes #7, 0.2010 in.
    near(thread("1/4-20").tapping_drill.to_inches(), 0.2010, 1e-4, "1/4-20");
}

#[test]
fn stress_areas_agree_with_the_standards_formulas() {
    // ISO 898-1: π/4 (d − 0.9382 P)²; the table rounds to three figures.
    for row in tables().threads.iter().filter(|row| row.is_metric()) {
        let effective = row.diameter - row.pitch * 0.9382;
        near(row.stress_area / Area::circle(effective), 1.0, 0.005, &row.name);
    }
    // ASME B1.1 tables, from memory, in²: 1/4-20 0.0318, 5/16-18 0.0524, 3/8-16 0.0775, #10-32 0.0200.
    // 1/4-28 0.0364 is printed in NASA TM-106943 table I.
    for (name, square_inches) in [
        ("1/4-20", 0.0318),
        ("1/4-28", 0.0364),
        ("5/16-18", 0.0524),
        ("3/8-16", 0.0775),
        ("#10-32", 0.0200),
    ] {
        near(thread(name).stress_area.to_mm2() / 645.16, square_inches, 0.005, name);
    }
}

#[test]
fn bolt_loads_are_those_of_iso_898() {
    // ISO 898-1:2009 tables 4 and 5: M6 8.8 proof load 11 600 N, least tensile load 16 100 N;
    // M8 21 200 and 29 200; M10 33 700 and 46 400.
    let grade = tables().bolt_grade("8.8").unwrap_or_else(|unknown| panic!("{unknown}"));
    for (name, proof, ultimate) in
        [("M6", 11_600.0, 16_100.0), ("M8", 21_200.0, 29_200.0), ("M10", 33_700.0, 46_400.0)]
    {
        let area = thread(name).stress_area;
        near((grade.proof * area).to_n(), proof, 0.006, name);
        near((grade.ultimate * area).to_n(), ultimate, 0.006, name);
    }
    // ISO 3506-1: A2-70 450 and 700 N/mm², A4-80 600 and 800.
    let stainless = tables().bolt_grade("A2-70").unwrap_or_else(|unknown| panic!("{unknown}"));
    assert_eq!((stainless.proof, stainless.ultimate), (Pressure::mpa(450.0), Pressure::mpa(700.0)));
}

#[test]
fn heads_nuts_and_washers_are_the_standard_ones() {
    // ISO 4017, 4032, 7040, DIN 985, ISO 7089, 7093-1, 4762, 7380-1.
    let m6 = thread("M6");
    assert_eq!(m6.hex_width, Length::mm(10.0));
    assert_eq!(m6.hex_height, Length::mm(4.0));
    assert_eq!(m6.nut_height, Length::mm(5.2));
    assert_eq!(m6.locking_nut_height, Length::mm(8.0));
    assert_eq!(m6.locking_nut_height_low, Some(Length::mm(6.0)));
    assert_eq!(m6.washer.outer, Length::mm(12.0));
    assert_eq!(m6.washer.thickness, Length::mm(1.6));
    assert_eq!(m6.large_washer.outer, Length::mm(18.0));
    assert_eq!(m6.socket_head.diameter, Length::mm(10.0));
    assert_eq!(m6.button_head.diameter, Length::mm(10.5));
    // ISO 272 against DIN 933: M10 is 16 across flats, older stock 17.
    assert_eq!(thread("M10").hex_width, Length::mm(16.0));
    assert_eq!(thread("M10").hex_width_old, Some(Length::mm(17.0)));
}

#[test]
fn countersinks_are_made_for_the_largest_head_of_the_standards() {
    // ISO 10642 theoretical 13.44 for M6 against 12.0 of DIN 7991; ISO 2009 9.4 for M4 against 8.96.
    assert_eq!(thread("M6").countersunk_head.diameter, Length::mm(13.44));
    assert_eq!(thread("M4").countersunk_head.diameter, Length::mm(9.4));
    assert_eq!(thread("M8").countersunk_head.diameter, Length::mm(17.92));
    // ASME B18.3: 1/4 in 0.531, 82 degrees.
    near(thread("1/4-20").countersunk_head.diameter.to_inches(), 0.531, 1e-3, "1/4");
    near(thread("1/4-20").countersunk_angle.to_deg(), 82.0, 1e-12, "angle");
}

#[test]
fn pilot_holes_are_banded_by_metal_and_thickness() {
    // Group standard of a fastener maker, drilled holes: ST4.2 in 2 mm aluminium 3.5, in 1 mm
    // aluminium 3.0, in 1 mm steel 3.2; ST4.8 in 2 mm aluminium 3.8.
    let screw = |name| tables().tapping_screw(name).unwrap_or_else(|unknown| panic!("{unknown}"));
    let pilot = |name, metal, mm| screw(name).pilot_in(metal, Length::mm(mm));
    assert_eq!(pilot("ST4.2", MaterialKind::Aluminium, 2.0), Some(Length::mm(3.5)));
    assert_eq!(pilot("ST4.2", MaterialKind::Aluminium, 1.0), Some(Length::mm(3.0)));
    assert_eq!(pilot("ST4.2", MaterialKind::Steel, 1.0), Some(Length::mm(3.2)));
    assert_eq!(pilot("#10", MaterialKind::Aluminium, 2.0), Some(Length::mm(3.8)));
    // Beyond the table nothing is guessed.
    assert_eq!(pilot("ST4.2", MaterialKind::Steel, 6.0), None);
}

#[test]
fn tapping_screw_threads_are_those_of_iso_1478() {
    // ISO 1478:1999 table 1: ST2.9 pitch 1.1 (a page prints 0.94), ST4.2 4.22 x 1.4, ST6.3 6.25 x 1.8.
    for (name, major, pitch) in [("ST2.9", 2.9, 1.1), ("ST4.2", 4.22, 1.4), ("ST6.3", 6.25, 1.8)] {
        let screw = tables().tapping_screw(name).unwrap_or_else(|unknown| panic!("{unknown}"));
        assert_eq!(screw.diameter, Length::mm(major), "{name}");
        assert_eq!(screw.pitch, Length::mm(pitch), "{name}");
    }
}
