//! The problem as the solver sees it: free tasks only, times counted in grid steps, each task's
//! possible starts worked out.
//!
//! All given times are sums of the given numbers, so when these are multiples of a grid (their
//! greatest common divisor) there is a best plan on the grid: moving every task as early as it
//! will go in a given order leads from one such sum to another.

use super::hours::{HourArc, Hours};
use super::problem::{FARTHEST_MINUTE, MOST_TASKS, Problem, Task, When};
use super::spans::{FAR, Spans};
use super::{Fault, lags};

/// A stretch with a constant number of people left for free tasks; `window` is the calendar
/// window it belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Piece {
    pub(super) from: i64,
    pub(super) to: i64,
    pub(super) crew: i64,
    pub(super) window: usize,
}

/// A difference between starts: `to` starts at least `wait` after `from` starts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Arc {
    pub(super) from: usize,
    pub(super) to: usize,
    pub(super) wait: i64,
}

/// Free tasks, numbered from 0, in grid steps counted from the problem's start.
#[derive(Clone, Debug)]
pub(super) struct Model {
    /// Minutes in a step.
    pub(super) grid: i64,
    /// Minute of step 0.
    pub(super) origin: i64,
    /// Index of each free task in the problem.
    pub(super) tasks: Vec<usize>,
    /// Durations.
    pub(super) steps: Vec<i64>,
    /// People; 0 for unattended tasks and for tasks without duration.
    pub(super) crew: Vec<i64>,
    /// Possible starts.
    pub(super) starts: Vec<Spans>,
    /// Possible starts when latest finishes are left out.
    pub(super) open: Vec<Spans>,
    /// Latest finishes.
    pub(super) due: Vec<Option<i64>>,
    /// Waits between starts, free of circles.
    pub(super) arcs: Vec<Arc>,
    /// Those of them that may be longer by the hour.
    pub(super) by_hour: Vec<HourArc>,
    /// Order in which every arc leads forward.
    pub(super) order: Vec<usize>,
    /// Pairs that never overlap because of a place or the crew.
    pub(super) clash: Vec<Vec<bool>>,
    /// People left, in order of time.
    pub(super) pieces: Vec<Piece>,
    /// Whether facts take people from the calendar.
    pub(super) facts_at_work: bool,
    /// No best plan finishes later.
    pub(super) horizon: i64,
    /// Finish of the facts: no plan finishes earlier.
    pub(super) facts_finish: i64,
}

/// Refuses numbers that later sums could not hold, and lags and windows that make no sense.
fn check_numbers(problem: &Problem) -> Result<(), Fault> {
    if problem.tasks.len() > MOST_TASKS {
        return Err(Fault::TooManyTasks { tasks: problem.tasks.len() });
    }
    let fits = |t: i64| {
        if (-FARTHEST_MINUTE..=FARTHEST_MINUTE).contains(&t) {
            Ok(())
        } else {
            Err(Fault::Overflow)
        }
    };
    fits(problem.start)?;
    for (index, task) in problem.tasks.iter().enumerate() {
        fits(task.minutes)?;
        if task.minutes < 0 {
            return Err(Fault::NegativeMinutes { task: index });
        }
        for t in task.earliest.iter().chain(&task.latest_finish) {
            fits(*t)?;
        }
        for span in task.allowed.iter().flatten() {
            fits(span.from)?;
            fits(span.to)?;
        }
        if let When::At(t) | When::Done(t) = task.when {
            fits(t)?;
        }
    }
    for (index, lag) in problem.lags.iter().enumerate() {
        fits(lag.minutes)?;
        if lag.from.max(lag.to) >= problem.tasks.len() {
            return Err(Fault::NoSuchTask { lag: index });
        }
        // Back to the start of the first task at most: the second never starts before it.
        if lag.minutes < -problem.tasks[lag.from].minutes {
            return Err(Fault::NegativeLag { lag: index });
        }
    }
    let mut windows: Vec<usize> = (0..problem.windows.len()).collect();
    windows.sort_by_key(|&w| (problem.windows[w].from, w));
    for (index, window) in problem.windows.iter().enumerate() {
        fits(window.from)?;
        fits(window.to)?;
        if window.from >= window.to {
            return Err(Fault::EmptyWindow { window: index });
        }
    }
    for pair in windows.windows(2) {
        if problem.windows[pair[0]].to > problem.windows[pair[1]].from {
            return Err(Fault::OverlappingWindows { first: pair[0], second: pair[1] });
        }
    }
    Ok(())
}

