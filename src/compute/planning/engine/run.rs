//! The search itself: decisions, restarts, and the finish closed in from both ends.

use super::{Claim, Engine};

/// How much work the search may do, counted in decisions and conflicts so that the outcome is
/// the same on every machine.
#[derive(Clone, Copy, Debug)]
pub(in crate::compute::planning) struct Effort {
    pub(in crate::compute::planning) nodes: u64,
}

/// What the search found.
#[derive(Clone, Debug)]
pub(in crate::compute::planning) struct Answer {
    /// The best starts found, if better than those given.
    pub(in crate::compute::planning) starts: Option<Vec<i64>>,
    /// No plan reaches less than this; beyond the search's range when there is none in it.
    pub(in crate::compute::planning) bound: i64,
    /// Whether the range has been searched through.
    pub(in crate::compute::planning) complete: bool,
    /// Decisions and conflicts.
    pub(in crate::compute::planning) nodes: u64,
}

/// Conflicts before the first restart; later runs follow the sequence of Luby, Sinclair and
/// Zuckerman 1993 times this.
const RUN: u64 = 100;

/// Nogoods kept before the first clearing out.
const KEPT: usize = 4000;

fn luby(i: u64) -> u64 {
    let mut size = 1;
    while size < i + 1 {
        size = 2 * size + 1;
    }
    let mut i = i;
    while size - 1 != i {
        size = (size - 1) / 2;
        i %= size;
    }
    size.div_ceil(2)
}

impl Engine<'_> {
    /// Raises the least finish as far as the rules alone can, by halving.
    pub(in crate::compute::planning) fn close_in(&mut self) -> i64 {
        if self.propagate().is_err() {
            return self.high(self.n) + 1;
        }
        let (mut low, mut high) = (self.low(self.n), self.high(self.n) + 1);
        // Below `low` nothing is left; `high` is not ruled out.
        while low < high {
            let middle = low + (high - low) / 2;
            if middle >= self.high(self.n) {
                break;
            }
            self.decide(Claim { side: 2 * self.n + 1, least: -middle });
            let ruled_out = self.propagate().is_err();
            self.back_to(0);
            if ruled_out {
                low = middle + 1;
                if self.raise(2 * self.n, low, super::Reason::Decision).is_err()
                    || self.propagate().is_err()
                {
                    return self.high(self.n) + 1;
                }
                low = low.max(self.low(self.n));
            } else {
                high = middle;
            }
        }
        low
    }

    /// Any plan in the range of finishes.
    pub(in crate::compute::planning) fn any_plan(&mut self, effort: Effort) -> Answer {
        self.any = true;
        self.run(&[], None, effort)
    }

    /// Searches the range of the goal for its least value. `hint` is a plan to stay near to; only
    /// plans below `cut` are looked for.
    pub(in crate::compute::planning) fn run(
        &mut self,
        hint: &[i64],
        cut: Option<i64>,
        effort: Effort,
    ) -> Answer {
        let mut hint = hint.to_vec();
        let mut answer =
            Answer { starts: None, bound: self.low(self.goal), complete: false, nodes: 0 };
        if let Some(cut) = cut
            && self.raise(2 * self.goal + 1, 1 - cut, super::Reason::Decision).is_err()
        {
            return Answer { bound: cut, complete: true, ..answer };
        }
        let (mut conflicts, mut restarts) = (0_u64, 0_u64);
        let mut until = RUN;
        let mut kept = KEPT;
        let mut fresh = true;
        loop {
            if self.propagate().is_err() {
                answer.nodes += 1;
                conflicts += 1;
                let Some(lesson) = self.trace() else {
                    answer.complete = true;
                    answer.bound = self.high(self.goal) + 1;
                    return answer;
                };
                self.fade();
                let mut lesson = lesson;
                // Turning a claim round may clash at once with what is known.
                while self.learn(lesson).is_err() {
                    let Some(next) = self.trace() else {
                        answer.complete = true;
                        answer.bound = self.high(self.goal) + 1;
                        return answer;
                    };
                    lesson = next;
                }
                continue;
            }
            if self.level() == 0 {
                answer.bound = answer.bound.max(self.low(self.goal));
            }
            if answer.nodes >= effort.nodes {
                self.back_to(0);
                return answer;
            }
            if (0..self.n).all(|t| self.fixed(t)) {
                let starts: Vec<i64> = (0..self.n).map(|t| self.low(t)).collect();
                let found = self.low(self.goal);
                hint.clone_from(&starts);
                answer.starts = Some(starts);
                self.back_to(0);
                if self.any {
                    return answer;
                }
                let side = 2 * self.goal + 1;
                if self.raise(side, 1 - found, super::Reason::Decision).is_err() {
                    answer.complete = true;
                    answer.bound = found;
                    return answer;
                }
                continue;
            }
            if conflicts >= until && self.level() > 0 {
                restarts += 1;
                until = conflicts + RUN * luby(restarts);
                self.back_to(0);
                fresh = true;
                continue;
            }
            if fresh && self.level() == 0 && self.nogoods.len() > kept {
                self.forget();
                kept += kept / 10;
            }
            fresh = false;
            answer.nodes += 1;
            let claim = self.choose(&hint, restarts);
            self.decide(claim);
        }
    }

    fn choose(&self, hint: &[i64], restarts: u64) -> Claim {
        let n = self.n;
        let goal = self.goal;
        if self.level() == 0 && !self.fixed(goal) {
            // Now at the least that is not ruled out, now between the ends.
            let (low, high) = (self.low(goal), self.high(goal));
            let aim = match restarts % 4 {
                0 | 1 => low,
                2 => low + (high - low) / 2,
                _ => high,
            };
            if aim < high {
                return Claim { side: 2 * goal + 1, least: -aim };
            }
        }
        let by_time = restarts.is_multiple_of(8);
        if !by_time {
            let mut best: Option<usize> = None;
            for var in (0..n).chain(n + 1..=n + self.pairs.len()) {
                if !self.fixed(var) && best.is_none_or(|b| self.activity[var] > self.activity[b]) {
                    best = Some(var);
                }
            }
            if let Some(var) = best.filter(|&v| self.activity[v] > 0.0) {
                return self.toward(var, hint);
            }
        }
        let task = (0..n)
            .filter(|&t| !self.fixed(t))
            .min_by_key(|&t| (self.low(t), self.high(t), t))
            .expect("a start is open, or the plan would be complete");
        Claim { side: 2 * task + 1, least: -self.low(task) }
    }

    /// A decision about a variable that leads toward the hint.
    fn toward(&self, var: usize, hint: &[i64]) -> Claim {
        let low = self.low(var);
        if var > self.n {
            let pair = self.pairs[var - self.n - 1];
            let (a, b) = (pair.first, pair.second);
            let first = if hint.is_empty() {
                self.low(a) + self.high(a) <= self.low(b) + self.high(b)
            } else {
                hint[a] <= hint[b]
            };
            let one = Claim { side: 2 * var, least: 1 };
            return if first { one } else { one.opposite() };
        }
        match hint.get(var) {
            Some(&at) if at > low && at <= self.high(var) => Claim { side: 2 * var, least: at },
            _ => Claim { side: 2 * var + 1, least: -low },
        }
    }
}
