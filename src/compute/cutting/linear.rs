//! Least cost, longest leftover, fewest set-ups of one section.
use super::costs::Costs;
use super::greedy::{best_greedy, dive};
use super::patterns::{Wanted, list, undominated};
use super::problem::{Cutting, Pattern, Problem, number};
use super::relax::{Relaxation, relax};
use super::search::{Aim, Choice, Column, Row, search};
use super::simplex::Sense;
use super::wide;

/// Patterns that a first attempt may list; later attempts may list more.
const FIRST_LIST: usize = 6_000;
const LONGEST_LIST: usize = 200_000;
/// More kinds of piece than this are planned without a search for proof.
const MANY: usize = 200;

/// Bars cut alike: how many of which kinds of piece each holds.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Load {
    pub(super) kind: usize,
    pub(super) pieces: Vec<(usize, i64)>,
    pub(super) times: i64,
}

fn loads(cutting: Cutting) -> Vec<Load> {
    cutting
        .into_iter()
        .map(|(p, times)| Load {
            kind: p.kind,
            pieces: p.counts.into_iter().enumerate().filter(|(_, c)| *c > 0).collect(),
            times,
        })
        .collect()
}

/// A cutting with what is shown about it.
pub(super) struct Solved {
    pub(super) bars: Vec<Load>,
    pub(super) cost_bound: i64,
    pub(super) leftover_bound: i64,
    pub(super) set_ups_bound: i64,
    pub(super) nodes: [u64; 3],
}

/// Rows of a choice among patterns: pieces at least, then limits at most.
fn rows_of(problem: &Problem) -> (Vec<Row>, Vec<Option<usize>>) {
    let mut rows: Vec<Row> =
        problem.demand.iter().map(|d| Row { sense: Sense::AtLeast, rhs: *d }).collect();
    let mut limit_row = vec![None; problem.kinds.len()];
    for (k, kind) in problem.kinds.iter().enumerate() {
        if kind.limit.is_some() {
            limit_row[k] = Some(rows.len());
            rows.push(Row { sense: Sense::AtMost, rhs: problem.most(k) });
        }
    }
    (rows, limit_row)
}

fn column_of(problem: &Problem, limit_row: &[Option<usize>], p: &Pattern) -> Column {
    let mut entries: Vec<(usize, i64)> =
        p.counts.iter().enumerate().filter(|(_, c)| **c > 0).map(|(i, c)| (i, *c)).collect();
    let mut most = entries.iter().map(|(i, c)| (problem.demand[*i] + c - 1) / c).max().unwrap_or(0);
    if let Some(r) = limit_row[p.kind] {
        entries.push((r, 1));
        most = most.min(problem.most(p.kind));
    }
    Column { cost: problem.kinds[p.kind].cost, entries, most, group: p.kind }
}

struct Cost {
    cutting: Cutting,
    bound: i64,
    nodes: u64,
}

/// Least cost: plans below a target are searched for, targets rising from the bound to the best plan.
fn least_cost(
    problem: &Problem,
    root: &Relaxation,
    start: Cutting,
    work: &mut u64,
    limit: u64,
) -> Cost {
    let mut best = start;
    let mut upper = problem.cost(&best);
    let costs = Costs::new(problem, upper);
    let lift = |c: i64| costs.at_least(c);
    let mut lower = lift(root.bound()).min(upper);
    let mut nodes = 0;
    let (rows, limit_row) = rows_of(problem);
    let wanted = undominated(problem);
    let mut most = FIRST_LIST;
    while lower < upper && *work < limit {
        let mut target = upper;
        let patterns = loop {
            // Plans that cost less than `target` hold patterns of this gap at most.
            let gap = i128::from(target - 1) * i128::from(root.scale) - root.bound_scaled;
            if let Some(p) = list(problem, root, &wanted, gap, most, work) {
                break Some(p);
            }
            let nearer = lift(lower + (target - lower) / 2).min(target - 1);
            if nearer <= lower || *work > limit {
                break None;
            }
            target = nearer;
        };
        let Some(mut patterns) = patterns else {
            if most >= LONGEST_LIST || *work > limit {
                break;
            }
            most *= 6;
            continue;
        };
        patterns.sort_by_key(|p| root.reduced(problem, p.kind, &p.counts));
        let choice = Choice {
            columns: patterns.iter().map(|p| column_of(problem, &limit_row, p)).collect(),
            rows: rows.clone(),
            pieces: problem.demand.len(),
            groups: problem.kinds.len(),
        };
        let aim =
            Aim { cutoff: target, lift: &lift, any: false, work: limit.saturating_sub(*work) };
        let out = search(&choice, &aim);
        *work += out.work;
        nodes += out.nodes;
        lower = lower.max(lift(out.bound)).min(upper);
        if let Some((_, chosen)) = out.best {
            let chosen: Vec<(Pattern, i64)> =
                chosen.into_iter().map(|(j, n)| (patterns[j].clone(), n)).collect();
            let plan = problem.trim_surplus(&chosen, None);
            debug_assert!(problem.is_met_by(&plan));
            if problem.is_met_by(&plan) && problem.cost(&plan) < upper {
                upper = problem.cost(&plan);
                best = plan;
                lower = lower.min(upper);
            }
        } else if target < upper {
            most *= 3;
        }
    }
    Cost { cutting: best, bound: lower, nodes }
}

