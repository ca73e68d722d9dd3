//! From a job to its plan: checks, sorting, solving, and giving bars their pieces back.
//!
//! Pieces and stock are sorted before anything else, so their order in the job changes nothing.
use std::collections::{BTreeMap, BTreeSet};

use super::error::CuttingError;
use super::job::{Job, MOST_LENGTH, MOST_PIECES, MOST_PRICE, Piece, Section, Stock};
use super::linear::{Solved, solve};
use super::plan::{Bar, Cut, Measure, Plan, Proof, Remark, SectionPlan};
use super::problem::{Kind, Problem, number};

/// Plans all sections of a job.
///
/// # Errors
/// The first thing that is wrong, sections in the order of the job; see [`CuttingError`].
pub fn cut(job: &Job) -> Result<Plan, CuttingError> {
    let mut names = BTreeSet::new();
    for s in &job.sections {
        if !names.insert(&s.name) {
            return Err(CuttingError::DuplicateSection { section: s.name.clone() });
        }
        check(s)?;
    }
    let mut sections: Vec<&Section> = job.sections.iter().collect();
    sections.sort_by(|a, b| a.name.cmp(&b.name));
    let sections = sections
        .into_iter()
        .map(|s| plan(s, &Nests::none(s), job.work_limit))
        .collect::<Result<_, _>>()?;
    Ok(Plan { sections })
}

/// Which pieces nest with which. Class 0 nests with nothing.
pub(super) struct Nests {
    /// Class of each piece of the section, by its place in the list.
    pub(super) class: Vec<usize>,
    /// What a cut between two pieces of the class takes along the bar, by class.
    pub(super) saw: Vec<i64>,
    /// Room kept free on every bar for the slanting ends of nests.
    pub(super) lead: i64,
}

impl Nests {
    /// Nothing nests.
    pub(super) fn none(section: &Section) -> Self {
        Self { class: vec![0; section.pieces.len()], saw: vec![section.kerf], lead: 0 }
    }

    /// Whether all pieces are of one class that nests, so that what the lead keeps free is needed on
    /// every bar.
    pub(super) fn is_whole(&self) -> bool {
        self.class.iter().all(|c| *c == 1)
    }
}

/// Kinds of piece, heaviest first: weight, length, extra (the first two negative), class; their names.
type Types<'a> = BTreeMap<(i64, i64, i64, usize), Vec<&'a str>>;

fn weight(section: &Section, p: &Piece) -> i64 {
    p.length + p.extra + section.kerf
}

fn usable(s: &Stock) -> i64 {
    s.length - s.trim_start - s.trim_end
}

pub(super) fn check(section: &Section) -> Result<(), CuttingError> {
    let name = || section.name.clone();
    let large = |item: &str| CuttingError::TooLarge { section: name(), item: item.to_owned() };
    let negative = |item: &str| CuttingError::Negative { section: name(), item: item.to_owned() };
    let not_positive =
        |item: &str| CuttingError::NotPositive { section: name(), item: item.to_owned() };
    if section.kerf < 0 {
        return Err(negative("kerf"));
    }
    if section.least_useful < 0 {
        return Err(negative("least useful length"));
    }
    if section.kerf > MOST_LENGTH {
        return Err(large("kerf"));
    }
    if section.pieces.len() > MOST_PIECES {
        return Err(CuttingError::TooManyPieces { section: name(), pieces: section.pieces.len() });
    }
    for p in &section.pieces {
        if p.length <= 0 {
            return Err(not_positive(&p.id));
        }
        if p.extra < 0 {
            return Err(negative(&p.id));
        }
        if p.length > MOST_LENGTH || p.extra > MOST_LENGTH {
            return Err(large(&p.id));
        }
    }
    let mut ids = BTreeSet::new();
    for s in &section.stock {
        if !ids.insert(&s.id) {
            return Err(CuttingError::DuplicateStock { section: name(), item: s.id.clone() });
        }
        if s.length <= 0 {
            return Err(not_positive(&s.id));
        }
        if s.trim_start < 0 || s.trim_end < 0 || s.price.is_some_and(|p| p < 0) {
            return Err(negative(&s.id));
        }
        if [s.length, s.trim_start, s.trim_end].iter().any(|l| *l > MOST_LENGTH)
            || s.price.is_some_and(|p| p > MOST_PRICE)
        {
            return Err(large(&s.id));
        }
        if usable(s) <= 0 {
            return Err(CuttingError::TrimTakesAll { section: name(), item: s.id.clone() });
        }
    }
    if section.pieces.is_empty() {
        return Ok(());
    }
    let longest = section.stock.iter().filter(|s| s.limit != Some(0)).map(usable).max();
    let Some(longest) = longest else {
        return Err(CuttingError::NoStock { section: name() });
    };
    let mut pieces: Vec<&Piece> = section.pieces.iter().collect();
    pieces.sort();
    for p in pieces {
        if p.length + p.extra > longest {
            return Err(CuttingError::PieceTooLong {
                section: name(),
                item: p.id.clone(),
                length: p.length + p.extra,
                longest,
            });
        }
    }
    Ok(())
}

