//! The steps by the clock: the shortest plan for the days, and when the vehicle may be driven.
//!
//! Takes the steps, working hours, crew, what was recorded as done and the waits of the bonds; gives
//! the start of each step, who does it, the chain that decides, and the clock before which nothing may
//! drive. A wait depends on the air after the hour at which a joint is made: the planner asks for it by
//! the hour, so that both end and latest starts are those of the real waits. Of equal plans the one is
//! kept that joins faces while they are clean and uses an open cartridge up, then the one on the fewest
//! days, then the one with the least waiting by day.

mod done;
mod explain;
mod figures;
mod hours;
pub mod rules;
mod tasks;
mod together;

use crate::build::Build;
use crate::compute::cure::forecast::Forecast;
use crate::compute::cure::{ByHour, JointCure, Made};
use crate::compute::planning::{
    self, DAY, Fault, Hours, Problem, Span, Task, Window, repeat_days, usual_nodes,
};
use crate::compute::steps::{Cure, CureState, Step};
use crate::source::{Finding, Ledger};
use crate::units::Duration;
use done::Done;
use tasks::Input;

pub use together::OPEN_CARTRIDGE;

/// The plan.
#[derive(Debug, Clone)]
pub struct Plan {
    /// Stretches of work in the order of the steps; a step longer than a day has several, and one that
    /// two people share has one for each.
    pub slots: Vec<PlanSlot>,
    /// Clock at which the work ends.
    pub finish: Duration,
    /// Clock before which the vehicle must not be driven, and what decides it.
    pub drive: (Duration, String),
    /// Whether no plan can end the work earlier.
    pub proven: bool,
    /// No plan ends before this.
    pub bound: Duration,
    /// Work time of each person.
    pub work: Vec<Duration>,
    /// Days on which somebody works.
    pub days: usize,
    /// Whether no plan that ends as soon has fewer.
    pub fewest_days: bool,
    /// Time within these days, from the first work to the last, in which nobody works.
    pub idle: Duration,
    /// No plan on these days that ends as soon has less of it.
    pub least_idle: Duration,
    /// Working hours of a day, from and to.
    pub hours: (Duration, Duration),
    /// Hours of light of a day, from and to.
    pub light: (Duration, Duration),
    /// Hours of the days of the plan in which the skin is fit to be bonded, for the strictest joint.
    pub fit: Vec<(Duration, Duration)>,
    /// Clock up to which the build file records what was done.
    pub recorded: Option<Duration>,
}

/// One stretch of work. Clocks count from midnight before the first day.
#[derive(Debug, Clone)]
pub struct PlanSlot {
    /// Index of the step.
    pub step: usize,
    /// Which part of it, from 1, and of how many.
    pub part: (usize, usize),
    /// What of it this is, where two people share it; empty: all of it.
    pub what: String,
    /// Start.
    pub start: Duration,
    /// End.
    pub finish: Duration,
    /// Who, from 1.
    pub people: Vec<u32>,
    /// How much later it may start while the end stays: what comes before it stays too, what follows
    /// moves along, and clean faces and open cartridges are still used in time.
    pub float: Duration,
    /// Whether it belongs to the chain that decides.
    pub decides: bool,
    /// Whether it is recorded as done.
    pub done: bool,
}

impl PlanSlot {
    /// Latest start that harms nothing.
    pub fn latest(&self) -> Duration {
        self.start + self.float
    }
}

impl Plan {
    /// Start and end of a step, all parts together.
    pub fn span(&self, step: usize) -> Option<(Duration, Duration)> {
        let own = || self.slots.iter().filter(|slot| slot.step == step);
        let start = own().map(|s| s.start).reduce(Duration::min)?;
        Some((start, own().map(|s| s.finish).reduce(Duration::max)?))
    }
}

/// Everything is planned in this grid, minutes.
const GRID: i64 = 5;
/// Days that are looked ahead.
const HORIZON: i64 = 120;
/// What decides when it may be driven, where no joint does.
const LAST_STEP: &str = "the last step";
/// Part of the usual effort that goes into gathering the work of a plan.
const GATHERING: u64 = 8;

