//! The prop of a lifted frame: a bar beside the tube of a neighbouring edge.
//!
//! Its lower pin goes through the bracket of a mount there, in the hole that a knob bolt leaves when
//! the frame is opened; its upper pin goes through the tube and through one hole of a row, a hole for
//! each angle. Both pins run as the hinges' do, so that the bar turns in one plane: that of the
//! bracket's outer face. A packer on the tube brings it there. While driving it lies along the tube
//! towards the hinges, held by two pins.

use super::bracket::{self, Leg};
use super::flat::{Flat, PACKER, PACKER_STEP};
use super::foot_stance::frame_of;
use super::swing::{Swing, hinged};
use super::{EdgeAxes, Ground};
use crate::build::{BoltedFoot, BondedFoot, Edge, Mount, MountKind, Prop, RailClamp};
use crate::derive::Drawing;
use crate::derive::assemble::Assembled;
use crate::derive::draft::{
    DraftDrilling, DraftFastening, DraftHole, DraftPiece, HoleRef, INNER, OUTER, face,
};
use crate::derive::rules::{h009, l045};
use crate::derive::shop;
use crate::derive::work::{
    Body, Ends, HoleKind, MountPlace, MountShape, PartKind, PropPlace, Screw, Stand, Tilt, Work,
};
use crate::geometry::{Dir3, Point2, Point3};
use crate::source::{Figure, Seen};
use crate::tables::{Section, Shape, Thread};
use crate::units::{Angle, Length, Unit, display};

/// Between the lying prop and the bracket that it stands on in use.
const AIR: Length = Length::mm(5.0);
/// Over the bolts of that bracket.
const OVER_BOLTS: Length = Length::mm(2.0);
/// Lengths of clevis pins, mm (ISO 2341, from memory).
const PINS: [f64; 24] = [
    12.0, 14.0, 16.0, 18.0, 20.0, 22.0, 24.0, 26.0, 28.0, 30.0, 32.0, 35.0, 40.0, 45.0, 50.0, 55.0,
    60.0, 65.0, 70.0, 75.0, 80.0, 85.0, 90.0, 100.0,
];

/// Faces of a prop.
const SIDE: &str = "side";
const OTHER_SIDE: &str = "other side";

/// A prop while its holes have no ids yet.
pub(in crate::derive) struct DraftProp {
    place: PropPlace,
    foot_hole: HoleRef,
    leg_hole: HoleRef,
    tube_hole: HoleRef,
    row: Vec<HoleRef>,
}

impl DraftProp {
    /// With marks and ids.
    pub fn stood(&self, work: &Work, assembled: &Assembled) -> PropPlace {
        let mut place = self.place.clone();
        place.foot_hole = assembled.hole_at(work, self.foot_hole);
        place.leg_hole = assembled.hole_at(work, self.leg_hole);
        place.tube_hole = assembled.hole_at(work, self.tube_hole);
        place.mark.clone_from(&place.foot_hole.piece);
        for (stand, hole) in place.stands.iter_mut().zip(&self.row) {
            assembled.id(work, *hole).clone_into(&mut stand.hole);
        }
        place
    }
}

