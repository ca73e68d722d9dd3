//! Blocks that run on through columns of one width.

use super::{Block, GUTTER, Piece, lay_all};
use crate::page::context::Context;
use crate::page::model::{NodeId, Role};
use crate::page::strip::Strip;

/// Most room under a heading, mm.
const UNDER_HEADING: f64 = 1.2;

/// Blocks in two or three columns side by side, read down each, as even as may be.
#[derive(Debug, Clone)]
pub struct Flow {
    /// Columns, 1 to 3.
    pub columns: usize,
    /// What runs through them.
    pub blocks: Vec<Block>,
}

pub(super) fn lay(flow: &Flow, width: f64, parent: NodeId, context: &Context) -> Vec<Piece> {
    let columns = flow.columns.clamp(1, 3);
    let own = (width - GUTTER * (columns - 1) as f64) / columns as f64;
    let group = context.tags.node(parent, Role::Div);
    let mut pieces = lay_all(&flow.blocks, own, group, context);
    if columns == 1 {
        return pieces;
    }
    let mut out = Vec::new();
    while !pieces.is_empty() {
        // A band is what the columns of one page hold.
        let (ends, height) = share_out(&pieces, columns, context.height);
        let taken = ends.last().copied().unwrap_or(pieces.len()).max(1);
        let rest = pieces.split_off(taken);
        let mut strip = Strip::new();
        let mut band = pieces.into_iter();
        let mut from = 0;
        for (number, end) in ends.into_iter().enumerate() {
            let x = number as f64 * (own + GUTTER);
            column(band.by_ref().take(end - from).collect(), x, &mut strip);
            from = end;
        }
        out.push(Piece { before: 2.0, snap: true, ..Piece::new(strip, height) });
        pieces = rest;
    }
    out
}

/// Ends of the columns, as pieces, and the height of the tallest. All pieces are shared out evenly if
/// columns of `most` mm hold them; otherwise as many as they hold.
fn share_out(pieces: &[Piece], columns: usize, most: f64) -> (Vec<usize>, f64) {
    let full = fill(pieces, columns, most);
    let tallest = |ends: &[usize]| {
        let mut from = 0;
        let mut height: f64 = 0.0;
        for end in ends {
            height = height.max(stacked(&pieces[from..*end]));
            from = *end;
        }
        height
    };
    if full.last().is_some_and(|end| *end < pieces.len()) {
        let height = tallest(&full);
        return (full, height);
    }
    let (mut low, mut high) = (0.0, most);
    let mut best = full;
    for _ in 0..24 {
        let middle = f64::midpoint(low, high);
        let ends = fill(pieces, columns, middle);
        let holds = ends.last() == Some(&pieces.len()) && tallest(&ends) <= middle + 1e-6;
        if holds {
            best = ends;
            high = middle;
        } else {
            low = middle;
        }
    }
    let height = tallest(&best);
    (best, height)
}

/// Ends of columns filled one after the other to a height; each takes one group at least.
fn fill(pieces: &[Piece], columns: usize, most: f64) -> Vec<usize> {
    let mut ends = Vec::new();
    let mut from = 0;
    while ends.len() < columns && from < pieces.len() {
        let mut end = from;
        while end < pieces.len() {
            let together = 1 + pieces[end..].iter().take_while(|p| p.keep).count();
            let next = (end + together).min(pieces.len());
            if end > from && stacked(&pieces[from..next]) > most + 1e-6 {
                break;
            }
            end = next;
        }
        ends.push(end);
        from = end;
    }
    ends
}

/// Height of a column of pieces; a table that runs on has its head again.
fn stacked(pieces: &[Piece]) -> f64 {
    let mut y = pieces.first().and_then(|p| p.head.as_ref()).map_or(0.0, |head| head.1);
    let mut tight = false;
    for (index, piece) in pieces.iter().enumerate() {
        if index > 0 {
            y += if tight { piece.before.min(UNDER_HEADING) } else { piece.before };
        }
        tight = piece.tight;
        y += piece.height;
    }
    y
}

fn column(pieces: Vec<Piece>, x: f64, strip: &mut Strip) {
    let mut y = 0.0;
    let mut tight = false;
    let mut closing = None;
    for (index, piece) in pieces.into_iter().enumerate() {
        if index > 0 {
            y += if tight { piece.before.min(UNDER_HEADING) } else { piece.before };
        } else if let Some(head) = &piece.head {
            strip.add(head.0.clone(), x, 0.0);
            y += head.1;
        }
        tight = piece.tight;
        closing = piece.closing;
        strip.add(piece.strip, x, y);
        y += piece.height;
    }
    if let Some(rule) = closing {
        strip.add((*rule).clone(), x, y);
    }
}