/// A task of the planner and where it came from.
#[derive(Debug, Clone, Copy)]
struct Origin {
    step: usize,
    part: (usize, usize),
    beside: bool,
}

/// Marks of the joints that a step makes: those whose waits end it, and the bolts it tightens.
fn makes(step: &Step, cures: &[JointCure]) -> Vec<String> {
    let waited = step.waits().flat_map(|wait| &wait.cures).map(|cure| cure.mark.clone());
    let tightened = cures
        .iter()
        .filter(|joint| joint.by_step == Some(step.key.as_str()))
        .map(|joint| joint.mark.clone());
    let mut marks: Vec<String> = waited.chain(tightened).collect();
    marks.sort();
    marks.dedup();
    marks
}

/// When each joint is made, by mark.
fn made(steps: &[Step], plan: &Plan, cures: &[JointCure], done: &[Done]) -> Vec<(String, Made)> {
    let mut list = Vec::new();
    for (index, step) in steps.iter().enumerate() {
        let Some((_, end)) = plan.span(index) else { continue };
        for mark in makes(step, cures) {
            list.push((mark, done::made(done, index, end)));
        }
    }
    list
}

/// Works the joints out for hours at which they are made, by mark.
pub type CureAt<'a> = dyn Fn(&dyn Fn(&str) -> Made) -> Vec<JointCure> + 'a;

/// How long joints need: all of them for given hours, one of them for any hour.
#[derive(Clone, Copy)]
pub struct Curing<'a> {
    /// All.
    pub all: &'a CureAt<'a>,
    /// One.
    pub by_hour: &'a ByHour<'a>,
}

/// The plan, and when each joint is made. `None` where there is nothing to plan or no plan exists;
/// findings then say why.
pub fn plan(
    build: &Build,
    steps: &[Step],
    curing: Curing<'_>,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Option<(Plan, Vec<(String, Made)>)> {
    if steps.is_empty() {
        return None;
    }
    let done = done::done(build, steps, findings);
    // What was made is known; of the rest only marks and surfaces count before the plan is.
    let noon = Made::at(Duration::hours(12.0));
    let known: Vec<(String, Made)> = {
        let cures = (curing.all)(&|_| noon);
        let facts = done.iter().flat_map(|fact| {
            let made = done::made(&done, fact.step, Duration::minutes(fact.finish as f64));
            makes(&steps[fact.step], &cures).into_iter().map(move |mark| (mark, made))
        });
        facts.collect()
    };
    let cures = (curing.all)(&|mark: &str| {
        known.iter().find(|(known, _)| known == mark).map_or(noon, |(_, made)| *made)
    });
    let planning = Planning { build, steps, curing, done: &done, cures };
    let mut best = match planning.solve(&[]) {
        Ok(best) => best,
        Err(stuck) => {
            let Stuck { fault, origins } = *stuck;
            findings.push(explain::explain(build, steps, &planning.cures, &fault, &origins));
            return None;
        }
    };
    // Steps that would better come later, as long as that costs nothing.
    let mut wishes = together::wishes(steps, &planning.cures, &best.plan);
    let mut held = Vec::new();
    if !wishes.is_empty()
        && let Ok(kept) = planning.solve(&wishes)
        && kept.plan.drive.0 <= best.plan.drive.0
        && kept.plan.finish <= best.plan.finish
    {
        best = kept;
        held.clone_from(&wishes);
        wishes = together::wishes(steps, &planning.cures, &best.plan);
    }
    planning.gather(&mut best, &wishes);
    let Settled { mut plan, cut, broken, .. } = best;
    together::hold_floats(steps, &planning.cures, &mut plan);
    if !plan.proven {
        findings.push(rules::not_proven());
    }
    let made = made(steps, &plan, &planning.cures, &done);
    let cures = (curing.all)(&|mark: &str| {
        made.iter().find(|(known, _)| known == mark).map_or(noon, |(_, made)| *made)
    });
    if plan.drive.1 != LAST_STEP {
        plan.drive.1 = drive_words(&cures, &plan.drive.1);
    }
    findings.extend(together::stale(build, steps, &plan, &cures));
    for (step, room) in cut {
        findings.push(rules::cut_by_hours(build, &steps[step], room));
    }
    for (before, after) in broken {
        findings.push(rules::wait_not_kept(build, steps, &cures, (before, after), &done));
    }
    done::judge(build, steps, &cures, &done, findings);
    figures::record(&plan, steps, ledger);
    Some((plan, made))
}

