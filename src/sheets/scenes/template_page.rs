//! A page of templates at full size with its check bars.

use crate::page::scene::{At, Fill, Lettering, Line, Place, Scale, Scene, Side, Size, Style};
use crate::sheets::template::Outline;
use crate::sheets::words::bare;
use crate::sheets::{Basis, fingerprint};
use crate::units::{Length, display};

/// Lengths of the check bars, mm.
const LONG: f64 = 200.0;
const SHORT: f64 = 150.0;
/// From the long bar to the first outline, and between outlines, mm.
const FIRST: f64 = 14.0;
const BETWEEN: f64 = 12.0;
/// From the corner of the bars up to the upper end of the outlines, mm.
const TOP: f64 = 200.0;

/// The page: zero of the scene is the corner of the bars.
pub fn template_page(basis: &Basis, outlines: &[Outline]) -> Scene {
    let names: Vec<String> =
        outlines.iter().map(|o| format!("{} {}", o.name, o.face).trim().to_owned()).collect();
    let mut scene = Scene::at_scale(
        format!("full size template of {}, with check bars", names.join("; ")),
        Scale::FULL,
    );
    scene.lettering = Lettering::Large;
    bars(&mut scene);
    let mut left = FIRST;
    for outline in outlines {
        draw(&mut scene, basis, outline, left);
        left += outline.width.to_mm() + BETWEEN;
    }
    let room = 168.0 - left;
    let tallest = outlines.iter().map(|o| o.length.to_mm()).fold(0.0, f64::max);
    if room >= 42.0 {
        let mut y = TOP - 4.0;
        for outline in outlines {
            y = table(&mut scene, outline, (left, y)) - 6.0;
        }
        tile_map(&mut scene, (left + 2.0, y - 16.0));
    } else if TOP - tallest > 30.0 {
        let mut x = FIRST;
        for outline in outlines {
            table(&mut scene, outline, (x, TOP - tallest - 14.0));
            x += outline.width.to_mm().max(42.0) + BETWEEN;
        }
        if x < 132.0 {
            tile_map(&mut scene, (x + 2.0, TOP - tallest - 32.0));
        }
    }
    scene
}

/// Bars of 200 mm and 150 mm at right angles: 250 mm from P to Q proves the square too.
fn bars(scene: &mut Scene) {
    scene.line(&[(0.0, LONG), (0.0, 0.0), (SHORT, 0.0)], Line::THIN);
    for step in 0..=20 {
        let at = f64::from(step) * 10.0;
        let end = step == 0 || step == 20;
        scene.line(&[(0.0, at), (if end { -4.0 } else { -2.5 }, at)], Line::THIN);
    }
    for step in 0..=15 {
        let at = f64::from(step) * 10.0;
        let end = step == 0 || step == 15;
        scene.line(&[(at, 0.0), (at, if end { -4.0 } else { -2.5 })], Line::THIN);
    }
    // Millimetres at both ends, to see a shrunk print by eye.
    for step in 1..10 {
        let fine = f64::from(step);
        for at in [fine, LONG - fine] {
            scene.line(&[(0.0, at), (-1.5, at)], Line::THIN);
        }
        for at in [fine, SHORT - fine] {
            scene.line(&[(at, 0.0), (at, -1.5)], Line::THIN);
        }
    }
    scene.words((0.0, LONG), "P", Place::Beside(Side::Above), Style::BOLD);
    scene.words((SHORT, -2.0), "Q", Place::Beside(Side::Right), Style::BOLD);
    scene.words((0.0, 60.0), "200\u{a0}mm", Place::Beside(Side::Right), Style::CAPTION.up());
    scene.words((60.0, 0.0), "150\u{a0}mm", Place::Beside(Side::Above), Style::CAPTION);
}

