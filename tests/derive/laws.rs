//! Laws that hold for any roof and frame.

use super::sampled;
use super::support::Van;
use proptest::prelude::*;
use rungsheet::build::Edge;
use rungsheet::derive::{Body, MountShape, PartKind, Work, closure, derive, joint_checks};
use rungsheet::units::{Angle, Length};

/// A crowned roof with an uneven hand: z falls with the square of the distance from the centre
/// line, more on one side than on the other, more or less from station to station, and to both ends,
/// farther to one of them.
pub fn van() -> impl Strategy<Value = Van> {
    (
        (800.0..1100.0_f64, 400.0..600.0_f64),
        (1_u32..3, 1_u32..4),
        (0.0..20.0_f64, 5.0..40.0_f64, -60.0..60.0_f64),
        (20.0..60.0_f64, 0.9..1.1_f64, 0.0..12.0_f64),
        (0.1..0.9_f64, 1_u32..3),
        (-0.2..0.2_f64, 0.85..1.15_f64, 0.0..12.0_f64),
    )
        .prop_map(
            |(
                panel,
                (rows, columns),
                (gap, clearance, y),
                (fall, share, front),
                (at, cross),
                (skew, behind, rear),
            )| {
                let station = |fall: f64| -> Vec<(f64, f64)> {
                    [-700.0_f64, -350.0, 0.0, 350.0, 700.0]
                        .iter()
                        .map(|y| {
                            let side = 1.0 + skew * y.signum();
                            (*y, (side * fall * y * y / 490_000.0 * 10.0).round() / 10.0)
                        })
                        .collect()
                };
                let panel = (panel.0.round(), panel.1.round());
                let along = panel.1 * f64::from(columns) + gap.round() * f64::from(columns - 1);
                let across = panel.0 * f64::from(rows) + gap.round() * f64::from(rows - 1);
                let middle = (along * at).clamp(150.0, along - 150.0).round();
                Van {
                    panel,
                    rows,
                    columns,
                    gap: gap.round(),
                    at: (600.0, y.round()),
                    clearance: clearance.round(),
                    cross,
                    hinges: vec![middle],
                    rail: (y.round() - across / 2.0 - 22.0, 30.0),
                    hinge_edge: Edge::Left,
                    feet: vec![(Edge::Right, vec![middle]), (Edge::Rear, vec![500.0])],
                    bolted: Vec::new(),
                    clamps: Vec::new(),
                    stations: vec![
                        (400.0, station(fall)),
                        (1600.0, station(fall * share)),
                        (2800.0, station(fall * behind)),
                    ],
                    along: vec![(400.0, front.round()), (1600.0, 0.0), (2800.0, rear.round())],
                    roof: (3200.0, 2400.0),
                    ..Van::default()
                }
            },
        )
}

/// The same vans on feet bolted through the skin and clamps on a rail.
fn gripped() -> impl Strategy<Value = Van> {
    van().prop_map(|van| {
        let across = van.panel.0 * f64::from(van.rows) + van.gap * f64::from(van.rows - 1);
        Van {
            bolted: vec![(Edge::Left, van.hinges.clone()), (Edge::Rear, vec![500.0])],
            clamps: vec![(Edge::Right, van.hinges.clone(), van.at.1 + across / 2.0 + 55.0)],
            hinges: Vec::new(),
            feet: Vec::new(),
            ..van
        }
    })
}

/// The same vans with bent brackets, wedges or both, and latches.
fn shaped(vans: impl Strategy<Value = Van>) -> impl Strategy<Value = Van> {
    (vans, any::<bool>(), any::<bool>(), any::<bool>()).prop_map(|(van, fold, wedge, latch)| Van {
        fold,
        wedge,
        latch,
        ..van
    })
}

/// A keep-out beside the hinges or behind them.
fn in_the_way() -> impl Strategy<Value = Van> {
    (van(), 0.0..1.0_f64, -260.0..-40.0_f64, 20.0..200.0_f64, 10.0..400.0_f64, 20.0..88.0_f64)
        .prop_map(|(van, at, out, wide, high, lift)| {
            let along = van.panel.1 * f64::from(van.columns);
            let across = van.panel.0 * f64::from(van.rows) + van.gap * f64::from(van.rows - 1);
            let y = van.at.1 - across / 2.0 + out - wide;
            let keep_out = Some([van.at.0 + along * at * 0.9, y, 60.0, wide, high]);
            Van { keep_out, lift, ..van }
        })
}

