//! Inside the vehicle: what is joined to what, and the battery on its floor.

use super::StepBasis;
use crate::build::{Battery, Circuit, RowWay, Terminal};
use crate::page::model::Pen;
use crate::page::scene::{Fill, Line, LineKind, Scene, Side};
use crate::sheets::scenes::clear_of;
use crate::units::{Length, display};
use std::collections::BTreeMap;

fn number(length: Length) -> String {
    display::number_short(length.to_mm(), 1)
}

/// Pitch of the boxes along the chain and across it, in parts of a drawing that is not to scale.
const ALONG: (f64, f64) = (62.0, 26.0);
/// The same where the chain runs down beside a list.
const DOWN: (f64, f64) = (50.0, 110.0);

/// Panels, controller and battery in a chain, loads beside the battery; circuits numbered in the
/// order of joining: battery, then others, panels last. The chain runs to the right, or down where
/// the place is narrow.
pub(super) fn wiring(basis: &StepBasis<'_>, narrow: bool) -> Option<Scene> {
    let build = basis.build;
    if build.circuits.is_empty() {
        return None;
    }
    let name = |terminal: &Terminal| match terminal {
        Terminal::Panels => "panels".to_owned(),
        Terminal::Controller => {
            build.controller.as_ref().map_or("controller".to_owned(), |controller| {
                format!("controller {}", *controller.mark)
            })
        }
        Terminal::Battery => build.battery.as_ref().map_or("battery".to_owned(), |battery| {
            format!("battery {}", battery.marks().join(", "))
        }),
        Terminal::Supply => "vehicle’s battery".to_owned(),
        Terminal::Load(load) => load.clone(),
    };
    // Steps along the chain and away from it.
    let at = |step: f64, away: f64| {
        if narrow { (away * DOWN.1, -step * DOWN.0) } else { (step * ALONG.0, -away * ALONG.1) }
    };
    let mut boxes: Vec<(String, (f64, f64))> = Vec::new();
    let rows = rows_of_loads(&build.circuits);
    let mut place = |terminal: &Terminal| -> (f64, f64) {
        let words = name(terminal);
        if let Some((_, at)) = boxes.iter().find(|(told, _)| *told == words) {
            return *at;
        }
        let here = match terminal {
            Terminal::Panels => at(0.0, 0.0),
            Terminal::Controller => at(1.0, 0.0),
            Terminal::Battery => at(2.0, 0.0),
            Terminal::Supply => at(1.0, -1.0),
            Terminal::Load(load) => {
                let (row, column) = rows.get(load.as_str()).copied().unwrap_or((1.0, 0.0));
                at(2.0 - column, row)
            }
        };
        boxes.push((words, here));
        here
    };
    let rank = |circuit: &&Circuit| match (&*circuit.from, &*circuit.to) {
        (Terminal::Panels, _) | (_, Terminal::Panels) => 3,
        (Terminal::Supply, _) => 2,
        (Terminal::Battery, _) | (_, Terminal::Battery) => 0,
        _ => 1,
    };
    let mut circuits: Vec<&Circuit> = build.circuits.iter().collect();
    circuits.sort_by_key(rank);
    let mut scene = Scene::not_to_scale("what is joined to what, in the order of joining");
    let mut middles = Vec::new();
    for circuit in circuits {
        let (a, b) = (place(&circuit.from), place(&circuit.to));
        let long = (b.0 - a.0).hypot(b.1 - a.1).max(1e-9);
        // Two conductors.
        let (dx, dy) = ((a.1 - b.1) / long * 1.5, (b.0 - a.0) / long * 1.5);
        for side in [-1.0, 1.0] {
            let beside = |p: (f64, f64)| (p.0 + dx * side, p.1 + dy * side);
            let conductor = Line::new(Pen::W035, LineKind::Continuous);
            scene.line(&[beside(a), beside(b)], conductor);
        }
        middles.push((f64::midpoint(a.0, b.0), f64::midpoint(a.1, b.1)));
    }
    for (words, at) in boxes {
        scene.boxed(at, words);
    }
    for (index, middle) in middles.into_iter().enumerate() {
        scene.ringed(middle, (index + 1).to_string());
    }
    scene.view_without_bar("in the order of joining; marks and fuses on the wiring sheet");
    Some(scene)
}

/// Loads side by side in a row of their own for each bus bar that they hang on, at most so many; those
/// that follow stand half a place aside, so that no conductor crosses a box.
const A_ROW: usize = 3;

