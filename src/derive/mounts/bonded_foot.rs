//! A plate bonded to the skin with an angle on it that stands up to the frame.
//!
//! The angle's heel follows the skin's slope along the edge, its legs are opened or closed to the
//! slope across it, and the bolts stay at the tube's mid height. Bend and bolt height are rounded
//! (half a degree, half a millimetre) so that feet come out alike: the bond takes up what is left of
//! the bend, and the holes in the tube, drilled through the foot in place, what is left of the height.
//!
//! Tape must touch the skin everywhere, so the plate is pressed down until the farthest point of the
//! skin is one tape thickness away. A bead alone stands on spacers at the nearest point.

use super::bolts::{self, Through, bolt_and_nut_length};
use super::bracket::{self, Bracket, Standing, TubeBolts};
use super::flat::Flat;
use super::foot_stance::{
    Base, Legs, Pattern, Stance, bed, check_legs, enter_bend_and_height, footprint, pattern,
    plate_frame, stand,
};
use super::wedge::{self, Lies};
use super::{Ground, Site};
use crate::build::BondedFoot;
use crate::derive::Drawing;
use crate::derive::check::Foot;
use crate::derive::draft::{DraftDrilling, DraftHole};
use crate::derive::drilling::{FastenerFit, may_be_drilled_apart};
use crate::derive::rules::{l026, l031, l032, l033, written};
use crate::derive::work::{Bond, Countersink, HoleKind, MountPlace, MountShape, PartKind};
use crate::geometry::{Frame3, Point2, Point3, Rect};
use crate::source::{Figure, Seen};
use crate::units::{Angle, Length, Unit, display};

/// Least air between foot plate and tube.
const AIR: Length = Length::mm(3.0);

/// Fits one foot.
pub(super) fn fit(
    drawing: &mut Drawing<'_>,
    ground: &Ground<'_>,
    site: &Site<'_>,
    foot: &BondedFoot,
) -> Option<MountPlace> {
    let nut = bolts::nut_in_tube(drawing, ground, &foot.bolt)?;
    let pattern = pattern(foot);
    let base = Base::of_plate(foot, &pattern);
    let stance = stand(ground, site, &base, nut.flange_thickness);
    let plate = plate_frame(&stance, &base);
    let bed = bed(ground, &plate, &base);
    check(drawing, ground, site, foot, &pattern, &stance, &plate, bed);

    let bracket = angle_of(foot, &pattern);
    let standing =
        Standing { heel: stance.heel, heel_way: stance.heel_way, up: stance.up, bend: stance.bend };
    let angle = bracket::add(drawing, site, &bracket, &standing);
    let plate_piece = add_plate(drawing, site, foot, plate);
    let wedge = foot.wedge.as_ref().zip(stance.slant.as_ref()).map(|(wedge, slant)| {
        let lies = Lies::UnderLeg;
        wedge::add(drawing, site, wedge, (&stance, slant), *foot.angle_length, lies)
    });
    let pieces = Pieces { angle, plate: plate_piece, wedge };
    screw_plate(drawing, site, foot, &pattern, &stance, &pieces);
    let bolts = TubeBolts {
        name: "foot angle to tube",
        bolt: &foot.bolt,
        height: stance.bolt_height,
        pitch: pattern.bolt_pitch,
        nut: &nut,
        latch: foot.latch.as_ref(),
    };
    bracket::bolt_to_tube(drawing, ground, site, (&bracket, angle), &bolts);
    drawing.feet.push(Foot {
        mark: site.mark.clone(),
        plate: footprint(plate, *foot.plate.length, *foot.plate.width),
        edge: *site.mount.edge,
        span: site.span,
    });
    drawing.bonds.push(bond(site, foot, bed));
    let words = ("the plate's plane", "the bond");
    enter_bend_and_height(drawing, site, ground, &stance, words);
    enter_gap(drawing, site, &pattern, bed);

    let slopes = (stance.seat.tilt_across(), stance.seat.tilt_along());
    let shape = MountShape::BondedFoot {
        bolt_height: stance.bolt_height,
        leg: pattern.standing,
        bend: stance.bend,
    };
    Some(site.placed(ground, slopes, bed.1 - bed.0, shape))
}

