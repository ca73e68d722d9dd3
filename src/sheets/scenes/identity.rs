//! What every cut-out part bears: its name, and the packet that it belongs to.

use super::board::Board;
use super::template_page::caption_height;
use crate::page::scene::{At, Place, Side, Size, Style};
use crate::sheets::Basis;
use crate::sheets::template::Outline;
use unicode_segmentation::UnicodeSegmentation;

/// Letters of a title on a part that is cut out (page rule 54).
const TITLE: usize = 25;
/// Letters that are left of a title where the part is too short for more.
const SHORTER: [usize; 3] = [16, 10, 5];
/// Between lines of 9 pt, mm.
const LINE: f64 = 4.2;
/// From an outline's edge to words in it, mm.
const EDGE: f64 = 1.2;
/// A tag is at least as wide, mm.
pub(super) const TAG: f64 = 48.0;

fn halves_with(basis: &Basis, letters: usize) -> [String; 2] {
    let job = &basis.build.job;
    let mut title = job.title.value.clone();
    if title.chars().count() > letters {
        let kept: String = title.chars().take(letters - 1).collect();
        title = format!("{}…", kept.trim_end());
    }
    [
        format!("{}  {title}", job.number.value),
        format!("rev {}  {}  {}", job.revision.value, *job.date, basis.fingerprint()),
    ]
}

/// The identity in two halves.
pub fn halves(basis: &Basis) -> [String; 2] {
    halves_with(basis, TITLE)
}

/// The same in one line.
pub(super) fn line(basis: &Basis) -> String {
    halves(basis).join("  ")
}

/// The same in two lines no longer than this, as far as its title gives way.
pub(super) fn halves_within(basis: &Basis, long: f64) -> [String; 2] {
    std::iter::once(TITLE)
        .chain(SHORTER)
        .map(|letters| halves_with(basis, letters))
        .find(|halves| about_long(&halves[0]) <= long)
        .unwrap_or_else(|| halves_with(basis, SHORTER[2]))
}

/// About how long words in 9 pt are, mm.
pub fn about_long(words: &str) -> f64 {
    let wide = |letter: char| match letter {
        ' ' => 0.9,
        'W' | 'M' | '@' | '%' => 3.2,
        'A'..='Z' => 2.2,
        letter if letter.is_ascii() => 1.75,
        _ => 3.2,
    };
    // Marks over and under a letter take no room of their own, nor do the parts of a picture.
    words.graphemes(true).filter_map(|letter| letter.chars().next()).map(wide).sum()
}

/// Name and identity where they have a free place inside an outline.
struct Inside {
    /// Of the name.
    size: Size,
    lines: Vec<String>,
    up: bool,
    /// Their middle, from the lower left corner.
    at: At,
}

fn inside(basis: &Basis, outline: &Outline) -> Option<Inside> {
    let (length, width) = (outline.length.to_mm(), outline.width.to_mm());
    let taken = taken(outline);
    let large = width > 26.0 && length > 120.0;
    let sizes: &[Size] = if large { &[Size::Title, Size::Caption] } else { &[Size::Caption] };
    let mut ways: Vec<Vec<String>> = vec![vec![line(basis)], halves(basis).to_vec()];
    ways.extend(SHORTER.map(|letters| halves_with(basis, letters).to_vec()));
    for lines in ways {
        for size in sizes {
            let (long, tall) = measure(&outline.name, &lines, *size);
            for up in [true, false] {
                let (across, along) = if up { (tall, long) } else { (long, tall) };
                if let Some(at) = free((width, length), (across, along), &taken) {
                    return Some(Inside { size: *size, lines, up, at });
                }
            }
        }
    }
    None
}

/// Whether they have.
pub(super) fn fits(basis: &Basis, outline: &Outline) -> bool {
    inside(basis, outline).is_some()
}

