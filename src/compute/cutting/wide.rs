//! Jobs of very many unlike pieces: a good plan by best fit, and a bound by rounding.
use std::collections::{BTreeMap, BTreeSet};

use super::costs::Costs;
use super::linear::{Load, Solved};
use super::problem::Problem;
use super::relax::relax;

/// Classes that pieces are rounded down to for the bound.
const CLASSES: usize = 60;

/// Solves a problem of many kinds of piece without proof of more than its bound. `None` if stock on
/// hand does not suffice.
pub(super) fn solve(problem: &Problem, limit: u64) -> Option<Solved> {
    let bought = (0..problem.kinds.len()).filter(|k| problem.kinds[*k].limit.is_none());
    let cost =
        |bars: &[Load]| -> i64 { bars.iter().map(|b| problem.kinds[b.kind].cost * b.times).sum() };
    let bars = bought
        .filter_map(|first| best_fit(problem, first))
        .min_by(|a, b| cost(a).cmp(&cost(b)).then_with(|| a.cmp(b)))?;
    let cost = cost(&bars);
    let bound = rounded(problem, limit).min(cost);
    let hopes = problem.kinds.iter().map(|k| k.cap - problem.kerf).max().unwrap_or(0);
    Some(Solved { bars, cost_bound: bound, leftover_bound: hopes, set_ups_bound: 1, nodes: [0; 3] })
}

/// Pieces of a class count as the lightest of it, so no plan is lost and the bound stays a bound.
fn rounded(problem: &Problem, limit: u64) -> i64 {
    let per_class = problem.weights.len().div_ceil(CLASSES);
    let coarse = Problem {
        weights: problem
            .weights
            .chunks(per_class)
            .map(|c| *c.last().expect("chunks are not empty"))
            .collect(),
        demand: problem.demand.chunks(per_class).map(|c| c.iter().sum()).collect(),
        ..problem.clone()
    };
    let bound = relax(&coarse, &[], limit).bound();
    Costs::new(problem, bound.saturating_mul(2)).at_least(bound)
}

/// Heaviest piece first, each to the bar that it fills best. New bars are leftovers while those are
/// good value, then of the kind `first`, or the cheapest that holds the piece.
fn best_fit(problem: &Problem, first: usize) -> Option<Vec<Load>> {
    let mut left: Vec<i64> = problem.kinds.iter().map(|k| k.limit.unwrap_or(i64::MAX)).collect();
    let value = |k: usize| {
        let (kind, base) = (&problem.kinds[k], &problem.kinds[first]);
        i128::from(kind.cost) * i128::from(base.cap) <= i128::from(base.cost) * i128::from(kind.cap)
    };
    let mut bars: Vec<(usize, BTreeMap<usize, i64>)> = Vec::new();
    let mut open: BTreeSet<(i64, usize)> = BTreeSet::new();
    for (i, (w, d)) in problem.weights.iter().zip(&problem.demand).enumerate() {
        for _ in 0..*d {
            let best = open.range((*w, 0)..).next().copied();
            let (room, bar) = if let Some(at) = best {
                open.remove(&at);
                at
            } else {
                let fits = |k: &usize| left[*k] > 0 && problem.kinds[*k].cap >= *w;
                let all = || (0..problem.kinds.len()).filter(fits);
                let kind = all()
                    .filter(|k| problem.kinds[*k].limit.is_some() && value(*k))
                    .min_by_key(|k| problem.kinds[*k].cap)
                    .or_else(|| Some(first).filter(fits))
                    .or_else(|| all().min_by_key(|k| problem.kinds[*k].cost))?;
                left[kind] -= 1;
                bars.push((kind, BTreeMap::new()));
                (problem.kinds[kind].cap, bars.len() - 1)
            };
            *bars[bar].1.entry(i).or_insert(0) += 1;
            open.insert((room - w, bar));
        }
    }
    let mut gathered: BTreeMap<(usize, Vec<(usize, i64)>), i64> = BTreeMap::new();
    for (kind, pieces) in bars {
        let load: i64 = pieces.iter().map(|(i, n)| problem.weights[*i] * n).sum();
        left[kind] += 1;
        let best = (0..problem.kinds.len())
            .filter(|k| left[*k] > 0 && problem.kinds[*k].cap >= load)
            .min_by_key(|k| (problem.kinds[*k].cost, problem.kinds[*k].cap))
            .unwrap_or(kind);
        left[best] -= 1;
        *gathered.entry((best, pieces.into_iter().collect())).or_insert(0) += 1;
    }
    Some(gathered.into_iter().map(|((kind, pieces), times)| Load { kind, pieces, times }).collect())
}