/// A plan with what it was made from.
struct Settled {
    plan: Plan,
    /// Steps cut into parts by the hours of a day, with the longest stretch of one.
    cut: Vec<(usize, i64)>,
    /// Steps of which the second was recorded as begun before the first let it.
    broken: Vec<(usize, usize)>,
    made: tasks::Tasks,
    problem: Problem,
    answer: planning::Plan,
    /// Driving waits for these: last task of a joint's step, its lag, mark.
    drives: Vec<(usize, usize, String)>,
}

/// Why there is no plan.
struct Stuck {
    fault: Fault,
    origins: Vec<Origin>,
}

/// What a plan is made from.
struct Planning<'a> {
    build: &'a Build,
    steps: &'a [Step],
    curing: Curing<'a>,
    done: &'a [Done],
    /// The joints: those made as they were, the others as if made at noon.
    cures: Vec<JointCure>,
}

impl Planning<'_> {
    /// The plan of least end, with some steps held back to a minute.
    fn solve(&self, held: &[(usize, i64)]) -> Result<Settled, Box<Stuck>> {
        let day = self.day();
        let input = Input {
            build: self.build,
            steps: self.steps,
            cures: &self.cures,
            by_hour: self.curing.by_hour,
            done: self.done,
            days: i64::from(Forecast::of(self.build).days()),
            held,
            day,
        };
        let mut made = input.tasks();
        let drives = self.drives(&input, &mut made);
        let windows = match self.windows(day) {
            Ok(windows) => windows,
            Err(fault) => return Err(Box::new(Stuck { fault, origins: made.origins })),
        };
        let (tasks, lags) = (made.tasks.clone(), made.lags.clone());
        let problem = Problem { start: day.from, tasks, lags, windows };
        let answer = self.hours(&made, |hours| {
            planning::plan_by_hour(&problem, hours, usual_nodes(problem.tasks.len()))
        });
        let answer = match answer {
            Ok(answer) => answer,
            Err(fault) => return Err(Box::new(Stuck { fault, origins: made.origins })),
        };
        // Driving needs nobody, so its wait alone would not end with the calendar.
        if answer.slots[made.origins.len()].start > HORIZON * DAY {
            let fault = Fault::CalendarTooShort { task: None };
            return Err(Box::new(Stuck { fault, origins: made.origins }));
        }
        let mut broken: Vec<(usize, usize)> =
            answer.waived.iter().map(|lag| made.ties[*lag]).filter(|tie| tie.0 != tie.1).collect();
        broken.sort_unstable();
        broken.dedup();
        let plan = self.told(&answer, &made, &drives);
        let cut = made.cut.clone();
        Ok(Settled { plan, cut, broken, made, problem, answer, drives })
    }

    /// Hands the waits by the hour to the planner.
    fn hours<T>(&self, made: &tasks::Tasks, ask: impl FnOnce(Hours<'_>) -> T) -> T {
        let lags = made.by_hour();
        let wait = |lag: usize, end: i64| made.wait(self.curing.by_hour, lag, end);
        ask(Hours { lags: &lags, step: GRID, wait: &wait })
    }

    /// Of the plans that end as soon, the one on the fewest days with the least waiting in between,
    /// unless that leaves more faces or cartridges open too long than `open`.
    fn gather(&self, best: &mut Settled, open: &[(usize, i64)]) {
        let nodes = usual_nodes(best.problem.tasks.len()) / GATHERING;
        let found = self.hours(&best.made, |hours| {
            planning::gathered(&best.problem, hours, &best.answer, nodes)
        });
        let Ok(found) = found else { return };
        let mut plan = self.told(&found.plan, &best.made, &best.drives);
        let same_days = worked(&plan.slots) == worked(&best.plan.slots);
        let idle = Duration::minutes(found.least_idle as f64);
        let fresh = together::wishes(self.steps, &self.cures, &plan).len() <= open.len();
        if fresh && plan.drive.0 <= best.plan.drive.0 && plan.finish <= best.plan.finish {
            plan.fewest_days = found.days_proven;
            plan.least_idle = idle;
            best.plan = plan;
            best.answer = found.plan;
        } else {
            best.plan.fewest_days = found.days_proven && found.days == best.plan.days;
            best.plan.least_idle = if same_days { idle } else { Duration::ZERO };
        }
    }

    /// Driving is a mark in time after the last step and after every joint may be driven with. Gives
    /// the last task of each joint's step with its lag and mark.
    fn drives(&self, input: &Input<'_>, made: &mut tasks::Tasks) -> Vec<(usize, usize, String)> {
        let drive = made.tasks.len();
        made.tasks.push(Task { name: "drive".into(), ..Task::default() });
        let last = self.steps.len();
        let mut list = Vec::new();
        for (index, step) in self.steps.iter().enumerate() {
            for end in made.ends[index].clone() {
                let rest = step.rest.map_or(0, minutes);
                input.lag(made, (end, drive), (index, last), rest, &[]);
                if rest > 0 {
                    list.push((end, made.lags.len() - 1, step.title.clone()));
                }
                for mark in makes(step, &self.cures) {
                    let cure = Cure { mark: mark.clone(), state: CureState::Drive };
                    input.lag(made, (end, drive), (index, last), 0, &[cure]);
                    list.push((end, made.lags.len() - 1, mark));
                }
            }
        }
        list
    }

    /// Minutes of a day from and to which there is work.
    fn day(&self) -> Span {
        let hours = working_hours(self.build);
        let minute = |clock: Duration| clock.to_minutes().round() as i64;
        Span { from: minute(hours.0), to: minute(hours.1) }
    }

    /// Working hours of all days with work.
    fn windows(&self, day: Span) -> Result<Vec<Window>, Fault> {
        let crew = &self.build.crew;
        let off = |day: i64| {
            let date = crew.start.checked_add(jiff::Span::new().days(day));
            date.is_ok_and(|date| !crew.days.contains(&date.weekday()))
        };
        let window = Window { from: day.from, to: day.to, crew: *crew.people };
        repeat_days(&[window], 0, HORIZON, off)
    }

    fn told(
        &self,
        answer: &planning::Plan,
        made: &tasks::Tasks,
        drives: &[(usize, usize, String)],
    ) -> Plan {
        let origins = &made.origins;
        let cures = &self.cures;
        let hours = working_hours(self.build);
        let clock = |minute: i64| Duration::minutes(minute as f64);
        let chain: Vec<usize> = answer.chain.iter().map(|link| link.task).collect();
        let slots: Vec<PlanSlot> = origins
            .iter()
            .enumerate()
            .map(|(task, origin)| {
                let slot = &answer.slots[task];
                let step = &self.steps[origin.step];
                let beside = step.beside.as_ref().filter(|_| origin.beside);
                PlanSlot {
                    step: origin.step,
                    part: origin.part,
                    what: beside.map_or(String::new(), |beside| beside.words.clone()),
                    start: clock(slot.start),
                    finish: clock(slot.finish),
                    people: slot.people.clone(),
                    float: clock(slot.last_in_turn - slot.start),
                    decides: chain.contains(&task),
                    done: self.done.iter().any(|done| done.step == origin.step),
                }
            })
            .collect();
        let finish = slots.iter().map(|s| s.finish).fold(Duration::ZERO, Duration::max);
        let may_drive = answer.slots[origins.len()].start;
        let reason = drives
            .iter()
            .find(|(task, lag, _)| {
                let end = answer.slots[*task].finish;
                let steady = made.joints[*lag].is_empty();
                let wait = if steady {
                    made.lags[*lag].minutes
                } else {
                    made.wait(self.curing.by_hour, *lag, end)
                };
                end + wait == may_drive
            })
            .map_or_else(|| LAST_STEP.to_owned(), |(_, _, mark)| mark.clone());
        let air = Forecast::of(self.build);
        let strictest = self
            .steps
            .iter()
            .filter_map(|step| hours::limits(step, cures))
            .reduce(crate::compute::cure::forecast::Limits::and);
        let last = Duration::days((clock(may_drive) / Duration::days(1.0)).floor() + 1.0);
        Plan {
            days: worked(&slots).len(),
            idle: idle(&slots),
            fewest_days: false,
            least_idle: Duration::ZERO,
            slots,
            finish,
            drive: (clock(may_drive), reason),
            proven: answer.proven,
            bound: clock(answer.bound),
            work: answer.minutes_by_person.iter().map(|m| clock(*m)).collect(),
            hours,
            light: air.light(),
            fit: strictest.map_or_else(Vec::new, |limits| {
                let hours = air.windows(&limits, Duration::ZERO, last);
                hours.into_iter().flat_map(|span| in_light(span, air.light())).collect()
            }),
            recorded: done::now(self.done).map(clock),
        }
    }
}

