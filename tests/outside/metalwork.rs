//! The work's holes, bends and heights against published tables and worked examples.

use crate::derive::support::{Van, mm};
use rungsheet::build::{Crown, Gap, RoofShape};
use rungsheet::derive::{
    FastenerFit, HoleKind, MountShape, RoofSurface, Screw, derive, drill_sequence,
    may_be_drilled_apart,
};
use rungsheet::source::Span;
use rungsheet::units::{Angle, Length};

/// Geometry of the circle, worked example: a chord of 1200 with a rise of 18 has R = 10009.0;
/// y = √(R² − x²) − (R − h) beside the middle (handbook form).
#[test]
fn a_roof_from_chord_and_rise_is_the_circle() {
    let roof = RoofSurface::new(&RoofShape::Crown(Crown::even(mm(1200.0), mm(18.0))));
    let (r, h) = (10_009.0_f64, 18.0);
    for y in (-600..=600).step_by(60).map(f64::from) {
        let expected = (r * r - y * y).sqrt() - (r - h) - h;
        let z = roof.height(Length::ZERO, Length::mm(y)).to_mm();
        assert!((z - expected).abs() < 1e-9, "{y}: {z} {expected}");
        let slope = roof.slope_across(Length::ZERO, Length::mm(y * 0.99));
        let tangent = -y * 0.99 / (r * r - (y * 0.99).powi(2)).sqrt();
        assert!((slope - tangent).abs() < 1e-7);
    }
    let radius =
        roof.radius_across(Length::ZERO, Length::ZERO, Length::mm(400.0)).expect("crowned");
    assert!((radius.to_mm() - r).abs() < 1e-3, "{radius}");
}

/// Chord and rise across with gaps off a second circle along (sagitta, geometry): heights add up, and the
/// highest of what was measured is zero.
#[test]
fn a_roof_curved_both_ways_is_the_sum_of_two_circles() {
    let (across, along) = (5000.0_f64, 25_000.0_f64);
    let drop = |r: f64, at: f64| r - (r * r - at * at).sqrt();
    let gaps: Vec<Gap> = [-1000.0_f64, -500.0, 0.0, 500.0, 1000.0]
        .iter()
        .map(|x| Gap {
            at: Length::mm(1200.0 + x),
            gap: Length::mm(drop(along, *x)),
            span: Span::NONE,
        })
        .collect();
    let shape = Crown { along: gaps, ..Crown::even(mm(1400.0), mm(drop(across, 700.0))) };
    let roof = RoofSurface::new(&RoofShape::Crown(shape));
    for (x, y) in [(200.0, 0.0), (700.0, 350.0), (1200.0, -700.0), (1450.0, 120.0), (2200.0, 600.0)]
    {
        let expected = -drop(across, y) - drop(along, x - 1200.0);
        let z = roof.height(Length::mm(x), Length::mm(y)).to_mm();
        assert!((z - expected).abs() < 0.05, "{x} {y}: {z} {expected}");
    }
    let slope = roof.slope_along(Length::mm(1700.0), Length::ZERO);
    let tangent = -500.0 / (along * along - 500.0 * 500.0).sqrt();
    assert!((slope - tangent).abs() < 2e-4, "{slope} {tangent}");
    assert!(!roof.covers(Length::mm(2300.0), Length::ZERO));
    assert!(roof.covers(Length::mm(2100.0), Length::mm(690.0)));
}

/// Five gaps read off a circle (sagitta h = R − √(R² − c²/4), geometry) give the circle back: to
/// a quarter of a millimetre and a quarter of a degree between the readings.
#[test]
fn a_roof_from_gaps_follows_the_circle_that_they_were_read_from() {
    let r = 3600.0_f64;
    let drop = |y: f64| r - (r * r - y * y).sqrt();
    let station: Vec<(f64, f64)> =
        [-700.0, -350.0, 0.0, 350.0, 700.0].iter().map(|y| (*y, drop(*y))).collect();
    let van = Van {
        stations: vec![(400.0, station.clone()), (2800.0, station)],
        along: vec![(400.0, 0.0), (2800.0, 0.0)],
        ..Van::default()
    };
    let (work, _) = derive(&van.build());
    let roof = work.roof.expect("a roof");
    for y in (-690..=690).step_by(10).map(f64::from) {
        let (x, at) = (Length::mm(1500.0), Length::mm(y));
        assert!((roof.height(x, at).to_mm() + drop(y)).abs() < 0.25, "{y}");
        let slope = Angle::atan(roof.slope_across(x, at));
        let tangent = Angle::asin(-y / r).expect("on the circle");
        assert!((slope - tangent).abs() < Angle::deg(0.25), "{y}: {slope} {tangent}");
    }
}

