//! Waits.

use proptest::prelude::*;
use rungsheet::compute::cure::forecast::Forecast;
use rungsheet::compute::cure::models::{LONGEST, depth_wait, tape_wait};
use rungsheet::compute::cure::moist_air::dew_point;
use rungsheet::tables::{Cure, Tables};
use rungsheet::units::{Duration, Length, Ratio, Temperature};

/// A wait is worked out to a second.
const SECOND: Duration = Duration::seconds(1.5);

fn steady(celsius: f64, percent: f64) -> Forecast {
    Forecast::steady(Temperature::celsius(celsius), Ratio::percent(percent))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Warmer or wetter air never makes a bead wait longer, a deeper bead is never through sooner.
    #[test]
    fn warmer_or_wetter_is_never_slower(
        celsius in 0.0..30.0_f64,
        warmer in 0.0..10.0_f64,
        percent in 25.0..80.0_f64,
        wetter in 0.0..20.0_f64,
        depth in 0.5..5.0_f64,
    ) {
        for adhesive in &Tables::builtin().adhesives {
            if !matches!(adhesive.cure, Cure::Moisture { .. }) {
                continue;
            }
            let wait = |celsius, percent| {
                let air = steady(celsius, percent);
                depth_wait(adhesive, Length::mm(depth), Duration::ZERO, &air).unwrap_or(LONGEST)
            };
            let here = wait(celsius, percent);
            prop_assert!(wait(celsius + warmer, percent) <= here + SECOND, "{}", adhesive.name);
            prop_assert!(wait(celsius, percent + wetter) <= here + SECOND, "{}", adhesive.name);
            let deeper = Length::mm(depth + 0.5);
            let deeper = depth_wait(adhesive, deeper, Duration::ZERO, &steady(celsius, percent));
            prop_assert!(deeper.unwrap_or(LONGEST) + SECOND >= here, "{}", adhesive.name);
        }
    }

    /// Warmer tape is never slower, and a higher share never comes first.
    #[test]
    fn tape_is_quicker_in_the_warm(
        celsius in 5.0..30.0_f64,
        warmer in 0.0..10.0_f64,
        low in 0.3..0.9_f64,
        more in 0.0..0.1_f64,
    ) {
        let tape = Tables::builtin().tape("acrylic-foam-tape").expect("a tape");
        let wait = |celsius, share| {
            let air = steady(celsius, 50.0);
            tape_wait(tape, Ratio::of_one(share), Duration::ZERO, &air).unwrap_or(LONGEST)
        };
        prop_assert!(wait(celsius + warmer, low) <= wait(celsius, low) + SECOND);
        prop_assert!(wait(celsius, low + more) + SECOND >= wait(celsius, low));
    }

    /// Dew forms below the air's temperature, and nearer to it in wetter air.
    #[test]
    fn dew_forms_below_the_air(celsius in -10.0..40.0_f64, percent in 5.0..99.0_f64) {
        let dew = |percent| {
            dew_point(Temperature::celsius(celsius), Ratio::percent(percent)).to_celsius()
        };
        prop_assert!(dew(percent) < celsius);
        prop_assert!(dew(percent + 1.0) > dew(percent));
    }
}
