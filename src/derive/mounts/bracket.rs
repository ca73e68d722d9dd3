//! The angle bracket that feet and clamps share: its heel below the tube's outer face, one leg up the
//! tube, the other lying outboard.

use super::bolts::{self, ToTube};
use super::foot_stance::frame_of;
use super::{Ground, Site};
use super::{fold, latch};
use crate::build::{Fold, Latch};
use crate::derive::Drawing;
use crate::derive::draft::{DraftDrilling, DraftHole, DraftPiece, HoleRef, face};
use crate::derive::shop;
use crate::derive::work::{Body, Ends, HoleKind, PartKind};
use crate::geometry::{Dir3, Point2, Point3};
use crate::source::Stated;
use crate::tables::{RivetNut, Section, Thread};
use crate::units::{Angle, Length};

/// What a bracket is cut from and which of its legs stands.
pub(super) struct Bracket<'a> {
    pub section: &'a Stated<Section>,
    pub fold: Option<&'a Fold>,
    pub length: Length,
    pub standing: Length,
    pub lying: Length,
    pub kind: PartKind,
    /// Name on every sheet.
    pub name: &'static str,
}

/// Standing and lying leg of a foot's bracket: the longer leg of an angle stands.
pub(super) fn legs(angle: &Section, fold: Option<&Fold>) -> (Length, Length) {
    match fold {
        Some(fold) => (*fold.standing, *fold.lying),
        None => (angle.a.max(angle.b), angle.a.min(angle.b)),
    }
}

/// Where a bracket stands on the vehicle.
pub(super) struct Standing {
    /// Heel below the middle between the bolts.
    pub heel: Point3,
    /// Along the heel.
    pub heel_way: Dir3,
    /// Up the standing leg.
    pub up: Dir3,
    /// Angle between the legs.
    pub bend: Angle,
}

/// Adds the bracket; own x along the heel, own z up the standing leg, own y outboard.
pub(super) fn add(
    drawing: &mut Drawing<'_>,
    site: &Site<'_>,
    bracket: &Bracket<'_>,
    standing: &Standing,
) -> usize {
    let (length, wall) = (bracket.length, bracket.section.t);
    let origin = standing.heel + standing.heel_way * (length / -2.0);
    let back = standing.up.cross(standing.heel_way).unwrap_or(site.axes.outboard);
    let (cos, sin) = (standing.bend.cos(), standing.bend.sin());
    let out = Dir3::of(0.0, sin, cos).unwrap_or(Dir3::Y);
    let normal = Dir3::of(0.0, -cos, sin).unwrap_or(Dir3::Z);
    let faces = vec![
        face(
            "standing leg",
            Point3::ORIGIN,
            (Dir3::X, Dir3::Z, -Dir3::Y),
            (length, bracket.standing),
            wall,
        ),
        face(
            "lying leg",
            Point3::ORIGIN + normal * wall,
            (Dir3::X, out, normal),
            (length, bracket.lying),
            wall,
        ),
    ];
    let (body, mass) = match bracket.fold {
        Some(fold) => fold::body(drawing, site, bracket, fold, standing.bend),
        None => {
            let body = Body::Bar {
                section: bracket.section.value.clone(),
                length,
                bend: Some(standing.bend),
                plugged: Length::ZERO,
                ends: Ends::SQUARE,
            };
            (body, shop::bar_mass(bracket.section, length))
        }
    };
    drawing.draft.add(DraftPiece {
        kind: bracket.kind,
        name: bracket.name.to_owned(),
        mark: None,
        body,
        faces,
        place: frame_of(origin, standing.heel_way, back),
        mass,
        holes: Vec::new(),
        span: bracket.section.span,
    })
}

/// A leg that stands up to a tube, with its holes.
#[derive(Debug, Clone)]
pub(in crate::derive) struct Leg {
    /// Of its mount.
    pub mark: String,
    pub holes: Vec<HoleRef>,
    pub bolt: Stated<Thread>,
    /// Thickness.
    pub wall: Length,
    /// Along the edge.
    pub length: Length,
}

/// Two bolts through the standing leg into rivet nuts in the tube.
pub(super) struct TubeBolts<'a> {
    /// "foot angle to tube".
    pub name: &'static str,
    pub bolt: &'a Stated<Thread>,
    /// Heel to bolt line.
    pub height: Length,
    /// Between the two.
    pub pitch: Length,
    pub nut: &'a RivetNut,
    /// What holds the frame to it by hand instead.
    pub latch: Option<&'a Latch>,
}

/// Drills the standing leg and bolts it to the tube.
pub(super) fn bolt_to_tube(
    drawing: &mut Drawing<'_>,
    ground: &Ground<'_>,
    site: &Site<'_>,
    (bracket, piece): (&Bracket<'_>, usize),
    bolts: &TubeBolts<'_>,
) {
    if latch::add(drawing, ground, site, (bracket, piece), bolts) {
        return;
    }
    let holes: Vec<HoleRef> = [-0.5, 0.5]
        .into_iter()
        .map(|side| {
            let x = bracket.length / 2.0 + bolts.pitch * side;
            let at = Point2::new(x, bolts.height);
            in_leg(drawing, piece, "standing leg", at, bolts.bolt)
        })
        .collect();
    drawing.legs.push(Leg {
        mark: site.mark.clone(),
        holes: holes.clone(),
        bolt: bolts.bolt.clone(),
        wall: bracket.section.t,
        length: bracket.length,
    });
    let joint = ToTube {
        name: bolts.name,
        held: bracket.name,
        thickness: bracket.section.t,
        bolt: bolts.bolt,
        nut: bolts.nut,
        by_hand: latch::by_hand(bolts.latch),
    };
    bolts::bolt_to_tube(drawing, ground, site, &holes, &joint);
}

/// A clearance hole in a leg, drilled from its own marks.
pub(super) fn in_leg(
    drawing: &mut Drawing<'_>,
    piece: usize,
    leg: &str,
    at: Point2,
    bolt: &Stated<Thread>,
) -> HoleRef {
    let face = drawing.draft.face(piece, leg);
    clearance(drawing, piece, (face, at), bolt, DraftDrilling::Apart)
}

/// The hole opposite another one in a plate, block or skin, drilled through that one if hand marking
/// can't be trusted to meet it.
pub(super) fn opposite(
    drawing: &mut Drawing<'_>,
    piece: usize,
    guide: HoleRef,
    bolt: &Stated<Thread>,
    apart: bool,
) -> HoleRef {
    let face = drawing.draft.face(piece, "top");
    let at = drawing.draft.on_face(piece, face, drawing.draft.place_of(guide));
    let drilling = if apart { DraftDrilling::Apart } else { DraftDrilling::Through(guide) };
    clearance(drawing, piece, (face, at), bolt, drilling)
}

fn clearance(
    drawing: &mut Drawing<'_>,
    piece: usize,
    (face, at): (usize, Point2),
    bolt: &Stated<Thread>,
    drilling: DraftDrilling,
) -> HoleRef {
    drawing.draft.drill(
        piece,
        DraftHole {
            face,
            at,
            diameter: bolt.clearance.medium,
            fastener: bolt.diameter,
            kind: HoleKind::Clearance,
            countersink: None,
            drilling,
            span: bolt.span,
        },
    )
}