/// On a circle of radius R the legs of a foot stand 90° + asin(y/R) apart (the tangent's angle).
#[test]
fn a_foot_is_bent_to_the_tangent_of_its_circle() {
    let r = 3600.0_f64;
    let chord = 1400.0_f64;
    let rise = r - (r * r - chord * chord / 4.0).sqrt();
    let mut build = Van::default().build();
    build.roof.as_mut().expect("a roof").shape = RoofShape::Crown(Crown::even(mm(chord), mm(rise)));
    let (work, _) = derive(&build);
    // The plate's middle lies under the middle of the standing leg: flange 1.5, leg 4.
    let y = 520.0 + 1.5 + 2.0;
    let tangent = Angle::asin(y / r).expect("on the circle");
    let mut feet = 0;
    for mount in &work.mounts {
        if let MountShape::BondedFoot { bend, .. } = mount.kind {
            feet += 1;
            assert!((bend - Angle::RIGHT - tangent).abs() <= Angle::deg(0.26), "{bend} {tangent}");
            // Gap of a plate 90 wide: h = R − √(R² − 45²); rounding of the bend adds its wedge.
            let sagitta = r - (r * r - 45.0 * 45.0_f64).sqrt();
            let wedge = 90.0 * Angle::deg(0.25).tan();
            assert!(mount.plate_gap.to_mm() >= sagitta - 0.02);
            assert!(mount.plate_gap.to_mm() <= sagitta + wedge, "{}", mount.plate_gap);
        }
    }
    assert_eq!(feet, 3);
}

/// ISO 273 medium: M5 5.5, M6 6.6; blind rivet 4.8 in 4.9 (ISO 15977); ISO 1478 screw ST4.8 through
/// 5.8 (group standard of a fastener maker).
#[test]
fn holes_have_their_tables_sizes() {
    let (work, _) = derive(&Van::default().build());
    let sizes = |name: &str, kind: HoleKind| -> Vec<f64> {
        let fastening = work.fastenings.iter().find(|f| f.name == name).expect("the fastening");
        let mut sizes: Vec<f64> = fastening.places[0]
            .iter()
            .filter_map(|at| work.hole(&at.hole))
            .filter(|hole| hole.kind == kind)
            .map(|hole| hole.diameter.to_mm())
            .collect();
        sizes.dedup();
        sizes
    };
    assert_eq!(sizes("foot angle to tube", HoleKind::Clearance), [6.6]);
    assert_eq!(sizes("foot plate to angle", HoleKind::Clearance), [5.5]);
    assert_eq!(sizes("foot plate to angle", HoleKind::Countersunk), [5.5]);
    assert_eq!(sizes("joint angle to side tube", HoleKind::Rivet), [4.9]);
    assert_eq!(sizes("panel to tube", HoleKind::Clearance), [5.8]);
}

/// ISO 15065: a 90° countersink is (D − d)/2 deep; the M5 head of ISO 10642 is 11.2 across, so it
/// needs 2.85 mm of a plate of 3 mm.
#[test]
fn countersunk_heads_stay_within_the_plate() {
    let (work, _) = derive(&Van::default().build());
    let sunk: Vec<_> = work.holes.iter().filter(|hole| hole.countersink.is_some()).collect();
    assert_eq!(sunk.len(), 4);
    for hole in sunk {
        let diameter = hole.countersink.expect("sunk").diameter;
        assert_eq!(diameter, Length::mm(11.2));
        let depth = (diameter - hole.diameter) / 2.0;
        assert!(depth.is_near(Length::mm(2.85), Length::SLACK));
        assert!(depth < work.parts[hole.part].faces[hole.face].wall);
    }
}

