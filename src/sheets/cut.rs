//! The cut sheets: one strip a bar, to scale, and the table that wins over it.

use super::words::{bare, mm, money};
use super::{Basis, Kind};
use crate::build::LengthUnit;
use crate::compute::cut_list::{BarCut, CutBar, CutList};
use crate::page::Sheet;
use crate::page::block::{Block, Cell, Figure, Heading, Lead, Row, Table, TableColumn};
use crate::page::scene::{Fill, Lettering, Line, Place, Scale, Scene, Side, Style};
use crate::page::text::Text;
use crate::units::{Length, display};

/// Room for a strip on paper, mm.
const STRIP_WIDTH: f64 = 165.0;
/// Height of a strip on paper, mm.
const STRIP_HEIGHT: f64 = 9.0;
/// Under this width on paper, mm, a piece has no room for its mark; from `WIDE` on it has room for
/// mark and length.
const NARROW: f64 = 11.0;
const WIDE: f64 = 30.0;

/// The sheets; none where nothing is cut.
pub(super) fn cut(basis: &Basis) -> Vec<Sheet> {
    let Some(cuts) = &basis.results.cuts else { return Vec::new() };
    let mut blocks = vec![lead(basis, cuts)];
    // A scale bar is drawn at the first strip of each scale.
    let mut scales: Vec<Scale> = Vec::new();
    for bar in &cuts.bars {
        let scale = scale(bar.length);
        let first = !scales.contains(&scale);
        if first {
            scales.push(scale);
        }
        blocks.push(Block::Heading(
            Heading::new(format!("bar {}", bar.number)).aside(bar_words(bar, scale)),
        ));
        let strip = strip(bar, cuts, scale, first);
        blocks.push(Block::Figure(Figure::new(strip, 40.0).at_left()));
    }
    blocks.push(Block::Heading(
        Heading::new("The table wins over the picture.")
            .aside("limits: a careful cut, ISO 2768-1 class c at most"),
    ));
    blocks.push(Block::Table(table(basis, cuts)));
    blocks.push(Block::Heading(Heading::new("From the shop, and what comes home")));
    blocks.push(Block::Table(shop(basis, cuts)));
    if let Some(words) = rests(cuts) {
        blocks.push(Block::Paragraph(words.into()));
    }
    blocks.push(Block::Paragraph(proof(cuts).into()));
    vec![Sheet {
        anchor: "cut".into(),
        title: "Cut the bars".into(),
        purpose: "Every piece, where its cut falls, and what is left over.".into(),
        tab: Some(Kind::Cut.tab()),
        steps: None,
        blocks,
        single_sided: true,
    }]
}

fn lead(basis: &Basis, cuts: &CutList) -> Block {
    let count = cuts.bars.len();
    let mut notes: Vec<Text> = vec![
        "Zero (circle): the left end of each bar.".into(),
        format!("Marks run from zero. Kerf {} lies right of the mark.", mm(cuts.kerf, 1)).into(),
    ];
    let trim = *basis.build.cutting.trim;
    if trim > Length::ZERO {
        notes.push(
            format!("First {} of a new bar is trim. All cuts square, 90°.", mm(trim, 0)).into(),
        );
    } else {
        notes.push("All cuts square, 90°.".into());
    }
    Block::Lead(Lead {
        words: format!("Cut {count} {}", if count == 1 { "bar" } else { "bars" }).into(),
        notes,
    })
}

/// The largest scale of ISO 5455 at which a bar of this length fits the strip's width.
fn scale(length: Length) -> Scale {
    Scale::LIST
        .into_iter()
        .filter(|scale| scale.factor() <= 0.5)
        .find(|scale| length.to_mm() * scale.factor() <= STRIP_WIDTH)
        .unwrap_or(Scale::LIST[Scale::LIST.len() - 1])
}

fn bar_words(bar: &CutBar, scale: Scale) -> String {
    let mut words = format!("{}, {}, {scale}", bar.section.words, mm(bar.length, 0));
    if let Some(label) = &bar.on_hand {
        words += ", on hand: ";
        words += label;
    }
    words
}

/// One bar to scale: pieces with marks, kerfs as lines, the rest dashed, scrap hatched.
fn strip(bar: &CutBar, cuts: &CutList, scale: Scale, with_bar: bool) -> Scene {
    let long = bar.length.to_mm();
    // A bar is drawn as a strip of one height on paper; only its length is to scale.
    let on_paper = |paper: f64| paper / scale.factor();
    let high = on_paper(STRIP_HEIGHT);
    let alt = format!(
        "bar {} with {} pieces from the left: {}",
        bar.number,
        bar.cuts.len(),
        bar.cuts
            .iter()
            .map(|c| format!("{} {:.0} mm", c.mark, c.length.to_mm()))
            .collect::<Vec<_>>()
            .join(", ")
    );
    let mut scene = Scene::at_scale(alt, scale);
    if with_bar {
        scene.view("along the bar");
    }
    scene.lettering = Lettering::Large;
    let end = bar.cuts.last().map_or(bar.trim, |cut| cut.to);
    let start = bar.trim.to_mm();
    for cut in &bar.cuts {
        let (from, to) = (cut.from.to_mm(), cut.to.to_mm());
        scene.rectangle((from, 0.0), (to - from, high), Line::VISIBLE);
    }
    let groups = groups(bar, on_paper(NARROW));
    for group in &groups {
        let (from, to) = (group[0].from.to_mm(), group[group.len() - 1].to.to_mm());
        let middle = (f64::midpoint(from, to), high / 2.0);
        if let [cut] = group[..] {
            // A short piece has room for its mark alone.
            let text = if to - from > on_paper(WIDE) {
                format!("{}  {}", cut.mark, bare(cut.length, 0))
            } else {
                cut.mark.clone()
            };
            scene.words(middle, text, Place::Centre, Style::BOLD);
        } else {
            // Pieces too narrow for a mark each are named together.
            let text = format!("{} to {}", group[0].mark, group[group.len() - 1].mark);
            scene.label_on((middle.0, 0.0), Side::Below, text);
        }
    }
    if start > 0.0 {
        scene.filled_rectangle((0.0, 0.0), (start, high), Fill::HATCH, Some(Line::THIN));
    }
    let rest_from = (end + cuts.kerf).to_mm();
    if bar.rest > Length::ZERO && rest_from < long {
        let size = (long - rest_from, high);
        if let Some(mark) = &bar.rest_mark {
            scene.rectangle((rest_from, 0.0), size, Line::HIDDEN);
            scene.words(
                (f64::midpoint(rest_from, long), high / 2.0),
                mark.clone(),
                Place::Centre,
                Style::BOLD,
            );
        } else {
            scene.filled_rectangle((rest_from, 0.0), size, Fill::HATCH, Some(Line::THIN));
        }
    }
    // Of pieces named together the last mark stands in the picture; the table has all.
    let marks: Vec<((f64, f64), String)> = groups
        .iter()
        .map(|group| {
            let to = group[group.len() - 1].to;
            ((to.to_mm(), high), bare(to, 1))
        })
        .collect();
    scene.running(Side::Above, (0.0, high), &marks);
    scene
}

