//! Props of lifted frames on random roofs.

use super::laws::{places, same_places, van};
use super::support::Van;
use proptest::prelude::*;
use rungsheet::build::Edge;
use rungsheet::derive::{Body, PartKind, PropPlace, Work, closure, derive, joint_checks};
use rungsheet::geometry::Point3;
use rungsheet::units::Length;

const BARS: [&str; 4] = [
    "aluminium-flat-30x4",
    "aluminium-tube-20x20x2",
    "aluminium-tube-30x20x2",
    "aluminium-tube-25x25x2",
];

/// Frames that are lifted about their left edge, with a foot at each end.
pub fn propped() -> impl Strategy<Value = Van> {
    (van(), 0.55..0.85_f64, 10.0..60.0_f64, prop::sample::select(BARS.to_vec()), any::<bool>())
        .prop_map(|(van, share, lift, bar, bonded)| {
            let across = van.panel.0 * f64::from(van.rows) + van.gap * f64::from(van.rows - 1);
            let at = vec![(across * share).round()];
            let on = vec![(Edge::Front, at.clone()), (Edge::Rear, at)];
            let (feet, bolted) = if bonded { (on, Vec::new()) } else { (Vec::new(), on) };
            // Room over the bolts of the feet.
            let clearance = van.clearance + 25.0;
            let rail = (van.rail.0, van.rail.1 + 25.0);
            Van {
                prop: Some(bar),
                latch: true,
                lift: lift.round(),
                feet,
                bolted,
                clearance,
                rail,
                ..van
            }
        })
}

fn hole(work: &Work, piece: &str, id: &str) -> Point3 {
    let (part, piece) = work.piece(piece).expect("a piece");
    let hole = work.hole(id).expect("a hole");
    piece.place.place(part.faces[hole.face].point(hole.at))
}

