//! The pocket booklet: one sheet, folded to eight pages, that stays in the glovebox.

use super::looks::{self, inspections, stops};
use super::recorded::moment;
use crate::build::Build;
use crate::compute::steps::facts::marks;
use crate::compute::steps::recorded::record_of;
use crate::compute::steps::workmanship;
use crate::page::Sheet;
use crate::page::block::{
    Block, Booklet, Cell, ColumnWidth, Dotted, Panel, Row, Table, TableColumn,
};
use crate::page::text::Text;
use crate::sheets::words::{clock, kg, mm};
use crate::sheets::{Basis, Kind, steps_of};
use crate::units::{Mass, Unit, display};

/// Steps that are signed for: what they leave behind can't be seen later.
const SIGNED: &[&str] =
    &["hinges", "clamps", "bond", "roof-bolts", "entry", "fixture-fit", "bolt", "connect", "check"];

/// The booklet; none where nothing is left on a vehicle.
pub(in crate::sheets) fn booklet(basis: &Basis) -> Option<Sheet> {
    let steps = steps_of(basis, &[]);
    if basis.build.vehicle.is_none() || looks::looks(&steps).is_empty() {
        return None;
    }
    let drive = basis.results.plan.as_ref().map(|plan| plan.drive.0);
    let ready = looks::ready(*basis.build.crew.start, drive);
    let panels = vec![
        Panel { title: Text::new(), blocks: front(basis) },
        Panel::new("What is fitted", fitted(basis)),
        Panel::new("Limits", limits(basis)),
        Panel::new("Bolts", bolts(basis)),
        Panel::new("Electrics", electrics(basis)),
        Panel::new("Done by", done_by(basis)),
        Panel::new("Inspections", inspected(ready)),
        Panel::new("Stop driving when", stop(stops(&steps))),
    ];
    Some(Sheet {
        anchor: "booklet".into(),
        title: basis.build.job.title.value.clone(),
        purpose: "Folded to eight pages, it stays in the glovebox.".into(),
        tab: Some(Kind::Record.tab()),
        steps: None,
        blocks: vec![Block::Booklet(Booklet { panels })],
        single_sided: true,
    })
}

fn dotted(rows: Vec<(Text, Text)>) -> Vec<Block> {
    if rows.is_empty() { Vec::new() } else { vec![Block::Dotted(Dotted { groups: vec![rows] })] }
}

fn front(basis: &Basis) -> Vec<Block> {
    let mut blocks = Vec::new();
    if let Some(vehicle) = &basis.build.vehicle {
        blocks.push(Block::Paragraph(vehicle.name.as_str().into()));
    }
    let mut rows: Vec<(Text, Text)> = Vec::new();
    if let Some((_, after)) = basis.results.weights.height {
        rows.push((Text::bold("height now"), Text::bold(mm(after, 0))));
    }
    if basis.results.weights.roof > Mass::ZERO {
        rows.push(("added on roof".into(), kg(basis.results.weights.roof).into()));
    }
    blocks.extend(dotted(rows));
    blocks.push(Block::Paragraph(
        "Folded: in half on each line of dots; cut on the full line; pushed together to a book of \
         eight pages."
            .into(),
    ));
    blocks.push(Block::Paragraph(
        "Local codes, the makers' instructions and licensed people come first.".into(),
    ));
    blocks
}

fn fitted(basis: &Basis) -> Vec<Block> {
    let build = basis.build;
    let mut rows: Vec<(Text, Text)> = Vec::new();
    for panel in &build.panels {
        let power = panel.power.as_ref().map_or_else(
            || "panels".to_owned(),
            |power| format!("panels of {}", display::in_unit_short(**power, Unit::W, 0)),
        );
        rows.push((power.into(), panel.count.to_string().into()));
    }
    for mount in &build.mounts {
        let own: Vec<&str> = basis
            .work
            .mounts
            .iter()
            .filter(|place| build.mounts.get(place.mount).is_some_and(|m| m.mark == mount.mark))
            .map(|place| place.mark.as_str())
            .collect();
        rows.push((mount.name.as_str().into(), marks(&own).into()));
    }
    for fixture in &build.fixtures {
        rows.push((fixture.name.as_str().into(), fixture.mark.as_str().into()));
        rows.push(("its mass".into(), kg(*fixture.mass).into()));
    }
    if let Some(entry) = &basis.work.entry {
        rows.push(("cable entry".into(), entry.mark.as_str().into()));
    }
    if let Some(battery) = &build.battery {
        rows.push((
            format!("battery {}", battery.marks().join(", ")).into(),
            display::in_unit_short(battery.bank_capacity(), Unit::AH, 0).into(),
        ));
        rows.push(("its mass".into(), kg(battery.bank_mass()).into()));
    }
    if let Some(controller) = &build.controller {
        rows.push((
            format!("controller {}", controller.mark.value).into(),
            display::in_unit_short(*controller.max_current, Unit::A, 0).into(),
        ));
    }
    let stuff: Vec<String> = bonded_with(basis);
    let mut blocks = dotted(rows);
    if !stuff.is_empty() {
        blocks.push(Block::Paragraph(
            format!("Bonded and sealed with: {}.", stuff.join("; ")).into(),
        ));
    }
    blocks
}

