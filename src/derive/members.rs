//! The frame's tubes: cut lengths, places, corner connectors, and the angles that hold cross tubes.

use super::Drawing;
use super::corners;
use super::draft::{
    DraftDrilling, DraftFastening, DraftHole, DraftPiece, HoleRef, INNER, OUTER, Sides, face,
    tube_faces,
};
use super::shop;
use super::work::{Array, Body, Ends, HoleKind, PartKind, Screw};
use crate::build::{Corner, Edge, Frame};
use crate::geometry::{Dir3, Frame3, Point2, Point3, Vec3};
use crate::source::{Figure, Seen, Span};
use crate::tables::{BlindRivet, Section};
use crate::units::{Angle, Length, Unit, display};

/// The tubes of the frame by handle.
pub(super) struct Members {
    pub left: usize,
    pub right: usize,
    pub front: usize,
    pub rear: usize,
    pub cross: Vec<usize>,
    /// How the outer tubes end at the corners.
    pub ends: corners::Ends,
}

impl Members {
    /// The outer tube at an edge.
    pub const fn at(&self, edge: Edge) -> usize {
        match edge {
            Edge::Left => self.left,
            Edge::Right => self.right,
            Edge::Front => self.front,
            Edge::Rear => self.rear,
        }
    }
}

/// Length of the angles that hold a cross tube, cut so that it goes between the tube's walls.
const ANGLE_LENGTH: Length = Length::mm(22.0);
/// Section that they are cut from.
const ANGLE: &str = "aluminium-angle-30x30x3";
/// Rivet that holds them: one in each leg.
const RIVET: Length = Length::mm(4.8);

/// Cuts and places the tubes and fits the cross tubes.
pub(super) fn build(drawing: &mut Drawing<'_>, frame: &Frame, array: &Array) -> Members {
    let section = &frame.section.value;
    let (width, height) = (section.width(), section.height());
    let ends = corners::ends(frame);
    let (low, high) = (array.outline.low(), array.outline.high());
    let under = array.under;
    let side_length = array.outline.width() - ends.sides.begin * 2.0;
    let end_length = array.outline.height() - ends.ends.begin * 2.0;
    let cross_length = array.outline.height() - width * 2.0;

    // Above zero the long point lies at full width, where the outer side is the high one.
    let mitre = |end: corners::TubeEnd, sides: &Sides| match (end.mitred, sides.high == OUTER) {
        (false, _) => Ends::SQUARE,
        (true, true) => Ends { zero: Angle::deg(45.0), far: Angle::deg(45.0), across: width },
        (true, false) => Ends { zero: Angle::deg(-45.0), far: Angle::deg(-45.0), across: width },
    };
    let tube = |kind, name: &str, length, sides: &Sides, place, end: corners::TubeEnd| DraftPiece {
        kind,
        name: name.to_owned(),
        mark: None,
        body: Body::Bar {
            section: section.clone(),
            length,
            bend: None,
            plugged: end.plugged,
            ends: mitre(end, sides),
        },
        faces: tube_faces(length, width, height, section.t, sides),
        place,
        mass: shop::bar_mass(section, length),
        holes: Vec::new(),
        span: frame.section.span,
    };
    let along_x = |y| Frame3::at(Point3::new(low.x + ends.sides.begin, y, under));
    // Across the vehicle: own x to the right, own y to the front.
    let along_y = |x: Length, from: Length| {
        Frame3::new(
            Point3::new(x, low.y + from, under),
            Vec3::mm(0.0, 1.0, 0.0),
            Vec3::mm(-1.0, 0.0, 0.0),
        )
        .expect("two axes at right angles")
    };
    let left_sides = Sides { low: OUTER, high: INNER };
    let right_sides = Sides { low: INNER, high: OUTER };
    let draft = &mut drawing.draft;
    let left = draft.add(tube(
        PartKind::SideTube,
        "side tube",
        side_length,
        &left_sides,
        along_x(low.y),
        ends.sides,
    ));
    let right = draft.add(tube(
        PartKind::SideTube,
        "side tube",
        side_length,
        &right_sides,
        along_x(high.y - width),
        ends.sides,
    ));
    let front = draft.add(tube(
        PartKind::EndTube,
        "end tube",
        end_length,
        &right_sides,
        along_y(low.x + width, ends.ends.begin),
        ends.ends,
    ));
    let rear = draft.add(tube(
        PartKind::EndTube,
        "end tube",
        end_length,
        &left_sides,
        along_y(high.x, ends.ends.begin),
        ends.ends,
    ));
    let none = corners::TubeEnd { begin: width, plugged: Length::ZERO, mitred: false, open: false };
    let cross_sides = Sides { low: REAR_SIDE, high: FRONT_SIDE };
    let cross = array
        .cross
        .iter()
        .map(|x| {
            let place = along_y(*x + width / 2.0, width);
            draft.add(tube(
                PartKind::CrossTube,
                "cross tube",
                cross_length,
                &cross_sides,
                place,
                none,
            ))
        })
        .collect();
    let members = Members { left, right, front, rear, cross, ends };
    enter_cuts(drawing, frame, array, (ends, [side_length, end_length, cross_length]));
    corners::join(drawing, frame, array, &members);
    join_cross_tubes(drawing, frame, array, &members);
    members
}

