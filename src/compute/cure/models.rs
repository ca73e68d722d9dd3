//! How far a bond has come after a time in changing air.

use super::forecast::{Forecast, Moment};
use super::moist_air::vapour;
use crate::tables::{Adhesive, Cure, Tape};
use crate::units::{Duration, Length, Ratio, Temperature, TemperatureRise};

/// Step of integration.
const STEP: Duration = Duration::minutes(15.0);
/// Nobody waits longer; a bond that needs more is told as "longer".
pub const LONGEST: Duration = Duration::days(365.0);
/// Air that data sheets give depth for.
const STANDARD: (f64, f64) = (23.0, 50.0);

/// Time from `start` (clock) until the tape has this share of its final strength.
pub fn tape_wait(tape: &Tape, share: Ratio, start: Duration, air: &Forecast) -> Option<Duration> {
    wait(
        start,
        air,
        |moment| tape.rate(moment.temperature),
        |aged| tape.built_up_share(Duration::seconds(aged)) >= share,
    )
}

/// Time from `start` (clock) until the adhesive has hardened to a depth from one open face. `None` for
/// what does not harden from a face inwards, or not within a year.
///
/// The front moves by d² ∝ p t under vapour pressure p (permeability does not depend on humidity),
/// and, where chemistry may be slower, by the lesser of that and Q10.
pub fn depth_wait(
    adhesive: &Adhesive,
    depth: Length,
    start: Duration,
    air: &Forecast,
) -> Option<Duration> {
    match adhesive.cure {
        Cure::Moisture { first_day, by_vapour, q10, .. } => {
            let day = Duration::days(1.0).to_seconds();
            // Seconds of standard air that the depth needs: d = d₁ √(t / 1 d).
            let needed = day * (depth / first_day).powi(2);
            wait(start, air, |moment| moisture_rate(*moment, by_vapour, q10), |aged| aged >= needed)
        }
        // Solvent leaves by diffusion: the time goes with the square of its way (Fick).
        Cure::Dries { through, layer, halves_per } => {
            mixed_wait(through * (depth / layer).powi(2), halves_per, start, air)
        }
        Cure::Mixed { .. } | Cure::StaysSoft => None,
    }
}

/// Time from `start` until a two-part adhesive that takes `full` at 23 °C has hardened through; each
/// warming by `halves_per` halves the time.
pub fn mixed_wait(
    full: Duration,
    halves_per: TemperatureRise,
    start: Duration,
    air: &Forecast,
) -> Option<Duration> {
    warm_wait(full, Temperature::celsius(STANDARD.0), halves_per, start, air)
}

/// Time from `start` for what takes `time` at a temperature and half as long with each `halves_per`
/// more.
pub fn warm_wait(
    time: Duration,
    at: Temperature,
    halves_per: TemperatureRise,
    start: Duration,
    air: &Forecast,
) -> Option<Duration> {
    let rate = |moment: &Moment| 2.0_f64.powf((moment.temperature - at) / halves_per);
    wait(start, air, rate, |aged| aged >= time.to_seconds())
}

/// Time from `start` until a sealant that is firm throughout a thin layer after `firm` in standard air
/// is so in this air; it keeps the pace of the front.
pub fn firm_wait(
    adhesive: &Adhesive,
    firm: Duration,
    start: Duration,
    air: &Forecast,
) -> Option<Duration> {
    match adhesive.cure {
        Cure::Moisture { by_vapour, q10, .. } => {
            let enough = firm.to_seconds();
            wait(start, air, |moment| moisture_rate(*moment, by_vapour, q10), |aged| aged >= enough)
        }
        Cure::Mixed { halves_per, .. } | Cure::Dries { halves_per, .. } => {
            mixed_wait(firm, halves_per, start, air)
        }
        Cure::StaysSoft => Some(firm),
    }
}

/// Time in which a joint must be closed in this air, by the sheet's time in standard air: shorter in
/// the warm and the wet, never told longer than the sheet's.
pub fn open_wait(adhesive: &Adhesive, start: Duration, air: &Forecast) -> Option<Duration> {
    let stated = adhesive.open_time?;
    firm_wait(adhesive, stated, start, air).map(|wait| wait.min(stated))
}

/// Time from `start` until a skin forms, at the longer of the sheet's two times in standard air.
pub fn skin_wait(adhesive: &Adhesive, start: Duration, air: &Forecast) -> Option<Duration> {
    let [_, long] = adhesive.skin?;
    firm_wait(adhesive, long, start, air)
}

