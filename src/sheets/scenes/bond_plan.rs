//! A bonded plate seen through from above: strips, beads, the way of the nozzle.

use super::corner_size;
use crate::derive::Bond;
use crate::page::scene::{Fill, Line, Place, Scene, Side, Style};
use crate::sheets::words::bare;

/// The plate with its strips hatched and its beads tinted; every bead with an arrow from start to end.
pub fn bond_plan(bond: &Bond) -> Scene {
    let (length, width) = (bond.length.to_mm(), bond.width.to_mm());
    let mut scene = Scene::new(format!(
        "plate of {} from above, seen through: {} strips of tape, {} beads",
        bond.mark,
        bond.strips.len(),
        bond.beads.len()
    ));
    scene.rectangle((0.0, 0.0), (length, width), Line::HEAVY);
    for strip in &bond.strips {
        let (corner, size) = corner_size(*strip);
        scene.filled_rectangle(corner, size, Fill::HATCH, Some(Line::VISIBLE));
    }
    for bead in &bond.beads {
        let (corner, size) = corner_size(*bead);
        scene.filled_rectangle(corner, size, Fill::Tint(10), Some(Line::VISIBLE));
        let along = size.0 >= size.1;
        let (from, to) = if along {
            let y = corner.1 + size.1 / 2.0;
            ((corner.0, y), (corner.0 + size.0, y))
        } else {
            let x = corner.0 + size.0 / 2.0;
            ((x, corner.1), (x, corner.1 + size.1))
        };
        scene.dot(from);
        scene.arrow(from, to);
        if along {
            // Beside the bead, inside the plate: the sizes stand outside.
            let (y, inset) = (corner.1 + size.1, size.0 * 0.07);
            scene.words((from.0 + inset, y), "start", Place::Beside(Side::Above), Style::CAPTION);
            scene.words((to.0 - inset, y), "end", Place::Beside(Side::Above), Style::CAPTION);
        } else {
            scene.words(from, "start", Place::Beside(Side::Right), Style::CAPTION);
            scene.words(to, "end", Place::Beside(Side::Right), Style::CAPTION);
        }
    }
    let mut edges: Vec<((f64, f64), String)> = Vec::new();
    let mut values: Vec<crate::units::Length> = bond
        .strips
        .iter()
        .chain(&bond.beads)
        .flat_map(|r| [r.low().y, r.high().y])
        .filter(|y| y.to_mm() > 0.05 && y.to_mm() < width - 0.05)
        .collect();
    values.push(bond.width);
    values.sort_by(|a, b| a.partial_cmp(b).unwrap_or(std::cmp::Ordering::Equal));
    values.dedup_by(|a, b| (*a - *b).abs().to_mm() < 0.05);
    for y in values {
        edges.push(((length, y.to_mm()), bare(y, 1)));
    }
    scene.running(Side::Right, (length, 0.0), &edges);
    scene.dimension(Side::Below, (0.0, 0.0), (length, 0.0), bare(bond.length, 1));
    scene.datum((0.0, 0.0), "zero");
    scene.view("from above, seen through the plate; its inboard edge below");
    scene
}
