//! A hinge between the frame's edge and a rail that is already on the roof.
//!
//! One leaf stands on the outer face of the tube, the other lies on the rail's top over a packer.
//! The pin runs along the tube's lower outer edge, or lower by as much as brings the leaf's holes
//! to the middle of the tube. All pins of a line must be in one level line, so the packers take up
//! the rail's own curve.

use super::bolts::{self, Through, ToTube, bolt_and_nut_length};
use super::bracket;
use super::flat::{Flat, PACKER, PACKER_STEP};
use super::foot_stance::frame_of;
use super::{Ground, Site};
use crate::build::HingeLine;
use crate::derive::Drawing;
use crate::derive::draft::{DraftDrilling, DraftHole, DraftPiece, HoleRef, face};
use crate::derive::rules::{h011, l027, l028, written};
use crate::derive::shop;
use crate::derive::work::{Body, HoleKind, MountPlace, MountShape, PartKind};
use crate::geometry::{Dir3, Frame3, Point2, Point3};
use crate::source::{Figure, Seen};
use crate::tables::RivetNut;
use crate::units::{Angle, Length, Unit, display};

/// Where a hinge stands: own axes along the pin, outboard and up, zero at the pin's zero end.
struct Stance {
    place: Frame3,
    pin: Point3,
    packer: Length,
    exact_packer: Length,
    rail_top: Length,
}

/// Fits one hinge.
pub(super) fn fit(
    drawing: &mut Drawing<'_>,
    ground: &Ground<'_>,
    site: &Site<'_>,
    line: &HingeLine,
) -> Option<MountPlace> {
    let nut = bolts::nut_in_tube(drawing, ground, &line.bolt)?;
    if line.hinge.hole < line.bolt.diameter {
        drawing.findings.push(h011::finding(&line.hinge.value, &line.bolt.value, line.bolt.span));
    }
    let stance = stand(ground, site, line, nut.flange_thickness);
    if stance.exact_packer < Length::ZERO {
        drawing.findings.push(l027::finding(
            &site.mark,
            -stance.exact_packer,
            ground.frame,
            &line.rail,
        ));
    }
    let hinge = add_hinge(drawing, site, line, &stance);
    bolt_to_tube(drawing, ground, site, line, hinge, &nut);
    let lying = holes_of_leaf(drawing, hinge, "lying leaf", line);
    let packer =
        (stance.packer > Length::ZERO).then(|| add_packer(drawing, site, line, &stance)).flatten();
    bolt_to_rail(drawing, site, line, &stance, &lying, packer);
    check_reach(drawing, site, line, &stance);
    enter_figure(drawing, site, line, &stance);

    let shape = MountShape::Hinge {
        hinge: line.hinge.value.clone(),
        packer: stance.packer,
        pin: stance.pin,
    };
    Some(site.placed(ground, site.slopes(ground), Length::ZERO, shape))
}

fn stand(ground: &Ground<'_>, site: &Site<'_>, line: &HingeLine, flange: Length) -> Stance {
    let hinge = &line.hinge.value;
    let drop = (hinge.hole_in - ground.frame.section.height() / 2.0).max(Length::ZERO);
    let pin = site.at + site.axes.way(Length::ZERO, flange, -drop);
    let rail_at = rail_middle(site, line);
    let skin = ground.surface.height(rail_at.0, rail_at.1);
    let rail_top = skin + *line.rail.height;
    let exact_packer = pin.z - hinge.thickness - rail_top;
    let packer =
        Length::mm((exact_packer.to_mm() / PACKER_STEP).round() * PACKER_STEP).max(Length::ZERO);
    let zero_end = pin + site.axes.along * (hinge.length / -2.0);
    let place = frame_of(zero_end, site.axes.along, site.axes.outboard);
    Stance { place, pin, packer, exact_packer, rail_top }
}

