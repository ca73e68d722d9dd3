//! Threadlocker: how long until bolts that it holds may be shaken.

use super::forecast::Forecast;
use super::models;
use crate::tables::{Thread, Threadlocker};
use crate::units::{Duration, Length, Ratio};

/// Share of full strength by hours on active metal at the temperature of the row. Shape of charts in
/// makers' sheets, from memory.
const CHART: [(f64, f64); 4] = [(1.0, 0.5), (3.0, 0.75), (6.0, 0.85), (24.0, 1.0)];
/// Times from the gap of full strength to the slow one; from memory.
const SLOWER: f64 = 2.0;
/// Share that metals other than plain steel and brass reach without an activator; from memory.
const WITHOUT_ACTIVATOR: f64 = 0.5;

/// Mean gap between the flanks of bolt and nut, on one side, for the usual fit 6H/6g: half of the
/// allowance es = 15 + 11 P and of half of both tolerances, 90 P^0.4 d^0.1 for the bolt and 1.32 times
/// that for the nut, in µm (ISO 965-1, formulas from memory).
pub fn mean_gap(thread: &Thread) -> Length {
    let (pitch, diameter) = (thread.pitch.to_mm(), thread.diameter.to_mm());
    let bolt = 90.0 * pitch.powf(0.4) * diameter.powf(0.1);
    let across = 15.0 + 11.0 * pitch + 0.5 * (bolt + 1.32 * bolt);
    Length::mm(across / 2.0 / 1000.0)
}

/// Time from `start` until a threadlocker has this share of its strength. `None` where it never will:
/// the gap is beyond its limit, or the metal is passive and no activator is used.
pub fn thread_wait(
    locker: &Threadlocker,
    share: Ratio,
    gap: Length,
    active: bool,
    start: Duration,
    air: &Forecast,
) -> Option<Duration> {
    if gap > locker.gap_limit || (!active && share.to_fraction() > WITHOUT_ACTIVATOR) {
        return None;
    }
    // Doubled from the full gap to the slow one, and so on beyond.
    let wide = (locker.gap_slow - locker.gap_full).max(Length::mm(0.001));
    let slower = SLOWER.powf(((gap - locker.gap_full) / wide).max(0.0));
    let needed = locker.full_cure * (hours(share.to_fraction()) / 24.0) * slower;
    models::warm_wait(needed, locker.cure_at, locker.halves_per, start, air)
}

/// Hours of the chart, by the logarithm of time between its points.
fn hours(share: f64) -> f64 {
    let pair = CHART.windows(2).find(|pair| share <= pair[1].1);
    let Some([(t0, s0), (t1, s1)]) = pair else { return CHART[CHART.len() - 1].0 };
    t0 * (t1 / t0).powf((share - s0) / (s1 - s0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tables::Tables;
    use crate::units::Temperature;

    fn wait(share: f64, gap: f64, active: bool, celsius: f64) -> Option<f64> {
        let locker = Tables::builtin().threadlocker("threadlocker-medium").expect("built in");
        let air = Forecast::steady(Temperature::celsius(celsius), Ratio::percent(50.0));
        let gap = Length::mm(gap);
        thread_wait(locker, Ratio::of_one(share), gap, active, Duration::ZERO, &air)
            .map(Duration::to_hours)
    }

    #[test]
    fn cold_and_wide_gaps_are_slower_and_passive_metal_never_gets_there() {
        let close = |a: Option<f64>, b: f64| a.is_some_and(|a| (a / b - 1.0).abs() < 1e-3);
        assert!(close(wait(1.0, 0.05, true, 22.0), 24.0));
        assert!(close(wait(1.0, 0.15, true, 22.0), 48.0));
        assert!(close(wait(1.0, 0.05, true, 14.0), 48.0));
        assert!(close(wait(0.85, 0.05, true, 22.0), 6.0));
        assert_eq!(wait(0.85, 0.05, false, 22.0), None);
        assert_eq!(wait(0.85, 0.26, true, 22.0), None);
    }

    #[test]
    fn threads_of_the_usual_fit_are_within_the_limit() {
        let m6 = Tables::builtin().thread("M6").expect("built in");
        // es 26 µm, bolt 108 µm, nut 142 µm: 26 + 125 = 151 µm across, 75 µm on a side.
        assert!((mean_gap(m6).to_mm() - 0.0754).abs() < 0.001, "{:?}", mean_gap(m6));
    }
}
