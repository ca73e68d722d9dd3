//! A frame as it turns about its pins, and what it may meet on its way up.
//!
//! Seen along the pins, frame and panels are a rectangle that turns about the pin; a keep-out, another
//! frame or its foot is a box that reaches from below the skin to its height, as far as it stands beside
//! the frame; a lid is all that it sweeps while it opens.

use super::{EdgeAxes, Ground};
use crate::build::{Build, Edge, HingeLine, Mount, MountKind};
use crate::derive::Drawing;
use crate::derive::check::Foot;
use crate::derive::rules::l044;
use crate::derive::work::{Array, MountPlace, MountShape};
use crate::geometry::{Dir3, Point2, Point3, Quad, Rect};
use crate::source::Finding;
use crate::units::{Angle, Length};

/// Steps in which the way up is looked at.
const LOOK: Angle = Angle::deg(0.25);
/// Room that a lifted frame is given: it bends, and its hinges have play (common practice, no source).
pub(super) const ROOM: Length = Length::mm(15.0);
/// The first line of hinges of a frame with one that stands: a frame turns about one edge.
pub(super) fn hinged<'b>(
    build: &'b Build,
    places: &[MountPlace],
    frame: usize,
) -> Option<(&'b Mount, &'b HingeLine, Point3)> {
    places.iter().filter(|place| place.frame == frame).find_map(|place| {
        let mount = &build.mounts[place.mount];
        match (&mount.kind, &place.kind) {
            (MountKind::Hinge(line), MountShape::Hinge { pin, .. }) => Some((mount, line, *pin)),
            _ => None,
        }
    })
}

/// Frame and panels seen along the pins.
#[derive(Debug, Clone, Copy)]
pub(super) struct Swing {
    pub axes: EdgeAxes,
    pub pin: Point3,
    /// From the pin inboard to the frame's near and far edge.
    pub near: Length,
    pub far: Length,
    /// From the pin up to the tubes' lower face and to the panels' top.
    pub lower: Length,
    pub upper: Length,
}

impl Swing {
    pub fn new(array: &Array, axes: EdgeAxes, pin: Point3) -> Self {
        let across = match axes.edge {
            Edge::Left | Edge::Right => array.outline.height(),
            Edge::Front | Edge::Rear => array.outline.width(),
        };
        let edge = axes.point(array.outline, pin.z, Length::ZERO);
        let near = (pin - edge).along(axes.outboard);
        let (lower, upper) = (array.under - pin.z, array.top - pin.z);
        Self { axes, pin, near, far: near + across, lower, upper }
    }

    /// A point of the frame, from the pin inboard and up, lifted: inboard and up from the pin.
    pub fn turned(inboard: Length, up: Length, angle: Angle) -> (Length, Length) {
        let (sin, cos) = (angle.sin(), angle.cos());
        (inboard * cos - up * sin, inboard * sin + up * cos)
    }

    /// The rectangle at an angle.
    pub fn area(&self, angle: Angle) -> Quad {
        let corner = |inboard, up| {
            let (x, y) = Self::turned(inboard, up, angle);
            Point2::new(x, y)
        };
        Quad([
            corner(self.near, self.lower),
            corner(self.far, self.lower),
            corner(self.far, self.upper),
            corner(self.near, self.upper),
        ])
    }

    /// Least room to a thing on the whole way up to an angle, and where: no more than there is, as
    /// between two places that are looked at no point moves farther than half its way between them.
    pub fn least_room(&self, thing: Quad, most: Angle) -> (Length, Angle) {
        let count = (most.to_deg() / LOOK.to_deg()).ceil().max(1.0);
        let between = most / count;
        let moves = self.far.hypot(self.upper.max(self.lower)) * (between.to_rad() / 2.0);
        (0..=count as u32)
            .map(|k| {
                let angle = between * f64::from(k);
                (self.area(angle).gap_to(thing) - moves, angle)
            })
            .min_by(|a, b| a.0.total_cmp(&b.0))
            .unwrap_or((Length::ZERO, Angle::ZERO))
    }

    /// A place inboard of the pin.
    pub fn inboard_of(&self, place: Point3) -> Length {
        (self.pin - place).along(self.axes.outboard)
    }

    /// Inboard of the pin.
    fn inboard(&self, corner: Point2) -> Length {
        (self.pin - Point3::new(corner.x, corner.y, self.pin.z)).along(self.axes.outboard)
    }

    /// Where an area lies inboard of the pins.
    fn span(&self, area: Rect) -> (Length, Length) {
        let [a, b] = [area.low(), area.high()].map(|corner| self.inboard(corner));
        (a.min(b), a.max(b))
    }

    /// Whether the hinges are on the left or right edge.
    fn is_sideways(&self) -> bool {
        self.axes.outboard.dot(Dir3::Y).abs() > 0.5
    }

    /// Whether an area lies beside a frame along its pins.
    fn beside(&self, frame: Rect, area: Rect) -> bool {
        let along = |rect: Rect| {
            let (low, high) = (rect.low(), rect.high());
            if self.is_sideways() { (low.x, high.x) } else { (low.y, high.y) }
        };
        let ((start, end), (from, to)) = (along(area), along(frame));
        end > from && start < to
    }
}

