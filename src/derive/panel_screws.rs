//! Tapping screws from below, through the tube's upper wall, into the panels' flanges.
//!
//! The frame lies upside down on the panels while this is done: an access hole in the lower wall
//! lets head and driver in, the clearance hole in the upper wall lies on the same axis, and the
//! flange is drilled through it. Only edges that lie on an outer tube can be screwed; where panels
//! meet over a cross tube each has too little of it for a screw.

use super::Drawing;
use super::array::Laid;
use super::draft::{DraftDrilling, DraftFastening, DraftHole, HoleRef};
use super::members::Members;
use super::rules::{h008, l013, l014};
use super::work::{Body, HoleKind, PanelPlace, PartKind, Screw};
use crate::build::{Edge, Frame, Panel};
use crate::geometry::Point3;
use crate::tables::MaterialKind;
use crate::units::{Angle, Length};

/// Room round the head for the driver, as a diameter: the hole is found by hand (2 mm zone).
const DRIVER_ROOM: Length = Length::mm(2.5);
/// Metal left between an access hole and what is near it.
const LAND: Length = Length::mm(3.0);
/// From a panel's corner to its first screw: past the corner key of its frame (common practice).
const CORNER: Length = Length::mm(50.0);
/// Least air between the screw's point and the back sheet.
const AIR: Length = Length::mm(3.0);
/// Least number of screws along an edge: one lets the panel turn.
const LEAST: u32 = 2;

/// Sizes that hold for every panel screw.
struct Sizes {
    access: Length,
    clearance: Length,
    pilot: Length,
}

/// Places screws along every panel edge that lies on an outer tube.
pub(super) fn place(drawing: &mut Drawing<'_>, frame: &Frame, laid: &Laid, members: &Members) {
    let screw = &frame.panel_screw.value;
    let tube = &frame.section.value;
    let access = half_up(screw.head_diameter + DRIVER_ROOM);
    let outline = laid.array.outline;
    for (place, piece) in laid.array.panels.iter().zip(&laid.pieces) {
        let panel = &drawing.build.panels[place.panel];
        let pilot = screw
            .pilot_in(MaterialKind::Aluminium, *panel.flange.thickness)
            // Beyond the table the core diameter is the least that lets the thread in.
            .unwrap_or(screw.core);
        let sizes = Sizes { access, clearance: screw.clearance, pilot };
        check_length(drawing, frame, panel);
        let mut held = 0;
        for edge in [Edge::Left, Edge::Right, Edge::Front, Edge::Rear] {
            let on_tube = match edge {
                Edge::Left => place.outline.low().y - outline.low().y,
                Edge::Right => outline.high().y - place.outline.high().y,
                Edge::Front => place.outline.low().x - outline.low().x,
                Edge::Rear => outline.high().x - place.outline.high().x,
            };
            // The screw goes up the middle of the tube: the flange must reach over it.
            let inset = tube.width() / 2.0 - on_tube;
            let edge_room = sizes.pilot * 1.2;
            if !inset.clears(edge_room) || !(inset + edge_room).fits(*panel.flange.width) {
                continue;
            }
            held += screw_edge(drawing, frame, place, *piece, edge, members, &sizes);
        }
        if held == 0 {
            drawing.findings.push(l013::finding(place, frame));
        }
    }
}

fn half_up(length: Length) -> Length {
    Length::mm((length.to_mm() * 2.0 - 1e-9).ceil() / 2.0)
}

/// The screw must go through the flange with its full thread and stay below the back sheet.
fn check_length(drawing: &mut Drawing<'_>, frame: &Frame, panel: &Panel) {
    let length = *frame.panel_screw_length;
    let wall = frame.section.t;
    let reach = length - wall;
    // A tapping screw's point takes about two pitches before its thread is full (ISO 1478, type C).
    let needed = *panel.flange.thickness + frame.panel_screw.pitch * 2.0;
    if !reach.clears(needed) {
        drawing.findings.push(h008::too_short(frame, wall + needed));
    }
    if !(reach + AIR).fits(*panel.recess) {
        drawing.findings.push(h008::too_long(frame, panel, reach, AIR));
    }
}

/// Screws along one edge; gives how many.
fn screw_edge(
    drawing: &mut Drawing<'_>,
    frame: &Frame,
    place: &PanelPlace,
    piece: usize,
    edge: Edge,
    members: &Members,
    sizes: &Sizes,
) -> usize {
    let tube = members.at(edge);
    let along_x = matches!(edge, Edge::Left | Edge::Right);
    let (from, to) = if along_x {
        (place.outline.low().x, place.outline.high().x)
    } else {
        (place.outline.low().y, place.outline.high().y)
    };
    let origin = drawing.draft.pieces[tube].place.origin();
    let start = if along_x { origin.x } else { origin.y };
    let length = length_of(drawing, tube);
    let taken = taken(drawing, (tube, edge), members, frame, sizes.access);
    // In the tube's own running dimension.
    let (low, high) = (from - start + CORNER, to - start - CORNER);
    let stretch = Stretch { low, high, length, taken: &taken };
    let Some(at) = stretch.spread(*frame.panel_screw_pitch) else {
        drawing.findings.push(l014::finding(place, edge, frame));
        return 0;
    };
    for x in &at {
        add_screw(drawing, frame, tube, piece, *x, sizes);
    }
    at.len()
}

