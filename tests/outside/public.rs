//! The public list of worked values in `public.csv`, read in handbooks and laws that anyone may read: each of its
//! rows is checked here or by the test that is named, or the reason stands why nothing of ours answers to it.

use super::electrics::HEAD;
use crate::support::{near, worked};
use rungsheet::compute::restraint::pull::withdrawal_nds;
use rungsheet::geometry::Bend;
use rungsheet::tables::Tables;
use rungsheet::units::{Angle, Area, Length};
use std::collections::BTreeMap;
use std::path::Path;

/// What answers to a row.
enum Answer {
    /// A test in this folder, or a rule of its page rules.
    Test(&'static str),
    /// Nothing: the tool does no such thing.
    None(&'static str),
}
use Answer::{None as No, Test};

const REPAIR: &str = "rivets are counted for the repair of a torn sheet; no such repair is planned";
const SCATTER: &str = "statistics of torque tests; the torque factor's own band comes from its row";
const PRELOAD: &str =
    "preload of 65 % of yield; torque here goes by three quarters of the proof load";
const WIRE: &str = "aircraft wire has more resistance than IEC 60228; drops are held by Ohm's law with our own copper";
const CARGO: &str = "tiedowns of loads by length or count; the battery is held by forces";

/// Every row of the list.
const ROWS: [(&str, Answer); 67] = [
    ("PC01", Test("bends_of_the_airframe_handbook")),
    ("PC02", Test("bends_of_the_airframe_handbook")),
    ("PC03", Test("bends_of_the_airframe_handbook")),
    ("PC04", Test("bends_of_the_airframe_handbook")),
    ("PC05", Test("bends_of_the_airframe_handbook")),
    ("PC06", Test("bends_of_the_airframe_handbook")),
    ("PC07", No(REPAIR)),
    ("PC08", No(REPAIR)),
    ("PC09", No(REPAIR)),
    ("PC10", No(REPAIR)),
    ("PC11", Test("rivets_keep_the_distances_of_the_army_manuals")),
    ("PC12", Test("holes_half_a_diameter_apart_are_refused")),
    (
        "PC13",
        No("shop heads of solid rivets; blind rivets are as long as their row says for the stack"),
    ),
    ("PC14", Test("torque_factors_of_the_handbooks")),
    ("PC15", No(SCATTER)),
    ("PC16", No(SCATTER)),
    ("PC17", No(SCATTER)),
    ("PC18", No(SCATTER)),
    ("PC19", No(PRELOAD)),
    ("PC20", No(PRELOAD)),
    ("PC21", No(PRELOAD)),
    ("PC22", Test("stress_areas_of_the_space_handbooks")),
    ("PC23", Test("torque_factors_of_the_handbooks")),
    ("PC24", No("friction of 0.12 is no row of the tables; the form is checked by PC23 and PC25")),
    ("PC25", Test("torque_factors_of_the_handbooks")),
    ("PC26", No("the long form; the short one is what is used, and is higher here")),
    ("PC27", No(SCATTER)),
    (
        "PC28",
        No("joints that hold by friction alone; here bolts bear, and friction counts for nothing"),
    ),
    ("PC29", No("bolts tightened by heat")),
    ("PC30", No("turn of the nut: too small to use by hand on short grips, as the list says")),
    ("PC31", Test("torques_of_fine_threads_are_above_those_of_light_nuts")),
    ("PC32", No("the tables hold no torque for 10-32 that a figure prints")),
    ("PC33", No("torque factors of one table's own rows")),
    ("PC34", Test("torque_of_m8_is_within_a_sixth_of_the_army_manual")),
    ("PC35", No("key-locked inserts are not used")),
    ("PC36", No("key-locked inserts are not used")),
    ("PC37", No(WIRE)),
    ("PC38", No(WIRE)),
    ("PC39", No(WIRE)),
    ("PC40", No(WIRE)),
    ("PC41", No(WIRE)),
    ("PC42", No(WIRE)),
    ("PC43", No(WIRE)),
    ("PC44", No(WIRE)),
    ("PC45", Test("the_circulars_run_gets_its_gauge")),
    ("PC46", No("bundles at 20 000 ft")),
    ("PC47", Test("warm_copper_resists_as_the_circular_says")),
    ("PC48", No("the square-root form; warming here goes with the square of the current")),
    ("PC49", Test("the_circulars_run_gets_its_gauge")),
    ("PC50", Test("american_gauge_follows_its_formula")),
    ("PC51", Test("fuses_stand_near_their_source_and_under_the_cable")),
    ("PC52", No("the next size above what the cable carries; here a fuse is never above it")),
    ("PC53", Test("forces_on_a_battery_of_30_kg")),
    ("PC54", No(CARGO)),
    ("PC55", No(CARGO)),
    ("PC56", No(CARGO)),
    ("PC57", Test("forces_on_a_battery_of_30_kg")),
    ("PC58", Test("the_boat_rules_cap_begins_below_our_battery")),
    ("PC59", Test("forces_on_a_battery_of_30_kg")),
    ("PC60", Test("wood_screws_pull_out_by_the_american_formula")),
    ("PC61", Test("spruce_holds_a_screw_as_the_handbook_prints")),
    ("PC62", No("side load by the older American form; EN 1995-1-1, 8.2.2 is used")),
    ("PC63", No("no ladder is set up by a sheet; it is named as a place of work")),
    ("PC64", Test("no_hidden_action")),
    ("PC65", Test("signal words are the four; NOTICE")),
    ("PC66", Test("messages_before")),
    ("PC67", Test("done_when")),
];

/// The list's rows by their name: what is expected.
fn listed() -> BTreeMap<String, String> {
    let mut rows = BTreeMap::new();
    for line in include_str!("public.csv").lines().skip(1) {
        let (mut cells, mut cell, mut quoted) = (Vec::new(), String::new(), false);
        for letter in line.chars() {
            match letter {
                '"' => quoted = !quoted,
                ',' if !quoted => cells.push(std::mem::take(&mut cell)),
                letter => cell.push(letter),
            }
        }
        rows.insert(cells[0].clone(), cells[4].clone());
    }
    rows
}

/// Each row of the public list (`public.csv`, its sources row by row) has its check or the reason why none.
#[test]
fn every_row_of_the_public_list_is_answered() {
    let rows = listed();
    assert!(
        rows.keys().map(String::as_str).eq(ROWS.iter().map(|(id, _)| *id)),
        "{:?}",
        rows.keys()
    );
    let mut texts = String::new();
    let mut folders = vec![Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/outside")];
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).expect("the folder is there") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|end| end == "rs" || end == "py")
                && !path.ends_with("public.rs")
            {
                texts += &std::fs::read_to_string(path).expect("source is text");
            }
        }
    }
    texts += include_str!("public.rs").split_once("/// The list's rows").expect("it is here").1;
    for (id, answer) in &ROWS {
        match answer {
            Test(name) => {
                let there = texts.contains(&format!("fn {name}("))
                    || texts.contains(&format!("def {name}("))
                    || texts.contains(&format!("\"{name}"));
                assert!(there, "{id}: no test {name}");
            }
            No(reason) => assert!(reason.len() > 15, "{id} has no reason"),
        }
    }
    let checked = ROWS.iter().filter(|(_, answer)| matches!(answer, Test(_))).count();
    assert!(checked >= 25, "{checked} rows are checked");
}