/// Bars that may stand for each other: same usable length, trim and cost.
struct Bars<'a> {
    cap: i64,
    cost: i64,
    stock: Vec<&'a Stock>,
}

/// Plans a section that was checked.
pub(super) fn plan(
    section: &Section,
    nests: &Nests,
    work_limit: u64,
) -> Result<SectionPlan, CuttingError> {
    let missing: Vec<String> = {
        let mut ids: Vec<String> = section
            .stock
            .iter()
            .filter(|s| s.limit.is_none() && s.price.is_none())
            .map(|s| s.id.clone())
            .collect();
        ids.sort();
        ids
    };
    let measure = if missing.is_empty() { Measure::Price } else { Measure::BoughtLength };
    let mut remarks: Vec<Remark> =
        missing.into_iter().map(|stock| Remark::PriceMissing { stock }).collect();
    let mut slight: Vec<&Piece> =
        section.pieces.iter().filter(|p| p.length < section.kerf).collect();
    slight.sort();
    slight.dedup_by(|a, b| a.id == b.id);
    remarks.extend(slight.into_iter().map(|p| Remark::KerfWiderThanPiece { piece: p.id.clone() }));

    // Kinds of piece: equal length and extra; their names wait in order.
    let mut types: Types = BTreeMap::new();
    for (p, class) in section.pieces.iter().zip(&nests.class) {
        types.entry((-weight(section, p), -p.length, p.extra, *class)).or_default().push(&p.id);
    }
    for ids in types.values_mut() {
        ids.sort_unstable();
    }
    let mut kinds: Vec<Bars> = Vec::new();
    let mut stock: Vec<&Stock> = section.stock.iter().filter(|s| s.limit != Some(0)).collect();
    stock.sort_by_key(|s| (usable(s), s.trim_start, s.price, s.limit.is_none(), s.id.clone()));
    for s in stock {
        let cost = match (measure, s.limit) {
            (Measure::Price, _) => s.price.unwrap_or(0),
            (Measure::BoughtLength, None) => s.length,
            (Measure::BoughtLength, Some(_)) => 0,
        };
        let cap = usable(s) + section.kerf - nests.lead;
        // As many as wanted: one id will do. On hand: ids are used up in their order.
        let same = kinds.iter_mut().find(|k| {
            k.cap == cap
                && k.cost == cost
                && k.stock[0].trim_start == s.trim_start
                && k.stock[0].limit.is_some() == s.limit.is_some()
        });
        match same {
            Some(k) => k.stock.push(s),
            None => kinds.push(Bars { cap, cost, stock: vec![s] }),
        }
    }
    let lightest = types.keys().map(|k| -k.0).min().unwrap_or(0);
    kinds.retain(|k| k.cap >= lightest);
    // A kind that is no longer and no cheaper than one without limit never helps.
    let worse = |a: &Bars, b: &Bars| {
        b.stock[0].limit.is_none()
            && a.cap <= b.cap
            && a.cost >= b.cost
            && (a.cap < b.cap || a.cost > b.cost)
    };
    let keep: Vec<bool> = kinds.iter().map(|a| !kinds.iter().any(|b| worse(a, b))).collect();
    let mut flags = keep.iter();
    kinds.retain(|_| *flags.next().expect("one flag a kind"));

    let mut problem = Problem {
        weights: types.keys().map(|k| -k.0).collect(),
        demand: types.values().map(|ids| number(ids.len())).collect(),
        kinds: kinds
            .iter()
            .map(|k| Kind {
                cap: k.cap,
                cost: k.cost,
                limit: k.stock[0]
                    .limit
                    .map(|_| k.stock.iter().map(|s| i64::from(s.limit.unwrap_or(0))).sum()),
            })
            .collect(),
        kerf: section.kerf,
    };
    if section.pieces.is_empty() {
        let none = Proof { value: 0, bound: 0, nodes: 0 };
        return Ok(SectionPlan {
            section: section.name.clone(),
            bars: Vec::new(),
            measure,
            cost: none,
            leftover: none,
            set_ups: none,
            remarks,
        });
    }
    let real = problem.kinds.len();
    add_phantom(&mut problem);
    let failed = |proven| CuttingError::NotEnoughStock { section: section.name.clone(), proven };
    let solved = solve(&problem, work_limit).ok_or_else(|| failed(false))?;
    if solved.bars.iter().any(|b| b.kind >= real) {
        // The phantom costs more than all real stock: a bound that high proves that it is needed.
        return Err(failed(solved.cost_bound >= problem.kinds[real].cost));
    }
    Ok(write(section, nests, &types, &kinds, &problem, solved, measure, remarks))
}

