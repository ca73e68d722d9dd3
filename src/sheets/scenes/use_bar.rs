//! Use of capacity as a bar from 0 to 1.

use crate::page::scene::{Fill, Line, Scene};
use crate::units::display;

/// Length of a full bar and its height, mm on paper.
const FULL: f64 = 30.0;
const HIGH: f64 = 3.2;
/// From here a use is a caution.
const CAUTION: f64 = 0.8;

/// A bar for one use, with marks at 0.8 and 1; hatched from 0.8. It ends at 1.2 whatever the use.
pub fn use_bar(name: &str, share: f64) -> Scene {
    let mut scene = Scene::small(format!("{name} uses {} of 1", display::capacity_used(share)));
    // Lines nearer than 0.7 mm are one: a mark that the bar all but reaches is its end.
    let long = (share * FULL).clamp(0.7, FULL * 1.2);
    let apart = |mark: f64| (long - mark * FULL).abs() >= 0.7;
    let fill = if share >= CAUTION { Fill::HATCH } else { Fill::Tint(10) };
    scene.filled_rectangle((0.0, 0.0), (long, HIGH), fill, Some(Line::VISIBLE));
    scene.line(&[(0.0, -0.6), (0.0, HIGH + 0.6)], Line::VISIBLE);
    for (mark, line) in [(CAUTION, Line::THIN), (1.0, Line::VISIBLE)] {
        let x = if apart(mark) { mark * FULL } else { long };
        scene.line(&[(x, -0.6), (x, HIGH + 0.6)], line);
    }
    scene
}
