//! A whole array on its mounts: common practice, statics of bolts and rivets, and how the governing
//! number moves.

use crate::support::{Worked, near, worked};
use rungsheet::compute::bonding::Joints;
use rungsheet::compute::loads::{self, Circumstances, Situation, Spring, Wrench, sharing};
use rungsheet::compute::reserve::AtSpeed;
use rungsheet::source::Severity;
use rungsheet::tables::Tables;
use rungsheet::units::{Angle, Speed};
use std::fmt::Write;

/// Two panels, rear edge hinged, front edge on two taped plates, 137 km/h over 40 000 km: common
/// practice, no source.
const PRACTICE: &str = include_str!("common-practice.toml");

fn governing(made: &Worked) -> f64 {
    made.results.bonds.iter().map(|bond| bond.governing().share).fold(0.0, f64::max)
}

fn stopped(made: &Worked) -> bool {
    made.findings.iter().any(|finding| finding.severity == Severity::Stop)
}

#[test]
fn what_held_for_years_holds_here() {
    let made = worked(PRACTICE);
    assert!(!stopped(&made), "{:#?}", made.findings);
    let most = governing(&made);
    assert!((0.4..=1.0).contains(&most), "{most}");
    for entry in &made.results.metal.uses {
        assert!(entry.share <= 1.0, "{} {}: {}", entry.at, entry.what, entry.share);
    }
}

#[test]
fn a_leg_beside_the_middle_peels() {
    let made = worked(
        &PRACTICE.replace("width = 100, thickness = 3", "width = 100, thickness = 3, shift = 25"),
    );
    let most = governing(&made);
    assert!(most > governing(&worked(PRACTICE)) * 1.2 && most >= 0.8, "{most}");
    let found = [made.raised("B002"), made.raised("B003")].concat();
    assert_eq!(found.len(), 1);
    assert!(found[0].helps[0].contains("shift = 0"), "{:?}", found[0].helps);
}

#[test]
fn small_plates_stop() {
    for tape in ["width = 25, thickness = 2.3", "width = 19, thickness = 2.3"] {
        let made = worked(
            &PRACTICE
                .replace("length = 200, width = 100", "length = 60, width = 40")
                .replace("angle-length = 160", "angle-length = 60")
                .replace("width = 25, thickness = 2.3", tape),
        );
        assert!(stopped(&made));
        // Strips wider than the plate overlap and are told by themselves.
        assert!(!made.raised("B002").is_empty(), "{:#?}", made.findings);
    }
}

/// What a remedy promises, it keeps: the plate that is offered is built and used as told.
#[test]
fn the_plate_that_is_offered_does_it() {
    let made = worked(PRACTICE);
    let help = &made.raised("B003")[0].helps[0];
    let number = |after: &str| -> f64 {
        let rest = help.split(after).nth(1).expect("it is told");
        let digits: String = rest.chars().take_while(|c| c.is_ascii_digit() || *c == '.').collect();
        digits.parse().expect("a number")
    };
    let (long, wide, told) = (number("at least "), number(" × "), number("brings it to "));
    let strips = if help.contains("three strips") { 3 } else { 2 };
    let mended = worked(&plates(long, wide, strips));
    near(governing(&mended), told, 0.01, "use");
    assert!(mended.raised("B003").is_empty());
}

/// The build with other plates.
fn plates(long: f64, wide: f64, strips: u32) -> String {
    PRACTICE
        .replace("length = 200, width = 100", &format!("length = {long}, width = {wide}"))
        .replace("strips = 2", &format!("strips = {strips}"))
}

/// The bond sheet's least plate does it as told, and one that is 10 mm shorter does not; so do the
/// fewest feet.
#[test]
fn the_least_that_would_do_does_and_no_less() {
    let wide = "length = 300, width = 140";
    let made = worked(&PRACTICE.replace("length = 200, width = 100", wide));
    let bond = &made.results.bonds[0];
    let least = bond.least.as_ref().expect("worked out");
    let plate = least.plate.as_ref().expect("a plate does it");
    let (long, width) = (plate.length.to_mm(), plate.width.to_mm());
    assert!(long * width < 300.0 * 140.0, "{plate:?}");
    let same = worked(&plates(long, width, plate.strips));
    near(governing(&same), plate.share, 1e-9, "use");
    assert!(plate.share <= 0.8 && !stopped(&same));
    let shorter = worked(&plates(long - 10.0, width, plate.strips));
    assert!(governing(&shorter) > 0.8 || stopped(&shorter), "{}", governing(&shorter));
    let (count, share) = least.feet.expect("two feet hold it");
    assert_eq!(count, 2);
    near(share, governing(&made), 1e-9, "as it is");
    near(made.figure("bonding.smallest-plate.F1"), plate.share, 1e-12, "told");
}

