//! Several outlines on one page, each in a box with its table.

use super::board::Board;
use super::identity::{self, about_long};
use super::template_page::{TABLE, TOP, below, draw, table, table_height};
use crate::page::scene::At;
use crate::sheets::Basis;
use crate::sheets::template::{Cell, Outline};

/// Room for boxes on a page: across from the long bar, and down, mm.
pub const CELLS: (f64, f64) = (164.0, 195.0);
/// From a box's left to its outline, without and with room for the word at its corner, and from its
/// outline to its right, mm.
const LEFT: (f64, f64) = (8.0, 12.0);
const RIGHT: f64 = 4.0;
/// Shorter and narrower ones have no room for a word inside, mm.
const SMALL: f64 = 45.0;
/// Over an outline, mm.
const OVER: f64 = 2.0;
/// Words under an outline are as wide as this, mm.
const WORDS: f64 = 52.0;
/// From the bar to the first box, mm.
const BAR: f64 = 3.0;

/// A box: its size, and where its table stands in it.
struct Plan {
    size: (f64, f64),
    table: At,
    /// To its outline.
    left: f64,
    /// The word at the outline's corner stands in it.
    inside: bool,
}

fn plan(basis: &Basis, outline: &Outline) -> Plan {
    let (length, width) = (outline.length.to_mm(), outline.width.to_mm());
    let under = OVER + length + below(basis, outline);
    let rows = table_height(outline, width >= 2.0 * TABLE);
    let inside = length > SMALL && width > SMALL;
    let left = if inside { LEFT.0 } else { LEFT.1 };
    // A tag stands under the middle of its outline.
    let tag = if identity::fits(basis, outline) { 0.0 } else { about_long(&outline.name) * 1.3 };
    let tag = if tag > 0.0 { tag.max(identity::TAG) } else { tag };
    let left = f64::max(left, (tag - width) / 2.0);
    let wide = left + (width + RIGHT).max(f64::midpoint(width, tag));
    if under + rows + 1.0 <= CELLS.1 {
        let size = (wide.max(WORDS).max(TABLE + 6.0), under + rows + 2.5);
        return Plan { size, table: (4.0, under + 3.0), left, inside };
    }
    let size = (wide + TABLE + 2.0, under.max(OVER + rows) + 2.0);
    Plan { size, table: (wide, OVER + 3.0), left, inside }
}

/// How much room an outline takes with its words and its table, mm.
pub fn cell_size(basis: &Basis, outline: &Outline) -> (f64, f64) {
    plan(basis, outline).size
}

/// All boxes of a page.
pub fn draw_all(board: &mut Board, basis: &Basis, cells: &[Cell]) {
    for cell in cells {
        let plan = plan(basis, &cell.outline);
        let (left, top) = (BAR + cell.at.0, TOP + OVER - cell.at.1);
        draw(board, basis, &cell.outline, (left + plan.left, top - OVER), None, plan.inside);
        let at = (left + plan.table.0, top - plan.table.1);
        table(board, &cell.outline, at, cell.outline.width.to_mm() >= 2.0 * TABLE);
    }
}