/// EN 1993-1-8:2005 table 3.3: e1, e2 at least 1.2 d0, p1 at least 2.2 d0. US Army
/// TM 10-5410-229-13&P: rivets at least 2 d from an edge.
#[test]
fn edge_distances_keep_the_standards_least() {
    let (work, _) = derive(&Van::default().build());
    for hole in &work.holes {
        let face = &work.parts[hole.part].faces[hole.face];
        let nearest =
            hole.at.x.min(face.length - hole.at.x).min(hole.at.y).min(face.width - hole.at.y);
        let least = match hole.kind {
            HoleKind::Clearance | HoleKind::Countersunk | HoleKind::Pilot => hole.diameter * 1.2,
            HoleKind::Rivet => Length::mm(4.8) * 2.0,
            _ => hole.diameter / 2.0,
        };
        assert!(nearest.clears(least), "{}: {nearest} of {least}", hole.id);
        for other in &work.holes {
            if other.part == hole.part && other.face == hole.face && other.id != hole.id {
                let apart = (other.at - hole.at).length();
                assert!(
                    apart.clears(hole.diameter.max(other.diameter) * 2.2),
                    "{} {}",
                    hole.id,
                    other.id
                );
            }
        }
    }
}

/// ASME Y14.5 appendix B, floating fastener T = H − F, fixed fastener T = (H − F)/2 (from memory):
/// a 1/4 in screw (6.35 mm) in 7.1 mm holes allows 0.75 mm in each part, or 0.375 mm.
#[test]
fn fastener_formulas_decide_who_is_drilled_apart() {
    let (hole, screw) = (Length::mm(7.1), Length::mm(6.35));
    let apart = |fit, zone: f64| may_be_drilled_apart(hole, screw, fit, Length::mm(zone));
    assert!(apart(FastenerFit::Floating, 0.75) && !apart(FastenerFit::Floating, 0.76));
    assert!(apart(FastenerFit::Fixed, 0.375) && !apart(FastenerFit::Fixed, 0.376));
}

/// Pilot, then steps: common practice, no source.
#[test]
fn large_holes_are_stepped_up() {
    for finished in [3.0, 4.0, 4.9, 5.5, 6.6, 9.0, 12.0, 16.0, 20.0, 25.0] {
        let drills = drill_sequence(Length::mm(finished), None);
        assert_eq!(drills.last(), Some(&Length::mm(finished)));
        assert!(drills.windows(2).all(|pair| pair[1] / pair[0] < 2.35), "{drills:?}");
    }
}

/// ISO 888 lengths and two pitches of thread past the nut (common practice): 3 + 4 mm, washer 1,
/// locking nut 6.8 (ISO 7040), 1.6: 16.4, so M5 × 20.
#[test]
fn plate_screws_are_the_next_length_sold() {
    let (work, _) = derive(&Van::default().build());
    let fastening =
        work.fastenings.iter().find(|f| f.name == "foot plate to angle").expect("the fastening");
    let Screw::BoltAndNut { length, .. } = fastening.screw else { panic!("a bolt and nut") };
    assert_eq!(length, Length::mm(20.0));
    assert_eq!(fastening.count, 12);
}

/// A bolt through the roof, added up by hand from ISO 7093-1 (large washer M8: 24 × 2), ISO 7089
/// (washer 1.6), ISO 7040 (locking nut M8: 9.5 high) and ISO 261 (pitch 1.25); the rubber of the
/// sealing washer, 1 mm when tight, is common practice.
#[test]
fn a_bolt_through_the_roof_is_as_long_as_its_stack() {
    let van = Van {
        hinges: Vec::new(),
        feet: Vec::new(),
        bolted: vec![(rungsheet::build::Edge::Right, vec![400.0, 1200.0])],
        ..Van::default()
    };
    let (work, _) = derive(&van.build());
    let fastening = work.fastenings.iter().find(|f| f.name == "foot to roof").expect("bolted");
    let stack: Vec<f64> = fastening.stack.iter().map(|layer| layer.1.to_mm()).collect();
    assert_eq!(stack, [5.0, 1.0, 0.8, 3.0]);
    let least = 2.0 + 1.0 + 5.0 + 1.0 + 0.8 + 3.0 + 1.6 + 9.5 + 2.0 * 1.25;
    let figure = work.ledger.get("mount.V0x1.roof-bolt").expect("a figure");
    assert!((figure.value - least).abs() < 1e-9, "{} {least}", figure.value);
    let Screw::BoltAndNut { length, sealed, .. } = fastening.screw else { panic!("bolt and nut") };
    // 26.4: ISO 888 has 25, then 30.
    assert_eq!(length, Length::mm(30.0));
    assert!(sealed);
    assert_eq!(fastening.count, 4);
}

