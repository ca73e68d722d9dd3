//! Shopping and tools.

use super::words::money;
use super::{Basis, Kind};
use crate::compute::quantities::ToolGroup;
use crate::page::Sheet;
use crate::page::block::{Block, Cell, Flow, Heading, Row, Table, TableColumn};

/// One sheet for the shop and one for the bench.
pub(super) fn shopping(basis: &Basis) -> Vec<Sheet> {
    let shopping = &basis.results.shopping;
    let currency = &basis.build.job.currency.value;
    let mut sheets = Vec::new();
    if !shopping.shelves.is_empty() {
        let mut blocks = Vec::new();
        for shelf in &shopping.shelves {
            blocks.push(Block::Heading(Heading::new(sentence(shelf.name))));
            blocks.push(Block::Table(Table {
                columns: vec![
                    TableColumn::centre("got"),
                    TableColumn::left("what"),
                    TableColumn::right("needed"),
                    TableColumn::right("to buy"),
                    TableColumn::right("price"),
                ],
                rows: shelf
                    .lines
                    .iter()
                    .map(|line| {
                        Row::new(vec![
                            Cell::Tick,
                            line.what.clone().into(),
                            line.need.clone().into(),
                            Cell::Bold(line.buy.clone().into()),
                            line.price.map_or(Cell::Dash, |price| money(price, currency).into()),
                        ])
                    })
                    .collect(),
                ..Table::default()
            }));
        }
        let mut words =
            format!("Together {} for what has a price", money(shopping.priced, currency));
        if shopping.unpriced > 0 {
            words += "; ";
            words += &shopping.unpriced.to_string();
            words += " lines have none yet";
        }
        words.push('.');
        blocks.push(Block::Strong(words.into()));
        blocks.push(Block::Paragraph(
            "Amounts to buy hold spares and whole packs. Leftovers on hand are taken off already."
                .into(),
        ));
        sheets.push(Sheet {
            anchor: "shopping".into(),
            title: "Shopping".into(),
            purpose: "What to buy, shelf by shelf.".into(),
            tab: Some(Kind::Shopping.tab()),
            steps: None,
            blocks,
            single_sided: false,
        });
    }
    if !shopping.tools.is_empty() {
        sheets.push(tools(basis));
    }
    sheets
}

fn tools(basis: &Basis) -> Sheet {
    let tools = &basis.results.shopping.tools;
    let mut blocks = Vec::new();
    for group in [
        ToolGroup::Measure,
        ToolGroup::Saw,
        ToolGroup::Drill,
        ToolGroup::Fix,
        ToolGroup::Bond,
        ToolGroup::Wire,
        ToolGroup::Protect,
    ] {
        let here = || tools.iter().filter(|tool| tool.group == group);
        // What protects is not used for any one thing.
        let told = here().any(|tool| !tool.used_for.is_empty());
        let rows: Vec<Row> = here()
            .map(|tool| {
                let mut cells = vec![Cell::Tick, tool.what.clone().into()];
                if told {
                    let used = &tool.used_for;
                    let words = if used.is_empty() { Cell::Dash } else { used.clone().into() };
                    cells.push(words);
                }
                Row::new(cells)
            })
            .collect();
        if rows.is_empty() {
            continue;
        }
        let mut columns = vec![TableColumn::centre("here"), TableColumn::left("tool")];
        if told {
            columns.push(TableColumn::left("used for"));
        }
        blocks.push(Block::Heading(Heading::new(sentence(group.name()))));
        blocks.push(Block::Table(Table { columns, rows, ..Table::default() }));
    }
    // Two columns where they save a page.
    let flow = vec![Block::Flow(Flow { columns: 2, blocks: blocks.clone() })];
    let blocks = vec![Block::Choice(vec![blocks, flow])];
    Sheet {
        anchor: "tools".into(),
        title: "Tools".into(),
        purpose: "What to have on the bench before step 1.".into(),
        tab: Some(Kind::Shopping.tab()),
        steps: None,
        blocks,
        single_sided: false,
    }
}

/// With a capital in front.
fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
