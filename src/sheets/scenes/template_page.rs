//! A page of templates at full size with its check bars.

use super::board::Board;
use super::{identity, label_page, template_cells, wrap_page};
use crate::derive::Hole;
use crate::page::scene::{At, Lettering, Line, Place, Scale, Scene, Side, Size, Style};
use crate::sheets::Basis;
use crate::sheets::template::labels::LabelRow;
use crate::sheets::template::printed::Printed;
use crate::sheets::template::tiles::{OVERLAP, Tile};
use crate::sheets::template::wrap::Wrap;
use crate::sheets::template::{Cell, Outline};
use crate::sheets::words::bare;
use crate::units::{Length, display};

/// Lengths of the check bars, mm.
const LONG: f64 = 200.0;
const SHORT: f64 = 150.0;
/// From the long bar to the first outline, and between outlines, mm.
pub(super) const FIRST: f64 = 14.0;
const BETWEEN: f64 = 12.0;
/// From the long bar to a tile, mm.
const TILE_LEFT: f64 = 8.0;
/// From the corner of the bars up to the upper end of the outlines, mm.
pub(super) const TOP: f64 = 196.6;

/// What one page shows.
pub enum Shown<'a> {
    /// Outlines side by side.
    Whole(&'a [Outline<'a>]),
    /// Outlines in boxes, each with its table.
    Cells(&'a [Cell<'a>]),
    /// A part of one that is larger than the page.
    Tile(&'a Outline<'a>, &'a Tile),
    /// Strips to fold around a tube.
    Wraps(&'a [Wrap<'a>]),
    /// A part of one.
    WrapTile(&'a Wrap<'a>, &'a Tile),
    /// Labels to cut out.
    Labels(&'a [LabelRow]),
}

impl Shown<'_> {
    /// Strips with holes, whose upper edge looks to zero.
    pub fn is_strip(&self) -> bool {
        match self {
            Self::Wraps(wraps) => wraps.iter().any(|wrap| wrap.mitre.is_none()),
            Self::WrapTile(wrap, _) => wrap.mitre.is_none(),
            _ => false,
        }
    }
}

/// The page: zero of the scene is the corner of the bars.
pub fn template_page(basis: &Basis, shown: &Shown, printed: Printed) -> Scene {
    let told = |o: &Outline| format!("{} {}", o.name, o.face).trim().to_owned();
    let piece = |tile: &Tile| {
        let (down, across) = (&tile.down, &tile.across);
        format!(
            ", tile {} of {} from {:.2} mm down and {:.2} mm across",
            tile.number, tile.count, down.start, across.start
        )
    };
    let names = match shown {
        Shown::Whole(outlines) => outlines.iter().map(told).collect::<Vec<_>>().join("; "),
        Shown::Cells(cells) => {
            cells.iter().map(|cell| told(&cell.outline)).collect::<Vec<_>>().join("; ")
        }
        Shown::Tile(outline, tile) => told(outline) + &piece(tile),
        Shown::Wraps(wraps) => wraps.iter().map(|w| w.name.clone()).collect::<Vec<_>>().join("; "),
        Shown::WrapTile(wrap, tile) => wrap.name.clone() + &piece(tile),
        Shown::Labels(_) => "labels for cables and devices".to_owned(),
    };
    let mut scene =
        Scene::at_scale(format!("full size template of {names}, with check bars"), Scale::FULL);
    scene.lettering = Lettering::Large;
    scene.every_line();
    let mut board = Board::new(scene, printed.factors());
    // Strips reach down to the bar, tables beside outlines do at its end.
    let bare_foot = matches!(shown, Shown::Wraps(_) | Shown::Cells(_) | Shown::Labels(_));
    bars(&mut board, if bare_foot { 142.0 } else { 60.0 });
    match shown {
        Shown::Whole(outlines) => whole(&mut board, basis, outlines),
        Shown::Cells(cells) => template_cells::draw_all(&mut board, basis, cells),
        Shown::Labels(rows) => label_page::labels(&mut board, basis, rows),
        Shown::Wraps(wraps) => wrap_page::strips(&mut board, basis, wraps),
        Shown::Tile(outline, tile) => {
            tiled(
                &mut board,
                basis,
                tile,
                (&outline.name, &outline.seen),
                (outline.length, outline.zero_low),
                |board, corner| {
                    draw(board, basis, outline, corner, Some(tile), true);
                },
            );
        }
        Shown::WrapTile(wrap, tile) => {
            tiled(
                &mut board,
                basis,
                tile,
                (&wrap.name, &wrap_page::seen(wrap)),
                (Length::mm(wrap.length), false),
                |board, corner| {
                    wrap_page::draw(board, basis, wrap, corner, Some(tile));
                },
            );
        }
    }
    board.scene
}

