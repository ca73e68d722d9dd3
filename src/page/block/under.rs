//! A caption over several blocks that is repeated on each page they run on to.

use std::rc::Rc;

use super::{Block, Piece, lay_all, stack};
use crate::page::context::Context;
use crate::page::model::NodeId;

/// Blocks under what is said of all of them, such as the scale of a row of drawings.
#[derive(Debug, Clone)]
pub struct Under {
    /// What is said once a page.
    pub caption: Vec<Block>,
    /// What stands under it.
    pub blocks: Vec<Block>,
}

pub(super) fn lay(under: &Under, width: f64, parent: NodeId, context: &Context) -> Vec<Piece> {
    let (strip, height) = stack(lay_all(&under.caption, width, parent, context));
    let repeated = Rc::new((strip.as_furniture(), height));
    let mut pieces = vec![Piece { before: 2.0, keep: true, ..Piece::new(strip, height) }];
    for mut piece in lay_all(&under.blocks, width, parent, context) {
        piece.head.get_or_insert_with(|| Rc::clone(&repeated));
        pieces.push(piece);
    }
    pieces
}
