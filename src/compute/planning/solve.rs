//! The least finish, with its proof.

use super::Fault;
use super::engine::{Answer, Effort, Engine};
use super::hours::Hours;
use super::improve::good_plan;
use super::model::Model;
use super::resources::resources;

/// Plans tried before the first bound is known: enough for every rule with its justification.
const FIRST_TRIES: usize = 60;

/// Single tasks placed to meet the bound before searching.
const MORE_PLACINGS: usize = 60_000;

/// Starts of the free tasks with the finish they lead to, in steps.
#[derive(Clone, Debug)]
pub(super) struct Solved {
    pub(super) starts: Vec<i64>,
    pub(super) finish: i64,
    /// No plan finishes before this.
    pub(super) bound: i64,
    pub(super) nodes: u64,
}

/// Finds starts of least finish.
///
/// # Errors
/// [`Fault::LatestFinish`], [`Fault::CalendarTooShort`] when proven, [`Fault::LimitReached`]
/// when nothing was found or proven within `nodes`.
pub(super) fn solve(model: &Model, hours: Hours<'_>, nodes: u64) -> Result<Solved, Fault> {
    match search(model, hours, nodes) {
        Outcome::Found(solved) => Ok(solved),
        Outcome::Nothing => Err(why_nothing(model, hours, nodes)),
        Outcome::Unknown => Err(Fault::LimitReached),
    }
}

enum Outcome {
    Found(Solved),
    /// There is no plan: proven.
    Nothing,
    Unknown,
}

fn search(model: &Model, hours: Hours<'_>, nodes: u64) -> Outcome {
    let least = model.facts_finish;
    if model.len() == 0 {
        return Outcome::Found(Solved {
            starts: Vec::new(),
            finish: least,
            bound: least,
            nodes: 0,
        });
    }
    let resources = resources(model);
    let mut known =
        good_plan(model, hours, least, FIRST_TRIES).filter(|(grade, _)| grade.late == 0);
    let most = known.as_ref().map_or(model.horizon, |(grade, _)| grade.finish);
    let mut engine = Engine::new(model, hours, &resources, (least, most), None);
    let bound = engine.close_in();
    if known.as_ref().is_none_or(|(grade, _)| bound < grade.finish) {
        let better = good_plan(model, hours, bound, MORE_PLACINGS / model.len())
            .filter(|(grade, _)| grade.late == 0);
        known = better.or(known);
    }
    if let Some((grade, starts)) = &known
        && grade.finish <= bound
    {
        let (starts, finish) = (starts.clone(), grade.finish);
        return Outcome::Found(Solved { starts, finish, bound: finish, nodes: 0 });
    }
    let hint = known.as_ref().map(|(_, starts)| starts.clone()).unwrap_or_default();
    let cut = known.as_ref().map(|(grade, _)| grade.finish);
    let Answer { starts, bound, complete, nodes } = engine.run(&hint, cut, Effort { nodes });
    let finish = |starts: &[i64]| {
        let ends = starts.iter().zip(&model.steps).map(|(start, steps)| start + steps);
        ends.fold(model.facts_finish, i64::max)
    };
    match starts.or_else(|| known.map(|(_, starts)| starts)) {
        Some(starts) => {
            let finish = finish(&starts);
            let bound = if complete { finish } else { bound.min(finish) };
            Outcome::Found(Solved { starts, finish, bound, nodes })
        }
        None if complete => Outcome::Nothing,
        None => Outcome::Unknown,
    }
}

/// Tells which latest finishes cannot be met together, or that the calendar is too short.
fn why_nothing(model: &Model, hours: Hours<'_>, nodes: u64) -> Fault {
    let mut held: Vec<usize> = (0..model.len()).filter(|&t| model.due[t].is_some()).collect();
    match search(&model.holding(&[]), hours, nodes) {
        Outcome::Found(_) => {}
        Outcome::Nothing => return Fault::CalendarTooShort { task: None },
        Outcome::Unknown => return Fault::LimitReached,
    }
    // A latest finish without which there is still no plan has no part in the proof.
    for task in held.clone() {
        let fewer: Vec<usize> = held.iter().copied().filter(|&t| t != task).collect();
        if matches!(search(&model.holding(&fewer), hours, nodes), Outcome::Nothing) {
            held = fewer;
        }
    }
    Fault::LatestFinish { tasks: held.iter().map(|&t| model.tasks[t]).collect() }
}
