//! The hours in which a step may be done: light on the roof, and air that suits what is joined.

use super::{GRID, HORIZON, makes};
use crate::compute::cure::forecast::{Forecast, Limits};
use crate::compute::cure::{JointCure, JointKind};
use crate::compute::planning::{DAY, Span};
use crate::compute::steps::Step;
use crate::units::{Duration, Temperature, TemperatureRise};

/// Nothing but rain is outside these.
const DRY: Limits = Limits {
    low: Temperature::celsius(-90.0),
    high: Temperature::celsius(150.0),
    margin: TemperatureRise::k(-100.0),
};

/// Whether it is done out on the roof, where light is needed.
pub(super) fn outside(step: &Step) -> bool {
    step.places.iter().any(|place| place == "roof" || place == "ladder")
}

/// Limits of the skin for what a step cleans, primes, bonds, tapes or seals.
pub(super) fn limits(step: &Step, cures: &[JointCure]) -> Option<Limits> {
    let mut marks = makes(step, cures);
    if step.dries.is_some() {
        marks.extend(step.works_on.iter().cloned());
    }
    cures
        .iter()
        .filter(|joint| joint.kind != JointKind::Threads && marks.contains(&joint.mark))
        .map(|joint| joint.surface)
        .reduce(Limits::and)
}

/// Hours in which a step may be done, over all days that are planned; `None`: any.
pub(super) fn allowed(step: &Step, cures: &[JointCure], air: &Forecast) -> Option<Vec<Span>> {
    let limits = limits(step, cures);
    let dry = step.weather.starts_with("dry");
    let out = outside(step);
    if limits.is_none() && !dry && !out {
        return None;
    }
    let days = i64::from(air.days());
    let spans = |limits: &Limits| -> Vec<Vec<Span>> {
        (0..days)
            .map(|day| {
                let from = Duration::days(day as f64);
                air.windows(limits, from, from + Duration::days(1.0))
                    .into_iter()
                    .map(|(a, b)| Span { from: minute(a - from), to: minute(b - from) })
                    .collect()
            })
            .collect()
    };
    let mut by_day = spans(&limits.unwrap_or(DRY));
    if by_day.iter().all(Vec::is_empty) {
        // The cure chapter says so; the plan goes on without that limit.
        by_day = vec![vec![Span { from: 0, to: DAY }]];
    }
    let light = light(air);
    let all = (0..HORIZON).flat_map(|day| {
        let model = (day as usize).min(by_day.len() - 1);
        by_day[model].iter().map(move |span| {
            let (from, to) = if out {
                (span.from.max(light.from), span.to.min(light.to))
            } else {
                (span.from, span.to)
            };
            Span { from: day * DAY + from, to: day * DAY + to }
        })
    });
    Some(all.filter(|span| span.to > span.from).collect())
}

/// Hours of light of a day, drawn in to whole quarters.
fn light(air: &Forecast) -> Span {
    let quarter = 3 * GRID;
    let (from, to) = air.light();
    let (from, to) = (minute(from), minute(to));
    Span { from: (from + quarter - 1) / quarter * quarter, to: to / quarter * quarter }
}

fn minute(clock: Duration) -> i64 {
    clock.to_minutes().round() as i64
}

/// The longest stretch of one day in which a step may be done, within working hours.
pub(super) fn longest(allowed: Option<&[Span]>, day: &Span) -> i64 {
    let whole = day.to - day.from;
    allowed.map_or(whole, |spans| {
        spans
            .iter()
            .map(|span| {
                let midnight = span.from.div_euclid(DAY) * DAY;
                span.to.min(midnight + day.to) - span.from.max(midnight + day.from)
            })
            .max()
            .unwrap_or(0)
            .max(0)
    })
}