/// The table for the day: any two mounts gone leave no bond more used than the column of the worst pair
/// says, more gone is never better, and faster is never better.
#[test]
fn the_table_for_the_day_holds_for_every_pair_of_lost_mounts() {
    let made = worked(&PRACTICE.replace("at = [250, 950]", "at = [200, 450, 750, 1000]"));
    let reserve = made.results.reserve.as_ref().expect("a table");
    let sizes: Vec<usize> = reserve.worst.iter().map(Vec::len).collect();
    assert_eq!(sizes, [0, 1, 2]);
    let share = |row: &AtSpeed, gone: usize| {
        row.gone[gone].as_ref().map_or(f64::INFINITY, |most| most.share)
    };
    let last = reserve.speeds.last().expect("rows");
    near(last.speed.to_kmh(), 137.0, 1e-9, "design speed");
    assert!(share(last, 1) >= share(last, 0) && share(last, 2) >= share(last, 1));
    for pair in reserve.speeds.windows(2) {
        assert!((0..3).all(|gone| share(&pair[1], gone) >= share(&pair[0], gone)));
    }
    let count = made.work.mounts.len();
    let tables = Tables::builtin();
    let mut tried = 0;
    for first in 0..count {
        for second in first + 1..count {
            let pair = [first, second];
            let lost = Circumstances { lost: &pair, ..Circumstances::default() };
            let Ok(mut loads) =
                loads::run(&made.build, &made.work, tables, &lost).expect("an array")
            else {
                assert!(share(last, 2).is_infinite());
                continue;
            };
            loads.cases.retain(|loaded| loaded.case.when != Situation::Parked);
            let most = Joints::new(&made.build, &made.work, tables)
                .uses(&loads)
                .iter()
                .map(|bond| bond.governing().share)
                .fold(0.0, f64::max);
            assert!(most <= share(last, 2) + 1e-9, "{pair:?}: {most}");
            tried += 1;
        }
    }
    assert!(tried > 15, "{tried}");
}

/// Governing use by speed, coefficient, temperature of the tape and a lost mount. Speed acts by its
/// square on the air, less the weight; tape loses its share of strength straight from 23 °C to 65 °C
/// (own line between the two values of its row).
#[test]
fn the_governing_number_moves_as_it_should() {
    let made = worked(PRACTICE);
    let tables = Tables::builtin();
    let at = |circumstances: Circumstances| -> Option<(f64, String)> {
        let loads = loads::run(&made.build, &made.work, tables, &circumstances)?.ok()?;
        Joints::new(&made.build, &made.work, tables)
            .uses(&loads)
            .iter()
            .map(|bond| {
                (bond.governing().share, format!("{}, {}", bond.mark, bond.governing().case))
            })
            .max_by(|a, b| a.0.total_cmp(&b.0))
    };
    let base = at(Circumstances::default()).expect("held").0;
    let mut told = format!("as built: {base:.2}\n");
    let mut last = 0.0;
    for kmh in [60.0, 80.0, 100.0, 120.0, 137.0, 160.0] {
        let (use_, case) =
            at(Circumstances { speed: Some(Speed::kmh(kmh)), ..Circumstances::default() })
                .expect("held");
        writeln!(told, "{kmh} km/h: {use_:.2} ({case})").expect("a text takes it");
        assert!(use_ >= last, "{told}");
        last = use_;
    }
    for factor in [0.4, 0.56, 0.8, 1.0, 1.2] {
        let (use_, case) =
            at(Circumstances { air: factor, ..Circumstances::default() }).expect("held");
        writeln!(told, "coefficient {:.2}: {use_:.2} ({case})", 1.3 * factor)
            .expect("a text takes it");
    }
    let tape = tables.tape("acrylic-foam-tape").expect("a row");
    for celsius in [23.0, 40.0, 50.0, 65.0_f64] {
        let along = (celsius - 23.0) / (tape.hot_from.to_celsius() - 23.0);
        let left = 1.0 - along * (1.0 - tape.hot_factor.to_fraction());
        writeln!(told, "tape at {celsius} °C: {:.2}", base / left).expect("a text takes it");
    }
    for (index, mount) in made.work.mounts.iter().enumerate() {
        let lost = [index];
        let lost = Circumstances { lost: &lost, ..Circumstances::default() };
        match at(lost) {
            Some((use_, case)) => {
                writeln!(told, "{} lets go: {use_:.2} ({case})", mount.mark)
                    .expect("a text takes it");
                assert!(use_ > 0.5 * base, "{told}");
            }
            None => {
                writeln!(told, "{} lets go: the frame turns", mount.mark).expect("a text takes it");
            }
        }
    }
    println!("{told}");
    let reserve = at(Circumstances { air: 1.2, ..Circumstances::default() }).expect("held").0;
    assert!(reserve > base, "{told}");
}

