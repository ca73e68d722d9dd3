//! Good plans quickly: bar after bar filled by value, and a dive through the relaxation.
use super::knapsack::fill;
use super::problem::{Cutting, Pattern, Problem, gather};
use super::relax::{Relaxation, relax, top_up};

/// Steps that are spent on filling one bar.
const ROUGH: u64 = 2_000;

/// Fills bar after bar with the pattern that is worth most for its cost. `kinds` may be used; `None`
/// if they do not hold all pieces.
pub(super) fn greedy(problem: &Problem, values: &[i64], kinds: &[usize]) -> Option<Cutting> {
    let mut rest = problem.clone();
    let mut bars: Vec<(Pattern, i64)> = Vec::new();
    while rest.pieces() > 0 {
        let mut best: Option<(i128, i128, Pattern)> = None;
        for k in kinds {
            let kind = &rest.kinds[*k];
            if kind.limit == Some(0) {
                continue;
            }
            let mut f = fill(values, &rest.weights, &rest.demand, kind.cap, ROUGH);
            top_up(&rest, kind.cap, &mut f.counts);
            let value: i128 = f
                .counts
                .iter()
                .zip(values)
                .map(|(c, v)| i128::from(*c) * i128::from((*v).max(1)))
                .sum();
            if value == 0 {
                continue;
            }
            let cost = i128::from(kind.cost);
            if best.as_ref().is_none_or(|(v, c, _)| value * c > v * cost) {
                best = Some((value, cost, Pattern { kind: *k, counts: f.counts }));
            }
        }
        let (_, _, pattern) = best?;
        let mut times = rest.kinds[pattern.kind].limit.unwrap_or(i64::MAX);
        for (c, d) in pattern.counts.iter().zip(&rest.demand) {
            if *c > 0 {
                times = times.min(d / c);
            }
        }
        for (c, d) in pattern.counts.iter().zip(&mut rest.demand) {
            *d -= c * times;
        }
        if let Some(l) = &mut rest.kinds[pattern.kind].limit {
            *l -= times;
        }
        bars.push((pattern, times));
    }
    Some(settle(problem, gather(bars.into_iter())))
}

/// Moves each bar's pieces to the cheapest kind that holds them.
fn settle(problem: &Problem, cutting: Cutting) -> Cutting {
    let mut left: Vec<i64> = problem.kinds.iter().map(|k| k.limit.unwrap_or(i64::MAX)).collect();
    for (p, n) in &cutting {
        left[p.kind] -= n;
    }
    let mut bars: Vec<(Pattern, i64)> = Vec::new();
    for (p, n) in cutting {
        let load = problem.load(&p.counts);
        for _ in 0..n {
            left[p.kind] += 1;
            let kind = (0..problem.kinds.len())
                .filter(|k| left[*k] > 0 && problem.kinds[*k].cap >= load)
                .min_by_key(|k| (problem.kinds[*k].cost, problem.kinds[*k].cap))
                .unwrap_or(p.kind);
            left[kind] -= 1;
            bars.push((Pattern { kind, counts: p.counts.clone() }, 1));
        }
    }
    gather(bars.into_iter())
}

/// The best of several greedy plans.
pub(super) fn best_greedy(problem: &Problem, relaxation: Option<&Relaxation>) -> Option<Cutting> {
    let all: Vec<usize> = (0..problem.kinds.len()).collect();
    let mut plans = Vec::new();
    let mut choices = vec![all.clone()];
    let bought: Vec<usize> =
        all.iter().copied().filter(|k| problem.kinds[*k].limit.is_none()).collect();
    if bought.len() > 1 {
        for b in &bought {
            choices.push(
                all.iter()
                    .copied()
                    .filter(|k| k == b || problem.kinds[*k].limit.is_some())
                    .collect(),
            );
        }
    }
    // Heavier pieces are worth a little more than their weight, as they are harder to place later.
    let top = problem.weights.first().copied().unwrap_or(1);
    let shapes: [&dyn Fn(i64) -> i64; 2] = [&|w| w, &|w| w + w * w / top];
    for kinds in &choices {
        for shape in &shapes {
            let values: Vec<i64> = problem.weights.iter().map(|w| shape(*w)).collect();
            plans.extend(greedy(problem, &values, kinds));
        }
        if let Some(r) = relaxation {
            plans.extend(greedy(problem, &r.values, kinds));
        }
    }
    plans.into_iter().min_by_key(|p| (problem.cost(p), p.clone()))
}

/// Rounds the relaxation bar by bar, solving it again for what remains.
/// `None` when `limit` is reached before.
pub(super) fn dive(
    problem: &Problem,
    root: &Relaxation,
    work: &mut u64,
    limit: u64,
) -> Option<Cutting> {
    let mut rest = problem.clone();
    let mut bars: Vec<(Pattern, i64)> = Vec::new();
    let mut columns = root.columns.clone();
    let mut solution = root.solution.clone();
    while rest.pieces() > 0 {
        let mut chosen: Vec<(usize, i64)> =
            solution.iter().map(|(j, x)| (*j, (x + 1e-6).floor() as i64)).collect();
        chosen.retain(|(_, n)| *n > 0);
        if chosen.is_empty() {
            let (j, _) = solution.iter().max_by(|a, b| a.1.total_cmp(&b.1).then(b.0.cmp(&a.0)))?;
            chosen.push((*j, 1));
        }
        for (j, n) in chosen {
            let p = &columns[j];
            for _ in 0..n {
                let counts: Vec<i64> =
                    p.counts.iter().zip(&rest.demand).map(|(c, d)| (*c).min(*d)).collect();
                if counts.iter().all(|c| *c == 0) || rest.kinds[p.kind].limit == Some(0) {
                    break;
                }
                for (c, d) in counts.iter().zip(&mut rest.demand) {
                    *d -= c;
                }
                if let Some(l) = &mut rest.kinds[p.kind].limit {
                    *l -= 1;
                }
                bars.push((Pattern { kind: p.kind, counts }, 1));
            }
        }
        if rest.pieces() == 0 {
            break;
        }
        let mut again = rest.clone();
        // The relaxation works on kinds that are really asked for.
        let keep: Vec<usize> = (0..again.demand.len()).filter(|i| again.demand[*i] > 0).collect();
        again.weights = keep.iter().map(|i| rest.weights[*i]).collect();
        again.demand = keep.iter().map(|i| rest.demand[*i]).collect();
        let start: Vec<Pattern> = columns
            .iter()
            .filter(|p| rest.kinds[p.kind].limit != Some(0))
            .map(|p| Pattern { kind: p.kind, counts: keep.iter().map(|i| p.counts[*i]).collect() })
            .collect();
        let r = relax(&again, &start, limit.saturating_sub(*work));
        *work += r.work;
        if *work > limit {
            return None;
        }
        columns = r
            .columns
            .into_iter()
            .map(|p| {
                let mut counts = vec![0; rest.demand.len()];
                for (i, c) in keep.iter().zip(p.counts) {
                    counts[*i] = c;
                }
                Pattern { kind: p.kind, counts }
            })
            .collect();
        solution = r.solution;
        if solution.is_empty() {
            return None;
        }
    }
    let plan = settle(problem, gather(bars.into_iter()));
    problem.is_met_by(&plan).then_some(plan)
}
