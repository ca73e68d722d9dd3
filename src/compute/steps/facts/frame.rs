//! The frame: tubes, corners, cross tubes, rivets.

use super::{Facts, Item, Sources, drilling, item, say, with_range};
use crate::compute::steps::assign::{self, Stage};
use crate::derive::{Part, PartKind, Screw};
use crate::units::Length;

pub(super) fn set(facts: &mut Facts, from: &Sources<'_>) {
    use PartKind::{CrossTube, EndTube, JointAngle, SideTube};
    let work = from.work;
    facts.count("frame", usize::from(from.build.frame.is_some() && work.array.is_some()));
    facts.set("people.two", "2");
    let connectors: usize = work.parts_of(PartKind::Connector).map(|part| part.pieces.len()).sum();
    facts.count("connectors", connectors);
    let rivets: usize = work
        .fastenings
        .iter()
        .filter(|fastening| matches!(fastening.screw, Screw::BlindRivet { .. }))
        .map(|fastening| fastening.places.len())
        .sum();
    facts.count("rivets", rivets);
    let names = |kind: PartKind| -> Vec<String> {
        let pieces = work.parts_of(kind).flat_map(|part| &part.pieces);
        pieces.map(|piece| piece.mark.clone()).collect()
    };
    let row = |part: &Part| {
        let marks: Vec<&str> = part.pieces.iter().map(|piece| piece.mark.as_str()).collect();
        item([
            ("name", part.name.clone()),
            ("marks", say::marks(&marks)),
            ("each", marks.join(" ")),
        ])
    };
    let of = |kinds: &[PartKind]| -> Vec<Item> {
        work.parts.iter().filter(|part| kinds.contains(&part.kind)).map(row).collect()
    };
    facts.list("frame.parts", of(&[SideTube, EndTube, CrossTube, JointAngle]));
    facts.list("frame.tubes", of(&[SideTube, EndTube, CrossTube]));
    facts.set("frame.sides", say::marks(&names(SideTube)));
    facts.set("frame.ends", say::marks(&names(EndTube)));
    facts.set("frame.angles", say::marks(&names(JointAngle)));
    let Some(array) = &work.array else {
        facts.list("frame.cross", Vec::new());
        return;
    };
    if let Some(frame) = &from.build.frame {
        let cube = frame.corner.cube;
        let range = say::range(cube.to_mm() - 0.5, cube.to_mm() + 0.5);
        facts.range("connector", range);
    }
    let range = facts.about(array.outline.width().to_mm(), "setting");
    facts.range("frame.length", range);
    let half = facts.high("diagonals");
    let diagonal = array.diagonal.to_mm();
    facts.range("frame.diagonal", say::range(diagonal - half, diagonal + half));
    facts.set("frame.diagonal.difference", say::mm(Length::mm(half)));
    let cross = array.cross.iter().zip(names(CrossTube)).map(|(x, mark)| {
        let at = *x - array.outline.low().x;
        let row = item([("mark", mark), ("at", say::mm(at))]);
        with_range(row, facts.about(at.to_mm(), "setting"))
    });
    let cross: Vec<Item> = cross.collect();
    facts.list("frame.cross", cross);
    let rivet = work.fastenings.iter().find_map(|fastening| match &fastening.screw {
        Screw::BlindRivet { rivet, length } => {
            Some(format!("{} × {}", rivet.words, say::mm(*length)))
        }
        _ => None,
    });
    facts.maybe("rivet", rivet);
    let through = |hole: &crate::derive::Hole| {
        drilling::is_through(hole) && assign::of_hole(work, hole) == Some(Stage::Frame)
    };
    drilling::through(facts, from, Stage::Frame, through, "rivet");
}
