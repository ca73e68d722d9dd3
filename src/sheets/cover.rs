//! The cover: what it is, the figures that matter, what is open, where to find what.

use super::timeline::people_words;
use super::words::{day_time, kg, mm, money};
use super::{Basis, Kind};
use crate::build::Build;
use crate::compute::Results;
use crate::derive::Work;
use crate::page::Sheet;
use crate::page::block::{
    Blank, BlankWidth, Block, Cell, Heading, Index, IndexEntry, KeyFigure, Row, Table, TableColumn,
};
use crate::source::Severity;
use crate::units::{Money, display};

/// A headline figure with what it is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Headline {
    /// Number with its unit.
    pub value: String,
    /// What it is.
    pub words: String,
}

/// The three to six figures that matter most.
pub fn headlines(build: &Build, work: &Work, results: &Results) -> Vec<Headline> {
    let mut list = Vec::new();
    let mut add = |value: String, words: String| list.push(Headline { value, words });
    let currency = &build.job.currency.value;
    if let Some((before, after)) = results.weights.height {
        add(mm(after, 0), format!("height now; was {}", mm(before, 0)));
    }
    if !work.arrays.is_empty() {
        let limit = results
            .weights
            .limits
            .as_ref()
            .map_or(String::new(), |l| format!("; roof carries {}", kg(l.moving.0)));
        add(kg(results.weights.roof), format!("added{limit}"));
    }
    let bonds = results.bonds.iter().map(|bond| (bond.governing().share, &bond.mark));
    let metal = results.metal.uses.iter().map(|part| (part.share, &part.at));
    if let Some((share, at)) = bonds.chain(metal).max_by(|a, b| a.0.total_cmp(&b.0)) {
        add(display::capacity_used(share), format!("highest use of capacity: {at}"));
    }
    if let Some(cuts) = &results.cuts {
        let count = |sawn: bool| -> u32 {
            let own = cuts.sections.iter().filter(|s| s.section.sawn == sawn);
            own.flat_map(|s| &s.buy).map(|b| b.1).sum()
        };
        let sheets: u32 = cuts.sheet_sections.iter().flat_map(|s| &s.buy).map(|b| b.2).sum();
        let told: Vec<String> = [
            (count(true), "bar", "bars"),
            (sheets, "sheet", "sheets"),
            (count(false), "reel", "reels"),
        ]
        .into_iter()
        .filter(|(count, _, _)| *count > 0)
        .map(|(count, one, many)| format!("{count} {}", if count == 1 { one } else { many }))
        .collect();
        let price = cuts
            .price
            .filter(|p| *p > Money::cents(0))
            .map_or(String::new(), |p| format!("; {}", money(p, currency)));
        if let Some((most, others)) = told.split_first() {
            let words = ["to buy"].into_iter().chain(others.iter().map(String::as_str));
            let words = words.collect::<Vec<_>>().join("; ");
            add(most.clone(), format!("{words}{price}"));
        }
    }
    if let Some(plan) = &results.plan {
        let people = people_words(*build.crew.people as usize);
        let days = if plan.days == 1 { "1 day".into() } else { format!("{} days", plan.days) };
        add(days, people);
        if build.vehicle.is_some() {
            add(day_time(*build.crew.start, plan.drive.0), "not driven before".into());
        }
    }
    list
}

/// The sheet. `others` are the sheets that it lists.
pub(super) fn cover(basis: &Basis, others: &[Sheet]) -> Sheet {
    let mut blocks = vec![Block::KeyFigures(
        headlines(basis.build, basis.work, basis.results)
            .into_iter()
            .map(|h| KeyFigure::new(h.value, h.words))
            .collect(),
    )];
    blocks.extend(super::roof::small_plan(basis));
    blocks.push(Block::Heading(Heading::new(format!(
        "Open findings: {} stop, {} caution, {} note",
        basis.count(Severity::Stop),
        basis.count(Severity::Caution),
        basis.count(Severity::Note)
    ))));
    if !basis.findings.is_empty() {
        blocks.push(Block::Table(findings(basis)));
    }
    blocks.push(Block::Heading(Heading::new("Sheets")));
    blocks.push(Block::Index(Index { entries: index(others), columns: 3 }));
    blocks.push(Block::Heading(Heading::new("Sign-off")));
    blocks.push(Block::Blanks(
        ["planned: name, date", "checked: name, date", "accepted: name, date"]
            .map(|label| Blank::of(BlankWidth::Long, label).high(11.0))
            .to_vec(),
    ));
    blocks.push(Block::Paragraph(
        "This packet does not replace local codes, the makers’ instructions or licensed people."
            .into(),
    ));
    Sheet {
        anchor: "cover".into(),
        title: basis.build.job.title.value.clone(),
        purpose: purpose(basis),
        tab: Some(Kind::Cover.tab()),
        steps: None,
        blocks,
        single_sided: true,
    }
}

/// The title, or the word of the tab where the title would not fit a line of the index.
fn short(sheet: &Sheet) -> String {
    const FITS: usize = 18;
    match &sheet.tab {
        Some(tab) if sheet.title.chars().count() > FITS => tab.word.clone(),
        _ => sheet.title.clone(),
    }
}

/// Lines of the index that leave the plan its scale on either paper: six in each of three columns.
const MOST_ENTRIES: usize = 18;

/// One line a sheet; three or more of one kind share a line, and two where the list would be too long
/// for the cover.
fn index(others: &[Sheet]) -> Vec<IndexEntry> {
    let kind = |sheet: &Sheet| sheet.tab.as_ref().map(|tab| tab.word.clone());
    let list = |share: usize| {
        let mut entries: Vec<IndexEntry> = Vec::new();
        for group in others.chunk_by(|a, b| kind(a) == kind(b)) {
            match kind(&group[0]) {
                Some(word) if group.len() >= share => entries.push(IndexEntry {
                    label: if group.len() > 2 { format!("{word}s") } else { word },
                    anchors: group.iter().map(|sheet| sheet.anchor.clone()).collect(),
                }),
                _ => entries
                    .extend(group.iter().map(|s| IndexEntry::new(short(s), s.anchor.clone()))),
            }
        }
        entries
    };
    let entries = list(3);
    if entries.len() > MOST_ENTRIES { list(2) } else { entries }
}

fn purpose(basis: &Basis) -> String {
    let vehicle = basis.build.vehicle.as_ref().map(|v| v.name.value.clone());
    match vehicle {
        Some(name) => format!("For the {name}: what it takes and what is open."),
        None => "What it takes and what is open.".into(),
    }
}

fn findings(basis: &Basis) -> Table {
    Table {
        columns: vec![
            TableColumn::left("code"),
            TableColumn::left("weight"),
            TableColumn::left("finding"),
        ],
        rows: basis
            .findings
            .iter()
            .map(|f| {
                Row::new(vec![
                    Cell::Bold(f.rule.code.into()),
                    f.severity.name().into(),
                    f.message.clone().into(),
                ])
            })
            .collect(),
        ..Table::default()
    }
}
