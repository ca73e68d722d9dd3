//! The record: what was really done beside what was planned, who signed for it, and when to look again.

mod booklet;
mod looks;
mod recorded;

pub(super) use booklet::booklet;
pub(super) use looks::ready;

use self::looks::looks;
use super::step::StepBasis;
use super::words::wait;
use crate::build::Build;
use crate::compute::cure::Stage;
use crate::compute::steps::recorded::{record_of, values_of};
use crate::compute::steps::{Action, Step};
use crate::page::block::{
    Blank, BlankWidth, Block, Cell, ColumnWidth, Heading, Row, Table, TableColumn,
};
use crate::page::text::Text;
use crate::page::{Sheet, Tab};
use jiff::civil::Date;

/// The record sheets; none where there are no steps. `ready` is the first day of driving by the plan.
pub fn record(basis: &StepBasis<'_>, ready: Option<Date>, tab: &Tab) -> Vec<Sheet> {
    if basis.steps.steps.is_empty() {
        return Vec::new();
    }
    let mut sheets = vec![as_built(basis, tab)];
    sheets.extend(recorded::recorded(basis, tab));
    // Work at the bench leaves nothing on a vehicle to look at.
    if !looks(basis).is_empty() {
        sheets.push(inspection(basis, ready, tab));
    }
    sheets
}

fn sheet(anchor: &str, title: &str, purpose: &str, tab: &Tab, blocks: Vec<Block>) -> Sheet {
    Sheet {
        anchor: anchor.into(),
        title: title.into(),
        purpose: purpose.into(),
        tab: Some(tab.clone()),
        steps: None,
        blocks,
        single_sided: true,
    }
}

/// What was done: values that decide, batches, waits, changes, signatures.
fn as_built(basis: &StepBasis<'_>, tab: &Tab) -> Sheet {
    let mut blocks = Vec::new();
    let measured = measured(basis.build, &basis.steps.steps);
    if !measured.rows.is_empty() {
        blocks.push(Block::Heading(
            Heading::new("Measured").aside("planned low and high beside each blank"),
        ));
        blocks.push(Block::Table(measured));
    }
    let waits = waits(basis);
    if !waits.rows.is_empty() {
        blocks.push(Block::Heading(
            Heading::new("Joints")
                .aside("waits as planned; copied from the cure cards of the bond sheets"),
        ));
        blocks.push(Block::Table(waits));
    }
    let stuff = stuff(basis);
    if !stuff.rows.is_empty() {
        blocks.push(Block::Heading(Heading::new("Batches")));
        blocks.push(Block::Table(stuff));
    }
    blocks.push(Block::Heading(Heading::new("Changed against the plan, photographs")));
    blocks.push(Block::Blanks(vec![Blank::of(BlankWidth::Line, "changes").high(38.0)]));
    blocks.push(Block::Blanks(vec![
        Blank::of(BlankWidth::Line, "photographs, by number").high(18.0),
    ]));
    blocks.push(Block::Heading(Heading::new("Signed for")));
    for role in ["done by", "checked by"] {
        blocks.push(Block::Blanks(vec![
            Blank::of(BlankWidth::Long, role),
            Blank::of(BlankWidth::Date, "date"),
            Blank::of(BlankWidth::Short, "initials"),
        ]));
    }
    let next = if looks(basis).is_empty() { "" } else { " Next: the inspection sheet." };
    blocks.push(Block::Strong(format!("List complete.{next}").into()));
    sheet(
        "record",
        "What was really done",
        "Filled in as the work goes; it stays with the vehicle.",
        tab,
        blocks,
    )
}

/// Columns of a table of values measured, each between its limits.
pub(super) fn measured_columns() -> Vec<TableColumn> {
    vec![
        TableColumn::left("no."),
        TableColumn::left("what").width(ColumnWidth::AtMost(62.0)),
        TableColumn::number("low"),
        TableColumn::number("high"),
        TableColumn::left("measured").width(ColumnWidth::Mm(48.0)),
    ]
}

/// A limit, or a dash where there is none.
pub(super) fn limit(value: &str) -> Cell {
    if value.is_empty() { Cell::Dash } else { value.into() }
}

