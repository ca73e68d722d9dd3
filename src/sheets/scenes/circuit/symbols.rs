//! Symbols of IEC 60617 as they are commonly drawn: a rectangle with its line through for a fuse, a
//! gap with a slanted blade for a switch, a long and a short plate for a cell, a bar with slanted
//! strokes for the body.

use crate::compute::electrics::{Run, Single, area_words};
use crate::page::model::Pen;
use crate::page::scene::{At, Fill, Line, LineKind, Place, Scene, Side, Style};
use crate::units::display;

/// Clear of what sits on a conductor: a fuse, the ring of an entry, mm on paper.
const LIFT: f64 = 2.2;

pub(super) fn terminal(scene: &mut Scene, at: At) {
    scene.disc(at, 0.8, Fill::White, Some(Line::VISIBLE));
}

/// A terminal with its id beside the conductor, towards the middle of the pair.
pub(super) fn named_terminal(scene: &mut Scene, at: At, id: &str, (upper, side): (bool, Side)) {
    terminal(scene, at);
    let dy = if upper { -3.2 } else { 3.2 };
    let dx = if matches!(side, Side::Right) { 0.3 } else { -0.3 };
    scene.words((at.0 + dx, at.1 + dy), id, Place::Beside(side), Style::PLAIN);
}

pub(super) fn switch(scene: &mut Scene, at: At) {
    scene.line(&[at, (at.0 + 7.4, at.1 + 3.4)], Line::VISIBLE);
    scene.disc((at.0 + 8.0, at.1), 0.6, Fill::White, Some(Line::VISIBLE));
}

/// A switch in a level conductor, from its left contact on, with its mark.
pub(super) fn level_switch(scene: &mut Scene, at: At, mark: &str) {
    scene.filled_rectangle((at.0 + 0.2, at.1 - 0.8), (7.8, 1.6), Fill::White, None);
    switch(scene, at);
    scene.words((at.0 + 4.0, at.1 - 0.6), mark, Place::Beside(Side::Below), Style::BOLD);
}

/// A fuse in a level conductor.
pub(super) fn fuse(scene: &mut Scene, middle: At, words: &str) {
    scene.rectangle((middle.0 - 5.0, middle.1 - 1.9), (10.0, 3.8), Line::VISIBLE);
    scene.words((middle.0, middle.1 - 1.9), words, Place::Beside(Side::Below), Style::BOLD);
}

/// A fuse in an upright conductor.
pub(super) fn upright_fuse(scene: &mut Scene, middle: At, words: &str) {
    scene.rectangle((middle.0 - 1.6, middle.1 - 3.2), (3.2, 6.4), Line::VISIBLE);
    scene.words((middle.0 + 1.6, middle.1), words, Place::Beside(Side::Right), Style::BOLD);
}

/// The long plate of a battery's sign: half as wide as the short one.
const PLATE: Line = Line::new(Pen::W035, LineKind::Continuous);

/// Two cells of a battery, plus upwards.
pub(super) fn battery(scene: &mut Scene, (x, y): At) {
    for (dy, half, line) in
        [(3.0, 6.0, PLATE), (1.0, 3.0, Line::HEAVY), (-1.0, 6.0, PLATE), (-3.0, 3.0, Line::HEAVY)]
    {
        scene.line(&[(x - half, y + dy), (x + half, y + dy)], line);
    }
}

/// The vehicle's body under a place.
pub(super) fn body(scene: &mut Scene, (x, y): At) {
    scene.line(&[(x, y), (x, y - 4.0)], Line::VISIBLE);
    scene.line(&[(x - 3.5, y - 4.0), (x + 3.5, y - 4.0)], Line::VISIBLE);
    for dx in [-2.5, 0.5, 3.5] {
        scene.line(&[(x + dx, y - 4.0), (x + dx - 1.8, y - 7.0)], Line::VISIBLE);
    }
}

/// A panel: light falls on it from above.
pub(super) fn panel(scene: &mut Scene, (x, y): At, (wide, high): (f64, f64), mark: &str) {
    let (left, top) = (x - wide / 2.0, y + high / 2.0);
    scene.filled_rectangle((left, top - high), (wide, high), Fill::White, Some(Line::VISIBLE));
    scene.line(&[(left, top), (x, top - 3.6), (left + wide, top)], Line::THIN);
    scene.words((x, y - 1.9), mark, Place::Centre, Style::BOLD);
}

/// Panels of a string that are not drawn one by one.
pub(super) fn more_panels(scene: &mut Scene, (x, y): At, high: f64) {
    let size = (4.0, high - 2.0);
    scene.filled_rectangle((x - 2.0, y - size.1 / 2.0), size, Fill::White, None);
    for dy in [-2.2, 0.0, 2.2] {
        scene.disc((x, y + dy), 0.5, Fill::Black, None);
    }
}

/// Room over a drawing that stands under another one.
pub(super) fn room_above(scene: &mut Scene, (x, y): At) {
    scene.filled_rectangle((x, y), (0.1, 0.1), Fill::White, None);
}

/// Number, colour letters and area of one conductor of a run.
pub(super) fn conductor_words(run: &Run, pole: usize) -> String {
    let area = run.conductor.as_ref().map_or("no size".to_owned(), |c| area_words(c.area));
    let (sign, colour) = if pole == 0 { ("+", run.colours.0) } else { ("\u{2212}", run.colours.1) };
    format!("{}{sign} {colour} {area}", run.mark)
}

/// The same of a conductor alone.
pub(super) fn single_words(single: &Single) -> String {
    format!("{} {} {}", single.mark, single.colour, area_words(single.conductor.area))
}

/// Words over a level conductor, or under it.
pub(super) fn over(scene: &mut Scene, (x, y): At, side: Side, words: impl Into<String>) {
    let lift = if matches!(side, Side::Above) { LIFT } else { -LIFT };
    scene.words((x, y + lift), words, Place::Beside(side), Style::PLAIN);
}

pub(super) fn amps(mark: &str, rating: crate::units::Current) -> String {
    format!("{mark}, {}\u{a0}A", display::number_short(rating.to_a(), 1))
}

/// A name over two lines at most, so many letters each.
pub(super) fn two_lines(name: &str, letters: usize) -> String {
    let short = |text: &str| {
        if text.chars().count() <= letters {
            return text.to_owned();
        }
        let kept: String = text.chars().take(letters.saturating_sub(1)).collect();
        format!("{}…", kept.trim_end())
    };
    if name.chars().count() <= letters {
        return name.to_owned();
    }
    let mut first = String::new();
    let mut words = name.split(' ').peekable();
    while let Some(word) = words.peek() {
        let longer = first.chars().count() + word.chars().count() + usize::from(!first.is_empty());
        if longer > letters {
            break;
        }
        if !first.is_empty() {
            first.push(' ');
        }
        first.push_str(word);
        words.next();
    }
    let rest: Vec<&str> = words.collect();
    if first.is_empty() {
        return short(name);
    }
    format!("{first}\n{}", short(&rest.join(" ")))
}
