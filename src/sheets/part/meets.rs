//! The check that the parts meet: mating holes put together in space, and clashes looked for.

use crate::derive::{JointCheck, SLACK, clashes, joint_checks};
use crate::page::Sheet;
use crate::page::block::{Block, Cell, ColumnWidth, Heading, Row, Table, TableColumn};
use crate::sheets::words::{bare, mm};
use crate::sheets::{Basis, Kind};
use crate::units::display;

/// The sheet; none where nothing is joined.
pub(super) fn meets(basis: &Basis) -> Option<Sheet> {
    let joints = joint_checks(basis.work);
    if joints.is_empty() {
        return None;
    }
    let pairs: usize = joints.iter().map(|joint| joint.pairs).sum();
    let mut blocks = vec![
        Block::Heading(
            Heading::new("Mating holes").aside(format!("{pairs} pairs, put together in space")),
        ),
        Block::Table(holes(&joints)),
        Block::Paragraph(
            format!(
                "Worked out from the part sheets alone; each value is the worst of its joint. Sound means within {}. What drilling by hand adds is on the part sheets: “through” where it would be too much.",
                mm(SLACK, 2)
            )
            .into(),
        ),
    ];
    let found = clashes(basis.work);
    if !found.is_empty() {
        let rows = found.iter().map(|check| {
            let (room, between) =
                check.least.as_ref().map_or((Cell::Dash, Cell::Dash), |(room, between)| {
                    (bare(*room, 1).into(), between.as_str().into())
                });
            let result = if check.is_clear() { "clear" } else { "CLASH" };
            Row::new(vec![
                Cell::Head(check.what.into()),
                check.looked.to_string().into(),
                room,
                between,
                result.into(),
            ])
        });
        blocks.push(Block::Heading(
            Heading::new("Clashes looked for").aside("least room between two things"),
        ));
        blocks.push(Block::Table(Table {
            columns: vec![
                TableColumn::left("clash").width(ColumnWidth::AtMost(48.0)),
                TableColumn::right("looked at"),
                TableColumn::number("least room, mm"),
                TableColumn::left("where").width(ColumnWidth::AtMost(56.0)),
                TableColumn::left("result"),
            ],
            rows: rows.collect(),
            ..Table::default()
        }));
    }
    Some(Sheet {
        anchor: "meets".into(),
        title: "Do the parts meet".into(),
        purpose: "Everything put together by computation before anything is cut.".into(),
        tab: Some(Kind::Part.tab()),
        steps: None,
        blocks,
        single_sided: false,
    })
}

fn holes(joints: &[JointCheck]) -> Table {
    let rows = joints.iter().map(|joint| {
        Row::new(vec![
            Cell::Head(joint.name.as_str().into()),
            joint.pairs.to_string().into(),
            bare(joint.off_axis, 3).into(),
            display::number(joint.askew.to_deg(), 2).into(),
            bare(joint.gap, 3).into(),
            if joint.sound { "sound" } else { "OFF" }.into(),
        ])
    });
    Table {
        columns: vec![
            TableColumn::left("joint"),
            TableColumn::right("pairs"),
            TableColumn::number("off axis, mm"),
            TableColumn::number("askew, °"),
            TableColumn::number("layers miss, mm"),
            TableColumn::left("result"),
        ],
        rows: rows.collect(),
        ..Table::default()
    }
}
