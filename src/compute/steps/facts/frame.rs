//! The frame: tubes, corners, cross tubes, rivets.

use super::{Facts, Item, Sources, drilling, item, say, with_range};
use crate::build::Corner;
use crate::compute::steps::assign::{self, Stage};
use crate::derive::{Array, Fastening, Hole, HoleKind, Part, PartKind, Screw, Work};
use crate::units::Length;

pub(super) fn set(facts: &mut Facts, from: &Sources<'_>) {
    use PartKind::{CornerAngle, CrossTube, EndPlug, EndTube, JointAngle, SideTube};
    let work = from.work;
    facts.count("frame", usize::from(!work.arrays.is_empty()));
    facts.set("people.two", "2");
    let connectors: usize = work.parts_of(PartKind::Connector).map(|part| part.pieces.len()).sum();
    facts.count("connectors", connectors);
    let here = |fastening: &&Fastening| assign::of_fastening(work, fastening) == Stage::Frame;
    let (rivets, screws): (Vec<&Fastening>, Vec<&Fastening>) = work
        .fastenings
        .iter()
        .filter(here)
        .partition(|fastening| matches!(fastening.screw, Screw::BlindRivet { .. }));
    let places = |list: &[&Fastening]| -> usize { list.iter().map(|f| f.places.len()).sum() };
    facts.count("rivets", places(&rivets));
    facts.count("corner-screws", places(&screws));
    facts.list("rivet-kinds", kinds(&rivets));
    facts.list("corner-screw-kinds", kinds(&screws));
    let pieces =
        |kind: PartKind| -> usize { work.parts_of(kind).map(|part| part.pieces.len()).sum() };
    facts.count("corner-angles", pieces(CornerAngle));
    facts.count("plugs", pieces(EndPlug));
    let riveted = |kind: PartKind| rivets.iter().any(|fastening| joins(work, fastening, kind));
    let angles = match (riveted(JointAngle), riveted(CornerAngle)) {
        (true, true) => "joint and corner angles",
        (false, true) => "corner angles",
        _ => "joint angles",
    };
    facts.set("rivet.angles", angles);
    let all_pushed =
        from.build.frames.iter().all(|frame| matches!(frame.corner, Corner::Connector(_)));
    let purpose = match (all_pushed, pieces(CrossTube) > 0) {
        (true, _) => "Tubes and corners are pushed together square; cross tubes are riveted in.",
        (false, true) => "Tubes are joined square at their corners; cross tubes are riveted in.",
        (false, false) => "Tubes are joined square at their corners.",
    };
    facts.set("frame.purpose", purpose);
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
    facts.list("frame.parts", of(&[SideTube, EndTube, CrossTube, JointAngle, CornerAngle]));
    facts.list("frame.tubes", of(&[SideTube, EndTube, CrossTube]));
    facts.set("frame.angles", say::marks(&names(JointAngle)));
    let frames: Vec<Item> = work.arrays.iter().map(|array| one_frame(facts, from, array)).collect();
    let of_kind = |is: fn(&Corner) -> bool| -> Vec<Item> {
        let all = from.build.frames.iter().zip(&frames);
        all.filter(|(frame, _)| is(&frame.corner)).map(|(_, row)| row.clone()).collect()
    };
    facts.list("frames.pushed", of_kind(|corner| corner.connector().is_some()));
    facts.list("frames.angled", of_kind(|corner| corner.angle().is_some()));
    facts.list("frames.welded", of_kind(Corner::is_welded));
    let (many, one): (Vec<_>, Vec<_>) =
        frames.iter().cloned().zip(&work.arrays).partition(|(_, array)| array.panels.len() > 1);
    let rows = |list: Vec<(Item, &Array)>| list.into_iter().map(|(row, _)| row).collect();
    facts.list("frames.of-many", rows(many));
    facts.list("frames.of-one", rows(one));
    let count = frames.len();
    facts.list("frames", frames);
    facts.set("frames", count.to_string());
    if work.arrays.is_empty() {
        facts.list("frame.cross", Vec::new());
        return;
    }
    if let Some(row) = from.build.frames.iter().find_map(|frame| frame.corner.connector()) {
        let cube = row.cube;
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
    for (kind, name) in [(HoleKind::Rivet, "rivet"), (HoleKind::Pilot, "corner-screw")] {
        let through = |hole: &Hole| drilling::is_through(hole) && hole.kind == kind;
        drilling::through(facts, from, Stage::Frame, through, name);
    }
}

/// Whether a fastening holds a part of this kind.
fn joins(work: &Work, fastening: &Fastening, kind: PartKind) -> bool {
    let of_kind = |mark: &str| work.piece(mark).is_some_and(|(part, _)| part.kind == kind);
    fastening.places.iter().flatten().any(|at| of_kind(&at.piece))
}

/// Rivets or screws by what to ask for, with how many.
fn kinds(fastenings: &[&Fastening]) -> Vec<Item> {
    let mut rows: Vec<(String, usize)> = Vec::new();
    for fastening in fastenings {
        let words = match &fastening.screw {
            Screw::BlindRivet { rivet, length } => {
                format!("{} × {}", rivet.words, say::mm(*length))
            }
            Screw::Tapping { screw, length } => {
                format!("tapping screw {} × {}", screw.name, say::mm(*length))
            }
            Screw::BoltInRivetNut { .. } | Screw::BoltAndNut { .. } | Screw::Pin { .. } => continue,
        };
        match rows.iter_mut().find(|row| row.0 == words) {
            Some(row) => row.1 += fastening.places.len(),
            None => rows.push((words, fastening.places.len())),
        }
    }
    rows.into_iter()
        .map(|(words, count)| item([("words", words), ("count", count.to_string())]))
        .collect()
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
    let alone = panels.len() == 1;
    let on = if panels.len() == 1 { "the panel" } else { "the panels" };
    let panels = say::marks(&panels);
    let or = |one: &str, many: String| if several { many } else { one.to_owned() };
    let mut row = item([
        ("frame", the.clone()),
        ("diagonals", or("both diagonals", format!("both diagonals of {the}"))),
        ("under", or("the tubes", format!("the tubes of {the}"))),
        ("welded", or("the welded frame", format!("the welded frame of {the}"))),
        ("array", or("the array", the)),
        ("blocks", or("the blocks", "its blocks".to_owned())),
        ("on", or(on, panels.clone())),
        ("named", if alone { format!("panel {panels}") } else { format!("panels {panels}") }),
        ("corners", say::marks(&marks_in(from, array, PartKind::CornerAngle))),
        ("tubes", {
            let mut all = marks_in(from, array, PartKind::SideTube);
            all.extend(marks_in(from, array, PartKind::EndTube));
            say::marks(&all)
        }),
        ("sides", say::marks(&marks_in(from, array, PartKind::SideTube))),
        ("ends", say::marks(&marks_in(from, array, PartKind::EndTube))),
    ]);
    let half = facts.high("diagonals");
    let diagonal = array.diagonal.to_mm();
    let outline = array.outline;
    let gap = from
        .sizes
        .gaps
        .get(array.frame)
        .copied()
        .flatten()
        .map(|gap| say::range(gap.low.to_mm(), gap.high.to_mm()));
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
