//! The cut list: which bars and sheets to take, where to saw, what comes home.
//!
//! Takes the parts made of bar sections, plates, blocks and lengths of cable or tape, with the stock and
//! the leftovers on hand; gives the plan of [`cutting`](crate::compute::cutting) in the words and units
//! of the workshop, with its proof.

mod explain;
mod figures;
mod limits;
mod long;
mod notes;
pub mod rules;
mod sheets;

use crate::build::{Build, Goods};
use crate::compute::electrics::Electrics;
use crate::derive::{Ends, Work};
use crate::source::{Finding, Ledger};
use crate::tables::Tables;
use crate::units::{Area, Length, Money};

pub use figures::leftover_lines;
pub use limits::Limits;
pub use sheets::{CutPlate, PlatePiece, SheetCutLine, SheetStuff};

/// Bars and sheets in the order of cutting, with their proof.
#[derive(Debug, Clone)]
pub struct CutList {
    /// One entry a section, by name; cable, tape and the like behind the bars.
    pub sections: Vec<SectionCuts>,
    /// Bars in order, numbered through.
    pub bars: Vec<CutBar>,
    /// One entry a kind of sheet, by name and thickness.
    pub sheet_sections: Vec<SheetCuts>,
    /// Sheets in order, numbered through.
    pub plates: Vec<CutPlate>,
    /// Width of the saw cut in bars.
    pub kerf: Length,
    /// Width of the cut in sheets.
    pub sheet_kerf: Length,
    /// Price of what is to be bought, where every bar and sheet has a price.
    pub price: Option<Money>,
}

/// What is sold by length, on paper.
#[derive(Debug, Clone, PartialEq)]
pub struct Stuff {
    /// What tells it from others: the section's name, or the reader's own.
    pub name: String,
    /// For people.
    pub words: String,
    /// Whether it is a bar that is sawn; cable and tape are cut with a blade.
    pub sawn: bool,
}

impl Stuff {
    fn of(goods: &Goods) -> Self {
        match goods {
            Goods::Section(section) => {
                Self { name: section.name.clone(), words: section.words.clone(), sawn: true }
            }
            Goods::Named(name) => {
                Self { name: name.value.clone(), words: name.value.clone(), sawn: false }
            }
        }
    }
}

/// What was reached of one aim, and what no plan passes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reached<T> {
    /// Reached.
    pub value: T,
    /// No plan, equal in the aims before, does better.
    pub bound: T,
}

impl<T: PartialEq> Reached<T> {
    /// Whether it is the best there is.
    pub fn proven(&self) -> bool {
        self.value == self.bound
    }
}

/// What a section needs.
#[derive(Debug, Clone)]
pub struct SectionCuts {
    /// What it is.
    pub section: Stuff,
    /// Bars to buy: length, how many, price of one.
    pub buy: Vec<(Length, u32, Option<Money>)>,
    /// Price of them, where known.
    pub price: Option<Money>,
    /// No plan is cheaper than this.
    pub bound: Option<Money>,
    /// Length bought and its bound, where a price is missing and the least length is sought.
    pub bought: Option<Reached<Length>>,
    /// Whether cost equals bound.
    pub proven: bool,
    /// Longest leftover of one bar that is cut.
    pub leftover: Reached<Length>,
    /// Bars that are set up differently.
    pub set_ups: Reached<i64>,
}

/// What a kind of sheet needs.
#[derive(Debug, Clone)]
pub struct SheetCuts {
    /// What it is.
    pub stuff: SheetStuff,
    /// Sheets to buy: length, width, how many, price of one.
    pub buy: Vec<(Length, Length, u32, Option<Money>)>,
    /// Price of them, where known.
    pub price: Option<Money>,
    /// No plan is cheaper than this.
    pub bound: Option<Money>,
    /// Whether cost (or area, where a price is missing) equals its bound.
    pub proven: bool,
    /// Area of the largest strip that one cut across a whole sheet leaves.
    pub leftover: Reached<Area>,
}

/// One bar to cut.
#[derive(Debug, Clone)]
pub struct CutBar {
    /// Number on the sheet, from 1.
    pub number: usize,
    /// What it is.
    pub section: Stuff,
    /// Length of the bar.
    pub length: Length,
    /// Label of the leftover that it is, if it is one.
    pub on_hand: Option<String>,
    /// Cut off the zero end.
    pub trim: Length,
    /// What a square saw cut takes.
    pub kerf: Length,
    /// Pieces in order.
    pub cuts: Vec<BarCut>,
    /// What saw cuts take, those of slanting ends in full.
    pub saw: Length,
    /// How far nested pieces reach beside each other, added up.
    pub nested: Length,
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
    /// Finished length, between the outermost points.
    pub length: Length,
    /// Where it begins, from the zero end.
    pub from: Length,
    /// Where it ends and its saw cut begins.
    pub to: Length,
    /// Its ends as they lie on the bar: turned over where that lets it nest.
    pub ends: Ends,
    /// Its zero end is the other side of the cut that frees the piece before.
    pub shared: bool,
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

/// Id of a piece by its place among its like.
fn id_of(rank: usize) -> String {
    format!("{rank:06}")
}

/// Order of marks: by letters, then by number, so that S2 comes before S10.
fn mark_order(mark: &str) -> (String, u64) {
    let digits = mark.find(|c: char| c.is_ascii_digit()).unwrap_or(mark.len());
    (mark[..digits].to_owned(), mark[digits..].parse().unwrap_or(0))
}

/// Works out the cut list; cores of the cable runs are in it where stock or a leftover of theirs is
/// stated, else they are bought by the metre. `None` where nothing is cut or no plan exists.
pub fn cut_list(
    build: &Build,
    work: &Work,
    electrics: Option<&Electrics>,
    tables: &Tables,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Option<CutList> {
    let told = findings.len();
    let (sections, mut bars) = long::plan(build, work, electrics, tables, findings);
    let (sheet_sections, mut plates) = sheets::plan(build, work, tables, findings);
    notes::leftovers_twice(build, findings);
    let stopped = findings[told..].iter().any(|f| f.severity == crate::source::Severity::Stop);
    if bars.is_empty() && plates.is_empty() {
        return None;
    }
    if stopped && sections.is_empty() && sheet_sections.is_empty() {
        return None;
    }
    let mut next = 0;
    let mut mark = |rest: &mut Option<String>| {
        if rest.is_some() {
            next += 1;
            *rest = Some(format!("K{next}"));
        }
    };
    for bar in &mut bars {
        mark(&mut bar.rest_mark);
    }
    for plate in &mut plates {
        for rest in &mut plate.rests {
            mark(&mut rest.mark);
        }
    }
    let prices = sections.iter().map(|s| s.price).chain(sheet_sections.iter().map(|s| s.price));
    let price = prices.sum::<Option<Money>>();
    let list = CutList {
        sections,
        bars,
        sheet_sections,
        plates,
        kerf: *build.cutting.kerf,
        sheet_kerf: *build.cutting.sheet_kerf,
        price,
    };
    figures::record(&list, ledger);
    Some(list)
}