/// Where stock on hand may run out, a bar without limit is added that costs more than any plan
/// without it; so a plan always exists, and one that uses the phantom says that stock is short.
fn add_phantom(problem: &mut Problem) {
    let heaviest = problem.weights[0];
    let safe = problem.kinds.iter().any(|k| k.limit.is_none() && k.cap >= heaviest);
    if safe {
        return;
    }
    let bought = problem.kinds.iter().filter(|k| k.limit.is_none()).map(|k| k.cost).max();
    let most = |k: &Kind| k.cost * k.limit.unwrap_or(0).min(problem.pieces());
    let all: i64 =
        problem.kinds.iter().map(most).sum::<i64>() + bought.unwrap_or(0) * problem.pieces();
    let cap = problem.kinds.iter().map(|k| k.cap).max().unwrap_or(heaviest);
    problem.kinds.push(Kind { cap, cost: all + 1, limit: None });
}

#[expect(clippy::too_many_arguments, reason = "each is made once, in one place")]
fn write(
    section: &Section,
    nests: &Nests,
    types: &Types,
    kinds: &[Bars],
    problem: &Problem,
    solved: Solved,
    measure: Measure,
    remarks: Vec<Remark>,
) -> SectionPlan {
    let cost = solved.bars.iter().map(|b| problem.kinds[b.kind].cost * b.times).sum();
    let set_ups = solved.bars.len();
    let mut loads = solved.bars;
    // Long pieces first over the whole job: what goes wrong with one can still be made good.
    // Kinds of piece are numbered from the heaviest; the fuller bar comes first among equals.
    loads.sort_by_cached_key(|b| {
        let pieces: Vec<(usize, i64)> = b.pieces.iter().map(|(i, n)| (*i, -n)).collect();
        (pieces, problem.kinds[b.kind].cap, b.kind)
    });
    let mut names: Vec<std::slice::Iter<&str>> = types.values().map(|ids| ids.iter()).collect();
    let mut bars_of: Vec<Box<dyn Iterator<Item = &Stock>>> = kinds
        .iter()
        .map(|k| {
            let all = k
                .stock
                .iter()
                .flat_map(|s| std::iter::repeat_n(*s, s.limit.map_or(usize::MAX, |l| l as usize)));
            Box::new(all) as Box<dyn Iterator<Item = &Stock>>
        })
        .collect();
    let mut bars = Vec::new();
    let keys: Vec<&(i64, i64, i64, usize)> = types.keys().collect();
    let mut longest = 0;
    for (set_up, load) in loads.iter().enumerate() {
        // Longest first: a piece of more weight may be shorter when its mitres take more. What nests
        // stays together, behind the rest.
        let mut order = load.pieces.clone();
        order.sort_by_key(|(i, _)| (keys[*i].3, keys[*i].1, *i));
        for _ in 0..load.times {
            let stock = bars_of[load.kind].next().expect("limits are kept");
            let bar = lay(section, nests, stock, set_up, &keys, &order, |i| {
                (*names[i].next().expect("demand is met exactly")).to_owned()
            });
            longest = longest.max(bar.leftover);
            bars.push(bar);
        }
    }
    // The problem's leftover of a bar of one nest is short of the real one by what its last cut takes
    // more than a square one.
    let hopes = section.stock.iter().map(usable).max().unwrap_or(0);
    let leftover_bound = match nests.lead {
        0 => solved.leftover_bound,
        _ if nests.is_whole() => solved.leftover_bound - (nests.saw[1] - section.kerf),
        _ => hopes,
    };
    SectionPlan {
        section: section.name.clone(),
        bars,
        measure,
        cost: Proof { value: cost, bound: solved.cost_bound, nodes: solved.nodes[0] },
        leftover: Proof {
            value: longest,
            bound: leftover_bound.max(longest),
            nodes: solved.nodes[1],
        },
        set_ups: Proof {
            value: number(set_ups),
            bound: solved.set_ups_bound,
            nodes: solved.nodes[2],
        },
        remarks,
    }
}

