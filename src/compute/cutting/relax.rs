//! Lower bound by column generation, made exact in integers, with dual values that show which
//! patterns a better plan can hold (Gilmore and Gomory 1961; Lagrangian bound of the proper
//! relaxation: no pattern holds more of a piece than is asked for).
use super::knapsack::{STEPS, fill, table_bound};
use super::problem::{Pattern, Problem};
use super::simplex::{Program, Sense};

/// Rounds of pricing before the bound is taken as it is.
const ROUNDS: usize = 400;

/// The relaxation's answer. Dual values are integers in units of 1 / `scale`; with them every pattern
/// p on kind k has cost * scale - sum(value * count) - `relief`\[k\] >= 0, and the sum of
/// value * demand + relief * most is the bound: that holds in integers, whatever the floating point did.
pub(super) struct Relaxation {
    pub(super) scale: i64,
    pub(super) values: Vec<i64>,
    pub(super) relief: Vec<i64>,
    /// Bound times `scale`.
    pub(super) bound_scaled: i128,
    /// Patterns that were generated.
    pub(super) columns: Vec<Pattern>,
    /// How often each is cut in the relaxation.
    pub(super) solution: Vec<(usize, f64)>,
    pub(super) work: u64,
}

impl Relaxation {
    /// Least whole cost that the bound allows.
    pub(super) fn bound(&self) -> i64 {
        let s = i128::from(self.scale);
        ((self.bound_scaled + s - 1).div_euclid(s)) as i64
    }

    /// Reduced cost of a pattern times `scale`.
    pub(super) fn reduced(&self, problem: &Problem, kind: usize, counts: &[i64]) -> i64 {
        let value: i64 = self.values.iter().zip(counts).map(|(v, c)| v * c).sum();
        problem.kinds[kind].cost * self.scale - value - self.relief[kind]
    }
}

/// Scale for dual values such that costs times it leave room in 64 bits.
pub(super) fn scale_for(largest_cost: i64) -> i64 {
    let mut scale = 1 << 24;
    while scale > 1 && largest_cost.saturating_mul(scale) > 1 << 42 {
        scale /= 2;
    }
    scale
}

/// Fills what room is left with whatever still fits, heaviest first.
pub(super) fn top_up(problem: &Problem, cap: i64, counts: &mut [i64]) {
    let mut room = cap - problem.load(counts);
    for ((count, weight), demand) in counts.iter_mut().zip(&problem.weights).zip(&problem.demand) {
        let more = (demand - *count).min(room / weight).max(0);
        *count += more;
        room -= more * weight;
    }
}

