//! What to take from the shop, what comes home, and how good the plan is.

use super::super::words::{bare, mm, money};
use super::super::{Basis, Kind};
use super::{in_inches, inches};
use crate::compute::cut_list::{CutList, SectionCuts};
use crate::page::Sheet;
use crate::page::block::{Block, Cell, ColumnWidth, Heading, Row, Table, TableColumn};
use crate::units::Length;

/// The sheet.
pub(super) fn home(basis: &Basis, cuts: &CutList) -> Sheet {
    let mut blocks =
        vec![Block::Heading(Heading::new("From the shop")), Block::Table(shop(basis, cuts))];
    let kept = kept(basis, cuts);
    if !kept.rows.is_empty() {
        blocks
            .push(Block::Heading(Heading::new("What comes home").aside("write the label on each")));
        blocks.push(Block::Table(kept));
    }
    let scrap: Length =
        cuts.bars.iter().filter(|bar| bar.rest_mark.is_none()).map(|bar| bar.rest).sum();
    if scrap > Length::ZERO {
        blocks.push(Block::Paragraph(
            format!("Scrap of bars, too short to keep: {} together.", mm(scrap, 0)).into(),
        ));
    }
    blocks.push(Block::Heading(
        Heading::new("How good this plan is").aside("proven: reached equals the best there can be"),
    ));
    blocks.push(Block::Table(proof(basis, cuts)));
    if cuts.sections.iter().any(|s| !s.proven) || cuts.sheet_sections.iter().any(|s| !s.proven) {
        blocks.push(Block::Paragraph(
            "Where the price is open the plan can be used; at most the difference could be saved."
                .into(),
        ));
    }
    Sheet {
        anchor: "cut-home".into(),
        title: "Shop and home".into(),
        purpose: "What to take from the shop, and what comes home.".into(),
        tab: Some(Kind::Cut.tab()),
        steps: None,
        blocks,
        single_sided: true,
    }
}

fn shop(basis: &Basis, cuts: &CutList) -> Table {
    let currency = &basis.build.job.currency.value;
    let cost = |price: Option<crate::units::Money>, count: u32| {
        price.map_or(Cell::Dash, |one| money(one * u64::from(count), currency).into())
    };
    let mut rows = Vec::new();
    let mut add = |what: String, size: String, count: u32, price: Cell| {
        rows.push(Row::new(vec![
            Cell::Tick,
            what.into(),
            size.into(),
            count.to_string().into(),
            price,
        ]));
    };
    for section in &cuts.sections {
        for (length, count, price) in &section.buy {
            add(section.section.words.clone(), bare(*length, 0), *count, cost(*price, *count));
        }
    }
    for section in &cuts.sheet_sections {
        for (length, width, count, price) in &section.buy {
            let size = format!("{}\u{a0}×\u{a0}{}", bare(*length, 0), bare(*width, 0));
            add(section.stuff.words(), size, *count, cost(*price, *count));
        }
    }
    let mut on_hand: Vec<(String, String)> = Vec::new();
    for bar in &cuts.bars {
        if let Some(label) = &bar.on_hand {
            on_hand.push((format!("{}, on hand: {label}", bar.section.words), bare(bar.length, 0)));
        }
    }
    for plate in &cuts.plates {
        if let Some(label) = &plate.on_hand {
            let size = format!("{}\u{a0}×\u{a0}{}", bare(plate.length, 0), bare(plate.width, 0));
            on_hand.push((format!("{}, on hand: {label}", plate.stuff.words()), size));
        }
    }
    for (what, size) in on_hand {
        add(what, size, 1, Cell::Dash);
    }
    Table {
        columns: vec![
            TableColumn::centre("got"),
            TableColumn::left("what").width(ColumnWidth::AtMost(92.0)),
            TableColumn::right("size, mm"),
            TableColumn::right("count"),
            TableColumn::right("price"),
        ],
        rows,
        ..Table::default()
    }
}

