//! Waits that depend on the hour at which they begin, such as a cure in changing air.
//!
//! An end that comes later never lets what waits start sooner, though it may wait a shorter time. A lag
//! of this kind carries its least wait of all hours in the problem, so that every rule made for steady
//! lags holds for it too.

use super::model::Model;

/// What is known of waits by the hour.
#[derive(Clone, Copy)]
pub struct Hours<'a> {
    /// Indices of the lags whose wait depends on the hour.
    pub lags: &'a [usize],
    /// Every such wait is a multiple of this many minutes.
    pub step: i64,
    /// Minutes of wait of a lag after its first task has ended at a minute.
    pub wait: &'a dyn Fn(usize, i64) -> i64,
}

impl std::fmt::Debug for Hours<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Hours").field("lags", &self.lags).field("step", &self.step).finish()
    }
}

impl Hours<'static> {
    /// Every lag is the same at all hours.
    pub const NONE: Self = Self { lags: &[], step: 0, wait: &|_, _| 0 };
}

impl Hours<'_> {
    /// Wait of a lag after an end at a minute, which is `least` where the hour does not count.
    pub(super) fn after(&self, lag: usize, least: i64, end: i64) -> i64 {
        if self.lags.contains(&lag) { (self.wait)(lag, end).max(least) } else { least }
    }
}

/// A lag by the hour between two free tasks; `least` is from start to start.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct HourArc {
    pub(super) from: usize,
    pub(super) to: usize,
    pub(super) lag: usize,
    pub(super) least: i64,
}

/// The waits of a problem in grid steps.
#[derive(Clone, Copy, Debug)]
pub(super) struct Clocked<'a> {
    pub(super) model: &'a Model,
    pub(super) hours: Hours<'a>,
}

impl Clocked<'_> {
    /// First start of the second task when the first starts at a step.
    pub(super) fn ready(&self, arc: &HourArc, start: i64) -> i64 {
        let model = self.model;
        let end = start + model.steps[arc.from];
        let wait = (self.hours.wait)(arc.lag, model.minute(end));
        (end + wait / model.grid).max(start + arc.least)
    }

    /// Last start of the first task that lets the second start at a step.
    pub(super) fn last(&self, arc: &HourArc, second: i64) -> i64 {
        let late = |start: i64| self.ready(arc, start) > second;
        let mut high = second - arc.least;
        if !late(high) {
            return high;
        }
        // `high` is too late; find one that is not, then halve between them.
        let mut reach = 1;
        while late(high - reach) {
            high -= reach;
            reach *= 2;
        }
        let mut low = high - reach;
        while high - low > 1 {
            let middle = low + (high - low) / 2;
            if late(middle) {
                high = middle;
            } else {
                low = middle;
            }
        }
        low
    }
}