#[expect(clippy::too_many_arguments, reason = "all that a foot is judged by, told once")]
fn check(
    drawing: &mut Drawing<'_>,
    ground: &Ground<'_>,
    site: &Site<'_>,
    foot: &BondedFoot,
    pattern: &Pattern,
    stance: &Stance,
    plate: &Frame3,
    bed: (Length, Length),
) {
    let legs = Legs {
        angle: &foot.angle,
        standing: pattern.standing,
        leg: pattern.leg,
        fold: foot.fold.as_ref(),
    };
    check_legs(drawing, ground, site, stance, &legs, &foot.bolt);
    let need = foot.tape.as_ref().map_or(2.0, |tape| tape.kind.thickness_by_gap);
    let gap = bed.1 - bed.0;
    if gap * need > pattern.bond {
        drawing.findings.push(l026::finding(&site.mark, gap, pattern.bond, need, foot));
    }
    let inboard = [Length::ZERO, *foot.plate.length]
        .map(|x| plate.place(Point3::new(x, Length::ZERO, *foot.plate.thickness)).z);
    let air = site.at.z - inboard[0].max(inboard[1]);
    if !air.clears(AIR) {
        drawing.findings.push(l031::finding(&site.mark, air, AIR, ground.frame));
    }
    let nut_reach = pattern.leg
        + foot.angle.inner_radius
        + foot.plate_screw.washer.outer.max(foot.plate_screw.nut_width * 1.1547) / 2.0;
    if !pattern.rows[0].clears(nut_reach) {
        drawing.findings.push(l033::finding(
            &site.mark,
            pattern.lying,
            pattern.lying + nut_reach - pattern.rows[0],
            foot,
        ));
    }
    if let Some(tape) = &foot.tape {
        let taken = *tape.width * f64::from(*tape.strips);
        let spaces = f64::from((*tape.strips).saturating_sub(1));
        let beads = foot.bead.as_ref().map_or(Length::ZERO, |bead| *bead.width * spaces);
        if !(taken + beads).fits(*foot.plate.width) {
            drawing.findings.push(l032::finding(&site.mark, taken + beads, foot));
        }
    }
}

fn angle_of<'a>(foot: &'a BondedFoot, pattern: &Pattern) -> Bracket<'a> {
    Bracket {
        section: &foot.angle,
        fold: foot.fold.as_ref(),
        length: *foot.angle_length,
        standing: pattern.standing,
        lying: pattern.lying,
        kind: PartKind::FootAngle,
        name: "foot angle",
    }
}

fn add_plate(
    drawing: &mut Drawing<'_>,
    site: &Site<'_>,
    foot: &BondedFoot,
    place: Frame3,
) -> usize {
    let plate = &foot.plate;
    Flat {
        kind: PartKind::FootPlate,
        name: "foot plate",
        length: *plate.length,
        width: *plate.width,
        thickness: *plate.thickness,
        place,
        span: written(&[plate.length.span, site.mount.span]),
    }
    .plate(drawing, &plate.material)
}

