//! From a job of sheets to its plan: checks, sorting, solving, and giving panels their names back.
use std::collections::{BTreeMap, BTreeSet};

use super::error::CuttingError;
use super::job::{MOST_LENGTH, MOST_PRICE};
use super::plan::{Measure, Proof, Remark};
use super::problem::{Kind, Problem, number};
use super::sheet_greedy::Layout;
use super::sheet_job::{
    CutSheet, MOST_SHEET_PIECES, MOST_SIDE, Panel, Placed, SheetCut, SheetJob, SheetPiece,
    SheetPlan, SheetSection, SheetSectionPlan, SheetStock,
};
use super::sheet_search::{Sheets, Solved, solve};
use super::sheet_shapes::Sides;

/// Plans all sheet sections of a job: straight cuts from edge to edge.
///
/// # Errors
/// The first thing that is wrong, sections in the order of the job; see [`CuttingError`].
pub fn cut_sheets(job: &SheetJob) -> Result<SheetPlan, CuttingError> {
    let mut names = BTreeSet::new();
    for s in &job.sections {
        if !names.insert(&s.name) {
            return Err(CuttingError::DuplicateSection { section: s.name.clone() });
        }
        check(s)?;
    }
    let mut sections: Vec<&SheetSection> = job.sections.iter().collect();
    sections.sort_by(|a, b| a.name.cmp(&b.name));
    let sections =
        sections.into_iter().map(|s| plan(s, job.work_limit)).collect::<Result<_, _>>()?;
    Ok(SheetPlan { sections })
}

fn usable(s: &SheetStock) -> (i64, i64) {
    (s.width - 2 * s.trim, s.height - 2 * s.trim)
}

fn fits(p: &SheetPiece, s: &SheetStock) -> bool {
    let (w, h) = usable(s);
    p.width <= w && p.height <= h || p.turn && p.height <= w && p.width <= h
}

fn check(section: &SheetSection) -> Result<(), CuttingError> {
    let name = || section.name.clone();
    let large = |item: &str| CuttingError::TooLarge { section: name(), item: item.to_owned() };
    let negative = |item: &str| CuttingError::Negative { section: name(), item: item.to_owned() };
    let not_positive =
        |item: &str| CuttingError::NotPositive { section: name(), item: item.to_owned() };
    if section.kerf < 0 {
        return Err(negative("kerf"));
    }
    if section.kerf > MOST_SIDE {
        return Err(large("kerf"));
    }
    if section.pieces.len() > MOST_SHEET_PIECES {
        return Err(CuttingError::TooManyPieces { section: name(), pieces: section.pieces.len() });
    }
    for p in &section.pieces {
        if p.width <= 0 || p.height <= 0 {
            return Err(not_positive(&p.id));
        }
        if p.width > MOST_SIDE || p.height > MOST_SIDE {
            return Err(large(&p.id));
        }
    }
    let mut ids = BTreeSet::new();
    for s in &section.stock {
        if !ids.insert(&s.id) {
            return Err(CuttingError::DuplicateStock { section: name(), item: s.id.clone() });
        }
        if s.width <= 0 || s.height <= 0 {
            return Err(not_positive(&s.id));
        }
        if s.trim < 0 || s.price.is_some_and(|p| p < 0) {
            return Err(negative(&s.id));
        }
        if s.width > MOST_SIDE
            || s.height > MOST_SIDE
            || s.trim > MOST_LENGTH
            || s.price.is_some_and(|p| p > MOST_PRICE)
        {
            return Err(large(&s.id));
        }
        let (w, h) = usable(s);
        if w <= 0 || h <= 0 {
            return Err(CuttingError::TrimTakesAll { section: name(), item: s.id.clone() });
        }
    }
    if section.pieces.is_empty() {
        return Ok(());
    }
    let stock = || section.stock.iter().filter(|s| s.limit != Some(0));
    if stock().next().is_none() {
        return Err(CuttingError::NoStock { section: name() });
    }
    let mut pieces: Vec<&SheetPiece> = section.pieces.iter().collect();
    pieces.sort();
    for p in pieces {
        if !stock().any(|s| fits(p, s)) {
            return Err(CuttingError::PieceTooLong {
                section: name(),
                item: p.id.clone(),
                length: p.width.max(p.height),
                longest: stock().map(|s| usable(s).0.max(usable(s).1)).max().unwrap_or(0),
            });
        }
    }
    Ok(())
}

