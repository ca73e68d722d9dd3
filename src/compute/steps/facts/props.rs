//! Props of lifted frames: making them, pinning them, their angles.

use super::{Facts, Item, Sources, drilling, item, say, with_range};
use crate::build::Edge;
use crate::compute::steps::assign::Stage;
use crate::derive::{HoleAt, PropPlace, Screw};
use crate::units::{Length, display};

/// How far from its plan a prop may be set along its tube, mm: the frame then leans a little more or less.
const SETTING: f64 = 1.0;

pub(super) fn set(facts: &mut Facts, from: &Sources<'_>) {
    let work = from.work;
    let mut rows: Vec<Item> = Vec::new();
    let mut stands: Vec<Item> = Vec::new();
    for prop in &work.props {
        let Some((tube, at)) = place_on_tube(from, prop) else { continue };
        let row = item([
            ("mark", prop.mark.clone()),
            ("on", prop.on.clone()),
            ("tube", tube),
            ("at", say::mm(at)),
            ("end", if end_is_front(prop) { "front end" } else { "left end" }.to_owned()),
        ]);
        rows.push(with_range(row, say::range(at.to_mm() - SETTING, at.to_mm() + SETTING)));
        for stand in &prop.stands {
            let words = format!("{}°", display::number(stand.asked.to_deg(), 0));
            stands.push(item([
                ("mark", prop.mark.clone()),
                ("angle", words),
                ("hole", stand.hole.clone()),
                ("length", say::mm(stand.length)),
            ]));
        }
    }
    let marks: Vec<&str> = rows.iter().map(|row| row["mark"].as_str()).collect();
    facts.set("props.marks", say::marks(&marks));
    let on: Vec<&str> = rows.iter().map(|row| row["on"].as_str()).collect();
    facts.set("props.on", say::marks(&on));
    let packers: Vec<&str> = work
        .parts_of(crate::derive::PartKind::PropPacker)
        .flat_map(|part| &part.pieces)
        .map(|piece| piece.mark.as_str())
        .collect();
    facts.set("props.packers", say::marks(&packers));
    facts.count("props.pins", rows.len() * 3);
    let pin = |diameter: Length, length: Length| {
        let told = |length: Length| display::number_short(length.to_mm(), 1);
        format!("clevis pin {} × {}", told(diameter), told(length))
    };
    let mut kinds: Vec<(String, usize)> = Vec::new();
    let mut add = |words: String, count: usize| match kinds.iter_mut().find(|row| row.0 == words) {
        Some(row) => row.1 += count,
        None => kinds.push((words, count)),
    };
    for fastening in &work.fastenings {
        if let Screw::Pin { diameter, length } = fastening.screw {
            add(pin(diameter, length), fastening.places.len());
        }
    }
    for prop in &work.props {
        add(pin(prop.diameter, prop.foot_pin.1), 1);
    }
    let kinds = kinds
        .into_iter()
        .map(|(words, count)| item([("words", words), ("count", count.to_string())]));
    facts.list("props.pin-kinds", kinds.collect());
    facts.list("props", rows);
    facts.list("props.stands", stands);
    drilling::through(facts, from, Stage::Props, |_| true, "props");
}

/// Running dimensions of a side tube begin at its front end, of an end tube at its left end.
const fn end_is_front(prop: &PropPlace) -> bool {
    matches!(prop.edge, Edge::Left | Edge::Right)
}

/// The tube that a prop is pinned to, and its upper pin from the tube's zero end.
fn place_on_tube(from: &Sources<'_>, prop: &PropPlace) -> Option<(String, Length)> {
    let HoleAt { piece, hole } = &prop.tube_hole;
    Some((piece.clone(), from.work.hole(hole)?.at.x))
}
