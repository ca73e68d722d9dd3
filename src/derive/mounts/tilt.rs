//! The frame lifted about its hinges: how high it stands, what props it, what it sweeps.
//!
//! Seen along the pins, frame and panels are a rectangle that turns about the pin; a keep-out is a box
//! that reaches from below the skin to its height, as far as it stands beside the frame; its lid is all
//! that it sweeps while it opens.

use super::{EdgeAxes, Ground};
use crate::build::{Edge, HingeLine, Mount, MountKind};
use crate::derive::Drawing;
use crate::derive::rules::l034;
use crate::derive::work::{MountPlace, MountShape, Tilt};
use crate::geometry::{Dir3, Point2, Point3, Quad, Rect};
use crate::source::{Figure, Seen};
use crate::units::{Angle, Length, Unit, display};

/// What lifting does; `None` without hinges. The first line of hinges with one that stands counts:
/// a frame turns about one edge.
pub(in crate::derive) fn tilt(
    drawing: &mut Drawing<'_>,
    ground: &Ground<'_>,
    places: &[MountPlace],
) -> Option<(Tilt, Vec<Tilt>)> {
    let (mount, line, pin) = places.iter().find_map(|place| {
        let mount = &drawing.build.mounts[place.mount];
        match (&mount.kind, &place.kind) {
            (MountKind::Hinge(line), MountShape::Hinge { pin, .. }) => Some((mount, line, *pin)),
            _ => None,
        }
    })?;
    let axes = EdgeAxes::new(*mount.edge);
    let cable = cable_radius(drawing, axes, pin);
    let lifted = Lifted::new(ground, axes, pin, cable, &obstacles(drawing, ground, axes, pin));
    let tilt = lifted.at(ground, *line.lift);
    judge(drawing, &lifted, mount, line);
    enter_figures(drawing, &tilt, [lifted.far, lifted.upper, lifted.cable, pin.z]);
    let mut angles: Vec<Angle> = line.angles.iter().map(|angle| **angle).collect();
    if angles.is_empty() {
        let mut next = STEP;
        while next < *line.lift {
            angles.push(next);
            next += STEP;
        }
    }
    angles.retain(|angle| *angle < *line.lift);
    let mut tilts: Vec<Tilt> = angles.into_iter().map(|angle| lifted.at(ground, angle)).collect();
    tilts.push(tilt.clone());
    Some((tilt, tilts))
}

/// Angles of the table; a prop with a row of holes has them about so far apart.
const STEP: Angle = Angle::deg(10.0);
/// Steps in which the way up is looked at.
const LOOK: Angle = Angle::deg(0.25);
/// Room that a lifted frame is given: it bends, and its hinges have play (common practice, no source).
const ROOM: Length = Length::mm(15.0);
/// Places along each side of the frame at which its height over the skin is taken.
const POINTS: u32 = 12;

/// The frame as it turns about its pins.
struct Lifted {
    axes: EdgeAxes,
    pin: Point3,
    /// From the pin inboard to the frame's near and far edge.
    near: Length,
    far: Length,
    /// From the pin up to the tubes' lower face and to the panels' top.
    lower: Length,
    upper: Length,
    /// From the pin to where the cables leave the frame.
    cable: Length,
    /// What may stand in the way.
    obstacles: Vec<Obstacle>,
}

/// A keep-out seen along the pins.
#[derive(Debug, Clone)]
struct Obstacle {
    /// Which of the roof's keep-outs.
    keep_out: usize,
    name: String,
    /// What its lid sweeps, not what stands there.
    lid: bool,
    /// Inboard of the pins and up from them.
    area: Quad,
}