/// Stretches of a tube, in its running dimension, where no panel screw may go.
fn taken(
    drawing: &Drawing<'_>,
    (tube, edge): (usize, Edge),
    members: &Members,
    frame: &Frame,
    access: Length,
) -> Vec<(Length, Length)> {
    let half = access / 2.0 + LAND;
    let piece = &drawing.draft.pieces[tube];
    let length = length_of(drawing, tube);
    let far = Length::mm(1e6);
    let plug = members.ends.at(edge).plugged + half;
    let mut taken = vec![(-far, plug), (length - plug, far)];
    for hole in &piece.holes {
        // A rivet nut's flange and body, a rivet's head and tail: all within its flange's reach.
        let reach = match hole.kind {
            HoleKind::RivetNut | HoleKind::Rivet => hole.diameter * 0.75,
            _ => hole.diameter / 2.0,
        };
        taken.push((hole.at.x - reach - half, hole.at.x + reach + half));
    }
    if piece.kind == PartKind::SideTube {
        let start = piece.place.origin().x;
        for cross in &members.cross {
            let middle =
                drawing.draft.pieces[*cross].place.origin().x - frame.section.width() / 2.0 - start;
            let reach = frame.section.width() / 2.0 + half;
            taken.push((middle - reach, middle + reach));
        }
    }
    taken
}

fn length_of(drawing: &Drawing<'_>, tube: usize) -> Length {
    match &drawing.draft.pieces[tube].body {
        Body::Bar { length, .. } => *length,
        _ => Length::ZERO,
    }
}

/// Where on a tube screws may go.
struct Stretch<'a> {
    low: Length,
    high: Length,
    /// Of the tube.
    length: Length,
    taken: &'a [(Length, Length)],
}

impl Stretch<'_> {
    /// Places from `low` to `high`, no further apart than `pitch`, each moved to the nearest free
    /// whole millimetre; `None` when there is no room for two. Seen from the tube's middle both halves
    /// are treated alike, so that tubes of a mirrored frame are mirrored.
    fn spread(&self, pitch: Length) -> Option<Vec<Length>> {
        let (low, high) = (self.low, self.high);
        if high <= low {
            return None;
        }
        let spaces = ((high - low) / pitch - 1e-9).ceil().max(f64::from(LEAST - 1)) as u32;
        // A screw that gives way to something may leave a stretch longer than the pitch: one more then.
        for count in spaces..spaces + 4 {
            let mut places: Vec<Length> = (0..=count)
                .filter_map(|k| {
                    self.nearest_free(low + (high - low) * (f64::from(k) / f64::from(count)))
                })
                .collect();
            places.sort_by(Length::total_cmp);
            let places = self.distinct(&places);
            let close =
                places.windows(2).all(|pair| (pair[1] - pair[0]).fits(pitch + Length::mm(0.5)));
            let ends = places.first().is_some_and(|x| (*x - low).fits(pitch / 2.0))
                && places.last().is_some_and(|x| (high - *x).fits(pitch / 2.0));
            if places.len() >= LEAST as usize && close && ends {
                return Some(places);
            }
        }
        None
    }

    /// Of places that came close to each other the one farther from the tube's middle.
    fn distinct(&self, places: &[Length]) -> Vec<Length> {
        let mut kept: Vec<Length> = Vec::new();
        for place in places {
            match kept.last_mut() {
                Some(last) if place.is_near(*last, Length::mm(30.0)) => {
                    let out = |x: Length| (x - self.length / 2.0).abs();
                    if out(*place) > out(*last) + Length::SLACK {
                        *last = *place;
                    }
                }
                _ => kept.push(*place),
            }
        }
        kept
    }

    fn nearest_free(&self, wanted: Length) -> Option<Length> {
        let free = |x: Length| {
            x.clears(self.low)
                && x.fits(self.high)
                && self.taken.iter().all(|(from, to)| !(x > *from && x < *to))
        };
        let ends = self.taken.iter().flat_map(|(from, to)| [(*from, Off::Down), (*to, Off::Up)]);
        [(wanted, Off::Nearest), (self.low, Off::Up), (self.high, Off::Down)]
            .into_iter()
            .chain(ends)
            .map(|(x, off)| self.whole(x, off))
            .filter(|x| free(*x))
            .min_by(|a, b| {
                let far = |x: &Length| (((*x - wanted).abs()).to_mm() * 1e6).round();
                let out = |x: &Length| ((*x - self.length / 2.0).abs().to_mm() * 1e6).round();
                far(a).total_cmp(&far(b)).then(out(b).total_cmp(&out(a))).then(a.total_cmp(b))
            })
    }

    /// A whole number of millimetres from the nearer end of the tube; its middle stays.
    fn whole(&self, x: Length, off: Off) -> Length {
        let middle = self.length / 2.0;
        if x.is_near(middle, Length::SLACK) {
            return middle;
        }
        let step = |mm: f64, off: Off| match off {
            Off::Down => (mm + 1e-9).floor(),
            Off::Up => (mm - 1e-9).ceil(),
            Off::Nearest => mm.round(),
        };
        if x < middle {
            Length::mm(step(x.to_mm(), off))
        } else {
            self.length - Length::mm(step((self.length - x).to_mm(), off.turned()))
        }
    }
}

