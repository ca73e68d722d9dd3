//! Headline numbers, three in a row.

use super::{Piece, limited};
use crate::page::context::{Context, ProblemKind};
use crate::page::model::{NodeId, Role};
use crate::page::strip::{Owner, Strip};
use crate::page::text::{Setting, Text, set};

/// A headline number with a line that says what it is.
#[derive(Debug, Clone)]
pub struct KeyFigure {
    /// The number with its unit, 28 pt bold.
    pub value: Text,
    /// What it is, 11 pt.
    pub line: Text,
}

impl KeyFigure {
    /// A value and its line.
    pub fn new(value: impl Into<Text>, line: impl Into<Text>) -> Self {
        Self { value: value.into(), line: line.into() }
    }
}

/// Between numbers in a row, mm: less than the grid's, for the sake of long ones.
const GAP: f64 = 3.0;

pub(super) fn lay(
    figures: &[KeyFigure],
    width: f64,
    parent: NodeId,
    context: &Context,
) -> Vec<Piece> {
    if figures.is_empty() {
        return Vec::new();
    }
    let across = ((width + GAP) / (48.0 + GAP)).floor().clamp(1.0, 3.0) as usize;
    let columns = widths(figures, across, width, context);
    let list = context.tags.node(parent, Role::L);
    let mut pieces = Vec::new();
    for (index, row) in figures.chunks(across).enumerate() {
        let mut strip = Strip::new();
        let mut height: f64 = 0.0;
        for (i, figure) in row.iter().enumerate() {
            let x = columns[..i].iter().map(|w| w + GAP).sum();
            let column = columns[i];
            let item = context.tags.node(list, Role::Li);
            let label = context.tags.node(item, Role::Lbl);
            let body = context.tags.node(item, Role::LBody);
            // A value too long for one line at 28 pt is set at 18 pt.
            let large = |size, leading| {
                set(&figure.value, Setting::new(size, column).bold().leading(leading), context)
            };
            let mut value = large(context.headline(), 1.1);
            if value.count() > 1 {
                value = large(18.0, 1.25);
            }
            if value.count() > 3 {
                context.problem(ProblemKind::TooLong, figure.value.plain());
                value = value.cut(3, context);
            }
            let y = value.draw(&mut strip, x, 0.0, Owner::Node(label), context);
            let line = limited(&figure.line, Setting::new(context.small(), column), 6, context);
            height = height.max(line.draw(&mut strip, x, y, Owner::Node(body), context));
        }
        pieces.push(Piece { before: 2.0, snap: index == 0, ..Piece::new(strip, height) });
    }
    pieces
}

/// Widths of the columns: as their content asks if all of it fits on one line, else alike.
fn widths(figures: &[KeyFigure], across: usize, width: f64, context: &Context) -> Vec<f64> {
    let room = width - GAP * (across - 1) as f64;
    let wish: Vec<f64> = (0..across)
        .map(|column| {
            let own = figures.iter().skip(column).step_by(across);
            own.map(|f| {
                let value = super::dotted::natural(&f.value, true, context.headline(), context);
                value.max(super::dotted::natural(&f.line, false, context.small(), context))
            })
            .fold(0.0, f64::max)
        })
        .collect();
    let spare = (room - wish.iter().sum::<f64>()) / across as f64;
    if spare >= 0.0 {
        wish.into_iter().map(|w| w + spare).collect()
    } else {
        vec![room / across as f64; across]
    }
}