/// Kinds of piece by falling area: width, height, may turn; names, each with whether it was written
/// down the other way round.
type Kinds<'a> = BTreeMap<(i64, i64, i64, bool), Vec<(&'a str, bool)>>;

fn plan(section: &SheetSection, work_limit: u64) -> Result<SheetSectionPlan, CuttingError> {
    let kerf = section.kerf;
    let mut missing: Vec<String> = section
        .stock
        .iter()
        .filter(|s| s.limit.is_none() && s.price.is_none())
        .map(|s| s.id.clone())
        .collect();
    missing.sort();
    let measure = if missing.is_empty() { Measure::Price } else { Measure::BoughtLength };
    let mut remarks: Vec<Remark> =
        missing.into_iter().map(|stock| Remark::PriceMissing { stock }).collect();
    let mut slight: Vec<&SheetPiece> =
        section.pieces.iter().filter(|p| p.width.min(p.height) < kerf).collect();
    slight.sort();
    slight.dedup_by(|a, b| a.id == b.id);
    remarks.extend(slight.into_iter().map(|p| Remark::KerfWiderThanPiece { piece: p.id.clone() }));
    let none = Proof { value: 0, bound: 0, nodes: 0 };
    if section.pieces.is_empty() {
        return Ok(SheetSectionPlan {
            section: section.name.clone(),
            sheets: Vec::new(),
            measure,
            cost: none,
            leftover: none,
            remarks,
        });
    }
    let mut kinds: Kinds = BTreeMap::new();
    for p in &section.pieces {
        let swapped = p.turn && p.width < p.height;
        let (w, h) = if swapped { (p.height, p.width) } else { (p.width, p.height) };
        let area = (w + kerf) * (h + kerf);
        kinds.entry((-area, w, h, p.turn)).or_default().push((&p.id, swapped));
    }
    for names in kinds.values_mut() {
        names.sort_unstable();
    }
    let mut stock: Vec<&SheetStock> = section.stock.iter().filter(|s| s.limit != Some(0)).collect();
    stock.sort_by_key(|s| (s.width, s.height, s.trim, s.price, s.limit.is_none(), s.id.clone()));
    let cost = |s: &SheetStock| match (measure, s.limit) {
        (Measure::Price, _) => s.price.unwrap_or(0),
        (Measure::BoughtLength, None) => (s.width * s.height + 9_999) / 10_000,
        (Measure::BoughtLength, Some(_)) => 0,
    };
    let padded = |s: &SheetStock| (usable(s).0 + kerf, usable(s).1 + kerf);
    let mut sheets = Sheets {
        problem: Problem {
            weights: kinds.keys().map(|k| -k.0).collect(),
            demand: kinds.values().map(|n| number(n.len())).collect(),
            kinds: stock
                .iter()
                .map(|s| Kind {
                    cap: padded(s).0 * padded(s).1,
                    cost: cost(s),
                    limit: s.limit.map(i64::from),
                })
                .collect(),
            kerf: 0,
        },
        kinds: kinds
            .keys()
            .map(|k| Sides { width: k.1 + kerf, height: k.2 + kerf, turn: k.3 })
            .collect(),
        sizes: stock.iter().map(|s| padded(s)).collect(),
        kerf,
    };
    let real = stock.len();
    let phantom = add_phantoms(&mut sheets, section);
    let failed = |proven| CuttingError::NotEnoughStock { section: section.name.clone(), proven };
    let solved = solve(&sheets, work_limit).ok_or_else(|| failed(false))?;
    if solved.layouts.iter().any(|l| l.kind >= real) {
        return Err(failed(solved.cost_bound >= phantom));
    }
    Ok(write(section, &kinds, &stock, &sheets, solved, measure, remarks))
}

