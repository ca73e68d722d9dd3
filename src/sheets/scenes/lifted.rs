//! The frame lifted about its hinges, seen along the pins: where it lies, where it stands at each angle,
//! and the prop between the two.

use super::section::Cut;
use super::{Plan, piece_at};
use crate::build::Edge;
use crate::derive::{MountShape, PartKind};
use crate::geometry::Rect;
use crate::page::scene::{At, Fill, Lettering, Line, Scene, Side};
use crate::units::{Angle, display};

/// Roof that is drawn beside frame and keep-outs, mm.
const BESIDE: f64 = 90.0;

/// The side view; none where nothing is lifted.
pub fn lifted(on: &Plan<'_>) -> Option<Scene> {
    let most = on.work.tilts.last()?;
    let (mount, pin) = on.work.mounts.iter().find_map(|mount| match &mount.kind {
        MountShape::Hinge { pin, .. } if mount.frame == most.frame && mount.edge == most.edge => {
            Some((mount, *pin))
        }
        _ => None,
    })?;
    let (roof, array) = (on.build.roof.as_ref()?, on.work.arrays.get(most.frame)?);
    let cut = Cut::new(on, mount);
    let pin = cut.at(pin);
    let mut scene = Scene::new(format!(
        "frame lifted about its hinges to {}, its prop and what it passes",
        angles(on.work.tilts.iter().map(|tilt| tilt.angle))
    ));
    scene.lettering = Lettering::Small;
    let across = matches!(mount.edge, Edge::Left | Edge::Right);
    let roof_ends = if across {
        (-roof.width.to_mm() / 2.0, roof.width.to_mm() / 2.0)
    } else {
        (0.0, roof.length.to_mm())
    };
    // On paper from the pin: inboard and up.
    let sides = |rect: Rect| {
        if across {
            (rect.low().y.to_mm(), rect.high().y.to_mm())
        } else {
            (rect.low().x.to_mm(), rect.high().x.to_mm())
        }
    };
    let (low, high) = sides(array.outline);
    let (near, far) =
        if cut.way > 0.0 { (pin.0 - high, pin.0 - low) } else { (low - pin.0, high - pin.0) };
    let levels = [array.under, array.tube_top, array.top].map(|z| z.to_mm() - pin.1);
    let turned = |inboard: f64, up: f64, angle: Angle| -> At {
        let (sin, cos) = (angle.sin(), angle.cos());
        (pin.0 - cut.way * (inboard * cos - up * sin), pin.1 + inboard * sin + up * cos)
    };
    // As much of the roof as there is to see.
    let mut ends = (low - BESIDE, high + BESIDE);
    for keep in &roof.keep_outs {
        for place in keep.places() {
            let beside = if across {
                place.low().x < array.outline.high().x && place.high().x > array.outline.low().x
            } else {
                place.low().y < array.outline.high().y && place.high().y > array.outline.low().y
            };
            if beside {
                let (from, to) = sides(place);
                ends = (ends.0.min(from - BESIDE), ends.1.max(to + BESIDE));
                let base = cut.skin(from).max(cut.skin(to));
                let size = (to - from, keep.height.to_mm());
                scene.filled_rectangle((from, base), size, Fill::HATCH, Some(Line::THIN));
                let top = (f64::midpoint(from, to), base + size.1);
                scene.label_on(top, Side::Above, keep.name.value.clone());
            }
        }
    }
    cut.draw_skin(&mut scene, ends.0.max(roof_ends.0), ends.1.min(roof_ends.1));
    rail(&mut scene, on, &cut, mount);
    let lying = Angle::ZERO;
    for angle in on.work.tilts.iter().map(|tilt| tilt.angle) {
        let line = if angle >= most.angle { Line::VISIBLE } else { Line::THIN };
        body(&mut scene, &turned, (near, far), levels, angle, line);
        scene.line(&[turned(far, levels[0], lying), turned(far, levels[0], angle)], Line::CENTRE);
        scene.leader(turned(far, levels[2], angle), degrees(angle));
    }
    body(&mut scene, &turned, (near, far), levels, lying, Line::VISIBLE);
    // The way of the far tube.
    let radius = far.hypot(levels[0]);
    let start = levels[0].atan2(far).to_degrees();
    let (from, to) = (start, start + most.angle.to_deg());
    if cut.way > 0.0 {
        scene.arc(pin, radius, 180.0 - to, 180.0 - from, Line::THIN);
    } else {
        scene.arc(pin, radius, from, to, Line::THIN);
    }
    let feet = turned(far, levels[0], lying);
    let head = turned(far, levels[0], most.angle);
    let along = 0.45;
    scene.leader((feet.0 + (head.0 - feet.0) * along, feet.1 + (head.1 - feet.1) * along), "prop");
    scene.leader(pin, "pin");
    let seen = if across { "from the rear" } else { "from the left, front at left" };
    scene.view(format!("{seen}, pins of {}", hinges(on, most.frame, most.edge)));
    Some(scene)
}

/// Tubes and panels at an angle.
fn body(
    scene: &mut Scene,
    turned: &impl Fn(f64, f64, Angle) -> At,
    (near, far): (f64, f64),
    [under, tube, top]: [f64; 3],
    angle: Angle,
    line: Line,
) {
    let at = |inboard, up| turned(inboard, up, angle);
    let ring = [at(near, under), at(far, under), at(far, top), at(near, top)];
    scene.outline(&ring, line);
    scene.line(&[at(near, tube), at(far, tube)], line);
}

/// The rail under the hinges.
fn rail(scene: &mut Scene, on: &Plan<'_>, cut: &Cut<'_>, mount: &crate::derive::MountPlace) {
    let Some((part, piece)) = piece_at(on.work, PartKind::Rail, mount) else { return };
    let Some(face) = part.faces.first() else { return };
    let top = cut.profile(
        piece.place,
        face.length / 2.0,
        &[(0.0, face.origin.z.to_mm()), (face.width.to_mm(), face.origin.z.to_mm())],
    );
    let (a, b) = (top[0], top[1]);
    scene.line(&[(a.0, cut.skin(a.0)), a, b, (b.0, cut.skin(b.0))], Line::VISIBLE);
}

fn degrees(angle: Angle) -> String {
    format!("{}°", display::number_short(angle.to_deg(), 1))
}

fn angles(all: impl Iterator<Item = Angle>) -> String {
    all.map(degrees).collect::<Vec<_>>().join(", ")
}

fn hinges(on: &Plan<'_>, frame: usize, edge: Edge) -> String {
    let marks = on.work.mounts.iter().filter(|mount| {
        matches!(mount.kind, MountShape::Hinge { .. }) && mount.frame == frame && mount.edge == edge
    });
    let marks: Vec<&str> = marks.map(|mount| mount.mark.as_str()).collect();
    crate::compute::steps::facts::marks(&marks)
}
