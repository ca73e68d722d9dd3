//! Part sheets: every part with holes, drawn face by face, with the hole table that wins.

mod apart;
mod checks;
mod flat;
mod holes;
mod meets;

use super::scenes::{end_view, face_view, strip_views, wedge_view};
use super::words::{kg, mm};
use super::{Basis, Kind};
use crate::build::{LengthUnit, Paper};
use crate::compute::steps::facts;
use crate::derive::{Body, Drilling, Face, Hole, Part, PartKind};
use crate::page::block::{Block, Column, Figure, Heading};
use crate::page::scene::Scale;
use crate::page::{self, Sheet};
use crate::units::display;

/// Rows of a table that stands under its drawings; a longer one has a page of its own.
const SHORT_TABLE: usize = 16;

/// Sheets of the parts that are made, then one for the holes that are drilled in place.
pub(super) fn part(basis: &Basis) -> Vec<Sheet> {
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for (index, part) in basis.work.parts.iter().enumerate() {
        if !is_made(part) || holes_of(basis, index, None).is_empty() {
            continue;
        }
        // Small parts of one name share a sheet, and others where they have room beside each other on one
        // page; a tube has one of its own.
        let joins = groups.last().is_some_and(|group| {
            let first = &basis.work.parts[group[0]];
            let tall: f64 = group.iter().chain([&index]).map(|part| about_tall(basis, *part)).sum();
            is_light(basis, first)
                && is_light(basis, part)
                && (first.name == part.name || tall <= page_room(basis))
        });
        match groups.last_mut() {
            Some(group) if joins => group.push(index),
            _ => groups.push(vec![index]),
        }
    }
    let mut sheets: Vec<Sheet> = apart::apart(basis).into_iter().collect();
    sheets.extend(groups.iter().map(|group| sheet(basis, group)));
    sheets.extend(holes::in_place(basis));
    sheets.extend(meets::meets(basis));
    sheets
}

/// Made here: it is cut, and its holes are drilled by its sheet.
fn is_made(part: &Part) -> bool {
    matches!(
        part.kind,
        PartKind::SideTube
            | PartKind::EndTube
            | PartKind::CrossTube
            | PartKind::JointAngle
            | PartKind::CornerAngle
            | PartKind::FootAngle
            | PartKind::FootPlate
            | PartKind::Spreader
            | PartKind::Wedge
            | PartKind::ClampAngle
            | PartKind::ClampPlate
            | PartKind::HingePacker
            | PartKind::Prop
            | PartKind::PropPacker
            | PartKind::PanelPacker
            | PartKind::Direct
    )
}

/// Too long for ids beside its holes: it is drawn as a strip with running sizes.
fn is_long(part: &Part) -> bool {
    part.faces.iter().any(|face| face.length > face.width * 6.0)
}

/// Height of a sheet's content on the paper that it is printed on, less its head, its foot and the words
/// under the tables, mm.
fn page_room(basis: &Basis) -> f64 {
    let paper = match *basis.build.job.paper {
        Paper::A4 => page::Paper::A4,
        Paper::Letter => page::Paper::Letter,
    };
    paper.size().1 - 66.0
}

/// Greatest height of a face's drawing, mm.
const FACE: f64 = 86.0;
/// Greatest height of the drawing of its end, mm.
const END: f64 = 92.0;

/// What a part takes at most: its heading, its drawings with their words, its table, its check.
fn about_tall(basis: &Basis, index: usize) -> f64 {
    let part = &basis.work.parts[index];
    let holes = holes_of(basis, index, None).len();
    let used = |face: &usize| !holes_of(basis, index, Some(*face)).is_empty();
    let faces: f64 = (0..part.faces.len())
        .filter(used)
        .map(|face| {
            let face = &part.faces[face];
            // Sizes, marks and words around a face at its largest scale.
            (face.width.to_mm() * largest(face).factor() + 38.0).min(FACE)
        })
        .sum();
    let end = part
        .body
        .bracket()
        .map_or(0.0, |bracket| (bracket.section.a.max(bracket.section.b).to_mm() + 38.0).min(END));
    let check = if holes >= 4 { 17.0 } else { 0.0 };
    let fold = if part.body.fold().is_some() { 200.0 } else { 0.0 };
    let long = if is_long(part) { 300.0 } else { 0.0 };
    12.0 + faces.max(end) + fold + long + 7.0 * (holes + 1) as f64 + check
}

