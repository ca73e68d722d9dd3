//! The sheet of masses: what is added, what the roof carries, where the weight lies, and the height.

use super::words::{kg, mm};
use super::{Basis, Kind};
use crate::build::LengthUnit;
use crate::compute::weights::{RoofUse, WeightLine, Weights};
use crate::page::Sheet;
use crate::page::block::{Block, Cell, Dotted, Heading, KeyFigure, Row, Table, TableColumn};
use crate::units::{Length, Mass, Ratio, display};

/// The sheet; none without an array on the roof.
pub(super) fn weights(basis: &Basis) -> Vec<Sheet> {
    if basis.work.arrays.is_empty() {
        return Vec::new();
    }
    let weights = &basis.results.weights;
    let mut blocks = vec![Block::KeyFigures(key_figures(basis, weights))];
    for (on_roof, words, all) in
        [(true, "Added on the roof", weights.roof), (false, "Added inside", weights.inside)]
    {
        let lines: Vec<&WeightLine> =
            weights.lines.iter().filter(|line| line.on_roof == on_roof).collect();
        if !lines.is_empty() {
            blocks.push(Block::Heading(Heading::new(words)));
            blocks.push(Block::Table(added(basis, &lines, all)));
        }
    }
    if let Some(limits) = &weights.limits {
        blocks.push(Block::Heading(
            Heading::new("What the roof carries").aside("limits by the vehicle's papers"),
        ));
        blocks.push(Block::Table(carried(weights.roof, limits)));
    }
    if let Some(centre) = weights.centre {
        blocks.push(Block::Heading(
            Heading::new("Where the weight lies").aside("middle of what is added on the roof"),
        ));
        let side = |y: Length| if y < Length::ZERO { "left" } else { "right" };
        let seen = |y: Length| y.abs() >= Length::mm(0.5);
        let mut rows = vec![("behind the datum".to_owned(), mm(centre.x, 0))];
        if seen(centre.y) {
            rows.push((format!("{} of the centre line", side(centre.y)), mm(centre.y.abs(), 0)));
        }
        if let Some(shift) = &weights.shift {
            if let Some(added) = shift.added {
                rows.push(("over the ground".into(), mm(added, 0)));
            }
            if let Some(battery) = shift.battery {
                rows.push(("middle of the battery, over the ground".into(), mm(battery, 0)));
            }
            rows.push(("vehicle's centre of gravity, before".into(), mm(shift.before, 0)));
            rows.push(("it rises by".into(), mm(shift.up, 0)));
            if seen(shift.right) {
                rows.push((format!("it moves {} by", side(shift.right)), mm(shift.right.abs(), 0)));
            }
        } else {
            rows.push(("over the roof's zero height".into(), mm(centre.z, 0)));
        }
        let rows = rows.into_iter().map(|(label, value)| (label.into(), value.into())).collect();
        blocks.push(Block::Dotted(Dotted { groups: vec![rows] }));
    }
    let unplaced = basis.build.battery.as_ref().is_some_and(|battery| battery.centre.is_none());
    if unplaced && weights.shift.is_some() {
        blocks.push(Block::Paragraph(
            "The battery’s place is not stated (`centre`): its weight is not in the move.".into(),
        ));
    }
    let lacks: Vec<&str> = [
        ("the controller", basis.build.controller.as_ref().is_some_and(|own| own.mass.is_none())),
        ("the entry’s housing", basis.build.entry.as_ref().is_some_and(|own| own.mass.is_none())),
    ]
    .into_iter()
    .filter_map(|(what, lacks)| lacks.then_some(what))
    .collect();
    if !lacks.is_empty() {
        blocks.push(Block::Paragraph(
            format!("No mass is stated for {}: not counted.", lacks.join(" and ")).into(),
        ));
    }
    blocks.push(Block::Paragraph(
        "A higher, heavier vehicle leans more in bends and side wind, and stops later. Axle loads and papers: by the vehicle's maker and the local codes.".into(),
    ));
    vec![Sheet {
        anchor: "weights".into(),
        title: "Weights and height".into(),
        purpose: "What is added, what the roof carries, how high the vehicle stands.".into(),
        tab: Some(Kind::Weights.tab()),
        steps: None,
        blocks,
        single_sided: false,
    }]
}

fn key_figures(basis: &Basis, weights: &Weights) -> Vec<KeyFigure> {
    let mut list = Vec::new();
    if let Some((before, after)) = weights.height {
        let mut words = format!("height; was {}", display::clearance_height(before));
        if *basis.build.job.units == LengthUnit::Inch {
            words = format!("or {}, {words}", display::clearance_feet(after));
        }
        list.push(KeyFigure::new(display::clearance_height(after), words));
    }
    list.push(KeyFigure::new(kg(weights.roof), "added on the roof"));
    if weights.inside > Mass::ZERO {
        list.push(KeyFigure::new(kg(weights.inside), "added inside"));
    }
    list
}

/// What is added in one of the two places.
fn added(basis: &Basis, lines: &[&WeightLine], all: Mass) -> Table {
    let inches = *basis.build.job.units == LengthUnit::Inch;
    let row = |what: Cell, count: Cell, mass: Mass| {
        let kilos = display::number(mass.to_kg(), 2);
        let mut cells = vec![what, count, Cell::Bold(kilos.into())];
        if inches {
            cells.push(display::number(mass.to_lb(), 1).into());
        }
        Row::new(cells)
    };
    let mut rows: Vec<Row> = lines
        .iter()
        .map(|line| {
            let count = line.count.map_or("–".into(), |count| count.to_string().into());
            row(line.name.clone().into(), count, line.all)
        })
        .collect();
    rows.push(row(Cell::Head("together".into()), Cell::Dash, all));
    let mut columns = vec![
        TableColumn::left("what"),
        TableColumn::number("pieces"),
        TableColumn::number("mass, kg"),
    ];
    if inches {
        columns.push(TableColumn::number("mass, lb"));
    }
    Table { columns, rows, ..Table::default() }
}

fn carried(roof: Mass, limits: &RoofUse) -> Table {
    let row = |words: &str, load: Mass, (most, share): (Mass, Ratio)| {
        Row::new(vec![
            Cell::Head(words.into()),
            display::number(load.to_kg(), 1).into(),
            display::number(most.to_kg(), 1).into(),
            Cell::Bold(display::capacity_used(share.to_fraction()).into()),
        ])
    };
    let standing = limits.standing.0 * limits.standing.1.to_fraction();
    Table {
        columns: vec![
            TableColumn::left("when"),
            TableColumn::number("carries, kg"),
            TableColumn::number("may carry, kg"),
            TableColumn::number("use"),
        ],
        rows: vec![
            row("while driving", roof, limits.moving),
            row(limits.at_rest(), standing, limits.standing),
        ],
        ..Table::default()
    }
}
