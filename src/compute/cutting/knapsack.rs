//! Fullest pattern for given values: bounded knapsack, exact where the work allows.

/// Steps of the tree search that are always affordable.
pub(super) const STEPS: u64 = 60_000;
/// Cells of the table.
const CELLS: i64 = 16_384;

/// The best filling found.
pub(super) struct Fill {
    /// Value of `counts`.
    pub(super) value: i64,
    /// Whether the search was complete, so that no filling is worth more.
    pub(super) complete: bool,
    /// Steps that the search took.
    pub(super) steps: u64,
    /// Pieces of each kind.
    pub(super) counts: Vec<i64>,
}

struct Search<'a> {
    order: Vec<usize>,
    lightest_after: Vec<i64>,
    values: &'a [i64],
    weights: &'a [i64],
    demand: &'a [i64],
    now: Vec<i64>,
    best: i64,
    best_counts: Vec<i64>,
    steps: u64,
    most_steps: u64,
}

impl Search<'_> {
    fn go(&mut self, at: usize, room: i64, value: i64) {
        if value > self.best {
            self.best = value;
            self.best_counts.clone_from(&self.now);
        }
        if at == self.order.len() || room < self.lightest_after[at] || self.steps > self.most_steps
        {
            return;
        }
        self.steps += 1;
        let i = self.order[at];
        let (w, v) = (self.weights[i], self.values[i]);
        let mut count = self.demand[i].min(room / w);
        loop {
            let (room, value) = (room - count * w, value + count * v);
            // What comes later is worth at most the density of the next kind.
            let rest = self.order.get(at + 1).map_or(0, |j| {
                (i128::from(room) * i128::from(self.values[*j]) / i128::from(self.weights[*j]))
                    as i64
            });
            if value + rest <= self.best {
                break;
            }
            self.now[i] = count;
            self.go(at + 1, room, value);
            if count == 0 {
                break;
            }
            count -= 1;
        }
        self.now[i] = 0;
    }
}

/// Finds counts (at most `demand`) of weight at most `cap` with the greatest value. Values are zero
/// or more and their sums stay inside 64 bits; weights are more than zero. After `most_steps` the best
/// so far is returned.
pub(super) fn fill(
    values: &[i64],
    weights: &[i64],
    demand: &[i64],
    cap: i64,
    most_steps: u64,
) -> Fill {
    let mut order: Vec<usize> = (0..values.len())
        .filter(|i| values[*i] > 0 && demand[*i] > 0 && weights[*i] <= cap)
        .collect();
    order.sort_by(|a, b| {
        let left = i128::from(values[*a]) * i128::from(weights[*b]);
        let right = i128::from(values[*b]) * i128::from(weights[*a]);
        right.cmp(&left).then(weights[*b].cmp(&weights[*a])).then(a.cmp(b))
    });
    let mut lightest_after = vec![i64::MAX; order.len()];
    let mut lightest = i64::MAX;
    for at in (0..order.len()).rev() {
        lightest = lightest.min(weights[order[at]]);
        lightest_after[at] = lightest;
    }
    let mut search = Search {
        order,
        lightest_after,
        values,
        weights,
        demand,
        now: vec![0; values.len()],
        best: 0,
        best_counts: vec![0; values.len()],
        steps: 0,
        most_steps,
    };
    search.go(0, cap, 0);
    Fill {
        value: search.best,
        complete: search.steps <= most_steps,
        steps: search.steps,
        counts: search.best_counts,
    }
}

/// No filling is worth more than this: a table over a coarse grid, weights rounded down, so nothing
/// that fits is lost.
pub(super) fn table_bound(values: &[i64], weights: &[i64], demand: &[i64], cap: i64) -> i64 {
    let grid = cap / CELLS + 1;
    let cells = usize::try_from(cap / grid).expect("at most CELLS");
    let mut best = vec![0_i64; cells + 1];
    for i in 0..values.len() {
        if values[i] == 0 || weights[i] > cap {
            continue;
        }
        let mut left = demand[i].min(cap / weights[i]);
        let mut take = 1;
        // Binary split of the count.
        while left > 0 {
            let n = take.min(left);
            left -= n;
            take *= 2;
            let (w, v) = ((n * weights[i] / grid) as usize, n * values[i]);
            for room in (w..=cells).rev() {
                best[room] = best[room].max(best[room - w] + v);
            }
        }
    }
    best[cells]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_the_fullest_bar() {
        let f = fill(&[10, 7, 2], &[6, 4, 2], &[1, 2, 1], 10, STEPS);
        assert_eq!((f.value, f.complete), (17, true));
        assert_eq!(f.counts, [1, 1, 0]);
    }

    #[test]
    fn table_never_falls_below_the_tree() {
        let values: Vec<i64> = (0..12).map(|i| 50 + (i * 37) % 41).collect();
        let weights: Vec<i64> = (0..12).map(|i| 900 + (i * 7919) % 3001).collect();
        let demand = vec![3; 12];
        for cap in [5_000, 9_999, 40_000, 1_000_000] {
            let tree = fill(&values, &weights, &demand, cap, STEPS);
            assert!(table_bound(&values, &weights, &demand, cap) >= tree.value);
        }
    }
}
