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
) -> Option<Tilt> {
    let (mount, line, pin) = places.iter().find_map(|place| {
        let mount = &drawing.build.mounts[place.mount];
        match (&mount.kind, &place.kind) {
            (MountKind::Hinge(line), MountShape::Hinge { pin, .. }) => Some((mount, line, *pin)),
            _ => None,
        }
    })?;
    let axes = EdgeAxes::new(*mount.edge);
    let angle = *line.lift;
    // From the pin: inboard to the far edge of the frame, up to its lower face and its top.
    let outline = ground.array.outline;
    let across = match axes.edge {
        crate::build::Edge::Left | crate::build::Edge::Right => outline.height(),
        crate::build::Edge::Front | crate::build::Edge::Rear => outline.width(),
    };
    let near = near_edge(axes, outline, pin);
    let far = near + across;
    let (lower, upper) = (ground.array.under - pin.z, ground.array.top - pin.z);
    let top = pin.z + far * angle.sin() + upper * angle.cos();
    // A point at r from the pin moves by the chord 2 r sin(θ/2).
    let chord = |radius: Length| radius * (2.0 * (angle / 2.0).sin());
    let prop = chord(far.hypot(lower));
    let cable = cable_radius(drawing, axes, pin).map_or(far, |radius| radius.min(far));
    let slack = chord(cable);
    // The panels' upper edge beside the hinges swings out over the rail.
    let reach = (upper * angle.sin() - near * angle.cos()).max(Length::ZERO);
    let tilt = Tilt { edge: axes.edge, angle, top, prop, slack, reach };
    sweep(drawing, axes, outline, pin, &tilt, mount, line);
    enter_figures(drawing, &tilt, [far, upper, cable, pin.z]);
    Some(tilt)
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
