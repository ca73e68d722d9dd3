//! What is to be planned: tasks, lags and working hours.
//!
//! Every time is a whole number of minutes from midnight before day 0; it may be negative.

use super::Fault;

/// Most tasks that one problem may hold.
pub const MOST_TASKS: usize = 200;

/// Times, durations and lags beyond this many minutes (about 1900 years) are refused as overflow.
pub const FARTHEST_MINUTE: i64 = 1_000_000_000;

/// Minutes in a day of the repeating calendar.
pub const DAY: i64 = 1440;

/// A stretch of time, `from` included, `to` excluded.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Span {
    /// First minute.
    pub from: i64,
    /// First minute after the stretch.
    pub to: i64,
}

/// Working hours: a stretch in which `crew` people are there. Windows must not overlap.
///
/// Windows that touch are still two windows: no attended task crosses from one into the next.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Window {
    /// First minute.
    pub from: i64,
    /// First minute after the window.
    pub to: i64,
    /// People at work in it.
    pub crew: u32,
}

/// What is known about a task's start before planning.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum When {
    /// Free to be placed.
    #[default]
    Free,
    /// An appointment: starts at this minute, and every rule holds for it.
    At(i64),
    /// Already started or finished at this minute. It is a fact: it holds its people and places,
    /// other tasks keep their lags after it, but no rule is held against it.
    Done(i64),
}

/// One piece of work.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Task {
    /// Name, used in faults.
    pub name: String,
    /// How long it takes, not split. A task of 0 minutes is a mark in time and holds nothing.
    pub minutes: i64,
    /// People needed; 0 runs unattended at any hour, otherwise it lies in one window.
    pub crew: u32,
    /// Places and tools that it holds alone.
    pub uses: Vec<String>,
    /// Not to start before this minute.
    pub earliest: Option<i64>,
    /// To be finished by this minute.
    pub latest_finish: Option<i64>,
    /// Weather or daylight windows: the task lies wholly in one of them. `None` is any time.
    /// Windows that touch or overlap count as one.
    pub allowed: Option<Vec<Span>>,
    /// Whether its start is known already.
    pub when: When,
}

/// `to` starts at least `minutes` after `from` has finished, in clock minutes: a cure runs on
/// through nights and days off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lag {
    /// Index of the task that comes first.
    pub from: usize,
    /// Index of the task that waits.
    pub to: usize,
    /// Least wait. Less than 0 lets the two overlap: down to minus the minutes of the first, at which
    /// the second may start with it.
    pub minutes: i64,
}

/// A planning problem.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Problem {
    /// No task starts before this minute, facts apart.
    pub start: i64,
    /// The work.
    pub tasks: Vec<Task>,
    /// What waits for what.
    pub lags: Vec<Lag>,
    /// Working hours, in any order.
    pub windows: Vec<Window>,
}

/// Repeats one day's windows (`from` and `to` counted from that day's midnight) for `days` days
/// from day `first_day` on, leaving out the days for which `off` says so.
///
/// # Errors
/// [`Fault::Overflow`] when a window would lie beyond [`FARTHEST_MINUTE`].
pub fn repeat_days(
    day: &[Window],
    first_day: i64,
    days: i64,
    off: impl Fn(i64) -> bool,
) -> Result<Vec<Window>, Fault> {
    let farthest_day = FARTHEST_MINUTE / DAY;
    let in_range = |d: i64| (-farthest_day..=farthest_day).contains(&d);
    let last_day = first_day.checked_add(days).ok_or(Fault::Overflow)?;
    if !in_range(first_day) || !in_range(last_day) {
        return Err(Fault::Overflow);
    }
    let mut windows = Vec::new();
    for d in (first_day..last_day).filter(|&d| !off(d)) {
        for window in day {
            let shift = |t: i64| {
                t.checked_add(d * DAY)
                    .filter(|t| (-FARTHEST_MINUTE..=FARTHEST_MINUTE).contains(t))
                    .ok_or(Fault::Overflow)
            };
            windows.push(Window {
                from: shift(window.from)?,
                to: shift(window.to)?,
                crew: window.crew,
            });
        }
    }
    Ok(windows)
}
