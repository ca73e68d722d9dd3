//! The batteries of a bank with their links, each string upright between the bank's plus and minus.

use super::symbols::{battery, room_above, single_words, terminal, upright_fuse};
use crate::compute::electrics::{Bank, Single};
use crate::page::scene::{At, Fill, Lettering, Line, Place, Scene, Side, Style};

/// From string to string and from battery to battery, mm on paper.
const PITCH: (f64, f64) = (38.0, 24.0);
/// Over the first battery, with a fuse and without one.
const HEAD: (f64, f64) = (18.0, 10.0);
/// Strings of one drawing.
const MOST: usize = 4;

/// The drawings, each with its height on paper in mm.
pub(super) fn draw(bank: &Bank) -> Vec<(Scene, f64)> {
    (0..bank.strings.len())
        .step_by(MOST)
        .map(|first| one(bank, first, bank.strings.len().min(first + MOST)))
        .collect()
}

fn one(bank: &Bank, first: usize, last: usize) -> (Scene, f64) {
    let mut scene = Scene::small("circuit: batteries of the bank with their links, plus above");
    scene.lettering = Lettering::Small;
    let head = if bank.fuse.is_some() { HEAD.0 } else { HEAD.1 };
    let rows = bank.strings.first().map_or(1, Vec::len);
    let floor = -head - (rows as f64 - 1.0) * PITCH.1 - HEAD.1;
    for (number, string) in bank.strings.iter().enumerate().take(last).skip(first) {
        let x = 24.0 + (number - first) as f64 * PITCH.0;
        let at = |row: usize| -head - row as f64 * PITCH.1;
        let mut above = 0.0;
        for (row, mark) in string.iter().enumerate() {
            let y = at(row);
            scene.line(&[(x, above), (x, y + 3.0)], Line::VISIBLE);
            battery(&mut scene, (x, y));
            above = y - 3.0;
            scene.words((x - 7.0, y), mark.clone(), Place::Beside(Side::Left), Style::BOLD);
            for (sign, up) in [("+", 5.2), ("\u{2212}", -5.2)] {
                let id = format!("{mark}:{sign}");
                scene.words((x - 0.6, y + up), id, Place::Beside(Side::Left), Style::PLAIN);
            }
            let next = string.get(row + 1);
            if let Some(link) = next
                .and_then(|next| between(bank, &format!("{mark}:\u{2212}"), &format!("{next}:+")))
            {
                let words = short(link);
                let middle = (x + 1.0, y - PITCH.1 / 2.0);
                scene.words(middle, words, Place::Beside(Side::Right), Style::PLAIN);
            }
        }
        scene.line(&[(x, above), (x, floor)], Line::VISIBLE);
        if let (Some(_), Some(mark)) = (&bank.fuse, bank.fuses.get(number)) {
            upright_fuse(&mut scene, (x, -7.0), mark);
        }
        for y in [0.0, floor] {
            terminal(&mut scene, (x, y));
        }
        let Some(next) = bank.strings.get(number + 1) else { continue };
        let heads = (string.first(), next.first());
        let tails = (string.last(), next.last());
        for (y, (a, b), sign, side) in
            [(0.0, heads, "+", Side::Above), (floor, tails, "\u{2212}", Side::Below)]
        {
            let (Some(a), Some(b)) = (a, b) else { continue };
            level(&mut scene, bank, ((x, y), [a, b], sign, side));
        }
    }
    scene.words((21.0, 0.0), "+", Place::Beside(Side::Left), Style::BOLD);
    let end = 24.0 + (last - first - 1) as f64 * PITCH.0;
    scene.words((end + 3.0, floor), "\u{2212}", Place::Beside(Side::Right), Style::BOLD);
    // As wide as the drawings above.
    scene.filled_rectangle((150.0, floor), (0.1, 0.1), Fill::White, None);
    room_above(&mut scene, (24.0, 12.0));
    (scene, 12.0 - floor + 12.0)
}

/// A link from string to string.
fn level(
    scene: &mut Scene,
    bank: &Bank,
    ((x, y), [a, b], sign, side): (At, [&String; 2], &str, Side),
) {
    let Some(link) = between(bank, &format!("{a}:{sign}"), &format!("{b}:{sign}")) else { return };
    scene.line(&[(x + 0.8, y), (x + PITCH.0 - 0.8, y)], Line::VISIBLE);
    let lift = if matches!(side, Side::Above) { 0.6 } else { -0.6 };
    scene.words(
        (x + PITCH.0 / 2.0, y + lift),
        single_words(link),
        Place::Beside(side),
        Style::PLAIN,
    );
}

fn short(link: &Single) -> String {
    let words = single_words(link);
    words.split_once(' ').map_or(words.clone(), |(mark, rest)| format!("{mark}\n{rest}"))
}

fn between<'a>(bank: &'a Bank, from: &str, to: &str) -> Option<&'a Single> {
    bank.links.iter().find(|link| link.ends[0] == from && link.ends[1] == to)
}