/// Where sheets on hand may run out, each is also given without limit at a cost above that of any plan
/// of real sheets; a plan that uses one says that stock is short. Returns that cost.
fn add_phantoms(sheets: &mut Sheets, section: &SheetSection) -> i64 {
    let safe = section
        .pieces
        .iter()
        .all(|p| section.stock.iter().any(|s| s.limit.is_none() && fits(p, s)));
    if safe {
        return i64::MAX;
    }
    let problem = &mut sheets.problem;
    let all: i64 = (0..problem.kinds.len()).map(|k| problem.kinds[k].cost * problem.most(k)).sum();
    for k in 0..problem.kinds.len() {
        if problem.kinds[k].limit.is_some() {
            let cap = problem.kinds[k].cap;
            problem.kinds.push(Kind { cap, cost: all + 1, limit: None });
            sheets.sizes.push(sheets.sizes[k]);
        }
    }
    all + 1
}

fn write(
    section: &SheetSection,
    kinds: &Kinds,
    stock: &[&SheetStock],
    sheets: &Sheets,
    solved: Solved,
    measure: Measure,
    remarks: Vec<Remark>,
) -> SheetSectionPlan {
    let kerf = section.kerf;
    let mut layouts: Vec<Layout> = solved.layouts;
    // Large pieces first over the whole job.
    layouts.sort_by_cached_key(|l| {
        let mut held: Vec<usize> = l.placed.iter().map(|p| p.0).collect();
        held.sort_unstable();
        (held, l.kind, l.clone())
    });
    let mut names: Vec<_> = kinds.values().map(|n| n.iter()).collect();
    let mut largest = 0;
    let mut cost = 0;
    let mut out = Vec::new();
    for layout in layouts {
        let s = stock[layout.kind];
        cost += sheets.problem.kinds[layout.kind].cost;
        let real = |p: Panel| Panel {
            x: p.x + s.trim,
            y: p.y + s.trim,
            width: p.width - kerf,
            height: p.height - kerf,
        };
        let placed: Vec<Placed> = layout
            .placed
            .iter()
            .map(|(kind, panel, turned)| {
                let (piece, swapped) = names[*kind].next().expect("demand is met exactly");
                Placed {
                    piece: (*piece).to_owned(),
                    panel: real(*panel),
                    turned: turned != swapped,
                }
            })
            .collect();
        let cuts: Vec<SheetCut> = layout
            .cuts
            .iter()
            .map(|(along_height, at, of)| SheetCut {
                along_height: *along_height,
                at: at + s.trim - kerf,
                of: real(*of),
            })
            .collect();
        let mut leftovers: Vec<Panel> =
            layout.free.iter().map(|p| real(*p)).filter(|p| p.width > 0 && p.height > 0).collect();
        leftovers.sort_by_key(|p| (-p.area(), *p));
        let (w, h) = usable(s);
        // Strips across the whole sheet.
        let across = leftovers.iter().filter(|p| p.width == w || p.height == h);
        largest = largest.max(across.map(Panel::area).max().unwrap_or(0));
        out.push(CutSheet {
            stock: s.id.clone(),
            width: s.width,
            height: s.height,
            trim: s.trim,
            price: s.price,
            placed,
            cuts,
            leftovers,
        });
    }
    SheetSectionPlan {
        section: section.name.clone(),
        sheets: out,
        measure,
        cost: Proof { value: cost, bound: solved.cost_bound, nodes: solved.nodes[0] },
        leftover: Proof {
            value: largest,
            bound: solved.leftover_bound.max(largest),
            nodes: solved.nodes[1],
        },
        remarks,
    }
}
