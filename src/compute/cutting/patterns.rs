//! All patterns that a plan below some cost can hold.
//!
//! With the dual values of the relaxation, cost = bound + sum of reduced costs + waste terms that are
//! never negative. A plan that costs at most T therefore holds no pattern of reduced cost above
//! T - bound.
use super::problem::{Pattern, Problem};
use super::relax::Relaxation;

/// Which patterns of a kind are wanted.
pub(super) struct Wanted {
    /// Kind of bar.
    pub(super) kind: usize,
    /// Weight the bar may hold: its cap or less.
    pub(super) cap: i64,
    /// Lighter patterns are not wanted (they fit a kind that costs no more).
    pub(super) heavier_than: i64,
    /// Only patterns to which nothing can be added.
    pub(super) full: bool,
}

struct Listing<'a> {
    problem: &'a Problem,
    values: &'a [i64],
    order: Vec<usize>,
    weight_after: Vec<i64>,
    wanted: &'a Wanted,
    /// Value that a pattern must have.
    least_value: i64,
    now: Vec<i64>,
    out: &'a mut Vec<Pattern>,
    most: usize,
    steps: u64,
    /// Pieces looked at for bounds.
    trials: u64,
    most_steps: u64,
}

impl Listing<'_> {
    /// False when the list grew too long.
    fn go(&mut self, at: usize, room: i64, value: i64, lightest_skipped: i64) -> bool {
        self.steps += 1;
        if self.steps > self.most_steps || self.trials > 10 * self.most_steps {
            return false;
        }
        // Nothing later can fill the room that a skipped piece would take.
        let full = self.wanted.full;
        if full && room - self.weight_after[at] >= lightest_skipped {
            return true;
        }
        if self.wanted.cap - room + self.weight_after[at].min(room) <= self.wanted.heavier_than {
            return true;
        }
        if at == self.order.len() {
            if value >= self.least_value && self.now.iter().any(|c| *c > 0) {
                if self.out.len() >= self.most {
                    return false;
                }
                self.out.push(Pattern { kind: self.wanted.kind, counts: self.now.clone() });
            }
            return true;
        }
        let i = self.order[at];
        let (w, v) = (self.problem.weights[i], self.values[i]);
        let fits = self.problem.demand[i].min(room / w);
        for count in (0..=fits).rev() {
            let (room, value) = (room - count * w, value + count * v);
            let mut rest = 0_i64;
            let mut left = room;
            // Bound by filling with the densest of what comes later, the last one in part.
            for j in &self.order[at + 1..] {
                self.trials += 1;
                let (w, v, d) =
                    (self.problem.weights[*j], self.values[*j], self.problem.demand[*j]);
                if w * d <= left {
                    left -= w * d;
                    rest += v * d;
                } else {
                    rest += (i128::from(left) * i128::from(v) / i128::from(w)) as i64;
                    break;
                }
                if value + rest >= self.least_value {
                    break;
                }
            }
            if value + rest < self.least_value {
                break;
            }
            self.now[i] = count;
            let skipped = if count < self.problem.demand[i] {
                lightest_skipped.min(w)
            } else {
                lightest_skipped
            };
            if !self.go(at + 1, room, value, skipped) {
                self.now[i] = 0;
                return false;
            }
        }
        self.now[i] = 0;
        true
    }
}

/// Lists wanted patterns of reduced cost at most `gap` (in the relaxation's scale). `None` if they
/// are more than `most` or took too many steps.
pub(super) fn list(
    problem: &Problem,
    relaxation: &Relaxation,
    wanted: &[Wanted],
    gap: i128,
    most: usize,
    work: &mut u64,
) -> Option<Vec<Pattern>> {
    let mut out = Vec::new();
    let values = &relaxation.values;
    let mut order: Vec<usize> = (0..values.len()).collect();
    order.sort_by(|a, b| {
        let left = i128::from(values[*a]) * i128::from(problem.weights[*b]);
        let right = i128::from(values[*b]) * i128::from(problem.weights[*a]);
        right.cmp(&left).then(a.cmp(b))
    });
    let mut weight_after = vec![0; order.len() + 1];
    for at in (0..order.len()).rev() {
        let i = order[at];
        weight_after[at] = weight_after[at + 1] + problem.weights[i] * problem.demand[i];
    }
    let gap = gap.clamp(-1, 1 << 60) as i64;
    for w in wanted {
        if w.cap < 0 || problem.most(w.kind) < 1 {
            continue;
        }
        let least = problem.kinds[w.kind].cost * relaxation.scale - relaxation.relief[w.kind] - gap;
        let mut listing = Listing {
            problem,
            values,
            order: order.clone(),
            weight_after: weight_after.clone(),
            wanted: w,
            least_value: least,
            now: vec![0; values.len()],
            out: &mut out,
            most,
            steps: 0,
            trials: 0,
            most_steps: 40 * most as u64 + 100_000,
        };
        let complete = listing.go(0, w.cap, 0, i64::MAX);
        *work += 4 * (listing.steps + listing.trials);
        if !complete {
            return None;
        }
    }
    Some(out)
}

/// For each kind its full patterns, without those that fit a kind which costs no more.
pub(super) fn undominated(problem: &Problem) -> Vec<Wanted> {
    (0..problem.kinds.len())
        .map(|kind| {
            let own = &problem.kinds[kind];
            let heavier_than = problem
                .kinds
                .iter()
                .filter(|k| k.limit.is_none() && k.cost <= own.cost && k.cap < own.cap)
                .map(|k| k.cap)
                .max()
                .unwrap_or(0);
            Wanted { kind, cap: own.cap, heavier_than, full: true }
        })
        .collect()
}
