//! The flat of a bent bracket: where it is bent, and its holes before the bend.

use super::holes_of;
use crate::derive::Hole;
use crate::geometry::Point2;
use crate::page::block::{Block, Cell, Column, Figure, Row, Table, TableColumn};
use crate::page::scene::Scene;
use crate::sheets::Basis;
use crate::sheets::scenes::flat_view;
use crate::sheets::words::{bare, mm};
use crate::units::display;

/// Drawing, holes and bend of the flat, and the bent bracket from its end; nothing for what is not bent.
pub(super) fn flat(basis: &Basis, index: usize, end: Option<Scene>) -> Vec<Block> {
    let part = &basis.work.parts[index];
    let Some(fold) = part.body.fold() else { return Vec::new() };
    let holes: Vec<(&Hole, Point2)> = holes_of(basis, index, None)
        .into_iter()
        .map(|hole| {
            let standing = part.faces[hole.face].name == "standing leg";
            (hole, fold.on_flat(hole.at, standing))
        })
        .collect();
    let Some(scene) = flat_view(part, &holes) else { return Vec::new() };
    let rows = holes.iter().map(|(hole, at)| {
        Row::new(vec![
            Cell::Head(hole.id.clone().into()),
            bare(at.x, 1).into(),
            bare(at.y, 1).into(),
        ])
    });
    let table = Table {
        columns: vec![
            TableColumn::left("flat"),
            TableColumn::number("X, mm"),
            TableColumn::number("from end, mm"),
        ],
        rows: rows.collect(),
        ..Table::default()
    };
    let (begins, ends) = fold.lines();
    let words = format!(
        "The flat has its marks and holes before it is bent, seen on its inside face; the bend goes towards them: through {}°, from the line at {} to that at {} from the end of the standing leg, round {}. The table below is a check of the bent bracket, X and Y from the zero end and the heel.",
        display::number_short(fold.bend.through.to_deg(), 1),
        bare(begins, 1),
        mm(ends, 1),
        mm(fold.bend.inside, 1)
    );
    let mut blocks = vec![
        Block::Columns(vec![
            Column::new(4, vec![Block::Figure(Figure::new(scene, 120.0).at_left())]),
            Column::new(
                2,
                std::iter::once(Block::Table(table))
                    .chain(end.map(|end| Block::Figure(Figure::new(end, 70.0))))
                    .collect(),
            ),
        ]),
        Block::Paragraph(words.into()),
    ];
    blocks.extend(super::checks::of_flat(&holes));
    blocks
}
