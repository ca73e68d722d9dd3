//! The cut list: which bars to take, where to saw, what comes home.
//!
//! Takes the parts made of bar sections with the stock and the leftovers on hand; gives the plan of
//! [`cutting`](crate::compute::cutting) in the words and units of the workshop, with its proof.

mod limits;
pub mod rules;

use crate::build::Build;
use crate::compute::cutting::{self, CuttingError, Job, Measure, Piece, Stock};
use crate::derive::{Body, Work};
use crate::source::{Figure, Finding, Ledger, Seen, Span};
use crate::tables::{Section, Tables};
use crate::units::{Length, Money};

pub use limits::Limits;

/// Bars in the order of cutting, with their proof.
#[derive(Debug, Clone)]
pub struct CutList {
    /// One entry a section, in the order of the build file's parts.
    pub sections: Vec<SectionCuts>,
    /// Bars in order, numbered through.
    pub bars: Vec<CutBar>,
    /// Width of the saw cut.
    pub kerf: Length,
    /// Price of the bars to buy, where every one has a price.
    pub price: Option<Money>,
}

/// What a section needs.
#[derive(Debug, Clone)]
pub struct SectionCuts {
    /// Section row.
    pub section: Section,
    /// Bars to buy: length, how many, price of one.
    pub buy: Vec<(Length, u32, Option<Money>)>,
    /// Price of them, where known.
    pub price: Option<Money>,
    /// No plan is cheaper than this.
    pub bound: Option<Money>,
    /// Whether cost equals bound.
    pub proven: bool,
    /// Whether the longest leftover and the fewest set-ups are proven too.
    pub tidy_proven: (bool, bool),
}

/// One bar to cut.
#[derive(Debug, Clone)]
pub struct CutBar {
    /// Number on the sheet, from 1.
    pub number: usize,
    /// Section row.
    pub section: Section,
    /// Length of the bar.
    pub length: Length,
    /// Label of the leftover that it is, if it is one.
    pub on_hand: Option<String>,
    /// Cut off the zero end.
    pub trim: Length,
    /// Pieces in order.
    pub cuts: Vec<BarCut>,
    /// What is left.
    pub rest: Length,
    /// Mark of the rest, if it is worth keeping.
    pub rest_mark: Option<String>,
    /// Number of the pattern; equal numbers are cut alike.
    pub pattern: usize,
}

/// One piece on a bar.
#[derive(Debug, Clone)]
pub struct BarCut {
    /// Mark of the piece.
    pub mark: String,
    /// Name of the part.
    pub name: String,
    /// Finished length.
    pub length: Length,
    /// Where it begins, from the zero end.
    pub from: Length,
    /// Where it ends and its saw cut begins.
    pub to: Length,
    /// Least and greatest length.
    pub limits: Limits,
}

/// Hundredths of a millimetre.
fn whole(length: Length) -> i64 {
    (length.to_mm() * 100.0).round() as i64
}

fn length(hundredths: i64) -> Length {
    Length::mm(hundredths as f64 / 100.0)
}

/// A piece wanted: its mark, name, length, whether it sets the frame's size, and its place.
struct Wanted {
    mark: String,
    name: String,
    length: Length,
    span: Span,
}

