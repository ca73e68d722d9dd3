//! Diagonals that tell whether a pattern of holes is square.

use super::holes_of;
use crate::compute::cut_list::Limits;
use crate::derive::Hole;
use crate::page::block::{Blank, BlankWidth, Block};
use crate::sheets::Basis;
use crate::sheets::words::bare;
use crate::tables::Tables;

/// Blanks for both diagonals of every face whose holes span a rectangle.
pub(super) fn checks(basis: &Basis, index: usize) -> Vec<Block> {
    let part = &basis.work.parts[index];
    let mut blanks = Vec::new();
    for face in 0..part.faces.len() {
        let holes = holes_of(basis, index, Some(face));
        let Some(corners) = corners(&holes) else { continue };
        for [a, b] in [[corners[0], corners[3]], [corners[1], corners[2]]] {
            let far = a.at.distance(b.at);
            let limits = Limits::general(far, Tables::builtin());
            let words = format!(
                "{} to {}: {} to {}",
                a.id,
                b.id,
                bare(limits.low, 1),
                bare(limits.high, 1)
            );
            blanks.push(Blank { unit: "mm".into(), ..Blank::of(BlankWidth::Long, words) });
        }
    }
    if blanks.is_empty() { Vec::new() } else { vec![Block::Blanks(blanks)] }
}

/// Holes at the corners of a rectangle: low low, low high, high low, high high; absent where the
/// pattern has none.
fn corners<'a>(holes: &[&'a Hole]) -> Option<[&'a Hole; 4]> {
    let xs = holes.iter().map(|h| h.at.x.to_mm());
    let ys = holes.iter().map(|h| h.at.y.to_mm());
    let span = |values: &mut dyn Iterator<Item = f64>| {
        values.fold((f64::INFINITY, f64::NEG_INFINITY), |s, v| (s.0.min(v), s.1.max(v)))
    };
    let (x, y) = (span(&mut xs.clone()), span(&mut ys.clone()));
    let find = |cx: f64, cy: f64| {
        holes
            .iter()
            .copied()
            .find(|h| (h.at.x.to_mm() - cx).abs() < 0.05 && (h.at.y.to_mm() - cy).abs() < 0.05)
    };
    if x.1 - x.0 < 5.0 || y.1 - y.0 < 5.0 {
        return None;
    }
    Some([find(x.0, y.0)?, find(x.0, y.1)?, find(x.1, y.0)?, find(x.1, y.1)?])
}
