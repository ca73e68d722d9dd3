//! Uses of capacity as bars from 0 to 1.

use crate::page::scene::{Fill, Line, Place, Scene, Side, Style};
use crate::units::display;

/// Length of a full bar and pitch of the rows, mm on paper.
const FULL: f64 = 100.0;
const PITCH: f64 = 7.0;
/// From here a use is a caution.
const CAUTION: f64 = 0.8;

/// One bar a row: name and use. Bars that would leave the paper end at 1.3 with their number.
pub fn use_bars(alt: &str, rows: &[(String, f64)]) -> Scene {
    let mut scene = Scene::small(alt);
    scene.lettering = crate::page::scene::Lettering::Small;
    let depth = rows.len() as f64 * PITCH;
    for (index, (name, share)) in rows.iter().enumerate() {
        let y = -(index as f64) * PITCH;
        let long = (share * FULL).clamp(0.3, FULL * 1.3);
        let fill = if *share >= CAUTION { Fill::HATCH } else { Fill::Tint(10) };
        scene.filled_rectangle((0.0, y - 4.0), (long, 4.0), fill, Some(Line::VISIBLE));
        scene.words((0.0, y - 2.0), name.clone(), Place::Beside(Side::Left), Style::BOLD);
        // A number beside a line would be crossed by it.
        let near = |mark: f64| long < mark && long + 9.0 > mark;
        let at = if near(FULL * CAUTION) {
            FULL * CAUTION
        } else if near(FULL) {
            FULL
        } else {
            long
        };
        let words = display::number(*share, 2);
        scene.words((at, y - 2.0), words, Place::Beside(Side::Right), Style::PLAIN);
    }
    for (at, words) in [(0.0, "0"), (CAUTION, "0.8"), (1.0, "1")] {
        let line = if at == CAUTION { Line::HIDDEN } else { Line::VISIBLE };
        scene.line(&[(at * FULL, 2.0), (at * FULL, -depth + 1.0)], line);
        scene.words((at * FULL, 2.0), words, Place::Beside(Side::Above), Style::PLAIN);
    }
    scene
}