/// The same for a clamp: 5 of angle, packer, 3 of flange, 5 of plate, two washers 1.6, nut 9.5, two
/// pitches: 25.7 and the packer.
#[test]
fn a_clamp_bolt_is_as_long_as_its_stack() {
    let van = Van {
        hinges: Vec::new(),
        feet: Vec::new(),
        clamps: vec![(rungsheet::build::Edge::Right, vec![400.0, 1200.0], 575.0)],
        ..Van::default()
    };
    let (work, _) = derive(&van.build());
    for fastening in work.fastenings.iter().filter(|f| f.name == "clamp to rail") {
        let packer: f64 = fastening
            .stack
            .iter()
            .filter(|layer| layer.0 == "clamp packer")
            .map(|layer| layer.1.to_mm())
            .sum();
        let least = 5.0 + packer + 3.0 + 5.0 + 2.0 * 1.6 + 9.5 + 2.0 * 1.25;
        let Screw::BoltAndNut { length, .. } = fastening.screw else { panic!("bolt and nut") };
        let sold = [16.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 60.0];
        let next = sold.into_iter().find(|length| *length >= least).expect("sold");
        assert_eq!(length, Length::mm(next), "{least}");
    }
    // The rail is 40 wide: holes of 9 (ISO 273 medium) stand 1 mm off either side, 51 apart.
    let plate = work.parts_of(rungsheet::derive::PartKind::ClampPlate).next().expect("a plate");
    let index = work.parts.iter().position(|part| std::ptr::eq(part, plate)).expect("listed");
    let rows: Vec<f64> =
        work.holes.iter().filter(|hole| hole.part == index).map(|hole| hole.at.y.to_mm()).collect();
    let spread = rows.iter().copied().fold(f64::MIN, f64::max)
        - rows.iter().copied().fold(f64::MAX, f64::min);
    assert!((spread - 51.0).abs() < 1e-9, "{rows:?}");
}

/// ASME Y14.5 (from memory): T = H − F floating, T = (H − F)/2 fixed, with the clearance holes of
/// ISO 273. By hand a hole lands in a circle of 2 mm, in a jig of 1 mm. Columns: fastener, hole,
/// floating by hand, floating in a jig, fixed by hand, fixed in a jig; H − F is worked out by hand.
#[test]
fn clearance_holes_and_zones_decide_who_is_drilled_apart() {
    let cases: [(f64, f64, [bool; 4]); 18] = [
        (4.0, 4.3, [false, false, false, false]),
        (4.0, 4.5, [false, false, false, false]),
        (4.0, 4.8, [false, false, false, false]),
        (5.0, 5.3, [false, false, false, false]),
        (5.0, 5.5, [false, false, false, false]),
        (5.0, 5.8, [false, false, false, false]),
        (6.0, 6.4, [false, false, false, false]),
        (6.0, 6.6, [false, false, false, false]),
        (6.0, 7.0, [false, true, false, false]),
        (8.0, 8.4, [false, false, false, false]),
        (8.0, 9.0, [false, true, false, false]),
        (8.0, 10.0, [true, true, false, true]),
        (10.0, 10.5, [false, false, false, false]),
        (10.0, 11.0, [false, true, false, false]),
        (10.0, 12.0, [true, true, false, true]),
        (12.0, 13.0, [false, true, false, false]),
        (12.0, 13.5, [false, true, false, false]),
        (12.0, 14.5, [true, true, false, true]),
    ];
    for (fastener, hole, expected) in cases {
        let ways = [
            (FastenerFit::Floating, 2.0),
            (FastenerFit::Floating, 1.0),
            (FastenerFit::Fixed, 2.0),
            (FastenerFit::Fixed, 1.0),
        ];
        for ((fit, zone), apart) in ways.into_iter().zip(expected) {
            let found =
                may_be_drilled_apart(Length::mm(hole), Length::mm(fastener), fit, Length::mm(zone));
            assert_eq!(found, apart, "{fastener} in {hole}, {fit:?}, zone {zone}");
        }
    }
}

