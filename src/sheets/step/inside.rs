//! Inside the vehicle: what is joined to what, and the battery on its floor.

use super::StepBasis;
use crate::build::Terminal;
use crate::page::scene::{Fill, Line, Place, Scene, Side, Style};
use crate::units::{Length, display};

fn number(length: Length) -> String {
    display::number_short(length.to_mm(), 1)
}

/// Source at the left, loads at the right; circuits numbered in the order of joining: battery,
/// then others, panels last.
pub(super) fn wiring(basis: &StepBasis<'_>) -> Option<Scene> {
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
        Terminal::Battery => build
            .battery
            .as_ref()
            .map_or("battery".to_owned(), |battery| format!("battery {}", *battery.mark)),
        Terminal::Load(load) => load.clone(),
    };
    let mut scene = Scene::not_to_scale("what is joined to what, in the order of joining");
    let mut loads = 0;
    let mut boxes: Vec<(String, (f64, f64))> = Vec::new();
    let mut place = |scene: &mut Scene, terminal: &Terminal| -> (f64, f64) {
        let words = name(terminal);
        if let Some((_, at)) = boxes.iter().find(|(told, _)| *told == words) {
            return *at;
        }
        let at = match terminal {
            Terminal::Panels => (0.0, 60.0),
            Terminal::Controller => (0.0, 0.0),
            Terminal::Battery => (0.0, -60.0),
            Terminal::Load(_) => {
                loads += 1;
                (90.0, -60.0 + 40.0 * f64::from(loads - 1))
            }
        };
        scene.filled_rectangle(
            (at.0 - 30.0, at.1 - 12.0),
            (60.0, 24.0),
            Fill::White,
            Some(Line::HEAVY),
        );
        scene.words(at, words.clone(), Place::Centre, Style::PLAIN);
        boxes.push((words, at));
        at
    };
    let rank = |circuit: &&crate::build::Circuit| match (&*circuit.from, &*circuit.to) {
        (Terminal::Panels, _) | (_, Terminal::Panels) => 2,
        (Terminal::Battery, _) | (_, Terminal::Battery) => 0,
        _ => 1,
    };
    let mut circuits: Vec<&crate::build::Circuit> = build.circuits.iter().collect();
    circuits.sort_by_key(rank);
    for (index, circuit) in circuits.iter().enumerate() {
        let (a, b) = (place(&mut scene, &circuit.from), place(&mut scene, &circuit.to));
        let level = (a.1 - b.1).abs() < 1.0;
        let (from, to) = if level {
            ((a.0 + 30.0 * (b.0 - a.0).signum(), a.1), (b.0 - 30.0 * (b.0 - a.0).signum(), b.1))
        } else if (a.0 - b.0).abs() < 1.0 {
            ((a.0, a.1 + 12.0 * (b.1 - a.1).signum()), (b.0, b.1 - 12.0 * (b.1 - a.1).signum()))
        } else {
            ((a.0 + 30.0, a.1), (b.0 - 30.0, b.1))
        };
        for side in [-2.5, 2.5] {
            let (dx, dy) = if (a.0 - b.0).abs() < 1.0 { (side, 0.0) } else { (0.0, side) };
            scene.line(&[(from.0 + dx, from.1 + dy), (to.0 + dx, to.1 + dy)], Line::VISIBLE);
        }
        let middle = (f64::midpoint(from.0, to.0), f64::midpoint(from.1, to.1));
        scene.disc(middle, 6.0, Fill::White, Some(Line::VISIBLE));
        scene.name(middle, (index + 1).to_string());
    }
    scene.view_without_bar("in the order of joining; marks and fuses on the wiring sheet");
    Some(scene)
}

/// The battery from above between its blocks, strap over it.
pub(super) fn battery(basis: &StepBasis<'_>) -> Option<Scene> {
    let battery = basis.build.battery.as_ref()?;
    let (long, wide) = (battery.length.to_mm(), battery.width.to_mm());
    let mut scene = Scene::new("battery from above between its blocks with its straps");
    scene.rectangle((0.0, 0.0), (long, wide), Line::HEAVY);
    scene.name((long / 2.0, wide / 2.0), format!("battery {}", *battery.mark));
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
        for strap in 0..*restraint.straps {
            let x = long * f64::from(strap + 1) / f64::from(*restraint.straps + 1);
            for side in [-12.0, 12.0] {
                scene.line(&[(x + side, -thick * 1.6), (x + side, wide + thick * 1.6)], Line::THIN);
            }
            if strap == 0 {
                scene.leader((x + 12.0, wide + thick * 1.3), "strap");
            }
        }
        if *restraint.blocks > 0 {
            scene.leader((long * 0.3, -thick / 2.0), "block");
        }
    }
    scene.dimension(Side::Below, (0.0, 0.0), (long, 0.0), number(*battery.length));
    scene.dimension(Side::Left, (0.0, 0.0), (0.0, wide), number(*battery.width));
    scene.front((long * 1.4, wide * 1.1), 180.0);
    scene.view("from above, front at left");
    Some(scene)
}