/// Props of a frame, one at each neighbouring edge with a mount to stand on; the tilts are told how
/// long they are.
pub(in crate::derive) fn props(
    drawing: &mut Drawing<'_>,
    ground: &Ground<'_>,
    places: &[MountPlace],
    tilts: &mut [Tilt],
) -> Vec<DraftProp> {
    let Some((mount, line, pin)) = hinged(drawing.build, places, ground.array.frame) else {
        return Vec::new();
    };
    let Some(prop) = &line.prop else { return Vec::new() };
    if !matches!(prop.section.shape, Shape::Flat | Shape::SquareTube | Shape::RectTube) {
        drawing.findings.push(l045::shape(prop));
        return Vec::new();
    }
    let angles: Vec<Angle> = tilts.iter().map(|tilt| tilt.angle).collect();
    let hinges = EdgeAxes::new(*mount.edge);
    let swing = Swing::new(ground.array, hinges, pin);
    let (edges, words) = match *mount.edge {
        Edge::Left | Edge::Right => ([Edge::Front, Edge::Rear], "front or rear"),
        Edge::Front | Edge::Rear => ([Edge::Left, Edge::Right], "left or right"),
    };
    let stands_on = |place: &&MountPlace| {
        prop.on.iter().any(|mark| **mark == *drawing.build.mounts[place.mount].mark)
    };
    let on: Vec<(&MountPlace, Leg)> = edges
        .into_iter()
        .filter_map(|edge| {
            // The farther from the hinges the less force.
            let place = places
                .iter()
                .filter(stands_on)
                .filter(|place| place.edge == edge)
                .max_by(|a, b| swing.inboard_of(a.at).total_cmp(&swing.inboard_of(b.at)))?;
            let leg = drawing.legs.iter().find(|leg| leg.mark == place.mark)?.clone();
            Some((place, leg))
        })
        .collect();
    if on.is_empty() {
        drawing.findings.push(l045::nothing(prop, words));
    }
    let mut stood = Vec::new();
    for (place, leg) in on {
        let edge = EdgeAxes::new(place.edge);
        let site = Site { mount, prop, swing, edge, place, leg };
        let Some(stance) = site.stance(drawing, ground, &angles) else { continue };
        stood.extend(site.build(drawing, ground, stance));
    }
    if let Some(first) = stood.first() {
        for (tilt, stand) in tilts.iter_mut().zip(&first.place.stands) {
            tilt.prop = stand.length;
        }
    }
    stood
}

/// One prop to be made.
struct Site<'a> {
    mount: &'a Mount,
    prop: &'a Prop,
    swing: Swing,
    /// Ways at the edge that it stands beside.
    edge: EdgeAxes,
    place: &'a MountPlace,
    leg: Leg,
}

/// Where it stands and lies, seen along the hinges' pins: inboard of them and up.
struct Stance {
    lower: (Length, Length),
    upper: (Length, Length),
    stands: Vec<Stand>,
    leg_hole: HoleRef,
    stand_off: Length,
    /// From the leg's outer face to the bar.
    gap: Length,
    /// From a hole to the end of the bar.
    end: Length,
}

impl Stance {
    fn longest(&self) -> Length {
        self.stands.iter().map(|stand| stand.length).fold(Length::ZERO, Length::max)
    }
}

/// Height and thickness of a bar on its edge.
fn sizes(section: &Section) -> (Length, Length) {
    (section.height(), section.width())
}

