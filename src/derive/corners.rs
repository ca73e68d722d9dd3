//! Where the tubes of a frame begin and end for each kind of corner, what of them no hole may take,
//! and what holds them there: bought connectors, plugs, or angles in the inner corners.

use super::Drawing;
use super::draft::{DraftDrilling, DraftFastening, DraftHole, DraftPiece, HoleRef, INNER};
use super::members::{Members, joint_angle, joint_place};
use super::rules::l018;
use super::shop;
use super::work::{Array, Body, HoleKind, PartKind, Screw};
use crate::build::{
    Corner, CornerAngle, CornerCut, CornerFastener, CornerJoin, Edge, Frame, Through,
};
use crate::geometry::{Frame3, Point2, Point3};
use crate::tables::{Material, MaterialKind};
use crate::units::{Angle, Length, Mass};

/// How a tube ends at a corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct TubeEnd {
    /// From the frame's outside to where the tube begins; its long point where it is mitred.
    pub begin: Length,
    /// From the tube's own end: no hole nearer than this.
    pub plugged: Length,
    /// Cut at 45°, long point on the outer side.
    pub mitred: bool,
    /// Nothing closes its hollow.
    pub open: bool,
}

/// How side tubes and end tubes end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Ends {
    pub sides: TubeEnd,
    pub ends: TubeEnd,
}

impl Ends {
    /// From the frame's corner along an edge: no hole of a mount or a panel screw nearer than this.
    pub fn zone(self, edge: Edge) -> Length {
        let end = self.at(edge);
        end.begin + end.plugged
    }

    /// The ends of the tube at an edge.
    pub const fn at(self, edge: Edge) -> TubeEnd {
        match edge {
            Edge::Left | Edge::Right => self.sides,
            Edge::Front | Edge::Rear => self.ends,
        }
    }
}

/// Reach of the heat of a weld that softens hard aluminium in walls to 6 mm, TIG: EN 1999-1-1,
/// 6.1.6.3, from memory.
const HEAT: Length = Length::mm(30.0);
/// Beyond the fastener's own distance to the toe: the toe of a rolled angle is round.
const TOE: Length = Length::mm(2.0);
/// Between a fastener's head and the other leg: room for the tool's nose.
const NOSE: Length = Length::mm(2.0);
/// An angle is so much shorter than the tube is high, to go between the corners of its walls.
const SHORTER: Length = Length::mm(3.0);

/// Works out how the tubes of a frame end.
pub(super) fn ends(frame: &Frame) -> Ends {
    let width = frame.section.width();
    let corner = match &frame.corner {
        Corner::Connector(row) => {
            let end = TubeEnd { begin: row.cube, plugged: row.spigot, mitred: false, open: false };
            return Ends { sides: end, ends: end };
        }
        Corner::Tubes(corner) => corner,
    };
    let zone = match &corner.join {
        CornerJoin::Weld => HEAT,
        CornerJoin::Angle(angle) => angle.section.a.max(angle.section.b),
    };
    let whole = TubeEnd {
        begin: Length::ZERO,
        plugged: width + zone,
        mitred: *corner.cut == CornerCut::Mitre,
        open: *corner.cut == CornerCut::Butt,
    };
    let between = TubeEnd { begin: width, plugged: zone, mitred: false, open: false };
    match (*corner.cut, *corner.through) {
        (CornerCut::Mitre, _) => Ends { sides: whole, ends: whole },
        (CornerCut::Butt, Through::Sides) => Ends { sides: whole, ends: between },
        (CornerCut::Butt, Through::Ends) => Ends { sides: between, ends: whole },
    }
}

/// A corner of the frame: which way along X the frame lies from it, and which hand.
const CORNERS: [(f64, f64); 4] = [(1.0, -1.0), (1.0, 1.0), (-1.0, -1.0), (-1.0, 1.0)];

