//! Why there is no plan, in workshop words.

use super::{HORIZON, Origin, hours, rules};
use crate::build::Build;
use crate::compute::cure::forecast::Forecast;
use crate::compute::cure::{JointCure, date_words};
use crate::compute::planning::Fault;
use crate::compute::steps::Step;
use crate::source::Finding;
use crate::units::Duration;

pub(super) fn explain(
    build: &Build,
    steps: &[Step],
    cures: &[JointCure],
    fault: &Fault,
    origins: &[Origin],
) -> Finding {
    let title = |task: usize| {
        origins
            .get(task)
            .and_then(|origin| steps.get(origin.step))
            .map_or("driving", |s| s.title.as_str())
            .to_owned()
    };
    let span = |task: usize| {
        origins
            .get(task)
            .and_then(|origin| steps.get(origin.step))
            .and_then(|s| s.span)
            .unwrap_or(build.crew.from.span)
    };
    // A step's title is a name; driving is not.
    let spoken =
        |title: &str| if title == "driving" { title.to_owned() } else { format!("“{title}”") };
    // A wait that fills a good part of the days looked ahead is the likely reason.
    let long_wait = build
        .steps
        .iter()
        .filter_map(|own| own.wait.as_ref())
        .filter(|wait| ***wait > Duration::days(HORIZON as f64) / 4.0)
        .max_by(|a, b| a.total_cmp(b));
    let (message, at, help) = match fault {
        Fault::Circle { tasks } => (
            match tasks.as_slice() {
                [one] => format!("{} waits for itself", spoken(&title(*one))),
                _ => format!(
                    "these steps wait for each other: {}",
                    tasks.iter().map(|t| spoken(&title(*t))).collect::<Vec<_>>().join(", ")
                ),
            },
            tasks.first().map_or(build.crew.from.span, |t| span(*t)),
            "change `before` or `after` of one of these [[step]] tables, so that none waits for a later one",
        ),
        Fault::CrewTooLarge { task, most } => (
            format!(
                "“{}” needs {} people; the crew has {most}",
                title(*task),
                origins.get(*task).and_then(|o| steps.get(o.step)).map_or(0, |s| s.people)
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
                "“{}” fits no hours that light, weather and the working day allow together",
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
            long_wait.map_or(task.map_or(build.crew.from.span, span), |wait| wait.span),
            if long_wait.is_some() {
                "shorten this `wait`, or leave the step out of the plan and do it another year"
            } else {
                "look at what the bonds say about their waits: a bead that hardens for months holds all else up"
            },
        ),
        other => (
            format!("no plan: {other}"),
            build.crew.from.span,
            "check [crew], [weather] and the [[step]] tables",
        ),
    };
    let label = if at == build.crew.from.span { "working hours" } else { "" };
    let finding = Finding::new(&rules::NO_PLAN, message)
        .at(at, label)
        .means("without a plan nobody knows when the vehicle may be driven")
        .help(help);
    let task = match fault {
        Fault::LongerThanAllowed { task, .. }
        | Fault::NoCommonWindow { task, .. }
        | Fault::LongerThanWindow { task, .. } => *task,
        _ => return finding,
    };
    match origins.get(task).and_then(|origin| steps.get(origin.step)) {
        Some(step) => good_hours(build, step, cures, finding),
        None => finding,
    }
}

/// Adds the hours of the next days that air and light allow.
fn good_hours(build: &Build, step: &Step, cures: &[JointCure], finding: Finding) -> Finding {
    let air = Forecast::of(build);
    let light = air.light();
    let finding = if hours::outside(step) {
        finding.help(format!(
            "it is light enough on the roof from {} to {}",
            day_clock(light.0),
            day_clock(light.1)
        ))
    } else {
        finding
    };
    let Some(limits) = hours::limits(step, cures) else { return finding };
    let next = air.next_window(&limits, Duration::ZERO, step.time);
    finding.help(next.map_or_else(
        || "the forecast has no hours long enough in which the skin is fit".to_owned(),
        |(from, to)| {
            format!(
                "the next hours in which the skin is fit: {} to {}",
                date_words(*build.crew.start, from),
                date_words(*build.crew.start, to)
            )
        },
    ))
}

/// "08:00".
fn day_clock(clock: Duration) -> String {
    let minutes = clock.to_minutes().round() as i64;
    format!("{:02}:{:02}", minutes / 60, minutes % 60)
}
