//! Laws of frames that hold for every kind of corner, and of two frames on one roof.

use super::laws::{places, same_places, van};
use super::support::{Meet, Van};
use proptest::prelude::*;
use rungsheet::derive::{Body, HoleKind, PartKind, Work, closure, derive};
use rungsheet::units::Length;

fn corners() -> impl Strategy<Value = Van> {
    let kinds = prop::sample::select(vec![
        Meet::Connector,
        Meet::Mitre,
        Meet::MitreWelded,
        Meet::ButtSides,
        Meet::ButtEnds,
    ]);
    (van(), kinds).prop_map(|(van, corner)| Van { corner, ..van })
}

fn cut(work: &Work, kind: PartKind) -> (f64, f64, bool) {
    let part = work.parts_of(kind).next().expect("a tube of the kind");
    let Body::Bar { length, section, ends, .. } = &part.body else { panic!("a tube is a bar") };
    (length.to_mm(), section.width().to_mm(), !ends.are_square())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    /// Outside sizes by joiner's arithmetic: connectors add their two cubes of 25 mm (row of the
    /// table); mitred tubes are as long as the frame from long point to long point; at a butt the
    /// tube between is shorter by two tubes.
    #[test]
    fn tubes_and_corners_make_the_outside_size(van in corners()) {
        let (work, _) = derive(&van.build());
        let outline = work.arrays[0].outline;
        let (side, wide, side_mitred) = cut(&work, PartKind::SideTube);
        let (end, _, end_mitred) = cut(&work, PartKind::EndTube);
        let (add_side, add_end, mitred) = match van.corner {
            Meet::Connector => (50.0, 50.0, false),
            Meet::Mitre | Meet::MitreWelded => (0.0, 0.0, true),
            Meet::ButtSides => (0.0, 2.0 * wide, false),
            Meet::ButtEnds => (2.0 * wide, 0.0, false),
        };
        prop_assert!((side + add_side - outline.width().to_mm()).abs() < 1e-6);
        prop_assert!((end + add_end - outline.height().to_mm()).abs() < 1e-6);
        prop_assert_eq!((side_mitred, end_mitred), (mitred, mitred));
    }

    /// The tubes in place fill the outline: every corner of it is a corner or a long point of a tube.
    #[test]
    fn long_points_lie_on_the_outside(van in corners()) {
        prop_assume!(matches!(van.corner, Meet::Mitre | Meet::MitreWelded));
        let (work, _) = derive(&van.build());
        let outline = work.arrays[0].outline;
        for part in work.parts.iter().filter(|p| matches!(p.kind, PartKind::SideTube | PartKind::EndTube)) {
            let Body::Bar { length, section, ends, .. } = &part.body else { continue };
            // The far side is the long one where the ends are above zero.
            let y = if ends.zero.to_deg() > 0.0 { section.width() } else { Length::ZERO };
            for piece in &part.pieces {
                for x in [Length::ZERO, *length] {
                    let at = piece.place.place(rungsheet::geometry::Point3::new(x, y, Length::ZERO));
                    let on = |v: Length, low: Length, high: Length| {
                        v.is_near(low, Length::mm(1e-6)) || v.is_near(high, Length::mm(1e-6))
                    };
                    prop_assert!(on(at.x, outline.low().x, outline.high().x), "{:?}", at);
                    prop_assert!(on(at.y, outline.low().y, outline.high().y), "{:?}", at);
                }
            }
        }
    }

    #[test]
    fn mating_holes_meet_at_every_corner(van in corners()) {
        let (work, _) = derive(&van.build());
        prop_assert_eq!(closure(&work), vec![]);
    }

    /// Four angles, two fasteners in each leg; the holes keep 2 d and 3 d for rivets (US Army
    /// TM 10-5410-229-13&P), 1.2 d0 and 2.2 d0 for screws (EN 1993-1-8 table 3.3).
    #[test]
    fn corner_angles_keep_edge_and_pitch(van in corners()) {
        let (work, _) = derive(&van.build());
        let angled = !matches!(van.corner, Meet::Connector | Meet::MitreWelded);
        let count: usize = work.parts_of(PartKind::CornerAngle).map(|p| p.pieces.len()).sum();
        prop_assert_eq!(count, if angled { 4 } else { 0 });
        let plugs: usize = work.parts_of(PartKind::EndPlug).map(|p| p.pieces.len()).sum();
        let butt = matches!(van.corner, Meet::ButtSides | Meet::ButtEnds);
        prop_assert_eq!(plugs, if butt { 4 } else { 0 });
        for (index, part) in work.parts.iter().enumerate() {
            if part.kind != PartKind::CornerAngle { continue }
            for (number, face) in part.faces.iter().enumerate() {
                let own: Vec<_> = work.holes.iter().filter(|h| h.part == index && h.face == number).collect();
                prop_assert_eq!(own.len(), 2);
                let apart = (own[0].at.y - own[1].at.y).abs().to_mm();
                let rivet = own[0].kind == HoleKind::Rivet;
                let (edge, pitch) = if rivet { (2.0 * 4.8, 3.0 * 4.8) } else {
                    let d0 = own[0].diameter.to_mm();
                    (1.2 * d0, 2.2 * d0)
                };
                prop_assert!(apart >= pitch - 1e-9, "{apart}");
                for hole in own {
                    prop_assert!((face.width - hole.at.y).to_mm() >= edge - 1e-9);
                    prop_assert!(hole.at.x.min(face.length - hole.at.x).to_mm() >= edge - 1e-9);
                }
            }
        }
    }

    /// No hole but those of the corner angles themselves in what the corner takes of a tube.
    #[test]
    fn corners_stay_free_of_other_holes(van in corners()) {
        let (work, findings) = derive(&van.build());
        let told = findings.iter().any(|f| ["L021", "H001"].contains(&f.rule.code));
        let outline = work.arrays[0].outline;
        // From the outside of the frame: cube and spigot of the connector; tube and leg; tube and heat.
        let zone = match van.corner {
            Meet::Connector => 25.0 + 27.0,
            Meet::MitreWelded => 25.0 + 30.0,
            _ => 25.0 + 50.0,
        };
        for (index, part) in work.parts.iter().enumerate() {
            let along_x = part.kind == PartKind::SideTube;
            if !along_x && part.kind != PartKind::EndTube { continue }
            for hole in work.holes.iter().filter(|hole| hole.part == index) {
                let inner = part.faces[hole.face].name == "inner";
                if inner || told { continue }
                for piece in &part.pieces {
                    let at = piece.place.place(part.faces[hole.face].point(hole.at));
                    let (v, low, high) = if along_x {
                        (at.x, outline.low().x, outline.high().x)
                    } else {
                        (at.y, outline.low().y, outline.high().y)
                    };
                    let from = (v - low).min(high - v).to_mm();
                    prop_assert!(from >= zone, "{} {} is {from} from the corner", hole.id, part.name);
                }
            }
        }
    }

    #[test]
    fn a_mirrored_frame_has_mirrored_corners(van in corners()) {
        let (work, _) = derive(&van.build());
        let (other, _) = derive(&van.mirrored().build());
        let (here, there) = (places(&work, 1.0), places(&other, -1.0));
        same_places(&here, &there)?;
    }

    /// Two frames are the same frame twice: as many parts of each kind in each, as large, and told of
    /// exactly if they lie less than 20 mm apart.
    #[test]
    fn two_frames_are_two_of_the_same(van in corners(), apart in -200.0..200.0_f64) {
        let apart = apart.round();
        let (work, findings) = derive(&van.two(apart));
        prop_assert_eq!(work.arrays.len(), 2);
        let (a, b) = (&work.arrays[0], &work.arrays[1]);
        prop_assert!(a.outline.width().is_near(b.outline.width(), Length::SLACK));
        prop_assert!(a.diagonal.is_near(b.diagonal, Length::SLACK));
        prop_assert_eq!(a.panels.len(), b.panels.len());
        for kind in [PartKind::SideTube, PartKind::EndTube, PartKind::CrossTube, PartKind::CornerAngle, PartKind::Panel] {
            let count = |frame: usize| {
                let pieces = work.parts_of(kind).flat_map(|part| &part.pieces);
                pieces.filter(|piece| piece.frame == Some(frame)).count()
            };
            prop_assert_eq!(count(0), count(1), "{:?}", kind);
        }
        let told = findings.iter().any(|finding| finding.rule.code == "L017");
        prop_assert_eq!(told, apart < 20.0, "{}", apart);
        prop_assert_eq!(closure(&work), vec![]);
    }

    /// Towards a slanting end as well: its edge distance is square to the cut.
    #[test]
    fn every_hole_keeps_its_edge_or_is_told(van in corners()) {
        let (work, findings) = derive(&van.build());
        let told = ["H001", "H003", "L028", "L029", "L036", "L038"];
        super::sampled::edges_kept(&work, &findings, &told)?;
    }

    /// The frame is larger than its panels by what it reaches beyond them, and its tubes with it.
    #[test]
    fn overhangs_make_frame_and_tubes_larger(van in corners(), long in 0.0..60.0_f64, wide in 0.0..9.0_f64) {
        let van = Van { overhang: (long.round(), wide.round()), ..van };
        let (work, _) = derive(&van.build());
        let array = &work.arrays[0];
        let low = |of: fn(&rungsheet::geometry::Rect) -> Length| {
            array.panels.iter().map(|panel| of(&panel.outline)).reduce(Length::min).expect("panels")
        };
        prop_assert!((low(|r| r.low().x) - array.outline.low().x).is_near(Length::mm(van.overhang.0), Length::SLACK));
        prop_assert!((low(|r| r.low().y) - array.outline.low().y).is_near(Length::mm(van.overhang.1), Length::SLACK));
        let (side, wide, _) = cut(&work, PartKind::SideTube);
        let add = match van.corner {
            Meet::Connector => 50.0,
            Meet::ButtEnds => 2.0 * wide,
            _ => 0.0,
        };
        prop_assert!((side + add - array.outline.width().to_mm()).abs() < 1e-6);
        prop_assert_eq!(closure(&work), vec![]);
    }
}