/// One foot lost of three on an edge throws its load on the two others: reactions with and without it
/// balance the same load.
#[test]
fn a_lost_mount_gives_its_load_to_the_others() {
    let made = worked(PRACTICE);
    let tables = Tables::builtin();
    let springs: Vec<[f64; 3]> =
        made.work.mounts.iter().map(|m| [m.at.x.to_mm(), m.at.y.to_mm(), 0.0]).collect();
    for index in 0..3 {
        let lost = [index];
        let lost = Circumstances { lost: &lost, ..Circumstances::default() };
        let run = loads::run(&made.build, &made.work, tables, &lost).expect("an array");
        let whole = made.results.loads.as_ref().expect("loads");
        let run = run.expect("hinges to spare");
        for (before, after) in whole.cases.iter().zip(&run.cases) {
            let sum =
                |case: &loads::LoadedCase| case.mounts.iter().map(|m| m.up.to_n()).sum::<f64>();
            assert!((sum(before) - sum(after)).abs() < 1e-6, "{}", before.case.name);
            assert!(after.mounts[index].up.is_zero());
        }
    }
    assert_eq!(springs.len(), 5);
}

/// A textbook bolt group: six alike bolts, 2 columns 75 mm apart, 3 rows 75 mm apart, 50 kN in the
/// plane at 200 mm from the middle. Elastic method: V = P/n + M r / Σ r²; the farthest bolt has
/// √((P/6 + M 37.5/Σ)² + (M 75/Σ)²), Σ r² = 6·37.5² + 4·75² = 30 937.5 mm² (any steel textbook; by hand).
#[test]
fn a_bolt_group() {
    let mut springs = Vec::new();
    for x in [-37.5, 37.5] {
        for y in [-75.0, 0.0, 75.0] {
            springs.push(Spring { at: [x, y, 0.0], stiffness: [1e4, 1e4, 1e4] });
        }
    }
    let load = 50_000.0;
    let on =
        sharing::share(&springs, Wrench::at([200.0, 0.0, 0.0], [0.0, load, 0.0])).expect("held");
    let moment = load * 200.0;
    let sum = 6.0 * 37.5_f64.powi(2) + 4.0 * 75.0_f64.powi(2);
    near(sum, 30_937.5, 1e-12, "sum of squares");
    let expected = (load / 6.0 + moment * 37.5 / sum).hypot(moment * 75.0 / sum);
    let most = on.iter().map(|f| f[0].hypot(f[1])).fold(0.0, f64::max);
    near(most, expected, 1e-9, "farthest bolt");
    near(most, 31_731.0, 1e-3, "by hand");
}

/// A bracket's four bolts pulled by a moment: T = M y / Σ y² about the middle of the group (any
/// textbook; by hand: 1200 N·m, rows ±60 and ±20 mm, two a row: 9000 and 3000 N).
#[test]
fn bolts_pulled_by_a_moment() {
    let springs: Vec<Spring> = [-60.0, -20.0, 20.0, 60.0]
        .iter()
        .flat_map(|y| [-30.0, 30.0].map(|x| Spring { at: [x, *y, 0.0], stiffness: [1e4; 3] }))
        .collect();
    let load = Wrench { force: [0.0; 3], moment: [1.2e6, 0.0, 0.0] };
    let on = sharing::share(&springs, load).expect("held");
    for (spring, force) in springs.iter().zip(&on) {
        near(force[2], 1.2e6 * spring.at[1] / (4.0 * (3600.0 + 400.0)), 1e-9, "bolt");
    }
    near(on[7][2], 9000.0 / 2.0, 1e-9, "outer row of two: 4500 N each");
}

