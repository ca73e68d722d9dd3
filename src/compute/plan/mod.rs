//! The steps by the clock: the shortest plan for the days, and when the vehicle may be driven.
//!
//! Takes the steps, working hours, crew and the waits of the bonds; gives the start of each step,
//! who does it, the chain that decides, and the clock before which nothing may drive. A wait depends
//! on the air after the hour at which a joint is made, and that hour on the plan: both are worked out
//! in turn until they agree.

pub mod rules;

use crate::build::Build;
use crate::compute::cure::JointCure;
use crate::compute::cure::forecast::Forecast;
use crate::compute::planning::{
    self, DAY, Fault, Lag, Problem, Span as Stretch, Task, When, Window, repeat_days, usual_nodes,
};
use crate::compute::steps::{Cure, CureState, Step};
use crate::source::{Figure, Finding, Ledger, Seen};
use crate::units::Duration;

/// The plan.
#[derive(Debug, Clone)]
pub struct Plan {
    /// Stretches of work in the order of the steps; a step longer than a day has several.
    pub slots: Vec<PlanSlot>,
    /// Clock at which the work ends.
    pub finish: Duration,
    /// Clock before which the vehicle must not be driven, and what decides it.
    pub drive: (Duration, String),
    /// Whether no plan can end the work earlier.
    pub proven: bool,
    /// Work time of each person.
    pub work: Vec<Duration>,
    /// Days on which somebody works.
    pub days: usize,
    /// Working hours of a day, from and to.
    pub hours: (Duration, Duration),
}

