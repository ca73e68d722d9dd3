//! People at work: where a task is at work whatever its start, others find fewer people.

use super::{Claim, Conflict, Engine};

/// A stretch in which a task is at work for certain.
#[derive(Clone, Copy, Debug)]
struct Part {
    from: i64,
    to: i64,
    crew: i64,
    task: usize,
}

impl Engine<'_> {
    pub(super) fn timetable(&mut self) -> Result<(), Conflict> {
        let model = self.model;
        let mut parts: Vec<Part> = Vec::new();
        for task in 0..self.n {
            let (from, to) = (self.high(task), self.low(task) + model.steps[task]);
            let crew = model.crew[task];
            if crew == 0 || from >= to {
                continue;
            }
            if !model.facts_at_work {
                parts.push(Part { from, to, crew, task });
                continue;
            }
            // Facts change the number of people within a window: cut where they do.
            for piece in model.pieces.iter().filter(|p| p.from < to && from < p.to) {
                let (from, to) = (from.max(piece.from), to.min(piece.to));
                parts.push(Part { from, to, crew, task });
            }
        }
        for part in &parts {
            if usage(&parts, part.from, NOBODY) > model.crew_at(part.from) {
                let mut claims = Vec::new();
                self.there(&parts, part.from, NOBODY, model.crew_at(part.from), &mut claims);
                return Err(self.conflict_of(&claims));
            }
        }
        for task in 0..self.n {
            if model.crew[task] > 0 && !self.fixed(task) {
                while self.push_later(&parts, task)? {}
                while self.push_earlier(&parts, task)? {}
            }
        }
        Ok(())
    }

    /// Adds claims by which more than `limit` people, `apart` not counted, are at work at `p`.
    fn there(&self, parts: &[Part], p: i64, apart: usize, limit: i64, claims: &mut Vec<Claim>) {
        let mut people = 0;
        for part in parts.iter().filter(|q| q.from <= p && p < q.to && q.task != apart) {
            if people > limit {
                return;
            }
            people += part.crew;
            let (low, high) = (2 * part.task, 2 * part.task + 1);
            let first = p - self.model.steps[part.task] + 1;
            claims.push(Claim { side: low, least: self.settled(low, first) });
            claims.push(Claim { side: high, least: self.settled(high, -p) });
        }
    }

    fn push_later(&mut self, parts: &[Part], task: usize) -> Result<bool, Conflict> {
        let model = self.model;
        let low = self.low(task);
        let end = low + model.steps[task];
        for part in parts.iter().filter(|q| q.task != task && q.from < end && low < q.to) {
            let p = part.from.max(low);
            let limit = model.crew_at(p) - model.crew[task];
            if usage(parts, p, task) <= limit {
                continue;
            }
            // The last step of the busy stretch that the task cannot help to cover.
            let busy = parts.iter().filter(|q| q.from <= p && p < q.to && q.task != task);
            let until = busy.map(|q| q.to).min().unwrap_or(p + 1).min(end);
            let t = if model.facts_at_work { p } else { until - 1 };
            let side = 2 * task;
            let first = t - model.steps[task] + 1;
            let mut claims = vec![Claim { side, least: self.settled(side, first) }];
            self.there(parts, t, task, limit, &mut claims);
            self.raise_for(side, t + 1, &claims)?;
            return Ok(true);
        }
        Ok(false)
    }

    fn push_earlier(&mut self, parts: &[Part], task: usize) -> Result<bool, Conflict> {
        let model = self.model;
        let high = self.high(task);
        let end = high + model.steps[task];
        for part in parts.iter().filter(|q| q.task != task && q.from < end && high < q.to) {
            let p = part.from.max(high);
            let limit = model.crew_at(p) - model.crew[task];
            if usage(parts, p, task) <= limit {
                continue;
            }
            // At `p` the busy stretch begins, or the task's last start.
            let side = 2 * task + 1;
            let mut claims = vec![Claim { side, least: self.settled(side, -p) }];
            self.there(parts, p, task, limit, &mut claims);
            self.raise_for(side, model.steps[task] - p, &claims)?;
            return Ok(true);
        }
        Ok(false)
    }
}

/// Stands for no task.
const NOBODY: usize = usize::MAX;

/// People at work at `p` for certain, `apart` not counted.
fn usage(parts: &[Part], p: i64, apart: usize) -> i64 {
    let there = parts.iter().filter(|q| q.from <= p && p < q.to && q.task != apart);
    there.map(|q| q.crew).sum()
}
