//! Several batteries as one, switches in runs, strings by their panels' marks, and where weight lies.

use crate::support::{near, worked};
use rungsheet::read::read;
use rungsheet::source::{Severity, Text};
use rungsheet::tables::Tables;
use std::collections::BTreeMap;

const HEAD: &str = "format = 1\n[job]\ntitle = \"Trial\"\ndate = \"2026-05-09\"\n";

fn bank(count: u32, series: u32, more: &str) -> String {
    format!(
        "{HEAD}[battery]\nchemistry = \"lfp\"\ncapacity = \"100 Ah\"\nvoltage = \"12.8 V\"\n\
         mass = \"11 kg\"\nlength = 330\nwidth = 172\nheight = 216\nplace = \"bench\"\n\
         short-circuit = \"1.2 kA\"\ncount = {count}\nin-series = {series}\n{more}\n"
    )
}

fn load(more: &str) -> String {
    format!(
        "[[circuit]]\nname = \"load\"\nfrom = \"battery\"\nto = \"load\"\nlength = 5000\n\
         insulation = \"pvc-105\"\n{more}\n"
    )
}

/// Links and batteries join all terminals to one net; each link outlasts the largest fuse, the fuse of
/// a string breaks what the other strings feed and does not exceed its link.
#[test]
fn links_join_every_battery() {
    for strings in 1..=4_u32 {
        for series in 1..=3_u32 {
            let count = strings * series;
            let made = worked(&(bank(count, series, "") + &load("current = \"30 A\"")));
            let electrics = made.results.electrics.as_ref().expect("electrics");
            let Some(bank) = &electrics.bank else {
                assert_eq!(count, 1);
                continue;
            };
            assert_eq!(bank.links.len() as u32, strings * (series - 1) + 2 * (strings - 1));
            let mut net: BTreeMap<String, String> = BTreeMap::new();
            let root = |net: &BTreeMap<String, String>, at: &str| {
                let mut at = at.to_owned();
                while let Some(up) = net.get(&at) {
                    at.clone_from(up);
                }
                at
            };
            let mut join = |a: &str, b: &str| {
                let (a, b) = (root(&net, a), root(&net, b));
                if a != b {
                    net.insert(a, b);
                }
            };
            for mark in bank.strings.iter().flatten() {
                join(&format!("{mark}:+"), &format!("{mark}:\u{2212}"));
            }
            for link in &bank.links {
                join(&link.ends[0], &link.ends[1]);
                let largest = electrics.runs[0].fuse.as_ref().expect("a fuse").rating;
                assert!(link.conductor.ampacity >= largest, "{}", link.mark);
            }
            let terminals = bank.strings.iter().flatten();
            let mut roots: Vec<String> =
                terminals.map(|mark| root(&net, &format!("{mark}:+"))).collect();
            roots.dedup();
            assert_eq!(roots.len(), 1, "{count} in strings of {series}");
            assert_eq!(bank.fuse.is_some(), strings > 1);
            if let Some(fuse) = &bank.fuse {
                near(fuse.feeds.to_ka(), 1.2 * f64::from(strings - 1), 1e-9, "from the others");
                assert!(fuse.breaking >= fuse.feeds);
                assert!(bank.links.iter().all(|link| fuse.rating <= link.conductor.ampacity));
            }
        }
    }
}

/// Strings add currents of a fault, series add voltage: at twice the voltage the same current loses
/// half the share (Ohm).
#[test]
fn a_bank_adds_up_as_its_batteries_do() {
    let made = |count, series| {
        worked(&(bank(count, series, "") + &load("current = \"20 A\"\nsize = \"10mm2\"")))
    };
    let (one, side, row) = (made(1, 1), made(2, 1), made(2, 2));
    let drop = |it: &crate::support::Worked| it.figure("electrics.drop.W1");
    near(drop(&side), drop(&one), 1e-9, "side by side the voltage stays");
    near(drop(&row), drop(&one) / 2.0, 1e-9, "one behind the other it doubles");
    let feeds = |it: &crate::support::Worked| it.figure("electrics.fault.battery");
    near(feeds(&side), 2400.0, 1e-9, "side by side");
    near(feeds(&row), 1200.0, 1e-9, "one behind the other");
    for it in [&side, &row] {
        near(it.results.weights.inside.to_kg() - mass_of_cables(it), 22.0, 1e-9, "two of 11 kg");
    }
}

fn mass_of_cables(made: &crate::support::Worked) -> f64 {
    let cables = made.results.weights.lines.iter().filter(|line| line.count.is_none());
    cables.map(|line| line.all.to_kg()).sum()
}

