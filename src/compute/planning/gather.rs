//! Of all plans that end as soon: the fewest days with work, and on these the least time in which
//! everybody waits between the first task of a day and its last. What must wait then does so over a
//! night, where that costs nothing.

use super::Fault;
use super::engine::idle::{attended, days, idle_of};
use super::engine::{Effort, Engine};
use super::hours::Hours;
use super::improve::good_plan;
use super::model::Model;
use super::plan::{Plan, written_out};
use super::problem::Problem;
use super::resources::resources;
use super::serial::Serial;
use super::solve::Solved;
use super::spans::Spans;

/// Most sets of days that are tried for one fewer.
const MOST_SETS: usize = 64;
/// Plans tried by rule on a set of days before the search.
const TRIES: usize = 40;

/// A plan with few days and little waiting in them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Gathered {
    /// The plan; it ends no later than the one it was made from.
    pub plan: Plan,
    /// Days on which somebody works.
    pub days: usize,
    /// Whether no plan that ends as soon has fewer days.
    pub days_proven: bool,
    /// Minutes within the days in which nobody works.
    pub idle: i64,
    /// No plan on these days that ends as soon has less of them.
    pub least_idle: i64,
}

/// Gathers the work of a plan. Neither the end of the plan nor the end of the attended work in it
/// comes later. The search stops after `nodes` decisions and conflicts for each of the two questions;
/// the answer tells what was proven.
///
/// # Errors
/// See [`Fault`]; none for a problem that the plan was made from.
pub fn gathered(
    problem: &Problem,
    hours: Hours<'_>,
    first: &Plan,
    nodes: u64,
) -> Result<Gathered, Fault> {
    let whole = Model::new(problem, hours)?;
    let model = Model::new(&ending(problem, first), hours)?;
    let starts: Vec<i64> =
        whole.tasks.iter().map(|&t| (first.slots[t].start - whole.origin) / whole.grid).collect();
    let mut search = Search { model: &model, hours, nodes, left: nodes };
    let (days, days_proven, starts) = search.fewest_days(starts);
    let (starts, least) = search.least_idle(&days, starts);
    let starts = search.drawn_early(&days, starts);
    let ends = starts.iter().zip(&whole.steps).map(|(start, steps)| start + steps);
    let finish = ends.fold(whole.facts_finish, i64::max);
    let bound = ((first.bound - whole.origin) / whole.grid).min(finish);
    let idle = idle_of(&whole, &starts);
    let solved = Solved { starts: starts.clone(), finish, bound, nodes: first.nodes };
    Ok(Gathered {
        plan: written_out(problem, &whole, hours, &solved, &starts),
        days: days.len(),
        days_proven,
        idle: idle * whole.grid,
        least_idle: least.min(idle) * whole.grid,
    })
}

/// The problem in which nothing may end later than in the plan.
fn ending(problem: &Problem, plan: &Plan) -> Problem {
    let attended = |t: usize| problem.tasks[t].crew > 0 && problem.tasks[t].minutes > 0;
    let work = (0..problem.tasks.len())
        .filter(|&t| attended(t))
        .map(|t| plan.slots[t].finish)
        .max()
        .unwrap_or(plan.finish);
    let mut held = problem.clone();
    for (index, task) in held.tasks.iter_mut().enumerate() {
        let end = if attended(index) { work } else { plan.finish };
        task.latest_finish = Some(task.latest_finish.map_or(end, |due| due.min(end)));
    }
    held
}

struct Search<'a> {
    model: &'a Model,
    hours: Hours<'a>,
    nodes: u64,
    /// What is left of the effort for all sets of days together.
    left: u64,
}

