//! Steps as tasks of the planner.
//!
//! A step longer than the hours of a day becomes several tasks in a row. What a second person may do
//! beside the first becomes a task of its own that may overlap the rest of its step: the search then
//! finds whether a second person is free, and otherwise the first does both. On the ground several can
//! work at one bench, so that only tools of which there is one keep steps apart there; the roof, the
//! ladder and the inside of the vehicle hold one step at a time.

use super::done::{Done, now};
use super::{GRID, Origin, hours, makes, minutes};
use crate::build::Build;
use crate::compute::cure::forecast::Forecast;
use crate::compute::cure::{ByHour, JointCure, Stage};
use crate::compute::planning::{Lag, Span, Task, When};
use crate::compute::steps::{Cure, CureState, Step};

/// Place where there is room for several.
const ROOMY: &str = "bench";
/// How far one of two people is ahead of the other.
const LEAD: i64 = 10;

/// Tasks with where they came from.
#[derive(Debug, Default)]
pub(super) struct Tasks {
    pub tasks: Vec<Task>,
    pub origins: Vec<Origin>,
    pub lags: Vec<Lag>,
    /// For each lag, the two steps that it ties.
    pub ties: Vec<(usize, usize)>,
    /// For each lag, the joints that it waits for, where these are still to be made.
    pub joints: Vec<Vec<Cure>>,
    /// For each lag, what it waits for all the same.
    pub floors: Vec<i64>,
    /// First and last tasks of each step.
    pub starts: Vec<Vec<usize>>,
    pub ends: Vec<Vec<usize>>,
    /// Steps that the hours of their days cut into parts, with the longest stretch of a day.
    pub cut: Vec<(usize, i64)>,
}

/// What the tasks are made from.
pub(super) struct Input<'a> {
    pub build: &'a Build,
    pub steps: &'a [Step],
    pub cures: &'a [JointCure],
    pub by_hour: &'a ByHour<'a>,
    pub done: &'a [Done],
    /// Days of the forecast.
    pub days: i64,
    /// Steps that may not start before a minute.
    pub held: &'a [(usize, i64)],
    pub day: Span,
}

impl Input<'_> {
    /// All tasks and lags.
    pub fn tasks(&self) -> Tasks {
        let air = Forecast::of(self.build);
        let mut made = Tasks::default();
        let now = now(self.done);
        for (index, step) in self.steps.iter().enumerate() {
            if let Some(fact) = self.done.iter().find(|done| done.step == index) {
                made.fact(step, fact);
                continue;
            }
            let allowed = hours::allowed(step, self.cures, &air);
            let held = self.held.iter().find(|(held, _)| *held == index).map(|(_, at)| *at);
            let earliest = now.into_iter().chain(held).max();
            let model = Task {
                name: step.title.clone(),
                minutes: 0,
                crew: step.people.max(1),
                uses: self.uses(step),
                earliest,
                latest_finish: None,
                allowed,
                when: When::default(),
            };
            self.step(&mut made, index, step, &model);
        }
        self.waits(&mut made);
        made
    }

    /// Places and tools that a step holds alone.
    fn uses(&self, step: &Step) -> Vec<String> {
        let spare = |tool: &String| {
            self.build.crew.spare_tools.iter().any(|spare| spare.eq_ignore_ascii_case(tool))
        };
        let places = step.places.iter().filter(|place| *place != ROOMY).cloned();
        let tools = step.tools.iter().filter(|tool| !spare(tool));
        places.chain(tools.map(|tool| format!("tool: {tool}"))).collect()
    }

    /// One step that is still to do.
    fn step(&self, made: &mut Tasks, index: usize, step: &Step, model: &Task) {
        let whole = minutes(step.time).max(GRID);
        let room = hours::longest(model.allowed.as_deref(), &self.day) / GRID * GRID;
        // Where no hour fits, the planner says so by the task.
        let room = if room < GRID { whole } else { room };
        let helped = *self.build.crew.people > step.people;
        let beside = step.beside.as_ref().filter(|_| helped);
        let shared = beside.map_or(0, |beside| minutes(beside.time));
        if whole > room && room < self.day.to - self.day.from {
            made.cut.push((index, room));
        }
        let main = made.row(index, model, whole - shared, room, false);
        let mut starts = vec![main.0];
        let mut ends = vec![main.1];
        if let Some(beside) = beside {
            let model = Task { crew: 1, uses: Vec::new(), allowed: None, ..model.clone() };
            let room = self.day.to - self.day.from;
            let second = made.row(index, &model, shared, room, true);
            let (first, then) = if beside.leads { (second, main) } else { (main, second) };
            made.overlap(index, first, then);
            starts.push(second.0);
            ends.push(second.1);
        }
        made.starts.push(starts);
        made.ends.push(ends);
    }

    /// What waits for what.
    fn waits(&self, made: &mut Tasks) {
        let position = |key: &str| self.steps.iter().position(|step| step.key == key);
        for (index, step) in self.steps.iter().enumerate() {
            for need in &step.after {
                let Some(before) = position(&need.key) else { continue };
                let first = &self.steps[before];
                // Cleaned and primed faces dry before they are joined.
                let joins = !makes(step, self.cures).is_empty();
                let dries = first.dries.filter(|_| joins).map_or(0, minutes);
                let rests = first.rest.map_or(0, minutes);
                let floor = dries.max(rests);
                for from in made.ends[before].clone() {
                    for to in made.starts[index].clone() {
                        self.lag(made, (from, to), (before, index), floor, &need.cures);
                    }
                }
            }
        }
    }
}

