//! What the build file records, step by step: by whom, when, in which air, what was changed, photographs.

use crate::build::Record;
use crate::compute::steps::Step;
use crate::page::block::{Block, Dotted, Heading};
use crate::page::text::Text;
use crate::page::{Sheet, Tab};
use crate::sheets::photos;
use crate::sheets::step::StepBasis;
use crate::units::{Unit, display};
use jiff::civil::{Date, Time};

/// The sheet; none where nothing is recorded.
pub(super) fn recorded(basis: &StepBasis<'_>, tab: &Tab) -> Option<Sheet> {
    if basis.build.records.is_empty() {
        return None;
    }
    let mut blocks = Vec::new();
    for record in &basis.build.records {
        blocks.extend(one(basis, record));
    }
    blocks.push(Block::Strong("List complete. Next: the inspection sheet.".into()));
    Some(super::sheet(
        "recorded",
        "Recorded so far",
        "By the build file; later steps are planned around it.",
        tab,
        blocks,
    ))
}

fn one(basis: &StepBasis<'_>, record: &Record) -> Vec<Block> {
    let wanted = record.step.trim();
    let of = |step: &&Step| step.key == wanted || step.title.eq_ignore_ascii_case(wanted);
    let step = basis.steps.steps.iter().find(of);
    let title = step.map_or(wanted, |step| step.title.as_str());
    let mut heading = Heading::new(title);
    if let Some(step) = step {
        heading = heading.aside(format!("step {}", step.number));
    }
    let mut rows: Vec<(Text, Text)> = vec![("started".into(), moment(&record.started).into())];
    let mut row = |label: &str, value: Option<String>| {
        if let Some(value) = value {
            rows.push((label.into(), value.into()));
        }
    };
    row("finished", record.finished.as_ref().map(|end| moment(end)));
    row("by", record.by.as_ref().map(|by| by.value.clone()));
    row("air", record.temperature.as_ref().map(|t| display::in_unit_short(**t, Unit::CELSIUS, 1)));
    row(
        "humidity",
        record.humidity.as_ref().map(|h| display::in_unit_short(**h, Unit::PERCENT, 0)),
    );
    for batch in &record.batches {
        let use_by =
            batch.use_by.as_ref().map_or_else(String::new, |date| format!(", use by {}", **date));
        row(&batch.stuff, Some(format!("batch {}{use_by}", batch.lot.value)));
    }
    for measured in &record.measured {
        let what = match measured.what.parse::<u32>() {
            Ok(number) => format!("action {number}"),
            Err(_) => measured.what.value.clone(),
        };
        row(&what, Some(measured.value.value.clone()));
    }
    let mut blocks = vec![Block::Heading(heading), Block::Dotted(Dotted { groups: vec![rows] })];
    if !record.changes.is_empty() {
        blocks.push(Block::Strong("Done in another way than planned:".into()));
        let changes = record.changes.iter().map(|change| change.as_str().into());
        blocks.push(Block::Bullets(changes.collect()));
    }
    blocks.extend(photos::blocks(&record.photos, basis.photos));
    blocks
}

/// "2026-05-16 14:20".
pub(super) fn moment((date, time): &(Date, Time)) -> String {
    format!("{date} {:02}:{:02}", time.hour(), time.minute())
}
