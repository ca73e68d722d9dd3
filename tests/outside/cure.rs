//! Moist air, and how long bonds take. Values were read in the sources named, or computed with the
//! library named, unless it says `from memory`.

use crate::support::near;
use rungsheet::compute::cure::daylight::hours_of_light;
use rungsheet::compute::cure::forecast::{Forecast, Limits};
use rungsheet::compute::cure::models::{depth_wait, mixed_wait, open_wait, tape_wait};
use rungsheet::compute::cure::moist_air::{absolute_humidity, dew_point, saturation, vapour};
use rungsheet::compute::cure::threads::thread_wait;
use rungsheet::tables::{Adhesive, Tables};
use rungsheet::units::{Angle, Duration, Length, Ratio, Temperature, TemperatureRise, Volume};

fn steady(celsius: f64, percent: f64) -> Forecast {
    Forecast::steady(Temperature::celsius(celsius), Ratio::percent(percent))
}

fn adhesive(name: &str) -> &'static Adhesive {
    Tables::builtin().adhesive(name).unwrap_or_else(|unknown| panic!("{unknown}"))
}

fn dew(celsius: f64, percent: f64) -> f64 {
    dew_point(Temperature::celsius(celsius), Ratio::percent(percent)).to_celsius()
}

fn fahrenheit(value: f64) -> f64 {
    (value - 32.0) / 1.8
}

/// psychrolib 2.5.0: °C, %, saturation pressure Pa, dew point °C, water g/m³.
const PSYCHROLIB: [(f64, f64, f64, f64, f64); 9] = [
    (23.0, 50.0, 2810.4, 12.028, 10.281),
    (20.0, 70.0, 2338.8, 14.367, 12.101),
    (10.0, 80.0, 1228.0, 6.713, 7.518),
    (30.0, 60.0, 4246.0, 21.388, 18.209),
    (5.0, 90.0, 872.5, 3.498, 6.117),
    (35.0, 30.0, 5627.8, 14.844, 11.872),
    (15.0, 85.0, 1705.4, 12.501, 10.901),
    (40.0, 20.0, 7383.5, 12.783, 10.218),
    (25.0, 50.0, 3169.2, 13.864, 11.516),
];

#[test]
fn moist_air_agrees_with_psychrolib() {
    for (celsius, percent, pressure, dew, water) in PSYCHROLIB {
        let (at, humidity) = (Temperature::celsius(celsius), Ratio::percent(percent));
        near(saturation(at).to_pa(), pressure, 0.004, "saturation");
        let found = dew_point(at, humidity).to_celsius();
        assert!((found - dew).abs() < 0.03, "{celsius} °C, {percent} %: {found}, not {dew}");
        near(absolute_humidity(at, humidity), water, 0.005, "water");
    }
    // Below freezing the library gives a frost point (−2.68 °C at 0 °C, 80 %); over water the form of
    // Sonntag 1990 gives −3.04 °C.
    assert!((dew(0.0, 80.0) + 3.04).abs() < 0.02, "{}", dew(0.0, 80.0));
}

/// A published worked example: 22 °C and 78 % hold 15.14 g/m³, dew at 17.98 °C.
#[test]
fn a_worked_example_of_absolute_humidity() {
    near(
        absolute_humidity(Temperature::celsius(22.0), Ratio::percent(78.0)),
        15.14,
        0.003,
        "water",
    );
    near(dew(22.0, 78.0), 17.98, 0.002, "dew");
}

/// Charts and examples of painters: 70 °F and 65 % dew at 57 °F (psychrolib 57.7), 80 °F and 50 % at
/// 59 °F (59.7; charts cut off), 16 °C and 71 % at 11 °C, 30 °C and 55 % at 20 °C.
#[test]
fn dew_points_of_painters_charts() {
    for (air, percent, chart) in [(70.0, 65.0, 57.0), (80.0, 50.0, 59.0)] {
        let found = dew(fahrenheit(air), percent) * 1.8 + 32.0;
        assert!((found - chart - 0.7).abs() < 0.1, "{air} °F: {found}");
    }
    assert_eq!(dew(16.0, 71.0).round(), 11.0);
    assert_eq!(dew(30.0, 55.0).round(), 20.0);
}

