//! What differs on a sheet that is printed anew, marked with a triangle.

use crate::page::Sheet;
use crate::page::block::{Action, ActionRow, Block, Cell, Row};
use crate::page::text::{Text, Words};
use std::collections::{BTreeMap, BTreeSet};

/// In front of what differs.
pub const MARK: &str = "Δ\u{a0}";

/// Marks on a sheet what its older one did not say.
pub fn mark(sheet: &mut Sheet, old: &Sheet) {
    let mut known = BTreeSet::new();
    gather(&old.blocks, &mut known);
    marked(&mut sheet.blocks, &known);
}

/// What every piece of the older sheet says.
fn gather(blocks: &[Block], known: &mut BTreeSet<String>) {
    for block in blocks {
        known.insert(format!("{block:?}"));
        match block {
            Block::Table(table) => known.extend(table.rows.iter().map(row)),
            Block::Actions(list) => known.extend(list.rows.iter().map(action_row)),
            Block::Bullets(items) => known.extend(items.iter().map(|item| format!("{item:?}"))),
            Block::Dotted(dotted) => {
                known.extend(dotted.groups.iter().flatten().map(|row| format!("{row:?}")));
            }
            Block::KeyFigures(list) => known.extend(list.iter().map(|one| format!("{one:?}"))),
            Block::Blanks(list) => known.extend(list.iter().map(|one| format!("{one:?}"))),
            _ => {}
        }
        for inner in inside(block) {
            gather(inner, known);
        }
    }
}

fn row(row: &Row) -> String {
    format!("{:?}", row.cells)
}

/// An action without its number: those after a new one are not new themselves.
fn action_row(row: &ActionRow) -> String {
    match row {
        ActionRow::Action(Action { text, why, done, also, .. }) => {
            format!("{text:?} {why:?} {done:?} {also:?}")
        }
        other => format!("{other:?}"),
    }
}

fn inside(block: &Block) -> Vec<&[Block]> {
    match block {
        Block::Columns(columns) => columns.iter().map(|column| &column.blocks[..]).collect(),
        Block::Flow(flow) => vec![&flow.blocks],
        Block::Under(under) => vec![&under.caption, &under.blocks],
        Block::WithNext(blocks) => vec![blocks],
        Block::Choice(ways) => ways.iter().map(Vec::as_slice).collect(),
        Block::Booklet(booklet) => booklet.panels.iter().map(|panel| &panel.blocks[..]).collect(),
        _ => Vec::new(),
    }
}

fn inside_mut(block: &mut Block) -> Vec<&mut Vec<Block>> {
    match block {
        Block::Columns(columns) => columns.iter_mut().map(|column| &mut column.blocks).collect(),
        Block::Flow(flow) => vec![&mut flow.blocks],
        Block::Under(under) => vec![&mut under.caption, &mut under.blocks],
        Block::WithNext(blocks) => vec![blocks],
        Block::Choice(ways) => ways.iter_mut().collect(),
        Block::Booklet(booklet) => {
            booklet.panels.iter_mut().map(|panel| &mut panel.blocks).collect()
        }
        _ => Vec::new(),
    }
}

fn marked(blocks: &mut [Block], known: &BTreeSet<String>) {
    for block in blocks {
        if known.contains(&format!("{block:?}")) {
            continue;
        }
        let fresh = |said: String| !known.contains(&said);
        match block {
            Block::Table(table) => {
                for line in table.rows.iter_mut().filter(|line| fresh(row(line))) {
                    mark_row(line);
                }
            }
            Block::Actions(list) => {
                for line in list.rows.iter_mut().filter(|line| fresh(action_row(line))) {
                    mark_action(line);
                }
            }
            Block::Bullets(items) => {
                items.iter_mut().filter(|item| fresh(format!("{item:?}"))).for_each(put);
            }
            Block::Dotted(dotted) => {
                let rows = dotted.groups.iter_mut().flatten();
                rows.filter(|row| fresh(format!("{row:?}"))).for_each(|row| put(&mut row.0));
            }
            Block::KeyFigures(list) => {
                let fresh = list.iter_mut().filter(|one| fresh(format!("{one:?}")));
                fresh.for_each(|one| put(&mut one.line));
            }
            Block::Blanks(list) => {
                let fresh = list.iter_mut().filter(|one| fresh(format!("{one:?}")));
                fresh.for_each(|one| put(&mut one.label));
            }
            Block::Paragraph(text) | Block::Strong(text) => put(text),
            Block::Lead(lead) => put(&mut lead.words),
            Block::Heading(heading) => put(&mut heading.text),
            Block::Safety(safety) => put(&mut safety.hazard),
            Block::Hold(hold) => put(&mut hold.condition),
            Block::Figure(figure) => {
                if figure.caption.is_empty() {
                    figure.caption = "the drawing differs".into();
                }
                put(&mut figure.caption);
            }
            other => {
                for blocks in inside_mut(other) {
                    marked(blocks, known);
                }
            }
        }
    }
}

