//! Panel frames at their screws: local suction on each panel against the threads in its flange.

use super::hinge::weakest;
use super::joint;
use super::{Basis, MetalUse, newtons};
use crate::compute::loads::weight;
use crate::derive::{Array, HoleAt, PanelPlace, Screw};
use crate::geometry::Rect;
use crate::source::Seen;
use crate::units::Length;

/// Screws near a corner take more than their share; own allowance, no source.
const UNEVEN: f64 = 1.5;

pub(super) fn panels(basis: &Basis, uses: &mut Vec<MetalUse>) {
    for array in &basis.work.arrays {
        panels_of(basis, array, uses);
    }
}

fn panels_of(basis: &Basis, array: &Array, uses: &mut Vec<MetalUse>) {
    let here = |row: &Vec<HoleAt>| {
        row.iter().any(|at| array.panels.iter().any(|panel| panel.mark == at.piece))
    };
    let Some((fastening, screw)) = basis.work.fastenings.iter().find_map(|f| match &f.screw {
        Screw::Tapping { screw, .. } if f.name == "panel to tube" && f.places.iter().any(here) => {
            Some((f, screw))
        }
        _ => None,
    }) else {
        return;
    };
    let Some(ultimate) = weakest(basis) else { return };
    let driving = basis.loads.driving >= basis.loads.storm;
    let q = if driving { basis.loads.driving } else { basis.loads.storm };
    let mut worst: Option<(f64, &PanelPlace, usize, f64, f64)> = None;
    for place in &array.panels {
        let count = fastening
            .places
            .iter()
            .filter(|row| row.iter().any(|hole| hole.piece == place.mark))
            .count();
        let Some(panel) = basis.build.panels.get(place.panel).filter(|_| count > 0) else {
            continue;
        };
        let coefficient = mean(basis, array, place.outline);
        let lift = -coefficient * (q * place.outline.area()).to_n() - weight(*panel.mass).to_n();
        let one = lift.max(0.0) / count as f64 * UNEVEN;
        let capacity =
            joint::thread_pull_out(screw.diameter, screw.pitch, *panel.flange.thickness, ultimate)
                .to_n();
        if worst.is_none_or(|(share, ..)| one / capacity > share) {
            worst = Some((one / capacity, place, count, one, capacity));
        }
    }
    let Some((share, place, count, effect, capacity)) = worst else { return };
    uses.push(MetalUse {
        key: match basis.build.frames.len() {
            0 | 1 => "panel.screw".to_owned(),
            _ => format!("panel.screw.{}", array.frame + 1),
        },
        at: place.mark.clone(),
        what: "panel screw pulled out",
        case: if driving { "driving, local suction" } else { "parked storm, local suction" }.into(),
        effect,
        capacity,
        unit: "N",
        share,
        formula: "1.5 (c q A − G) / n ≤ 0.45 d t f / 1.25; 0.65 where t is at least the pitch",
        inputs: vec![
            ("c".into(), format!("{:.2}, zones by area", mean(basis, array, place.outline))),
            ("q".into(), format!("{:.0} Pa", q.to_pa())),
            ("n".into(), count.to_string()),
            ("screw".into(), screw.name.clone()),
            ("f".into(), format!("{:.0} MPa, weakest aluminium of the tables", ultimate.to_mpa())),
            ("a screw".into(), newtons(effect)),
        ],
        source: "EN 1993-1-3, table 8.2; local zones of EN 1991-1-4 table 7.6",
        seen: Seen::Memory,
        remedy: "set the panel screws closer, `panel-screw-pitch`",
        span: fastening.span,
    });
}

/// Mean coefficient of the zones that a panel lies in, by area.
fn mean(basis: &Basis, array: &Array, panel: Rect) -> f64 {
    let up = &basis.loads.up;
    let overlap = |low: Length, high: Length, from: Length, to: Length| {
        (high.min(to) - low.max(from)).max(Length::ZERO).to_mm()
    };
    let (low, high) = (array.outline.low(), array.outline.high());
    let (deep, wide) = ((high.x - low.x) / 10.0, (high.y - low.y) / 10.0);
    let along = (panel.high().x - panel.low().x).to_mm().max(1e-9);
    let across = (panel.high().y - panel.low().y).to_mm().max(1e-9);
    let in_x = |from, to| overlap(panel.low().x, panel.high().x, from, to) / along;
    let in_y = |from, to| overlap(panel.low().y, panel.high().y, from, to) / across;
    let c = in_x(low.x, low.x + deep) + in_x(high.x - deep, high.x);
    let b = (in_y(low.y, low.y + wide) + in_y(high.y - wide, high.y)) * (1.0 - c);
    c * up.c + b * up.b + (1.0 - c - b) * up.a
}
