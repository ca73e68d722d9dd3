//! Exact search with learning: bounds are propagated, each conflict is turned into a forbidden
//! combination of bounds (a nogood) and search jumps back over what had no part in it
//! (lazy clause generation, Ohrimenko, Stuckey and Codish 2009; Schutt and others 2011).
//!
//! A variable is the start of a task, the order of a pair, or the finish of the plan. It has two
//! *sides*: side `2 v` holds its lower bound, side `2 v + 1` the negative of its upper bound, so
//! that every step of search only ever raises the value of a side. A [`Claim`] says that a side
//! has at least a value; the opposite of `(s, a)` is `(s ^ 1, 1 - a)`.

mod by_hour;
mod energy;
mod explain;
pub(super) mod idle;
mod learn;
mod pairs;
mod run;
mod timetable;

use super::hours::{Clocked, Hours};
use super::model::Model;
use super::resources::Resource;
use super::spans::{FAR, Spans};
pub(super) use run::{Answer, Effort};

/// Index of a side.
type Side = usize;

/// The claim that a side has at least this value.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Claim {
    side: Side,
    least: i64,
}

impl Claim {
    fn opposite(self) -> Self {
        Self { side: self.side ^ 1, least: 1 - self.least }
    }
}

/// Why a side was raised.
#[derive(Clone, Copy, Debug)]
enum Reason {
    Decision,
    /// Side `from` plus `wait`.
    Arc {
        from: Side,
        wait: i64,
    },
    /// Side `from` plus `wait`, as long as the order holds.
    Ordered {
        from: Side,
        wait: i64,
        order: Claim,
    },
    /// All other claims of a nogood hold.
    Nogood(usize),
    /// Claims kept in the store.
    Stored {
        from: usize,
        len: usize,
    },
}

/// One raise of a side.
#[derive(Clone, Copy, Debug)]
struct Raise {
    side: Side,
    old: i64,
    new: i64,
    reason: Reason,
    /// The raise of the same side before this one, or `NONE`.
    before: usize,
}

const NONE: usize = usize::MAX;

/// The claims in `Engine::conflict` cannot hold together, and all do.
#[derive(Debug)]
struct Conflict;

/// A watched claim of a nogood.
#[derive(Clone, Copy, Debug)]
struct Watch {
    least: i64,
    nogood: usize,
    /// Another claim of the nogood: while it fails, there is nothing to do.
    other: Claim,
}

/// Claims that never hold together; the first two are watched.
#[derive(Clone, Debug)]
struct Nogood {
    claims: Vec<Claim>,
    /// How useful it has been.
    worth: f64,
    /// Number of levels when learnt: few are better.
    levels: usize,
}

/// Two tasks that never overlap, with the variable that is 1 when `first` comes first.
#[derive(Clone, Copy, Debug)]
struct Pair {
    first: usize,
    second: usize,
    order: usize,
}

/// A rule that goes over the bounds of many variables at once.
type Rule<'a> = fn(&mut Engine<'a>) -> Result<(), Conflict>;

/// State of the search.
pub(super) struct Engine<'a> {
    model: &'a Model,
    clocked: Clocked<'a>,
    resources: &'a [Resource],
    /// Number of tasks; the finish is variable `n`, the pairs follow, then the idle time.
    n: usize,
    /// Variable of the idle time, where it counts.
    idle: Option<usize>,
    /// Variable that is made as small as it can be: the finish, or the idle time.
    goal: usize,
    /// Whether the first plan found is good enough.
    any: bool,
    /// Values that starts may take; other variables take any.
    values: Vec<Option<Spans>>,
    bound: Vec<i64>,
    root: Vec<i64>,
    last: Vec<usize>,
    trail: Vec<Raise>,
    /// Length of the trail and of the store where each level begins.
    levels: Vec<(usize, usize)>,
    head: usize,
    store: Vec<Claim>,
    conflict: Vec<Claim>,
    arcs: Vec<Vec<(Side, i64)>>,
    pairs: Vec<Pair>,
    pairs_of: Vec<Vec<usize>>,
    /// Whether a start has moved since the slower rules were last run.
    moved: bool,
    /// Resources of each task, and whether each must be gone through, forwards and backwards.
    needs: Vec<Vec<usize>>,
    stale: Vec<[bool; 2]>,
    /// Whether the first bounds have been followed.
    begun: bool,
    nogoods: Vec<Nogood>,
    watches: Vec<Vec<Watch>>,
    /// Least value asked of each side while a conflict is traced back.
    asked: Vec<i64>,
    activity: Vec<f64>,
    activity_step: f64,
    worth_step: f64,
    scratch: energy::Scratch,
}