/// How outlines stand side by side: from the bar to the first, and between them.
pub fn beside(outlines: &[Outline]) -> Option<(f64, f64)> {
    let sum: f64 = outlines.iter().map(|o| o.width.to_mm()).sum();
    let gaps = outlines.len().saturating_sub(1) as f64;
    let fits = |between: f64, most: f64| sum + between * gaps <= most;
    if outlines.iter().any(|o| o.length.to_mm() > wrap_page::ROOM.0) {
        None
    } else if fits(BETWEEN, wrap_page::ROOM.1) {
        Some((FIRST, BETWEEN))
    } else {
        // As near as their marks allow.
        fits(6.0, 156.5).then_some((TILE_LEFT, 6.0))
    }
}

fn whole(board: &mut Board, basis: &Basis, outlines: &[Outline]) {
    let (first, between) = beside(outlines).unwrap_or((FIRST, BETWEEN));
    let mut left = first;
    for (number, outline) in outlines.iter().enumerate() {
        // Between two there is no room for a word.
        draw(board, basis, outline, (left, TOP), None, number > 0 || first < FIRST);
        left += outline.width.to_mm() + between;
    }
    let room = 168.0 - left;
    let tallest = outlines.iter().map(|o| o.length.to_mm() + below(basis, o)).fold(0.0, f64::max);
    if room >= TABLE {
        let mut y = TOP - 4.0;
        for outline in outlines {
            y = table(board, outline, (left, y), false) - 6.0;
        }
        tile_map(board, (left + 2.0, y - 16.0));
    } else if TOP - tallest > 20.0 {
        let mut x = first;
        for outline in outlines {
            table(board, outline, (x, TOP - tallest - 2.0), false);
            x += outline.width.to_mm().max(TABLE) + between;
        }
        if x < 132.0 && TOP - tallest > 28.0 {
            tile_map(board, (x + 2.0, TOP - tallest - 22.0));
        }
    }
}