/// Adds what holds the tubes together at the four corners.
pub(super) fn join(drawing: &mut Drawing<'_>, frame: &Frame, array: &Array, members: &Members) {
    match &frame.corner {
        Corner::Connector(row) => {
            let (low, high) = (array.outline.low(), array.outline.high());
            for (way, hand) in CORNERS {
                let x = if way > 0.0 { low.x } else { high.x - row.cube };
                let y = if hand < 0.0 { low.y } else { high.y - row.cube };
                bought(
                    drawing,
                    PartKind::Connector,
                    ("corner connector", row.words.clone()),
                    (Point3::new(x, y, array.under), shop::connector_mass(row)),
                    frame,
                );
            }
        }
        Corner::Tubes(corner) => {
            plugs(drawing, frame, array, members);
            if let CornerJoin::Angle(angle) = &corner.join {
                angles(drawing, frame, (array, members), angle);
            }
        }
    }
}

fn bought(
    drawing: &mut Drawing<'_>,
    kind: PartKind,
    (name, item): (&str, String),
    (at, mass): (Point3, Mass),
    frame: &Frame,
) {
    drawing.draft.add(DraftPiece {
        kind,
        name: name.to_owned(),
        mark: None,
        body: Body::Bought { item },
        faces: Vec::new(),
        place: Frame3::at(at),
        mass,
        holes: Vec::new(),
        span: frame.corner.span(),
    });
}

/// A plug in each open end of a tube that runs through, so that no water stands in it.
fn plugs(drawing: &mut Drawing<'_>, frame: &Frame, array: &Array, members: &Members) {
    let section = &frame.section.value;
    let (low, high) = (array.outline.low(), array.outline.high());
    let size = |length: Length| crate::units::display::number_short(length.to_mm(), 1);
    let item = format!(
        "end plug for tube {} × {} × {} mm",
        size(section.width()),
        size(section.height()),
        size(section.t)
    );
    if !members.ends.sides.open && !members.ends.ends.open {
        return;
    }
    for (way, hand) in CORNERS {
        let x = if way > 0.0 { low.x } else { high.x };
        let y = if hand < 0.0 { low.y } else { high.y };
        let at = Point3::new(x, y, array.under);
        bought(drawing, PartKind::EndPlug, ("end plug", item.clone()), (at, Mass::ZERO), frame);
    }
}

/// Sizes of a fastener in the leg of an angle.
struct Fit {
    screw: Screw,
    /// Hole in the leg and in the tube, and their kinds.
    leg: (Length, HoleKind),
    tube: (Length, HoleKind),
    diameter: Length,
    head: Length,
    /// Least way to an edge and between two.
    edge: Length,
    pitch: Length,
}

fn fit(angle: &CornerAngle, wall: Length, material: Option<&Material>) -> Option<Fit> {
    let leg = angle.section.t;
    match &angle.fastener {
        CornerFastener::Rivet(rivet) => Some(Fit {
            screw: Screw::BlindRivet {
                rivet: rivet.value.clone(),
                length: rivet.for_stack(leg + wall)?.length,
            },
            leg: (rivet.hole, HoleKind::Rivet),
            tube: (rivet.hole, HoleKind::Rivet),
            diameter: rivet.diameter,
            head: rivet.head_diameter,
            edge: rivet.edge,
            pitch: rivet.pitch,
        }),
        CornerFastener::Screw(screw) => {
            let metal = material.map_or(MaterialKind::Aluminium, |row| row.kind);
            let pilot = screw.pilot_in(metal, wall).unwrap_or(screw.core);
            Some(Fit {
                screw: Screw::Tapping {
                    screw: screw.value.clone(),
                    // The point takes about two pitches before its thread is full (ISO 1478, type C).
                    length: screw.length_at_least(leg + wall + screw.pitch * 2.0)?,
                },
                leg: (screw.clearance, HoleKind::Clearance),
                tube: (pilot, HoleKind::Pilot),
                diameter: screw.diameter,
                head: screw.head_diameter,
                // EN 1993-1-8:2005, table 3.3: 1.2 d0 to an edge, 2.2 d0 between two; the heads must
                // not meet either.
                edge: screw.clearance * 1.2,
                pitch: (screw.clearance * 2.2).max(screw.head_diameter + Length::mm(1.0)),
            })
        }
    }
}

