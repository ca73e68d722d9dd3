//! Plans made by placing one task after another as early (or late) as it will go.

use super::hours::{Clocked, HourArc, Hours};
use super::model::Model;
use super::spans::{FAR, Spans};

/// Starts of all free tasks.
pub(super) type Starts = Vec<i64>;

/// How good a plan is; less is better: steps by which latest finishes are missed, the finish,
/// and the sum of starts, which tells plans of one finish apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Grade {
    pub(super) late: i64,
    pub(super) finish: i64,
    pub(super) spread: i64,
}

impl Grade {
    /// Worse than every plan.
    pub(super) const WORST: Self = Self { late: FAR, finish: FAR, spread: FAR };
}

/// Places tasks one by one.
pub(super) struct Serial<'a> {
    model: &'a Model,
    clocked: Clocked<'a>,
    before: Vec<Vec<(usize, i64)>>,
    after: Vec<Vec<(usize, i64)>>,
    placed: Vec<usize>,
    starts: Starts,
    near: Vec<usize>,
}

impl<'a> Serial<'a> {
    pub(super) fn new(model: &'a Model, hours: Hours<'a>) -> Self {
        let n = model.len();
        let mut before = vec![Vec::new(); n];
        let mut after = vec![Vec::new(); n];
        for arc in &model.arcs {
            before[arc.to].push((arc.from, arc.wait));
            after[arc.from].push((arc.to, arc.wait));
        }
        Self {
            model,
            clocked: Clocked { model, hours },
            before,
            after,
            placed: Vec::with_capacity(n),
            starts: vec![0; n],
            near: Vec::with_capacity(n),
        }
    }

    /// Tasks that must come before each task, with the wait from start to start.
    pub(super) fn before(&self) -> &[Vec<(usize, i64)>] {
        &self.before
    }

    /// Tasks that must come after each task, with the wait from start to start.
    pub(super) fn after(&self) -> &[Vec<(usize, i64)>] {
        &self.after
    }

    /// The starts of the plan made last.
    pub(super) fn starts(&self) -> &[i64] {
        &self.starts
    }

    /// Takes a plan made elsewhere as the one made last.
    pub(super) fn take(&mut self, starts: &[i64]) {
        self.starts.copy_from_slice(starts);
    }

    /// Places the tasks in this order, each as early as it will go; the order has every task
    /// after those it waits for. `None` when a task finds no room in the calendar.
    pub(super) fn early(&mut self, order: &[usize]) -> Option<Grade> {
        self.placed.clear();
        for &task in order {
            let ready = self.ready(task);
            self.starts[task] = self.first_room(task, ready)?;
            self.placed.push(task);
        }
        Some(self.grade())
    }

    /// Places the tasks in this order, each as late as it will go before `finish`; the order has
    /// every task after those that wait for it. False when a task finds no room.
    pub(super) fn late(&mut self, order: &[usize], finish: i64) -> bool {
        self.placed.clear();
        for &task in order {
            let last = self.last(task, finish);
            match self.last_room(task, last) {
                Some(start) => self.starts[task] = start,
                None => return false,
            }
            self.placed.push(task);
        }
        true
    }

    /// Tasks in order of their starts in the plan made last; what waits comes later.
    pub(super) fn order_by_start(&self) -> Vec<usize> {
        let mut rank = vec![0; self.model.len()];
        for (i, &task) in self.model.order.iter().enumerate() {
            rank[task] = i;
        }
        let mut order = self.model.order.clone();
        order.sort_by_key(|&t| (self.starts[t], rank[t]));
        order
    }

    /// Latest start of one task when all others of the plan made last stay where they are and
    /// the plan ends by `finish`.
    pub(super) fn last_alone(&mut self, task: usize, finish: i64) -> i64 {
        self.placed = (0..self.model.len()).filter(|&t| t != task).collect();
        let last = self.last(task, finish);
        self.last_room(task, last).unwrap_or(self.starts[task]).max(self.starts[task])
    }

    /// Latest start of each task of a plan that ends by `finish`, those before it in time where they
    /// are, those after it as late as they will go. What goes nowhere in turn goes alone.
    pub(super) fn last_in_turn(&mut self, plan: &[i64], finish: i64) -> Starts {
        self.take(plan);
        let order = self.order_by_start();
        (0..order.len())
            .map(|place| {
                self.take(plan);
                let alone = self.last_alone(order[place], finish);
                (
                    order[place],
                    self.in_turn(&order, place, plan, finish).unwrap_or(alone).max(alone),
                )
            })
            .fold(plan.to_vec(), |mut starts, (task, last)| {
                starts[task] = last;
                starts
            })
    }

    /// The latest start of the task at a place of the order; `None` where one after it would have to
    /// start sooner than it does.
    fn in_turn(&mut self, order: &[usize], place: usize, plan: &[i64], finish: i64) -> Option<i64> {
        self.take(plan);
        self.placed.clear();
        self.placed.extend(&order[..place]);
        for &task in order[place..].iter().rev() {
            let last = self.last(task, finish);
            let start = self.last_room(task, last).filter(|start| *start >= plan[task])?;
            self.starts[task] = start;
            self.placed.push(task);
        }
        Some(self.starts[order[place]])
    }