/// One tile: its window, the seams with their crosses, the map.
fn tiled(
    board: &mut Board,
    basis: &Basis,
    tile: &Tile,
    (name, seen): (&str, &str),
    (length, zero_low): (Length, bool),
    part: impl FnOnce(&mut Board, At),
) {
    let size = (tile.across.end - tile.across.start, tile.down.end - tile.down.start);
    let corner = (TILE_LEFT - tile.across.start, TOP + tile.down.start);
    let low = (TILE_LEFT, TOP - size.1);
    board.rectangle(low, size, Line::HIDDEN);
    board.window(Some((low, (TILE_LEFT + size.0, TOP))));
    // Crosses first: nothing else may hide them.
    for mark in &tile.crosses {
        let at = (corner.0 + mark.at.1, corner.1 - mark.at.0);
        let arm = OVERLAP / 2.0;
        board.line(&[(at.0 - arm, at.1), (at.0 + arm, at.1)], Line::THIN);
        board.line(&[(at.0, at.1 - arm), (at.0, at.1 + arm)], Line::THIN);
        // The name stands in one quarter of the cross, off its arms.
        let bold = Style::BOLD.sized(Size::Caption);
        let quarters =
            [(Side::Right, 1.0), (Side::Left, 1.0), (Side::Right, -1.0), (Side::Left, -1.0)];
        quarters.iter().any(|(side, up)| {
            let beside = (at.0, at.1 + up * 2.45);
            board.words_only(beside, &mark.name, Place::Beside(*side), bold)
        });
        board.keep_clear(at, arm);
    }
    for seam in &tile.seams_across {
        let x = corner.0 + seam;
        board.keep_off((x, low.1), (x, TOP));
    }
    for seam in &tile.seams_down {
        let y = corner.1 - seam;
        board.keep_off((low.0, y), (low.0 + size.0, y));
    }
    part(board, corner);
    for seam in &tile.seams_across {
        let x = corner.0 + seam;
        board.line(&[(x, low.1), (x, TOP)], Line::CENTRE);
        let words = format!("Y {} from datum line", display::number_short(*seam, 1));
        let middle = (x, low.1 + size.1 * 0.4);
        let up = Style::CAPTION.up();
        let _ = board.words_only(middle, &words, Place::Beside(Side::Left), up)
            || board.words_only(middle, &words, Place::Beside(Side::Right), up);
    }
    for seam in &tile.seams_down {
        let y = corner.1 - seam;
        board.line(&[(low.0, y), (low.0 + size.0, y)], Line::CENTRE);
        let x = if zero_low { length.to_mm() - seam } else { *seam };
        let words = format!("X {} from zero", display::number_short(x, 1));
        let middle = (low.0 + size.0 * 0.5, y);
        let _ = board.words_only(middle, &words, Place::Beside(Side::Below), Style::CAPTION)
            || board.words_only(middle, &words, Place::Beside(Side::Above), Style::CAPTION);
    }
    let line = identity::line(basis);
    let own = Style::PLAIN.sized(Size::Identity);
    let bold = Style::BOLD.sized(Size::Caption);
    let named = format!("{name}\ntile {} of {}", tile.number, tile.count);
    let inside = [
        // In two lines where the tile is too small for one.
        board.words_anywhere(&line, &[own, own.up()])
            || board.words_anywhere(&identity::halves(basis).join("\n"), &[own, own.up()]),
        board.words_anywhere(
            &named,
            &[bold.sized(Size::Title), bold.sized(Size::Title).up(), bold, bold.up()],
        ),
    ];
    board.window(None);
    // Under the tile what fits over the bar; the rest, and what a tile full of holes has no room for, at
    // its side.
    let mut aside: Vec<(String, Style)> = Vec::new();
    let overlap = format!("Overlap {OVERLAP:.0}\u{a0}mm: crosses of one name meet. Single-sided.");
    let mut under = vec![overlap, seen.to_owned()];
    // What would come under the bar makes the drawing higher than a page has room for.
    if low.1 <= high_of(under.iter().map(|words| words.lines().count()).sum()) + 3.0 {
        aside.extend(under.pop().map(|words| (words, Style::CAPTION)));
    }
    for (placed, (words, style)) in inside.into_iter().zip([(line, own), (named, bold)]) {
        if !placed {
            aside.push((words.replace('\n', ", "), style));
        }
    }
    // Where the datum line is not on the tile it is told how far it is.
    let away = tile.across.start;
    let datum = format!("Datum line {}\u{a0}mm left.", display::number_short(away, 1));
    let nameless = "Ids without room here: by X and Y in the table.".to_owned();
    let more = [(away > 0.0).then_some(datum), board.nameless.then_some(nameless)];
    for words in more.into_iter().flatten() {
        let rows = under.iter().map(|words| words.lines().count()).sum::<usize>();
        if low.1 > high_of(rows + 1) + 3.0 {
            under.insert(1, words);
        } else {
            aside.push((words, Style::CAPTION));
        }
    }
    let rows = under.iter().map(|words| words.lines().count()).sum::<usize>();
    let at = (TILE_LEFT, low.1 - high_of(rows) / 2.0);
    board.words(at, under.join("\n"), Place::Beside(Side::Right), Style::CAPTION);
    let side = low.0 + size.0 + 5.0;
    for (number, (words, style)) in aside.into_iter().enumerate() {
        let at = (side + 6.0 * number as f64, (low.1 + 57.0).clamp(62.0, TOP - 46.0));
        board.words(at, words, Place::Centre, style.up());
    }
    map(board, tile, (TILE_LEFT + 141.0, TOP - 4.0));
}

/// How high lines of captions are with the room over and under them, mm.
fn high_of(rows: usize) -> f64 {
    2.0 * 1.0 + 2.8 + 4.85 * rows.saturating_sub(1) as f64
}