/// The painting guide's rule of 3 K (ISO 8502-4) and its verdict: a skin of 13 °C in air of 16 °C and
/// 71 % is refused; with air of 21 °C and dew at 15 °C (psychrolib 14.73: 67 %) a skin of 19 °C is
/// accepted.
#[test]
fn three_kelvin_over_the_dew_point_decide() {
    let margin = |skin: f64, air: f64, percent: f64| skin - dew(air, percent);
    assert!(margin(13.0, 16.0, 71.0) < 3.0);
    assert!(margin(19.0, 21.0, 67.3) > 3.0);
    // The same rule closes the hours of a day: at 16 °C a skin as warm as the air keeps 3 K up to 82 %.
    let limits = Limits {
        low: Temperature::celsius(5.0),
        high: Temperature::celsius(35.0),
        margin: TemperatureRise::k(3.0),
    };
    let open = |percent: f64| {
        !steady(16.0, percent).windows(&limits, Duration::ZERO, Duration::days(1.0)).is_empty()
    };
    assert!(open(81.0) && !open(84.0));
}

/// Vapour pressure over that of 23 °C and 50 % (psychrolib 2.5.0).
#[test]
fn vapour_pressure_scales_the_clock() {
    let standard = vapour(Temperature::celsius(23.0), Ratio::percent(50.0));
    for (celsius, percent, ratio) in [
        (5.0, 80.0, 0.497),
        (10.0, 50.0, 0.437),
        (10.0, 80.0, 0.699),
        (30.0, 70.0, 2.115),
        (35.0, 90.0, 3.604),
    ] {
        let found = vapour(Temperature::celsius(celsius), Ratio::percent(percent)) / standard;
        near(found, ratio, 0.005, "ratio");
        // The front follows the root of the time: d² goes with p t (Comyn 1998).
        let wait = depth_wait(
            adhesive("hybrid-adhesive"),
            Length::mm(4.0),
            Duration::ZERO,
            &steady(celsius, percent),
        );
        let days = wait.expect("within a year").to_days();
        near(days, (4.0_f64 / 2.0).powi(2) / ratio, 0.006, "days");
    }
}

/// Planning values of the data-sheet class, from memory: 10 mm from one side take 16 days at
/// 2.5 mm/√day and 25 days at 2.0 mm/√day, in air of 23 °C and 50 %.
#[test]
fn depth_grows_with_the_root_of_time() {
    let days = |name: &str, depth: f64| {
        depth_wait(adhesive(name), Length::mm(depth), Duration::ZERO, &steady(23.0, 50.0))
            .expect("within a year")
            .to_days()
    };
    near(days("polyurethane-adhesive", 10.0), 16.0, 1e-3, "polyurethane");
    near(days("lap-sealant", 10.0), 25.0, 1e-3, "lap sealant");
    near(days("lap-sealant", 5.0), 25.0 / 4.0, 1e-3, "half the depth");
}

