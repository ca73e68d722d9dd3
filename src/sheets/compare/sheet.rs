//! The sheet of changes, and the packet of what is printed anew.

use super::marked::{self, MARK};
use super::{Change, Changes, Fate, SheetChange, Side, pages};
use crate::page::block::{Block, Cell, ColumnWidth, Heading, Row, Table, TableColumn};
use crate::page::text::Text;
use crate::page::{Packet, Sheet, Tab};

/// Rows of one kind that are printed; a longer list says that the work is another one.
const MOST_ROWS: usize = 40;

/// Words of the sheet of changes.
pub fn change_sheet(changes: &Changes) -> Sheet {
    let (old, new) = &changes.prints;
    let mut blocks = vec![Block::Paragraph(Text::bold(MARK).and(format!(
        "marks what differs on the sheets printed anew. Sheets are told apart by the fingerprint \
             at their foot: {old} is the older packet, {new} the newer one.",
    )))];
    blocks.extend(fates(changes));
    for group in &changes.groups {
        blocks.push(Block::Heading(Heading::new(group.title)));
        blocks.push(Block::Table(table(&group.rows)));
        if let Some(more) = group.rows.len().checked_sub(MOST_ROWS).filter(|more| *more > 0) {
            blocks.push(Block::Paragraph(format!("{more} more are not listed.").into()));
        }
    }
    blocks.push(Block::Strong("List complete. Next: the sheets printed anew.".into()));
    Sheet {
        anchor: "changes".into(),
        title: "What changed".into(),
        purpose: format!("From the packet {old} to the packet {new}."),
        tab: Some(Tab::new("Changes", 0, 8)),
        steps: None,
        blocks,
        single_sided: true,
    }
}

/// Which sheets go, come and stay.
fn fates(changes: &Changes) -> Vec<Block> {
    let mut table = Table {
        columns: vec![
            TableColumn::left("sheet").width(ColumnWidth::AtMost(72.0)),
            TableColumn::right("throw away, old no."),
            TableColumn::right("print, new no."),
            TableColumn::centre("done"),
        ],
        ..Table::default()
    };
    let told = |pages: Option<(usize, usize)>| match pages {
        None => Cell::Dash,
        Some((first, last)) if first == last => first.to_string().into(),
        Some((first, last)) => format!("{first} to {last}").into(),
    };
    for sheet in changes.sheets.iter().filter(|sheet| sheet.fate != Fate::Stays) {
        table.rows.push(Row::new(vec![
            Cell::Text(sheet.title.as_str().into()),
            told(sheet.before),
            told(sheet.after),
            Cell::Tick,
        ]));
    }
    let mut blocks = Vec::new();
    if !table.rows.is_empty() {
        blocks.push(Block::Heading(Heading::new("Sheets that go and come")));
        blocks.push(Block::Table(table));
    }
    let stay: Vec<&SheetChange> = changes.of(Fate::Stays).collect();
    if !stay.is_empty() {
        blocks.push(Block::Heading(
            Heading::new("Sheets that stay").aside("by their old number; their words are the same"),
        ));
        blocks.push(Block::Paragraph(format!("{}.", runs(&stay)).into()));
    }
    blocks
}

/// "2 to 4, 8, 12 to 20" of the old pages.
fn runs(sheets: &[&SheetChange]) -> String {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for (first, last) in sheets.iter().filter_map(|sheet| sheet.before) {
        match runs.last_mut() {
            Some(run) if run.1 + 1 == first => run.1 = last,
            _ => runs.push((first, last)),
        }
    }
    let told = runs.iter().map(|(first, last)| match last - first {
        0 => first.to_string(),
        _ => format!("{first} to {last}"),
    });
    told.collect::<Vec<_>>().join(", ")
}

fn table(rows: &[Change]) -> Table {
    // What stands in the build file is shown letter for letter.
    let value = |row: &Change, words: &str| match (words, row.key.as_str()) {
        ("", _) => Cell::Dash,
        (words, "") => words.into(),
        (words, _) => Cell::Text(Text::code(words)),
    };
    let what = |row: &Change| match (row.key.as_str(), row.what.as_str()) {
        ("", what) => Text::from(what),
        (key, "") => Text::code(key),
        (key, what) => Text::code(key).and(": ").and(what),
    };
    Table {
        columns: vec![
            TableColumn::left("what").width(ColumnWidth::AtMost(78.0)),
            TableColumn::left("was").width(ColumnWidth::AtMost(44.0)),
            TableColumn::left("is").width(ColumnWidth::AtMost(44.0)),
        ],
        rows: rows
            .iter()
            .take(MOST_ROWS)
            .map(|row| {
                Row::new(vec![
                    Cell::Text(what(row)),
                    value(row, &row.before),
                    value(row, &row.after),
                ])
            })
            .collect(),
        ..Table::default()
    }
}

/// The newer packet with nothing but what is printed anew: its cover, the sheet of changes, and the
/// sheets that change or come, marked.
pub fn since(packet: &mut Packet, old: &Side<'_>, new: &Side<'_>, changes: &Changes) {
    let mut numbers = pages(new);
    for place in &new.document.destinations {
        numbers.entry(place.name.clone()).or_insert((place.page + 1, place.page + 1));
    }
    let goes_in = |sheet: &Sheet| {
        let fate = changes.sheets.iter().find(|known| known.anchor == sheet.anchor);
        sheet.anchor == "cover" || fate.is_some_and(|known| known.fate != Fate::Stays)
    };
    packet.sheets.retain(goes_in);
    let here: Vec<String> = packet.sheets.iter().map(|sheet| sheet.anchor.clone()).collect();
    for sheet in &mut packet.sheets {
        if let Some(was) = old.packet.sheets.iter().find(|was| was.anchor == sheet.anchor) {
            marked::mark(sheet, was);
        }
        marked::number_pages(&mut sheet.blocks, &numbers);
        for block in &mut sheet.blocks {
            if let Block::Index(index) = block {
                index.entries.retain_mut(|entry| {
                    entry.anchors.retain(|anchor| here.contains(anchor));
                    !entry.anchors.is_empty()
                });
            }
        }
    }
    let place =
        packet.sheets.iter().position(|sheet| sheet.anchor == "cover").map_or(0, |at| at + 1);
    packet.sheets.insert(place, change_sheet(changes));
}