/// Middle of the rail's top beside the hinge. A rail lies along the vehicle at its own y; at the
/// front and rear edges it is taken to lie across at that distance from the datum.
fn rail_middle(site: &Site<'_>, line: &HingeLine) -> (Length, Length) {
    if site.axes.outboard.dot(Dir3::Y).abs() > 0.5 {
        (site.at.x, *line.rail.y)
    } else {
        (*line.rail.y, site.at.y)
    }
}

/// From the pin outboard to the middle of the rail.
fn rail_reach(site: &Site<'_>, line: &HingeLine, stance: &Stance) -> Length {
    let (x, y) = rail_middle(site, line);
    (Point3::new(x, y, stance.pin.z) - stance.pin).along(site.axes.outboard)
}

fn add_hinge(
    drawing: &mut Drawing<'_>,
    site: &Site<'_>,
    line: &HingeLine,
    stance: &Stance,
) -> usize {
    let hinge = &line.hinge.value;
    let size = (hinge.length, hinge.leaf);
    let front = Point3::new(Length::ZERO, hinge.thickness, Length::ZERO);
    drawing.draft.add(DraftPiece {
        kind: PartKind::Hinge,
        name: site.mount.name.value.clone(),
        mark: Some(site.mark.clone()),
        body: Body::Bought { item: hinge.words.clone() },
        faces: vec![
            face("upright leaf", front, (Dir3::X, Dir3::Z, Dir3::Y), size, hinge.thickness),
            face("lying leaf", Point3::ORIGIN, (Dir3::X, Dir3::Y, Dir3::Z), size, hinge.thickness),
        ],
        place: stance.place,
        mass: shop::hinge_mass(hinge),
        holes: Vec::new(),
        span: line.hinge.span,
    })
}

/// The holes that a leaf is sold with.
fn holes_of_leaf(
    drawing: &mut Drawing<'_>,
    hinge_piece: usize,
    leaf: &str,
    line: &HingeLine,
) -> Vec<HoleRef> {
    let hinge = &line.hinge.value;
    let face = drawing.draft.face(hinge_piece, leaf);
    hinge
        .hole_places()
        .into_iter()
        .map(|x| {
            drawing.draft.drill(
                hinge_piece,
                DraftHole {
                    face,
                    at: Point2::new(x, hinge.hole_in),
                    diameter: hinge.hole,
                    fastener: line.bolt.diameter,
                    kind: HoleKind::Clearance,
                    countersink: None,
                    drilling: DraftDrilling::Ready,
                    span: line.hinge.span,
                },
            )
        })
        .collect()
}

/// Bolts through the upright leaf into rivet nuts in the tube.
fn bolt_to_tube(
    drawing: &mut Drawing<'_>,
    ground: &Ground<'_>,
    site: &Site<'_>,
    line: &HingeLine,
    hinge: usize,
    nut: &RivetNut,
) {
    let leaf = holes_of_leaf(drawing, hinge, "upright leaf", line);
    let joint = ToTube {
        name: "hinge to tube",
        held: "hinge leaf",
        thickness: line.hinge.thickness,
        bolt: &line.bolt,
        nut,
        by_hand: false,
    };
    bolts::bolt_to_tube(drawing, ground, site, &leaf, &joint);
}

fn add_packer(
    drawing: &mut Drawing<'_>,
    site: &Site<'_>,
    line: &HingeLine,
    stance: &Stance,
) -> Option<usize> {
    let material = shop::material(PACKER)?;
    let hinge = &line.hinge.value;
    // Under the whole leaf outboard of the pin's barrel.
    let barrel = hinge.pin / 2.0;
    let width = hinge.leaf - barrel;
    let corner =
        stance.place.place(Point3::new(Length::ZERO, barrel, -hinge.thickness - stance.packer));
    let packer = Flat {
        kind: PartKind::HingePacker,
        name: "hinge packer",
        length: hinge.length,
        width,
        thickness: stance.packer,
        place: frame_of(corner, site.axes.along, site.axes.outboard),
        span: written(&[line.rail.height.span, site.mount.span]),
    };
    Some(packer.block(drawing, material))
}