fn bonded_with(basis: &Basis) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for bond in &basis.work.bonds {
        all.extend(bond.tape.iter().map(|(tape, _)| tape.words.clone()));
        all.extend(bond.adhesive.iter().map(|adhesive| adhesive.words.clone()));
    }
    all.extend(basis.build.fixtures.iter().map(|fixture| fixture.sealing.words.clone()));
    all.extend(basis.build.entry.iter().map(|entry| entry.sealing.words.clone()));
    let mut once: Vec<String> = Vec::new();
    for one in all {
        if !once.contains(&one) {
            once.push(one);
        }
    }
    once
}

fn limits(basis: &Basis) -> Vec<Block> {
    let build = basis.build;
    let mut rows: Vec<(Text, Text)> = Vec::new();
    if let Some(vehicle) = &build.vehicle {
        rows.push((
            "worked out for up to".into(),
            display::in_unit_short(*vehicle.speed, Unit::KMH, 0).into(),
        ));
    }
    if let Some((before, after)) = basis.results.weights.height {
        rows.push(("height before".into(), mm(before, 0).into()));
        rows.push(("height now".into(), mm(after, 0).into()));
    }
    if let Some(limits) = &basis.results.weights.limits {
        rows.push(("roof bears, moving".into(), kg(limits.moving.0).into()));
        rows.push(("roof bears, standing".into(), kg(limits.standing.0).into()));
    }
    if !build.mounts.is_empty() {
        rows.push((
            "storm, parked".into(),
            display::in_unit_short(*build.actions.storm_wind, Unit::M_PER_S, 0).into(),
        ));
    }
    let uses = basis.results.bonds.iter().map(|bond| (bond.governing().share, bond.mark.as_str()));
    let metal = basis.results.metal.uses.iter().map(|part| (part.share, part.at.as_str()));
    let fixed = basis
        .results
        .fixtures
        .iter()
        .flat_map(|found| found.uses.iter().map(|one| (one.share, found.mark.as_str())));
    if let Some((share, at)) = uses.chain(metal).chain(fixed).max_by(|a, b| a.0.total_cmp(&b.0)) {
        rows.push((format!("most used: {at}").into(), display::capacity_used(share).into()));
    }
    if let Some(plan) = &basis.results.plan {
        rows.push(("not driven before".into(), clock(*build.crew.start, plan.drive.0).into()));
    }
    let mut blocks = dotted(rows);
    if basis.work.lifts.is_empty() {
        return blocks;
    }
    blocks.push(Block::Paragraph(
        "Never driven with the array lifted or its far edge not held down.".into(),
    ));
    blocks
}

fn bolts(basis: &Basis) -> Vec<Block> {
    let mut table = Table {
        columns: vec![
            TableColumn::left("bolt"),
            TableColumn::number("N·m, low"),
            TableColumn::number("high"),
        ],
        ..Table::default()
    };
    let (low, high) = workmanship("torque").unwrap_or((0.0, 0.0));
    for tightening in &basis.results.fasteners {
        let torque = tightening.torque.to_nm();
        table.rows.push(Row::new(vec![
            Cell::Head(tightening.thread.as_str().into()),
            display::number(torque * (1.0 - low / 100.0), 1).into(),
            display::number(torque * (1.0 + high / 100.0), 1).into(),
        ]));
    }
    for (fixture, found) in basis.build.fixtures.iter().zip(&basis.results.fixtures) {
        let torque = found.torque.to_nm();
        table.rows.push(Row::new(vec![
            Cell::Head(format!("{}, {}", fixture.thread.name, found.mark).into()),
            display::number(torque * 0.5, 1).into(),
            display::number(torque, 1).into(),
        ]));
    }
    let mut blocks = Vec::new();
    if table.rows.is_empty() {
        blocks.push(Block::Paragraph("No bolts that are tightened by torque.".into()));
    } else {
        blocks.push(Block::Table(table));
        blocks.push(Block::Paragraph(
            "A line of paint runs over each head onto the part. Broken: the bolt has turned. It is \
             tightened and marked anew, and looked at after 100 km."
                .into(),
        ));
    }
    blocks
}

