//! Hold lines: stop here until someone signs.

use super::{Blank, Piece, blanks, limited};
use crate::page::context::Context;
use crate::page::draw::{frame, polygon};
use crate::page::model::{Ink, NodeId, Pen, Point, Rect, Role};
use crate::page::strip::{Owner, Strip};
use crate::page::text::{Setting, Text, set};

/// A hold line: diamond, words, the condition that must hold, blanks.
#[derive(Debug, Clone)]
pub struct Hold {
    /// "Hold before 41", 14 pt bold.
    pub title: Text,
    /// What must be so before work goes on, 11 pt.
    pub condition: Text,
    /// Values to write down; initials, date and time are added after them.
    pub blanks: Vec<Blank>,
}

pub(super) fn lay(hold: &Hold, width: f64, parent: NodeId, context: &Context) -> Vec<Piece> {
    const PAD: f64 = 3.0;
    let group = context.tags.node(parent, Role::Div);
    let mut strip = Strip::new();
    let inner = width - 2.0 * PAD;
    let indent = 9.5;
    let node = context.tags.node(group, Role::P);
    let title =
        limited(&hold.title, Setting::new(context.large(), inner - indent).bold(), 3, context);
    let mut y = 2.0;
    let centre = Point::new(PAD + 4.0, y + title.setting().line() / 2.0);
    let diamond = [(0.0, -3.2), (3.2, 0.0), (0.0, 3.2), (-3.2, 0.0)]
        .map(|(dx, dy)| Point::new(centre.x + dx, centre.y + dy));
    strip.path(Owner::Layout, polygon(&diamond, None, Some(Ink::Black)));
    let under = title.draw(&mut strip, PAD + indent, y, Owner::Node(node), context);
    let used = indent + title.width() + 4.0;
    let condition =
        set(&hold.condition, Setting::new(context.small(), (inner - used).max(1.0)), context);
    let words = context.tags.node(group, Role::P);
    if title.count() == 1 && condition.count() <= 1 && condition.width() <= inner - used {
        let down = title.setting().baseline() - condition.setting().baseline();
        condition.draw(&mut strip, PAD + used, y + down, Owner::Node(words), context);
        y = under;
    } else {
        let condition =
            limited(&hold.condition, Setting::new(context.small(), inner - indent), 12, context);
        y = condition.draw(&mut strip, PAD + indent, under, Owner::Node(words), context);
    }
    let all: Vec<Blank> = hold.blanks.iter().cloned().chain(Blank::sign_off(context)).collect();
    // A hold with more blanks than a page has room for is a mistake of the caller; six rows fit.
    for row in blanks::rows(&all, inner, context).into_iter().take(10) {
        y += 0.6;
        y += blanks::draw_row(&mut strip, &row, PAD, y, group, context);
    }
    y += 1.4;
    strip.path(Owner::Layout, frame(Rect::new(0.0, 0.0, width, y), Pen::W070));
    vec![Piece { before: 2.0, keep: true, snap: true, opens: true, ..Piece::new(strip, y) }]
}
