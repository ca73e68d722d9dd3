//! Strips that fold around tubes, and feet at full size on the roof.

use super::board::Board;
use super::identity::{about_long, halves_within};
use super::template_page::{FIRST, TOP, cross};
use crate::page::scene::{Line, Place, Side, Size, Style};
use crate::sheets::Basis;
use crate::sheets::template::mitre::{self, Mitre};
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
    // In a tile words stand in what it shows.
    let (from, to) = tile
        .map_or((0.0, around), |tile| (tile.across.start.min(around), tile.across.end.min(around)));
    let middle = left + f64::midpoint(from, to);
    let mut rows = |first: f64, words: &[String]| {
        for (number, row) in words.iter().enumerate() {
            let y = first - LINE * number as f64;
            board.words((middle, y), row.clone(), Place::Centre, Style::CAPTION);
        }
    };
    if let Some(mitre) = &wrap.mitre {
        // A tile has them under it, whole.
        let words = match tile {
            Some(_) => Vec::new(),
            None => rows_of(&mitre::words(&mitre.users, mitre.body, wrap.length), around),
        };
        rows(top - mitre.deep - mitre::FIRST_ROW - LINE, &words);
        draw_mitre(board, wrap, mitre, (left, top), words.len());
    } else {
        let words = rows_of(&[edge_words(wrap)], to - from);
        rows(top - EDGE, &words);
        board.rectangle((left, bottom), (width, wrap.length), Line::HEAVY);
        names(board, wrap, (left, top - EDGE - LINE * words.len() as f64));
        let start = top - EDGE - LINE * (words.len() as f64 - 0.45);
        let mut x = left;
        for (pane, _) in &wrap.panes {
            x += pane;
            board.line(&[(x, top), (x, top - TICK)], Line::THIN);
            board.line(&[(x, start), (x, bottom)], Line::HIDDEN);
        }
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
    let deep = wrap.mitre.as_ref().map_or(0.0, |mitre| mitre.deep + mitre::FLAP_DOWN);
    let (flap, centre) = (left + around, f64::midpoint(top - deep, bottom));
    if tile.is_some() {
        board.words((flap + wrap::FLAP / 2.0, centre), "flap", Place::Centre, Style::CAPTION.up());
        return;
    }
    let bold = Style::BOLD.sized(Size::Caption).up();
    board.words((flap + 4.0, centre), flap_words(&wrap.name), Place::Centre, bold);
    let own = Style::PLAIN.sized(Size::Identity).up();
    for (number, line) in halves_within(basis, wrap.length - deep - 4.0).into_iter().enumerate() {
        let x = flap + 9.2 + 4.2 * number as f64;
        board.words((x, centre), line, Place::Centre, own);
    }
}

/// The saw line, which is the upper edge, folds under it, and where the long side is.
fn draw_mitre(board: &mut Board, wrap: &Wrap, mitre: &Mitre, (left, top): (f64, f64), rows: usize) {
    let (around, width, bottom) = (wrap.around(), wrap.width(), top - wrap.length);
    let mut edge = vec![(left, bottom)];
    edge.extend(mitre.line.iter().map(|(s, down)| (left + s, top - down)));
    let flap = top - mitre.deep - mitre::FLAP_DOWN;
    edge.extend([
        (left + around, flap),
        (left + width, flap),
        (left + width, bottom),
        (left, bottom),
    ]);
    board.line(&edge, Line::HEAVY);
    // What is cut off with the corners bears no words.
    for pair in mitre.line.windows(2) {
        let deep = pair[0].1.max(pair[1].1) + 1.0;
        board.keep_area((left + pair[0].0, top - deep), (left + pair[1].0, top + 1.0));
    }
    board.keep_area((left + around, flap - 1.0), (left + width, top + 1.0));
    let names_at = top - mitre.deep - mitre::FIRST_ROW;
    names(board, wrap, (left, names_at));
    let last = names_at - LINE * (rows as f64 + 0.4);
    let mut fold = |x: f64, down: f64, line: Line| {
        board.line(&[(left + x, top - down), (left + x, names_at - LINE * 0.5)], line);
        board.line(&[(left + x, bottom), (left + x, last.min(bottom + TICK))], Line::THIN);
    };
    let mut x = 0.0;
    for (pane, _) in &wrap.panes {
        x += pane;
        // The saw line at the fold.
        let at = mitre.line.iter().min_by(|a, b| (a.0 - x).abs().total_cmp(&(b.0 - x).abs()));
        fold(x, at.map_or(mitre.deep, |at| at.1), Line::HIDDEN);
    }
    if wrap.panes.len() == 1 {
        board.line(
            &[(left + mitre.long, top), (left + mitre.long, names_at + LINE * 0.5)],
            Line::CENTRE,
        );
    }
}