/// A keep-out seen along the pins.
#[derive(Debug, Clone)]
pub(super) struct Obstacle {
    /// Which of the roof's keep-outs.
    pub keep_out: usize,
    pub name: String,
    /// What its lid sweeps, not what stands there.
    pub lid: bool,
    /// Inboard of the pins and up from them.
    pub area: Quad,
}

/// Keep-outs and their open lids that are beside the frame along its pins.
pub(super) fn obstacles(
    drawing: &Drawing<'_>,
    ground: &Ground<'_>,
    swing: &Swing,
) -> Vec<Obstacle> {
    let Some(roof) = &drawing.build.roof else { return Vec::new() };
    let beside = |area: Rect| swing.beside(ground.array.outline, area);
    let (sideways, pin) = (swing.is_sideways(), swing.pin);
    let mut found = Vec::new();
    for (number, keep_out) in roof.keep_outs.iter().enumerate() {
        let mut add = |lid: bool, area: Quad| {
            let name = keep_out.name.value.clone();
            found.push(Obstacle { keep_out: number, name, lid, area });
        };
        for (place, taken) in keep_out.places().into_iter().zip(keep_out.taken()) {
            let span = swing.span(place);
            let top = highest(ground, place) + *keep_out.height - pin.z;
            if beside(place) {
                add(false, upright(span, top));
            }
            let Some(lid) = keep_out.lid.as_ref().filter(|_| beside(taken)) else { continue };
            let across = matches!(*lid.hinged, Edge::Left | Edge::Right);
            if across == sideways {
                // It turns about a line along the pins.
                let outwards = *lid.hinged == swing.axes.edge;
                for area in swept_by_lid(span, outwards, top, *lid.opens) {
                    add(true, area);
                }
            } else {
                let depth = if across { place.height() } else { place.width() };
                add(true, upright(span, top + depth * lid.opens.min(Angle::RIGHT).sin()));
            }
        }
    }
    found
}

/// From far below the skin up to `top`.
fn upright((low, high): (Length, Length), top: Length) -> Quad {
    const DEEP: Length = Length::m(-2.0);
    Quad([
        Point2::new(low, DEEP),
        Point2::new(high, DEEP),
        Point2::new(high, top),
        Point2::new(low, top),
    ])
}

/// What a lid sweeps that lies from one end of `span` to the other at height `top` and turns about its
/// end nearer to the pins (or beyond them), `outwards`, or about the other: kites round the arc.
fn swept_by_lid(
    (low, high): (Length, Length),
    outwards: bool,
    top: Length,
    opens: Angle,
) -> Vec<Quad> {
    let (hinge, way) = if outwards { (low, 1.0) } else { (high, -1.0) };
    let radius = high - low;
    let count = (opens.to_deg() / 15.0).ceil().max(1.0);
    let step = opens / count;
    let at = |angle: Angle, radius: Length| {
        Point2::new(hinge + radius * (angle.cos() * way), top + radius * angle.sin())
    };
    (0..count as u32)
        .map(|k| {
            let from = step * f64::from(k);
            // The kite's tip lies on both tangents: nothing of the arc is outside.
            let tip = at(from + step / 2.0, radius / (step / 2.0).cos());
            Quad([Point2::new(hinge, top), at(from, radius), tip, at(from + step, radius)])
        })
        .collect()
}

/// Highest skin under an area.
fn highest(ground: &Ground<'_>, area: Rect) -> Length {
    let (low, high) = (area.low(), area.high());
    ground.surface.highest((low.x, low.y), (high.x, high.y)).0
}

/// Lifted frames that come too near to another frame or its feet.
pub(in crate::derive) fn lifts_meet(
    build: &Build,
    (arrays, mounts): (&[Array], &[MountPlace]),
    feet: &[Foot],
) -> Vec<Finding> {
    let mut findings = Vec::new();
    for array in arrays {
        let Some((mount, line, pin)) = hinged(build, mounts, array.frame) else { continue };
        let swing = Swing::new(array, EdgeAxes::new(*mount.edge), pin);
        let room = |area: Rect, top: Length| {
            if !swing.beside(array.outline, area) {
                return None;
            }
            let thing = upright(swing.span(area), top - pin.z);
            let (room, angle) = swing.least_room(thing, *line.lift);
            // What it meets while it lies is told as frames or feet that meet.
            (room < ROOM && room < swing.area(Angle::ZERO).gap_to(thing)).then_some((room, angle))
        };
        for other in arrays.iter().filter(|other| other.frame != array.frame) {
            if let Some((room, angle)) = room(other.outline, other.top) {
                let what = build.the_frame(other.frame);
                let meets =
                    l044::Meets { what: &what, span: other.span, angle, room, needed: ROOM };
                findings.push(l044::finding(&build.the_frame(array.frame), &meets, line, mount));
                continue;
            }
            for foot in feet {
                let own = mounts.iter().find(|place| place.mark == foot.mark);
                if own.is_none_or(|place| place.frame != other.frame) {
                    continue;
                }
                // Its bracket stands up to the tube of its frame.
                if let Some((room, angle)) = room(foot.plate, other.tube_top) {
                    let what = format!("the foot {}", foot.mark);
                    let meets =
                        l044::Meets { what: &what, span: foot.span, angle, room, needed: ROOM };
                    findings.push(l044::finding(
                        &build.the_frame(array.frame),
                        &meets,
                        line,
                        mount,
                    ));
                }
            }
        }
    }
    findings
}