/// Longest leftover at equal cost: is there a plan with one bar of which at least so much is left?
/// Halving between what was found and what could be.
fn longest_leftover(
    problem: &Problem,
    root: &Relaxation,
    best: Cutting,
    work: &mut u64,
    limit: u64,
) -> (Cutting, i64, u64) {
    let cost = problem.cost(&best);
    let mut best = best;
    let mut nodes = 0;
    let gap = i128::from(cost) * i128::from(root.scale) - root.bound_scaled;
    let mut found = problem.longest_leftover(&best);
    let lightest = problem.weights.iter().copied().min().unwrap_or(0);
    let mut bound =
        problem.kinds.iter().map(|k| k.cap - problem.kerf - lightest).max().unwrap_or(0).max(found);
    let Some(base) = list(problem, root, &undominated(problem), gap, LONGEST_LIST / 8, work) else {
        return (best, bound, nodes);
    };
    let (mut rows, limit_row) = rows_of(problem);
    let marked = rows.len();
    rows.push(Row { sense: Sense::AtLeast, rhs: 1 });
    while found < bound && *work < limit {
        let ask = found + (bound - found + 1) / 2;
        let wanted: Vec<Wanted> = (0..problem.kinds.len())
            .map(|kind| Wanted {
                kind,
                cap: problem.kinds[kind].cap - problem.kerf - ask,
                heavier_than: 0,
                full: true,
            })
            .collect();
        let Some(mut special) = list(problem, root, &wanted, gap, LONGEST_LIST / 8, work) else {
            break;
        };
        // More than the bound is known to be impossible, so such bars are in no plan.
        special.retain(|p| problem.leftover(p.kind, &p.counts) <= bound);
        if special.is_empty() {
            bound = ask - 1;
            continue;
        }
        let mut patterns: Vec<(Pattern, bool)> = special.into_iter().map(|p| (p, true)).collect();
        patterns.extend(base.iter().cloned().map(|p| (p, false)));
        patterns.sort_by_key(|(p, s)| (root.reduced(problem, p.kind, &p.counts), !s));
        let choice = Choice {
            columns: patterns
                .iter()
                .map(|(p, special)| {
                    let mut c = column_of(problem, &limit_row, p);
                    if *special {
                        c.entries.push((marked, 1));
                        c.most = 1;
                        c.group += problem.kinds.len();
                    }
                    c
                })
                .collect(),
            rows: rows.clone(),
            pieces: problem.demand.len(),
            groups: 2 * problem.kinds.len(),
        };
        let lift = |c: i64| c;
        let aim =
            Aim { cutoff: cost + 1, lift: &lift, any: true, work: limit.saturating_sub(*work) };
        let out = search(&choice, &aim);
        *work += out.work;
        nodes += out.nodes;
        if let Some((_, chosen)) = out.best {
            let keep = chosen.iter().position(|(j, _)| patterns[*j].1);
            let chosen: Vec<(Pattern, i64)> =
                chosen.into_iter().map(|(j, n)| (patterns[j].0.clone(), n)).collect();
            let plan = problem.trim_surplus(&chosen, keep);
            let left = problem.longest_leftover(&plan);
            debug_assert!(problem.is_met_by(&plan) && left >= ask && problem.cost(&plan) <= cost);
            if !problem.is_met_by(&plan) || left < ask {
                break;
            }
            found = left;
            best = plan;
            bound = bound.max(found);
        } else if out.bound > cost {
            bound = ask - 1;
        } else {
            break;
        }
    }
    (best, bound, nodes)
}