fn draw(scene: &mut Scene, basis: &Basis, outline: &Outline, left: f64) {
    let (length, width) = (outline.length.to_mm(), outline.width.to_mm());
    let bottom = TOP - length;
    let at = |down: Length, across: Length| (left + across.to_mm(), TOP - down.to_mm());
    scene.rectangle((left, bottom), (width, length), Line::HEAVY);
    // The datum line runs on over both ends.
    scene.line(&[(left, TOP + 6.0), (left, TOP)], Line::CENTRE);
    scene.line(&[(left, bottom), (left, bottom - 6.0)], Line::CENTRE);
    let zero = (left, if outline.zero_low { bottom } else { TOP });
    scene.datum(zero, "zero");
    for (hole, down, across) in &outline.holes {
        let middle = at(*down, *across);
        let radius = hole.diameter.to_mm() / 2.0;
        cross(scene, middle, radius);
        let reach = match hole.countersink {
            Some(sink) => {
                let line = if sink.far_side { Line::HIDDEN } else { Line::THIN };
                scene.circle(middle, sink.diameter.to_mm() / 2.0, line);
                sink.diameter.to_mm() / 2.0
            }
            None => radius,
        };
        let reach = reach + 1.8;
        // Holes of a pair stand as near as 13 mm: their ids must not touch.
        let style = if outline.holes.iter().any(|(h, _, _)| h.id.chars().count() > 3) {
            Style::BOLD.sized(Size::Caption)
        } else {
            Style::BOLD
        };
        scene.words(
            (middle.0, middle.1 + reach),
            hole.id.clone(),
            Place::Beside(Side::Above),
            style,
        );
        let size = display::number_short(hole.diameter.to_mm(), 2);
        scene.words((middle.0, middle.1 - reach), size, Place::Beside(Side::Below), Style::CAPTION);
    }
    if let Some((across, from, to)) = outline.heel {
        let (a, b) = (at(from, across), at(to, across));
        scene.line(&[a, b], Line::ADJACENT);
        let middle = (a.0, f64::midpoint(a.1, b.1));
        let middle = (middle.0 - 0.8, middle.1);
        scene.words(middle, "heel line of angle", Place::Beside(Side::Left), Style::CAPTION.up());
    }
    if length > 60.0 {
        scene.words(
            (left, bottom + length / 2.0),
            outline.datum.clone(),
            Place::Beside(Side::Right),
            Style::CAPTION.up(),
        );
    }
    centre_marks(scene, (left, bottom), (width, length));
    identity(scene, basis, outline, (left, bottom));
    let below = if outline.face.is_empty() {
        outline.seen.clone()
    } else {
        format!("{}: {}", outline.face, outline.seen)
    };
    scene.words(
        (left + width / 2.0, bottom - 1.0),
        split(&below, width),
        Place::Beside(Side::Below),
        Style::CAPTION,
    );
}

/// Words broken once near their middle where they are wider than what they stand under.
fn split(words: &str, width: f64) -> String {
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
fn cross(scene: &mut Scene, (x, y): At, radius: f64) {
    scene.circle((x, y), radius, Line::VISIBLE);
    let open = (radius * 0.45).min(1.2);
    for (dx, dy) in [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)] {
        let to = radius + 1.6;
        scene.line(&[(x + dx * open, y + dy * open), (x + dx * to, y + dy * to)], Line::THIN);
    }
}

/// Arrowheads that meet centre lines scribed on the part.
fn centre_marks(scene: &mut Scene, (left, bottom): At, (width, length): (f64, f64)) {
    let tip = |scene: &mut Scene, p: At, (dx, dy): (f64, f64)| {
        let (a, b) = (
            (p.0 + dx * 3.2 - dy * 1.3, p.1 + dy * 3.2 - dx * 1.3),
            (p.0 + dx * 3.2 + dy * 1.3, p.1 + dy * 3.2 + dx * 1.3),
        );
        scene.area(&[vec![p, a, b]], Some(Fill::Black), None);
    };
    tip(scene, (left + width / 2.0, bottom + length + 0.6), (0.0, 1.0));
    tip(scene, (left + width + 0.6, bottom + length / 2.0), (1.0, 0.0));
}