/// Days on which somebody works, counted from the first.
fn worked(slots: &[PlanSlot]) -> Vec<i64> {
    let mut days: Vec<i64> =
        slots.iter().map(|s| (s.start.to_minutes() as i64).div_euclid(DAY)).collect();
    days.sort_unstable();
    days.dedup();
    days
}

/// Time between the first and the last work of each day in which nobody works; what was done is past.
fn idle(slots: &[PlanSlot]) -> Duration {
    let mut stretches: Vec<(Duration, Duration)> =
        slots.iter().filter(|s| !s.done).map(|s| (s.start, s.finish)).collect();
    stretches.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let day = |clock: Duration| (clock / Duration::days(1.0)).floor();
    let mut idle = Duration::ZERO;
    let mut until: Option<Duration> = None;
    for (start, end) in stretches {
        if let Some(until) = until.filter(|until| start > *until && day(*until) == day(start)) {
            idle += start - until;
        }
        until = Some(until.map_or(end, |until| until.max(end)));
    }
    idle
}

/// What of a stretch of time lies in the light of each day.
fn in_light(
    (from, to): (Duration, Duration),
    light: (Duration, Duration),
) -> Vec<(Duration, Duration)> {
    let day = Duration::days(1.0);
    let (first, last) = ((from / day).floor() as i64, (to / day).ceil() as i64);
    (first..last)
        .map(|midnight| day * midnight as f64)
        .map(|midnight| (from.max(midnight + light.0), to.min(midnight + light.1)))
        .filter(|(from, to)| to > from)
        .collect()
}

/// Working hours of a day.
fn working_hours(build: &Build) -> (Duration, Duration) {
    let clock = |time: jiff::civil::Time| {
        Duration::minutes(f64::from(time.hour()) * 60.0 + f64::from(time.minute()))
    };
    (clock(*build.crew.from), clock(*build.crew.to))
}

fn minutes(time: Duration) -> i64 {
    (time.to_minutes() / GRID as f64).ceil() as i64 * GRID
}

fn drive_words(cures: &[JointCure], mark: &str) -> String {
    use crate::compute::cure::Stage;
    cures
        .iter()
        .find(|joint| joint.mark == mark)
        .and_then(|joint| joint.wait(Stage::Drive))
        .map_or_else(|| format!("the wait after “{mark}”"), |wait| format!("{mark}: {}", wait.why))
}
