//! Diagonals that tell whether a pattern of holes is square.

use super::{holes_of, is_long};
use crate::compute::cut_list::Limits;
use crate::derive::Hole;
use crate::derive::bearing::{self, Bearing};
use crate::geometry::Point2;
use crate::page::block::{Blank, BlankWidth, Block};
use crate::sheets::Basis;
use crate::sheets::words::{bare, mm};
use crate::tables::Tables;
use crate::units::display;

/// Blanks for both diagonals of every face whose holes span an area; of what is bent, of its flat.
pub(super) fn checks(basis: &Basis, index: usize) -> Vec<Block> {
    let part = &basis.work.parts[index];
    let mut blanks = Vec::new();
    for face in 0..part.faces.len() {
        if part.body.fold().is_none() {
            let holes = holes_of(basis, index, Some(face));
            let places: Vec<(&Hole, Point2)> = holes.iter().map(|hole| (*hole, hole.at)).collect();
            blanks.extend(diagonals(&places, is_long(part)));
        }
    }
    told(blanks)
}

/// The same of a flat.
pub(super) fn of_flat(holes: &[(&Hole, Point2)]) -> Vec<Block> {
    told(diagonals(holes, false))
}

/// Holes whose wall bears less than it could, one a face: their strengths are counted with what they have.
pub(super) fn bearing(basis: &Basis, index: usize) -> Option<Block> {
    let part = &basis.work.parts[index];
    let found = bearing::bearings(basis.work, index);
    let several = found.len() > 1;
    let told = |one: &Bearing| {
        let face = if several { format!("{}: ", part.faces[one.face].name) } else { String::new() };
        let from = one.beside.as_ref().map_or_else(|| "an edge".to_owned(), Clone::clone);
        format!(
            "{face}{} is {} from {from}, {} of full bearing; full from {}",
            one.hole,
            mm(one.has, 1),
            display::number(one.share, 2),
            mm(one.full, 1)
        )
    };
    let words: Vec<String> = found.iter().map(told).collect();
    (!words.is_empty()).then(|| Block::Paragraph(format!("{}.", words.join(". ")).into()))
}

fn told(blanks: Vec<Blank>) -> Vec<Block> {
    if blanks.is_empty() { Vec::new() } else { vec![Block::Blanks(blanks)] }
}

fn diagonals(holes: &[(&Hole, Point2)], long: bool) -> Vec<Blank> {
    let Some(corners) = corners(holes, long) else { return Vec::new() };
    let blank = |[a, b]: [&(&Hole, Point2); 2]| {
        let far = a.1.distance(b.1);
        let limits = Limits::general(far, Tables::builtin());
        let words = format!(
            "{} to {}: {} to {}",
            a.0.id,
            b.0.id,
            bare(limits.low, 1),
            bare(limits.high, 1)
        );
        Blank { unit: "mm".into(), ..Blank::of(BlankWidth::Long, words) }
    };
    [[corners[0], corners[3]], [corners[1], corners[2]]].map(blank).into()
}

/// The outermost holes: low low, low high, high low, high high. Of a long part only those of a true
/// rectangle, as along it a diagonal of others tells no more than their distances.
fn corners<'a, 'b>(
    holes: &'a [(&'b Hole, Point2)],
    long: bool,
) -> Option<[&'a (&'b Hole, Point2); 4]> {
    let span = |of: &dyn Fn(&Point2) -> f64| {
        holes
            .iter()
            .map(|(_, at)| of(at))
            .fold((f64::INFINITY, f64::NEG_INFINITY), |s: (f64, f64), v| (s.0.min(v), s.1.max(v)))
    };
    let (x, y) = (span(&|at| at.x.to_mm()), span(&|at| at.y.to_mm()));
    if holes.len() < 4 || x.1 - x.0 < 5.0 || y.1 - y.0 < 5.0 {
        return None;
    }
    // From each corner of the box around all of them the nearest hole, in parts of the box.
    let nearest = |cx: f64, cy: f64| {
        let off = |at: &Point2| {
            let (dx, dy) = (at.x.to_mm() - cx, at.y.to_mm() - cy);
            (dx.abs() / (x.1 - x.0) + dy.abs() / (y.1 - y.0), dx.hypot(dy))
        };
        let hole = holes.iter().min_by(|a, b| off(&a.1).0.total_cmp(&off(&b.1).0))?;
        (!long || off(&hole.1).1 < 0.1).then_some(hole)
    };
    let found = [nearest(x.0, y.0)?, nearest(x.0, y.1)?, nearest(x.1, y.0)?, nearest(x.1, y.1)?];
    let unlike = (1..4).all(|one| (0..one).all(|two| !std::ptr::eq(found[one], found[two])));
    unlike.then_some(found)
}