/// Fewest different bars at equal cost and leftover.
fn fewest_set_ups(
    problem: &Problem,
    root: &Relaxation,
    best: Cutting,
    work: &mut u64,
    limit: u64,
) -> (Cutting, i64, u64) {
    let cost = problem.cost(&best);
    let leftover = problem.longest_leftover(&best);
    let upper = number(best.len());
    let gap = i128::from(cost) * i128::from(root.scale) - root.bound_scaled;
    let wanted: Vec<Wanted> = (0..problem.kinds.len())
        .map(|kind| Wanted { kind, cap: problem.kinds[kind].cap, heavier_than: 0, full: false })
        .collect();
    if upper <= 1 {
        return (best, upper, 0);
    }
    let Some(patterns) = list(problem, root, &wanted, gap, 8_000, work) else {
        return (best, 1, 0);
    };
    let (mut rows, limit_row) = rows_of(problem);
    for r in &mut rows[..problem.demand.len()] {
        r.sense = Sense::Exactly;
    }
    let paid = rows.len();
    rows.push(Row { sense: Sense::AtMost, rhs: cost });
    let left = rows.len();
    rows.push(Row { sense: Sense::AtLeast, rhs: 1 });
    let mut columns = Vec::new();
    let mut meaning = Vec::new();
    for p in &patterns {
        let reduced = i128::from(root.reduced(problem, p.kind, &p.counts));
        for times in 1.. {
            let fits = p.counts.iter().zip(&problem.demand).all(|(c, d)| c * times <= *d)
                && times <= problem.most(p.kind)
                && reduced * i128::from(times) <= gap;
            if !fits {
                break;
            }
            let mut c = column_of(problem, &limit_row, p);
            for e in &mut c.entries {
                e.1 *= times;
            }
            let paying = problem.kinds[p.kind].cost * times;
            if paying > 0 {
                c.entries.push((paid, paying));
            }
            if problem.leftover(p.kind, &p.counts) >= leftover {
                c.entries.push((left, 1));
            }
            c.cost = 1;
            c.most = 1;
            columns.push(c);
            meaning.push((p.clone(), times));
        }
    }
    let choice =
        Choice { columns, rows, pieces: problem.demand.len(), groups: problem.kinds.len() };
    let lift = |c: i64| c;
    let aim = Aim { cutoff: upper, lift: &lift, any: false, work: limit.saturating_sub(*work) };
    let out = search(&choice, &aim);
    *work += out.work;
    let bound = out.bound.max(1);
    if let Some((_, chosen)) = out.best {
        let mut plan: Cutting = chosen.into_iter().map(|(j, _)| meaning[j].clone()).collect();
        plan.sort();
        if problem.is_met_by(&plan) {
            return (plan, bound, out.nodes);
        }
    }
    (best, bound, out.nodes)
}

/// Solves one section. `None` if no plan was found (all stock is limited, and too short or too hard).
pub(super) fn solve(problem: &Problem, limit: u64) -> Option<Solved> {
    if problem.weights.len() > MANY {
        return wide::solve(problem, limit);
    }
    let mut work = 0;
    let root = relax(problem, &[], limit);
    work += root.work;
    let mut start = best_greedy(problem, Some(&root))?;
    let costs = Costs::new(problem, problem.cost(&start));
    if costs.at_least(root.bound()) < problem.cost(&start)
        && let Some(d) = dive(problem, &root, &mut work, limit / 4)
        && (problem.cost(&d), &d) < (problem.cost(&start), &start)
    {
        start = d;
    }
    let cost = least_cost(problem, &root, start, &mut work, limit);
    let proven = cost.bound == problem.cost(&cost.cutting);
    if !proven {
        let hopes = problem.kinds.iter().map(|k| k.cap - problem.kerf).max().unwrap_or(0);
        return Some(Solved {
            leftover_bound: hopes,
            set_ups_bound: 1,
            cost_bound: cost.bound,
            bars: loads(cost.cutting),
            nodes: [cost.nodes, 0, 0],
        });
    }
    let left = |work: u64, share: u64| work + limit.saturating_sub(work).min(limit / share);
    let until = left(work, 4);
    let (cutting, leftover_bound, more) =
        longest_leftover(problem, &root, cost.cutting, &mut work, until);
    let until = left(work, 8);
    let (cutting, set_ups_bound, most) = fewest_set_ups(problem, &root, cutting, &mut work, until);
    Some(Solved {
        bars: loads(cutting),
        cost_bound: cost.bound,
        leftover_bound,
        set_ups_bound,
        nodes: [cost.nodes, more, most],
    })
}