/// Told in full, or there.
fn stands(work: &Work, codes: &[&str]) -> bool {
    work.props.len() == 2 || codes.contains(&"L045")
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    /// The tube's hole turned about the hinges' pins by hand (a rotation matrix) is as far from the
    /// bracket's hole as the prop's holes are apart, and the prop's tilt is within half a millimetre's
    /// worth of what was asked.
    #[test]
    fn a_prop_reaches_from_bracket_to_tube_at_each_angle(van in propped()) {
        let (work, findings) = derive(&van.build());
        let codes: Vec<&str> = findings.iter().map(|finding| finding.rule.code).collect();
        prop_assert!(stands(&work, &codes), "{codes:?}");
        prop_assert_eq!(closure(&work), vec![]);
        for check in joint_checks(&work) {
            prop_assert!(check.sound, "{check:?}");
        }
        for prop in &work.props {
            let leg = hole(&work, &prop.leg_hole.piece, &prop.leg_hole.hole);
            let tube = hole(&work, &prop.tube_hole.piece, &prop.tube_hole.hole);
            let foot = hole(&work, &prop.mark, &prop.foot_hole.hole);
            let mut last = 0.0;
            for stand in &prop.stands {
                let (sin, cos) = stand.angle.to_deg().to_radians().sin_cos();
                let (y, z) = ((tube.y - prop.pin.y).to_mm(), (tube.z - prop.pin.z).to_mm());
                let (y, z) = (prop.pin.y.to_mm() + y * cos - z * sin, prop.pin.z.to_mm() + y * sin + z * cos);
                let lifted = (y - leg.y.to_mm()).hypot(z - leg.z.to_mm());
                let upper = hole(&work, &prop.mark, &stand.hole);
                let apart = (upper.y - foot.y).to_mm().hypot((upper.z - foot.z).to_mm());
                prop_assert!((lifted - apart).abs() < 0.01, "{lifted} {apart}");
                prop_assert!((stand.angle - stand.asked).to_deg().abs() * apart.to_radians() < 0.6 + 1e-6 * apart
                    || (stand.angle - stand.asked).to_deg().abs() < 0.3);
                prop_assert!(apart > last);
                last = apart;
            }
        }
    }

    /// While driving it lies along its tube, clear of the bracket and of the tube's corners.
    #[test]
    fn a_prop_lies_between_bracket_and_hinges(van in propped()) {
        let (work, _) = derive(&van.build());
        for prop in &work.props {
            let (part, piece) = work.piece(&prop.mark).expect("a prop");
            let Body::Bar { length, .. } = &part.body else { panic!("a bar") };
            let ends = [Length::ZERO, *length].map(|x| {
                piece.place.place(Point3::new(x, Length::ZERO, Length::ZERO)).y.to_mm()
            });
            let (low, high) = (ends[0].min(ends[1]), ends[0].max(ends[1]));
            let outline = work.arrays[0].outline;
            let mount = work.mounts.iter().find(|mount| mount.mark == prop.on).expect("its mount");
            let long = if van.bolted.is_empty() { 160.0 } else { 140.0 };
            prop_assert!(high <= mount.at.y.to_mm() - long / 2.0 - 5.0 + 1e-6);
            // Connectors take 25 + 27 mm of a corner.
            prop_assert!(low + 10.0 >= outline.low().y.to_mm() + 25.0);
            let middle = (work.arrays[0].under + work.arrays[0].tube_top) / 2.0;
            let (tube, pin) = (middle.to_mm(), hole(&work, &prop.mark, &prop.foot_hole.hole).z.to_mm());
            prop_assert!((tube - pin).abs() < 1e-6);
        }
    }

    #[test]
    fn a_mirrored_frame_has_mirrored_props(van in propped()) {
        let (here, there) = (derive(&van.build()).0, derive(&van.mirrored().build()).0);
        prop_assert_eq!(here.props.len(), there.props.len());
        let cut = |work: &Work| -> Vec<i64> {
            let pieces = work.parts_of(PartKind::Prop).flat_map(|part| {
                let Body::Bar { length, .. } = &part.body else { panic!("a bar") };
                let mm = (length.to_mm() * 1000.0).round() as i64;
                part.pieces.iter().map(move |_| mm)
            });
            let mut all: Vec<i64> = pieces.collect();
            all.sort_unstable();
            all
        };
        prop_assert_eq!(cut(&here), cut(&there));
        let (here, there) = (places(&here, 1.0), places(&there, -1.0));
        same_places(&here, &there)?;
    }

    /// Edge distance 1.2 d0 and pitch 2.2 d0 (EN 1993-1-8 table 3.3), or told.
    #[test]
    fn holes_of_a_prop_keep_edge_and_pitch(van in propped()) {
        let (work, findings) = derive(&van.build());
        let told = |code: &str| findings.iter().any(|finding| finding.rule.code == code);
        for (index, part) in work.parts.iter().enumerate().filter(|(_, part)| part.kind == PartKind::Prop) {
            for (number, face) in part.faces.iter().enumerate() {
                let mut at: Vec<f64> = Vec::new();
                for hole in work.holes.iter().filter(|hole| hole.part == index && hole.face == number) {
                    let end = hole.at.x.min(face.length - hole.at.x).to_mm();
                    prop_assert!(end >= hole.diameter.to_mm() * 1.2 || told("H001"));
                    at.push(hole.at.x.to_mm());
                }
                at.sort_by(f64::total_cmp);
                let d0 = work.holes.iter().find(|hole| hole.part == index).expect("holes").diameter.to_mm();
                let close = at.windows(2).any(|pair| pair[1] - pair[0] < d0 * 2.2 - 1e-6);
                prop_assert!(!close || told("H002"), "{at:?}");
            }
        }
    }
}

/// A hinge line whose prop names a mark that stands on the far edge alone is told.
#[test]
fn a_prop_that_stands_on_nothing_is_told() {
    let van = Van { prop: Some(BARS[0]), latch: true, ..Van::default() };
    let (work, findings) = derive(&van.build());
    assert!(work.props.is_empty());
    assert!(findings.iter().any(|finding| finding.rule.code == "L045"));
    let _: Option<&PropPlace> = work.props.first();
}