/// FAA-H-8083-31 and AC 43.13-1B table 4-7: setback is K (R + T), K = tan A/2: 60° 0.5773, 120° 1.732, 45° 0.4142,
/// 176° 28.64 (the table misprints 26.63). A channel of 0.040 in bent round 0.16 in, mould lines 1, 2 and 1 in:
/// setback 0.2 in, flats 0.8 and 1.6 in; by the US Navy's (0.0173 R + 0.0078 T) N each bend takes 0.2772 in, 3.754 in in all.
#[test]
fn bends_of_the_airframe_handbook() {
    let bend = |radius: f64, thick: f64, degrees: f64| Bend {
        thickness: Length::inches(thick),
        inside: Length::inches(radius),
        through: Angle::deg(degrees),
    };
    for (degrees, k) in [(60.0, 0.5773), (120.0, 1.732), (45.0, 0.4142), (176.0, 28.64)] {
        near(bend(0.8, 0.2, degrees).setback().to_inches(), k, 5e-4, "K");
    }
    let metric =
        Bend { thickness: Length::mm(1.5), inside: Length::mm(3.0), through: Angle::deg(120.0) };
    near(metric.setback().to_mm(), 7.794, 1e-3, "setback, mm");
    let channel = bend(0.16, 0.040, 90.0);
    near(channel.setback().to_inches(), 0.2, 1e-9, "setback, in");
    // The manual's factors are π/180 of radius and of thickness times the place of the neutral line, rounded.
    let place = 0.0078 / 0.0173;
    near(channel.allowance(place).to_inches(), 0.2772, 0.01, "allowance");
    let legs = channel.flat(Length::inches(1.0), Length::inches(1.0), place).to_inches();
    near(legs + 1.6 + channel.allowance(place).to_inches(), 3.754, 2e-3, "flat length");
}

