//! Hole tables.

use super::{anchor, capital, holes_of, is_made};
use crate::build::LengthUnit;
use crate::derive::{Drilling, Hole, PartKind};
use crate::page::Sheet;
use crate::page::block::{Block, Cell, ColumnWidth, Heading, Row, Table, TableColumn};
use crate::page::text::Text;
use crate::sheets::words::{bare, bare_inches};
use crate::sheets::{Basis, Kind};
use crate::units::{Length, display};

/// Pieces that have a column of boxes each, if their marks are short; more share one.
const BOXES: usize = 4;

/// The table of some parts' holes.
pub(super) fn table(basis: &Basis, parts: &[usize]) -> Table {
    let inch = *basis.build.job.units == LengthUnit::Inch;
    let boxes: Vec<String> = match parts {
        [one] => {
            let pieces = &basis.work.parts[*one].pieces;
            let ready = holes_of(basis, *one, None).iter().all(|h| h.drilling == Drilling::Ready);
            let long = pieces.iter().any(|piece| piece.mark.chars().count() > 3);
            if ready {
                Vec::new()
            } else if pieces.len() > BOXES || pieces.len() == 1 || long || inch {
                vec!["done".into()]
            } else {
                pieces.iter().map(|piece| piece.mark.clone()).collect()
            }
        }
        _ => vec!["done".into()],
    };
    let holes: Vec<&Hole> = parts.iter().flat_map(|part| holes_of(basis, *part, None)).collect();
    let sunk = holes.iter().any(|hole| hole.countersink.is_some());
    let faces = parts.iter().any(|part| {
        let used = |face: usize| holes.iter().any(|h| h.part == *part && h.face == face);
        (0..basis.work.parts[*part].faces.len()).filter(|face| used(*face)).count() > 1
    });
    let mut columns = vec![TableColumn::left("id")];
    if faces {
        columns.push(TableColumn::left("face"));
    }
    columns.push(TableColumn::number("X, mm"));
    columns.push(TableColumn::number("Y, mm"));
    if inch {
        columns.push(TableColumn::right("X, in"));
        columns.push(TableColumn::right("Y, in"));
    }
    columns.push(TableColumn::left("bits, mm"));
    if sunk {
        columns.push(TableColumn::left("countersink, mm"));
    }
    columns.push(TableColumn::left("drilled"));
    let many = holes.iter().any(|hole| hole.mates.len() > 2);
    columns.push(TableColumn::left("mates").width(match (inch && many, boxes.len() > 3) {
        (true, _) => ColumnWidth::Mm(19.8),
        (_, true) => ColumnWidth::AtMost(30.0),
        _ => ColumnWidth::AtMost(44.0),
    }));
    columns.extend(boxes.iter().map(|mark| TableColumn::centre(mark.clone())));
    let mut rows = Vec::new();
    for (index, hole) in holes.iter().enumerate() {
        let part = &basis.work.parts[hole.part];
        let mut cells = vec![Cell::Head(hole.id.clone().into())];
        if faces {
            cells.push(part.faces.get(hole.face).map_or(Cell::Dash, |f| f.name.clone().into()));
        }
        cells.push(bare(hole.at.x, 1).into());
        cells.push(bare(hole.at.y, 1).into());
        if inch {
            for size in [hole.at.x, hole.at.y] {
                cells.push(bare_inches(size).into());
            }
        }
        cells.push(bits(&hole.drills, inch));
        if sunk {
            cells.push(sink(hole));
        }
        cells.push(drilled(hole));
        cells.push(mates(basis, hole));
        cells.extend(boxes.iter().map(|_| Cell::Tick));
        let row = Row::new(cells);
        let ends = holes.get(index + 1).is_none_or(|next| {
            (next.part, next.face) != (hole.part, hole.face) && !alternating(&holes)
        });
        rows.push(if ends { row.ends_group() } else { row });
    }
    // A single group needs rules of its own.
    if rows.iter().filter(|row| row.ends_group).count() <= 1 {
        for row in &mut rows {
            row.ends_group = false;
        }
    }
    Table { columns, rows, ..Table::default() }
}