/// Where the tile lies among the others.
fn map(board: &mut Board, tile: &Tile, (left, top): At) {
    let (rows, columns) = tile.grid;
    let cell = (12.0 / columns as f64).min(4.0);
    let tall = (cell * 1.35).min(60.0 / rows as f64);
    for row in 0..rows {
        for column in 0..columns {
            let at = (left + cell * column as f64, top - tall * (row + 1) as f64);
            board.rectangle(at, (cell, tall), Line::VISIBLE);
            if row * columns + column + 1 == tile.number {
                let (x, y) = (at.0 + cell, at.1 + tall);
                board.black(&[at, (x, at.1), (x, y), (at.0, y)]);
            }
        }
    }
    let words = format!("tile {}\nof {}", tile.number, tile.count);
    let under = (left - 0.6, top - tall * rows as f64 - 6.5);
    board.words(under, words, Place::Beside(Side::Right), Style::CAPTION);
}

/// Bars of 200 mm and 150 mm at right angles: 250 mm from P to Q proves the square too.
/// `name` is where the name of the short one stands.
fn bars(board: &mut Board, name: f64) {
    board.line(&[(0.0, LONG), (0.0, 0.0), (SHORT, 0.0)], Line::THIN);
    for step in 0..=20 {
        let at = f64::from(step) * 10.0;
        let end = step == 0 || step == 20;
        board.line(&[(0.0, at), (if end { -4.0 } else { -2.5 }, at)], Line::THIN);
    }
    for step in 0..=15 {
        let at = f64::from(step) * 10.0;
        let end = step == 0 || step == 15;
        board.line(&[(at, 0.0), (at, if end { -4.0 } else { -2.5 })], Line::THIN);
    }
    // Millimetres at both ends, to see a shrunk print by eye.
    for step in 1..10 {
        let fine = f64::from(step);
        for at in [fine, LONG - fine] {
            board.line(&[(0.0, at), (-1.5, at)], Line::THIN);
        }
        for at in [fine, SHORT - fine] {
            board.line(&[(at, 0.0), (at, -1.5)], Line::THIN);
        }
    }
    board.words((0.0, LONG - 6.5), "P", Place::Beside(Side::Right), Style::BOLD);
    board.words((SHORT, -2.0), "Q", Place::Beside(Side::Right), Style::BOLD);
    board.words((0.0, 60.0), "200\u{a0}mm", Place::Beside(Side::Right), Style::CAPTION.up());
    board.words((name, 0.0), "150\u{a0}mm", Place::Beside(Side::Above), Style::CAPTION);
}

/// One outline with its upper left corner at a place; `inside` where at its left there is no room for a
/// word.
pub(super) fn draw(
    board: &mut Board,
    basis: &Basis,
    outline: &Outline,
    (left, top): At,
    tile: Option<&Tile>,
    inside: bool,
) {
    let (length, width) = (outline.length.to_mm(), outline.width.to_mm());
    let bottom = top - length;
    let at = |down: Length, across: Length| (left + across.to_mm(), top - down.to_mm());
    board.rectangle((left, bottom), (width, length), Line::HEAVY);
    // The datum line runs on over both ends.
    board.line(&[(left, top + 2.0), (left, top)], Line::CENTRE);
    // Words under a narrow one are wider than it is.
    if width > 60.0 {
        board.line(&[(left, bottom), (left, bottom - 6.0)], Line::CENTRE);
    }
    let zero = (left, if outline.zero_low { bottom } else { top });
    board.datum(zero, "");
    // A tile stands too near the bar for a word at its left; over the mark it would take height.
    let word = if outline.on_roof.is_empty() { "zero" } else { "corner" };
    if inside {
        let inwards = if outline.zero_low { 4.0 } else { -4.0 };
        let at = (zero.0 + 2.0, zero.1 + inwards);
        board.words(at, word, Place::Beside(Side::Right), Style::CAPTION);
    } else {
        board.words((zero.0 - 2.0, zero.1), word, Place::Beside(Side::Left), Style::CAPTION);
    }
    holes(board, outline, at);
    if !outline.on_roof.is_empty() {
        // What X and Y are measured to, drawn on over the corner.
        board.line(&[(left - 6.0, top), (left, top)], Line::CENTRE);
        board.line(&[(left + width, top), (left + width + 3.0, top)], Line::CENTRE);
        let words = if width < 60.0 { "X" } else { "front edge: X" };
        let at = (left + width / 2.0, top - 1.0);
        board.words(at, words, Place::Beside(Side::Below), Style::CAPTION);
    }
    for ((across, from, to), name) in &outline.lines {
        let (across, from, to) = (*across, *from, *to);
        let (a, b) = (at(from, across), at(to, across));
        board.line(&[a, b], Line::ADJACENT);
        let middle = (a.0, f64::midpoint(a.1, b.1));
        let middle = (middle.0 - 0.8, middle.1);
        board.words(middle, *name, Place::Beside(Side::Left), Style::CAPTION.up());
    }
    if length > 60.0 {
        // In a tile, the middle of what it shows.
        let middle = tile.map_or(bottom + length / 2.0, |tile| {
            top - f64::midpoint(tile.down.start, tile.down.end)
        });
        board.words(
            (left, middle),
            outline.datum.clone(),
            Place::Beside(Side::Right),
            Style::CAPTION.up(),
        );
    }
    centre_marks(board, (left, bottom), (width, length));
    if tile.is_some() {
        return;
    }
    identity::draw(board, basis, outline, (left, bottom));
    board.words(
        (left + width / 2.0, bottom - 1.0),
        split(&caption(outline), width),
        Place::Beside(Side::Below),
        Style::CAPTION,
    );
}

