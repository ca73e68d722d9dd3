//! The circuit from left to right: panels, entry, isolator, controller, fuse, battery; loads below.
//!
//! Symbols follow IEC 60617 as it is commonly drawn: a rectangle with its line through for a fuse, a
//! gap with a slanted blade for a switch, a long and a short plate for a cell.

use crate::build::{Circuit, PanelConnection, Terminal};
use crate::compute::electrics::{Electrics, Run, area_words};
use crate::page::scene::{At, Fill, Lettering, Line, Place, Scene, Side, Style};
use crate::sheets::Basis;
use crate::units::display;

/// Height of the plus conductor over the minus conductor, mm on paper.
const GAP: f64 = 26.0;
/// Rows under each other, mm on paper.
const ROW: f64 = 46.0;

/// The diagram.
pub fn circuit(basis: &Basis, electrics: &Electrics) -> Scene {
    let mut scene = Scene::small("circuit from panels over controller to battery, left to right");
    scene.lettering = Lettering::Small;
    let joined: Vec<(&Circuit, &Run)> = basis
        .build
        .circuits
        .iter()
        .enumerate()
        .filter_map(|(index, circuit)| {
            let mark = format!("W{}", index + 1);
            electrics.runs.iter().find(|run| run.mark == mark).map(|run| (circuit, run))
        })
        .collect();
    let from_panels = joined.iter().find(|(c, _)| *c.from == Terminal::Panels);
    let charging =
        joined.iter().find(|(c, _)| *c.from == Terminal::Controller && *c.to == Terminal::Battery);
    let mut y = 0.0;
    if from_panels.is_some() || charging.is_some() {
        chain(&mut scene, basis, from_panels.map(|j| j.1), charging.map(|j| j.1));
        y -= ROW + 8.0;
    }
    let on_chain = |run: &Run| {
        [from_panels, charging].iter().flatten().any(|(_, known)| known.mark == run.mark)
    };
    for (circuit, run) in joined.iter().filter(|(_, run)| !on_chain(run)) {
        branch(&mut scene, basis, circuit, run, y);
        y -= ROW;
    }
    scene
}

/// Ends of a run as terminals: plus and minus.
pub fn terminals(basis: &Basis, terminal: &Terminal, incoming: bool) -> [String; 2] {
    match terminal {
        Terminal::Panels => ["P+".into(), "P\u{2212}".into()],
        Terminal::Controller => {
            let mark = basis.build.controller.as_ref().map_or("T", |c| c.mark.value.as_str());
            let numbers = if incoming { ["1", "2"] } else { ["3", "4"] };
            numbers.map(|number| format!("{mark}:{number}"))
        }
        Terminal::Battery => {
            let mark = basis.build.battery.as_ref().map_or("B", |b| b.mark.value.as_str());
            ["+", "\u{2212}"].map(|pole| format!("{mark}:{pole}"))
        }
        Terminal::Load(name) => ["+", "\u{2212}"].map(|pole| format!("{name} {pole}")),
    }
}

