//! The finished plan: when each task runs, who does it, how far it may move, and what decides
//! the finish.

use super::Fault;
use super::chain::{Link, deciding_chain};
use super::hours::Hours;
use super::model::Model;
use super::people::share_out;
use super::problem::{Problem, When};
use super::serial::Serial;
use super::solve::{Solved, solve};
use super::spans::Spans;

/// A sensible limit on decisions and conflicts for this many tasks: some seconds of work. A step
/// of the search costs more the more tasks there are, about as their third power.
pub fn usual_nodes(tasks: usize) -> u64 {
    let tasks = (tasks as u64).max(1);
    (6_400_000_000 / (tasks * tasks * tasks)).clamp(2_000, 100_000)
}

/// One task in the plan. Times are minutes from midnight before day 0.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Slot {
    /// First minute.
    pub start: i64,
    /// First minute after it.
    pub finish: i64,
    /// Earliest start by lags, hours and dates alone, as if people and places were without end.
    pub earliest: i64,
    /// Latest start, in the same sense, that leaves the plan's finish as it is.
    pub latest: i64,
    /// `latest - earliest`.
    pub float: i64,
    /// Minutes by which this task alone may start later while every other stays where it is.
    pub slip: i64,
    /// Latest start that leaves the plan's finish as it is, where what comes before it stays and
    /// what comes after it moves as late as it can; never less than `start + slip`.
    pub last_in_turn: i64,
    /// Who does it, people numbered from 1; empty for unattended tasks.
    pub people: Vec<u32>,
}

/// A plan of all tasks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plan {
    /// The tasks, in the order of the problem.
    pub slots: Vec<Slot>,
    /// Finish of the last task.
    pub finish: i64,
    /// No plan finishes before this.
    pub bound: i64,
    /// Whether `finish` is proven to be the least: it equals `bound`.
    pub proven: bool,
    /// Decisions and conflicts that the search took.
    pub nodes: u64,
    /// What decides the finish: each task begins as soon as the one before it lets it, and the
    /// last ends the plan.
    pub chain: Vec<Link>,
    /// Minutes of work of each person, person 1 first.
    pub minutes_by_person: Vec<i64>,
    /// Lags that the facts have broken already, by index.
    pub waived: Vec<usize>,
}

/// Plans the work: the least finish of the last task, and then every task as early as it will go
/// in the order found. The search stops after `nodes` decisions and conflicts (see
/// [`usual_nodes`]); the plan then says how far its proof reaches. The same problem gives the
/// same plan everywhere.
///
/// # Errors
/// See [`Fault`].
pub fn plan(problem: &Problem, nodes: u64) -> Result<Plan, Fault> {
    plan_by_hour(problem, Hours::NONE, nodes)
}

/// The same where some lags wait longer or shorter by the hour at which their first task ends.
///
/// # Errors
/// See [`Fault`].
pub fn plan_by_hour(problem: &Problem, hours: Hours<'_>, nodes: u64) -> Result<Plan, Fault> {
    let model = Model::new(problem, hours)?;
    let solved = solve(&model, hours, nodes)?;
    let starts = drawn_early(&model, hours, &solved.starts);
    Ok(written_out(problem, &model, hours, &solved, &starts))
}

/// The same order of work with every task as early as it will go. No task starts later for it:
/// those before it in the order hold nothing at its old start that they did not hold already.
fn drawn_early(model: &Model, hours: Hours<'_>, starts: &[i64]) -> Vec<i64> {
    let mut serial = Serial::new(model, hours);
    let mut starts = starts.to_vec();
    loop {
        serial.take(&starts);
        let order = serial.order_by_start();
        if serial.early(&order).is_none() || serial.starts() == starts {
            return starts;
        }
        starts = serial.starts().to_vec();
    }
}

pub(super) fn written_out(
    problem: &Problem,
    model: &Model,
    hours: Hours<'_>,
    solved: &Solved,
    starts: &[i64],
) -> Plan {
    let finish = model.minute(solved.finish);
    let ends = starts.iter().zip(&model.steps).map(|(start, steps)| start + steps);
    debug_assert_eq!(ends.fold(model.facts_finish, i64::max), solved.finish);

    let latest: Vec<Spans> = model.ending_by(solved.finish);
    let mut serial = Serial::new(model, hours);
    serial.take(starts);
    let mut slots: Vec<Slot> = problem
        .tasks
        .iter()
        .map(|task| {
            let start = if let When::Done(t) = task.when { t } else { problem.start };
            Slot {
                start,
                finish: start + task.minutes,
                earliest: start,
                latest: start,
                float: 0,
                slip: 0,
                last_in_turn: start,
                people: Vec::new(),
            }
        })
        .collect();
    let in_turn = serial.last_in_turn(starts, solved.finish);
    for (free, &index) in model.tasks.iter().enumerate() {
        serial.take(starts);
        let start = model.minute(starts[free]);
        let earliest = model.minute(model.starts[free].first());
        let last = model.minute(latest[free].last());
        slots[index] = Slot {
            start,
            finish: start + problem.tasks[index].minutes,
            earliest,
            latest: last,
            float: last - earliest,
            slip: (serial.last_alone(free, solved.finish) - starts[free]) * model.grid,
            last_in_turn: model.minute(in_turn[free]),
            people: Vec::new(),
        };
    }
    let minutes_by_person = share_out(problem, &mut slots);
    let broken = |index: usize| {
        let lag = &problem.lags[index];
        let end = slots[lag.from].finish;
        matches!(problem.tasks[lag.to].when, When::Done(_))
            && slots[lag.to].start < end + hours.after(index, lag.minutes, end)
    };
    Plan {
        finish,
        bound: model.minute(solved.bound),
        proven: solved.bound == solved.finish,
        nodes: solved.nodes,
        chain: deciding_chain(problem, model, hours, (starts, &slots)),
        minutes_by_person,
        waived: (0..problem.lags.len()).filter(|&l| broken(l)).collect(),
        slots,
    }
}
