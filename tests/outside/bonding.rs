//! Bonded joints: stress, movement, volume. Values were read in the sources named unless it says
//! `from memory`.

use crate::support::{Worked, near, worked};
use rungsheet::compute::bonding::{sideways, unlike_growth};
use rungsheet::units::{Length, Ratio};

/// Four feet with tape under one panel on a level roof.
fn level() -> Worked {
    worked(include_str!("../findings/B003-bond-nearly-full.toml"))
}

/// Thermal growth: aluminium 120 in over 150 °F at 13e-6/°F is 0.234 in (Construction waterproofing
/// handbook, inputs); 2 m with a difference of 11.1e-6/K over 80 K is 1.776 mm (arithmetic).
#[test]
fn heat_moves_unlike_metals() {
    near(unlike_growth(13e-6, 150.0, Length::inches(120.0)).to_inches(), 0.234, 1e-9, "inches");
    near(unlike_growth(-11.1e-6, 80.0, Length::m(2.0)).to_mm(), 1.776, 1e-9, "mixed metal");
}

/// Thickness over movement for a strain c along the diagonal, 1 / √((1 + c)² − 1): 1.940, 1.333 and
/// 0.894 for c of 12.5, 25 and 50 % (form of ASTM C1401, from memory; numbers by another program).
#[test]
fn a_movement_class_gives_a_sideways_movement() {
    for (percent, thickness) in [(12.5, 1.940), (25.0, 1.333), (50.0, 0.894)] {
        near(1.0 / sideways(Ratio::percent(percent)).to_fraction(), thickness, 1e-3, "thickness");
    }
}

/// Stress of two strips with the load over their middle: N / A and V / A (statics); each over 85 kPa for
/// seconds (12 psi is 82.7 kPa; common practice) and both added.
#[test]
fn a_central_load_spreads_evenly() {
    let made = level();
    for entry in &made.results.bonds {
        let case = entry.governing();
        near(entry.area.to_mm2(), 2.0 * 25.0 * made_length(&made, &entry.mark), 1e-9, "area");
        near(case.peel.to_kpa(), case.pull.to_n() / entry.area.to_mm2() * 1e3, 1e-9, "pull");
        near(case.slide.to_kpa(), case.shear.to_n() / entry.area.to_mm2() * 1e3, 1e-9, "shear");
        near(case.share, (case.peel.to_kpa() + case.slide.to_kpa()) / 85.0, 1e-9, "use");
    }
}

fn made_length(made: &Worked, mark: &str) -> f64 {
    made.work.bonds.iter().find(|bond| bond.mark == mark).expect("bonded").length.to_mm()
}

/// A plate as rigid as its layer is soft, loaded beside the middle: N/A + N e c/I with I of two strips
/// (any handbook of statics): 25 x 180 mm at ±32.5 mm, 1 kN, 10 mm beside: 0.111 + 0.045 N/mm².
#[test]
fn a_lever_peels_one_edge() {
    let (length, width, from_middle) = (180.0_f64, 25.0_f64, 32.5_f64);
    let second = 2.0 * (length * width.powi(3) / 12.0 + length * width * from_middle.powi(2));
    let by_hand = 1000.0 / (2.0 * length * width) + 1000.0 * 10.0 * 45.0 / second;
    near(by_hand, 0.1111 + 0.0451, 2e-3, "by hand");
    let mut made = level();
    for bond in &mut made.work.bonds {
        bond.leg += Length::mm(10.0);
    }
    let tables = rungsheet::tables::Tables::builtin();
    let loads = made.results.loads.as_ref().expect("loads");
    let (mut ledger, mut findings) = Default::default();
    let uses = rungsheet::compute::bonding::bonding(
        &made.build,
        &made.work,
        loads,
        tables,
        &mut ledger,
        &mut findings,
    );
    for entry in &uses {
        let case = entry.governing();
        let length = made_length(&made, &entry.mark);
        let scale = length / 180.0;
        let expected = case.pull.to_n() / 1000.0
            * (1000.0 / (2.0 * length * width) + 1000.0 * 10.0 * 45.0 / (second * scale));
        near(case.peel.to_mpa(), expected, 1e-9, "peel");
    }
}

/// An area in mm² is a volume in ml by metre: 10 x 5 mm is 50 ml/m (published example of a consumption
/// guide). Beads 10 mm wide, pressed to the bond's thickness.
#[test]
fn a_bead_takes_its_section_times_its_length() {
    let made = worked(
        &include_str!("../findings/T002-bead-trapped.toml").replace("width = 10 }", "width = 8 }"),
    );
    let beads: f64 = made
        .work
        .bonds
        .iter()
        .flat_map(|bond| bond.beads.iter().map(|bead| (bead, bond.thickness.to_mm())))
        .map(|(bead, thick)| bead.height().to_mm() * thick * bead.width().to_m())
        .sum();
    assert!(beads > 0.0);
    near(made.figure("quantities.volume.hybrid-adhesive"), beads, 1e-9, "ml");
    // 8 mm x 2.3 mm is 18.4 ml/m on two plates of 180 mm.
    near(beads, 8.0 * 2.3 * 0.18 * 2.0, 0.02, "by hand");
}

/// Sustained loads of structural sealants are a tenth of those for seconds (ETAG 002, from memory); of
/// foam tape 1.7 kPa against 85 kPa (common practice; 60 cm²/kg, read in an article, is 1.63 kPa).
/// Weight presses on a level roof, so it asks nothing of the bond.
#[test]
fn weight_that_presses_asks_nothing_of_a_bond() {
    for entry in &level().results.bonds {
        assert!(entry.sustained.pull.to_n() < 0.0, "{:?}", entry.sustained);
        assert!(entry.sustained.share < 1e-6, "{:?}", entry.sustained);
        near(entry.sustained.limit.to_kpa(), 1.7, 1e-9, "sustained");
    }
}