fn chain(scene: &mut Scene, basis: &Basis, panels: Option<&Run>, charging: Option<&Run>) {
    let controller = basis.build.controller.as_ref().map_or("T", |c| c.mark.value.as_str());
    if let Some(run) = panels {
        panel_field(scene, basis);
        let ends = terminals(basis, &Terminal::Panels, false);
        let to = terminals(basis, &Terminal::Controller, true);
        for (y, k) in [(GAP, 0), (0.0, 1)] {
            scene.line(&[(20.0, y), (56.0, y)], Line::VISIBLE);
            switch(scene, (56.0, y));
            scene.line(&[(64.0, y), (84.0, y)], Line::VISIBLE);
            terminal(scene, (20.0, y), &ends[k], (k == 0, Side::Right));
            terminal(scene, (84.0, y), &to[k], (k == 0, Side::Left));
        }
        // Both blades move together.
        scene.line(&[(60.0, GAP + 1.7), (60.0, 1.7)], Line::HIDDEN);
        scene.words((60.0, GAP / 2.0), "S1\nisolator", Place::Beside(Side::Right), Style::PLAIN);
        if let Some(entry) = &basis.work.entry {
            for y in [GAP, 0.0] {
                scene.circle((34.0, y), 1.6, Line::THIN);
            }
            scene.line(&[(34.0, GAP - 1.6), (34.0, 1.6)], Line::THIN);
            let words = format!("{} entry", entry.mark);
            scene.words((34.0, GAP / 2.0), words, Place::Beside(Side::Right), Style::PLAIN);
        }
        name_run(scene, run, 38.0, 0.0);
    }
    scene.rectangle((84.0, -6.0), (22.0, GAP + 12.0), Line::VISIBLE);
    // Direct current in, direct current out.
    scene.line(&[(84.0, -6.0), (106.0, GAP + 6.0)], Line::THIN);
    scene.words((90.0, GAP * 0.74), "=", Place::Centre, Style::BOLD);
    scene.words((100.0, GAP * 0.26), "=", Place::Centre, Style::BOLD);
    let words = format!("{controller} controller");
    scene.words((95.0, -6.0), words, Place::Beside(Side::Below), Style::BOLD);
    if let Some(run) = charging {
        let from = terminals(basis, &Terminal::Controller, false);
        let to = terminals(basis, &Terminal::Battery, true);
        scene.line(&[(106.0, GAP), (150.0, GAP), (150.0, GAP / 2.0 + 3.0)], Line::VISIBLE);
        scene.line(&[(106.0, 0.0), (150.0, 0.0), (150.0, GAP / 2.0 - 3.0)], Line::VISIBLE);
        for (y, k) in [(GAP, 0), (0.0, 1)] {
            terminal(scene, (106.0, y), &from[k], (k == 0, Side::Right));
        }
        if let Some(fuse) = &run.fuse {
            draw_fuse(scene, (134.0, GAP), &format!("{}, {}", fuse.mark, amps(fuse.rating.to_a())));
        }
        battery(scene, (150.0, GAP / 2.0), &to);
        let mark = basis.build.battery.as_ref().map_or("B", |b| b.mark.value.as_str());
        let words = format!("{mark} battery");
        scene.words((143.0, GAP / 2.0), words, Place::Beside(Side::Left), Style::BOLD);
        name_run(scene, run, 128.0, 0.0);
    }
}

fn branch(scene: &mut Scene, basis: &Basis, circuit: &Circuit, run: &Run, base: f64) {
    let from = terminals(basis, &circuit.from, false);
    let to = terminals(basis, &circuit.to, true);
    let (top, low) = (base + GAP, base);
    for (y, k) in [(top, 0), (low, 1)] {
        scene.line(&[(22.0, y), (88.0, y)], Line::VISIBLE);
        terminal(scene, (22.0, y), "", (k == 0, Side::Right));
        scene.words((20.0, y), from[k].clone(), Place::Beside(Side::Left), Style::PLAIN);
    }
    if let Some(fuse) = &run.fuse {
        draw_fuse(scene, (38.0, top), &format!("{}, {}", fuse.mark, amps(fuse.rating.to_a())));
    }
    if let Some(fuse) = &run.load_fuse {
        draw_fuse(scene, (78.0, top), &format!("{}, {}", fuse.mark, amps(fuse.rating.to_a())));
    }
    scene.rectangle((88.0, low - 6.0), (24.0, GAP + 12.0), Line::VISIBLE);
    for (y, k) in [(top, 0), (low, 1)] {
        terminal(scene, (88.0, y), "", (k == 0, Side::Left));
        let pole = if k == 0 { "+" } else { "\u{2212}" };
        scene.words((88.0, y), pole, Place::Beside(Side::Right), Style::PLAIN);
        // The terminal's id, as the table has it.
        scene.words((112.0, y), to[k].clone(), Place::Beside(Side::Right), Style::BOLD);
    }
    name_run(scene, run, 64.0, base);
}