/// Row and place in it of each load, rows counted from the chain.
fn rows_of_loads(circuits: &[Circuit]) -> BTreeMap<&str, (f64, f64)> {
    let mut depth: BTreeMap<&str, usize> = BTreeMap::new();
    // As many rounds as there are circuits settle every way, and end a circle.
    for _ in circuits {
        for circuit in circuits {
            let from = match &*circuit.from {
                Terminal::Load(load) => depth.get(load.as_str()).copied(),
                _ => Some(0),
            };
            if let (Terminal::Load(load), Some(from)) = (&*circuit.to, from) {
                depth.entry(load).or_insert(from + 1);
            }
            // What feeds the chain stands beside it too.
            if let (Terminal::Load(load), false) =
                (&*circuit.from, matches!(&*circuit.to, Terminal::Load(_)))
            {
                depth.entry(load).or_insert(1);
            }
        }
    }
    let mut rows = BTreeMap::new();
    let mut row = 1.0;
    let deepest = depth.values().copied().max().unwrap_or(0);
    for level in 1..=deepest {
        // In the order of the file.
        let mut here: Vec<&str> = Vec::new();
        for circuit in circuits {
            for end in [&circuit.from, &circuit.to] {
                if let Terminal::Load(load) = &**end
                    && depth.get(load.as_str()) == Some(&level)
                    && !here.contains(&load.as_str())
                {
                    here.push(load);
                }
            }
        }
        for (number, chunk) in here.chunks(A_ROW).enumerate() {
            let aside = if number % 2 == 1 { 0.5 } else { 0.0 };
            for (place, load) in chunk.iter().enumerate() {
                rows.insert(*load, (row, place as f64 + aside));
            }
            row += 1.0;
        }
    }
    rows
}

/// Marks of the batteries, each in its own where they lie along the row, with a line between them.
fn name(scene: &mut Scene, battery: &Battery, straps: &[f64]) {
    let (length, width) = battery.row_size();
    let (long, wide) = (length.to_mm(), width.to_mm());
    let marks = battery.marks();
    let across = *battery.row == RowWay::Across;
    let one = if across { battery.width.to_mm() } else { battery.length.to_mm() };
    for (number, mark) in marks.into_iter().enumerate() {
        let start = number as f64 * (one + battery.row_gap.to_mm());
        if number > 0 {
            let edge =
                if across { [(0.0, start), (long, start)] } else { [(start, 0.0), (start, wide)] };
            scene.line(&edge, Line::VISIBLE);
        }
        let at = if across {
            (clear_of(straps, (0.0, long)), start + one / 2.0)
        } else {
            (clear_of(straps, (start, start + one)), wide / 2.0)
        };
        scene.name(at, mark);
    }
}

/// The battery from above between its blocks, strap over it.
pub(super) fn battery(basis: &StepBasis<'_>) -> Option<Scene> {
    let battery = basis.build.battery.as_ref()?;
    let (length, width) = battery.row_size();
    let (long, wide) = (length.to_mm(), width.to_mm());
    let mut scene = Scene::new("battery from above between its blocks with its straps");
    scene.rectangle((0.0, 0.0), (long, wide), Line::HEAVY);
    let straps: Vec<f64> = basis.build.restraint.as_ref().map_or_else(Vec::new, |restraint| {
        let count = *restraint.straps;
        (0..count).map(|strap| long * (f64::from(strap) + 0.5) / f64::from(count)).collect()
    });
    // Beside the straps, not under them.
    name(&mut scene, battery, &straps);
    if let Some(restraint) = &basis.build.restraint {
        let thick = restraint.block_height.to_mm().clamp(20.0, 60.0);
        // One a side in turn: left, right, front, rear, and round again.
        let share = 0.5;
        for block in 0..*restraint.blocks {
            let offset = f64::from(block / 4) * thick;
            let (corner, size) = match block % 4 {
                0 => ((long * (1.0 - share) / 2.0, -thick - offset), (long * share, thick)),
                1 => ((long * (1.0 - share) / 2.0, wide + offset), (long * share, thick)),
                2 => ((-thick - offset, wide * (1.0 - share) / 2.0), (thick, wide * share)),
                _ => ((long + offset, wide * (1.0 - share) / 2.0), (thick, wide * share)),
            };
            scene.filled_rectangle(corner, size, Fill::HATCH, Some(Line::VISIBLE));
        }
        for (strap, x) in straps.into_iter().enumerate() {
            for side in [-12.0, 12.0] {
                scene.line(&[(x + side, -thick * 1.6), (x + side, wide + thick * 1.6)], Line::THIN);
            }
            if strap == 0 {
                scene.leader((x + 12.0, wide + thick * 1.3), "strap");
            }
        }
        if *restraint.blocks > 0 {
            scene.leader((long * 0.3, -thick), "block");
        }
    }
    scene.dimension(Side::Below, (0.0, 0.0), (long, 0.0), number(length));
    scene.dimension(Side::Left, (0.0, 0.0), (0.0, wide), number(width));
    scene.front((long * 1.4, wide * 1.1), 180.0);
    scene.view("from above, front at left");
    Some(scene)
}