/// One stretch of work. Clocks count from midnight before the first day.
#[derive(Debug, Clone)]
pub struct PlanSlot {
    /// Index of the step.
    pub step: usize,
    /// Which part of it, from 1, and of how many.
    pub part: (usize, usize),
    /// Start.
    pub start: Duration,
    /// End.
    pub finish: Duration,
    /// Who, from 1.
    pub people: Vec<u32>,
    /// How much later it alone may start while all others and the end stay.
    pub float: Duration,
    /// Whether it belongs to the chain that decides.
    pub decides: bool,
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

/// When each joint is made, by mark, from a plan.
pub fn made(steps: &[Step], plan: &Plan) -> Vec<(String, Duration)> {
    let mut list = Vec::new();
    for (index, step) in steps.iter().enumerate() {
        let Some((_, end)) = plan.span(index) else { continue };
        for mark in makes(step) {
            list.push((mark, end));
        }
    }
    list
}

/// Marks of the joints that a step makes: those whose waits end it.
fn makes(step: &Step) -> Vec<String> {
    let mut marks: Vec<String> =
        step.waits().flat_map(|wait| &wait.cures).map(|cure| cure.mark.clone()).collect();
    marks.sort();
    marks.dedup();
    marks
}

/// Works the joints out for hours at which they are made, by mark.
pub type CureAt<'a> = dyn Fn(&dyn Fn(&str) -> Duration) -> Vec<JointCure> + 'a;

/// The plan with waits that agree with its hours. `cure_at` works the joints out for given hours.
/// `None` where there is nothing to plan or no plan exists; findings then say why.
pub fn plan(
    build: &Build,
    steps: &[Step],
    cure_at: &CureAt<'_>,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Option<(Plan, Vec<JointCure>)> {
    if steps.is_empty() {
        return None;
    }
    let hours = hours(build);
    let mut clocks: Vec<(String, Duration)> = Vec::new();
    let mut best: Option<(Plan, Vec<JointCure>)> = None;
    for _ in 0..ROUNDS {
        let at = |mark: &str| {
            clocks
                .iter()
                .find(|(known, _)| known == mark)
                .map_or(hours.0 + (hours.1 - hours.0) * 0.5, |(_, at)| *at)
        };
        let cures = cure_at(&at);
        let plan = match solve(build, steps, &cures, hours) {
            Ok(plan) => plan,
            Err((fault, tasks)) => {
                findings.push(explain(build, steps, &fault, &tasks));
                return None;
            }
        };
        let next = made(steps, &plan);
        let settled = next == clocks;
        clocks = next;
        best = Some((plan, cures));
        if settled {
            break;
        }
    }
    let (plan, cures) = best?;
    if !plan.proven {
        findings.push(rules::not_proven());
    }
    record(&plan, steps, ledger);
    Some((plan, cures))
}

/// Working hours of a day.
fn hours(build: &Build) -> (Duration, Duration) {
    let clock = |time: jiff::civil::Time| {
        Duration::minutes(f64::from(time.hour()) * 60.0 + f64::from(time.minute()))
    };
    (clock(*build.crew.from), clock(*build.crew.to))
}

fn minutes(time: Duration) -> i64 {
    (time.to_minutes() / GRID as f64).ceil() as i64 * GRID
}

/// The wait of a cure in the grid; what never ends counts as the longest wait.
fn wait_minutes(cures: &[JointCure], cure: &Cure) -> i64 {
    use crate::compute::cure::Stage;
    let stage = match cure.state {
        CureState::Handling => Stage::Handle,
        CureState::Load => Stage::Load,
        CureState::Drive => Stage::Drive,
        CureState::Full => Stage::Full,
    };
    let Some(joint) = cures.iter().find(|joint| joint.mark == cure.mark) else { return 0 };
    // A seal has no stage of carrying; rain is what it waits for.
    let wait = joint.wait(stage).or_else(|| joint.wait(Stage::Rain));
    wait.map_or(0, |wait| minutes(wait.time.unwrap_or(crate::compute::cure::models::LONGEST)))
}

/// A task of the planner and where it came from: index of the step and part.
type Origin = (usize, (usize, usize));

fn solve(
    build: &Build,
    steps: &[Step],
    cures: &[JointCure],
    hours: (Duration, Duration),
) -> Result<Plan, (Fault, Vec<Origin>)> {
    let day = [Window {
        from: hours.0.to_minutes().round() as i64,
        to: hours.1.to_minutes().round() as i64,
        crew: *build.crew.people,
    }];
    let longest = (day[0].to - day[0].from).max(GRID);
    let air = Forecast::of(&build.weather);
    let mut tasks = Vec::new();
    let mut origins: Vec<Origin> = Vec::new();
    let mut lags = Vec::new();
    let mut ends: Vec<usize> = Vec::with_capacity(steps.len());
    let mut starts: Vec<usize> = Vec::with_capacity(steps.len());
    for (index, step) in steps.iter().enumerate() {
        let allowed = allowed(step, cures, &air);
        let room = allowed.as_ref().map_or(longest, |spans| {
            spans
                .iter()
                .map(|s| {
                    s.to.min(day_end(s.from, day[0].to))
                        - s.from.max(day_start(s.from, day[0].from))
                })
                .max()
                .unwrap_or(longest)
        });
        let whole = minutes(step.time).max(GRID);
        let parts = if room >= GRID { (whole + room - 1) / room } else { 1 };
        starts.push(tasks.len());
        let mut left = whole;
        for part in 0..parts {
            let take = if part + 1 == parts { left } else { room / GRID * GRID };
            left -= take;
            if part > 0 {
                lags.push(Lag { from: tasks.len() - 1, to: tasks.len(), minutes: 0 });
            }
            tasks.push(Task {
                name: step.title.clone(),
                minutes: take,
                crew: step.people.max(1),
                uses: step.places.clone(),
                earliest: None,
                latest_finish: None,
                allowed: allowed.clone(),
                when: When::default(),
            });
            origins.push((index, (part as usize + 1, parts as usize)));
        }
        ends.push(tasks.len() - 1);
    }
    let position = |key: &str| steps.iter().position(|step| step.key == key);
    for (index, step) in steps.iter().enumerate() {
        for need in &step.after {
            let Some(before) = position(&need.key) else { continue };
            let wait = need.cures.iter().map(|cure| wait_minutes(cures, cure)).max().unwrap_or(0);
            lags.push(Lag { from: ends[before], to: starts[index], minutes: wait });
        }
    }
    // Driving is a mark in time after the last step and after every joint may be driven with.
    let drive = tasks.len();
    tasks.push(Task {
        name: "drive".into(),
        minutes: 0,
        crew: 0,
        uses: Vec::new(),
        earliest: None,
        latest_finish: None,
        allowed: None,
        when: When::default(),
    });
    let mut latest: Vec<(usize, i64, String)> = Vec::new();
    for (index, step) in steps.iter().enumerate() {
        lags.push(Lag { from: ends[index], to: drive, minutes: 0 });
        for mark in makes(step) {
            let wait = wait_minutes(cures, &Cure { mark: mark.clone(), state: CureState::Drive });
            lags.push(Lag { from: ends[index], to: drive, minutes: wait });
            latest.push((ends[index], wait, mark));
        }
    }
    let windows =
        repeat_days(&day, 0, HORIZON, |_| false).map_err(|fault| (fault, origins.clone()))?;
    let problem = Problem { start: day[0].from, tasks, lags, windows };
    let answer = planning::plan(&problem, usual_nodes(problem.tasks.len()))
        .map_err(|fault| (fault, origins.clone()))?;
    let clock = |minute: i64| Duration::minutes(minute as f64);
    let chain: Vec<usize> = answer.chain.iter().map(|link| link.task).collect();
    let slots: Vec<PlanSlot> = origins
        .iter()
        .enumerate()
        .map(|(task, (step, part))| {
            let slot = &answer.slots[task];
            PlanSlot {
                step: *step,
                part: *part,
                start: clock(slot.start),
                finish: clock(slot.finish),
                people: slot.people.clone(),
                float: clock(slot.slip),
                decides: chain.contains(&task),
            }
        })
        .collect();
    let finish = slots.iter().map(|s| s.finish).fold(Duration::ZERO, Duration::max);
    let may_drive = answer.slots[drive].start;
    let reason = latest
        .iter()
        .find(|(task, wait, _)| answer.slots[*task].finish + wait == may_drive)
        .map_or_else(|| "the last step".to_owned(), |(_, _, mark)| drive_words(cures, mark));
    let mut worked: Vec<i64> =
        slots.iter().map(|s| (s.start.to_minutes() as i64).div_euclid(DAY)).collect();
    worked.sort_unstable();
    worked.dedup();
    Ok(Plan {
        slots,
        finish,
        drive: (clock(may_drive), reason),
        proven: answer.proven,
        work: answer.minutes_by_person.iter().map(|m| clock(*m)).collect(),
        days: worked.len(),
        hours,
    })
}

fn day_start(at: i64, from: i64) -> i64 {
    at.div_euclid(DAY) * DAY + from
}

fn day_end(at: i64, to: i64) -> i64 {
    at.div_euclid(DAY) * DAY + to
}

fn drive_words(cures: &[JointCure], mark: &str) -> String {
    use crate::compute::cure::Stage;
    cures
        .iter()
        .find(|joint| joint.mark == mark)
        .and_then(|joint| joint.wait(Stage::Drive))
        .map_or_else(|| mark.to_owned(), |wait| format!("{mark}: {}", wait.why))
}

/// Hours in which the joints of a step may be made; `None` for a step that makes none.
fn allowed(step: &Step, cures: &[JointCure], air: &Forecast) -> Option<Vec<Stretch>> {
    let marks = makes(step);
    let joints: Vec<&JointCure> =
        cures.iter().filter(|joint| marks.contains(&joint.mark)).collect();
    let surface = joints.iter().map(|joint| joint.surface).reduce(|mut a, b| {
        a.low = a.low.max(b.low);
        a.high = a.high.min(b.high);
        a.margin = a.margin.max(b.margin);
        a
    })?;
    let windows = air.windows(surface.low, surface.high, surface.margin);
    if windows.is_empty() {
        // The cure chapter says so; the plan goes on without it.
        return None;
    }
    let minute = |clock: Duration| clock.to_minutes().round() as i64;
    Some(
        (0..HORIZON)
            .flat_map(|day| {
                windows.iter().map(move |(from, to)| Stretch {
                    from: day * DAY + minute(*from),
                    to: day * DAY + minute(*to),
                })
            })
            .collect(),
    )
}

fn explain(build: &Build, steps: &[Step], fault: &Fault, origins: &[Origin]) -> Finding {
    let title = |task: usize| {
        origins
            .get(task)
            .and_then(|(step, _)| steps.get(*step))
            .map_or("driving", |s| s.title.as_str())
            .to_owned()
    };
    let span = |task: usize| {
        origins
            .get(task)
            .and_then(|(step, _)| steps.get(*step))
            .and_then(|s| s.span)
            .unwrap_or(build.crew.from.span)
    };
    // A step's title is a name; driving is not.
    let spoken =
        |title: &str| if title == "driving" { title.to_owned() } else { format!("“{title}”") };
    let (message, at, help) = match fault {
        Fault::Circle { tasks } => (
            format!(
                "these steps wait for each other: {}",
                tasks.iter().map(|t| title(*t)).collect::<Vec<_>>().join(", ")
            ),
            tasks.first().map_or(build.crew.from.span, |t| span(*t)),
            "move one of the [[step]] tables so that it does not wait for a later one",
        ),
        Fault::CrewTooLarge { task, most } => (
            format!(
                "“{}” needs {} people; the crew has {most}",
                title(*task),
                origins.get(*task).and_then(|(s, _)| steps.get(*s)).map_or(0, |s| s.people)
            ),
            build.crew.people.span,
            "state more people in [crew], or plan that step with a helper",
        ),
        Fault::NoHours => (
            "there are no working hours".to_owned(),
            build.crew.from.span,
            "let day = [\"08:00\", \"18:00\"] end after it begins",
        ),
        Fault::LongerThanAllowed { task, .. }
        | Fault::NoCommonWindow { task, .. }
        | Fault::LongerThanWindow { task, .. } => (
            format!(
                "“{}” fits no hour that both the weather and the working day allow",
                title(*task)
            ),
            build.crew.from.span,
            "move or lengthen the working day, or state warmer or drier weather",
        ),
        Fault::CalendarTooShort { task } => (
            format!(
                "{} can't be done within {HORIZON} days: the waits before it are too long",
                task.map_or_else(|| "driving".to_owned(), |t| spoken(&title(t)))
            ),
            task.map_or(build.crew.from.span, span),
            "look at what the bonds say about their waits: a bead that hardens for months holds all else up",
        ),
        other => (
            format!("no plan: {other}"),
            build.crew.from.span,
            "check [crew], [weather] and the [[step]] tables",
        ),
    };
    let label = if at == build.crew.from.span { "working hours" } else { "" };
    Finding::new(&rules::NO_PLAN, message)
        .at(at, label)
        .means("without a plan nobody knows when the vehicle may be driven")
        .help(help)
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