fn put(text: &mut Text) {
    let old = std::mem::take(text);
    *text = Text::bold(MARK);
    text.spans.extend(old.spans);
}

/// The first cell of words carries the mark.
fn mark_row(row: &mut Row) {
    for cell in &mut row.cells {
        if let Cell::Text(text) | Cell::Bold(text) | Cell::Head(text) = cell {
            put(text);
            return;
        }
    }
}

fn mark_action(row: &mut ActionRow) {
    match row {
        ActionRow::Action(action) => put(&mut action.text),
        ActionRow::Safety(safety) => put(&mut safety.hazard),
        ActionRow::Hold(hold) => put(&mut hold.condition),
        ActionRow::Figure(figure) => put(&mut figure.caption),
    }
}

/// Page numbers that the texts ask for, put in as words: those of the whole packet, on sheets that are
/// printed without the others.
pub(super) fn number_pages(blocks: &mut [Block], pages: &BTreeMap<String, (usize, usize)>) {
    for block in blocks {
        let mut texts: Vec<&mut Text> = Vec::new();
        match block {
            Block::Table(table) => {
                for cell in table.rows.iter_mut().flat_map(|row| &mut row.cells) {
                    if let Cell::Text(text) | Cell::Bold(text) | Cell::Head(text) = cell {
                        texts.push(text);
                    }
                }
            }
            Block::Bullets(items) => texts.extend(items),
            Block::Dotted(dotted) => {
                let rows = dotted.groups.iter_mut().flatten();
                texts.extend(rows.flat_map(|(label, value)| [label, value]));
            }
            Block::Paragraph(text) | Block::Strong(text) => texts.push(text),
            Block::Heading(heading) => texts.extend([&mut heading.text, &mut heading.aside]),
            Block::Lead(lead) => texts.extend(&mut lead.notes),
            Block::Safety(safety) => texts.push(&mut safety.avoid),
            Block::Actions(list) => {
                for row in &mut list.rows {
                    match row {
                        ActionRow::Action(action) => {
                            texts.extend([&mut action.text, &mut action.why]);
                        }
                        ActionRow::Safety(safety) => texts.push(&mut safety.avoid),
                        ActionRow::Hold(hold) => texts.push(&mut hold.condition),
                        ActionRow::Figure(figure) => texts.push(&mut figure.caption),
                    }
                }
            }
            Block::Figure(figure) => texts.push(&mut figure.caption),
            _ => {}
        }
        for text in texts {
            number(text, pages);
        }
        for blocks in inside_mut(block) {
            number_pages(blocks, pages);
        }
    }
}

fn number(text: &mut Text, pages: &BTreeMap<String, (usize, usize)>) {
    for span in &mut text.spans {
        let told = match &span.words {
            Words::Plain(_) | Words::Code(_) => None,
            Words::PageOf(anchor) => pages.get(anchor).map(|(first, _)| first.to_string()),
            Words::PagesOf(anchors) => {
                let first =
                    anchors.iter().filter_map(|anchor| pages.get(anchor)).map(|p| p.0).min();
                let last = anchors.iter().filter_map(|anchor| pages.get(anchor)).map(|p| p.1).max();
                first.zip(last).map(|(first, last)| {
                    if first == last { first.to_string() } else { format!("{first} to {last}") }
                })
            }
        };
        if let Some(told) = told {
            span.words = Words::Plain(told);
        }
        // A link leads to a sheet that is not in this print.
        span.link = None;
    }
}
