//! The steps by the clock: the shortest plan for the days, and when the vehicle may be driven.
//!
//! Takes the steps, working hours, crew, what was recorded as done and the waits of the bonds; gives
//! the start of each step, who does it, the chain that decides, and the clock before which nothing may
//! drive. A wait depends on the air after the hour at which a joint is made, and that hour on the plan:
//! both are worked out in turn until they agree. Of equal plans the one is kept that joins faces while
//! they are clean and uses an open cartridge up.

mod done;
mod explain;
mod hours;
pub mod rules;
mod tasks;
mod together;

use crate::build::Build;
use crate::compute::cure::{JointCure, Made};
use crate::compute::planning::{
    self, DAY, Fault, Problem, Span, Task, Window, repeat_days, usual_nodes,
};
use crate::compute::steps::{Cure, CureState, Step};
use crate::source::{Figure, Finding, Ledger, Seen};
use crate::units::Duration;
use done::Done;
use tasks::{Input, wait_minutes};

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
/// Rounds in which hours and waits come to agree.
const ROUNDS: usize = 4;

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

/// The plan with waits that agree with its hours, and when each joint is made. `cure_at` works the
/// joints out for given hours. `None` where there is nothing to plan or no plan exists; findings then
/// say why.
pub fn plan(
    build: &Build,
    steps: &[Step],
    cure_at: &CureAt<'_>,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Option<(Plan, Vec<(String, Made)>)> {
    if steps.is_empty() {
        return None;
    }
    let done = done::done(build, steps, findings);
    let planning = Planning { build, steps, cure_at, done: &done };
    let mut best = match planning.settle(&[]) {
        Ok(best) => best,
        Err(stuck) => {
            findings.push(explain::explain(
                build,
                steps,
                &stuck.cures,
                &stuck.fault,
                &stuck.origins,
            ));
            return None;
        }
    };
    // Steps that would better come later, as long as that costs nothing.
    let wishes = together::wishes(steps, &best);
    if !wishes.is_empty()
        && let Ok(kept) = planning.settle(&wishes)
        && kept.plan.drive.0 <= best.plan.drive.0
        && kept.plan.finish <= best.plan.finish
    {
        best = kept;
    }
    let Settled { plan, cures, cut, broken } = best;
    if !plan.proven {
        findings.push(rules::not_proven());
    }
    findings.extend(together::stale(build, steps, &plan, &cures));
    for (step, room) in cut {
        findings.push(rules::cut_by_hours(build, &steps[step], room));
    }
    for (before, after) in broken {
        findings.push(rules::wait_not_kept(build, steps, &cures, (before, after), &done));
    }
    done::judge(build, steps, &cures, &done, findings);
    record(&plan, steps, ledger);
    let made = made(steps, &plan, &cures, &done);
    Some((plan, made))
}

/// A plan whose waits agree with its hours.
struct Settled {
    plan: Plan,
    cures: Vec<JointCure>,
    /// Steps cut into parts by the hours of a day, with the longest stretch of one.
    cut: Vec<(usize, i64)>,
    /// Steps of which the second was recorded as begun before the first let it.
    broken: Vec<(usize, usize)>,
}

/// Why there is no plan.
struct Stuck {
    fault: Fault,
    origins: Vec<Origin>,
    cures: Vec<JointCure>,
}

/// What a plan is made from.
struct Planning<'a> {
    build: &'a Build,
    steps: &'a [Step],
    cure_at: &'a CureAt<'a>,
    done: &'a [Done],
}