/// Pieces by what one name can stand for: a wide one alone, narrow neighbours together.
fn groups(bar: &CutBar, least: f64) -> Vec<Vec<&BarCut>> {
    let narrow = |cut: &BarCut| cut.length.to_mm() < least;
    let mut groups: Vec<Vec<&BarCut>> = Vec::new();
    for cut in &bar.cuts {
        match groups.last_mut() {
            Some(group) if narrow(cut) && narrow(group[0]) => group.push(cut),
            _ => groups.push(vec![cut]),
        }
    }
    groups
}

fn table(basis: &Basis, cuts: &CutList) -> Table {
    let inch = *basis.build.job.units == LengthUnit::Inch;
    let mut columns = vec![
        TableColumn::number("bar"),
        TableColumn::left("mark"),
        TableColumn::left("name"),
        TableColumn::number("mark at, mm"),
        TableColumn::number("length, mm"),
        TableColumn::number("low, mm"),
        TableColumn::number("high, mm"),
        TableColumn::centre("cut"),
    ];
    if inch {
        columns.insert(4, TableColumn::right("mark at, in (1/32)"));
    }
    let mut rows = Vec::new();
    for bar in &cuts.bars {
        for (index, cut) in bar.cuts.iter().enumerate() {
            let mut cells: Vec<Cell> = vec![
                bar.number.to_string().into(),
                Cell::Head(cut.mark.clone().into()),
                cut.name.clone().into(),
                bare(cut.to, 1).into(),
                bare(cut.length, 1).into(),
                bare(cut.limits.low, 1).into(),
                bare(cut.limits.high, 1).into(),
                Cell::Tick,
            ];
            if inch {
                cells.insert(4, display::inches(cut.to, display::InchStep::ThirtySecond).into());
            }
            let row = Row::new(cells);
            rows.push(if index + 1 == bar.cuts.len() { row.ends_group() } else { row });
        }
    }
    Table { columns, rows, ..Table::default() }
}

fn shop(basis: &Basis, cuts: &CutList) -> Table {
    let currency = &basis.build.job.currency.value;
    let rows = cuts
        .sections
        .iter()
        .flat_map(|section| {
            let mut rows: Vec<Row> = section
                .buy
                .iter()
                .map(|(length, count, price)| {
                    Row::new(vec![
                        section.section.words.clone().into(),
                        bare(*length, 0).into(),
                        count.to_string().into(),
                        price.map_or(Cell::Dash, |one| {
                            money(one * u64::from(*count), currency).into()
                        }),
                    ])
                })
                .collect();
            if rows.is_empty() {
                rows.push(Row::new(vec![
                    section.section.words.clone().into(),
                    Cell::Dash,
                    "0".into(),
                    Cell::Dash,
                ]));
            }
            rows
        })
        .collect();
    Table {
        columns: vec![
            TableColumn::left("to buy"),
            TableColumn::number("length, mm"),
            TableColumn::number("bars"),
            TableColumn::right("price"),
        ],
        rows,
        ..Table::default()
    }
}

fn rests(cuts: &CutList) -> Option<String> {
    let kept: Vec<String> = cuts
        .bars
        .iter()
        .filter_map(|bar| bar.rest_mark.as_ref().map(|mark| format!("{mark} {}", mm(bar.rest, 0))))
        .collect();
    let scrap: Length =
        cuts.bars.iter().filter(|bar| bar.rest_mark.is_none()).map(|bar| bar.rest).sum();
    if kept.is_empty() && scrap.is_zero() {
        return None;
    }
    let mut words = String::new();
    if !kept.is_empty() {
        words = format!("Left over: {}", kept.join(", "));
    }
    if scrap > Length::ZERO {
        words.push_str(if words.is_empty() { "Scrap " } else { "; scrap " });
        words.push_str(&mm(scrap, 0));
    }
    words.push('.');
    Some(words)
}

fn proof(cuts: &CutList) -> String {
    if cuts.sections.iter().all(|s| s.proven) {
        "No cheaper way to cut these pieces exists: the price equals its lower bound for each section.".into()
    } else {
        "For at least one section a cheaper way may exist; its bound stands in the worked-out sheets.".into()
    }
}