/// Faces change from row to row, as where every hole has one opposite: then groups say nothing.
fn alternating(holes: &[&Hole]) -> bool {
    let changes = holes.windows(2).filter(|pair| pair[0].face != pair[1].face).count();
    changes * 3 > holes.len()
}

/// Bits in their order; beside inches a long list may take two lines.
fn bits(drills: &[Length], may_break: bool) -> Cell {
    if drills.is_empty() {
        return Cell::Dash;
    }
    let list: Vec<String> =
        drills.iter().map(|drill| display::number_short(drill.to_mm(), 2)).collect();
    list.join(if may_break { ", " } else { ",\u{a0}" }).into()
}

fn sink(hole: &Hole) -> Cell {
    hole.countersink.map_or(Cell::Dash, |sink| {
        let side = if sink.far_side { "far side" } else { "this side" };
        format!("{}, {side}", display::number_short(sink.diameter.to_mm(), 1)).into()
    })
}

fn drilled(hole: &Hole) -> Cell {
    match &hole.drilling {
        Drilling::Apart => "apart".into(),
        Drilling::Through(mate) => format!("through\u{a0}{mate}").into(),
        Drilling::Ready => "bought ready".into(),
    }
}

/// The holes that a hole meets, each leading to the sheet of its part.
fn mates(basis: &Basis, hole: &Hole) -> Cell {
    if hole.mates.is_empty() {
        return Cell::Dash;
    }
    let mut told = Text::default();
    for (index, id) in hole.mates.iter().enumerate() {
        if index > 0 {
            told = told.and(", ");
        }
        told = match basis.work.hole(id).filter(|mate| mate.part != hole.part) {
            Some(mate) => told.and_link(id.as_str(), sheet_of(basis, mate.part)),
            None => told.and(id.as_str()),
        };
    }
    told.into()
}

/// The anchor of the sheet with a part's holes.
fn sheet_of(basis: &Basis, index: usize) -> String {
    let part = &basis.work.parts[index];
    if is_made(part) { anchor(part) } else { anchor_of(basis, index) }
}

/// Holes in what is bought or on the vehicle: panels, rail, roof. They are drilled in place.
pub(super) fn in_place(basis: &Basis) -> Option<Sheet> {
    let parts: Vec<usize> = basis
        .work
        .parts
        .iter()
        .enumerate()
        .filter(|(index, part)| !is_made(part) && !holes_of(basis, *index, None).is_empty())
        .map(|(index, _)| index)
        .collect();
    let first = parts.first()?;
    let mut blocks = Vec::new();
    for index in &parts {
        let part = &basis.work.parts[*index];
        let seen = part.faces.first().map_or(String::new(), |face| face.seen.clone());
        let aside = match part.kind {
            PartKind::Rail => {
                "X and Y from the front corner of the rail under each hinge".to_owned()
            }
            PartKind::Skin => "X from the datum, Y from the left edge of the roof".to_owned(),
            PartKind::SkinUnderFoot => {
                "X and Y from the corner of the leg; from the datum: roof sheet".to_owned()
            }
            PartKind::Hinge => "bought with its holes".to_owned(),
            _ => seen,
        };
        let marks =
            if matches!(part.kind, PartKind::Rail | PartKind::Skin | PartKind::SkinUnderFoot) {
                String::new()
            } else {
                format!(" {}", super::marks(part))
            };
        let heading = Heading::new(format!("{}{marks}", capital(&part.name))).aside(aside);
        let heading =
            if index == first { heading } else { heading.anchor(anchor_of(basis, *index)) };
        blocks.push(Block::Heading(heading));
        blocks.push(Block::Table(table(basis, &[*index])));
    }
    blocks.push(Block::Paragraph(
        "“Through” means drilled in place, through its mate; X and Y tell where the hole comes out.".into(),
    ));
    Some(Sheet {
        anchor: anchor_of(basis, *first),
        title: "Holes drilled in place".into(),
        purpose: "Holes in what is bought or on the vehicle already, as a check.".into(),
        tab: Some(Kind::Part.tab()),
        steps: None,
        blocks,
        single_sided: false,
    })
}

fn anchor_of(basis: &Basis, index: usize) -> String {
    anchor(&basis.work.parts[index]).replace(' ', "-")
}
