//! What decides the finish.

use super::hours::Hours;
use super::model::Model;
use super::plan::Slot;
use super::problem::{Problem, When};

/// Why a task starts when it does, and no earlier.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Because {
    /// It has started already.
    Done,
    /// Its appointment.
    Appointment,
    /// Its own earliest start, and the first hours after it.
    Earliest,
    /// The first hours of the plan in which it may run, or the first after a fact held them; or later
    /// ones that keep the work of a day together.
    Hours,
    /// A lag, and the first hours after it.
    Lag {
        /// The lag's index.
        lag: usize,
        /// The task waited for.
        task: usize,
    },
    /// A place or tool that another task holds until then.
    Place {
        /// The place.
        place: String,
        /// The task waited for.
        task: usize,
    },
    /// People that another task holds until then.
    People {
        /// The task waited for.
        task: usize,
    },
}

impl Because {
    /// The task waited for.
    pub fn task(&self) -> Option<usize> {
        match self {
            Self::Lag { task, .. } | Self::Place { task, .. } | Self::People { task } => {
                Some(*task)
            }
            Self::Done | Self::Appointment | Self::Earliest | Self::Hours => None,
        }
    }
}

/// A task of the deciding chain and why it starts when it does.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Link {
    /// The task's index.
    pub task: usize,
    /// Why it starts when it does.
    pub because: Because,
}

/// Goes back from the task that ends the plan (of several the first by index) to one that waits
/// for no other.
pub(super) fn deciding_chain(
    problem: &Problem,
    model: &Model,
    hours: Hours<'_>,
    (starts, slots): (&[i64], &[Slot]),
) -> Vec<Link> {
    let mut chain = Vec::new();
    let mut next = (0..slots.len()).max_by_key(|&i| (slots[i].finish, std::cmp::Reverse(i)));
    while let Some(task) = next {
        let because = reason(problem, model, hours, (starts, slots), task);
        // Waits of no time between tasks of no minutes are free of circles, as lags are; the
        // length is held to the number of tasks all the same.
        next = because.task().filter(|_| chain.len() < slots.len());
        chain.push(Link { task, because });
    }
    chain.reverse();
    chain
}

fn reason(
    problem: &Problem,
    model: &Model,
    hours: Hours<'_>,
    (starts, slots): (&[i64], &[Slot]),
    task: usize,
) -> Because {
    match problem.tasks[task].when {
        When::Done(_) => return Because::Done,
        When::At(_) => return Because::Appointment,
        When::Free => {}
    }
    let Some(free) = model.tasks.iter().position(|&t| t == task) else { return Because::Done };
    let start = slots[task].start;
    // The last start before this one that the task's own hours and dates would allow.
    let sooner = model.open_before(free, starts[free]).map(|s| model.minute(s));
    let lags = problem.lags.iter().enumerate().filter(|(_, l)| l.to == task);
    let ready = lags
        .map(|(index, l)| {
            let end = slots[l.from].finish;
            (end + hours.after(index, l.minutes, end), index)
        })
        .max_by_key(|&(t, index)| (t, std::cmp::Reverse(index)));
    if let Some((t, lag)) = ready
        && sooner.is_none_or(|s| s < t)
        && model.first_open(free, t) == Some(starts[free])
        && problem.tasks[task].earliest.is_none_or(|e| e <= t)
    {
        return Because::Lag { lag, task: problem.lags[lag].from };
    }
    if let Some(because) = blocker(problem, slots, task, sooner.unwrap_or(start - 1)) {
        return because;
    }
    match problem.tasks[task].earliest {
        Some(t) if model.first_open(free, t) == Some(starts[free]) => Because::Earliest,
        _ => Because::Hours,
    }
}

/// The task that last held something needed, between `sooner` and the start.
fn blocker(problem: &Problem, slots: &[Slot], task: usize, sooner: i64) -> Option<Because> {
    let mine = &problem.tasks[task];
    let start = slots[task].start;
    if mine.minutes == 0 {
        return None;
    }
    let mut best: Option<(i64, bool, usize, Because)> = None;
    for (other, slot) in slots.iter().enumerate() {
        let theirs = &problem.tasks[other];
        let held = slot.start < sooner + mine.minutes && sooner < slot.finish;
        if other == task || theirs.minutes == 0 || slot.finish > start || !held {
            continue;
        }
        let place = mine.uses.iter().find(|u| theirs.uses.contains(u));
        let because = match place {
            Some(place) => Because::Place { place: place.clone(), task: other },
            None if mine.crew > 0 && theirs.crew > 0 => Because::People { task: other },
            None => continue,
        };
        let rank = (slot.finish, place.is_some(), usize::MAX - other);
        if best.as_ref().is_none_or(|b| (b.0, b.1, b.2) < rank) {
            best = Some((rank.0, rank.1, rank.2, because));
        }
    }
    best.map(|b| b.3)
}