impl Site<'_> {
    fn thread(&self) -> &Thread {
        &self.leg.bolt
    }

    /// The plane of the tube's outer face: a place there level with the pins, beside them.
    fn beside_pins(&self, ground: &Ground<'_>) -> Point3 {
        let (pin, out) = (self.swing.pin, self.edge.outboard);
        let on_edge = self.edge.point(ground.array.outline, pin.z, Length::ZERO);
        pin + out * (on_edge - pin).along(out)
    }

    fn stance(
        &self,
        drawing: &mut Drawing<'_>,
        ground: &Ground<'_>,
        angles: &[Angle],
    ) -> Option<Stance> {
        let (swing, prop) = (&self.swing, self.prop);
        let inboard = |hole: &HoleRef| swing.inboard_of(drawing.draft.place_of(*hole));
        let leg_hole = *self.leg.holes.iter().min_by(|a, b| inboard(a).total_cmp(&inboard(b)))?;
        let at = drawing.draft.place_of(leg_hole);
        let lower = (swing.inboard_of(at), at.z - swing.pin.z);
        let hole = self.thread().clearance.medium;
        let (high, _) = sizes(&prop.section);
        // Twice the hole: more than the least of EN 1993-1-8 table 3.3, as a hand drills it.
        let end = (hole * 2.0).max(high / 2.0);
        let bracket = swing.inboard_of(self.place.at) - self.leg.length / 2.0;
        let most = bracket - AIR - end;
        let out = prop.at.as_ref().map_or(most, |at| **at);
        if out > most {
            drawing.findings.push(l045::too_far_out(prop, out, most));
            return None;
        }
        let out = Length::mm(out.to_mm().floor());
        let upper = (out, swing.lower + ground.frame.section.height() / 2.0);
        let stands: Vec<Stand> =
            angles.iter().map(|asked| Stand::new(lower, upper, *asked)).collect();
        let leg_out = (at - self.beside_pins(ground)).along(self.edge.outboard) + self.leg.wall;
        let stand_off = Length::mm((leg_out.to_mm() / PACKER_STEP - 1e-6).ceil() * PACKER_STEP);
        let gap = stand_off - leg_out;
        let stance = Stance { lower, upper, stands, leg_hole, stand_off, gap, end };
        self.judge(drawing, ground, &stance).then_some(stance)
    }

    /// Whether it has room along its tube and over the bracket's bolts.
    fn judge(&self, drawing: &mut Drawing<'_>, ground: &Ground<'_>, stance: &Stance) -> bool {
        let zone = self.swing.near + ground.members.ends.zone(self.edge.edge);
        let room = stance.upper.0 - zone - self.thread().clearance.medium * 2.0;
        let short = stance.longest() - room;
        if short > Length::ZERO {
            let angle = stance.stands.last().map_or(Angle::ZERO, |stand| stand.asked);
            drawing.findings.push(l045::too_long(self.prop, &self.place.mark, angle, short));
            return false;
        }
        let (over, height) = over_leg(drawing, self.place, self.leg.wall);
        let half = sizes(&self.prop.section).0 / 2.0;
        for stand in &stance.stands {
            let (x, z) = Swing::turned(stance.upper.0, stance.upper.1, stand.angle);
            let (dx, dz) =
                ((x - stance.lower.0) / stand.length, (z - stance.lower.1) / stand.length);
            let reach = stance.end * dz + half * dx.abs();
            let left = height - over - reach;
            if left < OVER_BOLTS {
                drawing.findings.push(l045::low_end(self.prop, &self.place.mark, left));
                return false;
            }
        }
        true
    }

    fn build(
        &self,
        drawing: &mut Drawing<'_>,
        ground: &Ground<'_>,
        stance: Stance,
    ) -> Option<DraftProp> {
        let bar = self.add_bar(drawing, ground, &stance);
        let section = &self.prop.section.value;
        let (_, thick) = sizes(section);
        let row: Vec<HoleRef> = stance
            .stands
            .iter()
            .map(|stand| self.in_bar(drawing, bar, stance.end + stand.length))
            .collect();
        let foot_hole = self.in_bar(drawing, bar, stance.end);
        // Pinned to the tube by its foot hole and by the outermost of the row.
        let longest = stance
            .stands
            .iter()
            .zip(&row)
            .max_by(|a, b| a.0.length.total_cmp(&b.0.length))
            .map(|(_, hole)| *hole)?;
        let tube = ground.members.at(self.edge.edge);
        let tube_section = &ground.frame.section.value;
        let stack = vec![
            ("prop".to_owned(), thick),
            ("prop packer".to_owned(), stance.stand_off),
            ("tube".to_owned(), tube_section.width()),
        ];
        let mut places = Vec::new();
        let mut tube_hole = None;
        for guide in [longest, foot_hole] {
            let inboard =
                stance.upper.0 - if guide == foot_hole { stance.longest() } else { Length::ZERO };
            let mut place = vec![guide];
            place.extend(self.second_wall(drawing, bar, guide));
            let packer = self.add_packer(drawing, ground, &stance, inboard)?;
            place.push(bracket::opposite(drawing, packer, guide, &self.leg.bolt, false));
            let outer = self.in_tube(drawing, tube, OUTER, guide);
            place.push(outer);
            place.push(self.in_tube(drawing, tube, INNER, outer));
            tube_hole.get_or_insert(outer);
            places.push(place);
        }
        let grip = |stack: Length| stack + self.thread().washer.thickness;
        let clamped: Length = stack.iter().map(|layer| layer.1).sum();
        let length = self.pin(drawing, grip(clamped))?;
        let foot_grip = grip(thick + self.leg.wall);
        let foot_pin = (foot_grip, self.pin(drawing, foot_grip)?);
        drawing.draft.fasten(DraftFastening {
            name: "prop to tube".to_owned(),
            screw: Screw::Pin { diameter: self.thread().diameter, length },
            stack,
            places,
            lean: Angle::ZERO,
            undone: true,
            span: self.prop.span,
        });
        self.enter_figures(drawing, &stance);
        let none = || crate::derive::work::HoleAt { piece: String::new(), hole: String::new() };
        let place = PropPlace {
            mark: String::new(),
            frame: ground.array.frame,
            hinges: *self.mount.edge,
            edge: self.edge.edge,
            on: self.place.mark.clone(),
            pin: self.swing.pin,
            section: section.clone(),
            diameter: self.thread().diameter,
            lower: stance.lower,
            upper: stance.upper,
            stand_off: stance.stand_off,
            leg: self.leg.wall,
            off_leg: self.leg.wall / 2.0 + stance.gap + thick / 2.0,
            foot_pin,
            foot_hole: none(),
            leg_hole: none(),
            tube_hole: none(),
            stands: stance.stands,
            span: self.prop.span,
        };
        let leg_hole = stance.leg_hole;
        Some(DraftProp { place, foot_hole, leg_hole, tube_hole: tube_hole?, row })
    }

    /// A place beside the tube: inboard of the pins, up from them and out from its face.
    fn at(&self, ground: &Ground<'_>, inboard: Length, up: Length, out: Length) -> Point3 {
        self.beside_pins(ground)
            + self.swing.axes.outboard * -inboard
            + Dir3::Z * up
            + self.edge.outboard * out
    }

    fn add_bar(&self, drawing: &mut Drawing<'_>, ground: &Ground<'_>, stance: &Stance) -> usize {
        let section = &self.prop.section.value;
        let (high, thick) = sizes(section);
        let length = stance.longest() + stance.end * 2.0;
        // Own x from its foot to its row of holes, z up; y is what is left.
        let (x, z) = (-self.swing.axes.outboard, Dir3::Z);
        let y = z.cross(x).unwrap_or(self.edge.outboard);
        let out = if y.dot(self.edge.outboard) > 0.0 {
            stance.stand_off
        } else {
            stance.stand_off + thick
        };
        let foot = stance.upper.0 - stance.longest() - stance.end;
        let corner = self.at(ground, foot, stance.upper.1 - high / 2.0, out);
        let zero = Length::ZERO;
        let wall = if section.shape == Shape::Flat { thick } else { section.t };
        let mut faces = vec![face(
            SIDE,
            Point3::new(zero, thick, zero),
            (Dir3::X, Dir3::Z, Dir3::Y),
            (length, high),
            wall,
        )];
        if section.shape != Shape::Flat {
            faces.push(face(
                OTHER_SIDE,
                Point3::ORIGIN,
                (Dir3::X, Dir3::Z, -Dir3::Y),
                (length, high),
                wall,
            ));
            for face in &mut faces {
                face.free_sides = false;
            }
        }
        drawing.draft.add(DraftPiece {
            kind: PartKind::Prop,
            name: "prop".to_owned(),
            mark: None,
            body: Body::Bar {
                section: section.clone(),
                length,
                bend: None,
                plugged: zero,
                ends: Ends::SQUARE,
            },
            faces,
            place: frame_of(corner, x, y),
            mass: shop::bar_mass(section, length),
            holes: Vec::new(),
            span: self.prop.section.span,
        })
    }

    fn hole(&self, face: usize, at: Point2, drilling: DraftDrilling) -> DraftHole {
        DraftHole {
            face,
            at,
            diameter: self.thread().clearance.medium,
            fastener: self.thread().diameter,
            kind: HoleKind::Clearance,
            countersink: None,
            drilling,
            span: self.prop.span,
        }
    }

    /// A hole across the bar; through both walls of a tube.
    fn in_bar(&self, drawing: &mut Drawing<'_>, bar: usize, x: Length) -> HoleRef {
        let middle = sizes(&self.prop.section).0 / 2.0;
        let face = drawing.draft.face(bar, SIDE);
        let hole = self.hole(face, Point2::new(x, middle), DraftDrilling::Apart);
        let first = drawing.draft.drill(bar, hole);
        if self.prop.section.shape != Shape::Flat {
            let face = drawing.draft.face(bar, OTHER_SIDE);
            let through = DraftDrilling::Through(first);
            drawing.draft.drill(bar, self.hole(face, Point2::new(x, middle), through));
        }
        first
    }

    /// The hole of the far wall behind one of a tube.
    fn second_wall(&self, drawing: &Drawing<'_>, bar: usize, first: HoleRef) -> Option<HoleRef> {
        (self.prop.section.shape != Shape::Flat)
            .then(|| HoleRef { piece: bar, hole: first.hole + 1 })
            .filter(|second| second.hole < drawing.draft.pieces[bar].holes.len())
    }

    fn in_tube(
        &self,
        drawing: &mut Drawing<'_>,
        tube: usize,
        side: &str,
        guide: HoleRef,
    ) -> HoleRef {
        let face = drawing.draft.face(tube, side);
        let at = drawing.draft.on_face(tube, face, drawing.draft.place_of(guide));
        drawing.draft.drill(tube, self.hole(face, at, DraftDrilling::Through(guide)))
    }

    fn add_packer(
        &self,
        drawing: &mut Drawing<'_>,
        ground: &Ground<'_>,
        stance: &Stance,
        inboard: Length,
    ) -> Option<usize> {
        let material = shop::material(PACKER)?;
        let high = ground.frame.section.height();
        let wide = (stance.end * 2.0).max(high);
        let (x, y) = (Dir3::Z, self.edge.along);
        let corner =
            self.at(ground, inboard, stance.upper.1 - high / 2.0, Length::ZERO) + y * (wide / -2.0);
        let packer = Flat {
            kind: PartKind::PropPacker,
            name: "prop packer",
            length: high,
            width: wide,
            thickness: stance.stand_off,
            place: frame_of(corner, x, y),
            span: self.prop.span,
        };
        Some(packer.block(drawing, material))
    }

    /// The next length of a clevis pin: its clip sits behind the grip, a diameter from its end.
    fn pin(&self, drawing: &mut Drawing<'_>, grip: Length) -> Option<Length> {
        let thread = self.thread();
        let least = grip + thread.diameter * 1.5;
        let found = PINS.into_iter().map(Length::mm).find(|length| least.fits(*length));
        if found.is_none() {
            let span = self.prop.span;
            drawing.findings.push(h009::finding(&self.place.mark, thread, least, span));
        }
        found
    }

    fn enter_figures(&self, drawing: &mut Drawing<'_>, stance: &Stance) {
        let told = |length: Length| display::in_unit_short(length, Unit::MM, 1);
        let pair = |(x, z): (Length, Length)| format!("{}, {}", told(x), told(z));
        let mark = &self.place.mark;
        for Stand { asked, angle, length, arm, .. } in &stance.stands {
            let degrees = display::number(asked.to_deg(), 0);
            drawing.ledger.push(
                Figure::new(
                    format!("prop.{mark}.{degrees}"),
                    format!("prop on {mark} from pin to pin at {degrees}°"),
                    length.to_mm(),
                    "mm",
                )
                .formula("l = |R(θ) u − f|, u and f from the hinges' pins inboard and up")
                .input("u", pair(stance.upper))
                .input("f", pair(stance.lower))
                .input("θ", display::in_unit(*angle, Unit::DEG, 2))
                .input("arm", told(*arm))
                .assume("whole millimetres: the tilt follows them")
                .source("geometry", Seen::Computed)
                .decides(),
            );
        }
    }
}

/// From the outer side of the heel up over the lying leg and the heads or nuts on it, and up to the pin's hole.
fn over_leg(drawing: &Drawing<'_>, place: &MountPlace, leg: Length) -> (Length, Length) {
    let head = |thread: &Thread| thread.washer.thickness + thread.hex_height;
    let over = match &drawing.build.mounts[place.mount].kind {
        MountKind::BoltedFoot(BoltedFoot { roof_bolt, .. }) => {
            // A sealing washer is thicker.
            head(roof_bolt) + roof_bolt.large_washer.thickness
        }
        MountKind::BondedFoot(BondedFoot { plate_screw, .. }) => {
            plate_screw.washer.thickness + plate_screw.locking_nut_height + plate_screw.pitch * 2.0
        }
        MountKind::RailClamp(RailClamp { clamp_bolt, .. }) => head(clamp_bolt),
        MountKind::Hinge(_) => Length::ZERO,
    };
    let height = match place.kind {
        MountShape::BondedFoot { bolt_height, .. }
        | MountShape::BoltedFoot { bolt_height, .. }
        | MountShape::RailClamp { bolt_height, .. } => bolt_height,
        MountShape::Hinge { .. } => Length::ZERO,
    };
    (leg + over, height)
}