/// Greatest common divisor of every time of the problem, counted from its start.
fn grid(problem: &Problem, hours: Hours<'_>) -> i64 {
    fn gcd(a: i64, b: i64) -> i64 {
        if b == 0 { a } else { gcd(b, a % b) }
    }
    let mut g = 0;
    let mut take = |n: i64| g = gcd(g, n.abs());
    for task in &problem.tasks {
        take(task.minutes);
        for t in task.earliest.iter().chain(&task.latest_finish) {
            take(t - problem.start);
        }
        for span in task.allowed.iter().flatten() {
            take(span.from - problem.start);
            take(span.to - problem.start);
        }
        if let When::At(t) | When::Done(t) = task.when {
            take(t - problem.start);
        }
    }
    for lag in &problem.lags {
        take(lag.minutes);
    }
    for window in &problem.windows {
        take(window.from - problem.start);
        take(window.to - problem.start);
    }
    take(hours.step);
    g.max(1)
}

/// Minute by which a task must be finished, by its latest finish and its appointment.
fn due(task: &Task) -> Option<i64> {
    let appointment = match task.when {
        When::At(t) => Some(t + task.minutes),
        _ => None,
    };
    task.latest_finish.into_iter().chain(appointment).min()
}

/// A fact: what it holds and when, in steps.
struct Fact {
    from: i64,
    to: i64,
    crew: i64,
}

/// Cuts the calendar where facts begin and end, and takes their people out.
fn pieces(problem: &Problem, facts: &[Fact], step: &impl Fn(i64) -> i64) -> Vec<Piece> {
    let mut windows = problem.windows.clone();
    windows.sort_unstable();
    let mut pieces = Vec::new();
    for (index, window) in windows.iter().enumerate() {
        let (from, to) = (step(window.from), step(window.to));
        let mut cuts = vec![from, to];
        let inside = |t: &i64| (from + 1..to).contains(t);
        cuts.extend(facts.iter().flat_map(|f| [f.from, f.to]).filter(inside));
        cuts.sort_unstable();
        cuts.dedup();
        for pair in cuts.windows(2) {
            let busy: i64 =
                facts.iter().filter(|f| f.from < pair[1] && pair[0] < f.to).map(|f| f.crew).sum();
            pieces.push(Piece {
                from: pair[0],
                to: pair[1],
                crew: (i64::from(window.crew) - busy).max(0),
                window: index,
            });
        }
    }
    pieces
}

/// Starts at which an attended task of this length lies in one window with enough people.
fn attended_starts(pieces: &[Piece], crew: i64, steps: i64) -> Spans {
    let mut runs: Vec<(i64, i64, usize)> = Vec::new();
    for piece in pieces.iter().filter(|p| p.crew >= crew) {
        match runs.last_mut() {
            Some(run) if run.1 == piece.from && run.2 == piece.window => run.1 = piece.to,
            _ => runs.push((piece.from, piece.to, piece.window)),
        }
    }
    // Runs of touching windows share no start: each is made a set of its own before they are
    // joined, which merges neighbouring starts without letting a task cross.
    Spans::of(runs.iter().map(|r| (r.0, r.1 - steps)).collect())
}

