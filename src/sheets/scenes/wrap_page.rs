//! Strips that fold around tubes, and feet at full size on the roof.

use super::board::Board;
use super::template_page::{FIRST, TOP, cross, identity_line, split};
use crate::page::scene::{Line, Place, Side, Size, Style};
use crate::sheets::Basis;
use crate::sheets::template::tiles::Tile;
use crate::sheets::template::wrap::Wrap;
use crate::units::display;

/// Most of one page: down, and across.
pub const ROOM: (f64, f64) = (194.0, 146.0);
/// Between strips, mm.
pub const GAP: f64 = 5.0;

/// Strips one under the other.
pub fn strips(board: &mut Board, basis: &Basis, wraps: &[Wrap]) {
    let mut top = TOP;
    for wrap in wraps {
        draw(board, basis, wrap, (FIRST, top), None);
        top -= wrap.length + GAP;
    }
}

/// One strip with its upper left corner at a place.
pub fn draw(
    board: &mut Board,
    basis: &Basis,
    wrap: &Wrap,
    (left, top): (f64, f64),
    tile: Option<&Tile>,
) {
    let (around, width) = (wrap.around(), wrap.width());
    let bottom = top - wrap.length;
    board.rectangle((left, bottom), (width, wrap.length), Line::HEAVY);
    let mut x = left;
    let names_at = top - 4.5;
    for (pane, name) in &wrap.panes {
        board.words((x + pane / 2.0, names_at), name.clone(), Place::Centre, Style::CAPTION);
        x += pane;
        board.line(&[(x, top), (x, bottom)], Line::HIDDEN);
    }
    let flap = (left + around + (width - around) / 2.0, f64::midpoint(top, bottom));
    board.words(flap, "flap", Place::Centre, Style::CAPTION.up());
    for (hole, (down, across)) in &wrap.holes {
        let at = (left + across, top - down);
        let radius = hole.diameter.to_mm() / 2.0;
        cross(board, at, radius);
        board.keep_clear(at, radius + 1.6);
        let bold = Style::BOLD.sized(Size::Caption);
        let (over, under) = ((at.0, at.1 + radius + 1.6), (at.0, at.1 - radius - 1.6));
        board.words(over, hole.id.clone(), Place::Beside(Side::Above), bold);
        let size = display::number_short(hole.diameter.to_mm(), 2);
        board.words(under, size, Place::Beside(Side::Below), Style::CAPTION);
    }
    let middle = left + around / 2.0;
    board.words((middle, top - 10.8), edge_words(wrap, around), Place::Centre, Style::CAPTION);
    if tile.is_some() {
        return;
    }
    let bold = Style::BOLD.sized(Size::Caption);
    board.words((middle, bottom + 8.5), wrap.name.clone(), Place::Centre, bold);
    let line = identity_line(basis);
    let own = Style::PLAIN.sized(Size::Identity);
    board.words((left + width / 2.0, bottom + 3.6), line, Place::Centre, own);
}

/// Where the upper edge lies, in words that fit the strip.
fn edge_words(wrap: &Wrap, around: f64) -> String {
    let at: Vec<String> =
        wrap.edges.iter().map(|edge| display::number_short(edge.to_mm(), 1)).collect();
    let words = match wrap.edges.as_slice() {
        _ if wrap.whole => {
            "this edge flush with the zero end, the other with the far end".to_owned()
        }
        [one] if one.is_zero() => "this edge flush with the zero end".to_owned(),
        _ => format!("this edge at {} mm from the zero end", at.join(", ")),
    };
    split(&words.replace(" mm", "\u{a0}mm"), around - 14.0)
}
