//! What may not be done before when, and the plan as a table.

use super::decides;
use crate::compute::cure::{JointCure, Stage};
use crate::compute::plan::Plan;
use crate::compute::steps::CureState;
use crate::page::block::{Block, Cell, ColumnWidth, Heading, Row, Table, TableColumn};
use crate::sheets::Basis;
use crate::sheets::words::{clock, day_time, work_time};
use crate::units::{Duration, display};
use std::collections::BTreeSet;

/// Clocks before which something must not be done, with a box for the real one.
pub(super) fn not_before(basis: &Basis, plan: &Plan) -> Vec<Block> {
    let first = *basis.build.crew.start;
    let mut rows: Vec<Row> = Vec::new();
    let mut add = |what: String, at: Option<Duration>, why: String| {
        let at = at.map_or_else(|| "over a year".to_owned(), |at| clock(first, at));
        rows.push(
            Row::new(vec![
                Cell::Head(what.into()),
                Cell::Bold(at.into()),
                why.into(),
                Cell::Blank(String::new()),
            ])
            .ends_group(),
        );
    };
    let seal = basis.work.entry.as_ref().map(|entry| entry.mark.as_str());
    let bonds = || basis.results.cures.iter().filter(|joint| Some(joint.mark.as_str()) != seal);
    let entry = || basis.results.cures.iter().filter(|joint| Some(joint.mark.as_str()) == seal);
    if let Some((at, why)) = latest(bonds(), Stage::Load) {
        let step = loading_step(basis).map_or(String::new(), |number| format!(" (step {number})"));
        add(format!("Frame on the feet{step}"), at, why);
    }
    if let Some((at, why)) = latest(entry(), Stage::Rain) {
        add("Rain on the cable entry".into(), at, why);
    }
    if basis.build.vehicle.is_some() {
        add("Driving".into(), Some(plan.drive.0), plan.drive.1.clone());
    }
    if let Some((at, why)) = latest(basis.results.cures.iter(), Stage::Full) {
        add("Pressure washing".into(), at, why);
    }
    if rows.is_empty() {
        return Vec::new();
    }
    vec![
        Block::Heading(
            Heading::new("Not before").aside("write the real clock in when the step is done"),
        ),
        Block::Table(Table {
            columns: vec![
                TableColumn::left("what").width(ColumnWidth::Mm(56.0)),
                TableColumn::left("by forecast"),
                TableColumn::left("when"),
                TableColumn::left("real clock"),
            ],
            rows,
            ..Table::default()
        }),
    ]
}

/// The latest end of a stage among joints, with what is behind it; `None` for its time where one of
/// them takes longer than a year.
fn latest<'a>(
    joints: impl Iterator<Item = &'a JointCure>,
    stage: Stage,
) -> Option<(Option<Duration>, String)> {
    joints
        .filter_map(|joint| {
            let wait = joint.wait(stage)?;
            Some((wait.time.map(|time| joint.made + time), format!("{}: {}", joint.mark, wait.why)))
        })
        .reduce(|a, b| match (a.0, b.0) {
            (None, _) => a,
            (_, None) => b,
            (Some(x), Some(y)) => {
                if y > x {
                    b
                } else {
                    a
                }
            }
        })
}

/// Number of the first step that waits until a bond may carry.
fn loading_step(basis: &Basis) -> Option<u32> {
    basis
        .results
        .steps
        .steps
        .iter()
        .find(|step| {
            step.after
                .iter()
                .any(|need| need.cures.iter().any(|cure| cure.state == CureState::Load))
        })
        .map(|step| step.number)
}

/// The plan as a table, with a box for the real start.
pub(super) fn plan(basis: &Basis, plan: &Plan) -> Vec<Block> {
    let first = *basis.build.crew.start;
    let mut slots: Vec<&crate::compute::plan::PlanSlot> = plan.slots.iter().collect();
    slots.sort_by(|a, b| {
        a.start.total_cmp(&b.start).then(a.step.cmp(&b.step)).then(a.part.cmp(&b.part))
    });
    let mut rows: Vec<Row> = Vec::new();
    let mut begun: BTreeSet<usize> = BTreeSet::new();
    let mut day = None;
    for slot in slots {
        let Some(step) = basis.results.steps.steps.get(slot.step) else { continue };
        let today = (slot.start / Duration::days(1.0)).floor() as i64;
        if day.is_some_and(|day| day != today)
            && let Some(row) = rows.last_mut()
        {
            row.ends_group = true;
        }
        day = Some(today);
        let mut title = match slot.part {
            (_, 1) => step.title.clone(),
            (part, of) => format!("{}, part {part} of {of}", step.title),
        };
        if let Some(first) = slot.what.chars().next() {
            // The part of a second person goes by its own name, under the same number.
            let rest = slot.what.get(first.len_utf8()..).unwrap_or_default();
            title = format!("{}{rest}", first.to_uppercase());
        }
        if slot.done {
            title.push_str(", done");
        }
        let people: Vec<String> = slot.people.iter().map(u32::to_string).collect();
        let end = day_time(first, slot.finish);
        let end = end.split_once(' ').map_or(end.clone(), |(_, time)| time.to_owned());
        // The day only where it is another.
        let latest = day_time(first, slot.latest());
        let same = latest
            .split_once(' ')
            .filter(|_| (slot.latest() / Duration::days(1.0)).floor() as i64 == today);
        let latest = same.map_or(latest.clone(), |(_, time)| time.to_owned());
        let title: Cell = if decides(slot) { Cell::Bold(title.into()) } else { title.into() };
        rows.push(Row::new(vec![
            Cell::Head(step.number.to_string().into()),
            title,
            people.join(", ").into(),
            day_time(first, slot.start).into(),
            end.into(),
            if slot.done { Cell::Dash } else { latest.into() },
            if slot.done { Cell::Dash } else { float(slot.float).into() },
            // One clock a step: its first start.
            if slot.done || !begun.insert(slot.step) { Cell::Dash } else { Cell::Clock },
        ]));
    }
    let hours: Vec<String> = plan
        .work
        .iter()
        .enumerate()
        .map(|(person, time)| format!("person {}: {}", person + 1, work_time(*time)))
        .collect();
    let work = format!("Work in all: {}.", hours.join("; "));
    vec![
        Block::Heading(
            Heading::new("The plan, step by step")
                .aside("bold: what decides; started by its latest, the end stays"),
        ),
        Block::Table(Table {
            columns: vec![
                TableColumn::number("step"),
                TableColumn::left("title"),
                TableColumn::left("person"),
                TableColumn::left("start"),
                TableColumn::left("end"),
                TableColumn::left("latest"),
                TableColumn::right("float"),
                TableColumn::left("real start").width(ColumnWidth::Mm(22.0)),
            ],
            rows,
            ..Table::default()
        }),
        Block::Paragraph(work.into()),
    ]
}

/// A float in minutes, from two hours on in whole hours, rounded down.
fn float(time: Duration) -> String {
    if time < Duration::hours(2.0) {
        format!("{}\u{a0}min", display::number(time.to_minutes(), 0))
    } else {
        format!("{}\u{a0}h", display::number(time.to_hours().floor(), 0))
    }
}