impl Planning<'_> {
    /// Plans and cures in turn until they agree, with some steps held back to a minute.
    fn settle(&self, held: &[(usize, i64)]) -> Result<Settled, Box<Stuck>> {
        let noon = Duration::hours(12.0);
        let mut clocks: Vec<(String, Made)> = Vec::new();
        let mut round = 0;
        loop {
            round += 1;
            let at = |mark: &str| {
                let known = clocks.iter().find(|(known, _)| known == mark);
                known.map_or(Made::at(noon), |(_, made)| *made)
            };
            let cures = (self.cure_at)(&at);
            let settled = self.solve(cures, held)?;
            let next = made(self.steps, &settled.plan, &settled.cures, self.done);
            if next == clocks || round == ROUNDS {
                return Ok(settled);
            }
            clocks = next;
        }
    }

    fn solve(&self, cures: Vec<JointCure>, held: &[(usize, i64)]) -> Result<Settled, Box<Stuck>> {
        let hours = working_hours(self.build);
        let minute = |clock: Duration| clock.to_minutes().round() as i64;
        let day = Span { from: minute(hours.0), to: minute(hours.1) };
        let input = Input {
            build: self.build,
            steps: self.steps,
            cures: &cures,
            done: self.done,
            held,
            day,
        };
        let mut made = input.tasks();
        let drives = self.drives(&mut made, &cures);
        let answer = self.windows(day).and_then(|windows| {
            let problem = Problem {
                start: day.from,
                tasks: made.tasks.clone(),
                lags: made.lags.clone(),
                windows,
            };
            planning::plan(&problem, usual_nodes(problem.tasks.len()))
        });
        let answer = match answer {
            Ok(answer) => answer,
            Err(fault) => return Err(Box::new(Stuck { fault, origins: made.origins, cures })),
        };
        // Driving needs nobody, so its wait alone would not end with the calendar.
        if answer.slots[made.origins.len()].start > HORIZON * DAY {
            let fault = Fault::CalendarTooShort { task: None };
            return Err(Box::new(Stuck { fault, origins: made.origins, cures }));
        }
        let mut broken: Vec<(usize, usize)> =
            answer.waived.iter().map(|lag| made.ties[*lag]).filter(|tie| tie.0 != tie.1).collect();
        broken.sort_unstable();
        broken.dedup();
        let plan = self.told(&answer, &made.origins, &drives, hours, &cures);
        Ok(Settled { plan, cures, cut: made.cut, broken })
    }

    /// Driving is a mark in time after the last step and after every joint may be driven with. Gives
    /// the last task of each joint's step with its wait and mark.
    fn drives(&self, made: &mut tasks::Tasks, cures: &[JointCure]) -> Vec<(usize, i64, String)> {
        let drive = made.tasks.len();
        made.tasks.push(Task { name: "drive".into(), ..Task::default() });
        let last = self.steps.len();
        let mut list = Vec::new();
        for (index, step) in self.steps.iter().enumerate() {
            for end in made.ends[index].clone() {
                let rest = step.rest.map_or(0, minutes);
                made.lag(end, drive, rest, (index, last));
                if rest > 0 {
                    list.push((end, rest, step.title.clone()));
                }
                for mark in makes(step, cures) {
                    let cure = Cure { mark: mark.clone(), state: CureState::Drive };
                    let wait = wait_minutes(cures, &cure);
                    made.lag(end, drive, wait, (index, last));
                    list.push((end, wait, mark));
                }
            }
        }
        list
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
        origins: &[Origin],
        drives: &[(usize, i64, String)],
        hours: (Duration, Duration),
        cures: &[JointCure],
    ) -> Plan {
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
            .find(|(task, wait, _)| answer.slots[*task].finish + wait == may_drive)
            .map_or_else(|| "the last step".to_owned(), |(_, _, mark)| drive_words(cures, mark));
        let mut worked: Vec<i64> =
            slots.iter().map(|s| (s.start.to_minutes() as i64).div_euclid(DAY)).collect();
        worked.sort_unstable();
        worked.dedup();
        let air = crate::compute::cure::forecast::Forecast::of(self.build);
        let strictest = self
            .steps
            .iter()
            .filter_map(|step| hours::limits(step, cures))
            .reduce(crate::compute::cure::forecast::Limits::and);
        let last = Duration::days((clock(may_drive) / Duration::days(1.0)).floor() + 1.0);
        let mut plan = Plan {
            slots,
            finish,
            drive: (clock(may_drive), reason),
            proven: answer.proven,
            bound: clock(answer.bound),
            work: answer.minutes_by_person.iter().map(|m| clock(*m)).collect(),
            days: worked.len(),
            hours,
            light: air.light(),
            fit: strictest.map_or_else(Vec::new, |limits| {
                let hours = air.windows(&limits, Duration::ZERO, last);
                hours.into_iter().flat_map(|span| in_light(span, air.light())).collect()
            }),
            recorded: done::now(self.done).map(clock),
        };
        together::hold_floats(self.steps, cures, &mut plan);
        plan
    }
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

fn record(plan: &Plan, steps: &[Step], ledger: &mut Ledger) {
    ledger.push(
        Figure::new(
            "plan.finish",
            "end of the work after the first midnight",
            plan.finish.to_hours(),
            "h",
        )
        .formula("least end over all plans")
        .input("steps", steps.len().to_string())
        .input("no plan ends before", format!("{:.2} h", plan.bound.to_hours()))
        .input("proven", if plan.proven { "yes" } else { "no" })
        .source("exact search with bound", Seen::Computed),
    );
    ledger.push(
        Figure::new(
            "plan.drive",
            "not driven before, after the first midnight",
            plan.drive.0.to_hours(),
            "h",
        )
        .formula("latest of: end of the work, joint made + wait until it may be driven with")
        .input("decided by", plan.drive.1.clone())
        .source("plan and cure of this build", Seen::Computed)
        .decides(),
    );
}