impl<'a> Engine<'a> {
    /// Sets up the search for plans that finish between `least` and `most`; with a most idle time,
    /// for the least idle time among them.
    pub(super) fn new(
        model: &'a Model,
        hours: Hours<'a>,
        resources: &'a [Resource],
        (least, most): (i64, i64),
        most_idle: Option<i64>,
    ) -> Self {
        let n = model.len();
        let mut values: Vec<Option<Spans>> = model.starts.iter().cloned().map(Some).collect();
        values.push(None);
        let mut bound: Vec<i64> = Vec::new();
        for spans in &model.starts {
            bound.push(spans.first());
            bound.push(-spans.last());
        }
        bound.push(least);
        bound.push(-most);
        let mut pairs = Vec::new();
        let mut pairs_of = vec![Vec::new(); n];
        let follows = super::resources::follows(model);
        let ordered = |a: usize, b: usize| follows[a][b] || follows[b][a];
        for (first, clashes) in model.clash.iter().enumerate() {
            for second in (first + 1..n).filter(|&b| clashes[b] && !ordered(first, b)) {
                for task in [first, second] {
                    pairs_of[task].push(pairs.len());
                }
                pairs.push(Pair { first, second, order: n + 1 + pairs.len() });
                values.push(None);
                bound.push(0);
                bound.push(-1);
            }
        }
        let idle = most_idle.map(|most| {
            bound.push(0);
            bound.push(-most);
            values.push(None);
            n + 1 + pairs.len()
        });
        let sides = bound.len();
        let mut arcs = vec![Vec::new(); sides];
        let mut join = |from: usize, to: usize, wait: i64| {
            arcs[2 * from].push((2 * to, wait));
            arcs[2 * to + 1].push((2 * from + 1, wait));
        };
        for arc in &model.arcs {
            join(arc.from, arc.to, arc.wait);
        }
        for (first, second) in super::resources::twins(model) {
            join(first, second, if model.clash[first][second] { model.steps[first] } else { 0 });
        }
        for task in 0..n {
            join(task, n, model.steps[task]);
        }
        let mut needs = vec![Vec::new(); n];
        for (r, resource) in resources.iter().enumerate() {
            for &(task, _) in &resource.members {
                needs[task].push(r);
            }
        }
        Self {
            model,
            clocked: Clocked { model, hours },
            resources,
            n,
            idle,
            goal: idle.unwrap_or(n),
            any: false,
            values,
            root: bound.clone(),
            bound,
            last: vec![NONE; sides],
            trail: Vec::new(),
            levels: Vec::new(),
            head: 0,
            store: Vec::new(),
            conflict: Vec::new(),
            arcs,
            pairs,
            pairs_of,
            moved: true,
            needs,
            stale: vec![[true; 2]; resources.len()],
            begun: false,
            nogoods: Vec::new(),
            watches: vec![Vec::new(); sides],
            asked: vec![-FAR; sides],
            activity: vec![0.0; sides / 2],
            activity_step: 1.0,
            worth_step: 1.0,
            scratch: energy::Scratch::default(),
        }
    }

    fn low(&self, var: usize) -> i64 {
        self.bound[2 * var]
    }

    fn high(&self, var: usize) -> i64 {
        -self.bound[2 * var + 1]
    }

    fn fixed(&self, var: usize) -> bool {
        self.bound[2 * var] + self.bound[2 * var + 1] == 0
    }

    fn holds(&self, claim: Claim) -> bool {
        self.bound[claim.side] >= claim.least
    }

    fn fails(&self, claim: Claim) -> bool {
        self.holds(claim.opposite())
    }

    /// The least value that a side can have when it has at least `least`.
    fn settled(&self, side: Side, least: i64) -> i64 {
        match &self.values[side / 2] {
            None => least,
            Some(spans) if side.is_multiple_of(2) => spans.at_or_after(least),
            Some(spans) => -spans.at_or_before(-least),
        }
    }

    /// The greatest value that a side can have below `value`.
    fn just_below(&self, side: Side, value: i64) -> i64 {
        match &self.values[side / 2] {
            None => value - 1,
            Some(spans) if side.is_multiple_of(2) => spans.at_or_before(value - 1),
            Some(spans) => -spans.at_or_after(1 - value),
        }
    }

    fn level(&self) -> usize {
        self.levels.len()
    }