/// Name and identity inside the outline, as it gets cut out.
fn identity(scene: &mut Scene, basis: &Basis, outline: &Outline, (left, bottom): At) {
    let (length, width) = (outline.length.to_mm(), outline.width.to_mm());
    let job = &basis.build.job;
    let line = format!(
        "{}  {}  rev {}  {}  {}",
        job.number.value,
        job.title.value,
        job.revision.value,
        *job.date,
        fingerprint(basis.bytes)
    );
    // Where no hole is: the widest stretch free of holes across the part.
    let mut edges: Vec<f64> = outline
        .holes
        .iter()
        .flat_map(|(h, _, across)| {
            let reach = h.countersink.map_or(h.diameter, |s| s.diameter).to_mm() / 2.0 + 3.0;
            [across.to_mm() - reach, across.to_mm() + reach]
        })
        .collect();
    if let Some((across, _, _)) = outline.heel {
        edges.extend([across.to_mm() - 6.0, across.to_mm() + 1.0]);
    }
    edges.extend([6.0, width]);
    edges.sort_by(f64::total_cmp);
    let (from, to) = edges
        .windows(2)
        .map(|w| (w[0], w[1]))
        .max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)))
        .unwrap_or((6.0, width));
    let room = to - from;
    let middle = left + f64::midpoint(from, to);
    let centre = bottom + length / 2.0;
    let name_size = if room > 26.0 && length > 120.0 { Size::Title } else { Size::Caption };
    if length > 100.0 && room > 9.0 {
        scene.words(
            (middle - 3.4, centre),
            outline.name.clone(),
            Place::Centre,
            Style::BOLD.up().sized(name_size),
        );
        if length > 120.0 {
            scene.words(
                (middle + 3.4, centre),
                line,
                Place::Centre,
                Style::PLAIN.up().sized(Size::Identity),
            );
        }
    } else if length <= 100.0 {
        scene.words(
            (left + width / 2.0, bottom - 12.0),
            format!("{}\n{line}", outline.name),
            Place::Beside(Side::Below),
            Style::PLAIN.sized(Size::Identity),
        );
    }
}

/// Ids with their places; returns where it ends.
fn table(scene: &mut Scene, outline: &Outline, (x, top): At) -> f64 {
    const LINE: f64 = 5.4;
    let mut y = top;
    let mut row = |cells: [String; 3], style: Style| {
        scene.words(
            (x, y),
            cells[0].clone(),
            Place::Beside(Side::Right),
            Style::BOLD.sized(Size::Caption),
        );
        scene.words((x + 27.0, y), cells[1].clone(), Place::Beside(Side::Left), style);
        scene.words((x + 41.0, y), cells[2].clone(), Place::Beside(Side::Left), style);
        y -= LINE;
    };
    row(["id".into(), "X, mm".into(), "Y".into()], Style::BOLD.sized(Size::Caption));
    for (hole, down, across) in &outline.holes {
        let along = if outline.zero_low { outline.length - *down } else { *down };
        row([hole.id.clone(), bare(along, 1), bare(*across, 1)], Style::CAPTION);
    }
    let end = y;
    scene.line(&[(x + 1.0, top - 2.7), (x + 41.0, top - 2.7)], Line::VISIBLE);
    scene.line(&[(x + 1.0, end + 2.7), (x + 41.0, end + 2.7)], Line::VISIBLE);
    end
}

fn tile_map(scene: &mut Scene, (x, y): At) {
    scene.rectangle((x, y), (10.0, 14.0), Line::VISIBLE);
    scene.words((x + 5.0, y + 7.0), "1", Place::Centre, Style::CAPTION);
    scene.words(
        (x + 10.0, y + 7.0),
        "tile 1 of 1,\nsingle-sided",
        Place::Beside(Side::Right),
        Style::CAPTION,
    );
}
