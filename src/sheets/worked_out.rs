//! How each deciding figure was worked out, and where it comes from.

use super::{Basis, Kind};
use crate::page::Sheet;
use crate::page::block::{Block, Column, Heading};
use crate::page::text::Text;
use crate::source::{Figure, Seen};
use crate::units::display;

/// One block a figure that decides something, two columns.
pub(super) fn worked_out(basis: &Basis) -> Vec<Sheet> {
    let figures: Vec<&Figure> = basis.results.ledger.iter().filter(|f| f.decides).collect();
    if figures.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![Block::Paragraph(
        "Values marked “from memory” or “common practice” have no source that was read; the maker’s \
         own sheet wins over them."
            .into(),
    )];
    for pair in figures.chunks(2) {
        blocks.push(Block::Columns(
            pair.iter().map(|figure| Column::new(3, vec![entry(figure)].concat())).collect(),
        ));
    }
    let defaults: Vec<Text> = Vec::new();
    if !defaults.is_empty() {
        blocks.push(Block::Heading(
            Heading::new("Taken as usual").aside("not stated in the build file"),
        ));
        blocks.push(Block::Bullets(defaults));
    }
    vec![Sheet {
        anchor: "worked-out".into(),
        title: "How it was worked out".into(),
        purpose: "Formula, numbers, result and source of each figure that decides something."
            .into(),
        tab: Some(Kind::Worked.tab()),
        steps: None,
        blocks,
        single_sided: false,
    }]
}

fn entry(figure: &Figure) -> Vec<Block> {
    let value = display::number_short(figure.value, 3);
    let unit =
        if figure.unit.is_empty() { String::new() } else { format!("\u{a0}{}", figure.unit) };
    let mut blocks = vec![Block::Strong(format!("{}: {value}{unit}", figure.label).into())];
    let mut body = Text::new();
    let mut line = |words: String| {
        let text = std::mem::take(&mut body);
        body = if text.is_empty() { text.and(words) } else { text.and(" · ").and(words) };
    };
    if !figure.formula.is_empty() {
        line(figure.formula.clone());
    }
    for (symbol, value) in &figure.inputs {
        line(format!("{symbol}: {value}"));
    }
    let seen = match figure.seen {
        Seen::Computed => String::new(),
        seen => format!(" ({})", seen.name()),
    };
    line(format!("{}{seen}", figure.source));
    for assumption in &figure.assumptions {
        line(format!("taken: {assumption}"));
    }
    blocks.push(Block::Paragraph(body));
    blocks
}