/// Largest scale that a face is drawn at.
fn largest(face: &Face) -> Scale {
    if face.length.to_mm() < 70.0 { Scale::new(2, 1) } else { Scale::FULL }
}

/// Takes so little of a sheet that a like part has room beside it.
fn is_light(basis: &Basis, part: &Part) -> bool {
    let at = basis.work.parts.iter().position(|other| std::ptr::eq(other, part));
    let holes = at.map_or(0, |index| holes_of(basis, index, None).len());
    !is_long(part) || holes <= 8
}

/// Holes of a part, on one face if asked, in the work's order.
fn holes_of<'a>(basis: &Basis<'a>, part: usize, face: Option<usize>) -> Vec<&'a Hole> {
    basis
        .work
        .holes
        .iter()
        .filter(|hole| hole.part == part && face.is_none_or(|face| hole.face == face))
        .collect()
}

/// "L1" or "A1, A3" or "J1 to J4".
pub(super) fn marks(part: &Part) -> String {
    told(part.pieces.iter().map(|piece| piece.mark.as_str()).collect())
}

/// Several marks in words.
pub(super) fn told(mut marks: Vec<&str>) -> String {
    marks.sort_by_key(|mark| facts::mark_order(mark));
    if marks.len() > 3 { facts::marks(&marks) } else { marks.join(", ") }
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The name that a link to a part's sheet has.
pub(super) fn anchor(part: &Part) -> String {
    format!("part-{}", part.pieces.first().map_or("none", |piece| piece.mark.as_str()))
}

fn sheet(basis: &Basis, group: &[usize]) -> Sheet {
    let first = &basis.work.parts[group[0]];
    let mut blocks = Vec::new();
    for index in group {
        let part = &basis.work.parts[*index];
        let mut heading = Heading::new(format!("{} {}", capital(&part.name), marks(part)))
            .aside(about(basis, part));
        if *index != group[0] {
            heading = heading.anchor(anchor(part));
        }
        blocks.push(Block::Heading(heading));
        if holes_of(basis, *index, None).len() > SHORT_TABLE {
            blocks.extend(drawings(basis, *index));
            blocks.push(Block::PageBreak);
        } else if group.len() > 1 {
            // A drawing and its table are on one page.
            blocks.push(Block::WithNext(drawings(basis, *index)));
        } else {
            blocks.extend(drawings(basis, *index));
        }
        blocks.push(Block::Table(holes::table(basis, &[*index])));
        blocks.extend(checks::checks(basis, *index));
        blocks.extend(checks::bearing(basis, *index));
    }
    blocks.push(Block::Paragraph(footnote(basis, group).into()));
    let all = group.iter().flat_map(|index| &basis.work.parts[*index].pieces);
    let all = told(all.map(|piece| piece.mark.as_str()).collect());
    let pieces: usize = group.iter().map(|index| basis.work.parts[*index].pieces.len()).sum();
    let mut names: Vec<&str> = group.iter().map(|i| basis.work.parts[*i].name.as_str()).collect();
    names.dedup();
    let title = match names.as_slice() {
        [one] => format!("{} {all}", capital(one)),
        [one, two] if one.len() + two.len() < 28 => format!("{} and {two}", capital(one)),
        _ => format!("Small parts {all}"),
    };
    let purpose = match pieces {
        1 => "One piece: where its holes are, and how large. The table wins.".to_owned(),
        many => format!("{many} pieces: where their holes are, and how large. The table wins."),
    };
    Sheet {
        anchor: anchor(first),
        title,
        purpose,
        tab: Some(Kind::Part.tab()),
        steps: None,
        blocks,
        single_sided: false,
    }
}

/// Quantity, stuff, mass, and the bars that the pieces come from.
fn about(basis: &Basis, part: &Part) -> String {
    let mut words = vec![match part.pieces.len() {
        1 => "1 piece".to_owned(),
        many => format!("{many} pieces"),
    }];
    match &part.body {
        Body::Bar { section, .. } | Body::Plate { section: Some(section), .. } => {
            words.push(section.words.clone());
        }
        Body::Plate { material, thickness, fold: Some(_), section: None, .. } => {
            words.push(format!("{}, {} thick", material.words, mm(*thickness, 1)));
        }
        Body::Plate { material, .. }
        | Body::Block { material, .. }
        | Body::Wedge { material, .. } => {
            words.push(material.words.clone());
        }
        Body::Bought { .. } | Body::OnVehicle => {}
    }
    let mut bars: Vec<usize> = basis
        .results
        .cuts
        .iter()
        .flat_map(|cuts| &cuts.bars)
        .filter(|bar| bar.cuts.iter().any(|cut| part.pieces.iter().any(|p| p.mark == cut.mark)))
        .map(|bar| bar.number)
        .collect();
    bars.dedup();
    let list: Vec<String> = bars.iter().map(usize::to_string).collect();
    match list.as_slice() {
        [] => {}
        [one] => words.push(format!("from bar {one}")),
        several => words.push(format!("from bars {}", several.join(", "))),
    }
    words.push(if part.mass.to_kg() >= 0.05 {
        format!("{} each", kg(part.mass))
    } else {
        format!("{}\u{a0}g each", display::number(part.mass.to_kg() * 1000.0, 0))
    });
    words.join(", ")
}

fn drawings(basis: &Basis, index: usize) -> Vec<Block> {
    let part = &basis.work.parts[index];
    let faces: Vec<(&Face, Vec<&Hole>)> = part
        .faces
        .iter()
        .enumerate()
        .map(|(number, face)| (face, holes_of(basis, index, Some(number))))
        .filter(|(_, holes)| !holes.is_empty())
        .collect();
    if is_long(part) {
        return faces
            .iter()
            .flat_map(|(face, holes)| strip_views(part, face, holes))
            .map(|scene| Block::Figure(Figure::new(scene, 60.0)))
            .collect();
    }
    let end = end_view(part, facts::bend_limits(part)).or_else(|| wedge_view(part));
    let views: Vec<Block> = faces
        .iter()
        .map(|(face, holes)| {
            let scene = face_view(part, face, holes, largest(face));
            Block::Figure(Figure::new(scene, FACE).at_left())
        })
        .collect();
    if part.body.fold().is_some() {
        return flat::flat(basis, index, end);
    }
    match end {
        Some(end) => vec![Block::Columns(vec![
            Column::new(4, views),
            Column::new(2, vec![Block::Figure(Figure::new(end, END))]),
        ])],
        None => views,
    }
}

fn footnote(basis: &Basis, group: &[usize]) -> String {
    let holes: Vec<&Hole> = group.iter().flat_map(|index| holes_of(basis, *index, None)).collect();
    let mut words =
        "Limits by ISO 2768-1 class c. Bits in the order in which they are used.".to_owned();
    if holes.iter().any(|hole| matches!(hole.drilling, Drilling::Through(_))) {
        words.push_str(
            " “Through” means: clamped to its mate and drilled through the mate’s hole; its X and Y are then a check.",
        );
    }
    if *basis.build.job.units == LengthUnit::Inch {
        words.push_str(" Inches to the nearest 1/32.");
    }
    if holes.iter().any(|hole| hole.countersink.is_some_and(|sink| sink.far_side)) {
        words.push_str(" A dashed ring is a countersink on the far side.");
    }
    words
}
