//! The frame lifted about its hinges: how high it stands, what props it, what it meets on its way.

use super::swing::{Obstacle, ROOM, Swing, hinged, obstacles};
use super::{EdgeAxes, Ground};
use crate::build::{HingeLine, Mount};
use crate::derive::Drawing;
use crate::derive::rules::l034;
use crate::derive::work::{MountPlace, Tilt};
use crate::geometry::Point3;
use crate::source::{Figure, Seen};
use crate::units::{Angle, Length, Unit, display};

/// What lifting does; `None` without hinges. The first line of hinges with one that stands counts:
/// a frame turns about one edge.
pub(in crate::derive) fn tilt(
    drawing: &mut Drawing<'_>,
    ground: &Ground<'_>,
    places: &[MountPlace],
) -> Option<(Tilt, Vec<Tilt>)> {
    let (mount, line, pin) = hinged(drawing.build, places, ground.array.frame)?;
    let axes = EdgeAxes::new(*mount.edge);
    let cable = cable_radius(drawing, axes, pin);
    let swing = Swing::new(ground.array, axes, pin);
    let lifted = Lifted::new(swing, cable, obstacles(drawing, ground, &swing));
    let tilt = lifted.at(ground, *line.lift);
    judge(drawing, &lifted, mount, line);
    enter_figures(drawing, &tilt, line, [swing.far, swing.upper, lifted.cable, pin.z]);
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
/// Places along each side of the frame at which its height over the skin is taken.
const POINTS: u32 = 12;

/// The frame as it turns about its pins, with its cables and what may stand in its way.
struct Lifted {
    swing: Swing,
    /// From the pin to where the cables leave the frame.
    cable: Length,
    obstacles: Vec<Obstacle>,
}

impl Lifted {
    fn new(swing: Swing, cable: Option<Length>, obstacles: Vec<Obstacle>) -> Self {
        let cable = cable.map_or(swing.far, |radius| radius.min(swing.far));
        Self { swing, cable, obstacles }
    }

    fn at(&self, ground: &Ground<'_>, angle: Angle) -> Tilt {
        // A point at r from the pin moves by the chord 2 r sin(θ/2).
        let chord = |radius: Length| radius * (2.0 * (angle / 2.0).sin());
        Tilt {
            frame: ground.array.frame,
            edge: self.swing.axes.edge,
            angle,
            top: self.swing.pin.z + Swing::turned(self.swing.far, self.swing.upper, angle).1,
            prop: chord(self.swing.far.hypot(self.swing.lower)),
            slack: chord(self.cable),
            // The panels' upper edge beside the hinges swings out over the rail.
            reach: (-Swing::turned(self.swing.near, self.swing.upper, angle).0).max(Length::ZERO),
            clearance: self.clearance(ground, angle),
            keep_out: self.nearest(angle),
        }
    }

    /// The keep-out that is nearest at an angle, and how near.
    fn nearest(&self, angle: Angle) -> Option<(String, Length)> {
        let area = self.swing.area(angle);
        let near = |keep: &Obstacle| (keep.name.clone(), area.gap_to(keep.area));
        self.obstacles.iter().map(near).min_by(|a, b| a.1.total_cmp(&b.1))
    }

    /// Least height of the tubes' lower face over the skin, at places over the whole frame.
    fn clearance(&self, ground: &Ground<'_>, angle: Angle) -> Length {
        let long = self.swing.axes.length_of(ground.array.outline);
        let mut least: Option<Length> = None;
        for i in 0..=POINTS {
            let inboard = self.swing.near
                + (self.swing.far - self.swing.near) * (f64::from(i) / f64::from(POINTS));
            let (out, up) = Swing::turned(inboard, self.swing.lower, angle);
            for k in 0..=POINTS {
                let at = long * (f64::from(k) / f64::from(POINTS));
                let edge = self.swing.axes.point(ground.array.outline, self.swing.pin.z, at);
                let place = edge + self.swing.axes.outboard * (self.swing.near - out);
                let over = self.swing.pin.z + up - ground.surface.height(place.x, place.y);
                least = Some(least.map_or(over, |least| least.min(over)));
            }
        }
        least.unwrap_or_default()
    }
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
        let (room, angle) = lifted.swing.least_room(keep.area, *line.lift);
        // What it is over while driving is judged by the layout.
        let lying = lifted.swing.area(Angle::ZERO).gap_to(keep.area);
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

fn enter_figures(
    drawing: &mut Drawing<'_>,
    tilt: &Tilt,
    line: &HingeLine,
    [far, upper, cable, pin]: [Length; 4],
) {
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
    // One that is made has its own.
    if line.prop.is_none() {
        ledger.push(
            Figure::new("tilt.prop", "prop from a foot to the far tube", tilt.prop.to_mm(), "mm")
                .formula("l = 2 r sin(θ/2)")
                .input("r", told(far))
                .input("θ", angle(tilt.angle))
                .source("geometry", Seen::Computed)
                .assume("it stands where the far tube lies while driving")
                .decides(),
        );
    }
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