/// Three mounts at the corners of a triangle get a vertical load by the areas of the triangles that it
/// makes with the other two (statics): at (300, 200) in (0,0), (1000,0), (0,800).
#[test]
fn three_mounts_share_by_areas() {
    let springs = [[0.0, 0.0], [1000.0, 0.0], [0.0, 800.0]]
        .map(|[x, y]| Spring { at: [x, y, 0.0], stiffness: [3000.0, 500.0, 700.0] });
    let on = sharing::share(&springs, Wrench::at([300.0, 200.0, 0.0], [0.0, 0.0, 1000.0]))
        .expect("three hold it");
    for (force, share) in on.iter().zip([0.45, 0.30, 0.25]) {
        near(force[2], 1000.0 * share, 1e-9, "share");
    }
}

/// Three mounts of unlike stiffness in a row with one aside: the load on the stiff one's line stays
/// there (statics): by hand with moments about the two edges.
#[test]
fn a_load_over_one_mount_stays_on_it() {
    let springs = [[0.0, 0.0], [900.0, 0.0], [450.0, 700.0]]
        .map(|[x, y]| Spring { at: [x, y, 50.0], stiffness: [1000.0, 1000.0, 1000.0] });
    let on = sharing::share(&springs, Wrench::at([450.0, 700.0, 50.0], [0.0, 0.0, -400.0]))
        .expect("three hold it");
    near(on[2][2], -400.0, 1e-9, "the third");
    assert!(on[0][2].abs() < 1e-9 && on[1][2].abs() < 1e-9);
}

/// The lifted array: air at three quarters of the depth, ¾ |c| q A w = ½ G cos θ w at the gust that
/// tips it (moments by hand; c −1.4 at 30° of EN 1991-1-4 table 7.6).
#[test]
fn a_lifted_array_tips_at_its_gust() {
    let made = worked(PRACTICE);
    let loads = made.results.loads.as_ref().expect("loads");
    let lifted = loads.lifted.first().cloned().expect("hinged");
    near(lifted.coefficient, -1.4, 1e-12, "c at 30°");
    let area = made.work.arrays.first().expect("array").outline.area().to_m2();
    let q = 0.5 * 1.25 * lifted.gust.to_m_per_s().powi(2);
    let weight = loads.mass.to_kg() * 9.806_65;
    near(0.75 * 1.4 * q * area, 0.5 * weight * Angle::deg(30.0).cos(), 1e-9, "moments");
}

/// ASCE 7 figure 27.3-4 level: greatest mean of both halves is 0.85 (case A and B, obstructed), times
/// the gust factor 0.85; a published report has 7.50 psf x 0.85 x 1.2 = 7.65 psf and −7.02 for −1.1.
#[test]
fn the_second_opinion_is_asce() {
    near(7.50 * 0.85 * 1.2, 7.65, 1e-9, "down");
    near(7.50 * 0.85 * 1.1, 7.02, 2e-3, "up");
    let made = worked(PRACTICE);
    near(made.figure("loads.opinion.asce"), 0.85 * 0.85, 1e-12, "ASCE");
    near(made.figure("loads.opinion.en-free"), 0.5, 1e-12, "free flow");
    near(made.figure("loads.opinion.en-blocked"), 1.3, 1e-12, "in use");
}

/// ISO 12991 table 1: 20 g along and 8 g across for M1 and N1 (read). Information, never a finding.
#[test]
fn crash_levels_are_information() {
    let made =
        worked(&PRACTICE.replace("[[panel]]", "[loads]\ncrash-class = \"m1-n1\"\n\n[[panel]]"));
    let loads = made.results.loads.as_ref().expect("loads");
    let weight = loads.mass.to_kg() * 9.806_65;
    for (case, axis, g) in [(0, 0, -20.0), (1, 0, 20.0), (2, 1, 8.0), (3, 1, -8.0)] {
        near(loads.crash[case].case.wrench.force[axis], g * weight, 1e-9, "crash");
    }
    assert_eq!(made.findings.len(), worked(PRACTICE).findings.len());
}

