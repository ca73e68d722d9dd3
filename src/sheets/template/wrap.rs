//! Paper that folds around a tube: its faces side by side at full size.
//!
//! A tube that fits two tiles gets its whole length on paper. A longer one does not: each sheet of a
//! tiled strip may add up to 1 mm of the printer's own error, and nine sheets taped to a ribbon tear
//! in the wind. There the running size from the zero end is marked with a tape, and a short strip with
//! the holes of one bracket or fastener is folded around the tube at that mark. Alike ones share a strip.

use super::mitre::Mitre;
use super::tiles::{MOST, OVERLAP};
use crate::derive::{Body, Face, Hole, HoleKind, Part, PartKind};
use crate::geometry::{Dir3, Unrolled};
use crate::sheets::scenes::words_over_holes;
use crate::tables::Shape;
use crate::units::Length;

/// Holes farther apart than this along a tube are groups of their own: less than a hand's width is
/// held by one strip. Common practice, no source.
const APART: f64 = 80.0;
/// Holes that lie on one ring around the tube, such as both ends of a bolt, mm.
const RING: f64 = 1.0;
/// From a strip's upper edge to the edge of its first hole: names of the faces, a row of words, the
/// hole's id, mm.
const ABOVE: f64 = 19.0;
/// A further row of words, mm.
const ROW: f64 = 5.0;
/// From the edge of its last hole to its lower edge, mm.
const BELOW: f64 = 8.0;
/// Flap that closes it, with room for what the strip is, mm.
pub const FLAP: f64 = 17.0;

/// A strip.
#[derive(Debug, Clone)]
pub struct Wrap<'a> {
    /// "side tube L1".
    pub name: String,
    /// Faces from left to right: width in mm and name. Folds are between them.
    pub panes: Vec<(f64, String)>,
    /// Holes: from the upper edge and from the left edge, mm.
    pub holes: Vec<(&'a Hole, (f64, f64))>,
    /// Length of the strip, mm.
    pub length: f64,
    /// Where its upper edge lies: running sizes from the zero end, one for each alike group.
    pub edges: Vec<Length>,
    /// It is the whole tube: its lower edge is the far end.
    pub whole: bool,
    /// It marks no holes but a mitre.
    pub mitre: Option<Mitre>,
}

impl Wrap<'_> {
    /// Width with its flap, mm.
    pub fn width(&self) -> f64 {
        self.around() + FLAP
    }

    /// Once around the tube, mm.
    pub fn around(&self) -> f64 {
        self.panes.iter().map(|(width, _)| width).sum()
    }
}

/// Faces in the order in which paper folds around them, printed side out and running sizes down the
/// sheet, each with whether its datum edge is at its left.
fn round(part: &Part) -> Option<Vec<(usize, &Face, bool)>> {
    let way = |face: &Face| -> Option<Dir3> {
        // Seen from outside with `along` down the sheet, this is to the right.
        Some(-face.along.cross(face.outward)?)
    };
    let first = part.faces.iter().position(|face| face.name == "top")?;
    let mut order = Vec::new();
    let mut at = first;
    for _ in 0..4 {
        let face = &part.faces[at];
        let right = way(face)?;
        order.push((at, face, face.across.dot(right) > 0.0));
        at = part.faces.iter().position(|next| next.outward.dot(right) > 0.99)?;
    }
    (at == first).then_some(order)
}

/// Strips of one tube, none shorter than its flap's words; none for what is no tube with flat faces.
/// Where it is mitred, its zero end is its long point.
pub fn wraps<'a>(
    part: &Part,
    index: usize,
    holes: &'a [Hole],
    (marks, least): (&str, f64),
) -> Vec<Wrap<'a>> {
    let Body::Bar { section, length, ends, .. } = &part.body else { return Vec::new() };
    let tube = matches!(section.shape, Shape::SquareTube | Shape::RectTube);
    let Some(order) = round(part).filter(|_| tube) else { return Vec::new() };
    // Round corners are a shorter way round than sharp ones.
    let outside = Unrolled::flat(section.width(), section.height(), section.outer_radius);
    let widths = outside.panes();
    // Screws of the panels are drilled through the panel's own flange; a lone hole is marked faster
    // with a square from the table.
    let own = |hole: &&Hole| {
        hole.part == index && (part.kind == PartKind::Direct || hole.kind != HoleKind::Pilot)
    };
    let mut own: Vec<&Hole> = holes.iter().filter(own).collect();
    own.sort_by(|a, b| a.at.x.to_mm().total_cmp(&b.at.x.to_mm()).then(a.id.cmp(&b.id)));
    let place = |hole: &Hole| -> Option<f64> {
        let mut left = 0.0;
        for ((number, face, datum_left), width) in order.iter().zip(&widths) {
            if *number == hole.face {
                let y = if *datum_left { hole.at.y } else { face.width - hole.at.y };
                return Some(left + (y + outside.shift()).to_mm());
            }
            left += width.to_mm();
        }
        None
    };
    let panes: Vec<(f64, String)> = order
        .iter()
        .zip(&widths)
        .map(|((_, face, _), width)| (width.to_mm(), face.name.clone()))
        .collect();
    let strip = |group: &[&'a Hole], upper: f64, long: f64, whole: bool| Wrap {
        name: format!("{} {marks}", part.name),
        panes: panes.clone(),
        holes: group
            .iter()
            .filter_map(|hole| Some((*hole, (hole.at.x.to_mm() - upper, place(hole)?))))
            .collect(),
        length: long,
        edges: vec![Length::mm(upper)],
        whole,
        mitre: None,
    };
    if own.len() > 1 && ends.are_square() && length.to_mm() <= 2.0 * MOST.0 - OVERLAP {
        return vec![strip(&own, 0.0, length.to_mm(), true)];
    }
    let mut strips: Vec<Wrap> = Vec::new();
    let groups = groups(&own, holes);
    let groups = groups.iter().flat_map(|group| split(group));
    for group in groups.filter(|group| group.len() > 1) {
        let radius = |hole: &&Hole| hole.diameter.to_mm() / 2.0;
        let first = group.iter().map(|h| h.at.x.to_mm() - radius(h)).fold(f64::MAX, f64::min);
        // As many whole mm before the hole, so that a tape finds the edge as it finds the hole.
        let first = group[0].at.x.to_mm() - (group[0].at.x.to_mm() - first).ceil();
        let last = group.iter().map(|h| h.at.x.to_mm() + radius(h)).fold(f64::MIN, f64::max);
        // A strip that would reach past the zero end starts there.
        let upper = (first - ABOVE).max(0.0);
        let long = (last + BELOW - upper).max(least);
        let next = strip(group, upper, long, false);
        match strips.iter_mut().find(|other| alike(other, &next)) {
            Some(other) => other.edges.extend(next.edges),
            None => strips.push(next),
        }
    }
    strips.into_iter().flat_map(roomy).collect()
}