fn panel_field(scene: &mut Scene, basis: &Basis) {
    scene.rectangle((0.0, -6.0), (20.0, GAP + 12.0), Line::VISIBLE);
    scene.line(&[(0.0, GAP + 6.0), (10.0, GAP / 2.0 + 6.0), (20.0, GAP + 6.0)], Line::THIN);
    // Light falls in.
    for dx in [0.0, 5.0] {
        scene.arrow((2.0 + dx, GAP + 15.0), (7.0 + dx, GAP + 8.0));
    }
    let marks: Vec<&str> = basis.work.panels().map(|panel| panel.mark.as_str()).collect();
    let words = match marks.as_slice() {
        [] => "panels".to_owned(),
        [one] => (*one).to_owned(),
        [first, .., last] => format!("{first} to {last}"),
    };
    scene.words((10.0, GAP / 2.0 - 2.0), words, Place::Centre, Style::BOLD);
    let way =
        basis.build.controller.as_ref().filter(|_| marks.len() > 1).map(|c| match *c.connection {
            PanelConnection::Parallel => "in parallel",
            PanelConnection::Series => "in series",
        });
    scene.words((10.0, -6.0), way.unwrap_or("panels"), Place::Beside(Side::Below), Style::PLAIN);
}

fn terminal(scene: &mut Scene, at: At, id: &str, (upper, side): (bool, Side)) {
    scene.disc(at, 0.8, Fill::White, Some(Line::VISIBLE));
    if id.is_empty() {
        return;
    }
    // Beside the conductor, towards the middle of the pair.
    let dy = if upper { -3.2 } else { 3.2 };
    let dx = if matches!(side, Side::Right) { 0.3 } else { -0.3 };
    scene.words((at.0 + dx, at.1 + dy), id, Place::Beside(side), Style::PLAIN);
}

fn switch(scene: &mut Scene, at: At) {
    scene.line(&[at, (at.0 + 7.4, at.1 + 3.4)], Line::VISIBLE);
    scene.disc((at.0 + 8.0, at.1), 0.6, Fill::White, Some(Line::VISIBLE));
}

fn draw_fuse(scene: &mut Scene, middle: At, words: &str) {
    scene.rectangle((middle.0 - 5.0, middle.1 - 1.9), (10.0, 3.8), Line::VISIBLE);
    scene.words((middle.0, middle.1 - 1.9), words, Place::Beside(Side::Below), Style::BOLD);
}

fn battery(scene: &mut Scene, middle: At, poles: &[String; 2]) {
    let (x, y) = middle;
    for (dy, half, line) in [
        (3.0, 6.0, Line::VISIBLE),
        (1.0, 3.0, Line::HEAVY),
        (-1.0, 6.0, Line::VISIBLE),
        (-3.0, 3.0, Line::HEAVY),
    ] {
        scene.line(&[(x - half, y + dy), (x + half, y + dy)], line);
    }
    scene.words((x, y + 6.5), poles[0].clone(), Place::Beside(Side::Right), Style::PLAIN);
    scene.words((x, y - 6.5), poles[1].clone(), Place::Beside(Side::Right), Style::PLAIN);
}

/// Number, colour letters and area over the plus and under the minus conductor.
fn name_run(scene: &mut Scene, run: &Run, x: f64, base: f64) {
    let area = run.conductor.as_ref().map_or("no size".to_owned(), |c| area_words(c.area));
    for (y, side, pole, colour) in [
        (base + GAP, Side::Above, "+", run.colours.0),
        (base, Side::Below, "\u{2212}", run.colours.1),
    ] {
        let words = format!("{}{pole} {colour} {area}", run.mark);
        // Clear of what sits on the conductor: a fuse, the entry's ring.
        let lift = if matches!(side, Side::Above) { 1.6 } else { -1.6 };
        scene.words((x, y + lift), words, Place::Beside(side), Style::PLAIN);
    }
}

fn amps(value: f64) -> String {
    format!("{}\u{a0}A", display::number_short(value, 1))
}
