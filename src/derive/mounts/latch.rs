//! Latches: what is opened by hand to lift the frame.
//!
//! A draw latch lies up the standing leg of its bracket: its body below the tube, screwed through the
//! leg, its keeper on the bare tube above the end of the leg, riveted to the wall. Both are drilled
//! through the latch's own holes while it is held closed in its place.

use super::bolts::{self, Through};
use super::bracket::{Bracket, TubeBolts};
use super::foot_stance::frame_of;
use super::{Ground, Site};
use crate::build::{Build, Latch, LatchKind, MountKind};
use crate::derive::Drawing;
use crate::derive::draft::{
    DraftDrilling, DraftFastening, DraftHole, DraftPiece, HoleRef, OUTER, face,
};
use crate::derive::rules::{h009, l041, l046};
use crate::derive::shop;
use crate::derive::work::{Body, HoleKind, PartKind, Screw};
use crate::geometry::{Axis3, Dir3, Point2, Point3};
use crate::source::{Finding, Stated};
use crate::tables::{Tables, Thread};
use crate::units::{Angle, Length, Mass};

/// Mass of an over-centre latch with its keeper (common practice: of stainless sheet, 100 mm long).
const MASS: Mass = Mass::kg(0.15);
/// Thickness of its body's foot and of its keeper (common practice).
const SHEET: Length = Length::mm(1.5);
/// Half the height of a keeper (common practice).
const HALF_KEEPER: Length = Length::mm(6.0);
/// Between keeper or rivet and the corner of the tube.
const LAND: Length = Length::mm(1.0);
/// Between keeper and leg.
const AIR: Length = Length::mm(2.0);
/// Screws of its body: a leg takes nuts, and a latch wears out.
const SCREW: &str = "M5";
/// Rivets of its keeper: nothing reaches behind the wall of a tube.
const RIVET: Length = Length::mm(4.8);

/// The standing leg laps the tube by this at least, so that the tube cannot slide outwards over it
/// (common practice, no source).
pub(super) const LAP: Length = Length::mm(5.0);

/// Whether a draw latch takes the place of bolts.
pub(super) fn is_drawn(latch: Option<&Latch>) -> bool {
    latch.is_some_and(|latch| *latch.kind == LatchKind::DrawLatch)
}

/// Whether the bolts of a mount into the tube are turned by hand.
pub(super) fn by_hand(latch: Option<&Latch>) -> bool {
    latch.is_some_and(|latch| *latch.kind == LatchKind::Knob)
}

/// Adds a draw latch between bracket and tube; whether it takes the place of bolts.
pub(super) fn add(
    drawing: &mut Drawing<'_>,
    ground: &Ground<'_>,
    site: &Site<'_>,
    (bracket, leg): (&Bracket<'_>, usize),
    bolts: &TubeBolts<'_>,
) -> bool {
    let Some(latch) = bolts.latch.filter(|latch| *latch.kind == LatchKind::DrawLatch) else {
        return false;
    };
    let tables = Tables::builtin();
    let (Ok(thread), Some(rivet)) = (tables.thread(SCREW), shop::rivet(RIVET)) else { return true };
    let thread = Stated::written(thread.clone(), latch.kind.span);
    let tube = &ground.frame.section.value;
    // Up the leg from its heel.
    let half = tube.height() / 2.0;
    // As near to the tube's upper corner as its wall lets it lie flat.
    let corner = (rivet.hole / 2.0 + tube.t).max(HALF_KEEPER) + LAND;
    let keeper = bolts.height + half - corner;
    let body = keeper - *latch.holes.reach;
    let most = keeper - HALF_KEEPER - AIR;
    if !bracket.standing.fits(most) {
        let sizes = (bracket.standing, most);
        drawing.findings.push(l046::leg_too_tall(&site.mark, sizes, latch, bracket.section.span));
    }
    let nut = thread.nut_width * 1.1547 / 2.0;
    let low = bracket.section.t + bracket.section.inner_radius + nut.max(thread.washer.outer / 2.0);
    let high = bolts.height - half - nut - AIR;
    if body < low || body > high {
        drawing.findings.push(l046::body_has_no_room(&site.mark, body, (low, high), latch));
    }
    let spots = Spots { keeper, body, rivet: rivet.hole };
    let piece = add_piece(drawing, latch, (bracket, leg), bolts, &spots, &thread);
    let places = |drawing: &mut Drawing<'_>, face: &str, on: (usize, &str), kind, span| {
        let face = drawing.draft.face(piece, face);
        let count = drawing.draft.pieces[piece].holes.len();
        let own: Vec<HoleRef> = (0..count)
            .map(|hole| HoleRef { piece, hole })
            .filter(|hole| drawing.draft.hole(*hole).face == face)
            .collect();
        own.into_iter()
            .map(|guide| {
                let face = drawing.draft.face(on.0, on.1);
                let at = drawing.draft.on_face(on.0, face, drawing.draft.place_of(guide));
                let model = drawing.draft.hole(guide).clone();
                let drilling = DraftDrilling::Through(guide);
                let hole = DraftHole { face, at, kind, drilling, span, ..model };
                vec![guide, drawing.draft.drill(on.0, hole)]
            })
            .collect::<Vec<_>>()
    };
    let span = latch.kind.span;
    let in_leg = places(drawing, "body", (leg, "standing leg"), HoleKind::Clearance, span);
    let stack = vec![("latch".to_owned(), SHEET), (bracket.name.to_owned(), bracket.section.t)];
    let least = bolts::bolt_and_nut_length(&thread, &stack, false);
    let through = Through {
        name: "latch to bracket",
        thread: &thread,
        stack,
        places: in_leg,
        countersunk: false,
        sealed: false,
        lean: Angle::ZERO,
    };
    bolts::bolt_and_nut(drawing, site, least, through);
    let in_tube = places(drawing, "keeper", (site.tube, OUTER), HoleKind::Rivet, span);
    let grip = SHEET + tube.t;
    let Some(length) = rivet.for_stack(grip).map(|found| found.length) else {
        drawing.findings.push(h009::finding(&site.mark, &thread, grip, span));
        return true;
    };
    drawing.draft.fasten(DraftFastening {
        name: "keeper to tube".to_owned(),
        screw: Screw::BlindRivet { rivet, length },
        stack: vec![("keeper".to_owned(), SHEET), ("tube wall".to_owned(), tube.t)],
        places: in_tube,
        lean: Angle::ZERO,
        undone: false,
        span,
    });
    true
}

