//! The record: what was really done beside what was planned, who signed for it, and when to look again.

use super::step::StepBasis;
use super::words::wait;
use crate::compute::cure::Stage;
use crate::compute::steps::facts::marks;
use crate::compute::steps::{Line, Step};
use crate::derive::{MountShape, Screw};
use crate::page::block::{
    Blank, BlankWidth, Block, Cell, ColumnWidth, Heading, Row, Table, TableColumn,
};
use crate::page::text::Text;
use crate::page::{Sheet, Tab};

/// The record sheets; none where there are no steps.
pub fn record(basis: &StepBasis<'_>, tab: &Tab) -> Vec<Sheet> {
    if basis.steps.steps.is_empty() {
        return Vec::new();
    }
    let mut sheets = vec![as_built(basis, tab)];
    // Work at the bench leaves nothing on a vehicle to look at.
    if !looks(basis).is_empty() {
        sheets.push(inspection(basis, tab));
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
    let measured = measured(&basis.steps.steps);
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

/// Every action that ends in a measured value, by step.
fn measured(steps: &[Step]) -> Table {
    let mut table = Table {
        columns: vec![
            TableColumn::left("no."),
            TableColumn::left("what").width(ColumnWidth::AtMost(62.0)),
            TableColumn::number("low"),
            TableColumn::number("high"),
            TableColumn::left("measured").width(ColumnWidth::Mm(48.0)),
        ],
        ..Table::default()
    };
    for step in steps {
        let first = table.rows.len();
        for action in step.actions() {
            let Some(done) = action.done.as_ref().filter(|done| worth_writing(step, done)) else {
                continue;
            };
            let limit = |value: &str| if value.is_empty() { Cell::Dash } else { value.into() };
            table.rows.push(Row::new(vec![
                Cell::Head(action.number.to_string().into()),
                format!("{}: {}", step.title, done.words).into(),
                limit(&done.low),
                limit(&done.high),
                Cell::Blank(done.unit.clone()),
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
            Cell::Blank(String::new()),
            Cell::Blank(String::new()),
        ]));
    }
    table
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
fn inspection(basis: &StepBasis<'_>, tab: &Tab) -> Sheet {
    let mut table = Table {
        columns: vec![
            TableColumn::left("what").width(ColumnWidth::AtMost(80.0)),
            TableColumn::centre("100 km"),
            TableColumn::centre("1 000 km"),
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
    let cautions: Vec<Text> = vec![
        "A line of paint that is broken: tighten, mark anew, look again after 100 km.".into(),
        "An edge of tape or bead that lifts, or a foot that moves by hand: do not drive; bond anew.".into(),
        "Every 1 000 km and twice a year after the first year, and after each storm.".into(),
    ];
    let blocks = vec![
        Block::Table(table),
        Block::Heading(Heading::new("What it means")),
        Block::Bullets(cautions),
        Block::Heading(Heading::new("Found and done")),
        // Years of findings want room; the rest of a second page, or what a first one leaves.
        Block::Choice([120.0, 28.0].map(|high| vec![found(high)]).into()),
        Block::Strong("List complete. Keep with the vehicle.".into()),
    ];
    sheet("inspection", "Look again", "Joints, bonds and seals by distance and time.", tab, blocks)
}

fn found(high: f64) -> Block {
    Block::Blanks(vec![Blank::of(BlankWidth::Line, "date, distance, what").high(high)])
}

struct Look {
    what: String,
    /// After 100 km, 1 000 km, half a year, a year.
    due: [bool; 4],
}

/// What is looked at, from what the build has. Intervals are common practice: bolted joints settle
/// early, bonds age late.
fn looks(basis: &StepBasis<'_>) -> Vec<Look> {
    let work = basis.work;
    let mut looks = Vec::new();
    let mut add = |what: String, due: [bool; 4]| looks.push(Look { what, due });
    // Bolts of one name and thread are one row, whatever their lengths.
    let mut joints: Vec<(&str, String, usize)> = Vec::new();
    let mut joint = |name, thread: &str, count| match joints
        .iter_mut()
        .find(|row: &&mut (&str, String, usize)| row.0 == name && row.1 == thread)
    {
        Some(row) => row.2 += count,
        None => joints.push((name, thread.to_owned(), count)),
    };
    for fastening in &work.fastenings {
        let bolt = match &fastening.screw {
            Screw::BoltInRivetNut { thread, .. } | Screw::BoltAndNut { thread, .. } => {
                Some(thread.name.clone())
            }
            Screw::Tapping { .. } | Screw::BlindRivet { .. } | Screw::Pin { .. } => None,
        };
        match bolt {
            Some(thread) => joint(fastening.name.as_str(), &thread, fastening.places.len()),
            None => joint(fastening.name.as_str(), "", fastening.places.len()),
        }
    }
    for (name, thread, count) in joints {
        if thread.is_empty() {
            add(format!("{name}, {count}: none loose"), [false, true, false, true]);
        } else {
            add(format!("{name}, {count} × {thread}: lines of paint"), [true; 4]);
        }
    }
    let bonds: Vec<&str> = work.bonds.iter().map(|bond| bond.mark.as_str()).collect();
    if !bonds.is_empty() {
        add(format!("bonds {}: edges, no lifting, no rust", marks(&bonds)), [true; 4]);
    }
    if work.mounts.iter().any(|mount| matches!(mount.kind, MountShape::Hinge { .. })) {
        add("hinges: pins, play".to_owned(), [true; 4]);
    }
    let latched: Vec<&str> = work
        .mounts
        .iter()
        .filter(|mount| {
            let written = basis.build.mounts.get(mount.mount);
            written.is_some_and(|mount| mount.kind.latch().is_some())
        })
        .map(|mount| mount.mark.as_str())
        .collect();
    if !latched.is_empty() {
        let marks = marks(&latched);
        add(format!("latches {marks}: close firmly, lock, no play; strap whole"), [true; 4]);
    }
    if let Some(entry) = &work.entry {
        add(format!("seal {}: no crack, no water inside", entry.mark), [true, false, true, true]);
    }
    let warned = |key: &str| {
        basis.steps.steps.iter().any(|step| {
            step.key == key && step.lines.iter().any(|line| matches!(line, Line::Action(_)))
        })
    };
    if warned("tether") {
        add("tethers: slack, fittings closed".to_owned(), [true, true, true, true]);
    }
    if !work.arrays.is_empty() {
        add("panels: glass, frame corners, clean".to_owned(), [false, false, true, true]);
    }
    if !basis.build.circuits.is_empty() {
        add(
            "cables: chafe, glands, terminals cool under load".to_owned(),
            [true, false, true, true],
        );
    }
    if basis.build.battery.is_some() {
        add("battery: strap tight, blocks firm, dry".to_owned(), [true, true, true, true]);
    }
    looks
}
