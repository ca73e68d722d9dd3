//! The frame: tubes, corners, cross tubes, rivets.

use super::{Facts, Item, Sources, drilling, item, say, with_range};
use crate::compute::steps::assign::{self, Stage};
use crate::derive::{Array, Part, PartKind, Screw};
use crate::units::Length;

pub(super) fn set(facts: &mut Facts, from: &Sources<'_>) {
    use PartKind::{CrossTube, EndTube, JointAngle, SideTube};
    let work = from.work;
    facts.count("frame", usize::from(!work.arrays.is_empty()));
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
    facts.set("frame.angles", say::marks(&names(JointAngle)));
    let frames: Vec<Item> =
        work.arrays.iter().map(|array| one_frame(facts, from, array)).collect();
    let count = frames.len();
    facts.list("frames", frames);
    facts.set("frames", count.to_string());
    if work.arrays.is_empty() {
        facts.list("frame.cross", Vec::new());
        return;
    }
    if let Some(frame) = from.build.frames.first() {
        let cube = frame.corner.cube;
        let range = say::range(cube.to_mm() - 0.5, cube.to_mm() + 0.5);
        facts.range("connector", range);
    }
    facts.set("frame.diagonal.difference", say::mm(Length::mm(facts.high("diagonals"))));
    let cross = work.arrays.iter().flat_map(|array| {
        let marks = marks_in(from, array, CrossTube);
        let facts = &*facts;
        array.cross.iter().zip(marks).map(move |(x, mark)| {
            let at = *x - array.outline.low().x;
            let row = item([("mark", mark), ("at", say::mm(at))]);
            with_range(row, facts.about(at.to_mm(), "setting"))
        })
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

/// Marks of a frame's pieces of a kind.
fn marks_in(from: &Sources<'_>, array: &Array, kind: PartKind) -> Vec<String> {
    let pieces = from.work.parts_of(kind).flat_map(|part| &part.pieces);
    pieces
        .filter(|piece| piece.frame == Some(array.frame))
        .map(|piece| piece.mark.clone())
        .collect()
}

/// What lines that go round the frames say of one. Where it is the only one, nothing names it.
fn one_frame(facts: &Facts, from: &Sources<'_>, array: &Array) -> Item {
    let several = from.work.arrays.len() > 1;
    let the = from.build.the_frame(array.frame);
    let panels: Vec<&str> = array.panels.iter().map(|panel| panel.mark.as_str()).collect();
    let panels = say::marks(&panels);
    let or = |one: &str, many: String| if several { many } else { one.to_owned() };
    let mut row = item([
        ("frame", the.clone()),
        ("of", or("", format!(" of {the}"))),
        ("array", or("the array", the)),
        ("blocks", or("the blocks", "its blocks".to_owned())),
        ("on", or("the panels", panels.clone())),
        ("panels", panels),
        ("sides", say::marks(&marks_in(from, array, PartKind::SideTube))),
        ("ends", say::marks(&marks_in(from, array, PartKind::EndTube))),
    ]);
    let half = facts.high("diagonals");
    let diagonal = array.diagonal.to_mm();
    let outline = array.outline;
    let gap = from.sizes.gaps.get(array.frame).copied().flatten().map(|gap| {
        say::range(gap.low.to_mm(), gap.high.to_mm())
    });
    let planned = from.build.frames.get(array.frame).map_or(0.0, |frame| frame.gap.to_mm());
    for (key, (low, high)) in [
        ("length", facts.about(outline.width().to_mm(), "setting")),
        ("diagonal", say::range(diagonal - half, diagonal + half)),
        ("gap", gap.unwrap_or_else(|| facts.about(planned, "setting"))),
        ("front", facts.about(outline.low().x.to_mm(), "placing")),
        ("right", facts.about(outline.high().y.to_mm(), "placing")),
        ("clearance", facts.about((array.under - array.crown).to_mm(), "placing")),
    ] {
        row.insert(format!("{key}-low"), low);
        row.insert(format!("{key}-high"), high);
    }
    row
}
