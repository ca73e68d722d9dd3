//! Bends, bars and sweeps against published libraries and worked examples.

use super::reference::{near, number, rows_by};
use rungsheet::geometry::{Bend, Point2, Quad};
use rungsheet::tables::Tables;
use rungsheet::units::{Angle, Length};

const MADE_BY: &str = "bent_stuff.py";

/// The neutral line integrated as a curve (scipy), its tangent point by a root finder.
#[test]
fn flat_lengths_are_those_of_an_integrated_neutral_line() {
    let rows = rows_by(include_str!("reference/bends.csv"), MADE_BY);
    assert_eq!(rows.len(), 48);
    for row in rows {
        let [s, r, between, share, setback, allowance, flat] =
            [0, 1, 2, 3, 4, 5, 6].map(|at| number(row[at]));
        let bend = Bend::between_legs(Length::mm(s), Length::mm(r), Angle::deg(between));
        assert!(near(bend.din_k() / 2.0, share, 1e-12, 1e-12), "{row:?}");
        assert!(near(bend.setback().to_mm(), setback, 1e-9, 1e-9), "{row:?}");
        assert!(near(bend.allowance(share).to_mm(), allowance, 1e-9, 1e-9), "{row:?}");
        let ours = bend.flat(Length::mm(80.0), Length::mm(55.0), share).to_mm();
        assert!(near(ours, flat, 1e-9, 1e-9), "{row:?}: {ours}");
    }
}

/// Worked example of a sheet-metal handbook page: 90°, R 0.125 in, T 0.125 in, K 0.44 has a bend
/// allowance of 0.2827 in; its deduction follows, 0.2173 in.
#[test]
fn a_worked_bend_in_inches() {
    let eighth = Length::inches(0.125);
    let bend = Bend { thickness: eighth, inside: eighth, through: Angle::RIGHT };
    assert!(near(bend.allowance(0.44).to_inches(), 0.2827, 1e-3, 0.0));
    assert!(near(bend.deduction(0.44).to_inches(), 0.2173, 1e-3, 0.0));
}

/// DIN 6935: r = s = 3 mm, two outside legs of 50 mm: k = 0.65, 6.244 mm in the bend, 94.24 mm flat;
/// k reaches its limit of 1 beyond r/s = 5.
#[test]
fn a_bend_by_the_standard() {
    let three = Length::mm(3.0);
    let bend = Bend { thickness: three, inside: three, through: Angle::RIGHT };
    assert!(near(bend.din_k(), 0.65, 1e-12, 0.0));
    assert!(near(bend.allowance(bend.din_k() / 2.0).to_mm(), 6.244, 1e-3, 0.0));
    let flat = bend.flat(Length::mm(50.0), Length::mm(50.0), bend.din_k() / 2.0);
    assert!(near(flat.to_mm(), 94.24, 1e-3, 0.0));
    let wide = Bend { inside: Length::mm(30.0), ..bend };
    assert!(near(wide.din_k(), 1.0, 1e-12, 0.0));
}

/// Aluminum Association, 90° cold bends of 6061-T6: 1, 1, 1.5, 2.5, 3 and 3.5 times the thickness of
/// 0.4 to 6.4 mm sheet. DIN 6935, soft steel (from memory): 1, 1.6, 2.5, 3, 5 mm up to 1, 1.5, 2.5, 3
/// and 4 mm.
#[test]
fn least_radii_are_the_tabulated_ones() {
    let tables = Tables::builtin();
    let least = |name: &str, thickness: f64| {
        let row = tables.bend_limit(name).unwrap_or_else(|unknown| panic!("{unknown}"));
        row.least(Length::mm(thickness)).map(Length::to_mm)
    };
    for (thick, times) in [(0.4, 1.0), (0.8, 1.0), (1.6, 1.5), (3.2, 2.5), (4.8, 3.0), (6.4, 3.5)] {
        let found = least("aluminium-6061-t6", thick).expect("tabulated");
        assert!(near(found, thick * times, 1e-9, 1e-9), "{thick}: {found}");
    }
    for (thick, radius) in [(1.0, 1.0), (1.5, 1.6), (2.5, 2.5), (3.0, 3.0), (4.0, 5.0)] {
        assert_eq!(least("steel-soft", thick), Some(radius));
    }
    assert_eq!(least("aluminium-6061-t6", 6.5), None);
    // Machinery's Handbook 26, as quoted: aluminium 0.38 to 0.407, cold rolled steel 0.42 to 0.467,
    // stainless 0.438 to 0.483.
    for (name, k) in [
        ("aluminium-6061-t6", [0.38, 0.407]),
        ("steel-soft", [0.42, 0.467]),
        ("stainless", [0.438, 0.483]),
    ] {
        assert_eq!(tables.bend_limit(name).map(|row| row.k), Ok(k), "{name}");
    }
}

/// sectionproperties, by finite elements on each outline; round corners there are polygons.
#[test]
fn sections_of_a_finite_element_library() {
    let rows = rows_by(include_str!("reference/bars.csv"), MADE_BY);
    assert_eq!(rows.len(), 12);
    for row in rows {
        let bar = Tables::builtin().section(row[0]).unwrap_or_else(|unknown| panic!("{unknown}"));
        let [area, ix, iy, x, y, least] = [1, 2, 3, 4, 5, 6].map(|at| number(row[at]));
        let told = |name: &str, ours: f64, theirs: f64| {
            assert!(near(ours, theirs, 5e-4, 1e-6), "{} {name}: {ours} {theirs}", row[0]);
        };
        told("area", bar.area().to_mm2(), area);
        told("Ix", bar.second_moment_x().to_cm4() * 1e4, ix);
        told("Iy", bar.second_moment_y().to_cm4() * 1e4, iy);
        told("least I", bar.least_second_moment().to_cm4() * 1e4, least);
        if row[0].contains("angle") {
            told("x", bar.centroid().0.to_mm(), x);
            told("y", bar.centroid().1.to_mm(), y);
        }
    }
}

/// shapely: a frame turned about its pin against a box beside it.
#[test]
fn distances_of_a_turned_frame() {
    let rows = rows_by(include_str!("reference/sweeps.csv"), MADE_BY);
    assert_eq!(rows.len(), 30);
    for row in rows {
        let [near_edge, far, low, high, from, to, top, angle, distance] =
            [0, 1, 2, 3, 4, 5, 6, 7, 8].map(|at| number(row[at]));
        let (sin, cos) = angle.to_radians().sin_cos();
        let turned = |x: f64, y: f64| Point2::mm(x * cos - y * sin, x * sin + y * cos);
        let frame = Quad([
            turned(near_edge, low),
            turned(far, low),
            turned(far, high),
            turned(near_edge, high),
        ]);
        let keep = Quad(
            [(from, -2000.0), (to, -2000.0), (to, top), (from, top)].map(|(x, y)| Point2::mm(x, y)),
        );
        let ours = frame.gap_to(keep).to_mm();
        assert!(near(ours, distance, 1e-9, 1e-6), "{row:?}: {ours}");
    }
}
