//! The pocket booklet: eight panels on one side of a sheet.

use super::{Block, Heading, Piece, lay_all};
use crate::page::context::Context;
use crate::page::model::NodeId;
use crate::page::text::Text;

/// A sheet in landscape that is folded to eight pages. Text in it is 10 pt, headings 12 pt.
#[derive(Debug, Clone, Default)]
pub struct Booklet {
    /// Panels 1 (front) to 8 (back); missing ones stay empty, more than eight run on after the sheet.
    pub panels: Vec<Panel>,
}

/// A page of the booklet: about 59 mm by 80 mm on A4, 55 mm by 83 mm on Letter.
#[derive(Debug, Clone, Default)]
pub struct Panel {
    /// Its heading; may be empty.
    pub title: Text,
    /// Its content.
    pub blocks: Vec<Block>,
}

impl Panel {
    /// A panel with a heading.
    pub fn new(title: impl Into<Text>, blocks: Vec<Block>) -> Self {
        Self { title: title.into(), blocks }
    }

    /// The panel's pieces in a width.
    pub(crate) fn lay(&self, width: f64, parent: NodeId, context: &Context) -> Vec<Piece> {
        let mut pieces = Vec::new();
        if !self.title.is_empty() {
            let heading = Block::Heading(Heading::new(self.title.clone()));
            pieces.extend(lay_all(&[heading], width, parent, context));
        }
        pieces.extend(lay_all(&self.blocks, width, parent, context));
        pieces
    }
}

/// Panels one under the other, where a booklet stands among other blocks.
pub(super) fn lay_flat(
    booklet: &Booklet,
    width: f64,
    parent: NodeId,
    context: &Context,
) -> Vec<Piece> {
    booklet.panels.iter().flat_map(|p| p.lay(width, parent, context)).collect()
}
