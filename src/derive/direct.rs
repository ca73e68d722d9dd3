//! Parts and holes that the build file states directly, beside what is derived.

use super::Drawing;
use super::draft::{DraftDrilling, DraftHole, DraftPiece, Sides, face, tube_faces};
use super::rules::h010;
use super::shop;
use super::work::{Body, Ends, Face, HoleKind, PartKind};
use crate::build::{Build, DirectHole, DirectPart, DirectPlate, HolePurpose};
use crate::geometry::{Dir3, Frame3, Point2, Point3};
use crate::tables::{Section, Shape};
use crate::units::{Angle, Length};

/// Adds the stated parts, then the stated holes to whatever has that mark: a stated part, or a
/// derived one once it is numbered. `marks` are the marks of all pieces so far, by handle.
pub(super) fn add_parts(drawing: &mut Drawing<'_>) {
    for part in &drawing.build.parts {
        let count = *part.count;
        for k in 1..=count {
            let mark =
                if count == 1 { part.mark.value.clone() } else { format!("{}{k}", *part.mark) };
            let piece = piece_of(part, mark, k);
            drawing.draft.add(piece);
        }
    }
    for plate in &drawing.build.plates {
        for k in 1..=*plate.count {
            let mark = if *plate.count == 1 {
                plate.mark.value.clone()
            } else {
                format!("{}{k}", *plate.mark)
            };
            drawing.draft.add(plate_of(plate, mark, k));
        }
    }
}

/// Marks of stated parts that may be drilled, with how many pieces each has.
fn marks(build: &Build) -> impl Iterator<Item = (&str, u32)> {
    let parts = build.parts.iter().map(|part| (part.mark.value.as_str(), *part.count));
    parts.chain(build.plates.iter().map(|plate| (plate.mark.value.as_str(), *plate.count)))
}

/// Adds the stated holes to stated parts. All pieces of a mark get them.
pub(super) fn add_holes(drawing: &mut Drawing<'_>) {
    let build = drawing.build;
    for hole in &build.holes {
        let pieces: Vec<usize> =
            (0..drawing.draft.pieces.len()).filter(|k| belongs(drawing, *k, hole)).collect();
        if pieces.is_empty() {
            let known = marks(build).map(|(mark, _)| mark).collect::<Vec<_>>();
            drawing.findings.push(h010::no_part(hole, &known));
        }
        for piece in pieces {
            let faces = &drawing.draft.pieces[piece].faces;
            let Some(face) =
                faces.iter().position(|face| face.name.eq_ignore_ascii_case(&hole.face))
            else {
                drawing.findings.push(h010::no_face(hole, faces));
                break;
            };
            drawing.draft.drill(
                piece,
                DraftHole {
                    face,
                    at: Point2::new(*hole.x, *hole.y),
                    diameter: *hole.diameter,
                    fastener: *hole.diameter,
                    kind: kind_of(*hole.purpose),
                    countersink: None,
                    drilling: DraftDrilling::Apart,
                    span: hole.span,
                },
            );
        }
    }
}

fn belongs(drawing: &Drawing<'_>, piece: usize, hole: &DirectHole) -> bool {
    let piece = &drawing.draft.pieces[piece];
    let Some(mark) = piece.mark.as_ref().filter(|_| piece.kind == PartKind::Direct) else {
        return false;
    };
    let wanted = hole.part.value.as_str();
    mark.eq_ignore_ascii_case(wanted)
        || marks(drawing.build).any(|(part, count)| {
            part.eq_ignore_ascii_case(wanted)
                && count > 1
                && mark.strip_prefix(part).is_some_and(|number| number.parse::<u32>().is_ok())
        })
}

const fn kind_of(purpose: HolePurpose) -> HoleKind {
    match purpose {
        HolePurpose::Clearance => HoleKind::Clearance,
        HolePurpose::RivetNut => HoleKind::RivetNut,
        HolePurpose::Pilot => HoleKind::Pilot,
        HolePurpose::Cable => HoleKind::Cable,
        HolePurpose::Drain => HoleKind::Drain,
    }
}