/// Works out the cut list. `None` where nothing is cut from bars or no plan exists.
pub fn cut_list(
    build: &Build,
    work: &Work,
    tables: &Tables,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Option<CutList> {
    let groups = wanted(work);
    if groups.is_empty() {
        return None;
    }
    let cutting = &build.cutting;
    let mut sections = Vec::new();
    let mut bars: Vec<CutBar> = Vec::new();
    let mut whole_plan = true;
    for (section, pieces) in &groups {
        let job = Job {
            sections: vec![job_section(build, section, pieces)],
            work_limit: Job::WORK_LIMIT,
        };
        let plan = match cutting::cut(&job) {
            Ok(plan) => plan,
            Err(error) => {
                findings.push(explain(build, section, pieces, &error));
                whole_plan = false;
                continue;
            }
        };
        for answer in plan.sections {
            let priced = answer.measure == Measure::Price;
            let money = |cents: i64| priced.then(|| Money::cents(cents));
            let mut buy: Vec<(Length, u32, Option<Money>)> = Vec::new();
            for bar in &answer.bars {
                let on_hand = on_hand(build, &bar.stock);
                if on_hand.is_none() {
                    let size = length(bar.length);
                    match buy.iter_mut().find(|b| b.0 == size) {
                        Some(entry) => entry.1 += 1,
                        None => buy.push((size, 1, bar.price.map(Money::cents))),
                    }
                }
                let cuts = bar
                    .cuts
                    .iter()
                    .filter_map(|cut| {
                        let piece = pieces.iter().find(|p| p.mark == cut.piece)?;
                        Some(BarCut {
                            mark: piece.mark.clone(),
                            name: piece.name.clone(),
                            length: piece.length,
                            from: length(cut.from),
                            to: length(cut.to),
                            limits: Limits::of(piece.length, &cutting.saw, tables),
                        })
                    })
                    .collect();
                bars.push(CutBar {
                    number: bars.len() + 1,
                    section: section.clone(),
                    length: length(bar.length),
                    on_hand,
                    trim: length(bar.trim_start),
                    cuts,
                    rest: length(bar.leftover),
                    rest_mark: bar.useful.then(String::new),
                    pattern: bar.set_up,
                });
            }
            if !answer.cost.proven() {
                let (value, bound) = (answer.cost.value, answer.cost.bound);
                findings.push(rules::not_proven(&section.words, value, bound, priced));
            }
            sections.push(SectionCuts {
                section: section.clone(),
                buy,
                price: money(answer.cost.value),
                bound: money(answer.cost.bound),
                proven: answer.cost.proven(),
                tidy_proven: (answer.leftover.proven(), answer.set_ups.proven()),
            });
        }
    }
    if bars.is_empty() && !whole_plan {
        return None;
    }
    for (number, bar) in bars.iter_mut().filter(|b| b.rest_mark.is_some()).enumerate() {
        bar.rest_mark = Some(format!("K{}", number + 1));
    }
    let price = sections.iter().map(|s| s.price).sum::<Option<Money>>();
    let list = CutList { sections, bars, kerf: *cutting.kerf, price };
    record(&list, ledger);
    Some(list)
}

/// Pieces cut from bars, by section, in the order of the work.
fn wanted(work: &Work) -> Vec<(Section, Vec<Wanted>)> {
    let mut groups: Vec<(Section, Vec<Wanted>)> = Vec::new();
    for part in &work.parts {
        let (section, length) = match &part.body {
            Body::Bar { section, length, .. }
            | Body::Plate { section: Some(section), length, .. } => (section, *length),
            _ => continue,
        };
        let pieces = part.pieces.iter().map(|piece| Wanted {
            mark: piece.mark.clone(),
            name: part.name.clone(),
            length,
            span: part.span,
        });
        match groups.iter_mut().find(|(known, _)| known.name == section.name) {
            Some((_, list)) => list.extend(pieces),
            None => groups.push((section.clone(), pieces.collect())),
        }
    }
    groups
}

fn job_section(build: &Build, section: &Section, pieces: &[Wanted]) -> cutting::Section {
    let trim = whole(*build.cutting.trim);
    let bought =
        build.stock.iter().enumerate().filter(|(_, s)| s.section.name == section.name).map(
            |(index, stock)| Stock {
                id: format!("new {index}"),
                length: whole(*stock.length),
                trim_start: trim,
                trim_end: 0,
                price: stock.price.as_ref().map(|p| p.to_cents()),
                limit: None,
            },
        );
    let on_hand =
        build.leftovers.iter().enumerate().filter(|(_, l)| l.section.name == section.name).map(
            |(index, leftover)| Stock {
                id: format!("hand {index}"),
                length: whole(*leftover.length),
                // A leftover has a sawn end already; its other end may be as the shop cut it.
                trim_start: 0,
                trim_end: 0,
                price: Some(0),
                limit: Some(*leftover.count),
            },
        );
    cutting::Section {
        name: section.name.clone(),
        kerf: whole(*build.cutting.kerf),
        least_useful: whole(*build.cutting.least_leftover),
        pieces: pieces
            .iter()
            .map(|p| Piece { id: p.mark.clone(), length: whole(p.length), extra: 0 })
            .collect(),
        stock: bought.chain(on_hand).collect(),
    }
}

fn on_hand(build: &Build, id: &str) -> Option<String> {
    let index: usize = id.strip_prefix("hand ")?.parse().ok()?;
    build.leftovers.get(index).map(|leftover| leftover.label.value.clone())
}

fn explain(build: &Build, section: &Section, pieces: &[Wanted], error: &CuttingError) -> Finding {
    let piece_span =
        |mark: &str| pieces.iter().find(|p| p.mark == mark).map_or(Span::NONE, |p| p.span);
    let first = pieces.first().map_or(Span::NONE, |p| p.span);
    match error {
        CuttingError::NoStock { .. } => {
            let total: Length = pieces.iter().map(|p| p.length).sum();
            Finding::new(&rules::NO_STOCK, format!("no stock is stated for {}", section.words))
                .at(first, format!("{} pieces are cut from it", pieces.len()))
                .means("there is nothing to cut these parts from")
                .help(format!(
                    "add [[stock]] with section = \"{}\", length and price; the pieces add up to {:.0} mm",
                    section.name,
                    total.to_mm()
                ))
        }
        CuttingError::PieceTooLong { item, length: piece, longest, .. } => {
            let mut finding = Finding::new(
                &rules::PIECE_TOO_LONG,
                format!(
                    "the piece {item} is {:.1} mm long; the longest {} gives {:.1} mm",
                    length(*piece).to_mm(),
                    section.words,
                    length(*longest).to_mm()
                ),
            )
            .at(piece_span(item), "this part is longer than any bar")
            .means("two shorter pieces joined are not the part that was worked out")
            .help(format!(
                "add [[stock]] of {} that is at least {:.0} mm long, or make the part shorter",
                section.words,
                (length(*piece) + *build.cutting.trim).to_mm().ceil()
            ));
            for stock in build.stock.iter().filter(|s| s.section.name == section.name) {
                finding = finding.also(stock.span, format!("{:.0} mm long", stock.length.to_mm()));
            }
            finding
        }
        CuttingError::NotEnoughStock { .. } => not_enough(build, section, pieces),
        CuttingError::TrimTakesAll { item, .. } => trim_takes_all(build, section, item, first),
        other => {
            Finding::new(&rules::NO_PLAN, format!("no cut list for {}: {other}", section.words))
                .at(first, "these parts")
                .means("without a plan there are no marks to saw by")
                .help("check lengths, kerf and trim of this section")
        }
    }
}

fn not_enough(build: &Build, section: &Section, pieces: &[Wanted]) -> Finding {
    let wanted: Length = pieces.iter().map(|p| p.length).sum();
    let on_hand: Vec<_> =
        build.leftovers.iter().filter(|l| l.section.name == section.name).collect();
    let length: Length = on_hand.iter().map(|l| *l.length * f64::from(*l.count)).sum();
    let mut finding = Finding::new(
        &rules::NOT_ENOUGH,
        format!(
            "the leftovers of {} do not give all pieces: {} pieces of {:.0} mm together, {:.0} mm on hand",
            section.words,
            pieces.len(),
            wanted.to_mm(),
            length.to_mm()
        ),
    )
    .at(pieces.first().map_or(Span::NONE, |p| p.span), format!("{} pieces are wanted", pieces.len()))
    .means("saw cuts and ends that are too short for a piece are lost; the last pieces would be missing")
    .help(format!("add [[stock]] with section = \"{}\", length and price, to buy the rest", section.name));
    for leftover in on_hand {
        finding = finding.also(
            leftover.span,
            format!("{} of {:.0} mm", *leftover.count, leftover.length.to_mm()),
        );
    }
    finding
}

fn trim_takes_all(build: &Build, section: &Section, item: &str, first: Span) -> Finding {
    let trim = &build.cutting.trim;
    let stock = item.strip_prefix("new ").and_then(|i| build.stock.get(i.parse::<usize>().ok()?));
    let long = stock.map_or(Length::ZERO, |stock| *stock.length);
    let place = if trim.span.is_none() { first } else { trim.span };
    let finding = Finding::new(
        &rules::NO_PLAN,
        format!(
            "a trim of {:.0} mm leaves nothing of a bar of {:.0} mm ({})",
            trim.to_mm(),
            long.to_mm(),
            section.words
        ),
    )
    .at(place, "cut off one end of each new bar")
    .means("without a plan there are no marks to saw by")
    .help("trim is the rough end that the shop left, a few millimetres: such as `trim = 5`");
    match stock {
        Some(stock) => finding.also(stock.span, "this bar"),
        None => finding,
    }
}

fn record(list: &CutList, ledger: &mut Ledger) {
    for section in &list.sections {
        let (Some(price), Some(bound)) = (section.price, section.bound) else { continue };
        ledger.push(
            Figure::new(
                format!("cut.cost.{}", section.section.name),
                format!("price of bars, {}", section.section.words),
                price.to_cents() as f64 / 100.0,
                "",
            )
            .formula("least cost over all cutting patterns; proven when it equals the bound")
            .input("bound", bound.to_string())
            .source("linear programming bound and exhaustive search", Seen::Computed)
            .decides(),
        );
    }
    let bought: u32 = list.sections.iter().flat_map(|s| &s.buy).map(|b| b.1).sum();
    ledger.push(
        Figure::new("cut.bars", "bars to cut", list.bars.len() as f64, "")
            .input("to buy", bought.to_string())
            .source("cut list", Seen::Computed),
    );
    for bar in &list.bars {
        ledger.push(
            Figure::new(
                format!("cut.rest.{}", bar.number),
                format!("left of bar {}", bar.number),
                bar.rest.to_mm(),
                "mm",
            )
            .formula("length − trim − pieces − saw cuts")
            .input("kerf", list.kerf.to_string())
            .source("sum along the bar", Seen::Computed),
        );
    }
}