/// Every action that ends in a measured value, by step.
fn measured(build: &Build, steps: &[Step]) -> Table {
    let mut table = Table { columns: measured_columns(), ..Table::default() };
    for step in steps {
        let first = table.rows.len();
        for action in step.actions() {
            let Some(done) = action.done.as_ref().filter(|done| worth_writing(step, done)) else {
                continue;
            };
            table.rows.push(Row::new(vec![
                Cell::Head(action.number.to_string().into()),
                format!("{}: {}", step.title, done.words).into(),
                limit(&done.low),
                limit(&done.high),
                found(build, step, action, &done.unit),
            ]));
        }
        if table.rows.len() > first
            && let Some(last) = table.rows.last_mut()
        {
            last.ends_group = true;
        }
    }
    table
}

/// The values that were recorded for an action, or a blank.
fn found(build: &Build, step: &Step, action: &Action, unit: &str) -> Cell {
    let record = record_of(build, step);
    let values = record.map_or_else(Vec::new, |record| values_of(record, step, action));
    let told: Vec<&str> = values.iter().map(|value| value.value.as_str()).collect();
    if told.is_empty() { Cell::Blank(unit.to_owned()) } else { Cell::Bold(told.join(", ").into()) }
}

/// Values that a later question will be about: joints, bonds, places, voltages. Sizes of parts are
/// checked where they are made and need no record.
pub(super) fn worth_writing(step: &Step, done: &crate::compute::steps::Done) -> bool {
    let kept = matches!(
        step.key.as_str(),
        "feet"
            | "frame"
            | "dry-fit"
            | "hinges"
            | "bond"
            | "entry"
            | "fixture-holes"
            | "fixture-fit"
            | "bolt"
            | "tether"
            | "connect"
            | "check"
    );
    let measured = matches!(done.unit.as_str(), "N·m" | "V" | "A" | "N" | "°")
        || done.words.contains("gap")
        || done.words.contains("diagonal")
        || done.words.contains("clearance")
        || done.words.contains("edge")
        || done.words.contains("height");
    kept && measured && (done.measured() || done.unit == "N·m")
}

/// Every bond, seal and locked thread with its planned waits, and when it was really made and driven
/// with; load, air and humidity of each stand on its cure card.
fn waits(basis: &StepBasis<'_>) -> Table {
    let mut table = Table {
        columns: vec![
            TableColumn::left("joint"),
            TableColumn::right("load after"),
            TableColumn::right("drive after"),
            TableColumn::left("done: day, clock").width(ColumnWidth::Mm(42.0)),
            TableColumn::left("first driven").width(ColumnWidth::Mm(42.0)),
        ],
        ..Table::default()
    };
    for joint in basis.cures {
        let after = |stage| joint.wait(stage).map_or(Cell::Dash, |told| wait(told.time).into());
        table.rows.push(Row::new(vec![
            Cell::Head(joint.mark.clone().into()),
            after(Stage::Load),
            after(Stage::Drive),
            made_at(basis, &joint.mark).map_or(Cell::Blank(String::new()), Cell::Bold),
            Cell::Blank(String::new()),
        ]));
    }
    table
}

/// When a bond was begun, if its step was recorded.
fn made_at(basis: &StepBasis<'_>, mark: &str) -> Option<Text> {
    let step = basis.cures.iter().find(|cure| cure.mark == mark)?.by_step?;
    let step = basis.steps.step(step)?;
    Some(recorded::moment(&record_of(basis.build, step)?.started).into())
}

/// What has a batch and a date on its pack.
fn stuff(basis: &StepBasis<'_>) -> Table {
    let mut table = Table {
        columns: vec![
            TableColumn::left("stuff").width(ColumnWidth::AtMost(70.0)),
            TableColumn::left("batch").width(ColumnWidth::Mm(44.0)),
            TableColumn::left("use by").width(ColumnWidth::Mm(40.0)),
        ],
        ..Table::default()
    };
    let mut words: Vec<String> = Vec::new();
    for bond in &basis.work.bonds {
        words.extend(bond.tape.iter().map(|(tape, _)| tape.words.clone()));
        words.extend(bond.adhesive.iter().map(|adhesive| adhesive.words.clone()));
    }
    words.extend(basis.build.entry.iter().map(|entry| entry.sealing.words.clone()));
    for record in &basis.build.records {
        for batch in &record.batches {
            let use_by = batch.use_by.as_ref().map_or(Cell::Dash, |date| date.to_string().into());
            table.rows.push(Row::new(vec![
                Cell::Text(batch.stuff.as_str().into()),
                Cell::Bold(batch.lot.as_str().into()),
                use_by,
            ]));
        }
    }
    let mut told: Vec<String> = Vec::new();
    for one in words {
        if !told.contains(&one) {
            table.rows.push(Row::new(vec![
                Cell::Text(one.as_str().into()),
                Cell::Blank(String::new()),
                Cell::Blank(String::new()),
            ]));
            told.push(one);
        }
    }
    table
}