/// In a jig the spreader's holes (M8 in 9.0: 1 mm of play, one circle of 1 mm) are drilled apart;
/// by hand through the foot. The skin is drilled through the foot either way.
#[test]
fn a_jig_lets_holes_be_drilled_apart() {
    use rungsheet::build::{Edge, JIG_ZONE, MarkingBy};
    use rungsheet::derive::{Drilling, PartKind};
    let van = Van {
        hinges: Vec::new(),
        feet: Vec::new(),
        bolted: vec![(Edge::Left, vec![400.0])],
        ..Van::default()
    };
    let mut build = van.build();
    let apart = |build: &rungsheet::build::Build, kind: PartKind| {
        let (work, _) = derive(build);
        let all: Vec<bool> = work
            .holes
            .iter()
            .filter(|hole| work.parts[hole.part].kind == kind)
            .map(|hole| hole.drilling == Drilling::Apart)
            .collect();
        assert!(!all.is_empty());
        all.iter().all(|apart| *apart)
    };
    assert!(!apart(&build, PartKind::Spreader));
    build.job.marking.by.value = MarkingBy::Jig;
    build.job.marking.zone.value = JIG_ZONE;
    assert!(apart(&build, PartKind::Spreader));
    assert!(!apart(&build, PartKind::SkinUnderFoot));
}

/// A bolted foot on a circle is bent to the tangent under the middle of its lying leg: flange 1.5,
/// half of 50 out.
#[test]
fn a_bolted_foot_is_bent_to_the_tangent_of_its_circle() {
    let (r, chord) = (3600.0_f64, 1400.0_f64);
    let rise = r - (r * r - chord * chord / 4.0).sqrt();
    let van = Van {
        hinges: Vec::new(),
        feet: Vec::new(),
        bolted: vec![(rungsheet::build::Edge::Right, vec![300.0, 900.0, 1300.0])],
        ..Van::default()
    };
    let mut build = van.build();
    build.roof.as_mut().expect("a roof").shape = RoofShape::Crown(Crown::even(mm(chord), mm(rise)));
    let (work, _) = derive(&build);
    let tangent = Angle::asin((520.0 + 1.5 + 25.0) / r).expect("on the circle");
    let sagitta = r - (r * r - 25.0 * 25.0_f64).sqrt();
    let mut feet = 0;
    for mount in &work.mounts {
        let MountShape::BoltedFoot { bend, .. } = mount.kind else { continue };
        feet += 1;
        assert!((bend - Angle::RIGHT - tangent).abs() <= Angle::deg(0.26), "{bend} {tangent}");
        // Across the vehicle the skin slopes by the tangent, along it not at all.
        let (across, along) = (mount.slope_across.abs(), mount.slope_along.abs());
        assert!((across - tangent).abs() <= Angle::deg(0.6), "{across} {tangent}");
        assert!(along <= Angle::deg(0.01), "{along}");
        assert!(mount.plate_gap.to_mm() >= sagitta - 0.02, "{}", mount.plate_gap);
        let wedge = 50.0 * Angle::deg(0.25).tan();
        assert!(mount.plate_gap.to_mm() <= sagitta + wedge + 0.02, "{}", mount.plate_gap);
    }
    assert_eq!(feet, 3);
}

/// Trigonometry with tables of chords: a frame that reaches 1041 mm from its pin, 2 sin 5° =
/// 0.174 311, 2 sin 10° = 0.347 296, 2 sin 15° = 0.517 638, 2 sin 30° = 1.
#[test]
fn props_are_chords() {
    let (work, _) = derive(&Van::default().build());
    let (array, pin) = (
        work.arrays.first().expect("an array"),
        work.mounts
            .iter()
            .find_map(|m| match &m.kind {
                MountShape::Hinge { pin, .. } => Some(*pin),
                _ => None,
            })
            .expect("a hinge"),
    );
    let far = (array.outline.high().y - pin.y).to_mm();
    let low = (array.under - pin.z).to_mm();
    assert!((far - 1041.0).abs() < 1e-9, "{far}");
    let chords = [0.174_311, 0.347_296, 0.517_638, 0.684_040, 0.845_237, 1.0];
    let angles: Vec<f64> = work.tilts.iter().map(|tilt| tilt.angle.to_deg().round()).collect();
    assert_eq!(angles, [10.0, 20.0, 30.0, 40.0, 50.0, 60.0]);
    for (tilt, chord) in work.tilts.iter().zip(chords) {
        let expected = far.hypot(low) * chord;
        assert!((tilt.prop.to_mm() - expected).abs() < 2e-3, "{} {expected}", tilt.prop);
        assert!(tilt.clearance > Length::ZERO);
    }
}
