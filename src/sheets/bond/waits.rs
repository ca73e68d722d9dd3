//! Waits of the joints of a sheet: in the planned air, in other air, and the card for what really was.

use crate::compute::cure::{DayTable, JointCure, JointKind, Stage};
use crate::page::block::{Block, Cell, ColumnWidth, Heading, Row, Table, TableColumn};
use crate::page::text::Text;
use crate::sheets::Basis;
use crate::sheets::words::{clock, mm, wait, within};
use crate::units::{Duration, display};

/// Blanks for what really was, a row for each of `names`: the waits count from there.
fn card(of: &str, cures: &[&JointCure], names: &[&str]) -> Vec<Block> {
    let stages: Vec<Stage> = [Stage::Load, Stage::Drive, Stage::Rain]
        .into_iter()
        .filter(|stage| cures.iter().any(|cure| cure.wait(*stage).is_some()))
        .take(2)
        .collect();
    let bolts = cures.iter().any(|cure| cure.kind == JointKind::Threads);
    let when = if !bolts && stages.len() > 1 { 21.5 } else { 30.0 };
    let mut columns = vec![
        TableColumn::left("joint"),
        TableColumn::left("done").width(ColumnWidth::Mm(when)),
        // Blanks of a measured value are as wide as they have to be; what is left is for the clocks.
        TableColumn::left(if bolts { "air" } else { "skin" }),
    ];
    if !bolts {
        columns.push(TableColumn::left("humidity"));
    }
    for stage in &stages {
        let head = match stage {
            Stage::Load => "load from",
            Stage::Drive => "drive from",
            _ => "rain from",
        };
        columns.push(TableColumn::left(head).width(ColumnWidth::Mm(when)));
    }
    let rows = names
        .iter()
        .map(|name| {
            let mut cells = vec![
                Cell::Head((*name).into()),
                Cell::Blank(String::new()),
                Cell::Blank("°C".into()),
            ];
            if !bolts {
                cells.push(Cell::Blank("%".into()));
            }
            cells.extend(stages.iter().map(|_| Cell::Blank(String::new())));
            Row::new(cells)
        })
        .collect();
    vec![
        Block::Heading(
            Heading::new(format!("Cure card of the {of}"))
                .aside("from: the clock of “done” and its wait in the real air"),
        ),
        Block::Table(Table { columns, rows, ..Table::default() }),
    ]
}

/// Waits in the planned air, in other air for when the weather turns, and the card for the real ones.
pub(super) fn wait_blocks(basis: &Basis, of: &str, cures: &[&JointCure]) -> Vec<Block> {
    let names: Vec<&str> = cures.iter().map(|cure| cure.mark.as_str()).collect();
    named_wait_blocks(basis, of, cures, &names)
}

/// The same where one joint stands for several places, each with its own row on the card.
pub(super) fn named_wait_blocks(
    basis: &Basis,
    of: &str,
    cures: &[&JointCure],
    names: &[&str],
) -> Vec<Block> {
    let mut blocks = vec![
        Block::Heading(
            Heading::new(format!("Waits of the {of}"))
                .aside("from making the joint, in the air of the plan"),
        ),
        Block::Table(waits(basis, cures)),
    ];
    if let Some(first) = cures.first().filter(|cure| !cure.table.rows.is_empty()) {
        blocks.push(Block::Heading(Heading::new(format!("The {of} in other air")).aside(
            if first.table.humidities.is_empty() {
                "steady temperature"
            } else {
                "steady temperature and humidity"
            },
        )));
        blocks.push(Block::Table(day_table(&first.table, bead_word(first))));
    }
    blocks.extend(card(of, cures, names));
    blocks
}