/// Three side by side with a gap of 20 mm, two strings: what holds them holds all.
#[test]
fn a_row_is_held_as_one() {
    let held = "[restraint]\nstraps = 2\nstrap-capacity = \"2500 N\"\nblocks = 4\nblock-height = 60\n\
        screw = { diameter = 6, length = 60 }\nfloor = \"plywood-birch\"\nfloor-thickness = 18\n";
    let made = worked(&bank(3, 1, &format!("row-gap = 20\n{held}")));
    let (length, width) = made.build.battery.as_ref().expect("a battery").row_size();
    near(length.to_mm(), 330.0, 1e-9, "along");
    near(width.to_mm(), 3.0 * 172.0 + 2.0 * 20.0, 1e-9, "across");
    let held = made.results.restraint.as_ref().expect("held");
    // 33 kg at 1.0 g forward.
    near(held.directions[0].force.to_n(), 33.0 * 9.80665, 1e-6, "forward");
}

/// A switch carries what its fuse lets through; one on hand that does not is told.
#[test]
fn a_switch_outlasts_its_fuse() {
    for amps in [5.0, 18.0, 40.0, 75.0] {
        let text = bank(1, 1, "") + &load(&format!("current = \"{amps} A\"\nswitched = \"plus\""));
        let made = worked(&text);
        let electrics = made.results.electrics.as_ref().expect("electrics");
        let (run, switch) = electrics.switches().next().expect("a switch");
        assert!(switch.rating >= run.fuse.as_ref().expect("a fuse").rating);
        assert_eq!(switch.poles, 1);
    }
    let small = "current = \"40 A\"\nswitched = \"plus\"\nswitch-rating = \"25 A\"";
    let made = worked(&(bank(1, 1, "") + &load(small)));
    let told = made.findings.iter().find(|finding| finding.rule.code == "E015").expect("told");
    assert_eq!(told.severity, Severity::Stop);
    assert!(told.message.contains("25 A"), "{}", told.message);
}

/// Two kinds of panel, two of each: by their marks each string holds one kind, in the file's order
/// each would hold one kind, too; crossed, the weakest current rules in both.
#[test]
fn strings_hold_the_panels_that_they_name() {
    let kind = |mark: &str, voc: f64, isc: f64| {
        format!(
            "[[panel]]\nmark = \"{mark}\"\ncount = 2\nlength = 1040\nwidth = 540\nthickness = 30\n\
             mass = \"6 kg\"\nvoc = \"{voc} V\"\nisc = \"{isc} A\"\nvmp = \"20 V\"\nimp = \"{} A\"\n",
            isc * 0.9
        )
    };
    let text = |first: &str, second: &str| {
        format!(
            "{HEAD}{}{}[controller]\nmax-voltage = \"100 V\"\nmax-current = \"20 A\"\n\
             charge-voltage = \"14.4 V\"\n[[string]]\npanels = [{first}]\n[[string]]\n\
             panels = [{second}]\n",
            kind("P", 24.0, 6.0),
            kind("N", 24.0, 3.0)
        )
    };
    let field =
        |text: &str| worked(text).results.electrics.and_then(|it| it.field).expect("a field");
    let apart = field(&text("\"P1\", \"P2\"", "\"N1\", \"N2\""));
    near(apart.working.to_a(), 5.4 + 2.7, 1e-9, "one kind a string");
    let crossed = field(&text("\"P1\", \"N2\"", "\"N1\", \"P2\""));
    near(crossed.working.to_a(), 2.7 + 2.7, 1e-9, "crossed");
    near(crossed.open.to_v(), 48.0, 1e-9, "two of 24 V");
}

/// Moments about the datum: a van of 2000 kg, 1500 mm behind it and 800 mm high, gets a battery of
/// 11 kg at 3000 mm, 400 mm left, 600 mm high (statics).
#[test]
fn the_battery_counts_in_the_centre_of_gravity() {
    let vehicle = "[vehicle]\nspeed = \"100 km/h\"\nroof-skin = { material = \"steel-dc01\", \
        thickness = 1, finish = \"paint\" }\nbalance = { mass = \"2000 kg\", centre-height = 800, \
        centre-x = 1500 }\n";
    let at = "centre = { x = 3000, y = -400, over-ground = 600 }\n";
    let made = worked(&bank(1, 1, &format!("{at}{vehicle}")));
    let shift = made.results.weights.shift.as_ref().expect("a shift");
    let share = 11.0 / 2011.0;
    near(shift.up.to_mm(), -200.0 * share, 1e-9, "it sinks");
    near(shift.right.to_mm(), -400.0 * share, 1e-9, "to the left");
    near(shift.rear.expect("stated").to_mm(), 1500.0 * share, 1e-9, "rearward");
}

#[test]
fn weather_is_asked_for_where_something_cures() {
    let frost = "[weather]\nrecord-low = \"-30 °C\"\n";
    let text = Text::new("build.toml", bank(1, 1, frost));
    let (build, findings) = read(&text, Tables::builtin());
    assert!(findings.is_empty(), "{findings:#?}");
    near(build.expect("a build").weather.record_low.to_celsius(), -30.0, 1e-9, "kept");
    let half = "[weather]\nday = { temperature = \"15 °C\", humidity = \"60 %\" }\n";
    let (_, findings) = read(&Text::new("build.toml", bank(1, 1, half)), Tables::builtin());
    assert!(findings.iter().any(|it| it.rule.code == "F011"), "a day without its night");
}
