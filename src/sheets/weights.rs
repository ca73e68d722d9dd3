//! The sheet of masses: what is added, what the roof carries, where the weight lies, and the height.

use super::words::{bare, kg, mm};
use super::{Basis, Kind};
use crate::build::LengthUnit;
use crate::compute::weights::{Placed, RoofUse, WeightLine, Weights};
use crate::page::Sheet;
use crate::page::block::{Block, Cell, Dotted, Heading, KeyFigure, Row, Table, TableColumn};
use crate::units::{Length, Mass, Ratio, display};

/// The sheet; none where nothing is on a roof and nothing heavy has its place stated.
pub(super) fn weights(basis: &Basis) -> Vec<Sheet> {
    let on_roof = !basis.work.arrays.is_empty();
    if !on_roof && basis.results.weights.placed.is_empty() {
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
    blocks.extend(places(weights));
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
    let unplaced = basis.build.battery.as_ref().is_some_and(|battery| battery.centre.is_none());
    if unplaced && weights.shift.is_some() {
        let words = "The battery has no place stated: it is not in the shift.";
        blocks.push(Block::Paragraph(words.into()));
    }
    let leans = if on_roof {
        "A higher, heavier vehicle leans more in bends and side wind, and stops later. "
    } else {
        ""
    };
    blocks.push(Block::Paragraph(
        format!("{leans}Axle loads and papers: by the vehicle's maker and the local codes.").into(),
    ));
    vec![Sheet {
        anchor: "weights".into(),
        title: if on_roof { "Weights and height" } else { "Weights" }.into(),
        purpose: if on_roof {
            "What is added, what the roof carries, how high the vehicle stands."
        } else {
            "What is added, and where it lies."
        }
        .into(),
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
    if weights.roof > Mass::ZERO {
        list.push(KeyFigure::new(kg(weights.roof), "added on the roof"));
    }
    if weights.inside > Mass::ZERO {
        list.push(KeyFigure::new(kg(weights.inside), "added inside"));
    }
    list
}

/// Where what is added lies, and how far the vehicle's own centre of gravity moves by it.
fn places(weights: &Weights) -> Vec<Block> {
    let mut blocks = Vec::new();
    if weights.placed.is_empty() && weights.centre.is_none() {
        return blocks;
    }
    let side = |y: Length| if y < Length::ZERO { "left" } else { "right" };
    let seen = |y: Length| y.abs() >= Length::mm(0.5);
    blocks.push(Block::Heading(
        Heading::new("Where the weight lies")
            .aside("middle of each; minus: left of the centre line"),
    ));
    if !weights.placed.is_empty() {
        blocks.push(Block::Table(moments(weights)));
    }
    let mut rows = Vec::new();
    if let Some(shift) = &weights.shift {
        rows.push((
            "vehicle's centre of gravity over the ground, before".to_owned(),
            mm(shift.before, 0),
        ));
        let way = if shift.up < Length::ZERO { "it sinks by" } else { "it rises by" };
        rows.push((way.to_owned(), mm(shift.up.abs(), 0)));
        if seen(shift.right) {
            rows.push((format!("it moves {} by", side(shift.right)), mm(shift.right.abs(), 0)));
        }
        if let Some(rear) = shift.rear.filter(|rear| seen(*rear)) {
            let way = if rear < Length::ZERO { "forward" } else { "rearward" };
            rows.push((format!("it moves {way} by"), mm(rear.abs(), 0)));
        }
    } else if let Some(centre) = weights.centre.filter(|_| weights.placed.is_empty()) {
        rows.push(("roof’s part behind the datum".to_owned(), mm(centre.x, 0)));
        if seen(centre.y) {
            rows.push((format!("{} of the centre line", side(centre.y)), mm(centre.y.abs(), 0)));
        }
        rows.push(("over the roof's zero height".to_owned(), mm(centre.z, 0)));
    }
    if !rows.is_empty() {
        let rows = rows.into_iter().map(|(label, value)| (label.into(), value.into())).collect();
        blocks.push(Block::Dotted(Dotted { groups: vec![rows] }));
    }
    blocks
}

/// Each thing with its place, and its moments about datum, centre line and ground.
fn moments(weights: &Weights) -> Table {
    let moment =
        |mass: Mass, lever: Length| Cell::from(display::number(mass.to_kg() * lever.to_m(), 1));
    let placed = &weights.placed;
    let mut rows: Vec<Row> = placed
        .iter()
        .map(|one| {
            let (x, y, z) = one.at;
            Row::new(vec![
                one.name.into(),
                display::number(one.mass.to_kg(), 1).into(),
                bare(x, 0).into(),
                bare(y, 0).into(),
                bare(z, 0).into(),
                moment(one.mass, x),
                moment(one.mass, y),
                moment(one.mass, z),
            ])
        })
        .collect();
    if placed.len() > 1 {
        let all: Mass = placed.iter().map(|one| one.mass).sum();
        let sum = |of: fn(&Placed) -> Length| -> Length {
            placed.iter().map(|one| of(one) * (one.mass / all)).sum()
        };
        let at = [sum(|one| one.at.0), sum(|one| one.at.1), sum(|one| one.at.2)];
        let mut cells =
            vec![Cell::Head("together".into()), Cell::Bold(display::number(all.to_kg(), 1).into())];
        cells.extend(at.map(|place| Cell::from(bare(place, 0))));
        cells.extend(at.map(|place| moment(all, place)));
        rows.push(Row::new(cells));
    }
    Table {
        columns: vec![
            TableColumn::left("what"),
            TableColumn::number("mass, kg"),
            TableColumn::number("behind datum, mm"),
            TableColumn::number("right, mm"),
            TableColumn::number("over ground, mm"),
            TableColumn::number("moment along, kg·m"),
            TableColumn::number("across"),
            TableColumn::number("up"),
        ],
        rows,
        ..Table::default()
    }
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
