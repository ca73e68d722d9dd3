//! Air-load coefficients.

use super::{near, tables};
use rungsheet::tables::{Flow, LoadCase, WindwardEdge};
use rungsheet::units::{Angle, Ratio};

#[test]
fn canopy_coefficients_are_those_of_table_7_6() {
    // EN 1991-1-4:2005 table 7.6; a second library's test confirms 0.8, −1.3 and −1.4 at 20°.
    let canopy = tables().en1991_7_6().unwrap_or_else(|unknown| panic!("{unknown}"));
    let at = |degrees: f64| canopy.at(Angle::deg(degrees)).expect("within the table");
    let twenty = at(20.0);
    assert_eq!(
        (twenty.down.force, twenty.up_free.force, twenty.up_blocked.force),
        (0.8, -1.3, -1.4)
    );
    assert_eq!(at(0.0).up_blocked.c, -2.2);
    assert_eq!(at(15.0).up_blocked.b, -2.9);
    assert_eq!(at(30.0).down.b, 3.2);
    // Clause 7.3 (3): straight between blockages; half way between rows, half way between values.
    near(at(0.0).up(Ratio::percent(50.0)).force, -0.9, 1e-12, "half blocked");
    near(at(2.5).up_free.force, -0.6, 1e-12, "between rows");
    assert_eq!(canopy.at(Angle::deg(31.0)), None);
}

#[test]
fn free_roof_coefficients_are_those_of_asce_7() {
    // ASCE 7-16 figure 27.3-4: below 7.5° case A clear 1.2 and 0.3 (a published report: 7.50 lb/ft² ×
    // 0.85 × 1.2 = 7.65); 15°, wind 0, case A clear −0.9 and −1.3 (a code text misprints −0.3).
    let at = |degrees, edge, case, flow| {
        tables().asce_free_roof(Angle::deg(degrees), edge, case, flow).expect("within the table")
    };
    let level = at(3.0, WindwardEdge::High, LoadCase::A, Flow::Clear);
    near(7.50 * 0.85 * level[0], 7.65, 1e-9, "report");
    near(7.50 * 0.85 * level[1], 1.91, 2e-3, "report");
    assert_eq!(at(15.0, WindwardEdge::High, LoadCase::A, Flow::Clear), [-0.9, -1.3]);
    assert_eq!(at(7.5, WindwardEdge::Low, LoadCase::B, Flow::Clear), [1.6, 0.3]);
    near(at(11.25, WindwardEdge::Low, LoadCase::A, Flow::Obstructed)[0], 0.1, 1e-9, "between");
    // Wind that meets the high edge lifts, wind that meets the low edge presses.
    assert!(at(15.0, WindwardEdge::High, LoadCase::B, Flow::Obstructed)[0] < 0.0);
    assert!(at(15.0, WindwardEdge::Low, LoadCase::B, Flow::Clear)[0] > 0.0);
}