impl Model {
    /// Checks the problem and works out what each task may do.
    ///
    /// # Errors
    /// Every [`Fault`] that can be told without searching.
    pub(super) fn new(problem: &Problem, hours: Hours<'_>) -> Result<Self, Fault> {
        check_numbers(problem)?;
        lags::refuse_circle(problem)?;
        let grid = grid(problem, hours);
        let step = |t: i64| (t - problem.start) / grid;
        let done = |index: usize| match problem.tasks[index].when {
            When::Done(t) => Some(step(t)),
            _ => None,
        };
        let tasks: Vec<usize> = (0..problem.tasks.len()).filter(|&i| done(i).is_none()).collect();
        let mut facts = Vec::new();
        for (index, task) in problem.tasks.iter().enumerate() {
            if let Some(from) = done(index) {
                let to = from + task.minutes / grid;
                facts.push((index, Fact { from, to, crew: i64::from(task.crew) }));
            }
        }
        let held: Vec<Fact> = facts
            .iter()
            .map(|(_, f)| Fact { from: f.from, to: f.to, crew: f.crew })
            .filter(|f| f.crew > 0 && f.from < f.to)
            .collect();
        let pieces = pieces(problem, &held, &step);
        let facts_finish = facts.iter().map(|(_, f)| f.to).max().unwrap_or(0).max(0);
        let horizon = Self::horizon(problem, &step, facts_finish, grid);

        let mut model = Self {
            grid,
            origin: problem.start,
            steps: tasks.iter().map(|&i| problem.tasks[i].minutes / grid).collect(),
            crew: tasks
                .iter()
                .map(|&i| &problem.tasks[i])
                .map(|t| if t.minutes == 0 { 0 } else { i64::from(t.crew) })
                .collect(),
            starts: Vec::new(),
            open: Vec::new(),
            due: tasks.iter().map(|&i| due(&problem.tasks[i]).map(step)).collect(),
            arcs: Vec::new(),
            by_hour: Vec::new(),
            order: Vec::new(),
            clash: Vec::new(),
            pieces,
            facts_at_work: !held.is_empty(),
            horizon,
            facts_finish,
            tasks,
        };
        for free in 0..model.tasks.len() {
            let open = model.open_starts(problem, free, &facts, &step, hours)?;
            model.open.push(open);
        }
        let mut place = vec![usize::MAX; problem.tasks.len()];
        for (free, &index) in model.tasks.iter().enumerate() {
            place[index] = free;
        }
        for (index, lag) in problem.lags.iter().enumerate() {
            let (from, to) = (place[lag.from], place[lag.to]);
            if from < usize::MAX && to < usize::MAX {
                let wait = model.steps[from] + lag.minutes / grid;
                model.arcs.push(Arc { from, to, wait });
                if hours.lags.contains(&index) {
                    model.by_hour.push(HourArc { from, to, lag: index, least: wait });
                }
            }
        }
        model.arcs.sort_unstable();
        model.order = lags::forward_order(model.tasks.len(), &model.arcs);
        model.settle_starts()?;
        model.find_clashes(problem);
        Ok(model)
    }

    /// The same problem with the latest finishes of these tasks only.
    pub(super) fn holding(&self, tasks: &[usize]) -> Self {
        let mut model = self.clone();
        for task in (0..model.len()).filter(|t| !tasks.contains(t)) {
            model.due[task] = None;
        }
        model.starts = model.open.clone();
        for (task, due) in model.due.iter().enumerate() {
            if let Some(due) = due {
                let last = due - model.steps[task];
                model.starts[task] = model.starts[task].without(last + 1, model.horizon);
            }
        }
        let mut starts = std::mem::take(&mut model.starts);
        model.push_back(&mut starts);
        model.starts = starts;
        model
    }

    /// Starts that let the plan end by `finish`, by lags, hours and dates alone.
    pub(super) fn ending_by(&self, finish: i64) -> Vec<Spans> {
        let mut starts = self.starts.clone();
        for (spans, steps) in starts.iter_mut().zip(&self.steps) {
            *spans = spans.without(finish - steps + 1, self.horizon.max(finish));
        }
        self.push_back(&mut starts);
        starts
    }