/// Two lists of places are one.
pub fn same_places(here: &[[f64; 3]], there: &[[f64; 3]]) -> Result<(), TestCaseError> {
    prop_assert_eq!(here.len(), there.len());
    for (a, b) in here.iter().zip(there) {
        for k in 0..3 {
            prop_assert!((a[k] - b[k]).abs() < 2e-3, "{a:?} {b:?}");
        }
    }
    Ok(())
}

/// Mates in space by fastening, the holes' places on the vehicle. A flat prop has one face, which looks
/// out at one end of the frame and in at the other: its holes are told by the middle of its wall.
pub fn places(work: &Work, mirror: f64) -> Vec<[f64; 3]> {
    let mut places = Vec::new();
    for fastening in &work.fastenings {
        for at in fastening.places.iter().flatten() {
            let (part, piece) = work.piece(&at.piece).expect("a piece");
            let hole = work.hole(&at.hole).expect("a hole");
            let face = &part.faces[hole.face];
            let deep = if part.kind == PartKind::Prop { face.wall / 2.0 } else { Length::ZERO };
            let place = piece.place.place(face.point(hole.at) - face.outward * deep);
            places.push([place.x.to_mm(), place.y.to_mm() * mirror, place.z.to_mm()]);
        }
    }
    let grid = |v: f64| (v * 1000.0).round();
    places.sort_by(|a, b| {
        grid(a[0])
            .total_cmp(&grid(b[0]))
            .then(grid(a[1]).total_cmp(&grid(b[1])))
            .then(grid(a[2]).total_cmp(&grid(b[2])))
    });
    places
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    #[test]
    fn mating_holes_meet(van in van()) {
        let (work, _) = derive(&van.build());
        prop_assert_eq!(closure(&work), vec![]);
    }

    #[test]
    fn mating_holes_of_bolted_feet_and_clamps_meet(van in gripped()) {
        let (work, _) = derive(&van.build());
        prop_assert_eq!(closure(&work), vec![]);
    }

    #[test]
    fn mating_holes_of_bent_and_wedged_brackets_meet(
        van in prop_oneof![shaped(van()).boxed(), shaped(gripped()).boxed()],
    ) {
        let (work, _) = derive(&van.build());
        prop_assert_eq!(closure(&work), vec![]);
        for check in joint_checks(&work) {
            prop_assert!(check.sound && check.off_axis.fits(Length::mm(0.01)), "{check:?}");
        }
    }

    /// Draw latches: body on the bracket, keeper on the tube, or told that there is no room.
    #[test]
    fn mating_holes_of_draw_latches_meet(van in prop_oneof![shaped(van()).boxed(), shaped(gripped()).boxed()]) {
        let (work, findings) = derive(&Van { latch: true, draw: true, ..van }.build());
        prop_assert_eq!(closure(&work), vec![]);
        let latches: usize = work.parts_of(PartKind::Latch).map(|part| part.pieces.len()).sum();
        let feet = work.mounts.iter().filter(|mount| !matches!(mount.kind, MountShape::Hinge { .. })).count();
        prop_assert_eq!(latches, feet);
        let told = findings.iter().any(|finding| ["L046", "L029", "L038", "L021"].contains(&finding.rule.code));
        for fastening in work.fastenings.iter().filter(|f| ["keeper to tube", "latch to bracket"].contains(&&*f.name)) {
            prop_assert!(fastening.count as usize == 2 * fastening.places.len() / 2);
            for at in fastening.places.iter().flatten() {
                let hole = work.hole(&at.hole).expect("a hole");
                prop_assert!(hole.edge.has.clears(hole.edge.least) || told, "{} {:?}", fastening.name, hole.edge);
            }
        }
    }

    /// A bend shortens a sheet nowhere along its neutral line: what lies on a straight leg is as far
    /// from the leg's end after the bend as before it.
    #[test]
    fn holes_of_a_flat_keep_their_way_to_the_end_of_their_leg(van in shaped(gripped())) {
        let (work, findings) = derive(&Van { fold: true, ..van }.build());
        // A frame too low for its bolts is told.
        let told = findings.iter().any(|finding| finding.rule.code == "L029");
        let mut seen = 0;
        for hole in &work.holes {
            let part = &work.parts[hole.part];
            let Some(fold) = part.body.fold() else { continue };
            let face = &part.faces[hole.face];
            let standing = face.name == "standing leg";
            let flat = fold.on_flat(hole.at, standing);
            let (begins, ends) = fold.lines();
            let bent = face.width - hole.at.y;
            let straight = if standing { flat.y } else { fold.flat() - flat.y };
            prop_assert!(straight.is_near(bent, Length::SLACK), "{flat:?} {bent}");
            // On the flat stuff, not in the bend.
            let clear = if standing { flat.y.fits(begins) } else { flat.y.clears(ends) };
            prop_assert!((clear || told) && begins < ends && ends < fold.flat());
            seen += 1;
        }
        prop_assert!(seen > 0);
    }

    /// A wedge's faces enclose the slope of the skin under its foot, to the half degree that it is cut to.
    #[test]
    fn wedges_take_up_the_slope(van in gripped()) {
        let (work, findings) = derive(&Van { wedge: true, ..van }.build());
        for part in work.parts_of(PartKind::Wedge) {
            let Body::Wedge { width, thin, thick, .. } = &part.body else { continue };
            prop_assert!(thin.is_near(Length::mm(3.0), Length::SLACK));
            let slope = Angle::atan((*thick - *thin) / *width);
            let near = work.mounts.iter().filter(|mount| mount.kind.is_foot()).any(|mount| {
                let across = match mount.edge {
                    Edge::Left | Edge::Right => mount.slope_across,
                    Edge::Front | Edge::Rear => mount.slope_along,
                };
                (across.abs() - slope).abs() < Angle::deg(0.3)
            });
            prop_assert!(near, "{slope}");
            let told = findings.iter().any(|finding| finding.rule.code == "L040");
            prop_assert!(slope <= Angle::deg(8.01) || told);
        }
    }

    /// Where nothing is told, no place of the keep-out is inside the turned frame at any of many angles.
    #[test]
    fn a_sweep_that_is_clear_is_clear_when_sampled(van in in_the_way()) {
        let (work, findings) = derive(&van.build());
        let (Some(array), Some(tilt)) = (work.arrays.first(), work.lifts.first()) else {
            return Ok(());
        };
        let [x, y, long, wide, high] = van.keep_out.expect("in the way");
        let beside = x + long > array.outline.low().x.to_mm() && x < array.outline.high().x.to_mm();
        let places: Vec<(f64, f64)> = (0..=24)
            .flat_map(|i| {
                let at = y + wide * f64::from(i) / 24.0;
                let skin = sampled::skin(&work, x + long / 2.0, at);
                (0..=12).map(move |k| (at, skin - 5.0 + (high + 5.0) * f64::from(k) / 12.0))
            })
            .collect();
        let meets = beside && sampled::sweeps(&work, &places, 350);
        let told = sampled::told(&findings, &["L034", "L011", "L016"]);
        prop_assert!(!meets || told, "{:?} {:?}", van.keep_out, tilt);
    }

    #[test]
    fn bolted_feet_and_clamps_are_mirrored_with_their_roof(van in gripped()) {
        let (here, there) = (derive(&van.build()).0, derive(&van.mirrored().build()).0);
        let (here, there) = (places(&here, 1.0), places(&there, -1.0));
        same_places(&here, &there)?;
    }

    #[test]
    fn holes_of_bolted_feet_and_clamps_keep_their_edge_or_are_told(van in gripped()) {
        let (work, findings) = derive(&van.build());
        sampled::edges_kept(&work, &findings, &["H001", "H003", "L029", "L036", "L038"])?;
    }

    /// The frame turned about its pins point by point, at far more places than the table takes.
    #[test]
    fn a_lifted_frame_sweeps_no_further_than_told(van in van(), share in 0.0..1.0_f64) {
        let (work, _) = derive(&van.build());
        let (Some(array), Some(tilt)) = (work.arrays.first(), work.lifts.first()) else { return Ok(()) };
        let pin = sampled::pin(&work);
        let roof = work.roof.as_ref().expect("a roof");
        for row in &work.tilts {
            // Hinges are at the left edge: inboard is towards greater y.
            let angle = row.angle.to_deg().to_radians() ;
            let (sin, cos) = angle.sin_cos();
            for i in 0..=60 {
                let y = array.outline.low().y.to_mm()
                    + array.outline.height().to_mm() * f64::from(i) / 60.0;
                let (a, b) = (y - pin.y.to_mm(), (array.under - pin.z).to_mm());
                let (y, z) = (pin.y.to_mm() + a * cos - b * sin, pin.z.to_mm() + a * sin + b * cos);
                let x = array.outline.low().x + array.outline.width() * share;
                let over = z - roof.height(x, Length::mm(y)).to_mm();
                // Between the table's places the skin bulges by a fraction of a millimetre.
                prop_assert!(over > row.clearance.to_mm() - 1.5, "{over} {:?}", row);
            }
        }
        for step in 0..=90 {
            let angle = (tilt.angle.to_deg() * f64::from(step) / 90.0).to_radians();
            let (sin, cos) = angle.sin_cos();
            for z in [array.under, array.top] {
                let a = (array.outline.low().y - pin.y).to_mm();
                let out = -(a * cos - (z - pin.z).to_mm() * sin);
                prop_assert!(out <= tilt.reach.to_mm() + 1e-6, "{out} {:?}", tilt.reach);
            }
        }
    }

    #[test]
    fn every_hole_lies_on_its_part_or_is_told(van in van()) {
        let (work, findings) = derive(&van.build());
        for hole in &work.holes {
            let face = &work.parts[hole.part].faces[hole.face];
            let rim = hole.at.x.min(face.length - hole.at.x).min(hole.at.y).min(face.width - hole.at.y);
            let inside = rim.clears(hole.diameter / 2.0);
            // A rail out of reach or a leg too short is told for all its holes at once.
            let told = findings
                .iter()
                .any(|finding| ["H003", "L028", "L029"].contains(&finding.rule.code));
            prop_assert!(inside || told, "{} at {:?} of {}", hole.id, hole.at, work.parts[hole.part].name);
        }
    }

    #[test]
    fn the_frame_is_as_large_as_its_tubes_and_connectors(van in van()) {
        let (work, _) = derive(&van.build());
        let array = work.arrays.first().expect("an array");
        let cut = |kind| work.parts_of(kind).find_map(|part| match &part.body {
            Body::Bar { length, .. } => Some(*length),
            _ => None,
        });
        let cube = Length::mm(25.0);
        let side = cut(PartKind::SideTube).expect("side tubes") + cube * 2.0;
        let end = cut(PartKind::EndTube).expect("end tubes") + cube * 2.0;
        prop_assert!(side.is_near(array.outline.width(), Length::SLACK));
        prop_assert!(end.is_near(array.outline.height(), Length::SLACK));
        let panels: Length = array.panels.iter().map(|p| p.outline.width()).sum();
        let gaps = Length::mm(van.gap) * f64::from(van.columns - 1);
        prop_assert!((panels / f64::from(van.rows) + gaps).is_near(array.outline.width(), Length::SLACK));
        prop_assert!(array.diagonal.is_near(side.hypot(end), Length::SLACK));
    }

    #[test]
    fn nothing_of_the_frame_is_below_the_skin(van in van()) {
        let (work, _) = derive(&van.build());
        let (array, roof) = (work.arrays.first().expect("an array"), work.roof.as_ref().expect("a roof"));
        for k in 0..=20 {
            for i in 0..=20 {
                let x = array.outline.low().x + array.outline.width() * (f64::from(k) / 20.0);
                let y = array.outline.low().y + array.outline.height() * (f64::from(i) / 20.0);
                prop_assert!((array.under - roof.height(x, y)).clears(Length::mm(van.clearance)));
            }
        }
        for place in array.panels.iter().filter(|place| place.packer.is_some()) {
            let middle = place.outline.centre();
            let top = roof.height(middle.x, middle.y) + place.packer.expect("a packer");
            prop_assert!(top.fits(array.tube_top + Length::mm(26.0 - 1.0)));
        }
    }

    #[test]
    fn tape_reaches_the_skin_everywhere(van in van()) {
        let (work, findings) = derive(&van.build());
        for bond in &work.bonds {
            prop_assert!(bond.thickest.is_near(Length::mm(2.0), Length::mm(1e-6)), "{:?}", bond.thickest);
            let mount = work.mounts.iter().find(|mount| mount.mark == bond.mark).expect("a mount");
            prop_assert!(mount.plate_gap.is_near(bond.thickest - bond.thickness, Length::SLACK));
            let told = findings.iter().any(|finding| finding.rule.code == "L026");
            prop_assert!(mount.plate_gap * 2.0 <= Length::mm(2.0) || told);
        }
    }

    #[test]
    fn a_mirrored_roof_gives_mirrored_work(van in van()) {
        let (work, _) = derive(&van.build());
        let (other, _) = derive(&van.mirrored().build());
        let (here, there) = (places(&work, 1.0), places(&other, -1.0));
        same_places(&here, &there)?;
    }

    #[test]
    fn the_same_build_gives_the_same_work(van in van()) {
        let build = van.build();
        let told = |(work, findings): (Work, Vec<_>)| format!("{work:?}{findings:?}");
        prop_assert_eq!(told(derive(&build)), told(derive(&build)));
    }
}