/// Solvent leaves by diffusion: the time goes with the square of the thickness (Fick; Crank, The
/// mathematics of diffusion), full strength within 30 days from memory of data sheets, half as long with
/// each 10 K more (trade glossary of adhesives in general). Water in the air has no part in it.
#[test]
fn solvent_leaves_by_the_square_of_the_way() {
    let days = |depth: f64, celsius: f64, percent: f64| {
        depth_wait(
            adhesive("lap-sealant-solvent-borne"),
            Length::mm(depth),
            Duration::ZERO,
            &steady(celsius, percent),
        )
        .expect("within a year")
        .to_days()
    };
    near(days(5.0, 23.0, 50.0), 30.0, 1e-3, "the layer of the row");
    near(days(2.5, 23.0, 50.0), 7.5, 1e-3, "half the thickness");
    near(days(2.5, 13.0, 50.0), 15.0, 1e-3, "10 K colder");
    near(days(2.5, 23.0, 90.0), 7.5, 1e-3, "wet air");
    // What it loses is bought too: 70 ml in place were 100 ml of paste, and a share stays in the nozzle.
    let gross = adhesive("lap-sealant-solvent-borne").gross(Volume::ml(70.0));
    near(gross.to_ml(), 115.0, 1e-6, "paste for 70 ml in place");
}

/// What must be closed in time skins sooner in the warm: at 33 °C, 10 K over the sheet's 23 °C, a
/// two-part adhesive's open time is shorter by a maker's factor of 2.38; no air makes it longer than the
/// sheet says.
#[test]
fn open_time_is_shorter_in_the_warm_and_never_longer() {
    let minutes = |celsius| {
        open_wait(adhesive("epoxy-two-part"), Duration::ZERO, &steady(celsius, 50.0))
            .expect("it has an open time")
            .to_minutes()
    };
    near(minutes(33.0), minutes(23.0) / 2.38, 5e-3, "warm");
    near(minutes(5.0), minutes(23.0), 1e-9, "cold");
}

/// Polyurethane follows the later of two clocks: vapour, and a factor of two in 10 K (trade glossary).
/// At 13 °C and 90 % vapour alone would nearly keep the pace of 23 °C and 50 %: the cold decides.
#[test]
fn cold_polyurethane_waits_for_warmth_not_for_water() {
    let days = |celsius, percent| {
        depth_wait(
            adhesive("polyurethane-adhesive"),
            Length::mm(5.0),
            Duration::ZERO,
            &steady(celsius, percent),
        )
        .expect("within a year")
        .to_days()
    };
    near(days(13.0, 90.0) / days(23.0, 50.0), 2.0, 1e-3, "by warmth");
    // In dry air of the same temperature water decides: psychrolib 13 °C and 30 % 449 Pa over 1405 Pa.
    near(days(13.0, 30.0) / days(23.0, 50.0), 1405.2 / 449.3, 0.01, "by water");
}

/// Two-part adhesives: the time halves with every 8 K (a maker's temperature guide, Q10 2.38).
#[test]
fn two_parts_take_half_the_time_in_8_k_more() {
    let full = Duration::hours(24.0);
    let wait = |celsius| {
        mixed_wait(full, TemperatureRise::k(8.0), Duration::ZERO, &steady(celsius, 50.0))
            .expect("within a year")
            .to_hours()
    };
    near(wait(23.0), 24.0, 1e-3, "standard");
    near(wait(15.0), 48.0, 1e-3, "8 K colder");
    near(wait(33.0), 24.0 / 2.38, 3e-3, "10 K warmer");
}

/// Foam tape: 50 % after 20 min and 90 % after 24 h at 21 °C from memory, all after 72 h read in three
/// application guides; 1 h at 66 °C is about 72 h at 21 °C, from memory.
#[test]
fn tape_builds_up_by_the_logarithm_of_time() {
    let tape = Tables::builtin().tape("acrylic-foam-tape").unwrap_or_else(|u| panic!("{u}"));
    let hours = |share: f64, celsius: f64| {
        tape_wait(tape, Ratio::of_one(share), Duration::ZERO, &steady(celsius, 50.0))
            .expect("within a year")
            .to_hours()
    };
    near(hours(0.5, 21.0), 1.0 / 3.0, 0.01, "half");
    near(hours(0.9, 21.0), 24.0, 0.01, "nine tenths");
    near(hours(1.0, 21.0), 72.0, 0.01, "all");
    near(hours(1.0, 66.0), 1.0, 0.1, "hot");
    // Between the points 50 + 21.54 log10(t / 20 min): 75 % after 4.8 h, 85 % after 14.1 h.
    near(hours(0.75, 21.0), 10.0_f64.powf(25.0 / 21.54) / 3.0, 0.03, "three quarters");
    near(hours(0.85, 21.0), 10.0_f64.powf(35.0 / 21.54) / 3.0, 0.03, "85 %");
}