/// Bolts through the lying leaf, the packer and the rail's top. The packer is drilled through the
/// leaf, then the rail through both.
fn bolt_to_rail(
    drawing: &mut Drawing<'_>,
    site: &Site<'_>,
    line: &HingeLine,
    stance: &Stance,
    leaf: &[HoleRef],
    packer: Option<usize>,
) {
    let rail = add_rail(drawing, site, line, stance);
    let mut places = Vec::new();
    for hole in leaf {
        let mut row = vec![*hole];
        for piece in packer.into_iter().chain([rail]) {
            row.push(bracket::opposite(drawing, piece, *hole, &line.bolt, false));
        }
        places.push(row);
    }
    let mut stack = vec![("hinge leaf".to_owned(), line.hinge.thickness)];
    if packer.is_some() {
        stack.push(("hinge packer".to_owned(), stance.packer));
    }
    stack.push(("rail top".to_owned(), *line.rail.thickness));
    let least = bolt_and_nut_length(&line.bolt, &stack, false);
    let joint = Through {
        name: "hinge to rail",
        thread: &line.bolt,
        stack,
        places,
        countersunk: false,
        sealed: false,
        lean: Angle::ZERO,
    };
    bolts::bolt_and_nut(drawing, site, least, joint);
}

/// The stretch of the rail under one hinge, as a piece of its own: the rail follows the roof, so
/// each stretch has its own height. Its top is where the packer ends.
fn add_rail(
    drawing: &mut Drawing<'_>,
    site: &Site<'_>,
    line: &HingeLine,
    stance: &Stance,
) -> usize {
    let hinge = &line.hinge.value;
    let width = *line.rail.width;
    let edge = rail_reach(site, line, stance) - width / 2.0;
    let corner = stance.place.place(Point3::new(
        Length::ZERO,
        edge,
        -hinge.thickness - stance.packer - *line.rail.thickness,
    ));
    Flat {
        kind: PartKind::Rail,
        name: "roof rail",
        length: hinge.length,
        width,
        thickness: *line.rail.thickness,
        place: frame_of(corner, site.axes.along, site.axes.outboard),
        span: line.rail.y.span,
    }
    .of_vehicle(drawing, format!("rail at {}", site.mark))
}

fn check_reach(drawing: &mut Drawing<'_>, site: &Site<'_>, line: &HingeLine, stance: &Stance) {
    // On the rail's own hole rule: 1.2 d0 from its edges.
    let row = line.hinge.hole_in;
    let middle = rail_reach(site, line, stance);
    let room = *line.rail.width / 2.0 - (row - middle).abs();
    let least = line.bolt.clearance.medium * 1.2;
    if !room.clears(least) {
        drawing.told.push(line.bolt.span);
        drawing.findings.push(l028::finding(&site.mark, row - middle, room, least, &line.rail));
    }
}

fn enter_figure(drawing: &mut Drawing<'_>, site: &Site<'_>, line: &HingeLine, stance: &Stance) {
    let told = |length: Length| display::in_unit_short(length, Unit::MM, 1);
    let mark = &site.mark;
    drawing.ledger.push(
        Figure::new(
            format!("mount.{mark}.packer"),
            format!("packer between rail and leaf of hinge {mark}"),
            stance.packer.to_mm(),
            "mm",
        )
        .formula("h = z_pin − leaf − z_rail")
        .input("z_pin", told(stance.pin.z))
        .input("leaf", told(line.hinge.thickness))
        .input("z_rail", told(stance.rail_top))
        .input("exact", told(stance.exact_packer))
        .source("geometry on the measured roof", Seen::Computed)
        .assume("rounded to half a millimetre: the height of the rail is known no better")
        .decides(),
    );
}
