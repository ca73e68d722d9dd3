//! What hangs on a battery or a bus bar: rungs between its plus and its minus, so that no conductor
//! crosses another.

use super::symbols::{
    amps, body, conductor_words, fuse, level_switch, over, room_above, single_words, terminal,
    two_lines,
};
use super::{Joined, terminals};
use crate::build::Terminal;
use crate::compute::electrics::Electrics;
use crate::page::scene::{Fill, Lettering, Line, Place, Scene, Side, Style};
use crate::sheets::Basis;

/// Bars, box between them, and the fuses beside bar and box, mm on paper.
const BARS: (f64, f64) = (17.0, 153.0);
const BOX: (f64, f64) = (65.0, 107.0);
const AT_BAR: f64 = 28.0;
const AT_BOX: f64 = 52.0;
/// From rung to rung.
const RUNG: f64 = 19.0;
/// Rungs of one drawing.
const MOST: usize = 8;
/// Letters of a name on one line of a box, and over a bar.
const LETTERS: (usize, usize) = (16, 16);

/// A rung: a run, drawn where its bar is.
#[derive(Clone, Copy)]
struct Rung<'a> {
    one: Joined<'a>,
    /// The run leads to the bar, and the box is where it comes from.
    feeds: bool,
}

/// The drawings of all that is not on the chain; `battery_drawn` says whether the chain has the
/// battery, with its bond to the body.
pub(super) fn draw(
    basis: &Basis,
    electrics: &Electrics,
    rest: &[Joined<'_>],
    battery_drawn: bool,
) -> Vec<(Scene, f64)> {
    let is_bar = |end: &Terminal| {
        matches!(end, Terminal::Load(_))
            && basis.build.circuits.iter().any(|circuit| *circuit.from == *end)
    };
    // A run between two bars stands at the one that it feeds; all others where they start.
    let mut bars: Vec<(&Terminal, Vec<Rung<'_>>)> = Vec::new();
    for one in rest {
        let feeds = is_bar(&one.circuit.to);
        let bar = if feeds { &*one.circuit.to } else { &*one.circuit.from };
        let rung = Rung { one: *one, feeds };
        match bars.iter_mut().find(|(known, _)| *known == bar) {
            Some((_, rungs)) => rungs.push(rung),
            None => bars.push((bar, vec![rung])),
        }
    }
    let mut bond_open = !battery_drawn;
    let mut drawings = Vec::new();
    for (bar, mut rungs) in bars {
        // What feeds the bar comes first.
        rungs.sort_by_key(|rung| !rung.feeds);
        for part in rungs.chunks(MOST) {
            let mut drawn = ladder(basis, electrics, bar, part, &mut bond_open);
            room_above(&mut drawn.0, (BARS.0, 15.0));
            drawings.push(drawn);
        }
    }
    drawings
}

fn ladder(
    basis: &Basis,
    electrics: &Electrics,
    bar: &Terminal,
    rungs: &[Rung<'_>],
    bond_open: &mut bool,
) -> (Scene, f64) {
    let names = bar_names(basis, bar);
    let mut scene = Scene::small(format!(
        "circuit: what hangs on {}, each run between its plus and its minus",
        names[0].trim_end_matches(['+', ' ', ':'])
    ));
    scene.lettering = Lettering::Small;
    let foot = -(rungs.len() as f64 - 1.0) * RUNG - 5.0;
    for (x, name) in [(BARS.0, &names[0]), (BARS.1, &names[1])] {
        scene.filled_rectangle((x - 0.6, foot), (1.2, 7.0 - foot), Fill::Black, None);
        let words = two_lines(name, LETTERS.1);
        scene.words((x, 7.0), words, Place::Beside(Side::Above), Style::BOLD);
    }
    let mut below = 0.0;
    for (row, rung) in rungs.iter().enumerate() {
        let y = -(row as f64) * RUNG;
        draw_rung(&mut scene, basis, *rung, y);
        let battery = rung.feeds && *rung.one.circuit.from == Terminal::Battery;
        if let Some(bond) = electrics.earth.as_ref().filter(|_| battery && *bond_open) {
            *bond_open = false;
            body(&mut scene, (BOX.1 + 5.0, y));
            let words = single_words(bond);
            let at = (BOX.1 + 10.0, y - 6.0);
            let words = format!("{words}\nbody");
            scene.words(at, words, Place::Beside(Side::Right), Style::PLAIN);
            below = if row + 1 == rungs.len() { 4.0 } else { 0.0 };
        }
    }
    if let Some(bond) = electrics.earth.as_ref().filter(|_| *bar == Terminal::Battery && *bond_open)
    {
        *bond_open = false;
        body(&mut scene, (BARS.1, foot));
        let words = single_words(bond);
        let words = format!("{words}, body");
        scene.words((BARS.1 - 5.0, foot - 5.0), words, Place::Beside(Side::Left), Style::PLAIN);
        below = 9.0;
    }
    (scene, 15.0 - foot + 5.0 + below)
}

/// Plus and minus of what the rungs hang on.
fn bar_names(basis: &Basis, bar: &Terminal) -> [String; 2] {
    let marked = |mark: &str| ["+", "\u{2212}"].map(|pole| format!("{mark}:{pole}"));
    match bar {
        Terminal::Battery => {
            let battery = basis.build.battery.as_ref();
            let marks = battery.map_or_else(Default::default, |b| [b.at_plus(), b.at_minus()]);
            [format!("{}:+", marks[0]), format!("{}:\u{2212}", marks[1])]
        }
        Terminal::Supply => marked("V"),
        Terminal::Panels => ["P+".to_owned(), "P\u{2212}".to_owned()],
        Terminal::Controller => {
            let mark = basis.build.controller.as_ref().map_or("T", |c| c.mark.value.as_str());
            ["3", "4"].map(|number| format!("{mark}:{number}"))
        }
        Terminal::Load(name) => ["+", "\u{2212}"].map(|pole| format!("{name} {pole}")),
    }
}

fn draw_rung(scene: &mut Scene, basis: &Basis, rung: Rung<'_>, y: f64) {
    let Joined { circuit, run } = rung.one;
    scene.line(&[(BARS.0, y), (BOX.0, y)], Line::VISIBLE);
    scene.line(&[(BOX.1, y), (BARS.1, y)], Line::VISIBLE);
    for x in [BARS.0, BARS.1] {
        scene.disc((x, y), 0.9, Fill::Black, None);
    }
    let size = (BOX.1 - BOX.0, 11.0);
    scene.filled_rectangle((BOX.0, y - 5.5), size, Fill::White, Some(Line::VISIBLE));
    let [from, to] = terminals(basis, circuit);
    let (there, ids) = if rung.feeds { (&circuit.from, from) } else { (&circuit.to, to) };
    let (name, ids) = match &**there {
        Terminal::Load(name) => (name.clone(), ["+".to_owned(), "\u{2212}".to_owned()]),
        Terminal::Battery => ("battery".to_owned(), ids),
        Terminal::Controller => ("controller".to_owned(), ids),
        Terminal::Supply => ("vehicle’s battery".to_owned(), ids),
        Terminal::Panels => ("panels".to_owned(), ids),
    };
    let middle = f64::midpoint(BOX.0, BOX.1);
    scene.words((middle, y), two_lines(&name, LETTERS.0), Place::Centre, Style::BOLD);
    for (x, id, side) in [(BOX.0, &ids[0], -1.0), (BOX.1, &ids[1], 1.0)] {
        terminal(scene, (x, y));
        // Longer ids begin at the box, too.
        let out = (id.chars().count() as f64 * 1.05 + 0.9).max(3.2);
        let beside = (x + side * out, y + 0.8);
        scene.words(beside, id.clone(), Place::Beside(Side::Above), Style::PLAIN);
    }
    // The fuse stands by what drives a fault: the bar, or the battery that feeds it.
    let by_box = rung.feeds && *circuit.from != Terminal::Controller;
    if let Some(at_source) = &run.fuse {
        let x = if by_box { AT_BOX } else { AT_BAR };
        fuse(scene, (x, y), &amps(&at_source.mark, at_source.rating));
    }
    if let Some(at_load) = &run.load_fuse {
        fuse(scene, (AT_BOX, y), &amps(&at_load.mark, at_load.rating));
    }
    if let Some(own) = &run.switch {
        // Where no fuse of the run stands.
        let x = if by_box { BARS.0 + 2.0 } else { AT_BOX - 4.0 };
        level_switch(scene, (x, y), &own.mark);
        if own.poles > 1 {
            level_switch(scene, (BOX.1 + 8.0, y), &own.mark);
        }
    }
    let aside = if run.switch.is_some() && by_box { 0.0 } else { -1.5 };
    let plus = f64::midpoint(BARS.0, BOX.0) + aside;
    over(scene, (plus, y), Side::Above, conductor_words(run, 0));
    let minus = f64::midpoint(BOX.1, BARS.1) + 3.5;
    over(scene, (minus, y), Side::Above, conductor_words(run, 1));
}