/// Four countersunk screws from below the plate through the lying leg. The leg is drilled through the
/// plate; on a wedge the plate is drilled through the leg, whose screws stand square to it.
fn screw_plate(
    drawing: &mut Drawing<'_>,
    site: &Site<'_>,
    foot: &BondedFoot,
    pattern: &Pattern,
    stance: &Stance,
    pieces: &Pieces,
) {
    let thread = &foot.plate_screw.value;
    let hole = thread.clearance.medium;
    let leg_face = drawing.draft.face(pieces.angle, "lying leg");
    let plate_face = drawing.draft.face(pieces.plate, "top");
    // The head centres itself in the plate, so the leg's hole alone has play.
    let apart = may_be_drilled_apart(hole, thread.diameter, FastenerFit::Fixed, drawing.zone());
    let lean = stance.slant.map_or(Angle::ZERO, |slant| slant.angle);
    for row in pattern.rows {
        let under = stance.slant.map_or(Length::ZERO, |slant| slant.at(row));
        let mut places = Vec::new();
        for x in [pattern.screw_end, *foot.angle_length - pattern.screw_end] {
            let on_leg = Point2::new(x, row);
            let on_plate = {
                let piece = &drawing.draft.pieces[pieces.angle];
                let place = piece.place.place(piece.faces[leg_face].point(on_leg));
                let place = place + stance.normal * -(pattern.leg + under);
                drawing.draft.on_face(pieces.plate, plate_face, place)
            };
            let in_leg = |drilling| DraftHole {
                face: leg_face,
                at: on_leg,
                diameter: hole,
                fastener: thread.diameter,
                kind: HoleKind::Clearance,
                countersink: None,
                drilling,
                span: foot.plate_screw.span,
            };
            let in_plate = |drilling| DraftHole {
                face: plate_face,
                at: on_plate,
                kind: HoleKind::Countersunk,
                countersink: Some(Countersink {
                    diameter: thread.countersunk_head.diameter,
                    far_side: true,
                }),
                ..in_leg(drilling)
            };
            let draft = &mut drawing.draft;
            let own = DraftDrilling::Apart;
            if let Some(wedge) = pieces.wedge {
                let leg = draft.drill(pieces.angle, in_leg(own));
                let plate = draft.drill(pieces.plate, in_plate(DraftDrilling::Through(leg)));
                let wedge = bracket::opposite(drawing, wedge, leg, &foot.plate_screw, false);
                places.push(vec![plate, wedge, leg]);
            } else {
                let plate = draft.drill(pieces.plate, in_plate(own));
                let through = if apart { own } else { DraftDrilling::Through(plate) };
                let leg = draft.drill(pieces.angle, in_leg(through));
                places.push(vec![plate, leg]);
            }
        }
        let wedge = pieces.wedge.map(|_| ("wedge".to_owned(), under));
        let stack: Vec<(String, Length)> =
            [("foot plate".to_owned(), *foot.plate.thickness / lean.cos())]
                .into_iter()
                .chain(wedge)
                .chain([("foot angle".to_owned(), pattern.leg)])
                .collect();
        let least = bolt_and_nut_length(thread, &stack, true);
        let joint = Through {
            name: "foot plate to angle",
            thread: &foot.plate_screw,
            stack,
            places,
            countersunk: true,
            sealed: false,
            lean,
        };
        bolts::bolt_and_nut(drawing, site, least, joint);
    }
}

/// Pieces of a foot that its screws join.
struct Pieces {
    angle: usize,
    plate: usize,
    wedge: Option<usize>,
}

fn bond(site: &Site<'_>, foot: &BondedFoot, bed: (Length, Length)) -> Bond {
    let (length, width) = (*foot.plate.length, *foot.plate.width);
    let strip = |low: Length, high: Length| {
        Rect::from_corners(Point2::new(Length::ZERO, low), Point2::new(length, high))
    };
    let mut strips = Vec::new();
    if let Some(tape) = &foot.tape {
        let count = *tape.strips;
        for k in 0..count {
            // From edge to edge; a single one lies in the middle.
            let share = if count > 1 { f64::from(k) / f64::from(count - 1) } else { 0.5 };
            let low = (width - *tape.width) * share;
            strips.push(strip(low, low + *tape.width));
        }
    }
    let beads = foot.bead.as_ref().map_or_else(Vec::new, |bead| {
        let middle = |centre: Length| strip(centre - *bead.width / 2.0, centre + *bead.width / 2.0);
        if strips.is_empty() {
            return vec![middle(width / 2.0)];
        }
        strips.windows(2).map(|pair| middle((pair[0].high().y + pair[1].low().y) / 2.0)).collect()
    });
    Bond {
        mark: site.mark.clone(),
        length,
        width,
        tape: foot.tape.as_ref().map(|tape| (tape.kind.value.clone(), *tape.thickness)),
        strips,
        adhesive: foot.bead.as_ref().map(|bead| bead.kind.value.clone()),
        beads,
        thickness: bed.0,
        thickest: bed.1,
        plate: foot.plate.material.value.clone(),
        // Metal plate on a painted, coated or metal skin: neither lets water vapour through.
        trapped: foot.plate.material.kind.is_metal(),
        leg: width / 2.0 - *foot.plate.shift,
        span: written(&[foot.plate.length.span, site.mount.span]),
    }
}

fn enter_gap(drawing: &mut Drawing<'_>, site: &Site<'_>, pattern: &Pattern, bed: (Length, Length)) {
    let told = |length: Length| display::in_unit_short(length, Unit::MM, 2);
    let mark = &site.mark;
    drawing.ledger.push(
        Figure::new(format!("mount.{mark}.plate-gap"), format!("greatest gap of plate {mark} beyond its thinnest bond"), (bed.1 - bed.0).to_mm(), "mm")
            .formula("g = greatest − least distance from plate to skin")
            .input("least", told(bed.0))
            .input("greatest", told(bed.1))
            .input("bond", told(pattern.bond))
            .source("geometry on the measured roof: the flat plate's best seat, with the rounding of bend and height", Seen::Computed)
            .decides(),
    );
}