/// Lays pieces along one bar; `order` tells kinds of piece with their counts, `name` gives each its name.
fn lay(
    section: &Section,
    nests: &Nests,
    stock: &Stock,
    set_up: usize,
    keys: &[&(i64, i64, i64, usize)],
    order: &[(usize, i64)],
    mut name: impl FnMut(usize) -> String,
) -> Bar {
    // Where a piece with a square end may begin.
    let mut front = stock.trim_start;
    let mut before: Option<(i64, usize)> = None;
    let mut cuts = Vec::new();
    let (mut pieces, mut nested) = (0, 0);
    for (i, count) in order {
        let (weight, length, extra, class) = (-keys[*i].0, -keys[*i].1, keys[*i].2, keys[*i].3);
        for _ in 0..*count {
            // How far this piece and one like it reach beside each other.
            let reach = length + nests.saw[class] - weight;
            let beside = before.filter(|(_, other)| class > 0 && *other == class);
            let from = beside.map_or(front, |(to, _)| to - reach + nests.saw[class]);
            let to = from + length;
            nested += if beside.is_some() { reach } else { 0 };
            front = to + if class > 0 { nests.saw[class] } else { extra + section.kerf };
            before = Some((to, class));
            pieces += length;
            let shared = beside.is_some();
            cuts.push(Cut { piece: name(*i), from, to, shared, turned: false });
        }
    }
    let leftover = (stock.length - stock.trim_end - front).max(0);
    Bar {
        stock: stock.id.clone(),
        length: stock.length,
        trim_start: stock.trim_start,
        trim_end: stock.trim_end,
        price: stock.price,
        cuts,
        saw: usable(stock) + nested - pieces - leftover,
        nested,
        leftover,
        useful: leftover > 0 && leftover >= section.least_useful,
        set_up,
    }
}