impl Input<'_> {
    /// Ties two tasks by a wait and by what joints of the first step need. Joints that were made wait
    /// as their air was measured; those that are still to be made by the hour of the plan.
    pub fn lag(
        &self,
        made: &mut Tasks,
        (from, to): (usize, usize),
        tie: (usize, usize),
        floor: i64,
        joints: &[Cure],
    ) {
        let done = self.done.iter().any(|done| done.step == tie.0);
        let wait = joints.iter().map(|cure| {
            if done {
                wait_minutes(self.cures, cure)
            } else {
                least_wait(self.by_hour, self.days, cure)
            }
        });
        let minutes = wait.max().unwrap_or(0).max(floor);
        made.lag(from, to, minutes, tie);
        if let (Some(of), Some(least)) = (made.joints.last_mut(), made.floors.last_mut()) {
            *of = if done { Vec::new() } else { joints.to_vec() };
            *least = floor;
        }
    }
}

impl Tasks {
    /// Indices of the lags whose waits depend on the hour.
    pub fn by_hour(&self) -> Vec<usize> {
        (0..self.lags.len()).filter(|lag| !self.joints[*lag].is_empty()).collect()
    }

    /// Wait of a lag when its first task ends at a minute.
    pub fn wait(&self, by_hour: &ByHour<'_>, lag: usize, end: i64) -> i64 {
        let joints = self.joints[lag].iter();
        let waits = joints.map(|cure| minutes(by_hour.wait(&cure.mark, stage(cure.state), end)));
        waits.max().unwrap_or(0).max(self.floors[lag])
    }

    /// A step that was done: one task at its own clock.
    fn fact(&mut self, step: &Step, fact: &Done) {
        self.starts.push(vec![self.tasks.len()]);
        self.ends.push(vec![self.tasks.len()]);
        self.origins.push(Origin { step: fact.step, part: (1, 1), beside: false });
        self.tasks.push(Task {
            name: step.title.clone(),
            minutes: fact.finish - fact.start,
            crew: step.people.max(1),
            when: When::Done(fact.start),
            ..Task::default()
        });
    }

    /// Tasks in a row, none longer than `room`; the first and the last of them.
    fn row(
        &mut self,
        step: usize,
        model: &Task,
        whole: i64,
        room: i64,
        beside: bool,
    ) -> (usize, usize) {
        let first = self.tasks.len();
        let parts = ((whole + room - 1) / room).max(1);
        let mut left = whole;
        for part in 0..parts {
            let take = if part + 1 == parts { left } else { room };
            left -= take;
            if part > 0 {
                self.lag(self.tasks.len() - 1, self.tasks.len(), 0, (step, step));
            }
            self.tasks.push(Task { minutes: take, ..model.clone() });
            let part = (part as usize + 1, parts as usize);
            self.origins.push(Origin { step, part, beside });
        }
        (first, self.tasks.len() - 1)
    }

    /// Two rows of one step that may overlap: the second starts a little after the first and ends a
    /// little after it.
    fn overlap(&mut self, step: usize, first: (usize, usize), then: (usize, usize)) {
        let long = |task: usize| self.tasks[task].minutes;
        let lead = LEAD.min(long(first.0)).min(long(then.1));
        let start = lead - long(first.0);
        let end = (lead - long(then.1)).max(-long(first.1));
        self.lag(first.0, then.0, start, (step, step));
        self.lag(first.1, then.1, end, (step, step));
    }

    fn lag(&mut self, from: usize, to: usize, minutes: i64, tie: (usize, usize)) {
        self.lags.push(Lag { from, to, minutes });
        self.ties.push(tie);
        self.joints.push(Vec::new());
        self.floors.push(minutes);
    }
}

/// The wait of a cure in the grid; what never ends counts as the longest wait.
pub(super) fn wait_minutes(cures: &[JointCure], cure: &Cure) -> i64 {
    let stage = stage(cure.state);
    let Some(joint) = cures.iter().find(|joint| joint.mark == cure.mark) else { return 0 };
    // What has no such stage of its own waits for the next that it has.
    let wait = joint.wait(stage).or_else(|| joint.waits.iter().find(|wait| wait.stage > stage));
    wait.map_or(0, |wait| minutes(wait.time.unwrap_or(crate::compute::cure::models::LONGEST)))
}

pub(super) fn stage(state: CureState) -> Stage {
    match state {
        CureState::Handling => Stage::Handle,
        CureState::Load => Stage::Load,
        CureState::Drive => Stage::Drive,
        CureState::Full => Stage::Full,
    }
}

/// A wait that no hour goes below. A joint that is made later is never ready sooner, so between two full
/// hours the wait is less than at the first of them by no more than what has passed.
fn least_wait(by_hour: &ByHour<'_>, days: i64, cure: &Cure) -> i64 {
    const HOUR: i64 = 60;
    let hours = (0..days * 24).map(|hour| hour * HOUR);
    let waits = hours.map(|at| minutes(by_hour.wait(&cure.mark, stage(cure.state), at)));
    (waits.min().unwrap_or(0) - (HOUR - GRID)).max(0)
}