/// The holes, then their ids and sizes: no id stands where it could be taken for another hole's.
fn holes(board: &mut Board, outline: &Outline, at: impl Fn(Length, Length) -> At) {
    let reach = |hole: &Hole| hole.countersink.map_or(hole.diameter, |s| s.diameter).to_mm() / 2.0;
    for (hole, down, across) in &outline.holes {
        let (middle, radius) = (at(*down, *across), hole.diameter.to_mm() / 2.0);
        cross(board, middle, radius);
        board.keep_clear(middle, radius + 1.6);
        if let Some(sink) = hole.countersink {
            let line = if sink.far_side { Line::HIDDEN } else { Line::THIN };
            board.circle(middle, reach(hole), line);
        }
    }
    // Holes of a pair stand as near as 13 mm: their ids must not touch.
    let long = outline.holes.iter().any(|(hole, _, _)| hole.id.chars().count() > 3);
    let style = if long { Style::BOLD.sized(Size::Caption) } else { Style::BOLD };
    for (hole, down, across) in &outline.holes {
        let (middle, reach) = (at(*down, *across), reach(hole) + 1.8);
        if board.shows(middle) {
            let size = display::number_short(hole.diameter.to_mm(), 2);
            board.nameless |= !board.words_around(middle, (reach, true), &hole.id, style);
            board.words_around(middle, (reach, false), &size, Style::CAPTION);
        }
    }
}

/// Words broken once near their middle where they are wider than what they stand under.
pub(super) fn split(words: &str, width: f64) -> String {
    if words.chars().count() as f64 * 2.1 < width + 14.0 {
        return words.to_owned();
    }
    let middle = words.len() / 2;
    let cut = words.match_indices(' ').map(|(at, _)| at).min_by_key(|at| at.abs_diff(middle));
    match cut {
        Some(cut) => format!("{}\n{}", &words[..cut], &words[cut + 1..]),
        None => words.to_owned(),
    }
}

/// Circle and cross with an open middle for the punch.
pub(super) fn cross(board: &mut Board, (x, y): At, radius: f64) {
    board.circle((x, y), radius, Line::VISIBLE);
    let open = (radius * 0.45).min(1.2);
    for (dx, dy) in [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)] {
        let to = radius + 1.6;
        board.line(&[(x + dx * open, y + dy * open), (x + dx * to, y + dy * to)], Line::THIN);
    }
}