    /// First start that all before a task leave it.
    fn ready(&self, task: usize) -> i64 {
        let waits = self.before[task].iter().map(|&(other, wait)| self.starts[other] + wait);
        let by_hour = self.arcs_by_hour(|arc| arc.to == task);
        let by_hour = by_hour.map(|arc| self.clocked.ready(arc, self.starts[arc.from]));
        waits.chain(by_hour).max().unwrap_or(0)
    }

    /// Last start that all after a task, and the finish, leave it.
    fn last(&self, task: usize, finish: i64) -> i64 {
        let waits = self.after[task].iter().map(|&(other, wait)| self.starts[other] - wait);
        let by_hour = self.arcs_by_hour(|arc| arc.from == task);
        let by_hour = by_hour.map(|arc| self.clocked.last(arc, self.starts[arc.to]));
        waits.chain(by_hour).fold(finish - self.model.steps[task], i64::min)
    }

    fn arcs_by_hour(&self, of: impl Fn(&HourArc) -> bool) -> impl Iterator<Item = &'a HourArc> {
        let model = self.model;
        model.by_hour.iter().filter(move |arc| of(arc))
    }

    /// The first start of one task at or after `from` when all others stay where they are.
    pub(super) fn first_alone(&mut self, task: usize, from: i64) -> Option<i64> {
        self.placed = (0..self.model.len()).filter(|&t| t != task).collect();
        self.first_room(task, self.ready(task).max(from))
    }

    fn grade(&self) -> Grade {
        let mut grade = Grade { late: 0, finish: self.model.facts_finish, spread: 0 };
        for (task, &start) in self.starts.iter().enumerate() {
            let finish = start + self.model.steps[task];
            grade.finish = grade.finish.max(finish);
            grade.spread += start;
            grade.late += self.model.due[task].map_or(0, |due| (finish - due).max(0));
        }
        grade
    }

    fn first_room(&mut self, task: usize, ready: i64) -> Option<i64> {
        let model = self.model;
        let room: &Spans = &model.open[task];
        let mut start = room.at_or_after(ready);
        while start < FAR {
            let past = |k: usize, starts: &[i64]| starts[k] + model.steps[k];
            self.gather(task, start);
            let clashes = self.near.iter().filter(|&&k| model.clash[task][k]);
            if let Some(end) = clashes.map(|&k| past(k, &self.starts)).max() {
                start = room.at_or_after(end);
                continue;
            }
            let Some(p) = self.crowded(task, start) else { return Some(start) };
            let there = self.near.iter().filter(|&&k| self.at_work(k, p));
            let end = there.map(|&k| past(k, &self.starts)).min();
            // Where facts take people, there may be enough of them sooner than that.
            let end = end.filter(|_| !model.facts_at_work).unwrap_or(p + 1);
            start = room.at_or_after(end.max(start + 1));
        }
        None
    }

    fn last_room(&mut self, task: usize, last: i64) -> Option<i64> {
        let model = self.model;
        let room: &Spans = &model.starts[task];
        let steps = model.steps[task];
        let mut start = room.at_or_before(last);
        while start > -FAR {
            self.gather(task, start);
            let clashes = self.near.iter().filter(|&&k| model.clash[task][k]);
            if let Some(begin) = clashes.map(|&k| self.starts[k]).min() {
                start = room.at_or_before(begin - steps);
                continue;
            }
            let Some(p) = self.crowded(task, start) else { return Some(start) };
            let there = self.near.iter().filter(|&&k| self.at_work(k, p));
            let begin = there.map(|&k| self.starts[k]).max();
            let begin = begin.filter(|_| !model.facts_at_work).unwrap_or(p);
            start = room.at_or_before((begin - steps).min(start - 1));
        }
        None
    }

    /// Collects what is placed and overlaps `task` started at `start`.
    fn gather(&mut self, task: usize, start: i64) {
        let model = self.model;
        let end = start + model.steps[task];
        self.near.clear();
        for &k in &self.placed {
            let from = self.starts[k];
            if from < end && start < from + model.steps[k] {
                self.near.push(k);
            }
        }
    }

    fn at_work(&self, k: usize, p: i64) -> bool {
        let model = self.model;
        model.crew[k] > 0 && self.starts[k] <= p && p < self.starts[k] + model.steps[k]
    }

    /// A step at which there would be too few people for `task` started at `start`.
    fn crowded(&self, task: usize, start: i64) -> Option<i64> {
        let model = self.model;
        let people = model.crew[task];
        if people == 0 {
            return None;
        }
        let end = start + model.steps[task];
        let over = |p: i64| {
            let there = self.near.iter().filter(|&&k| self.at_work(k, p));
            there.map(|&k| model.crew[k]).sum::<i64>() + people > model.crew_at(p)
        };
        let begins = self.near.iter().map(|&k| self.starts[k]).filter(|&p| p > start);
        if over(start) {
            return Some(start);
        }
        if let Some(p) = begins.filter(|&p| over(p)).min() {
            return Some(p);
        }
        if model.facts_at_work {
            let cuts = model.pieces.iter().map(|p| p.from).filter(|&p| start < p && p < end);
            return cuts.filter(|&p| over(p)).min();
        }
        None
    }
}