fn piece_of(part: &DirectPart, mark: String, number: u32) -> DraftPiece {
    let section = &part.section.value;
    let bend = (section.shape == Shape::Angle).then_some(Angle::RIGHT);
    DraftPiece {
        kind: PartKind::Direct,
        name: part.name.value.clone(),
        mark: Some(mark),
        body: Body::Bar {
            section: section.clone(),
            length: *part.length,
            bend,
            plugged: Length::ZERO,
            ends: ends_of(part),
        },
        faces: faces_of(section, *part.length),
        // Nobody says where it goes: it lies beside the datum, one behind the other.
        place: Frame3::at(Point3::new(
            Length::ZERO,
            section.width() * f64::from(number - 1),
            Length::ZERO,
        )),
        mass: shop::bar_mass(section, *part.length),
        holes: Vec::new(),
        span: part.span,
    }
}

/// Mitres run across the side that is stated, else across the width, a flat bar's broad side.
fn ends_of(part: &DirectPart) -> Ends {
    let (zero, far) = (*part.zero_end, *part.far_end);
    if zero.is_zero() && far.is_zero() {
        return Ends::SQUARE;
    }
    let section = &part.section.value;
    let usual = if section.shape == Shape::Flat { section.a } else { section.width() };
    Ends { zero, far, across: part.across.as_ref().map_or(usual, |across| **across) }
}

fn plate_of(plate: &DirectPlate, mark: String, number: u32) -> DraftPiece {
    let (length, width, thickness) = (*plate.length, *plate.width, *plate.thickness);
    DraftPiece {
        kind: PartKind::Direct,
        name: plate.name.value.clone(),
        mark: Some(mark),
        body: Body::Plate {
            fold: None,
            material: plate.material.value.clone(),
            length,
            width,
            thickness,
            section: None,
        },
        faces: vec![face(
            "top",
            Point3::new(Length::ZERO, Length::ZERO, thickness),
            (Dir3::X, Dir3::Y, Dir3::Z),
            (length, width),
            thickness,
        )],
        place: Frame3::at(Point3::new(Length::ZERO, width * f64::from(number - 1), Length::ZERO)),
        mass: plate.material.density * (length * width * thickness),
        holes: Vec::new(),
        span: plate.span,
    }
}

/// Faces of a stated part: `top`, `bottom`, `left` and `right`, looking along it from its zero end
/// with the zero end near. An angle stands on its lying leg with the standing leg at the right.
fn faces_of(section: &Section, length: Length) -> Vec<Face> {
    let (width, height, wall) = (section.width(), section.height(), section.t);
    let zero = Point3::ORIGIN;
    match section.shape {
        Shape::SquareTube | Shape::RectTube => {
            tube_faces(length, width, height, wall, &Sides { low: "right", high: "left" })
        }
        Shape::Angle => vec![
            face("right", zero, (Dir3::X, Dir3::Z, -Dir3::Y), (length, section.a), wall),
            face("bottom", zero, (Dir3::X, Dir3::Y, -Dir3::Z), (length, section.b), wall),
        ],
        Shape::Flat => vec![face(
            "top",
            Point3::new(Length::ZERO, Length::ZERO, section.t),
            (Dir3::X, Dir3::Y, Dir3::Z),
            (length, section.a),
            section.t,
        )],
        Shape::Channel => vec![
            face("right", zero, (Dir3::X, Dir3::Z, -Dir3::Y), (length, section.a), wall),
            face("bottom", zero, (Dir3::X, Dir3::Y, -Dir3::Z), (length, section.b), wall),
            face(
                "top",
                Point3::new(Length::ZERO, Length::ZERO, section.a),
                (Dir3::X, Dir3::Y, Dir3::Z),
                (length, section.b),
                wall,
            ),
        ],
        // A round tube has no flat face to measure on.
        Shape::RoundTube => Vec::new(),
    }
}