/// Name and identity inside the outline, as it gets cut out, where they cover no hole and no line.
pub(super) fn draw(board: &mut Board, basis: &Basis, outline: &Outline, (left, bottom): At) {
    let width = outline.width.to_mm();
    if let Some(Inside { size, lines, up, at: (x, y) }) = inside(basis, outline) {
        let (_, tall) = measure(&outline.name, &lines, size);
        let style = |style: Style| if up { style.up() } else { style };
        let name = style(Style::BOLD.sized(size));
        let own = style(Style::PLAIN.sized(Size::Identity));
        let lead = if size == Size::Title { 7.6 } else { 5.6 };
        let first = lead / 2.0 - tall / 2.0;
        // Rows go to the right where words read upwards, and down where they are level.
        let at = |row: f64| {
            let (dx, dy) = if up { (row, 0.0) } else { (0.0, -row) };
            (left + x + dx, bottom + y + dy)
        };
        board.words(at(first), outline.name.clone(), Place::Centre, name);
        for (number, words) in lines.iter().enumerate() {
            let row = first + f64::midpoint(lead, LINE) + LINE * number as f64;
            board.words(at(row), words.clone(), Place::Centre, own);
        }
        return;
    }
    // No room inside: it is cut off with the piece as a tag, if it is at all.
    let under = |board: &mut Board, y: f64, words: String, style: Style| {
        board.words((left + width / 2.0, y), words, Place::Beside(Side::Below), style);
    };
    let tag = bottom - caption_height(outline);
    under(board, tag, outline.name.clone(), Style::BOLD.sized(Size::Caption));
    for (number, words) in halves_within(basis, width.max(TAG)).into_iter().enumerate() {
        let y = tag - 4.8 - LINE * number as f64;
        under(board, y, words, Style::PLAIN.sized(Size::Identity));
    }
}

/// How long and how tall name and lines are together, mm.
fn measure(name: &str, lines: &[String], size: Size) -> (f64, f64) {
    let (share, lead) = if size == Size::Title { (2.1, 7.6) } else { (1.3, 5.6) };
    let long = lines.iter().map(|words| about_long(words)).fold(about_long(name) * share, f64::max);
    (long, lead + LINE * lines.len() as f64)
}

/// What stands in an outline already: holes with their words, lines, the words of the datum line;
/// from its lower left corner.
fn taken(outline: &Outline) -> Vec<(At, At)> {
    let length = outline.length.to_mm();
    let small = outline.holes.iter().any(|(hole, _, _)| hole.id.chars().count() > 3);
    let letter = if small { 1.4 } else { 1.8 };
    let holes = outline.holes.iter().map(|(hole, down, across)| {
        let reach = hole.countersink.map_or(hole.diameter, |s| s.diameter).to_mm() / 2.0 + 1.8;
        let (x, y) = (across.to_mm(), length - down.to_mm());
        let half = reach.max(hole.id.chars().count() as f64 * letter);
        ((x - half, y - reach - 5.6), (x + half, y + reach + 6.4))
    });
    let lines = outline
        .lines
        .iter()
        .map(|((across, _, _), _)| ((across.to_mm() - 6.4, 0.0), (across.to_mm() + EDGE, length)));
    let mut taken: Vec<(At, At)> = holes.chain(lines).collect();
    if length > 60.0 {
        taken.push(((0.0, 0.0), (6.4, length)));
    }
    if !outline.on_roof.is_empty() {
        let width = outline.width.to_mm();
        taken.push(((0.0, length - 7.0), (width, length)));
    }
    taken
}

/// The middle of a free place for a box in an outline, the one nearest to the outline's middle.
fn free(
    (width, length): (f64, f64),
    (across, along): (f64, f64),
    taken: &[(At, At)],
) -> Option<At> {
    let room = (width - across - 2.0 * EDGE, length - along - 2.0 * EDGE);
    if room.0 < 0.0 || room.1 < 0.0 {
        return None;
    }
    let steps = |room: f64| {
        let count = (room / 2.0).floor() as i32;
        (-count..=count).map(f64::from)
    };
    let mut best: Option<(f64, At)> = None;
    for dx in steps(room.0) {
        for dy in steps(room.1) {
            let (x, y) = (width / 2.0 + dx, length / 2.0 + dy);
            let far = dx.hypot(dy);
            if best.is_some_and(|(least, _)| far >= least) {
                continue;
            }
            let (low, high) =
                ((x - across / 2.0, y - along / 2.0), (x + across / 2.0, y + along / 2.0));
            let clear = taken
                .iter()
                .all(|(l, h)| low.0 >= h.0 || high.0 <= l.0 || low.1 >= h.1 || high.1 <= l.1);
            if clear {
                best = Some((far, (x, y)));
            }
        }
    }
    best.map(|(_, at)| at)
}