fn electrics(basis: &Basis) -> Vec<Block> {
    let Some(electrics) = &basis.results.electrics else {
        return vec![Block::Paragraph("None.".into())];
    };
    let mut rows: Vec<(Text, Text)> = Vec::new();
    for run in &electrics.runs {
        for fuse in [&run.fuse, &run.load_fuse].into_iter().flatten() {
            rows.push((
                format!("fuse {}, {}", fuse.mark, run.name).into(),
                display::in_unit_short(fuse.rating, Unit::A, 1).into(),
            ));
        }
    }
    if let Some(bank) = &electrics.bank
        && let Some(fuse) = &bank.fuse
    {
        rows.push((
            format!("fuses {}, batteries", bank.fuses.join(", ")).into(),
            display::in_unit_short(fuse.rating, Unit::A, 1).into(),
        ));
    }
    for (run, switch) in electrics.switches() {
        rows.push((
            format!("switch {}, {}", switch.mark, run.name).into(),
            display::in_unit_short(switch.rating, Unit::A, 1).into(),
        ));
    }
    if let Some(isolator) = &electrics.isolator {
        rows.push((
            format!("isolator {}", isolator.mark).into(),
            display::in_unit_short(isolator.rating, Unit::A, 1).into(),
        ));
    }
    if let Some(field) = &electrics.field {
        rows.push((
            "panels, coldest day".into(),
            display::in_unit_short(field.cold, Unit::V, 1).into(),
        ));
    }
    let mut blocks = dotted(rows);
    let words = match (electrics.field.is_some(), electrics.isolator.is_some()) {
        (true, true) => {
            "Panels are live in any light. Off: isolator first, then the battery. On: battery first."
        }
        (true, false) => {
            "Panels are live in any light: they are covered before anything is touched."
        }
        _ => "Off: loads first, then the battery’s fuses. On: the battery’s fuses first.",
    };
    blocks.push(Block::Paragraph(words.into()));
    blocks
}

fn done_by(basis: &Basis) -> Vec<Block> {
    let build: &Build = basis.build;
    let mut table = Table {
        columns: vec![
            TableColumn::left("step").width(ColumnWidth::AtMost(26.0)),
            TableColumn::left("name, date").width(ColumnWidth::Mm(28.0)),
        ],
        ..Table::default()
    };
    for step in basis.results.steps.steps.iter().filter(|s| SIGNED.contains(&s.key.as_str())) {
        let record = record_of(build, step);
        let told = record.map(|record| {
            let by = record.by.as_ref().map_or("", |by| by.value.as_str());
            let (date, _) = moment(&record.started).split_once(' ').map_or_else(
                || (String::new(), String::new()),
                |(date, time)| (date.to_owned(), time.to_owned()),
            );
            format!("{by} {date}").trim().to_owned()
        });
        let cell = told.map_or(Cell::Clock, |told| Cell::Bold(told.into()));
        table.rows.push(Row::new(vec![Cell::Text(step.title.as_str().into()), cell]));
    }
    vec![Block::Table(table)]
}

fn inspected(ready: Option<jiff::civil::Date>) -> Vec<Block> {
    let rows = inspections(ready, true)
        .into_iter()
        .map(|(after, _)| Row::new(vec![Cell::Head(after.into()), Cell::Clock, Cell::Clock]));
    vec![Block::Table(Table {
        columns: vec![
            TableColumn::left("after"),
            TableColumn::left("km").width(ColumnWidth::Mm(18.0)),
            TableColumn::left("date").width(ColumnWidth::Mm(18.0)),
        ],
        rows: rows.collect(),
        ..Table::default()
    })]
}

fn stop(list: Vec<Text>) -> Vec<Block> {
    vec![Block::Bullets(list)]
}