/// EN 1991-1-3 5.2: `s = μ s_k` with μ 0.8 up to 30° (from memory): 1.5 kPa on the ground is 1.2 kPa.
#[test]
fn snow_lies_at_eight_tenths() {
    let made = worked(&PRACTICE.replace("[[panel]]", "[loads]\nsnow = \"1.5 kPa\"\n\n[[panel]]"));
    near(made.figure("loads.snow"), 1.2, 1e-9, "snow");
}

/// 130 km/h and 10 m/s from the side: 860.0 Pa at 1.225 kg/m³ (vector sum, computed with another
/// program); the build takes the side wind that it is told.
#[test]
fn wind_from_the_side_adds_by_squares() {
    use rungsheet::units::Density;
    let q = loads::air::oblique_pressure(
        Density::kg_per_m3(1.225),
        Speed::kmh(130.0),
        Speed::m_per_s(10.0),
    );
    near(q.to_pa(), 860.0, 1e-4, "side wind");
    let calm =
        worked(&PRACTICE.replace("[[panel]]", "[loads]\ncross-wind = \"0 m/s\"\n\n[[panel]]"));
    let sides = |made: &Worked| {
        let cases = &made.results.loads.as_ref().expect("loads").cases;
        cases
            .iter()
            .filter(|c| c.case.key.starts_with("driving-") && c.case.when == Situation::Driving)
            .count()
    };
    assert_eq!(sides(&worked(PRACTICE)), sides(&calm) + 2);
}

/// A measured coefficient takes the table's place, with its source.
#[test]
fn a_measured_coefficient_wins() {
    let made = worked(&PRACTICE.replace(
        "[[panel]]",
        "[loads]\nuplift = { coefficient = 0.65, source = \"trial with a spring balance\" }\nstorm-pressure = { pressure = \"500 Pa\", source = \"harbour mast\" }\n\n[[panel]]",
    ));
    near(made.figure("loads.coefficient.lift"), -0.65, 1e-12, "c");
    near(made.figure("loads.pressure.storm"), 500.0, 1e-9, "storm");
    near(
        made.figure("loads.lift.driving"),
        worked(PRACTICE).figure("loads.lift.driving") / 2.0,
        1e-9,
        "F",
    );
    let source = &made.results.ledger.get("loads.coefficient.lift").expect("told").source;
    assert!(source.contains("spring balance"), "{source}");
}

/// Bad input: each is told by the code that is for it.
#[test]
fn bad_input_is_told_by_its_own_code() {
    use rungsheet::source::Text;
    let codes = |text: &str| -> Vec<&'static str> {
        let tables = Tables::builtin();
        let (build, mut found) = rungsheet::read::read(&Text::new("b.toml", text), tables);
        if let Some(build) = build {
            let (work, more) = rungsheet::derive::derive(&build);
            found.extend(more);
            found.extend(rungsheet::compute::compute(&build, &work, tables).1);
        }
        found.iter().map(|finding| finding.rule.code).collect()
    };
    let mounts = PRACTICE.find("[[mount]]").expect("mounts");
    let feet = PRACTICE.find("[[mount]]\nmark = \"F\"").expect("feet");
    let stock = PRACTICE.find("[[stock]]").expect("stock");
    let rib = "[[roof.keep-out]]\nname = \"rib\"\nx = 560\ny = -400\nlength = 80\nwidth = 120\nheight = 8\n\n[weather]";
    for (what, text, code) in [
        ("no mounts", format!("{}{}", &PRACTICE[..mounts], &PRACTICE[stock..]), "F012"),
        ("in one line", format!("{}{}", &PRACTICE[..feet], &PRACTICE[stock..]), "A001"),
        (
            "wide tape",
            PRACTICE.replace("width = 25, thickness = 2.3", "width = 60, thickness = 2.3"),
            "L032",
        ),
        ("unknown class", PRACTICE.replace("acrylic-foam-tape", "super-tape"), "N001"),
        ("no speed", PRACTICE.replace("137 km/h\"\nheight", "0 km/h\"\nheight"), "U006"),
        ("too fast", PRACTICE.replace("137 km/h\"\nheight", "1000 km/h\"\nheight"), "U007"),
        ("over a rib", PRACTICE.replace("[weather]", rib), "L023"),
    ] {
        let found = codes(&text);
        assert!(found.contains(&code), "{what}: {found:?}");
    }
}
