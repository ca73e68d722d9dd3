//! The frame lifted about its hinges: how high it stands, what props it, what it sweeps.

use super::{EdgeAxes, Ground};
use crate::build::{HingeLine, Mount, MountKind};
use crate::derive::Drawing;
use crate::derive::rules::l034;
use crate::derive::work::{MountPlace, MountShape, Tilt};
use crate::geometry::{Dir3, Point2, Point3, Rect};
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
    let lifted = Lifted::new(ground, axes, pin, cable);
    let tilt = lifted.at(ground, *line.lift);
    sweep(drawing, axes, ground.array.outline, pin, &tilt, mount, line);
    enter_figures(drawing, &tilt, [lifted.far, lifted.upper, lifted.cable, pin.z]);
    let mut tilts = Vec::new();
    let mut next = STEP;
    while next < *line.lift {
        tilts.push(lifted.at(ground, next));
        next += STEP;
    }
    tilts.push(tilt);
    Some((tilt, tilts))
}

/// Angles of the table; a prop with a row of holes has them about so far apart.
const STEP: Angle = Angle::deg(10.0);
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
}

impl Lifted {
    fn new(ground: &Ground<'_>, axes: EdgeAxes, pin: Point3, cable: Option<Length>) -> Self {
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
        }
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

/// Keep-outs beside the hinges that the lifted frame would swing into.
fn sweep(
    drawing: &mut Drawing<'_>,
    axes: EdgeAxes,
    outline: Rect,
    pin: Point3,
    tilt: &Tilt,
    mount: &Mount,
    line: &HingeLine,
) {
    let Some(roof) = &drawing.build.roof else { return };
    let (low, high) = (outline.low(), outline.high());
    let out: Point2 = (pin + axes.outboard * tilt.reach).xy();
    let corners = if axes.outboard.dot(Dir3::Y).abs() > 0.5 {
        (Point2::new(low.x, pin.y), Point2::new(high.x, out.y))
    } else {
        (Point2::new(pin.x, low.y), Point2::new(out.x, high.y))
    };
    let swept = Rect::from_corners(corners.0, corners.1);
    for keep_out in &roof.keep_outs {
        let taken = Rect::from_size(
            Point2::new(*keep_out.x, *keep_out.y),
            *keep_out.length,
            *keep_out.width,
        );
        if taken.overlaps(swept) {
            drawing.findings.push(l034::finding(keep_out, tilt.angle, tilt.reach, line, mount));
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
