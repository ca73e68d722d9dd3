//! Solids that could be in one another's way, looked for in the finished work.
//!
//! Takes parts in place, holes and fasteners; gives for each kind of clash how much was looked at and
//! the least room that was found. Bolts, heads and nuts are round bars; tubes, legs, plates and panels
//! are boxes; the roof is the measured skin. It knows nothing of how things came to their places, so a
//! slip there shows here.

use super::rules::{l017, l021, l042};
use super::work::{Body, Fastening, Part, PartKind, Piece, Screw, Work};
use crate::geometry::{Dir3, Frame3, Point3, Segment3};
use crate::source::Finding;
use crate::units::Length;

/// A kind of clash and what was found of it.
#[derive(Debug, Clone, PartialEq)]
pub struct ClashCheck {
    /// "screw or bolt in a corner connector".
    pub what: &'static str,
    /// How many pairs were looked at.
    pub looked: usize,
    /// Least room, and between what; negative where they are in one another.
    pub least: Option<(Length, String)>,
    /// Room that it needs.
    pub needs: Length,
}

impl ClashCheck {
    const fn new(what: &'static str, needs: Length) -> Self {
        Self { what, looked: 0, least: None, needs }
    }

    fn take(&mut self, room: Length, between: impl FnOnce() -> String) {
        self.looked += 1;
        if self.least.as_ref().is_none_or(|least| room < least.0) {
            self.least = Some((room, between()));
        }
    }

    /// Whether nothing is in the way.
    pub fn is_clear(&self) -> bool {
        self.least.as_ref().is_none_or(|(room, _)| room.clears(self.needs))
    }
}

const CONNECTOR: &str = "screw or bolt in a corner connector";
/// Faces that lie on each other by design are this near.
const TOUCH: Length = Length::mm(-0.05);
/// Half the steps in which faces are looked at.
const STEPS: u32 = 8;
/// What a panel is looked at from below: as thick as the thinnest frames sold.
const PANEL: Length = Length::mm(20.0);

/// All kinds of clash that are looked for.
pub fn clashes(work: &Work) -> Vec<ClashCheck> {
    let bars: Vec<Bar> =
        work.fastenings.iter().flat_map(|fastening| bars_of(work, fastening)).collect();
    let boxes: Vec<Solid> = work.parts.iter().flat_map(solids_of).collect();
    let mut checks = vec![
        connectors(work, &bars),
        panels(&bars, &boxes),
        bolts(&bars),
        legs(&boxes),
        skin(work, &boxes, "bracket or plate in the roof", |kind| {
            matches!(
                kind,
                PartKind::FootAngle
                    | PartKind::FootPlate
                    | PartKind::ClampAngle
                    | PartKind::ClampPlate
                    | PartKind::HingePacker
                    | PartKind::ClampPacker
            )
        }),
        skin(work, &boxes, "tube of the frame in the roof", |kind| {
            matches!(kind, PartKind::SideTube | PartKind::EndTube | PartKind::CrossTube)
        }),
        ends(work, &bars),
    ];
    checks.retain(|check| check.looked > 0);
    checks
}

/// A finding for each kind that is not clear; what is `told` already as a mount over its connector is
/// not said twice.
pub(super) fn judge(work: &Work, told: &[Finding]) -> Vec<Finding> {
    let says = |code: &str| told.iter().any(|finding| finding.rule.code == code);
    // Frames that lie in one another clash in everything.
    if says(l017::RULE.code) {
        return Vec::new();
    }
    let over = says(l021::RULE.code);
    let span = work.arrays.first().map(|array| array.span).unwrap_or_default();
    clashes(work)
        .iter()
        .filter(|check| !(check.is_clear() || over && check.what == CONNECTOR))
        .filter_map(|check| {
            let (room, between) = check.least.as_ref()?;
            Some(l042::finding(check.what, *room, check.needs, between, span))
        })
        .collect()
}

/// Shank, head or nut of a fastener.
struct Bar {
    name: String,
    /// Fastening and place, so that one fastener is not held against itself.
    of: (usize, usize),
    line: Segment3,
    radius: Length,
    /// Pieces that it passes.
    pieces: Vec<String>,
    /// Passes the skin.
    through_roof: bool,
}