    /// First start at or after `t` that the task's hours and dates allow.
    pub(super) fn first_open(&self, free: usize, minute: i64) -> Option<i64> {
        let t = (minute - self.origin).div_euclid(self.grid);
        Some(self.open[free].at_or_after(t)).filter(|&s| s < FAR)
    }

    /// Last start before step `t` that the task's hours and dates allow.
    pub(super) fn open_before(&self, free: usize, t: i64) -> Option<i64> {
        Some(self.open[free].at_or_before(t - 1)).filter(|&s| s > -FAR)
    }

    /// Number of free tasks.
    pub(super) fn len(&self) -> usize {
        self.tasks.len()
    }

    /// People left at a step.
    pub(super) fn crew_at(&self, step: i64) -> i64 {
        let i = self.pieces.partition_point(|p| p.to <= step);
        self.pieces.get(i).filter(|p| p.from <= step).map_or(0, |p| p.crew)
    }

    /// Minute at a step.
    pub(super) fn minute(&self, step: i64) -> i64 {
        self.origin + step * self.grid
    }

    /// A time after which nothing can be gained: all attended work is within the calendar, and
    /// what runs unattended follows at its heels.
    fn horizon(problem: &Problem, step: &impl Fn(i64) -> i64, facts: i64, grid: i64) -> i64 {
        let mut last = facts;
        for window in &problem.windows {
            last = last.max(step(window.to));
        }
        for task in &problem.tasks {
            last = last.max(task.earliest.map_or(0, step));
            for span in task.allowed.iter().flatten() {
                last = last.max(step(span.to));
            }
            if let When::At(t) = task.when {
                last = last.max(step(t));
            }
        }
        let work: i64 = problem.tasks.iter().map(|t| t.minutes / grid).sum();
        let waits: i64 = problem.lags.iter().map(|l| l.minutes.max(0) / grid).sum();
        last + work + waits
    }

    /// Starts of one task by hours, people, allowed windows, facts and its earliest start.
    fn open_starts(
        &self,
        problem: &Problem,
        free: usize,
        facts: &[(usize, Fact)],
        step: &impl Fn(i64) -> i64,
        hours: Hours<'_>,
    ) -> Result<Spans, Fault> {
        let index = self.tasks[free];
        let task = &problem.tasks[index];
        let steps = self.steps[free];
        let mut starts = Spans::of(vec![(0, self.horizon - steps)]);
        if task.crew > 0 {
            let people = i64::from(task.crew);
            if problem.windows.iter().all(|w| w.crew == 0) {
                return Err(Fault::NoHours);
            }
            let most = problem.windows.iter().map(|w| w.crew).max().unwrap_or(0);
            if task.crew > most {
                return Err(Fault::CrewTooLarge { task: index, most });
            }
            let enough = problem.windows.iter().filter(|w| w.crew >= task.crew);
            let longest = enough.map(|w| w.to - w.from).max().unwrap_or(0);
            if task.minutes > longest {
                return Err(Fault::LongerThanWindow { task: index, longest });
            }
            let open = if steps == 0 {
                // A mark in time holds nobody: facts leave it the whole window.
                let enough = problem.windows.iter().filter(|w| w.crew >= task.crew);
                Spans::of(enough.map(|w| (step(w.from), step(w.to))).collect())
            } else {
                attended_starts(&self.pieces, people, steps)
            };
            starts = starts.meet(&open);
        }
        let mut allowed = Spans::of(vec![(0, self.horizon)]);
        if let Some(windows) = &task.allowed {
            // As sets of steps, windows that touch become one.
            let whole = Spans::of(windows.iter().map(|s| (step(s.from), step(s.to) - 1)).collect());
            let longest = whole.ranges().iter().map(|r| r.1 + 1 - r.0).max().unwrap_or(0);
            if whole.is_empty() || steps > longest {
                let longest = longest * self.grid;
                return Err(Fault::LongerThanAllowed { task: index, longest });
            }
            allowed = Spans::of(whole.ranges().iter().map(|r| (r.0, r.1 + 1 - steps)).collect());
        }
        starts = starts.meet(&allowed);
        let mut first = task.earliest.map_or(0, step);
        let mut common = !starts.is_empty();
        if let When::At(t) = task.when {
            // Its upper end is held like a latest finish, so that what stands in its way is told
            // the same way.
            common = starts.at_or_after(step(t)) == step(t);
            first = first.max(step(t));
        }
        if !common {
            return Err(Fault::NoCommonWindow { task: index });
        }
        for (number, lag) in problem.lags.iter().enumerate().filter(|(_, l)| l.to == index) {
            if let Some((_, fact)) = facts.iter().find(|(other, _)| *other == lag.from) {
                let wait = hours.after(number, lag.minutes, self.minute(fact.to));
                first = first.max(fact.to + wait / self.grid);
            }
        }
        starts = starts.without(-self.horizon, first - 1);
        for (other, fact) in facts {
            let shares = task.uses.iter().any(|u| problem.tasks[*other].uses.contains(u));
            if shares && steps > 0 && fact.from < fact.to {
                starts = starts.without(fact.from - steps + 1, fact.to - 1);
            }
        }
        if starts.is_empty() {
            return Err(Fault::CalendarTooShort { task: Some(index) });
        }
        Ok(starts)
    }