/// Room for the words of many places above its holes; a place too near the zero end for that has a
/// strip of its own.
fn roomy(mut strip: Wrap) -> Vec<Wrap> {
    let more = words_over_holes(&strip).ceil();
    if more <= 0.0 || strip.edges.len() < 2 {
        return vec![strip];
    }
    let (far, near): (Vec<Length>, Vec<Length>) =
        strip.edges.iter().partition(|edge| edge.to_mm() > more);
    let mut all = Vec::new();
    if !near.is_empty() {
        all.push(Wrap { edges: near, ..strip.clone() });
    }
    if !far.is_empty() {
        strip.edges = far.into_iter().map(|edge| edge - Length::mm(more)).collect();
        strip.holes.iter_mut().for_each(|(_, at)| at.0 += more);
        strip.length += more;
        all.push(strip);
    }
    all
}

/// Holes that belong together: those of one bracket or of one fastener, which have a mate in the same
/// part or lie on one ring, and are near. Holes are sorted along the tube.
fn groups<'a>(own: &[&'a Hole], holes: &[Hole]) -> Vec<Vec<&'a Hole>> {
    let mates = |hole: &Hole| -> Vec<usize> {
        let part = |id: &String| holes.iter().find(|other| other.id == *id).map(|o| o.part);
        hole.mates.iter().filter_map(part).collect()
    };
    let mut groups: Vec<Vec<&Hole>> = Vec::new();
    for hole in own {
        let far = |other: &Hole| (hole.at.x - other.at.x).to_mm();
        let parts = mates(hole);
        let belongs = |group: &Vec<&Hole>| {
            let mate = |other: &&Hole| mates(other).iter().any(|part| parts.contains(part));
            group.iter().any(|other| far(other) <= RING)
                || group.last().is_some_and(|last| far(last) <= APART) && group.iter().any(mate)
        };
        match groups.iter().position(belongs) {
            Some(at) => groups[at].push(hole),
            None => groups.push(vec![hole]),
        }
    }
    groups
}

/// A group that is longer than a page, cut at its widest gaps.
fn split<'g, 'a>(group: &'g [&'a Hole]) -> Vec<&'g [&'a Hole]> {
    let x = |at: usize| group[at].at.x.to_mm();
    let last = group.len() - 1;
    // The largest hole of a clearance for M12 is 14 mm wide.
    if x(last) - x(0) + ABOVE + ROW + BELOW + 14.0 <= MOST.0 {
        return vec![group];
    }
    let widest = (1..=last).max_by(|a, b| (x(*a) - x(a - 1)).total_cmp(&(x(*b) - x(b - 1))));
    let (first, second) = group.split_at(widest.unwrap_or(1).max(1));
    [split(first), split(second)].concat()
}

/// Same holes at the same places, so that one paper serves both.
fn alike(a: &Wrap, b: &Wrap) -> bool {
    const NEAR: f64 = 0.05;
    let near = |p: (f64, f64), q: (f64, f64)| (p.0 - q.0).abs() < NEAR && (p.1 - q.1).abs() < NEAR;
    let mut rest: Vec<_> = b.holes.iter().collect();
    a.holes.len() == rest.len()
        && (a.length - b.length).abs() < NEAR
        && a.holes.iter().all(|(hole, at)| {
            let found = rest.iter().position(|(other, there)| {
                near(*at, *there) && other.diameter.is_near(hole.diameter, Length::SLACK)
            });
            found.map(|found| rest.swap_remove(found)).is_some()
        })
}
