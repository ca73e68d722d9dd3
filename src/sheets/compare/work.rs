//! What is made, bought and done: both sides by the marks and names that the sheets print.

use super::{Change, Group};
use crate::compute::steps::Step;
use crate::compute::steps::facts::mark_order;
use crate::derive::Body;
use crate::sheets::handover::size;
use crate::sheets::{Basis, headlines};
use crate::units::{Length, display};
use std::collections::{BTreeMap, BTreeSet};

/// Figures told by their name beyond the headlines: what someone cuts, tightens, fuses or waits by.
const FIGURES: &[&str] = &["fasteners.torque.", "cure.", "mount.", "electrics."];
/// Least change of a figure that a sheet could show.
const SHOWN: f64 = 0.0005;

type Told = BTreeMap<String, String>;

pub(super) fn changes(old: &Basis, new: &Basis) -> Vec<Group> {
    let both = |title, tell: &dyn Fn(&Basis) -> Told| Group {
        title,
        rows: differ(&tell(old), &tell(new)),
    };
    let mut groups = vec![
        both("Headlines", &headline),
        by_mark(both("Parts", &parts)),
        by_mark(both("Holes", &holes)),
        both("To buy", &shopping),
        both("Steps", &steps),
        both("Open findings", &findings),
    ];
    groups.insert(1, Group { title: "Figures", rows: figures(old, new) });
    groups
}

/// Rows of two lists that differ.
fn differ(old: &Told, new: &Told) -> Vec<Change> {
    let all: BTreeSet<&String> = old.keys().chain(new.keys()).collect();
    all.into_iter()
        .filter(|what| old.get(*what) != new.get(*what))
        .map(|what| Change {
            key: String::new(),
            what: what.clone(),
            before: old.get(what).cloned().unwrap_or_default(),
            after: new.get(what).cloned().unwrap_or_default(),
        })
        .collect()
}

/// The same in the order of marks: H9 before H10.
fn by_mark(group: Group) -> Group {
    let mut rows = group.rows;
    rows.sort_by_key(|row| mark_order(row.what.split(' ').next().unwrap_or_default()));
    Group { rows, ..group }
}

fn headline(basis: &Basis) -> Told {
    let list = headlines(basis.build, basis.work, basis.results);
    list.into_iter()
        .map(|line| {
            // "height now; was 2610 mm": what follows is another number of its own.
            let what = line.words.split(';').next().unwrap_or_default().trim().to_owned();
            (what, line.value)
        })
        .collect()
}

fn parts(basis: &Basis) -> Told {
    let parts = &basis.work.parts;
    let made = parts.iter().filter(|part| !matches!(part.body, Body::OnVehicle));
    made.flat_map(|part| {
        part.pieces.iter().map(move |piece| (format!("{} {}", piece.mark, part.name), size(part)))
    })
    .collect()
}

fn holes(basis: &Basis) -> Told {
    let told = |at: Length| display::number_short(at.to_mm(), 1);
    basis
        .work
        .holes
        .iter()
        .map(|hole| {
            let part = &basis.work.parts[hole.part];
            let piece = part.pieces.first().map_or("", |piece| piece.mark.as_str());
            let face = part.faces.get(hole.face).map_or("", |face| face.name.as_str());
            (
                format!("{} in {} {piece}, {face}", hole.id, part.name),
                format!("X {}, Y {}, ⌀ {}", told(hole.at.x), told(hole.at.y), told(hole.diameter)),
            )
        })
        .collect()
}

fn shopping(basis: &Basis) -> Told {
    let lines = basis.results.shopping.shelves.iter().flat_map(|shelf| &shelf.lines);
    lines.map(|line| (line.what.clone(), line.buy.clone())).collect()
}

fn steps(basis: &Basis) -> Told {
    let told = |step: &Step| {
        let people =
            if step.people == 1 { "1 person".into() } else { format!("{} people", step.people) };
        format!(
            "step {}, {}, {people}, {} actions",
            step.number,
            display::duration(step.time),
            step.actions().count()
        )
    };
    basis.results.steps.steps.iter().map(|step| (step.title.clone(), told(step))).collect()
}

fn findings(basis: &Basis) -> Told {
    basis
        .findings
        .iter()
        .map(|finding| {
            let code = finding.rule.code;
            (format!("{code}: {}", finding.message), finding.severity.to_string())
        })
        .collect()
}

fn figures(old: &Basis, new: &Basis) -> Vec<Change> {
    let (before, after) = (&old.results.ledger, &new.results.ledger);
    after
        .iter()
        .filter(|figure| FIGURES.iter().any(|start| figure.id.starts_with(start)))
        .filter_map(|figure| {
            let was = before.get(&figure.id)?;
            let scale = was.value.abs().max(figure.value.abs());
            let told =
                |value: f64, unit: &str| display::with_unit(&display::number_short(value, 2), unit);
            let change = Change {
                key: String::new(),
                what: figure.label.clone(),
                before: told(was.value, was.unit),
                after: told(figure.value, figure.unit),
            };
            let differs = (was.value - figure.value).abs() > SHOWN * scale;
            (differs && change.before != change.after).then_some(change)
        })
        .collect()
}