/// Names of the faces, each over the middle of its own.
fn names(board: &mut Board, wrap: &Wrap, (left, y): (f64, f64)) {
    let mut x = left;
    for (pane, name) in &wrap.panes {
        board.words((x + pane / 2.0, y), name.clone(), Place::Centre, Style::CAPTION);
        x += pane;
    }
}

/// From a strip's upper edge to the middle of its first row of words, mm.
const EDGE: f64 = 3.8;
/// Between lines of words on a strip, mm.
const LINE: f64 = mitre::ROW;
/// Of a fold, at the edge over the words, mm.
const TICK: f64 = 1.4;
/// Captions beside the identity line, of which `about_long` tells.
const CAPTION: f64 = 11.0 / 9.0;

/// How a strip lies on its tube, for what is under a tile.
pub fn seen(wrap: &Wrap) -> String {
    let folds = "Printed side out; dashed lines fold on the edges of the tube.";
    let Some(mitre) = &wrap.mitre else {
        return format!("{folds}\nDatum: zero end, at the upper edge of tile 1.");
    };
    let folds = if wrap.panes.len() == 1 { "Printed side out." } else { folds };
    let words = [mitre::words(&mitre.users, mitre.body, wrap.length).join("; ")];
    format!("{folds}\n{}", rows_of(&words, 150.0).join("\n"))
}

/// What stands on the flap.
fn flap_words(name: &str) -> String {
    format!("{name}, flap")
}

/// About how long that is, mm: bold is a little wider.
pub fn flap_long(name: &str) -> f64 {
    about_long(&flap_words(name)) * CAPTION * 1.06
}

/// Sentences broken so that they fit a width, mm.
pub fn rows_of(sentences: &[String], width: f64) -> Vec<String> {
    let mut rows: Vec<String> = Vec::new();
    for sentence in sentences {
        let mut row = String::new();
        for word in sentence.split(' ') {
            let longer = if row.is_empty() { word.to_owned() } else { format!("{row} {word}") };
            if !row.is_empty() && about_long(&longer) * CAPTION + 4.0 > width {
                rows.push(std::mem::replace(&mut row, word.to_owned()));
            } else {
                row = longer;
            }
        }
        rows.push(row);
    }
    rows
}

/// Where the upper edge lies, in words.
fn edge_words(wrap: &Wrap) -> String {
    let at: Vec<String> =
        wrap.edges.iter().map(|edge| display::number_short(edge.to_mm(), 1)).collect();
    match wrap.edges.as_slice() {
        _ if wrap.whole => "upper edge flush with the zero end, lower edge with the far end".into(),
        [one] if one.is_zero() => "upper edge flush with the zero end".into(),
        _ => format!("upper edge at {}\u{a0}mm from zero", at.join(", ")),
    }
}

/// How far the words over a strip's holes reach into its first hole and the hole's id, mm.
pub fn words_over_holes(wrap: &Wrap) -> f64 {
    let rows = rows_of(&[edge_words(wrap)], wrap.around()).len();
    let words = EDGE + LINE * rows as f64 + 2.4;
    // Its id stands over it.
    wrap.holes
        .iter()
        .map(|(hole, at)| words - (at.0 - hole.diameter.to_mm() / 2.0 - 7.0))
        .fold(0.0, f64::max)
}