/// Solves the relaxation; `start` are patterns to begin with, cut down to the demand. When `work` is
/// used up the bound is that of the columns so far.
pub(super) fn relax(problem: &Problem, start: &[Pattern], work: u64) -> Relaxation {
    let n = problem.weights.len();
    let largest = problem.kinds.iter().map(|k| k.cost).max().unwrap_or(0);
    let scale = scale_for(largest);
    let mut program = Program::new((largest.max(1) as f64) * 64.0);
    for d in &problem.demand {
        program.push_row(Sense::AtLeast, *d, &[]);
    }
    let mut limit_row = vec![None; problem.kinds.len()];
    for (k, kind) in problem.kinds.iter().enumerate() {
        if kind.limit.is_some() {
            limit_row[k] = Some(program.height());
            program.push_row(Sense::AtMost, problem.most(k), &[]);
        }
    }
    let mut columns: Vec<Pattern> = Vec::new();
    let add = |program: &mut Program, columns: &mut Vec<Pattern>, p: Pattern| {
        let mut entries: Vec<(usize, i64)> =
            p.counts.iter().enumerate().filter(|(_, c)| **c > 0).map(|(i, c)| (i, *c)).collect();
        if entries.is_empty() {
            return;
        }
        if let Some(r) = limit_row[p.kind] {
            entries.push((r, 1));
        }
        program.push_column(problem.kinds[p.kind].cost, &entries);
        columns.push(p);
    };
    for p in start {
        let mut counts: Vec<i64> =
            p.counts.iter().zip(&problem.demand).map(|(c, d)| (*c).min(*d)).collect();
        top_up(problem, problem.kinds[p.kind].cap, &mut counts);
        add(&mut program, &mut columns, Pattern { kind: p.kind, counts });
    }
    for i in 0..n {
        let best = (0..problem.kinds.len())
            .filter(|k| problem.kinds[*k].cap >= problem.weights[i])
            .min_by_key(|k| (problem.kinds[*k].limit.is_some(), problem.kinds[*k].cost));
        if let Some(kind) = best {
            let mut counts = vec![0; n];
            counts[i] = problem.demand[i].min(problem.kinds[kind].cap / problem.weights[i]);
            top_up(problem, problem.kinds[kind].cap, &mut counts);
            add(&mut program, &mut columns, Pattern { kind, counts });
        }
    }
    let mut best = Relaxation {
        scale,
        values: vec![0; n],
        relief: vec![0; problem.kinds.len()],
        bound_scaled: 0,
        columns: Vec::new(),
        solution: Vec::new(),
        work: 0,
    };
    for round in 0.. {
        program.solve();
        let duals = program.duals();
        let values: Vec<i64> = duals[..n]
            .iter()
            .map(|y| (y * scale as f64).floor().clamp(0.0, (1_i64 << 46) as f64) as i64)
            .collect();
        let mut fills = Vec::new();
        let mut fresh: Vec<Pattern> = Vec::new();
        for (k, kind) in problem.kinds.iter().enumerate() {
            let f = fill(&values, &problem.weights, &problem.demand, kind.cap, STEPS);
            program.work += 200 + 8 * f.steps;
            let row = limit_row[k].map_or(0.0, |r| duals[r].min(0.0));
            let slack = kind.cost * scale - (row * scale as f64) as i64;
            if f.value > slack + scale / 100_000 + 64 {
                let mut counts = f.counts.clone();
                top_up(problem, kind.cap, &mut counts);
                let p = Pattern { kind: k, counts };
                if !columns.contains(&p) && !fresh.contains(&p) {
                    fresh.push(p);
                }
            }
            fills.push(f);
        }
        if fresh.is_empty() || round == ROUNDS || program.work > work {
            let upper: Vec<i64> = fills
                .iter()
                .zip(&problem.kinds)
                .map(|(f, kind)| {
                    if f.complete {
                        f.value
                    } else {
                        table_bound(&values, &problem.weights, &problem.demand, kind.cap)
                            .max(f.value)
                    }
                })
                .collect();
            make_certain(problem, &values, &upper, &mut best);
            break;
        }
        for p in fresh {
            add(&mut program, &mut columns, p);
        }
    }
    best.solution = program.solution();
    best.columns = columns;
    best.work = program.work;
    best
}

/// Turns values into ones that hold in integers; `upper` bounds what a bar of each kind is worth.
fn make_certain(problem: &Problem, values: &[i64], upper: &[i64], out: &mut Relaxation) {
    let scale = out.scale;
    // Unlimited kinds must not be worth more than they cost: shrink all values until so.
    let (mut top, mut bottom) = (1_i128, 1_i128);
    for (kind, upper) in problem.kinds.iter().zip(upper) {
        let (price, upper) = (i128::from(kind.cost * scale), i128::from(*upper));
        if kind.limit.is_none() && upper > price && price * bottom < top * upper {
            (top, bottom) = (price, upper);
        }
    }
    out.values = values.iter().map(|v| (i128::from(*v) * top / bottom) as i64).collect();
    out.bound_scaled =
        out.values.iter().zip(&problem.demand).map(|(v, d)| i128::from(*v) * i128::from(*d)).sum();
    for (k, (kind, upper)) in problem.kinds.iter().zip(upper).enumerate() {
        if kind.limit.is_some() {
            out.relief[k] = (kind.cost * scale - upper).min(0);
            out.bound_scaled += i128::from(out.relief[k]) * i128::from(problem.most(k));
        }
    }
}
