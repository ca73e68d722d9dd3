//! The whole work of one van.

use super::support::Van;
use rungsheet::build::Edge;
use rungsheet::derive::{Body, Drilling, HoleKind, MountShape, PartKind, Screw, closure, derive};
use rungsheet::source::Severity;
use rungsheet::units::{Angle, Length};

#[test]
fn a_sound_van_has_no_stop_and_its_holes_meet() {
    let (work, findings) = derive(&Van::default().build());
    let stops: Vec<&str> = findings
        .iter()
        .filter(|finding| finding.severity == Severity::Stop)
        .map(|finding| finding.message.as_str())
        .collect();
    assert_eq!(stops, [""; 0]);
    assert_eq!(closure(&work), []);
}

#[test]
fn tubes_are_cut_to_the_outside_less_connectors() {
    let (work, _) = derive(&Van::default().build());
    let cut = |kind| -> Vec<Length> {
        work.parts_of(kind)
            .filter_map(|part| match &part.body {
                Body::Bar { length, .. } => Some(*length),
                _ => None,
            })
            .collect()
    };
    // 3 · 540 + 2 · 10 − 2 · 25 and 1040 − 2 · 25, by hand.
    assert!(cut(PartKind::SideTube).iter().all(|length| *length == Length::mm(1590.0)));
    assert_eq!(cut(PartKind::EndTube), [Length::mm(990.0)], "both end tubes are alike");
    assert_eq!(cut(PartKind::CrossTube), [Length::mm(990.0)], "both cross tubes are alike");
}

#[test]
fn alike_feet_share_a_part_and_keep_their_numbers() {
    let (work, _) = derive(&Van::default().build());
    let marks = |kind| -> Vec<Vec<&str>> {
        work.parts_of(kind)
            .map(|part| part.pieces.iter().map(|piece| piece.mark.as_str()).collect())
            .collect()
    };
    assert_eq!(marks(PartKind::FootPlate), [["D1", "D2", "D3"]]);
    // The roof is alike before and behind its middle; the middle foot is shorter.
    assert_eq!(marks(PartKind::FootAngle), [vec!["A1", "A3"], vec!["A2"]]);
    assert_eq!(marks(PartKind::HingePacker), [["R1", "R4"], ["R2", "R3"]]);
    assert_eq!(marks(PartKind::JointAngle)[0].len(), 8);
}

#[test]
fn marks_and_ids_are_told_once() {
    let (work, _) = derive(&Van::default().build());
    let mut marks: Vec<&str> =
        work.parts.iter().flat_map(|part| &part.pieces).map(|piece| piece.mark.as_str()).collect();
    let mut ids: Vec<&str> = work.holes.iter().map(|hole| hole.id.as_str()).collect();
    for list in [&mut marks, &mut ids] {
        let count = list.len();
        list.sort_unstable();
        list.dedup();
        assert_eq!(list.len(), count);
    }
    let parts: Vec<usize> = work.holes.iter().map(|hole| hole.part).collect();
    assert!(parts.is_sorted(), "holes follow their parts");
    for pair in work.holes.windows(2).filter(|pair| pair[0].part == pair[1].part) {
        assert!(pair[0].at.x.fits(pair[1].at.x + Length::mm(0.001)), "holes run along their part");
    }
}

#[test]
fn a_letter_of_the_readers_own_is_not_used_twice() {
    let mut build = Van::default().build();
    // The reader marks feet "A": the angles must take another letter.
    build.mounts[1].mark.value = "A".to_owned();
    let (work, _) = derive(&build);
    let angles: Vec<&str> = work
        .parts_of(PartKind::FootAngle)
        .flat_map(|part| &part.pieces)
        .map(|piece| piece.mark.as_str())
        .collect();
    assert!(
        angles.iter().all(|mark| !mark.starts_with(['A', 'G', 'P', 'E', 'I', 'O'])),
        "{angles:?}"
    );
}

#[test]
fn feet_open_their_angles_where_the_roof_falls_outboard() {
    let (work, _) = derive(&Van::default().build());
    for mount in &work.mounts {
        let MountShape::BondedFoot { bend, bolt_height, leg } = &mount.kind else { continue };
        // At y = 524 this roof of 17 mm in 350 mm falls by 2 · 17 / 350² · 524 = 0.145, 8.3°; the
        // curve through few readings comes within half a degree.
        assert!((*bend - Angle::deg(98.3)).abs() < Angle::deg(0.5), "{bend}");
        assert_eq!(*leg, Length::mm(80.0));
        assert!(*bolt_height < *leg);
        assert!(mount.slope_across < Angle::ZERO);
    }
}

#[test]
fn small_bolts_are_drilled_through_their_mates() {
    let (work, _) = derive(&Van::default().build());
    for hole in &work.holes {
        match hole.kind {
            HoleKind::RivetNut => {
                let Drilling::Through(guide) = &hole.drilling else {
                    panic!("{} stands apart", hole.id)
                };
                let guide = work.hole(guide).expect("the guide exists");
                assert!(guide.mates.contains(&hole.id));
                assert_eq!(
                    hole.drills.first(),
                    Some(&guide.diameter),
                    "its guide's drill comes first"
                );
            }
            HoleKind::Countersunk | HoleKind::Access => assert_eq!(hole.drilling, Drilling::Apart),
            _ => {}
        }
        let drills = &hole.drills;
        assert!(drills.is_sorted() || drills.len() < 2, "{drills:?}");
        if hole.drilling != Drilling::Ready {
            assert_eq!(
                drills.last(),
                Some(&hole.diameter),
                "{} ends with its finished size",
                hole.id
            );
        }
    }
}