/// Places along a leg of `leg`, from the heel; `None` where not so many have room.
fn along_leg(leg: Length, thick: Length, fit: &Fit, each: u32) -> Option<Vec<Length>> {
    let last = Length::mm((leg - fit.edge - TOE).to_mm().floor());
    let pitch = Length::mm(fit.pitch.to_mm().ceil());
    let mut places: Vec<Length> = (0..each).map(|k| last - pitch * f64::from(k)).collect();
    places.reverse();
    let first = *places.first()?;
    first.clears(thick + fit.head / 2.0 + NOSE).then_some(places)
}

/// Shortest leg that has room.
fn least_leg(thick: Length, fit: &Fit, each: u32) -> Length {
    let pitch = Length::mm(fit.pitch.to_mm().ceil()) * f64::from(each.saturating_sub(1));
    thick + fit.head / 2.0 + NOSE + pitch + fit.edge + TOE + Length::mm(1.0)
}

/// An angle in each inner corner, one leg on the side tube, one on the end tube.
fn angles(
    drawing: &mut Drawing<'_>,
    frame: &Frame,
    (array, members): (&Array, &Members),
    angle: &CornerAngle,
) {
    let tube = &frame.section.value;
    let section = &angle.section.value;
    let Some(fit) = fit(angle, tube.t, shop::material_of(tube)) else {
        drawing.findings.push(l018::no_length(angle, section.t + tube.t));
        return;
    };
    let each = *angle.each;
    let (Some(on_side), Some(on_end)) =
        (along_leg(section.a, section.t, &fit, each), along_leg(section.b, section.t, &fit, each))
    else {
        drawing.findings.push(l018::leg_too_short(angle, least_leg(section.t, &fit, each)));
        return;
    };
    let length = tube.height() - SHORTER;
    if !(length / 2.0).clears(fit.edge) {
        drawing.findings.push(l018::tube_too_low(frame, angle, fit.edge * 2.0 + SHORTER));
        return;
    }
    let (low, high) = (array.outline.low(), array.outline.high());
    let middle = array.under + tube.height() / 2.0;
    let wide = tube.width();
    for (way, hand) in CORNERS {
        let inner = Point3::new(
            if way > 0.0 { low.x + wide } else { high.x - wide },
            if hand < 0.0 { low.y + wide } else { high.y - wide },
            middle,
        );
        let place = joint_place(inner, way, hand, length);
        let kind = (PartKind::CornerAngle, "corner angle");
        let piece =
            drawing.draft.add(joint_angle(kind, section, length, place, angle.section.span));
        let side = if hand < 0.0 { members.left } else { members.right };
        let end = if way > 0.0 { members.front } else { members.rear };
        for (leg, tube_piece, places, name) in [
            ("side leg", side, &on_side, "corner angle to side tube"),
            ("cross leg", end, &on_end, "corner angle to end tube"),
        ] {
            for from_heel in places {
                let at = Point2::new(length / 2.0, *from_heel);
                let pair = through(drawing, (piece, leg, at), tube_piece, &fit, frame);
                drawing.draft.fasten(DraftFastening {
                    name: name.to_owned(),
                    screw: fit.screw.clone(),
                    stack: vec![
                        ("corner angle".to_owned(), section.t),
                        ("tube wall".to_owned(), tube.t),
                    ],
                    places: vec![pair],
                    lean: Angle::ZERO,
                    undone: false,
                    span: angle.section.span,
                });
            }
        }
    }
}

/// A hole in the angle and the one drilled through it into the tube's inner wall.
fn through(
    drawing: &mut Drawing<'_>,
    (piece, leg, at): (usize, &str, Point2),
    tube: usize,
    fit: &Fit,
    frame: &Frame,
) -> Vec<HoleRef> {
    let hole = |face, at, (diameter, kind): (Length, HoleKind), drilling| DraftHole {
        face,
        at,
        diameter,
        fastener: fit.diameter,
        kind,
        countersink: None,
        drilling,
        span: frame.corner.span(),
    };
    let face = drawing.draft.face(piece, leg);
    let first = drawing.draft.drill(piece, hole(face, at, fit.leg, DraftDrilling::Apart));
    let inner = drawing.draft.face(tube, INNER);
    let at = drawing.draft.on_face(tube, inner, drawing.draft.place_of(first));
    let second =
        drawing.draft.drill(tube, hole(inner, at, fit.tube, DraftDrilling::Through(first)));
    vec![first, second]
}