    /// Raises a side to at least `least`.
    fn raise(&mut self, side: Side, least: i64, reason: Reason) -> Result<(), Conflict> {
        let new = self.settled(side, least);
        let old = self.bound[side];
        if new <= old {
            return Ok(());
        }
        if new + self.bound[side ^ 1] > 0 {
            let mut claims = std::mem::take(&mut self.conflict);
            claims.clear();
            self.explain(side, new, reason, &mut claims);
            claims.push(Claim { side, least: new }.opposite());
            self.conflict = claims;
            return Err(Conflict);
        }
        if self.levels.is_empty() {
            self.root[side] = new;
            self.bound[side] = new;
            // At the root nothing is ever traced back, but the rules must see the raise.
            self.trail.push(Raise { side, old, new, reason: Reason::Decision, before: NONE });
            return Ok(());
        }
        self.bound[side] = new;
        let before = self.last[side];
        self.last[side] = self.trail.len();
        self.trail.push(Raise { side, old, new, reason, before });
        Ok(())
    }

    /// Raises a side for the reason that these claims hold.
    fn raise_for(&mut self, side: Side, least: i64, claims: &[Claim]) -> Result<(), Conflict> {
        if self.settled(side, least) <= self.bound[side] {
            return Ok(());
        }
        let from = self.store.len();
        self.store.extend_from_slice(claims);
        self.raise(side, least, Reason::Stored { from, len: claims.len() })
    }

    fn conflict_of(&mut self, claims: &[Claim]) -> Conflict {
        self.conflict.clear();
        self.conflict.extend_from_slice(claims);
        Conflict
    }

    /// Opens a level and takes a claim for granted.
    fn decide(&mut self, claim: Claim) {
        self.levels.push((self.trail.len(), self.store.len()));
        let taken = self.raise(claim.side, claim.least, Reason::Decision);
        debug_assert!(taken.is_ok(), "a decision lies between the bounds");
    }

    /// Takes back every level above `level`.
    fn back_to(&mut self, level: usize) {
        if level >= self.level() {
            return;
        }
        let (trail, store) = self.levels[level];
        for raise in self.trail.drain(trail..).rev() {
            self.bound[raise.side] = raise.old;
            self.last[raise.side] = raise.before;
        }
        self.store.truncate(store);
        self.levels.truncate(level);
        // Every rule had been followed to its end before the next level was opened.
        self.head = self.trail.len();
    }

    /// Runs all rules until nothing changes.
    fn propagate(&mut self) -> Result<(), Conflict> {
        let result = if self.begun { Ok(()) } else { self.begin() };
        let result = result.and_then(|()| self.propagate_raises());
        if result.is_err() {
            // What stopped it must be seen again by whoever asks again.
            self.moved = true;
            if self.levels.is_empty() {
                self.begun = false;
                self.stale.fill([true; 2]);
            }
        }
        result
    }

    /// Runs once over what the raises of search would lead to later.
    fn begin(&mut self) -> Result<(), Conflict> {
        for side in 0..self.bound.len() {
            for k in 0..self.arcs[side].len() {
                let (to, wait) = self.arcs[side][k];
                self.raise(to, self.bound[side] + wait, Reason::Arc { from: side, wait })?;
            }
        }
        for pair in 0..self.pairs.len() {
            self.follow_pair(pair)?;
        }
        self.begun = true;
        Ok(())
    }

    fn propagate_raises(&mut self) -> Result<(), Conflict> {
        loop {
            while self.head < self.trail.len() {
                let raise = self.trail[self.head];
                self.head += 1;
                self.follow_nogoods(raise)?;
                for k in 0..self.arcs[raise.side].len() {
                    let (to, wait) = self.arcs[raise.side][k];
                    self.raise(to, raise.new + wait, Reason::Arc { from: raise.side, wait })?;
                }
                let var = raise.side / 2;
                if var < self.n {
                    self.moved = true;
                    for &r in &self.needs[var] {
                        self.stale[r] = [true; 2];
                    }
                    for k in 0..self.pairs_of[var].len() {
                        self.follow_pair(self.pairs_of[var][k])?;
                    }
                } else if Some(var) == self.idle {
                    self.moved = true;
                } else if var > self.n {
                    self.follow_pair(var - self.n - 1)?;
                }
            }
            if !self.moved {
                if self.levels.is_empty() {
                    self.trail.clear();
                    self.store.clear();
                    self.head = 0;
                }
                return Ok(());
            }
            self.moved = false;
            let slower: [Rule<'a>; 4] = [Self::by_hour, Self::timetable, Self::energy, Self::idle];
            for rule in slower {
                rule(self)?;
                if self.head < self.trail.len() {
                    self.moved = true;
                    break;
                }
            }
        }
    }
}
