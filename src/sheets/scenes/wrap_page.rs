//! Strips that fold around tubes, and feet at full size on the roof.

use super::board::Board;
use super::identity::halves_within;
use super::template_page::{FIRST, TOP, cross};
use crate::page::scene::{Line, Place, Side, Size, Style};
use crate::sheets::Basis;
use crate::sheets::template::tiles::Tile;
use crate::sheets::template::wrap::{self, Wrap};
use crate::units::display;

/// Most of one page: down, and across.
pub const ROOM: (f64, f64) = (194.0, 146.0);
/// Between strips, mm.
pub const GAP: f64 = 3.0;

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
    let names_at = top - NAMES;
    for ((pane, name), words) in wrap.panes.iter().zip(edge_words(wrap)) {
        let middle = x + pane / 2.0;
        board.words((middle, names_at), name.clone(), Place::Centre, Style::CAPTION);
        for (row, words) in words.into_iter().enumerate() {
            let y = names_at - LINE * (row + 1) as f64;
            board.words((middle, y), words, Place::Centre, Style::CAPTION);
        }
        x += pane;
        board.line(&[(x, top), (x, bottom)], Line::HIDDEN);
    }
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
    // On the flap, which no hole and no fold crosses.
    let (flap, centre) = (left + around, f64::midpoint(top, bottom));
    if tile.is_some() {
        board.words((flap + wrap::FLAP / 2.0, centre), "flap", Place::Centre, Style::CAPTION.up());
        return;
    }
    let bold = Style::BOLD.sized(Size::Caption).up();
    board.words((flap + 4.0, centre), format!("{}, flap", wrap.name), Place::Centre, bold);
    let own = Style::PLAIN.sized(Size::Identity).up();
    for (number, line) in halves_within(basis, wrap.length - 4.0).into_iter().enumerate() {
        let x = flap + 9.2 + 4.2 * number as f64;
        board.words((x, centre), line, Place::Centre, own);
    }
}

/// From a strip's upper edge to the names of the faces, mm.
const NAMES: f64 = 4.2;
/// Between lines of words on a strip, mm.
const LINE: f64 = 4.9;
/// About how wide a letter of 11 pt is, mm.
const LETTER: f64 = 2.25;

/// Where the upper edge lies, in words that run across the panes, row by row, none over a fold: for
/// each pane its rows.
fn edge_words(wrap: &Wrap) -> Vec<Vec<String>> {
    let at: Vec<String> =
        wrap.edges.iter().map(|edge| display::number_short(edge.to_mm(), 1)).collect();
    let words = match wrap.edges.as_slice() {
        _ if wrap.whole => {
            "this edge flush with the zero end, the other with the far end".to_owned()
        }
        [one] if one.is_zero() => "this edge flush with the zero end".to_owned(),
        _ => format!("this edge at {} mm from zero", at.join(", ")),
    };
    let words = words.replace(" mm", "\u{a0}mm");
    let count = wrap.panes.len().max(1);
    let most = |pane: usize| ((wrap.panes[pane % count].0 - 2.0) / LETTER).max(1.0) as usize;
    let mut cells: Vec<String> = vec![String::new()];
    for word in words.split(' ') {
        let at = cells.len() - 1;
        let long = cells[at].chars().count();
        if long > 0 && long + 1 + word.chars().count() > most(at) {
            cells.push(word.to_owned());
        } else {
            if long > 0 {
                cells[at].push(' ');
            }
            cells[at].push_str(word);
        }
    }
    let mut panes = vec![Vec::new(); count];
    for (at, words) in cells.into_iter().enumerate() {
        panes[at % count].push(words);
    }
    panes
}

/// How far the words of a strip's upper edge reach into its first hole of a pane and the hole's id, mm.
pub fn words_over_holes(wrap: &Wrap) -> f64 {
    let rows = edge_words(wrap);
    let mut over: f64 = 0.0;
    let mut left = 0.0;
    for ((pane, _), rows) in wrap.panes.iter().zip(rows) {
        let words = NAMES + LINE * rows.len() as f64 + 2.4;
        for (hole, (down, across)) in &wrap.holes {
            if (left..left + pane).contains(across) {
                // Its id stands over it.
                over = over.max(words - (down - hole.diameter.to_mm() / 2.0 - 7.0));
            }
        }
        left += pane;
    }
    over
}