/// Which way to a whole millimetre.
#[derive(Clone, Copy)]
enum Off {
    Down,
    Up,
    Nearest,
}

impl Off {
    const fn turned(self) -> Self {
        match self {
            Self::Down => Self::Up,
            Self::Up => Self::Down,
            Self::Nearest => Self::Nearest,
        }
    }
}

fn add_screw(
    drawing: &mut Drawing<'_>,
    frame: &Frame,
    tube: usize,
    panel: usize,
    x: Length,
    sizes: &Sizes,
) {
    let section = &frame.section.value;
    let span = frame.panel_screw.span;
    let own = Point3::new(x, section.width() / 2.0, Length::ZERO);
    let below = drawing.draft.pieces[tube].place.place(own);
    let mut drill = |piece: usize,
                     face: &str,
                     diameter: Length,
                     kind: HoleKind,
                     drilling: DraftDrilling|
     -> HoleRef {
        let face = drawing.draft.face(piece, face);
        let at = drawing.draft.on_face(piece, face, below);
        drawing.draft.drill(
            piece,
            DraftHole {
                face,
                at,
                diameter,
                fastener: frame.panel_screw.diameter,
                kind,
                countersink: None,
                drilling,
                span,
            },
        )
    };
    let access = drill(tube, "bottom", sizes.access, HoleKind::Access, DraftDrilling::Apart);
    let upper =
        drill(tube, "top", sizes.clearance, HoleKind::Clearance, DraftDrilling::Through(access));
    let pilot =
        drill(panel, "underside", sizes.pilot, HoleKind::Pilot, DraftDrilling::Through(upper));
    let flange = drawing.draft.pieces[panel].faces[0].wall;
    drawing.draft.fasten(DraftFastening {
        name: "panel to tube".to_owned(),
        screw: Screw::Tapping {
            screw: frame.panel_screw.value.clone(),
            length: *frame.panel_screw_length,
        },
        stack: vec![("tube wall".to_owned(), section.t), ("panel flange".to_owned(), flange)],
        places: vec![vec![access, upper, pilot]],
        lean: Angle::ZERO,
        undone: false,
        span,
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(values: &[f64]) -> Vec<Length> {
        values.iter().copied().map(Length::mm).collect()
    }

    fn spread(span: (f64, f64), length: f64, taken: &[(Length, Length)]) -> Option<Vec<Length>> {
        let [low, high, length] = [span.0, span.1, length].map(Length::mm);
        Stretch { low, high, length, taken }.spread(Length::mm(400.0))
    }

    #[test]
    fn screws_keep_the_pitch_and_give_way() {
        assert_eq!(spread((0.0, 800.0), 800.0, &[]), Some(mm(&[0.0, 400.0, 800.0])));
        let taken = [(Length::mm(-10.0), Length::mm(12.5))];
        assert_eq!(spread((0.0, 300.0), 300.0, &taken), Some(mm(&[13.0, 300.0])));
        let none = [(Length::mm(-10.0), Length::mm(500.0))];
        assert_eq!(spread((0.0, 300.0), 300.0, &none), None);
    }

    #[test]
    fn both_halves_of_a_tube_are_treated_alike() {
        let length = 968.4;
        let taken = [(Length::mm(60.0), Length::mm(83.3)), (Length::mm(470.0), Length::mm(520.0))];
        let turned: Vec<(Length, Length)> = taken
            .iter()
            .map(|(from, to)| (Length::mm(length) - *to, Length::mm(length) - *from))
            .collect();
        let one = spread((50.0, 900.0), length, &taken).expect("room");
        let other = spread((length - 900.0, length - 50.0), length, &turned).expect("room");
        let back: Vec<Length> = other.iter().rev().map(|x| Length::mm(length) - *x).collect();
        assert_eq!(one.len(), back.len());
        assert!(
            one.iter().zip(&back).all(|(a, b)| a.is_near(*b, Length::SLACK)),
            "{one:?} {back:?}"
        );
    }
}
