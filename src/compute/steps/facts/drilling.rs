//! Holes that are drilled from their own marks.

use super::{Facts, Item, Sources, item, say, with_range};
use crate::compute::steps::assign::{self, Stage};
use crate::derive::{Drilling, Hole, Part};
use crate::tables::MaterialKind;
use crate::units::Length;
use std::collections::BTreeMap;

/// Metal of a part, for how long a hole takes.
pub(super) fn metal(from: &Sources<'_>, part: &Part) -> Option<MaterialKind> {
    use crate::derive::Body;
    match &part.body {
        Body::Bar { section, .. } => {
            from.tables.material(&section.material).ok().map(|row| row.kind)
        }
        Body::Plate { material, .. }
        | Body::Block { material, .. }
        | Body::Wedge { material, .. } => Some(material.kind),
        Body::Bought { .. } | Body::OnVehicle => None,
    }
}

pub(super) fn set(facts: &mut Facts, from: &Sources<'_>) {
    let work = from.work;
    let here = |hole: &&Hole| assign::of_hole(work, hole) == Some(Stage::Drill);
    let holes: Vec<&Hole> = work.holes.iter().filter(here).collect();
    let times = |hole: &&Hole| work.parts[hole.part].pieces.len();
    let hard = |hole: &&&Hole| {
        matches!(
            metal(from, &work.parts[hole.part]),
            Some(MaterialKind::Steel | MaterialKind::Stainless)
        )
    };
    let all: usize = holes.iter().map(times).sum();
    let steel: usize = holes.iter().filter(hard).map(times).sum();
    facts.count("holes.drill", all);
    facts.count("holes.drill.steel", steel);
    facts.count("holes.drill.aluminium", all - steel);
    let sunk: usize = holes.iter().filter(|hole| hole.countersink.is_some()).map(times).sum();
    facts.count("holes.drill.sunk", sunk);
    facts.set("drill.sizes", say::all_drills(holes.iter().copied()));

    let mut parts: Vec<Item> = Vec::new();
    let mut sizes: Vec<(&'static str, String, Length, Vec<usize>)> = Vec::new();
    let mut sinks: Vec<(Length, Vec<usize>)> = Vec::new();
    for (index, part) in work.parts.iter().enumerate() {
        let own: Vec<&Hole> = holes.iter().copied().filter(|hole| hole.part == index).collect();
        if own.is_empty() {
            continue;
        }
        let names: Vec<&str> = part.pieces.iter().map(|piece| piece.mark.as_str()).collect();
        // The farthest pair shows a slip of the rule best.
        let (between, distance) = check_distance(&own);
        let row = item([
            ("name", part.name.clone()),
            ("marks", say::marks(&names)),
            ("each", names.join(" ")),
            ("count", own.len().to_string()),
            ("between", between),
        ]);
        let row = with_range(row, facts.about(distance.to_mm(), "setting"));
        let same = |old: &&mut Item| {
            ["name", "count", "low", "high"].iter().all(|field| old[*field] == row[*field])
        };
        match parts.iter_mut().find(same) {
            Some(old) => {
                super::cutting::add_marks(old, &row);
                old.insert("between".to_owned(), "farthest pair".to_owned());
            }
            None => parts.push(row),
        }
        for hole in own {
            let drills = say::drills(&hole.drills);
            let kind = say::kind(hole.kind);
            match sizes.iter_mut().find(|row| row.0 == kind && row.1 == drills) {
                Some(row) => {
                    if !row.3.contains(&index) {
                        row.3.push(index);
                    }
                }
                None => sizes.push((kind, drills, hole.diameter, vec![index])),
            }
            if let Some(sink) = hole.countersink {
                match sinks.iter_mut().find(|row| row.0.is_near(sink.diameter, Length::mm(0.01))) {
                    Some(row) if row.1.contains(&index) => {}
                    Some(row) => row.1.push(index),
                    None => sinks.push((sink.diameter, vec![index])),
                }
            }
        }
    }
    let marks_of = |parts: &[usize]| {
        let names: Vec<&str> = parts
            .iter()
            .flat_map(|part| work.parts[*part].pieces.iter().map(|piece| piece.mark.as_str()))
            .collect();
        say::marks(&names)
    };
    let over = |facts: &Facts, size: Length| {
        let size = size.to_mm();
        say::range(size + facts.low("hole-over"), size + facts.high("hole-over"))
    };
    let size_rows = sizes
        .iter()
        .map(|(kind, drills, size, parts)| {
            let row = item([
                ("kind", (*kind).to_owned()),
                ("drills", drills.clone()),
                ("marks", marks_of(parts)),
            ]);
            with_range(row, over(facts, *size))
        })
        .collect();
    let sink_rows: Vec<Item> = sinks
        .iter()
        .map(|(size, parts)| {
            let row = item([("marks", marks_of(parts))]);
            with_range(row, facts.about(size.to_mm(), "hole-over"))
        })
        .collect();
    let told: Vec<String> = sinks.iter().map(|(size, _)| say::mm(*size)).collect();
    facts.set("drill.sinks", format!("to {}", say::list(&told)));
    facts.list("drill-parts", parts);
    facts.list("drill-sizes", size_rows);
    facts.list("drill-sinks", sink_rows);
    // Holes that a later stage drills through their mates.
    let mut counts: BTreeMap<Stage, usize> = BTreeMap::new();
    for hole in &work.holes {
        if let Some(stage) = assign::of_hole(work, hole) {
            *counts.entry(stage).or_default() += times(&hole);
        }
    }
    for stage in Stage::ALL.into_iter().filter(|stage| *stage != Stage::Drill) {
        let count = counts.get(&stage).copied().unwrap_or(0);
        facts.count(&format!("holes.{}", stage.key()), count);
    }
}

/// What to measure after marking, and how far it is: between the two holes of one face that lie
/// farthest apart, or from the zero end to a hole that is alone on its face.
fn check_distance(holes: &[&Hole]) -> (String, Length) {
    let mut best = (String::new(), Length::ZERO);
    for a in holes {
        for b in holes.iter().filter(|b| b.face == a.face) {
            let apart = a.at.distance(b.at);
            if apart > best.1 {
                best = (format!("{} to {}", a.id, b.id), apart);
            }
        }
    }
    match holes.first() {
        Some(alone) if best.0.is_empty() => (format!("zero end to {}", alone.id), alone.at.x),
        _ => best,
    }
}

/// Size of the holes of a stage with what a hand drill adds, and the drills for them.
pub(super) fn through(
    facts: &mut Facts,
    from: &Sources<'_>,
    stage: Stage,
    only: impl Fn(&Hole) -> bool,
    name: &str,
) {
    let work = from.work;
    let holes: Vec<&Hole> = work
        .holes
        .iter()
        .filter(|hole| assign::of_hole(work, hole) == Some(stage) && only(hole))
        .collect();
    let sizes: Vec<Length> = holes.iter().map(|hole| hole.diameter).collect();
    let Some(least) = sizes.iter().copied().reduce(Length::min) else { return };
    let most = sizes.iter().copied().fold(least, Length::max);
    facts.set(format!("{name}.drills"), say::all_drills(holes.iter().copied()));
    let range =
        say::range(least.to_mm() + facts.low("hole-over"), most.to_mm() + facts.high("hole-over"));
    facts.range(&format!("{name}.hole"), range);
}

/// Whether a hole is drilled through another part's hole.
pub(super) fn is_through(hole: &Hole) -> bool {
    matches!(hole.drilling, Drilling::Through(_))
}