const REAR_SIDE: &str = "rear side";
const FRONT_SIDE: &str = "front side";

/// Two angles at each end of each cross tube, one before it and one behind it, a rivet in each leg.
/// One rivet a leg keeps twice the diameter to every edge of a 30 mm leg; the second angle keeps
/// the joint from turning.
fn join_cross_tubes(drawing: &mut Drawing<'_>, frame: &Frame, array: &Array, members: &Members) {
    if members.cross.is_empty() {
        return;
    }
    let tube = &frame.section.value;
    let (Some(section), Some(rivet)) = (shop::section(ANGLE), shop::rivet(RIVET)) else { return };
    let grip = section.t + tube.t;
    let Some(rivet_length) = rivet.for_stack(grip).map(|found| found.length) else { return };
    let length = ANGLE_LENGTH.min(tube.height());
    let leg = section.a;
    // Clear of the other leg and of the rivet tool's nose, and twice the diameter from the toe.
    let from_heel = leg - rivet.edge - Length::mm(2.0);
    let mid = array.under + tube.height() / 2.0;
    for (cross, x) in members.cross.iter().zip(&array.cross) {
        for (side, hand) in [(members.left, -1.0), (members.right, 1.0)] {
            for way in [-1.0, 1.0] {
                let corner = Point3::new(
                    *x + tube.width() * (way / 2.0),
                    if hand < 0.0 {
                        array.outline.low().y + tube.width()
                    } else {
                        array.outline.high().y - tube.width()
                    },
                    mid,
                );
                let place = joint_place(corner, way, hand, length);
                let angle = drawing.draft.add(joint_angle(
                    (PartKind::JointAngle, "joint angle"),
                    &section,
                    length,
                    place,
                    frame.cross_members.span,
                ));
                let on_side =
                    rivet_hole(drawing, angle, "side leg", from_heel, length, &rivet, frame);
                let on_cross =
                    rivet_hole(drawing, angle, "cross leg", from_heel, length, &rivet, frame);
                let side_face = drawing.draft.face(side, INNER);
                let cross_face =
                    drawing.draft.face(*cross, if way < 0.0 { FRONT_SIDE } else { REAR_SIDE });
                for (leg_hole, member, member_face, name) in [
                    (on_side, side, side_face, "joint angle to side tube"),
                    (on_cross, *cross, cross_face, "joint angle to cross tube"),
                ] {
                    let at = drawing.draft.on_face(
                        member,
                        member_face,
                        drawing.draft.place_of(leg_hole),
                    );
                    let hole = drawing.draft.drill(
                        member,
                        DraftHole {
                            face: member_face,
                            at,
                            diameter: rivet.hole,
                            fastener: rivet.diameter,
                            kind: HoleKind::Rivet,
                            countersink: None,
                            drilling: DraftDrilling::Through(leg_hole),
                            span: frame.section.span,
                        },
                    );
                    drawing.draft.fasten(DraftFastening {
                        name: name.to_owned(),
                        screw: Screw::BlindRivet { rivet: rivet.clone(), length: rivet_length },
                        stack: vec![
                            ("joint angle".to_owned(), section.t),
                            ("tube wall".to_owned(), tube.t),
                        ],
                        places: vec![vec![leg_hole, hole]],
                        lean: Angle::ZERO,
                        undone: false,
                        span: frame.cross_members.span,
                    });
                }
            }
        }
    }
}

