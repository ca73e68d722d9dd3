//! Blocks side by side.

use super::{Block, GUTTER, Piece, lay_all, stack};
use crate::page::context::Context;
use crate::page::model::{NodeId, Role};
use crate::page::strip::Strip;

/// A column of blocks on the six-column grid.
#[derive(Debug, Clone)]
pub struct Column {
    /// Grid columns that it is wide, 1 to 6; those of a row add up to 6 or less.
    pub span: usize,
    /// What stands in it, from the top.
    pub blocks: Vec<Block>,
}

impl Column {
    /// A column so many grid columns wide.
    pub fn new(span: usize, blocks: Vec<Block>) -> Self {
        Self { span, blocks }
    }
}

pub(super) fn lay(columns: &[Column], width: f64, parent: NodeId, context: &Context) -> Vec<Piece> {
    let unit = (width - 5.0 * GUTTER) / 6.0;
    let mut rows: Vec<Vec<&Column>> = Vec::new();
    let mut used = 6;
    for column in columns {
        let span = column.span.clamp(1, 6);
        if used + span > 6 {
            rows.push(Vec::new());
            used = 0;
        }
        used += span;
        if let Some(row) = rows.last_mut() {
            row.push(column);
        }
    }
    let mut out = Vec::new();
    for row in rows {
        let mut left = 0.0;
        let mut laid: Vec<(f64, Vec<Piece>)> = Vec::new();
        for column in row {
            let span = column.span.clamp(1, 6) as f64;
            let own = span * unit + (span - 1.0) * GUTTER;
            let group = context.tags.node(parent, Role::Div);
            laid.push((left, lay_all(&column.blocks, own, group, context)));
            left += own + GUTTER;
        }
        let tallest = laid
            .iter()
            .map(|(_, pieces)| {
                // The room above each piece at most; under headings it is less.
                let gaps: f64 = pieces.iter().skip(1).map(|p| p.before).sum();
                pieces.iter().map(|p| p.height).sum::<f64>() + gaps
            })
            .fold(0.0, f64::max);
        if tallest <= context.height {
            let mut strip = Strip::new();
            for (x, pieces) in laid {
                let (column, _) = stack(pieces);
                strip.add(column, x, 0.0);
            }
            out.push(Piece { before: 2.0, snap: true, ..Piece::new(strip, tallest) });
        } else {
            // Too tall to stand side by side on one page: one after the other.
            out.extend(laid.into_iter().flat_map(|(_, pieces)| pieces));
        }
    }
    out
}