fn bars_of(work: &Work, fastening: &Fastening) -> Vec<Bar> {
    let number =
        work.fastenings.iter().position(|other| std::ptr::eq(other, fastening)).unwrap_or_default();
    let mut bars = Vec::new();
    for (index, place) in fastening.places.iter().enumerate() {
        let Some((start, way)) = axis(work, place) else { continue };
        let clamped: Length = fastening.stack.iter().map(|layer| layer.1).sum();
        let mut pieces: Vec<String> = place.iter().map(|at| at.piece.clone()).collect();
        pieces.dedup();
        let through_roof = place.iter().any(|at| {
            work.piece(&at.piece).is_some_and(|(part, _)| {
                matches!(part.kind, PartKind::SkinUnderFoot | PartKind::Skin | PartKind::Rail)
            })
        });
        let mut add = |from: Length, to: Length, radius: Length| {
            // A stretch with round ends: a bar that ends flat is drawn in by its radius.
            let draw = radius.min((to - from) / 2.0);
            bars.push(Bar {
                name: format!("{} at {}", fastening.name, pieces.join(" and ")),
                of: (number, index),
                line: Segment3::new(start + way * (from + draw), start + way * (to - draw)),
                radius,
                pieces: pieces.clone(),
                through_roof,
            });
        };
        match &fastening.screw {
            Screw::BoltInRivetNut { thread, length, .. } => {
                let washer = thread.washer.thickness;
                add(-washer - thread.hex_height, Length::ZERO, thread.washer.outer / 2.0);
                add(Length::ZERO, *length - washer, thread.diameter / 2.0);
            }
            Screw::BoltAndNut { thread, length, countersunk, .. } => {
                let washer = thread.washer.thickness;
                let sunk = if *countersunk { Length::ZERO } else { washer };
                if !countersunk {
                    add(-washer - thread.hex_height, Length::ZERO, thread.washer.outer / 2.0);
                }
                add(Length::ZERO, *length - sunk, thread.diameter / 2.0);
                let nut = clamped + washer + thread.locking_nut_height;
                add(clamped, nut, thread.washer.outer / 2.0);
            }
            Screw::Pin { diameter, length } => {
                add(-*diameter / 2.0, Length::ZERO, *diameter * 0.75);
                add(Length::ZERO, *length, *diameter / 2.0);
            }
            Screw::Tapping { screw, length } => {
                add(Length::ZERO, *length, screw.diameter / 2.0);
            }
            Screw::BlindRivet { rivet, .. } => {
                add(Length::ZERO, clamped + rivet.diameter, rivet.diameter / 2.0);
            }
        }
    }
    bars
}

/// Where the head lies, and which way the fastener goes.
fn axis(work: &Work, place: &[super::work::HoleAt]) -> Option<(Point3, Dir3)> {
    let at = |which: &super::work::HoleAt| {
        let hole = work.hole(&which.hole)?;
        let (part, piece) = work.piece(&which.piece)?;
        let face = part.faces.get(hole.face)?;
        let wall = part.body.wall_at(face, hole.at);
        Some((
            piece.place.place(face.point(hole.at)),
            piece.place.place_dir(face.outward),
            wall,
            hole.kind,
        ))
    };
    let all: Vec<_> = place
        .iter()
        .filter_map(at)
        .filter(|found| found.3 != super::work::HoleKind::Access)
        .collect();
    let (middle, outward, wall, _) = *all.first()?;
    let last = all.last()?;
    // The middle of the last wall tells the way, as faces may share a plane.
    let deep = last.0 + last.1 * (last.2 / -2.0);
    let own = middle + outward * (wall / -2.0);
    let on = (deep - own).along(outward);
    Some(if all.len() > 1 && on > Length::ZERO {
        (middle + outward * -wall, outward)
    } else {
        (middle, -outward)
    })
}

/// A box of a part in place.
struct Solid<'w> {
    kind: PartKind,
    mark: &'w str,
    place: Frame3,
    low: Point3,
    high: Point3,
}

