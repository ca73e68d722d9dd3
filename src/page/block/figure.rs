//! Drawings as blocks.

use super::Piece;
use crate::page::block::limited;
use crate::page::context::Context;
use crate::page::model::{NodeId, Role};
use crate::page::scene::{ScaleChoice, Scene, draw_in};
use crate::page::strip::{Owner, Strip};
use crate::page::text::{Setting, Text};

/// A drawing with its caption.
#[derive(Debug, Clone)]
pub struct Figure {
    /// What is drawn; it carries its own words for those who can't see it.
    pub scene: Scene,
    /// Greatest height on paper, mm; the scale is chosen so that the drawing fits.
    pub height: f64,
    /// Words under it, 11 pt; may be empty.
    pub caption: Text,
    /// True to stand at the left edge of its column; otherwise in the middle.
    pub left: bool,
    /// True if it belongs to what follows (the action that it shows) and must be on its page.
    pub keep: bool,
}

impl Figure {
    /// A drawing no higher than `height` mm.
    pub fn new(scene: Scene, height: f64) -> Self {
        Self { scene, height, caption: Text::new(), left: false, keep: false }
    }

    /// With words under it.
    #[must_use]
    pub fn caption(mut self, caption: impl Into<Text>) -> Self {
        self.caption = caption.into();
        self
    }

    /// At the left edge, so that drawings one under the other start alike.
    #[must_use]
    pub fn at_left(mut self) -> Self {
        self.left = true;
        self
    }

    /// On one page with what follows.
    #[must_use]
    pub fn with_next(mut self) -> Self {
        self.keep = true;
        self
    }
}

pub(super) fn lay(figure: &Figure, width: f64, parent: NodeId, context: &Context) -> Vec<Piece> {
    let mut strip = Strip::new();
    let words = context.tags.node(parent, Role::Div);
    let caption = limited(&figure.caption, Setting::new(context.small(), width), 6, context);
    let most = context.height - caption.height() - 1.5;
    let mut tall = if figure.height.is_finite() { figure.height.clamp(5.0, most) } else { most };
    if !matches!(figure.scene.scale, ScaleChoice::Fixed(_)) {
        context.note_figure();
        tall = (tall * context.figure_share.get()).min(context.figure_limit.get());
    }
    let place = (width, tall, figure.left);
    let mut y = draw_in(&figure.scene, place, &mut strip, words, context);
    if caption.count() > 0 {
        let node = context.tags.node(words, Role::P);
        y = caption.draw(&mut strip, 0.0, y + 1.0, Owner::Node(node), context);
    }
    vec![Piece { before: 2.0, keep: figure.keep, snap: true, ..Piece::new(strip, y) }]
}
