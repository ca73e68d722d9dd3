//! Exact planning of work: tasks, lags, working hours and crew in, the shortest plan with its
//! proof out.
//!
//! Takes a [`Problem`] in whole minutes from midnight before day 0 and gives a [`Plan`] or a
//! [`Fault`]. A task is not split; one that needs people lies wholly in one window of the
//! calendar and, if it says so, in one of its own allowed windows; tasks that name the same place
//! never overlap; no more people are at work than the window has; a lag runs on in clock time
//! through nights and days off.
//!
//! Pipeline: `model` checks the problem and works out the possible starts of each task on the
//! coarsest grid that holds every given time; `improve` finds good plans with `serial`; `engine`
//! raises the bound over what `resources` finds scarce, and searches with learning until bound
//! and finish meet; `plan` draws every task early, and tells floats, people and the deciding
//! chain. `hours` lets a lag depend on the minute at which its first task ends; `gather` then asks
//! the engine for the fewest days and the least idle time among the plans that end as soon.

mod chain;
mod engine;
mod fault;
mod gather;
mod hours;
mod improve;
mod lags;
mod model;
mod people;
mod plan;
mod problem;
mod resources;
mod serial;
mod solve;
mod spans;

pub use chain::{Because, Link};
pub use fault::Fault;
pub use gather::{Gathered, gathered};
pub use hours::Hours;
pub use plan::{Plan, Slot, plan, plan_by_hour, usual_nodes};
pub use problem::{
    DAY, FARTHEST_MINUTE, Lag, MOST_TASKS, Problem, Span, Task, When, Window, repeat_days,
};