/// A lid 300 deep that opens to 120° about its rear edge reaches 300 × −cos 120° = 150 beyond it; one
/// that opens to 90° stands upright and reaches nowhere (trigonometry, by hand).
#[test]
fn an_open_lid_reaches_over_its_hinge() {
    use rungsheet::build::{Edge, Lid};
    use rungsheet::units::Angle;
    let mut keep = Van::default().build().roof.expect("a roof").keep_outs.remove(0);
    let place = keep.places()[0];
    for (opens, edge, far) in
        [(120.0, Edge::Rear, 150.0), (90.0, Edge::Rear, 0.0), (180.0, Edge::Left, 300.0)]
    {
        keep.lid = Some(Lid {
            hinged: super::support::said(edge),
            opens: super::support::said(Angle::deg(opens)),
        });
        let taken = keep.taken()[0];
        let over = match edge {
            Edge::Rear => taken.high().x - place.high().x,
            _ => place.low().y - taken.low().y,
        };
        assert!((over.to_mm() - far).abs() < 1e-9, "{opens}: {over}");
        assert!((taken.area() / place.area() - (1.0 + far / 300.0)).abs() < 1e-9);
    }
}

/// Ribs that lie side by side: six of 2000 × 12 at 120 from the first.
#[test]
fn ribs_are_repeated_square_to_their_length() {
    let mut keep = Van::default().build().roof.expect("a roof").keep_outs.remove(0);
    keep.length = super::support::mm(2000.0);
    keep.width = super::support::mm(12.0);
    keep.count = super::support::said(6);
    keep.every = super::support::mm(120.0);
    let places = keep.places();
    assert_eq!(places.len(), 6);
    assert!((places[5].low().y - places[0].low().y).is_near(Length::mm(600.0), Length::SLACK));
    assert!(places.iter().all(|place| place.low().x == places[0].low().x));
}