/// A sister of US Army TM 10-5410-229-13&P prints rows half a diameter apart (TM 10-7360-209-13&P 5-3): holes would
/// run into each other, so it must be refused.
#[test]
fn holes_half_a_diameter_apart_are_refused() {
    let file = |apart: f64| {
        let hole = |x: f64| {
            format!(
                "[[hole]]\npart = \"S\"\nface = \"top\"\nx = {x}\ny = 12.5\ndiameter = 4.9\npurpose = \"clearance\"\n"
            )
        };
        format!(
            "{HEAD}[[part]]\nmark = \"S\"\nname = \"strip\"\nsection = \"aluminium-tube-25x25x2\"\nlength = 300\n{}{}\
             [[stock]]\nsection = \"aluminium-tube-25x25x2\"\nlength = 3000\n",
            hole(100.0),
            hole(100.0 + apart)
        )
    };
    assert_eq!(worked(&file(4.8 / 2.0)).raised("H002").len(), 1);
    assert!(worked(&file(4.8 * 2.5)).raised("H002").is_empty());
}

/// NASA-STD-5020B App. A.2: thirty tests as received: mean 4721 lb at 450 in·lb on 0.375 in, K 0.254. MIL-HDBK-60
/// 100.5.2, table II: zinc, 0.17, M8: 0.2214; oil, 0.15, M10 x 1.5: 0.1972.
#[test]
fn torque_factors_of_the_handbooks() {
    const LOADS: [f64; 30] = [
        7760., 4010., 3587., 4635., 4920., 3797., 4462., 4940., 6220., 4780., 7229., 4310., 3900.,
        4322., 4475., 3812., 4132., 4219., 6100., 4685., 6080., 4291., 3054., 4804., 3910., 3303.,
        4090., 4550., 6062., 5180.,
    ];
    let mean = LOADS.iter().sum::<f64>() / 30.0;
    near(mean, 4721.0, 3e-4, "mean load");
    let k = |name: &str| Tables::builtin().torque_factor(name).map_or(0.0, |row| row.k);
    near(k("as-received"), 450.0 / (mean * 0.375), 2e-3, "as received");
    near(k("zinc-dry"), 0.2214, 0.01, "zinc");
    near(k("oiled"), 0.1972, 0.01, "oil");
}

/// NSTS 08307 rev A, App. A: 0.7854 (D − 0.9743 / n)²: 1/4-28 has 0.03637 in², 23.47 mm².
#[test]
fn stress_areas_of_the_space_handbooks() {
    let row = Tables::builtin().thread("1/4-28").unwrap_or_else(|unknown| panic!("{unknown}"));
    near(row.stress_area.to_mm2(), 23.47, 2e-3, "mm²");
    near(row.stress_area / Area::mm2(25.4 * 25.4), 0.03637, 2e-3, "in²");
}

/// What the tool asks of a bolt M8 of class 8.8, N·m.
fn torque(thread: &str, grade: &str, factor: &str) -> f64 {
    let tables = Tables::builtin();
    let row = tables.thread(thread).unwrap_or_else(|unknown| panic!("{unknown}"));
    let grade = tables.bolt_grade(grade).unwrap_or_else(|unknown| panic!("{unknown}"));
    let k = tables.torque_factor(factor).unwrap_or_else(|unknown| panic!("{unknown}")).k;
    k * (grade.proof * row.stress_area * 0.75).to_n() * row.diameter.to_mm() / 1000.0
}