/// When to look again, and at what.
fn inspection(basis: &StepBasis<'_>, ready: Option<Date>, tab: &Tab) -> Sheet {
    let driven = basis.build.vehicle.is_some();
    let [soon, later] = looks::first_two(driven);
    let mut table = Table {
        columns: vec![
            TableColumn::left("what").width(ColumnWidth::AtMost(80.0)),
            TableColumn::centre(soon),
            TableColumn::centre(later),
            TableColumn::centre("½ year"),
            TableColumn::centre("year"),
            TableColumn::left("next").width(ColumnWidth::Mm(34.0)),
        ],
        ..Table::default()
    };
    for look in looks(basis) {
        let tick = |due: bool| if due { Cell::Tick } else { Cell::Dash };
        let [first, thousand, half, year] = look.due;
        table.rows.push(Row::new(vec![
            Cell::Text(look.what.as_str().into()),
            tick(first),
            tick(thousand),
            tick(half),
            tick(year),
            Cell::Blank(String::new()),
        ]));
    }
    let mut means: Vec<Text> = Vec::new();
    if looks::has_paint_lines(basis) {
        let again =
            format!("A line of paint that is broken: tighten, mark anew, look again after {soon}.");
        means.push(again.into());
    }
    means.push(if driven {
        "After the first year: every 1\u{202f}000 km, twice a year, and after each storm.".into()
    } else {
        "After the first year: twice a year, and after each winter out of use.".into()
    });
    let mut blocks = vec![
        Block::Table(table),
        Block::Heading(Heading::new("What it means")),
        Block::Bullets(means),
        Block::Heading(Heading::new(if driven {
            "No driving with it until it is mended, when"
        } else {
            "Out of use until it is mended, when"
        })),
        Block::Bullets(looks::stops(basis)),
        Block::Heading(Heading::new("Done")),
        Block::Table(done_table(ready, driven)),
        Block::Heading(Heading::new("Found and mended")),
    ];
    // Years of findings want room; the rest of a second page, or what a first one leaves.
    blocks.push(Block::Choice([90.0, 28.0].map(|high| vec![notes(high)]).into()));
    blocks.push(Block::Strong("List complete. Keep with the vehicle.".into()));
    let by = if driven { "by distance and time" } else { "by time" };
    let purpose = format!("{} {by}.", looks::kinds(basis));
    sheet("inspection", "Look again", &purpose, tab, blocks)
}

fn notes(high: f64) -> Block {
    Block::Blanks(vec![Blank::of(BlankWidth::Line, "date, distance, what").high(high)])
}

/// Each inspection with its blanks.
fn done_table(ready: Option<Date>, driven: bool) -> Table {
    let mut columns =
        vec![TableColumn::left("after"), TableColumn::left("by").width(ColumnWidth::AtMost(30.0))];
    if driven {
        columns.push(TableColumn::left("odometer, km").width(ColumnWidth::Mm(40.0)));
    }
    columns.push(TableColumn::left("date").width(ColumnWidth::Mm(38.0)));
    columns.push(TableColumn::left("initials").width(ColumnWidth::Mm(26.0)));
    let blanks = columns.len() - 2;
    let row = |(after, by): (&str, Option<Date>)| {
        let mut cells =
            vec![Cell::Head(after.into()), by.map_or(Cell::Dash, |date| date.to_string().into())];
        cells.extend((0..blanks).map(|_| Cell::Clock));
        Row::new(cells)
    };
    Table {
        columns,
        rows: looks::inspections(ready, driven).into_iter().map(row).collect(),
        ..Table::default()
    }
}
