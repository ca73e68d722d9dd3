//! How each deciding figure was worked out, and where it comes from.

use super::{Basis, Kind};
use crate::compute::defaults::Taken;
use crate::page::Sheet;
use crate::page::block::{Block, Cell, Column, Heading, Row, Table, TableColumn};
use crate::source::{Figure, Seen};
use crate::units::display;

/// One block a figure that decides something, two columns.
pub(super) fn worked_out(basis: &Basis) -> Vec<Sheet> {
    let figures: Vec<&Figure> = basis
        .results
        .ledger
        .iter()
        // The mass of parts decides nothing where there is no roof that carries them.
        .filter(|f| f.decides && !(basis.build.is_bench_work() && f.id.starts_with("weights.")))
        .collect();
    let taken = &basis.results.defaults;
    let own = basis.build.rows.iter().any(|row| row.origin.is_readers());
    if figures.is_empty() && taken.is_empty() && !own {
        return Vec::new();
    }
    let mut blocks = vec![Block::Paragraph(
        "Values marked “from memory” or “common practice” have no source that was read; the maker’s \
         own sheet wins over them."
            .into(),
    )];
    if !taken.is_empty() {
        blocks.push(Block::Heading(
            Heading::new("Taken where the build file says nothing")
                .aside("a line of its own in the build file wins"),
        ));
        blocks.push(Block::Table(defaults(taken)));
    }
    if let Some(own) = own_rows(basis) {
        blocks.push(Block::Heading(
            Heading::new("From tables of your own")
                .aside("each value in them is yours to answer for"),
        ));
        blocks.push(Block::Table(own));
    }
    if blocks.len() > 1 && !figures.is_empty() {
        blocks.push(Block::Heading(Heading::new("Figures that decide")));
    }
    let mut alone: Vec<&Figure> = Vec::new();
    for group in alike(&figures) {
        if let [figure] = group[..] {
            alone.push(figure);
            continue;
        }
        side_by_side(&mut alone, &mut blocks);
        together(&group, &mut blocks);
    }
    side_by_side(&mut alone, &mut blocks);
    vec![Sheet {
        anchor: "worked-out".into(),
        title: "How it was worked out".into(),
        purpose: "Formula, numbers, result and source of each figure that decides something."
            .into(),
        tab: Some(Kind::Worked.tab()),
        steps: None,
        blocks,
        single_sided: false,
    }]
}

/// Values that were filled in, each with its ground.
fn defaults(taken: &[Taken]) -> Table {
    let rows = taken
        .iter()
        .map(|value| {
            let of = if value.of.is_empty() { Cell::Dash } else { value.of.clone().into() };
            Row::new(vec![
                Cell::Head(value.key.into()),
                of,
                Cell::Bold(value.value.clone().into()),
                value.ground.into(),
            ])
        })
        .collect();
    Table {
        columns: vec![
            TableColumn::left("key"),
            TableColumn::left("of"),
            TableColumn::left("value"),
            TableColumn::left("ground"),
        ],
        rows,
        ..Table::default()
    }
}

/// Rows of the reader's own tables that the build names; nothing where there are none.
fn own_rows(basis: &Basis) -> Option<Table> {
    let rows: Vec<Row> = basis
        .build
        .rows
        .iter()
        .filter(|row| row.origin.is_readers())
        .map(|row| {
            Row::new(vec![
                Cell::Head(row.key.clone().into()),
                Cell::Bold(row.name.clone().into()),
                row.origin.source.clone().into(),
            ])
        })
        .collect();
    (!rows.is_empty()).then(|| Table {
        columns: vec![
            TableColumn::left("key"),
            TableColumn::left("row"),
            TableColumn::left("source and table"),
        ],
        rows,
        ..Table::default()
    })
}

/// Figures that were worked out in the same way, in the order of the first of each.
fn alike<'a>(figures: &[&'a Figure]) -> Vec<Vec<&'a Figure>> {
    let mut groups: Vec<Vec<&Figure>> = Vec::new();
    for figure in figures {
        let same = |other: &Figure| {
            !figure.formula.is_empty()
                && figure.formula == other.formula
                && figure.source == other.source
                && figure.assumptions == other.assumptions
                && figure.unit == other.unit
        };
        match groups.iter_mut().find(|group| same(group[0])) {
            Some(group) => group.push(figure),
            None => groups.push(vec![figure]),
        }
    }
    groups
}

/// Single figures in two columns.
fn side_by_side(alone: &mut Vec<&Figure>, blocks: &mut Vec<Block>) {
    for pair in alone.chunks(2) {
        blocks.push(Block::Columns(
            pair.iter().map(|figure| Column::new(3, entry(figure))).collect(),
        ));
    }
    alone.clear();
}

/// Figures of one formula: the formula once, then a row each.
fn together(group: &[&Figure], blocks: &mut Vec<Block>) {
    let first = group[0];
    let mut words = vec![sourced(first)];
    words.extend(first.assumptions.iter().map(|taken| format!("taken: {taken}")));
    blocks.push(Block::WithNext(vec![
        Block::Strong(first.formula.clone().into()),
        Block::Paragraph(words.join(" · ").into()),
    ]));
    let value =
        if first.unit.is_empty() { "value".to_owned() } else { format!("value, {}", first.unit) };
    let decimals = group.iter().map(|figure| shown_decimals(figure.value)).max().unwrap_or(0);
    blocks.push(Block::Table(Table {
        columns: vec![
            TableColumn::left("what"),
            TableColumn::left("put in"),
            TableColumn::number(value),
        ],
        rows: group
            .iter()
            .map(|figure| {
                let inputs: Vec<String> = figure
                    .inputs
                    .iter()
                    .map(|(symbol, value)| format!("{symbol}: {value}"))
                    .collect();
                Row::new(vec![
                    figure.label.clone().into(),
                    if inputs.is_empty() { Cell::Dash } else { inputs.join(" · ").into() },
                    Cell::Bold(display::number(figure.value, decimals).into()),
                ])
            })
            .collect(),
        ..Table::default()
    }));
}

/// Four figures, as a rule of thumb for what a workshop can use.
fn number(value: f64) -> String {
    display::number_short(value, decimals(value))
}

fn decimals(value: f64) -> usize {
    if value == 0.0 { 0 } else { (3 - value.abs().log10().floor() as i32).clamp(0, 4) as usize }
}

/// Decimals of a value as printed alone; values under each other have as many as the one with most.
fn shown_decimals(value: f64) -> usize {
    number(value).split_once('.').map_or(0, |(_, behind)| behind.chars().count())
}

/// Where it comes from and how well that is known.
fn sourced(figure: &Figure) -> String {
    match figure.seen {
        Seen::Computed => figure.source.clone(),
        seen => format!("{} ({})", figure.source, seen.name()),
    }
}

fn entry(figure: &Figure) -> Vec<Block> {
    let unit =
        if figure.unit.is_empty() { String::new() } else { format!("\u{a0}{}", figure.unit) };
    let mut words = Vec::new();
    if !figure.formula.is_empty() {
        words.push(figure.formula.clone());
    }
    words.extend(figure.inputs.iter().map(|(symbol, value)| format!("{symbol}: {value}")));
    words.push(sourced(figure));
    words.extend(figure.assumptions.iter().map(|taken| format!("taken: {taken}")));
    vec![
        Block::Strong(format!("{}: {}{unit}", figure.label, number(figure.value)).into()),
        Block::Paragraph(words.join(" · ").into()),
    ]
}