/// Rows of holes up the standing leg from its heel.
struct Spots {
    keeper: Length,
    body: Length,
    rivet: Length,
}

/// The latch with the holes that it is sold with. Own axes as those of its bracket, from the middle of
/// the heel.
fn add_piece(
    drawing: &mut Drawing<'_>,
    latch: &Latch,
    (bracket, leg): (&Bracket<'_>, usize),
    bolts: &TubeBolts<'_>,
    spots: &Spots,
    thread: &Thread,
) -> usize {
    let item = match &latch.strength {
        Some(strength) => {
            format!("draw latch with hole for a locking pin, {} or more", strength.value)
        }
        None => "draw latch with hole for a locking pin".to_owned(),
    };
    let place = drawing.draft.pieces[leg].place;
    let middle = place.place(Point3::new(bracket.length / 2.0, Length::ZERO, Length::ZERO));
    let place = frame_of(middle, place.axis(Axis3::X), place.axis(Axis3::Y));
    let wide = latch.holes.body.max(*latch.holes.keeper) + RIVET * 4.0;
    let left = wide / -2.0;
    // The leg's outer face lies its wall out from the heel, the tube's face a rivet nut's flange in.
    let on_leg = bracket.section.t + SHEET;
    let on_tube = SHEET - bolts.nut.flange_thickness;
    let at = |out: Length, up: Length| Point3::new(left, out, up);
    let ways = (Dir3::X, Dir3::Z, Dir3::Y);
    let faces = vec![
        face("body", at(on_leg, spots.body - HALF_KEEPER), ways, (wide, HALF_KEEPER * 2.0), SHEET),
        face(
            "keeper",
            at(on_tube, spots.keeper - HALF_KEEPER),
            ways,
            (wide, HALF_KEEPER * 2.0),
            SHEET,
        ),
    ];
    let piece = drawing.draft.add(DraftPiece {
        kind: PartKind::Latch,
        name: "draw latch".to_owned(),
        mark: None,
        body: Body::Bought { item },
        faces,
        place,
        mass: MASS,
        holes: Vec::new(),
        span: latch.kind.span,
    });
    let sets = [
        (0, *latch.holes.body, thread.clearance.medium, thread.diameter),
        (1, *latch.holes.keeper, spots.rivet, RIVET),
    ];
    for (face, pitch, diameter, fastener) in sets {
        for side in [-0.5, 0.5] {
            drawing.draft.drill(
                piece,
                DraftHole {
                    face,
                    at: Point2::new(wide / 2.0 + pitch * side, HALF_KEEPER),
                    diameter,
                    fastener,
                    kind: HoleKind::Clearance,
                    countersink: None,
                    drilling: DraftDrilling::Ready,
                    span: latch.kind.span,
                },
            );
        }
    }
    piece
}

/// Latches that free nothing.
pub(super) fn judge(build: &Build) -> Vec<Finding> {
    let Some(latched) = build.mounts.iter().find(|mount| mount.kind.latch().is_some()) else {
        return Vec::new();
    };
    let hinged = |kind: &MountKind| matches!(kind, MountKind::Hinge(_));
    if !build.mounts.iter().any(|mount| hinged(&mount.kind)) {
        return vec![l041::finding(latched, None)];
    }
    let bolted = |kind: &MountKind| !hinged(kind) && kind.latch().is_none();
    build
        .mounts
        .iter()
        .filter(|mount| bolted(&mount.kind))
        .map(|mount| l041::finding(latched, Some(mount)))
        .collect()
}