/// Saturation pressure, dew point and water in the air for 68 airs by psychrolib; the table names its
/// version, `moist_air.py` beside it wrote it. The Magnus form of Alduchov and Eskridge is within 0.4 %
/// and 0.05 K of it.
#[test]
fn moist_air_agrees_with_a_table_of_the_library() {
    let mut seen = 0;
    for line in include_str!("reference/moist_air.csv").lines().skip(2) {
        let cells: Vec<f64> =
            line.split(',').map(|cell| cell.parse().expect("the script writes numbers")).collect();
        let [celsius, percent, pressure, dew, water] = cells[..] else { panic!("{line}") };
        let (at, humidity) = (Temperature::celsius(celsius), Ratio::percent(percent));
        near(saturation(at).to_pa(), pressure, 0.004, "saturation");
        near(absolute_humidity(at, humidity), water, 0.005, "water");
        let found = dew_point(at, humidity).to_celsius();
        assert!((found - dew).abs() < 0.05, "{line}: {found}");
        seen += 1;
    }
    assert_eq!(seen, 68);
}

/// Declination of the mean day of each month, from the table of the solar engineering handbook of
/// Duffie and Beckman (from memory), and the day length N = 2/15 acos(−tan φ tan δ) of the same book.
#[test]
fn days_are_as_long_as_the_handbook_says() {
    for (month, day, declination) in [
        (1, 17, -20.9),
        (2, 16, -13.0),
        (3, 16, -2.4),
        (4, 15, 9.4),
        (5, 15, 18.8),
        (6, 11, 23.1),
        (7, 17, 21.2),
        (8, 16, 13.5),
        (9, 15, 2.2),
        (10, 15, -9.6),
        (11, 14, -18.9),
        (12, 10, -23.0),
    ] {
        for latitude in [-35.0_f64, 0.0, 42.0, 55.0] {
            let date = jiff::civil::date(2026, month, day);
            let (from, to) = hours_of_light(date, Angle::deg(latitude));
            let cosine = -latitude.to_radians().tan() * f64::to_radians(declination).tan();
            let hours = 2.0 / 15.0 * cosine.acos().to_degrees();
            let found = (to - from).to_hours();
            assert!((found - hours).abs() < 0.05, "{month}, {latitude}°: {found}, not {hours}");
            assert!(((to + from).to_hours() - 24.0).abs() < 1e-9, "noon is at twelve");
        }
    }
}

/// Threadlocker: three hours at room temperature for the set of an anaerobic ester (handbook of
/// adhesives, table 8.3) lie at three quarters of the chart, and 24 h at its end (three guides); time
/// halves with every 8 K (a maker's guide).
#[test]
fn threadlocker_keeps_the_times_of_the_guides() {
    let locker =
        Tables::builtin().threadlocker("threadlocker-medium").unwrap_or_else(|u| panic!("{u}"));
    let hours = |share, celsius| {
        let air = steady(celsius, 50.0);
        let gap = Length::mm(0.05);
        thread_wait(locker, Ratio::of_one(share), gap, true, Duration::ZERO, &air)
            .expect("it sets")
            .to_hours()
    };
    near(hours(0.75, 22.0), 3.0, 1e-3, "set");
    near(hours(1.0, 22.0), 24.0, 1e-3, "full");
    near(hours(1.0, 14.0), 48.0, 1e-3, "8 K colder");
    near(hours(1.0, 32.0), 24.0 / 2.38, 3e-3, "10 K warmer");
}