/// Own axes of a joint angle: x up, y away from the heel along one leg, z along the other. `corner`
/// is where side tube and cross tube meet, at mid height. The piece is alike for all four corners
/// of a cross tube: it is turned over from one side to the other.
pub(super) fn joint_place(corner: Point3, way: f64, hand: f64, length: Length) -> Frame3 {
    // Along the side tube, away from the cross tube.
    let along_side = Vec3::mm(way, 0.0, 0.0);
    // Right-handed with x upright: y × z must point along x, so x is up or down in turn.
    let up = -way * hand;
    let origin = corner - Vec3::mm(0.0, 0.0, up) * (length.to_mm() / 2.0);
    Frame3::new(origin, Vec3::mm(0.0, 0.0, up), along_side).expect("upright and level")
}

pub(super) fn joint_angle(
    (kind, name): (PartKind, &str),
    section: &Section,
    length: Length,
    place: Frame3,
    span: Span,
) -> DraftPiece {
    let zero = Point3::ORIGIN;
    DraftPiece {
        kind,
        name: name.to_owned(),
        mark: None,
        body: Body::Bar {
            section: section.clone(),
            length,
            bend: Some(Angle::RIGHT),
            plugged: Length::ZERO,
            ends: Ends::SQUARE,
        },
        faces: vec![
            // Own y = along the side tube: the leg's outer face lies in z = 0.
            face("side leg", zero, (Dir3::X, Dir3::Y, -Dir3::Z), (length, section.a), section.t),
            face("cross leg", zero, (Dir3::X, Dir3::Z, -Dir3::Y), (length, section.b), section.t),
        ],
        place,
        mass: shop::bar_mass(section, length),
        holes: Vec::new(),
        span,
    }
}

fn rivet_hole(
    drawing: &mut Drawing<'_>,
    angle: usize,
    leg: &str,
    from_heel: Length,
    length: Length,
    rivet: &BlindRivet,
    frame: &Frame,
) -> HoleRef {
    let face = drawing.draft.face(angle, leg);
    drawing.draft.drill(
        angle,
        DraftHole {
            face,
            at: Point2::new(length / 2.0, from_heel),
            diameter: rivet.hole,
            fastener: rivet.diameter,
            kind: HoleKind::Rivet,
            countersink: None,
            drilling: DraftDrilling::Apart,
            span: frame.cross_members.span,
        },
    )
}

fn enter_cuts(
    drawing: &mut Drawing<'_>,
    frame: &Frame,
    array: &Array,
    (ends, lengths): (corners::Ends, [Length; 3]),
) {
    let told = |length: Length| display::in_unit_short(length, Unit::MM, 1);
    let (along, across) = (array.outline.width(), array.outline.height());
    let build = drawing.build;
    let key = |what: &str| build.frame_key(array.frame, what);
    let of_frame = |words: &str| match build.frames.len() {
        0 | 1 => words.to_owned(),
        _ => format!("{words}, {}", build.the_frame(array.frame)),
    };
    for (id, label, value, outside, off) in [
        ("cut.side", "cut length of the side tubes", lengths[0], along, ends.sides.begin),
        ("cut.end", "cut length of the end tubes", lengths[1], across, ends.ends.begin),
        ("cut.cross", "cut length of the cross tubes", lengths[2], across, frame.section.width()),
    ] {
        if id == "cut.cross" && array.cross.is_empty() {
            continue;
        }
        let symbol = match &frame.corner {
            Corner::Connector(_) if id != "cut.cross" => "connector",
            _ => "tube",
        };
        let formula =
            if off.is_zero() { "l = L".to_owned() } else { format!("l = L − 2 {symbol}") };
        let figure = Figure::new(key(id), of_frame(label), value.to_mm(), "mm")
            .formula(formula)
            .input("L", told(outside))
            .source("geometry", Seen::Computed)
            .decides();
        drawing.ledger.push(if off.is_zero() {
            let mitred = if id == "cut.side" { ends.sides.mitred } else { ends.ends.mitred };
            if mitred { figure.assume("between the long points of its mitres") } else { figure }
        } else {
            figure.input(symbol, told(off))
        });
    }
}