    /// Draws each task's starts together along the arcs, first without and then with the latest
    /// finishes.
    fn settle_starts(&mut self) -> Result<(), Fault> {
        let mut open = std::mem::take(&mut self.open);
        if let Some(free) = self.push_forward(&mut open) {
            return Err(Fault::CalendarTooShort { task: Some(self.tasks[free]) });
        }
        let mut starts = open.clone();
        for (free, due) in self.due.iter().enumerate() {
            if let Some(due) = due {
                starts[free] = starts[free].without(due - self.steps[free] + 1, self.horizon);
                if starts[free].is_empty() {
                    return Err(Fault::LatestFinish { tasks: vec![self.tasks[free]] });
                }
            }
        }
        // The first start of a task leaves room for the first start of each follower, so going
        // back empties nothing.
        self.push_back(&mut open);
        self.push_back(&mut starts);
        self.open = open;
        self.starts = starts;
        Ok(())
    }

    /// Takes out starts too early for what comes before; a task left with none is returned.
    fn push_forward(&self, starts: &mut [Spans]) -> Option<usize> {
        for &task in &self.order {
            if starts[task].is_empty() {
                return Some(task);
            }
            let first = starts[task].first();
            for arc in self.arcs.iter().filter(|a| a.from == task) {
                starts[arc.to] = starts[arc.to].without(-self.horizon, first + arc.wait - 1);
            }
        }
        None
    }

    /// Takes out starts too late for what follows.
    fn push_back(&self, starts: &mut [Spans]) {
        for &task in self.order.iter().rev() {
            for arc in self.arcs.iter().filter(|a| a.from == task) {
                let last = starts[arc.to].last() - arc.wait;
                starts[task] = starts[task].without((last + 1).max(-self.horizon), self.horizon);
            }
        }
    }

    fn find_clashes(&mut self, problem: &Problem) {
        let most = self.pieces.iter().map(|p| p.crew).max().unwrap_or(0);
        let n = self.len();
        self.clash = vec![vec![false; n]; n];
        for a in 0..n {
            for b in 0..a {
                let (ta, tb) = (&problem.tasks[self.tasks[a]], &problem.tasks[self.tasks[b]]);
                let lasting = self.steps[a] > 0 && self.steps[b] > 0;
                let shared = ta.uses.iter().any(|u| tb.uses.contains(u));
                let crowd =
                    self.crew[a] > 0 && self.crew[b] > 0 && self.crew[a] + self.crew[b] > most;
                self.clash[a][b] = lasting && (shared || crowd);
                self.clash[b][a] = self.clash[a][b];
            }
        }
    }
}
