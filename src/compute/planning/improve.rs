//! Good plans by rules, justification and a walk over orders, with a fixed seed.

use super::hours::Hours;
use super::model::Model;
use super::serial::{Grade, Serial, Starts};

/// A small generator of pseudo-random numbers (xorshift64*, Vigna 2016), so that a problem gives
/// the same plan on every machine.
struct Dice(u64);

impl Dice {
    fn below(&mut self, n: usize) -> usize {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        let high = self.0.wrapping_mul(0x2545_F491_4F6C_DD1D) >> 33;
        high as usize % n.max(1)
    }
}

/// The best plan found within `tries` placings, or sooner when one meets `bound` with nothing late.
pub(super) fn good_plan(
    model: &Model,
    hours: Hours<'_>,
    bound: i64,
    tries: usize,
) -> Option<(Grade, Starts)> {
    let mut walk = Walk {
        model,
        serial: Serial::new(model, hours),
        best: Grade::WORST,
        best_starts: Vec::new(),
        bound,
        left: tries,
    };
    for priority in walk.rules() {
        let order = walk.by_priority(&priority);
        walk.try_order(&order);
        walk.justify();
        if walk.ended() {
            break;
        }
    }
    walk.wander();
    (!walk.best_starts.is_empty() || model.len() == 0).then_some((walk.best, walk.best_starts))
}

struct Walk<'a> {
    model: &'a Model,
    serial: Serial<'a>,
    best: Grade,
    best_starts: Starts,
    bound: i64,
    left: usize,
}

impl Walk<'_> {
    fn ended(&self) -> bool {
        self.left == 0 || (self.best.late == 0 && self.best.finish <= self.bound)
    }

    /// Priorities, least first: latest start, latest finish, longest work behind it with its
    /// waits, most followers.
    fn rules(&self) -> Vec<Vec<i64>> {
        let n = self.model.len();
        let latest: Vec<i64> = (0..n).map(|t| self.model.starts[t].last()).collect();
        let mut tail: Vec<i64> = self.model.steps.clone();
        let mut follow = vec![vec![false; n]; n];
        for &task in self.model.order.iter().rev() {
            for &(next, wait) in &self.serial.after()[task] {
                tail[task] = tail[task].max(wait + tail[next]);
                let behind = follow[next].clone();
                for (mine, theirs) in follow[task].iter_mut().zip(behind) {
                    *mine |= theirs;
                }
                follow[task][next] = true;
            }
        }
        let finish = (0..n).map(|t| latest[t] + self.model.steps[t]).collect();
        let work = |t: usize| self.model.steps[t] * self.model.crew[t].max(1);
        let behind =
            |t: usize| -> i64 { work(t) + (0..n).filter(|&k| follow[t][k]).map(work).sum::<i64>() };
        let load: Vec<i64> = (0..n).map(|t| -behind(t)).collect();
        let mixed = (0..n).map(|t| load[t] - 2 * tail[t]).collect();
        vec![latest, finish, tail.iter().map(|t| -t).collect(), load, mixed]
    }

    /// The order that always takes the ready task of least priority.
    fn by_priority(&self, priority: &[i64]) -> Vec<usize> {
        let n = self.model.len();
        let mut waiting: Vec<usize> = self.serial.before().iter().map(Vec::len).collect();
        let mut order = Vec::with_capacity(n);
        let mut ready: Vec<usize> = (0..n).filter(|&t| waiting[t] == 0).collect();
        while let Some(at) = (0..ready.len()).min_by_key(|&i| (priority[ready[i]], ready[i])) {
            let task = ready.swap_remove(at);
            order.push(task);
            for &(next, _) in &self.serial.after()[task] {
                waiting[next] -= 1;
                if waiting[next] == 0 {
                    ready.push(next);
                }
            }
        }
        order
    }

    fn try_order(&mut self, order: &[usize]) -> Grade {
        self.left = self.left.saturating_sub(1);
        let Some(grade) = self.serial.early(order) else { return Grade::WORST };
        if grade < self.best {
            self.best = grade;
            self.best_starts = self.serial.starts().to_vec();
        }
        grade
    }

    /// Moves the best plan late and then early again, as long as that makes it better
    /// (double justification, Valls, Ballestín and Quintanilla 2005).
    fn justify(&mut self) {
        while !self.ended() && !self.best_starts.is_empty() {
            let before = self.best;
            let mut rank = vec![0; self.model.len()];
            for (i, &task) in self.model.order.iter().enumerate() {
                rank[task] = i;
            }
            let mut order = self.model.order.clone();
            let end = |t: usize| self.best_starts[t] + self.model.steps[t];
            order.sort_by_key(|&t| (-end(t), -self.best_starts[t], usize::MAX - rank[t]));
            self.left = self.left.saturating_sub(1);
            if !self.serial.late(&order, self.best.finish) {
                return;
            }
            let order = self.serial.order_by_start();
            self.try_order(&order);
            if self.best >= before {
                return;
            }
        }
    }

    /// Moves single tasks to other places in the order and keeps what is no worse; now and then
    /// starts afresh from the best plan.
    fn wander(&mut self) {
        let n = self.model.len();
        if n < 2 || self.best_starts.is_empty() {
            return;
        }
        let mut dice = Dice(0x9E37_79B9_7F4A_7C15);
        let mut order = Vec::new();
        let mut grade = Grade::WORST;
        let mut stuck = usize::MAX;
        let mut place = vec![0; n];
        while !self.ended() {
            if stuck > 12 * n {
                let starts = self.best_starts.clone();
                self.serial.take(&starts);
                order = self.serial.order_by_start();
                grade = self.best;
                // A few unjudged moves lead away from the best plan.
                for _ in 0..if stuck == usize::MAX { 0 } else { 1 + dice.below(6) } {
                    order = self.shifted(&order, &mut place, &mut dice);
                    grade = Grade::WORST;
                }
                stuck = 0;
            }
            let next = self.shifted(&order, &mut place, &mut dice);
            let best = self.best;
            let mut new = self.try_order(&next);
            if new < best {
                self.justify();
            }
            if (new.late, new.finish) == (grade.late, grade.finish) && dice.below(4) == 0 {
                new.spread = grade.spread;
            }
            if new <= grade {
                stuck = if new < grade { 0 } else { stuck + 1 };
                grade = new;
                order = next;
            } else {
                stuck += 1;
            }
        }
    }

    /// The order with one task moved to another place that its waits allow.
    fn shifted(&self, order: &[usize], place: &mut [usize], dice: &mut Dice) -> Vec<usize> {
        for (i, &task) in order.iter().enumerate() {
            place[task] = i;
        }
        let from = dice.below(order.len());
        let task = order[from];
        let before = self.serial.before()[task].iter();
        let low = before.map(|&(k, _)| place[k] + 1).max().unwrap_or(0);
        let after = self.serial.after()[task].iter();
        let high = after.map(|&(k, _)| place[k]).min().unwrap_or(order.len()) - 1;
        let to = low + dice.below(high - low + 1);
        let mut next = order.to_vec();
        next.remove(from);
        next.insert(to, task);
        next
    }
}