fn solids_of(part: &Part) -> Vec<Solid<'_>> {
    let zero = Length::ZERO;
    let each = |piece: &Piece| -> Vec<(Frame3, Point3, Point3)> {
        let whole = |x: Length, y: Length, z: Length| {
            vec![(piece.place, Point3::ORIGIN, Point3::new(x, y, z))]
        };
        if let Some(bracket) = part.body.bracket() {
            // A leg is a box on its own face, its wall behind.
            return part
                .faces
                .iter()
                .filter_map(|face| {
                    let origin = piece.place.place(face.origin);
                    let along = piece.place.place_dir(face.along);
                    let across = piece.place.place_dir(face.across);
                    let unit = Length::mm(1.0);
                    let frame = Frame3::new(origin, along * unit, across * unit)?;
                    let up = along.cross(across)?;
                    let out = piece.place.place_dir(face.outward).dot(up) > 0.0;
                    let wall = bracket.section.t;
                    let (from, to) = if out { (-wall, zero) } else { (zero, wall) };
                    Some((
                        frame,
                        Point3::new(zero, zero, from),
                        Point3::new(face.length, face.width, to),
                    ))
                })
                .collect();
        }
        match &part.body {
            Body::Bar { section, length, .. } => whole(*length, section.width(), section.height()),
            Body::Plate { length, width, thickness, .. } => whole(*length, *width, *thickness),
            Body::Block { length, width, height, .. } => whole(*length, *width, *height),
            Body::Wedge { length, width, thick, .. } => whole(*length, *width, *thick),
            Body::Bought { .. } if part.kind == PartKind::Panel => part
                .faces
                .first()
                .map_or_else(Vec::new, |face| whole(face.length, face.width, PANEL)),
            Body::Bought { .. } | Body::OnVehicle => Vec::new(),
        }
    };
    part.pieces
        .iter()
        .flat_map(|piece| {
            each(piece).into_iter().map(|(place, low, high)| Solid {
                kind: part.kind,
                mark: &piece.mark,
                place,
                low,
                high,
            })
        })
        .collect()
}

impl Solid<'_> {
    /// From a place to the box; negative inside.
    fn room(&self, at: Point3) -> Length {
        let own = self.place.local(at);
        let beyond = |v: Length, low: Length, high: Length| (low - v).max(v - high);
        let by = [
            beyond(own.x, self.low.x, self.high.x),
            beyond(own.y, self.low.y, self.high.y),
            beyond(own.z, self.low.z, self.high.z),
        ];
        if by.iter().all(|v| *v <= Length::ZERO) {
            return by[0].max(by[1]).max(by[2]);
        }
        let [x, y, z] = by.map(|v| v.max(Length::ZERO));
        x.hypot(y).hypot(z)
    }

    /// Places over its faces.
    fn places(&self, each: u32) -> Vec<Point3> {
        let part = |low: Length, high: Length, k: u32| {
            low + (high - low) * (f64::from(k) / f64::from(each))
        };
        let mut places = Vec::new();
        for i in 0..=each {
            for k in 0..=each {
                for z in [self.low.z, self.high.z] {
                    let own = Point3::new(
                        part(self.low.x, self.high.x, i),
                        part(self.low.y, self.high.y, k),
                        z,
                    );
                    places.push(self.place.place(own));
                }
            }
        }
        places
    }

    /// Farthest that anything of it is from its middle, and that middle.
    fn around(&self) -> (Point3, Length) {
        let half = |low: Length, high: Length| (low + high) / 2.0;
        let middle = Point3::new(
            half(self.low.x, self.high.x),
            half(self.low.y, self.high.y),
            half(self.low.z, self.high.z),
        );
        (self.place.place(middle), middle.distance(self.high))
    }
}

/// Least room between a round bar and a box, from places along the bar.
fn bar_to_box(bar: &Bar, solid: &Solid<'_>) -> Length {
    let way = bar.line.way();
    (0..=STEPS)
        .map(|k| solid.room(bar.line.from + way * (f64::from(k) / f64::from(STEPS))) - bar.radius)
        .fold(Length::m(100.0), Length::min)
}

