//! What was recorded as done: facts that the rest is planned around.

use super::{GRID, rules};
use crate::build::Build;
use crate::compute::cure::forecast::{Forecast, days_between};
use crate::compute::cure::{JointCure, Made};
use crate::compute::steps::Step;
use crate::source::Finding;
use crate::units::{Duration, Ratio, TemperatureRise};
use jiff::civil::{Date, Time};

/// A step that was done, in minutes from midnight before the first day.
#[derive(Debug, Clone, Copy)]
pub(super) struct Done {
    /// Index of the step.
    pub step: usize,
    /// Index of its record in the build file.
    pub record: usize,
    /// When it began.
    pub start: i64,
    /// When it ended, or will by its work time.
    pub finish: i64,
    /// Whether its end was stated.
    pub ended: bool,
    /// Measured air less the forecast's.
    pub warmer: TemperatureRise,
    /// The same of humidity.
    pub wetter: Ratio,
}

/// Facts of the records, each step once; a record of no step is told.
pub(super) fn done(build: &Build, steps: &[Step], findings: &mut Vec<Finding>) -> Vec<Done> {
    let air = Forecast::of(build);
    let mut list: Vec<Done> = Vec::new();
    for (record, entry) in build.records.iter().enumerate() {
        let wanted = entry.step.trim();
        let found = steps
            .iter()
            .position(|step| step.key == wanted || step.title.eq_ignore_ascii_case(wanted));
        let Some(step) = found else {
            findings.push(rules::no_such_record(steps, &entry.step));
            continue;
        };
        if let Some(known) = list.iter().find(|known| known.step == step) {
            let first = build.records[known.record].step.span;
            findings.push(rules::recorded_twice(&steps[step].title, entry.step.span, first));
            continue;
        }
        let start = minute(*build.crew.start, *entry.started).div_euclid(GRID) * GRID;
        let work = super::minutes(steps[step].time).max(GRID);
        let finish = entry.finished.as_ref().map_or(start + work, |finished| {
            let end = minute(*build.crew.start, **finished);
            ((end + GRID - 1).div_euclid(GRID) * GRID).max(start)
        });
        let then = air.at(Duration::minutes(start as f64));
        list.push(Done {
            step,
            record,
            start,
            finish,
            ended: entry.finished.is_some(),
            warmer: entry
                .temperature
                .as_ref()
                .map_or(TemperatureRise::ZERO, |t| t.value - then.temperature),
            wetter: entry.humidity.as_ref().map_or(Ratio::ZERO, |h| h.value - then.humidity),
        });
    }
    list
}

/// Minute of a date and clock from midnight before the first day.
fn minute(first: Date, (date, time): (Date, Time)) -> i64 {
    i64::from(days_between(first, date)) * planning_day()
        + i64::from(time.hour()) * 60
        + i64::from(time.minute())
}

const fn planning_day() -> i64 {
    crate::compute::planning::DAY
}

/// The clock before which nothing that is still to do can start: the latest that was recorded.
pub(super) fn now(done: &[Done]) -> Option<i64> {
    done.iter().map(|done| if done.ended { done.finish } else { done.start }).max()
}

/// How the air of a joint differs from the forecast, by the record of the step that made it.
pub(super) fn made(done: &[Done], step: usize, at: Duration) -> Made {
    done.iter().find(|done| done.step == step).map_or(Made::at(at), |done| Made {
        at,
        warmer: done.warmer,
        wetter: done.wetter,
    })
}

/// Joints that were made in air that was not fit for them.
pub(super) fn judge(
    build: &Build,
    steps: &[Step],
    cures: &[JointCure],
    done: &[Done],
    findings: &mut Vec<Finding>,
) {
    let air = Forecast::of(build);
    for fact in done {
        let step = &steps[fact.step];
        let Some(limits) = super::hours::limits(step, cures) else { continue };
        let air = air.corrected(fact.warmer, fact.wetter);
        let start = Duration::minutes(fact.start as f64);
        let short = air.misses(&limits, start);
        if short <= 0.0 {
            continue;
        }
        // First in the air as it was measured, then by the forecast from the next day on.
        let tomorrow = Duration::days((start / Duration::days(1.0)).floor() + 1.0);
        let next = air
            .next_window(&limits, start, step.time)
            .or_else(|| Forecast::of(build).next_window(&limits, tomorrow, step.time));
        findings.push(rules::made_outside(build, step, fact.record, (&limits, short, next)));
    }
}
