//! Labels one under the other, at full size, with lines to cut and to fold.

use super::board::Board;
use super::identity::{about_long, line as identity_line};
use super::template_page::{FIRST, TOP};
use super::wrap_page::ROOM;
use crate::page::scene::{At, Line, Place, Side, Size, Style};
use crate::sheets::Basis;
use crate::sheets::template::labels::{FLAG, Label, LabelRow};

/// From an edge to words, mm.
const INSIDE: f64 = 2.0;
/// From the upper edge to the middle of the first line, and from line to line, mm.
const LINES: [f64; 4] = [3.6, 8.6, 13.5, 18.4];

/// All rows, from the upper end on.
pub fn labels(board: &mut Board, basis: &Basis, rows: &[LabelRow]) {
    let mut top = TOP;
    for row in rows {
        let mut left = FIRST;
        for label in row {
            left += one(board, basis, label, (left, top), row.len());
        }
        top -= row.first().map_or(0.0, Label::height);
    }
}

/// One label with its upper left corner at a place; gives its width.
fn one(board: &mut Board, basis: &Basis, label: &Label, (left, top): At, beside: usize) -> f64 {
    match label {
        Label::Flag { round, lines } => {
            // A flag at each end of what goes round the conductor.
            let flag = ((ROOM.1 - round) / 2.0).min(52.0);
            let width = 2.0 * flag + round;
            board.rectangle((left, top - FLAG), (width, FLAG), Line::HEAVY);
            for fold in [left + flag, left + flag + round] {
                board.line(&[(fold, top), (fold, top - FLAG)], Line::HIDDEN);
            }
            for at in [left, left + flag + round] {
                words(board, basis, lines, (at, top), flag);
            }
            width
        }
        Label::Plain { lines } => {
            let width = ROOM.1 / beside.max(2) as f64;
            board.rectangle((left, top - FLAG), (width, FLAG), Line::HEAVY);
            words(board, basis, lines, (left, top), width);
            width
        }
        Label::Height { value, words } => {
            let height = label.height();
            board.rectangle((left, top - height), (ROOM.1, height), Line::HEAVY);
            let middle = left + ROOM.1 / 2.0;
            let large = Style::BOLD.sized(Size::Name);
            board.words((middle, top - 9.5), value.clone(), Place::Centre, large);
            board.words((middle, top - 20.0), words.clone(), Place::Centre, Style::CAPTION);
            let own = Style::PLAIN.sized(Size::Identity);
            board.words((middle, top - height + 5.0), identity_line(basis), Place::Centre, own);
            ROOM.1
        }
    }
}

/// Lines of a label, the first bold, and whose it is.
fn words(board: &mut Board, basis: &Basis, lines: &[String; 3], (left, top): At, width: f64) {
    let room = width - 2.0 * INSIDE;
    for (number, (line, down)) in lines.iter().zip(LINES).enumerate() {
        let plain = if number == 0 { Style::BOLD } else { Style::PLAIN };
        let (words, size) = fit(line, room);
        let at = (left + INSIDE - 1.2, top - down);
        board.words(at, words, Place::Beside(Side::Right), plain.sized(size));
    }
    let at = (left + INSIDE - 1.2, top - LINES[3]);
    let own = identity_within(basis, room);
    board.words(at, own, Place::Beside(Side::Right), Style::PLAIN.sized(Size::Identity));
}

/// Number, revision and fingerprint; where they are too long the number gives way, as the fingerprint tells
/// one packet from another.
fn identity_within(basis: &Basis, room: f64) -> String {
    let job = &basis.build.job;
    let rest = format!(" {} {}", job.revision.value, basis.fingerprint());
    let whole = format!("{}{rest}", job.number.value);
    if about_long(&whole) <= room {
        return whole;
    }
    let mut cut = job.number.value.clone();
    while about_long(&format!("{cut}…{rest}")) > room && cut.pop().is_some() {}
    format!("{}…{rest}", cut.trim_end())
}

/// Words in the size that they fit in, cut where even 9 pt are too long.
fn fit(words: &str, room: f64) -> (String, Size) {
    let long = about_long(words);
    if long * 11.0 / 9.0 <= room {
        return (words.to_owned(), Size::Caption);
    }
    if long <= room {
        return (words.to_owned(), Size::Identity);
    }
    let mut cut = words.to_owned();
    while about_long(&cut) + 3.0 > room && cut.pop().is_some() {}
    (format!("{}…", cut.trim_end()), Size::Identity)
}