/// Depth from one open face that has hardened in `time` from `start`: the other way round from
/// [`depth_wait`].
pub fn depth_after(
    adhesive: &Adhesive,
    time: Duration,
    start: Duration,
    air: &Forecast,
) -> Option<Length> {
    let aged = |rate: &dyn Fn(Moment) -> f64| {
        let (mut aged, mut passed) = (0.0, Duration::ZERO);
        while passed < time {
            let step = STEP.min(time - passed);
            aged += rate(air.at(start + passed + step * 0.5)) * step.to_seconds();
            passed += step;
        }
        Duration::seconds(aged)
    };
    match adhesive.cure {
        Cure::Moisture { by_vapour, q10, .. } => {
            adhesive.depth_after(aged(&|moment| moisture_rate(moment, by_vapour, q10)))
        }
        Cure::Dries { halves_per, .. } => adhesive.depth_after(aged(&|moment| {
            2.0_f64.powf((moment.temperature - Temperature::celsius(STANDARD.0)) / halves_per)
        })),
        Cure::Mixed { .. } | Cure::StaysSoft => None,
    }
}

/// Seconds of standard air that one second of this air is worth.
fn moisture_rate(moment: Moment, by_vapour: bool, q10: Option<f64>) -> f64 {
    let standard = vapour(Temperature::celsius(STANDARD.0), Ratio::percent(STANDARD.1));
    let by_moisture = if by_vapour { moment.vapour() / standard } else { 1.0 };
    let by_warmth = q10.map_or(f64::INFINITY, |factor| {
        factor.powf((moment.temperature.to_celsius() - STANDARD.0) / 10.0)
    });
    by_moisture.min(by_warmth)
}

/// Steps through the hours until the aged time is enough; the last step is cut to fit.
fn wait(
    start: Duration,
    air: &Forecast,
    rate: impl Fn(&Moment) -> f64,
    enough: impl Fn(f64) -> bool,
) -> Option<Duration> {
    let mut aged = 0.0;
    let mut passed = Duration::ZERO;
    // Where each day is like the one before, a whole one is counted once.
    let day = Duration::days(1.0);
    let mut since: Option<(Duration, f64)> = None;
    let mut counted = false;
    // The tables of waits are in steady air, and are most of all steps that are taken.
    let steady = air.is_steady().then(|| rate(&air.at(start)));
    while passed < LONGEST {
        if enough(aged) {
            return Some(passed);
        }
        let here = || rate(&air.at(start + passed + STEP * 0.5));
        let gain = steady.unwrap_or_else(here) * STEP.to_seconds();
        if enough(aged + gain) {
            // Halve the last step down to a second.
            let (mut low, mut high) = (0.0, 1.0);
            while (high - low) * STEP.to_seconds() > 1.0 {
                let half = 0.5 * (low + high);
                if enough(aged + gain * half) { high = half } else { low = half }
            }
            return Some(passed + STEP * high);
        }
        aged += gain;
        passed += STEP;
        match since {
            _ if counted => {}
            None if start + passed >= air.repeats() => since = Some((passed, aged)),
            Some((from, before)) if passed - from >= day => {
                let by_day = aged - before;
                while passed + day < LONGEST && !enough(aged + by_day) {
                    aged += by_day;
                    passed += day;
                }
                counted = true;
            }
            _ => {}
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tables::Tables;

    fn steady(t: f64, rh: f64) -> Forecast {
        Forecast::steady(Temperature::celsius(t), Ratio::percent(rh))
    }

    fn hybrid() -> Adhesive {
        Tables::builtin().adhesive("hybrid-adhesive").expect("built in").clone()
    }

    #[test]
    fn constant_air_gives_the_closed_form() {
        let adhesive = hybrid();
        let Cure::Moisture { first_day, .. } = adhesive.cure else {
            panic!("hardens with moisture")
        };
        for depth in [1.0, 3.0, 5.0, 8.0] {
            let got = depth_wait(&adhesive, Length::mm(depth), Duration::ZERO, &steady(23.0, 50.0));
            let days = (depth / first_day.to_mm()).powi(2);
            let got = got.expect("within a year").to_days();
            assert!((got / days - 1.0).abs() < 1e-3, "{depth} mm: {got} d against {days} d");
        }
    }

    #[test]
    fn wetter_or_warmer_is_never_slower() {
        let adhesive = hybrid();
        let hours = |t, rh| {
            depth_wait(&adhesive, Length::mm(4.0), Duration::ZERO, &steady(t, rh))
                .expect("in a year")
                .to_hours()
        };
        for t in [5.0, 10.0, 20.0, 30.0] {
            assert!(hours(t, 40.0) >= hours(t, 60.0) && hours(t, 60.0) >= hours(t, 80.0));
        }
        for rh in [40.0, 60.0, 80.0] {
            assert!(hours(5.0, rh) >= hours(15.0, rh) && hours(15.0, rh) >= hours(30.0, rh));
        }
    }

    #[test]
    fn tape_meets_its_build_up_points() {
        let tape = Tables::builtin().tape("acrylic-foam-tape").expect("built in");
        for (time, share) in &tape.built_up {
            let air = Forecast::steady(tape.built_up_at, Ratio::percent(50.0));
            let got = tape_wait(tape, *share, Duration::ZERO, &air).expect("in a year");
            assert!((got / *time - 1.0).abs() < 0.01, "{share:?}: {got:?} against {time:?}");
        }
    }
}
