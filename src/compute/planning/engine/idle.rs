//! Idle time: within a day, from the first task to the last, in which nobody is at work.
//!
//! What is certain of it: a day has its first start at the latest where a task that must lie in it
//! starts at the latest, and its last end likewise; in between, what no task can still cover is idle.

use super::{Claim, Conflict, Engine};
use crate::compute::planning::model::Model;

/// The working hours of each day, in steps.
pub(in crate::compute::planning) fn days(model: &Model) -> Vec<(i64, i64)> {
    let mut days: Vec<(usize, i64, i64)> = Vec::new();
    for piece in &model.pieces {
        match days.last_mut() {
            Some(day) if day.0 == piece.window => day.2 = piece.to,
            _ => days.push((piece.window, piece.from, piece.to)),
        }
    }
    days.into_iter().map(|(_, from, to)| (from, to)).collect()
}

/// Tasks at which somebody works.
pub(in crate::compute::planning) fn attended(model: &Model) -> Vec<usize> {
    (0..model.len()).filter(|&t| model.crew[t] > 0 && model.steps[t] > 0).collect()
}

/// Idle steps of a plan.
pub(in crate::compute::planning) fn idle_of(model: &Model, starts: &[i64]) -> i64 {
    let work = attended(model);
    days(model)
        .iter()
        .map(|&(from, to)| {
            let mut here: Vec<(i64, i64)> = work
                .iter()
                .map(|&t| (starts[t], starts[t] + model.steps[t]))
                .filter(|&(start, _)| from <= start && start < to)
                .collect();
            here.sort_unstable();
            let mut idle = 0;
            let mut until = here.first().map_or(0, |first| first.0);
            for (start, end) in here {
                idle += (start - until).max(0);
                until = until.max(end);
            }
            idle
        })
        .sum()
}

impl Engine<'_> {
    /// Raises the least idle time to what is certain of it.
    pub(super) fn idle(&mut self) -> Result<(), Conflict> {
        let Some(idle) = self.idle else { return Ok(()) };
        let model = self.model;
        let work = attended(model);
        let end = |engine: &Self, t: usize| engine.high(t) + model.steps[t];
        let mut claims: Vec<Claim> = Vec::new();
        let mut certain = 0;
        for (from, to) in days(model) {
            let inside =
                || work.iter().copied().filter(|&t| self.low(t) >= from && end(self, t) <= to);
            let Some(first) = inside().min_by_key(|&t| (self.high(t), t)) else { continue };
            let ends = |t: usize| self.low(t) + model.steps[t];
            let Some(last) = inside().max_by_key(|&t| (ends(t), std::cmp::Reverse(t))) else {
                continue;
            };
            let (begin, close) = (self.high(first), ends(last));
            let gaps = self.gaps(&work, (from, to), (begin, close));
            if gaps.is_empty() {
                continue;
            }
            certain += gaps.iter().map(|gap| gap.1 - gap.0).sum::<i64>();
            claims.push(self.not_before(first, from, false));
            claims.push(self.not_after(first, begin + model.steps[first], false));
            claims.push(self.not_before(last, close - model.steps[last], false));
            claims.push(self.not_after(last, to, false));
            for &t in &work {
                // Each gap lies before the task's first start, or after its last end.
                let low = self.low(t);
                let (low, here) =
                    if low + model.steps[t] > to { (low, true) } else { (low, false) };
                let before = gaps.iter().filter(|gap| here || gap.1 <= low).map(|gap| gap.1).max();
                if let Some(before) = before {
                    claims.push(self.not_before(t, before.min(low), false));
                }
                let after = gaps.iter().filter(|gap| !here && gap.0 >= end(self, t));
                if let Some(after) = after.map(|gap| gap.0).min() {
                    claims.push(self.not_after(t, after, false));
                }
            }
        }
        if certain > self.low(idle) {
            claims.sort_unstable();
            claims.dedup();
            self.raise_for(2 * idle, certain, &claims)?;
        }
        Ok(())
    }

    /// What of a stretch of a day no task can cover any more.
    fn gaps(
        &self,
        work: &[usize],
        (from, to): (i64, i64),
        (begin, close): (i64, i64),
    ) -> Vec<(i64, i64)> {
        let model = self.model;
        let mut covers: Vec<(i64, i64)> = work
            .iter()
            .map(|&t| {
                let first = self.low(t).max(from);
                let last = self.high(t).min(to - model.steps[t]);
                (first, if first <= last { last + model.steps[t] } else { first })
            })
            .filter(|(first, end)| first < end)
            .collect();
        covers.sort_unstable();
        let mut gaps = Vec::new();
        let mut until = begin;
        for (start, end) in covers {
            if start > until {
                gaps.push((until, start.min(close)));
            }
            until = until.max(end);
            if until >= close {
                break;
            }
        }
        if until < close {
            gaps.push((until, close));
        }
        gaps.retain(|gap| gap.0 < gap.1);
        gaps
    }
}