/// FAA AC 43.13-1B table 7-1: 1/4-28 with a light tension nut takes 50 to 70 in·lb, 5.65 to 7.91 N·m, for 40 ksi:
/// a bolt of grade 5 by three quarters of its proof load takes more, as 63.75 ksi is more, in that proportion.
#[test]
fn torques_of_fine_threads_are_above_those_of_light_nuts() {
    let ours = torque("1/4-28", "grade-5", "oiled");
    let share = 40.0 / (85.0 * 0.75);
    assert!((5.65..7.91 * 1.1).contains(&(ours * share)), "{ours}");
}

/// US Army TM 9-2320-362-14&P, table F-1: M8, clean and dry, 27 N·m; oiled 24.3.
#[test]
fn torque_of_m8_is_within_a_sixth_of_the_army_manual() {
    near(torque("M8", "8.8", "zinc-dry"), 27.0, 0.17, "dry");
    near(torque("M8", "8.8", "oiled"), 24.3, 0.17, "oiled");
}

/// FAA AC 43.13-1B, example 1 of 11-26: 20 A over 50 ft of wire out and back on 28 V with 1 V to lose: AWG 8. Its
/// table 11-9 has AWG 10 at 1.26 Ω/1000 ft, a quarter above the bare copper of 3.277 Ω/km that stands here.
#[test]
fn the_circulars_run_gets_its_gauge() {
    let made = worked(&format!(
        "{HEAD}[battery]\nchemistry = \"lead-agm\"\ncapacity = \"100 Ah\"\nvoltage = \"28 V\"\nmass = \"30 kg\"\nlength = 330\n\
         width = 172\nheight = 216\nplace = \"bench\"\nshort-circuit = \"0.9 kA\"\n[[circuit]]\nname = \"run\"\nfrom = \"battery\"\n\
         to = \"load\"\nlength = \"25 ft\"\ncurrent = \"20 A\"\ndrop-limit = \"{} %\"\ninsulation = \"pvc-105\"\n",
        100.0 / 28.0
    ));
    let run = &made.results.electrics.as_ref().expect("electrics").runs[0];
    assert_eq!(run.gauge.as_deref(), Some("AWG 8"));
    let bare = Tables::builtin().cable_size("awg-10").unwrap_or_else(|unknown| panic!("{unknown}"));
    near(
        1.26 / 0.3048 / bare.resistance_20.to_milliohm_per_m(),
        1.255,
        0.02,
        "aircraft wire over bare copper",
    );
}

/// 33 CFR 183.420 (a): 90 lbf or twice the weight, the lesser: the cap begins at 20.4 kg. Here twice the weight counts
/// for any mass (ISO 10133 5.2), which is more for every heavier battery.
#[test]
fn the_boat_rules_cap_begins_below_our_battery() {
    let cap = 90.0 * 4.448_222;
    near(cap, 400.3, 1e-3, "90 lbf");
    near(cap / (2.0 * 9.80665), 20.4, 1e-3, "mass");
    let up = |mass: f64| {
        let made = worked(&format!(
            "{HEAD}[battery]\nchemistry = \"lfp\"\ncapacity = \"100 Ah\"\nvoltage = \"12.8 V\"\nmass = \"{mass} kg\"\nlength = 330\n\
             width = 172\nheight = 216\nplace = \"bench\"\n[restraint]\nlevel = \"small-craft\"\nstraps = 2\n\
             strap-capacity = \"2500 N\"\nanchor = {{ capacity = \"5 kN\" }}\nblocks = 0\nfloor = \"plywood-birch\"\nfloor-thickness = 15\n"
        ));
        let held = made.results.restraint.as_ref().expect("held");
        held.directions.iter().map(|way| way.force.to_n()).fold(0.0, f64::max)
    };
    near(up(20.4), cap, 2e-3, "at the cap");
    assert!(up(30.0) > cap * 1.4);
}

/// Civil engineering formulas handbook, eq. 6.37 and table 6.2: spruce of 0.41 holds a No. 10 screw with 91.0 lb an
/// inch, 15.94 N a millimetre.
#[test]
fn spruce_holds_a_screw_as_the_handbook_prints() {
    let inch = withdrawal_nds(Length::inches(0.190), Length::inches(1.0), 0.41);
    near(inch.to_lbf(), 91.0, 2e-3, "an inch");
    near(inch.to_n() / 25.4, 15.94, 2e-3, "a millimetre");
}