fn waits(basis: &Basis, cures: &[&JointCure]) -> Table {
    let first = *basis.build.crew.start;
    // One pair of columns a joint would not fit: the latest counts for all.
    let wide = cures.iter().any(|cure| cure.kind == JointKind::Threads);
    let many = cures.len() > if wide { 1 } else { 2 };
    let mut columns = vec![TableColumn::left("then"), TableColumn::left("when")];
    for cure in cures {
        columns.push(TableColumn::right(format!("{}, wait", cure.mark)));
        columns.push(TableColumn::right("not before"));
    }
    if many {
        columns.truncate(2);
        columns.push(TableColumn::right("longest wait"));
        columns.push(TableColumn::right("not before, all"));
    }
    let Some(model) = cures.first() else { return Table::default() };
    let rows = model
        .waits
        .iter()
        .map(|shown| {
            let mut cells: Vec<Cell> =
                vec![Cell::Head(shown.stage.words().into()), shown.why.clone().into()];
            let each: Vec<(Option<Duration>, Duration)> = cures
                .iter()
                .map(|cure| (cure.wait(shown.stage).and_then(|w| w.time), cure.made))
                .collect();
            let told = |time: Option<Duration>, made: Duration| {
                let until = time.map_or(Cell::Dash, |time| clock(first, made + time).into());
                [wait(time).into(), until]
            };
            if many {
                let ends: Option<Vec<(Duration, Duration)>> =
                    each.iter().map(|(time, made)| time.map(|t| (t, *made + t))).collect();
                let later =
                    |a: (Duration, Duration), b: (Duration, Duration)| (a.0.max(b.0), a.1.max(b.1));
                match ends.and_then(|ends| ends.into_iter().reduce(later)) {
                    Some((time, until)) => {
                        cells.push(wait(Some(time)).into());
                        cells.push(clock(first, until).into());
                    }
                    None => cells.extend([wait(None).into(), Cell::Dash]),
                }
            } else {
                for (time, made) in each {
                    cells.extend(told(time, made));
                }
            }
            Row::new(cells)
        })
        .collect();
    Table { columns, rows, ..Table::default() }
}

/// What of a joint hardens with the air's water.
pub(in crate::sheets) fn bead_word(joint: &JointCure) -> &'static str {
    if joint.kind == JointKind::Seal { "seal" } else { "bead" }
}

/// Waits by temperature, and by humidity where the air's water counts.
pub(in crate::sheets) fn day_table(table: &DayTable, of: &str) -> Table {
    let mut columns = vec![TableColumn::number("air, °C")];
    let mut over: Vec<(Text, usize)> = vec![("".into(), 1)];
    let closes = table.rows.iter().any(|row| row.open.is_some());
    if closes {
        columns.push(TableColumn::right("close within"));
        over.push(("".into(), 1));
    }
    if let Some(first) = table.tape.first() {
        // "tape at 75 %", "tape at 85 %": what they share stands over them.
        let (what, _) = first.split_once(" at ").unwrap_or((first, ""));
        over.push((what.into(), table.tape.len()));
        columns.extend(table.tape.iter().map(|head| {
            let short = head.strip_prefix(what).map_or(head.as_str(), str::trim);
            TableColumn::right(short.to_owned())
        }));
    }
    if let Some(depth) = table.depth {
        let humidities = &table.humidities;
        over.push((format!("{of} {} deep, humidity", mm(depth, 0)).into(), humidities.len()));
        columns.extend(humidities.iter().map(|humidity| {
            let percent = display::number(humidity.to_percent(), 0);
            TableColumn::right(format!("{percent}\u{a0}%"))
        }));
    }
    let rows = table
        .rows
        .iter()
        .map(|row| {
            let mut cells: Vec<Cell> =
                vec![Cell::Head(display::number(row.temperature.to_celsius(), 0).into())];
            if closes {
                cells.push(row.open.map_or(Cell::Dash, |open| within(open).into()));
            }
            cells.extend(row.tape.iter().map(|time| Cell::from(wait(*time))));
            if table.depth.is_some() {
                cells.extend(row.bead.iter().map(|time| Cell::from(wait(*time))));
            }
            Row::new(cells)
        })
        .collect();
    Table { columns, over, rows }
}