/// Arrowheads that meet centre lines scribed on the part.
fn centre_marks(board: &mut Board, (left, bottom): At, (width, length): (f64, f64)) {
    let tip = |board: &mut Board, p: At, (dx, dy): (f64, f64)| {
        let (a, b) = (
            (p.0 + dx * 2.2 - dy * 1.1, p.1 + dy * 2.2 - dx * 1.1),
            (p.0 + dx * 2.2 + dy * 1.1, p.1 + dy * 2.2 + dx * 1.1),
        );
        board.black(&[p, a, b]);
    };
    tip(board, (left + width / 2.0, bottom + length + 0.3), (0.0, 1.0));
    tip(board, (left + width + 0.6, bottom + length / 2.0), (1.0, 0.0));
}

/// From an outline's lower edge to the words of where it is seen from, by their lines, mm.
pub(super) fn caption_height(outline: &Outline) -> f64 {
    let lines = split(&caption(outline), outline.width.to_mm()).lines().count();
    2.0 + 5.0 * lines as f64
}

/// Which face it is, and from where it is seen.
fn caption(outline: &Outline) -> String {
    if outline.face.is_empty() {
        outline.seen.clone()
    } else {
        format!("{}: {}", outline.face, outline.seen)
    }
}

/// How much an outline takes below it, mm: where it is seen from; a tag with its identity where it has
/// no room for that inside.
pub(super) fn below(basis: &Basis, outline: &Outline) -> f64 {
    let tag = if identity::fits(basis, outline) { 0.0 } else { 13.6 };
    caption_height(outline) + tag
}

/// Width of a table, mm, and height of its rows.
pub(super) const TABLE: f64 = 46.0;
const TABLE_ROW: f64 = 4.8;
const TABLE_HEAD: f64 = 5.5;

/// Height of an outline's table, mm; `beside` where its two parts stand side by side.
pub(super) fn table_height(outline: &Outline, beside: bool) -> f64 {
    let part = |rows: usize| if rows > 0 { TABLE_HEAD + TABLE_ROW * rows as f64 } else { 0.0 };
    let (roof, holes) = (part(outline.on_roof.len()), part(outline.holes.len()));
    if beside { roof.max(holes) } else { roof + holes }
}

/// Where it lies on the roof, then ids with their places; returns where it ends.
pub(super) fn table(board: &mut Board, outline: &Outline, (x, top): At, beside: bool) -> f64 {
    let on_roof = outline.on_roof.iter().map(|(m, x, y)| [m.clone(), bare(*x, 1), bare(*y, 1)]);
    let end = table_part(board, "roof", on_roof.collect(), (x, top));
    let holes = outline.holes.iter().map(|(hole, down, across)| {
        let along = if outline.zero_low { outline.length - *down } else { *down };
        [hole.id.clone(), bare(along, 1), bare(*across, 1)]
    });
    let first = if outline.on_roof.is_empty() { "id" } else { "in it" };
    let second = beside && !outline.on_roof.is_empty();
    let at = if second { (x + TABLE + 2.0, top) } else { (x, end) };
    table_part(board, first, holes.collect(), at).min(end)
}

fn table_part(board: &mut Board, first: &str, rows: Vec<[String; 3]>, (x, top): At) -> f64 {
    if rows.is_empty() {
        return top;
    }
    let bold = Style::BOLD.sized(Size::Caption);
    let head = [first.to_owned(), "X, mm".into(), "Y, mm".into()];
    board.line(&[(x + 1.0, top - 2.7), (x + 45.0, top - 2.7)], Line::VISIBLE);
    let mut y = top;
    for (number, cells) in std::iter::once(head).chain(rows).enumerate() {
        let style = if number == 0 { bold } else { Style::CAPTION };
        let [id, along, across] = cells;
        board.words((x, y), id, Place::Beside(Side::Right), bold);
        board.words((x + 28.0, y), along, Place::Beside(Side::Left), style);
        board.words((x + 46.0, y), across, Place::Beside(Side::Left), style);
        y -= if number == 0 { TABLE_HEAD } else { TABLE_ROW };
    }
    y
}

fn tile_map(board: &mut Board, (x, y): At) {
    board.rectangle((x, y), (10.0, 14.0), Line::VISIBLE);
    board.words((x + 5.0, y + 7.0), "1", Place::Centre, Style::CAPTION);
    board.words(
        (x + 10.0, y + 7.0),
        "tile 1 of 1,\nsingle-sided",
        Place::Beside(Side::Right),
        Style::CAPTION,
    );
}
