//! The frame lifted about its hinges: how high it stands, what props it, what it sweeps.
//!
//! Seen along the pins, frame and panels are a rectangle that turns about the pin; a keep-out is a box
//! that reaches from below the skin to its height, as far as it stands beside the frame.

use super::{EdgeAxes, Ground};
use crate::build::{HingeLine, Mount, MountKind};
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
    let lifted = Lifted::new(ground, axes, pin, cable, &boxes(drawing, ground, axes, pin));
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
    boxes: Vec<Box2>,
}

/// A keep-out seen along the pins: from where to where inboard of them, and how high over them.
#[derive(Debug, Clone)]
struct Box2 {
    name: String,
    inboard: (Length, Length),
    top: Length,
}

impl Box2 {
    /// As an area that reaches far below the skin.
    fn area(&self) -> Quad {
        const DEEP: Length = Length::m(-2.0);
        let (low, high) = self.inboard;
        Quad([
            Point2::new(low, DEEP),
            Point2::new(high, DEEP),
            Point2::new(high, self.top),
            Point2::new(low, self.top),
        ])
    }
}

/// Keep-outs that stand beside the frame along its pins.
fn boxes(drawing: &Drawing<'_>, ground: &Ground<'_>, axes: EdgeAxes, pin: Point3) -> Vec<Box2> {
    let Some(roof) = &drawing.build.roof else { return Vec::new() };
    let (low, high) = (ground.array.outline.low(), ground.array.outline.high());
    let sideways = axes.outboard.dot(Dir3::Y).abs() > 0.5;
    let mut boxes = Vec::new();
    let places = roof
        .keep_outs
        .iter()
        .flat_map(|keep_out| keep_out.places().into_iter().map(move |place| (keep_out, place)));
    for (keep_out, taken) in places {
        let (start, end, from, to) = if sideways {
            (taken.low().x, taken.high().x, low.x, high.x)
        } else {
            (taken.low().y, taken.high().y, low.y, high.y)
        };
        if end <= from || start >= to {
            continue;
        }
        let inboard = [taken.low(), taken.high()]
            .map(|corner| (pin - Point3::new(corner.x, corner.y, pin.z)).along(axes.outboard));
        let skin = highest(ground, taken);
        boxes.push(Box2 {
            name: keep_out.name.value.clone(),
            inboard: (inboard[0].min(inboard[1]), inboard[0].max(inboard[1])),
            top: skin + *keep_out.height - pin.z,
        });
    }
    boxes
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
        boxes: &[Box2],
    ) -> Self {
        let outline = ground.array.outline;
        let across = match axes.edge {
            crate::build::Edge::Left | crate::build::Edge::Right => outline.height(),
            crate::build::Edge::Front | crate::build::Edge::Rear => outline.width(),
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
            boxes: boxes.to_vec(),
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
        let near = |keep: &Box2| (keep.name.clone(), area.gap_to(keep.area()));
        self.boxes.iter().map(near).min_by(|a, b| a.1.total_cmp(&b.1))
    }

    /// Least room to a keep-out on the whole way up to an angle, and where: no more than there is, as
    /// between two places that are looked at no point moves farther than half its way between them.
    fn least_room(&self, keep: &Box2, most: Angle) -> (Length, Angle) {
        let count = (most.to_deg() / LOOK.to_deg()).ceil().max(1.0);
        let between = most / count;
        let moves = self.far.hypot(self.upper.max(self.lower)) * (between.to_rad() / 2.0);
        (0..=count as u32)
            .map(|k| {
                let angle = between * f64::from(k);
                (self.area(angle).gap_to(keep.area()) - moves, angle)
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
    if let Some(roof) = &drawing.build.roof {
        for keep in &lifted.boxes {
            let (room, angle) = lifted.least_room(keep, *line.lift);
            let told = roof.keep_outs.iter().find(|keep_out| *keep_out.name == keep.name);
            // What it is over while driving is judged by the layout.
            let lying = lifted.area(Angle::ZERO).gap_to(keep.area());
            if let Some(keep_out) = told.filter(|_| room < ROOM && room < lying) {
                drawing.findings.push(l034::finding(keep_out, angle, (room, ROOM), line, mount));
            }
        }
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