impl Search<'_> {
    /// Days of a plan, by index.
    fn used(&self, starts: &[i64]) -> Vec<usize> {
        let work = attended(self.model);
        let days = days(self.model);
        (0..days.len())
            .filter(|&d| work.iter().any(|&t| (days[d].0..days[d].1).contains(&starts[t])))
            .collect()
    }

    /// The first set of fewest days on which the plan can be done, whether it is proven to be of the
    /// fewest, and a plan on it.
    fn fewest_days(&mut self, starts: Vec<i64>) -> (Vec<usize>, bool, Vec<i64>) {
        let mut best = (self.used(&starts), starts);
        loop {
            let fewer = best.0.len().saturating_sub(1);
            let Some(sets) = self.sets(fewer) else { return (best.0, false, best.1) };
            let mut proven = true;
            let mut found = None;
            for set in sets {
                match self.plan_on(&set) {
                    Some(Ok(starts)) => {
                        found = Some((self.used(&starts), starts));
                        break;
                    }
                    Some(Err(())) => proven = false,
                    None => {}
                }
            }
            match found {
                Some(better) => best = better,
                None => return (best.0, proven, best.1),
            }
        }
    }

    /// Sets of so many days that hold every day a task must lie in; `None` where there are too many.
    fn sets(&self, count: usize) -> Option<Vec<Vec<usize>>> {
        let days = days(self.model);
        let work = attended(self.model);
        let span = |t: usize| (self.model.starts[t].first(), self.model.starts[t].last());
        let lies = |d: usize, t: usize| {
            let (low, high) = span(t);
            low >= days[d].0 && high < days[d].1
        };
        let may = |d: usize| {
            let starts = Spans::of(vec![(days[d].0, days[d].1 - 1)]);
            work.iter().any(|&t| !self.model.starts[t].meet(&starts).is_empty())
        };
        let must: Vec<usize> =
            (0..days.len()).filter(|&d| work.iter().any(|&t| lies(d, t))).collect();
        let free: Vec<usize> = (0..days.len()).filter(|&d| !must.contains(&d) && may(d)).collect();
        let Some(more) = count.checked_sub(must.len()).filter(|_| count > 0) else {
            return Some(Vec::new());
        };
        let mut sets: Vec<Vec<usize>> = vec![Vec::new()];
        for _ in 0..more {
            let longer = sets.iter().flat_map(|set| {
                let after = set.last().copied();
                let rest = free.iter().copied().filter(move |d| after.is_none_or(|a| *d > a));
                rest.map(|d| set.iter().copied().chain([d]).collect::<Vec<usize>>())
            });
            sets = longer.take(MOST_SETS + 1).collect();
            if sets.len() > MOST_SETS {
                return None;
            }
        }
        for set in &mut sets {
            set.extend(&must);
            set.sort_unstable();
        }
        // What cannot hold the work is out without a search.
        let needed: i64 = work.iter().map(|&t| self.model.crew[t] * self.model.steps[t]).sum();
        let room = |set: &[usize]| -> i64 {
            let inside = |from: i64| set.iter().any(|&d| (days[d].0..days[d].1).contains(&from));
            let pieces = self.model.pieces.iter().filter(|p| inside(p.from));
            pieces.map(|p| (p.to - p.from) * p.crew).sum()
        };
        sets.retain(|set| room(set) >= needed);
        Some(sets)
    }

    /// The model with work on some days only; `None` where a task finds no start.
    fn on(&self, set: &[usize]) -> Option<Model> {
        let days = days(self.model);
        let mut model = self.model.clone();
        model.pieces.retain(|p| set.iter().any(|&d| (days[d].0..days[d].1).contains(&p.from)));
        let starts = Spans::of(set.iter().map(|&d| (days[d].0, days[d].1 - 1)).collect::<Vec<_>>());
        for task in attended(self.model) {
            model.starts[task] = model.starts[task].meet(&starts);
            model.open[task] = model.open[task].meet(&starts);
            if model.starts[task].is_empty() {
                return None;
            }
        }
        Some(model)
    }

    /// Starts on some days: `Err` where none were found and none are ruled out, `None` where they are.
    fn plan_on(&mut self, set: &[usize]) -> Option<Result<Vec<i64>, ()>> {
        let model = self.on(set)?;
        if let Some((_, starts)) =
            good_plan(&model, self.hours, model.facts_finish, TRIES).filter(|(g, _)| g.late == 0)
        {
            return Some(Ok(starts));
        }
        let resources = resources(&model);
        let range = (model.facts_finish, model.horizon);
        let mut engine = Engine::new(&model, self.hours, &resources, range, None);
        let answer = engine.any_plan(Effort { nodes: self.left });
        self.left = self.left.saturating_sub(answer.nodes);
        match answer.starts {
            Some(starts) => Some(Ok(starts)),
            None if answer.complete => None,
            None => Some(Err(())),
        }
    }

    /// A plan of least idle time on some days, with what no plan on them goes below.
    fn least_idle(&self, set: &[usize], starts: Vec<i64>) -> (Vec<i64>, i64) {
        let known = idle_of(self.model, &starts);
        let Some(model) = self.on(set).filter(|_| known > 0) else { return (starts, 0) };
        let resources = resources(&model);
        let range = (model.facts_finish, model.horizon);
        let mut engine = Engine::new(&model, self.hours, &resources, range, Some(known));
        let answer = engine.run(&starts, Some(known), Effort { nodes: self.nodes });
        let best = answer.starts.unwrap_or(starts);
        let idle = idle_of(self.model, &best);
        (best, if answer.complete { idle } else { answer.bound.min(idle) })
    }

    /// Each task as early as it will go by itself with no more idle time, on the same days.
    fn drawn_early(&self, set: &[usize], mut starts: Vec<i64>) -> Vec<i64> {
        let Some(model) = self.on(set) else { return starts };
        let mut serial = Serial::new(&model, self.hours);
        serial.take(&starts);
        let idle = idle_of(&model, &starts);
        loop {
            let mut moved = false;
            for task in serial.order_by_start() {
                let mut from = i64::MIN / 2;
                while let Some(start) =
                    serial.first_alone(task, from).filter(|start| *start < starts[task])
                {
                    let mut sooner = starts.clone();
                    sooner[task] = start;
                    if idle_of(&model, &sooner) <= idle {
                        starts = sooner;
                        moved = true;
                        break;
                    }
                    from = start + 1;
                }
                serial.take(&starts);
            }
            if !moved {
                return starts;
            }
        }
    }
}