/// Labels of what is worth keeping.
fn kept(basis: &Basis, cuts: &CutList) -> Table {
    let inch = inches(basis);
    let mut rows = Vec::new();
    let mut add = |mark: &str, what: String, sizes: &[Length]| {
        let mut cells = vec![
            Cell::Head(format!("{mark} of {}", basis.build.job.number.value).into()),
            what.into(),
        ];
        let times = |told: Vec<String>| Cell::from(told.join("\u{a0}×\u{a0}"));
        cells.push(times(sizes.iter().map(|size| bare(*size, 0)).collect()));
        if inch {
            cells.push(times(sizes.iter().map(|size| in_inches(basis, *size)).collect()));
        }
        cells.extend([Cell::Blank(String::new()), Cell::Tick]);
        rows.push(Row::new(cells));
    };
    for bar in &cuts.bars {
        if let Some(mark) = &bar.rest_mark {
            add(mark, bar.section.words.clone(), &[bar.rest]);
        }
    }
    for plate in &cuts.plates {
        for rest in &plate.rests {
            if let Some(mark) = &rest.mark {
                add(mark, plate.stuff.words(), &[rest.length, rest.width]);
            }
        }
    }
    let mut columns = vec![
        TableColumn::left("label"),
        TableColumn::left("what").width(ColumnWidth::AtMost(80.0)),
        TableColumn::right("size, mm"),
    ];
    if inch {
        columns.push(TableColumn::right(format!("size, in ({})", *basis.build.cutting.fraction)));
    }
    columns.push(TableColumn::centre("measured").width(ColumnWidth::Mm(22.0)));
    columns.push(TableColumn::centre("labelled"));
    Table { columns, rows, ..Table::default() }
}

/// Reached and best of each aim, in the order in which they count.
fn proof(basis: &Basis, cuts: &CutList) -> Table {
    let currency = &basis.build.job.currency.value;
    let mut rows = Vec::new();
    let mut add = |cells: [String; 4], proven: bool, last: bool| {
        let [what, aim, value, bound] = cells;
        let row = Row::new(vec![
            what.into(),
            aim.into(),
            value.into(),
            bound.into(),
            if proven { Cell::Text("yes".into()) } else { Cell::Bold("open".into()) },
        ]);
        rows.push(if last { row.ends_group() } else { row });
    };
    for section in &cuts.sections {
        let (value, bound) = cost(section, currency);
        let what = section.section.words.clone();
        let aim = if section.price.is_some() { "least price" } else { "least length bought" };
        add([what.clone(), aim.into(), value, bound], section.proven, false);
        let left = section.leftover;
        // A bound as long as a bar says nothing.
        let longest = cuts.bars.iter().filter(|bar| bar.section == section.section);
        let longest = longest.map(|bar| bar.length).fold(Length::ZERO, Length::max);
        let bound = if left.bound >= longest { "unknown".into() } else { mm(left.bound, 0) };
        add(
            [what.clone(), "longest leftover".into(), mm(left.value, 0), bound],
            left.proven(),
            false,
        );
        let ups = section.set_ups;
        add(
            [what, "fewest different bars".into(), ups.value.to_string(), ups.bound.to_string()],
            ups.proven(),
            true,
        );
    }
    for section in &cuts.sheet_sections {
        let told = |price: Option<crate::units::Money>| {
            price.map_or_else(|| "–".to_owned(), |price| money(price, currency))
        };
        let aim = if section.price.is_some() { "least price" } else { "least area bought" };
        add(
            [section.stuff.words(), aim.into(), told(section.price), told(section.bound)],
            section.proven,
            false,
        );
        let left = section.leftover;
        let square = |area: crate::units::Area| {
            format!("{}\u{a0}m²", crate::units::display::number(area.to_m2(), 3))
        };
        add(
            [
                section.stuff.words(),
                "largest strip left".into(),
                square(left.value),
                if left.proven() { square(left.bound) } else { "unknown".into() },
            ],
            left.proven(),
            true,
        );
    }
    Table {
        columns: vec![
            TableColumn::left("what").width(ColumnWidth::AtMost(62.0)),
            TableColumn::left("aim, in this order"),
            TableColumn::right("reached"),
            TableColumn::right("best can be"),
            TableColumn::centre("proven"),
        ],
        rows,
        ..Table::default()
    }
}

fn cost(section: &SectionCuts, currency: &str) -> (String, String) {
    match (section.price, section.bound, section.bought) {
        (Some(price), Some(bound), _) => (money(price, currency), money(bound, currency)),
        (_, _, Some(bought)) => (mm(bought.value, 0), mm(bought.bound, 0)),
        _ => ("–".into(), "–".into()),
    }
}
