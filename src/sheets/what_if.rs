//! What a size that differs on the day changes, and what a printed bar says of the printer.

use super::template::printed::{BAR, TRUE_WITHIN};
use super::{Basis, Kind};
use crate::page::Sheet;
use crate::page::block::{Block, Cell, Heading, Row, Table, TableColumn};
use crate::units::display;

/// The sheet; none where nothing is measured first.
pub(super) fn what_if(basis: &Basis) -> Vec<Sheet> {
    let strips = &basis.results.what_if;
    if strips.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![Block::Paragraph(
        "A difference that no column holds goes into the build file, and the packet is printed anew. \
         Differences of two kinds do not add up here."
            .into(),
    )];
    for strip in strips {
        blocks.push(Block::Heading(Heading::new(strip.title.as_str()).aside(strip.aside.as_str())));
        let mut columns = vec![TableColumn::left(strip.what)];
        columns.extend(strip.heads.iter().map(|head| TableColumn::number(head.as_str())));
        let rows =
            strip.rows.iter().map(|(name, cells)| {
                let mut row = vec![Cell::Head(name.as_str().into())];
                row.extend(
                    cells.iter().map(|cell| {
                        if cell.is_empty() { Cell::Dash } else { cell.as_str().into() }
                    }),
                );
                Row::new(row)
            });
        blocks.push(Block::Table(Table { columns, rows: rows.collect(), ..Table::default() }));
    }
    blocks.push(Block::Heading(
        Heading::new("Printed bar and true size").aside("long bar of a template, 200 mm"),
    ));
    blocks.push(Block::Table(bars()));
    blocks.push(Block::Strong("List complete. Next: the shopping sheet.".into()));
    vec![Sheet {
        anchor: "what-if".into(),
        title: "If a size differs".into(),
        purpose: "Each table is the plan worked out anew with one size changed.".into(),
        tab: Some(Kind::Measure.tab()),
        steps: None,
        blocks,
        single_sided: false,
    }]
}

/// What a measured bar makes of a length of 160 mm, and what is done about it.
fn bars() -> Table {
    const HOLES: f64 = 160.0;
    let rows = [-8.0, -2.0, -1.0, -0.5, 0.0, 0.5, 1.0, 2.0].map(|off: f64| {
        let measured = BAR + off;
        let todo = if off.abs() <= TRUE_WITHIN {
            "use it".to_owned()
        } else if off < -5.0 {
            "fitted to the page: print at 100 %".to_owned()
        } else {
            format!("print with --printed, height {}", display::number(measured, 1))
        };
        Row::new(vec![
            Cell::Head(display::number(measured, 1).into()),
            display::number(HOLES * measured / BAR, 1).into(),
            display::number((HOLES * measured / BAR - HOLES).abs(), 1).into(),
            todo.into(),
        ])
    });
    Table {
        columns: vec![
            TableColumn::number("bar measured, mm"),
            TableColumn::number("160 mm come out as, mm"),
            TableColumn::number("off by, mm"),
            TableColumn::left("what to do"),
        ],
        rows: rows.into(),
        ..Table::default()
    }
}