#[test]
fn screws_go_through_what_they_clamp() {
    let (work, _) = derive(&Van::default().build());
    for fastening in &work.fastenings {
        let stack: Length = fastening.stack.iter().map(|layer| layer.1).sum();
        assert_eq!(fastening.count as usize, fastening.places.len());
        match &fastening.screw {
            Screw::BoltAndNut { thread, length, countersunk, .. } => {
                let washers = if *countersunk { 1.0 } else { 2.0 };
                let shows =
                    *length - stack - thread.washer.thickness * washers - thread.locking_nut_height;
                assert!(
                    shows.clears(thread.pitch * 2.0),
                    "{}: {shows} of thread show",
                    fastening.name
                );
                assert!(thread.lengths.contains(length));
            }
            Screw::BoltInRivetNut { thread, length, nut } => {
                let leg = fastening.stack[0].1;
                let past =
                    *length - thread.washer.thickness - leg - nut.flange_thickness - nut.length;
                assert!(past.clears(thread.pitch), "{}: {past}", fastening.name);
                let wall = fastening.stack.last().expect("a wall").1;
                assert!(nut.grips(wall));
            }
            Screw::Tapping { length, .. } | Screw::Pin { length, .. } => assert!(*length > stack),
            Screw::BlindRivet { rivet, length } => {
                assert_eq!(rivet.for_stack(stack).map(|found| found.length), Some(*length));
            }
        }
    }
}

#[test]
fn every_panel_is_held_on_two_sides() {
    let (work, _) = derive(&Van::default().build());
    let array = work.arrays.first().expect("an array");
    for place in &array.panels {
        let (part, _) = work.piece(&place.mark).expect("a panel piece");
        let index =
            work.parts.iter().position(|other| std::ptr::eq(other, part)).expect("in the list");
        let pilots: Vec<_> = work.holes.iter().filter(|hole| hole.part == index).collect();
        let half = place.outline.height() / 2.0;
        let left = pilots.iter().filter(|hole| hole.at.y < half).count();
        assert!(
            left >= 2 && pilots.len() - left >= 2,
            "{}: {left} of {}",
            place.mark,
            pilots.len()
        );
    }
}

#[test]
fn faces_tell_where_they_are_seen_from() {
    let (work, _) = derive(&Van::default().build());
    let side = work.parts_of(PartKind::SideTube).next().expect("the left side tube");
    let seen = |name: &str| {
        side.faces.iter().find(|face| face.name == name).map(|face| face.seen.as_str())
    };
    assert_eq!(seen("top"), Some("from above, front at left"));
    assert_eq!(seen("outer"), Some("from the left, front at left"));
    assert_eq!(seen("inner"), Some("from the right, front at right"));
    for part in &work.parts {
        for face in &part.faces {
            assert!(!face.seen.is_empty(), "{} {}", part.name, face.name);
            let turn = face.along.cross(face.across).expect("square").dot(face.outward);
            assert_eq!(face.runs_left, turn < 0.0);
            assert!((turn.abs() - 1.0).abs() < 1e-9, "{} {}: not square", part.name, face.name);
        }
    }
}

#[test]
fn feet_stand_on_every_edge() {
    let van = Van {
        hinges: Vec::new(),
        feet: vec![
            (Edge::Left, vec![220.0, 1420.0]),
            (Edge::Right, vec![220.0, 1420.0]),
            (Edge::Front, vec![520.0]),
            (Edge::Rear, vec![520.0]),
        ],
        ..Van::default()
    };
    let (work, findings) = derive(&van.build());
    assert_eq!(work.mounts.len(), 6);
    assert_eq!(closure(&work), []);
    let stops: Vec<_> = findings.iter().filter(|f| f.severity == Severity::Stop).collect();
    // The rear foot's plate and the entry share the strip behind the frame; nothing else is wrong.
    assert!(
        stops.iter().all(|finding| finding.rule.code == "L030" || finding.rule.code == "L029"),
        "{stops:?}"
    );
}

#[test]
fn the_ledger_shows_how_heights_were_worked_out() {
    let (work, _) = derive(&Van::default().build());
    let array = work.arrays.first().expect("an array");
    let value = |id: &str| work.ledger.get(id).map(|figure| figure.value);
    assert_eq!(value("frame.under"), Some(array.under.to_mm()));
    assert_eq!(value("vehicle.height-after"), array.height_after.map(Length::to_mm));
    // 2610 + 0 + 15 + 25 + 30, by hand.
    assert_eq!(value("vehicle.height-after"), Some(2680.0));
    for figure in &work.ledger {
        assert!(!figure.source.is_empty() && !figure.formula.is_empty(), "{}", figure.id);
    }
}

#[test]
fn a_lifted_frame_is_worked_out_about_its_pins() {
    let (work, _) = derive(&Van::default().build());
    let tilt = work.lifts.first().cloned().expect("it has hinges");
    // By hand: pins 1 mm outboard of the tube (the rivet nut's flange) and 5.5 mm below it, so that
    // the leaf's holes, 18 mm up, come to the tube's middle: z = 9.5. Far edge 1041 mm away.
    let (sin, cos) = (60.0_f64.to_radians().sin(), 60.0_f64.to_radians().cos());
    let top = 9.5 + 1041.0 * sin + 60.5 * cos;
    assert!((tilt.top.to_mm() - top).abs() < 1e-6, "{} {top}", tilt.top);
    let prop = 2.0 * 1041.0_f64.hypot(5.5) * 0.5;
    assert!((tilt.prop.to_mm() - prop).abs() < 1e-6, "{} {prop}", tilt.prop);
    assert!((tilt.reach.to_mm() - (60.5 * sin - cos)).abs() < 1e-6, "{}", tilt.reach);
    // The entry lies at y = 330, 851 mm from the pins at −521.
    assert!((tilt.slack.to_mm() - 851.0).abs() < 1e-6, "{}", tilt.slack);
}