/// Keep-outs and their open lids that are beside the frame along its pins.
fn obstacles(
    drawing: &Drawing<'_>,
    ground: &Ground<'_>,
    axes: EdgeAxes,
    pin: Point3,
) -> Vec<Obstacle> {
    let Some(roof) = &drawing.build.roof else { return Vec::new() };
    let (low, high) = (ground.array.outline.low(), ground.array.outline.high());
    let sideways = axes.outboard.dot(Dir3::Y).abs() > 0.5;
    let beside = |taken: Rect| {
        let (start, end, from, to) = if sideways {
            (taken.low().x, taken.high().x, low.x, high.x)
        } else {
            (taken.low().y, taken.high().y, low.y, high.y)
        };
        end > from && start < to
    };
    let inboard =
        |corner: Point2| (pin - Point3::new(corner.x, corner.y, pin.z)).along(axes.outboard);
    let mut found = Vec::new();
    for (number, keep_out) in roof.keep_outs.iter().enumerate() {
        let mut add = |lid: bool, area: Quad| {
            let name = keep_out.name.value.clone();
            found.push(Obstacle { keep_out: number, name, lid, area });
        };
        for (place, taken) in keep_out.places().into_iter().zip(keep_out.taken()) {
            let ends = [place.low(), place.high()].map(inboard);
            let span = (ends[0].min(ends[1]), ends[0].max(ends[1]));
            let top = highest(ground, place) + *keep_out.height - pin.z;
            if beside(place) {
                add(false, upright(span, top));
            }
            let Some(lid) = keep_out.lid.as_ref().filter(|_| beside(taken)) else { continue };
            let across = matches!(*lid.hinged, Edge::Left | Edge::Right);
            if across == sideways {
                // It turns about a line along the pins.
                let outwards = *lid.hinged == axes.edge;
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

impl Lifted {
    fn new(
        ground: &Ground<'_>,
        axes: EdgeAxes,
        pin: Point3,
        cable: Option<Length>,
        obstacles: &[Obstacle],
    ) -> Self {
        let outline = ground.array.outline;
        let across = match axes.edge {
            Edge::Left | Edge::Right => outline.height(),
            Edge::Front | Edge::Rear => outline.width(),
        };
        let near = near_edge(axes, outline, pin);
        let far = near + across;
        Self {
            axes,
            pin,
            near,
            far,
            lower: ground.array.under - pin.z,
            upper: ground.array.top - pin.z,
            cable: cable.map_or(far, |radius| radius.min(far)),
            obstacles: obstacles.to_vec(),
        }
    }

    /// A point of the frame, from the pin inboard and up, lifted: inboard and up from the pin.
    fn turned(inboard: Length, up: Length, angle: Angle) -> (Length, Length) {
        let (sin, cos) = (angle.sin(), angle.cos());
        (inboard * cos - up * sin, inboard * sin + up * cos)
    }

    fn at(&self, ground: &Ground<'_>, angle: Angle) -> Tilt {
        // A point at r from the pin moves by the chord 2 r sin(θ/2).
        let chord = |radius: Length| radius * (2.0 * (angle / 2.0).sin());
        Tilt {
            frame: ground.array.frame,
            edge: self.axes.edge,
            angle,
            top: self.pin.z + Self::turned(self.far, self.upper, angle).1,
            prop: chord(self.far.hypot(self.lower)),
            slack: chord(self.cable),
            // The panels' upper edge beside the hinges swings out over the rail.
            reach: (-Self::turned(self.near, self.upper, angle).0).max(Length::ZERO),
            clearance: self.clearance(ground, angle),
            keep_out: self.nearest(angle),
        }
    }

    /// Frame and panels seen along the pins.
    fn area(&self, angle: Angle) -> Quad {
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

    /// The keep-out that is nearest at an angle, and how near.
    fn nearest(&self, angle: Angle) -> Option<(String, Length)> {
        let area = self.area(angle);
        let near = |keep: &Obstacle| (keep.name.clone(), area.gap_to(keep.area));
        self.obstacles.iter().map(near).min_by(|a, b| a.1.total_cmp(&b.1))
    }

    /// Least room to a keep-out on the whole way up to an angle, and where: no more than there is, as
    /// between two places that are looked at no point moves farther than half its way between them.
    fn least_room(&self, keep: &Obstacle, most: Angle) -> (Length, Angle) {
        let count = (most.to_deg() / LOOK.to_deg()).ceil().max(1.0);
        let between = most / count;
        let moves = self.far.hypot(self.upper.max(self.lower)) * (between.to_rad() / 2.0);
        (0..=count as u32)
            .map(|k| {
                let angle = between * f64::from(k);
                (self.area(angle).gap_to(keep.area) - moves, angle)
            })
            .min_by(|a, b| a.0.total_cmp(&b.0))
            .unwrap_or((Length::ZERO, Angle::ZERO))
    }

    /// Least height of the tubes' lower face over the skin, at places over the whole frame.
    fn clearance(&self, ground: &Ground<'_>, angle: Angle) -> Length {
        let long = self.axes.length_of(ground.array.outline);
        let mut least: Option<Length> = None;
        for i in 0..=POINTS {
            let inboard = self.near + (self.far - self.near) * (f64::from(i) / f64::from(POINTS));
            let (out, up) = Self::turned(inboard, self.lower, angle);
            for k in 0..=POINTS {
                let at = long * (f64::from(k) / f64::from(POINTS));
                let edge = self.axes.point(ground.array.outline, self.pin.z, at);
                let place = edge + self.axes.outboard * (self.near - out);
                let over = self.pin.z + up - ground.surface.height(place.x, place.y);
                least = Some(least.map_or(over, |least| least.min(over)));
            }
        }
        least.unwrap_or_default()
    }
}

/// From the pin inboard to the frame's near edge.
fn near_edge(axes: EdgeAxes, outline: Rect, pin: Point3) -> Length {
    let edge = axes.point(outline, pin.z, Length::ZERO);
    (pin - edge).along(axes.outboard)
}

/// From the pin line to where the cables come off the roof.
fn cable_radius(drawing: &Drawing<'_>, axes: EdgeAxes, pin: Point3) -> Option<Length> {
    let entry = drawing.build.entry.as_ref()?;
    let place = Point3::new(*entry.x, *entry.y, pin.z);
    Some((pin - place).along(axes.outboard).abs())
}

/// What the frame meets on its way up.
fn judge(drawing: &mut Drawing<'_>, lifted: &Lifted, mount: &Mount, line: &HingeLine) {
    let Some(roof) = &drawing.build.roof else { return };
    // Each thing once, where it is nearest.
    let mut told: Vec<(&Obstacle, Length, Angle)> = Vec::new();
    for keep in &lifted.obstacles {
        let (room, angle) = lifted.least_room(keep, *line.lift);
        // What it is over while driving is judged by the layout.
        let lying = lifted.area(Angle::ZERO).gap_to(keep.area);
        if room >= ROOM || room >= lying {
            continue;
        }
        match told.iter_mut().find(|known| known.0.keep_out == keep.keep_out) {
            Some(known) if known.1 <= room => {}
            Some(known) => *known = (keep, room, angle),
            None => told.push((keep, room, angle)),
        }
    }
    for (keep, room, angle) in told {
        let keep_out = &roof.keep_outs[keep.keep_out];
        let meets = l034::Meets { keep_out, lid: keep.lid, angle, room, needed: ROOM };
        drawing.findings.push(l034::finding(&meets, line, mount));
    }
}

fn enter_figures(drawing: &mut Drawing<'_>, tilt: &Tilt, [far, upper, cable, pin]: [Length; 4]) {
    let told = |length: Length| display::in_unit_short(length, Unit::MM, 0);
    let angle = |angle: Angle| display::in_unit_short(angle, Unit::DEG, 1);
    let ledger = &mut drawing.ledger;
    ledger.push(
        Figure::new(
            "tilt.top",
            "highest point of the lifted panels over roof zero",
            tilt.top.to_mm(),
            "mm",
        )
        .formula("z = z_pin + w sin θ + h cos θ")
        .input("z_pin", told(pin))
        .input("w", told(far))
        .input("h", told(upper))
        .input("θ", angle(tilt.angle))
        .source("geometry", Seen::Computed)
        .decides(),
    );
    ledger.push(
        Figure::new("tilt.prop", "prop from a foot to the far tube", tilt.prop.to_mm(), "mm")
            .formula("l = 2 r sin(θ/2)")
            .input("r", told(far))
            .input("θ", angle(tilt.angle))
            .source("geometry", Seen::Computed)
            .assume("it stands where the far tube lies while driving")
            .decides(),
    );
    ledger.push(
        Figure::new("tilt.slack", "cable slack that lifting takes", tilt.slack.to_mm(), "mm")
            .formula("l = 2 r sin(θ/2)")
            .input("r", told(cable))
            .input("θ", angle(tilt.angle))
            .source("geometry", Seen::Computed)
            .assume("the cables leave the frame beside their entry; without one, at the far edge")
            .decides(),
    );
}