/// Fasteners against what a connector fills of a tube's ends.
fn connectors(work: &Work, bars: &[Bar]) -> ClashCheck {
    let mut check = ClashCheck::new(CONNECTOR, Length::ZERO);
    for bar in bars {
        for mark in &bar.pieces {
            let Some((part, piece)) = work.piece(mark) else { continue };
            let Body::Bar { length, plugged, .. } = &part.body else { continue };
            if *plugged <= Length::ZERO {
                continue;
            }
            let x = piece.place.local(bar.line.from).x;
            let room = x.min(*length - x) - *plugged - bar.radius;
            check.take(room, || bar.name.clone());
        }
    }
    check
}

/// Bolts, their heads and nuts against panels that they do not hold.
fn panels(bars: &[Bar], boxes: &[Solid<'_>]) -> ClashCheck {
    let mut check = ClashCheck::new("bolt, head or nut under a panel", Length::ZERO);
    for panel in boxes.iter().filter(|solid| solid.kind == PartKind::Panel) {
        let (middle, reach) = panel.around();
        for bar in bars.iter().filter(|bar| !bar.pieces.iter().any(|mark| mark == panel.mark)) {
            if bar.line.from.distance(middle) > reach + Length::mm(100.0) {
                continue;
            }
            check.take(bar_to_box(bar, panel), || format!("{} and {}", bar.name, panel.mark));
        }
    }
    check
}

/// Fasteners against each other.
fn bolts(bars: &[Bar]) -> ClashCheck {
    let mut check = ClashCheck::new("bolt in another bolt", Length::ZERO);
    for (k, bar) in bars.iter().enumerate() {
        for other in &bars[k + 1..] {
            let far = bar.line.from.distance(other.line.from);
            if bar.of == other.of || far > Length::mm(120.0) {
                continue;
            }
            let room = bar.line.gap_to(other.line) - bar.radius - other.radius;
            check.take(room, || format!("{}, {}", bar.name, other.name));
        }
    }
    check
}

/// Brackets against tubes and panels.
fn legs(boxes: &[Solid<'_>]) -> ClashCheck {
    let mut check = ClashCheck::new("bracket in a tube or panel", TOUCH);
    let leg = |solid: &&Solid<'_>| {
        matches!(
            solid.kind,
            PartKind::FootAngle | PartKind::ClampAngle | PartKind::FootPlate | PartKind::ClampPlate
        )
    };
    let other = |solid: &&Solid<'_>| {
        matches!(
            solid.kind,
            PartKind::SideTube | PartKind::EndTube | PartKind::CrossTube | PartKind::Panel
        )
    };
    for bracket in boxes.iter().filter(leg) {
        let (middle, reach) = bracket.around();
        for tube in boxes.iter().filter(other) {
            if tube.room(middle) > reach + Length::mm(20.0) {
                continue;
            }
            let room = bracket
                .places(STEPS)
                .into_iter()
                .map(|at| tube.room(at))
                .fold(Length::m(100.0), Length::min);
            check.take(room, || format!("{} and {}", bracket.mark, tube.mark));
        }
    }
    check
}

/// Pieces against the skin.
fn skin(
    work: &Work,
    boxes: &[Solid<'_>],
    what: &'static str,
    of: fn(PartKind) -> bool,
) -> ClashCheck {
    let mut check = ClashCheck::new(what, Length::ZERO);
    let Some(roof) = &work.roof else { return check };
    for solid in boxes.iter().filter(|solid| of(solid.kind)) {
        let room = solid
            .places(STEPS)
            .into_iter()
            .map(|at| at.z - roof.height(at.x, at.y))
            .fold(Length::m(100.0), Length::min);
        check.take(room, || solid.mark.to_owned());
    }
    check
}

/// Ends of bolts that do not pass the roof against the skin.
fn ends(work: &Work, bars: &[Bar]) -> ClashCheck {
    let mut check = ClashCheck::new("end of a bolt in the roof", Length::ZERO);
    let Some(roof) = &work.roof else { return check };
    for bar in bars.iter().filter(|bar| !bar.through_roof) {
        let room = [bar.line.from, bar.line.to]
            .map(|at| at.z - roof.height(at.x, at.y) - bar.radius)
            .into_iter()
            .fold(Length::m(100.0), Length::min);
        check.take(room, || bar.name.clone());
    }
    check
}
