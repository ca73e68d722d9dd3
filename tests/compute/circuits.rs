//! Circuits: laws that hold for any network, and what bad input is told.

use crate::support::worked;
use proptest::prelude::*;
use rungsheet::compute::electrics::Run;
use rungsheet::read::read;
use rungsheet::source::{Severity, Text};
use rungsheet::tables::Tables;
use std::fmt::Write as _;

const HEAD: &str = "format = 1\n[job]\ntitle = \"Trial\"\ndate = \"2026-05-09\"\n";

fn battery(chemistry: &str, more: &str) -> String {
    format!(
        "{HEAD}[battery]\nchemistry = \"{chemistry}\"\ncapacity = \"100 Ah\"\nvoltage = \"12.8 V\"\n\
         mass = \"11 kg\"\nlength = 330\nwidth = 172\nheight = 216\nplace = \"bench\"\n{more}\n"
    )
}

fn panels(count: u32, more: &str) -> String {
    format!(
        "[[panel]]\ncount = {count}\nlength = 1040\nwidth = 540\nthickness = 30\nmass = \"6.4 kg\"\n\
         voc = \"24.6 V\"\nisc = \"5.8 A\"\nvmp = \"20.6 V\"\nimp = \"5.34 A\"\nvoc-drift = \"-0.28 %/K\"\n\
         {more}\n[controller]\nmax-voltage = \"50 V\"\nmax-current = \"20 A\"\n\
         charge-voltage = \"14.4 V\"\n"
    )
}

fn run(from: &str, to: &str, more: &str) -> String {
    format!("[[circuit]]\nname = \"{from} to {to}\"\nfrom = \"{from}\"\nto = \"{to}\"\n{more}\n")
}

/// What a file is told: codes, severities and messages.
fn told(contents: &str) -> Vec<(String, Severity, String)> {
    let text = Text::new("build.toml", contents);
    let (build, found) = read(&text, Tables::builtin());
    let findings = match build {
        Some(_) => worked(contents).findings,
        None => found,
    };
    findings
        .into_iter()
        .map(|finding| (finding.rule.code.to_owned(), finding.severity, finding.message))
        .collect()
}

fn tells(contents: &str, code: &str, severity: Severity, word: &str) {
    let told = told(contents);
    assert!(
        told.iter().any(|one| one.0 == code && one.1 == severity && one.2.contains(word)),
        "no {code} with “{word}” among {told:#?}"
    );
}

#[test]
fn a_string_too_long_for_a_cold_night_stops_with_its_voltage() {
    // 2 × 24.6 V × (1 + 0.0028 × 50) at −25 °C is 56.1 V.
    let text = format!("{HEAD}{}in-series = 2\n", panels(4, ""));
    tells(&text, "E001", Severity::Stop, "56.1 V");
}

#[test]
fn unlike_panels_in_a_string_are_told_with_their_loss() {
    let other = "[[panel]]\nmark = \"N\"\nlength = 1040\nwidth = 540\nthickness = 30\nmass = \"6 kg\"\n\
                 voc = \"22 V\"\nisc = \"3.2 A\"\nvmp = \"18 V\"\nimp = \"3 A\"\n";
    let text = format!("{HEAD}{other}{}in-series = 2\n", panels(1, ""));
    // 18 V × 3 A + 20.6 V × 5.34 A = 164.0 W; together 38.6 V × 3 A = 115.8 W.
    tells(&text, "E004", Severity::Caution, "48 W of 164 W");
}

#[test]
fn a_fuse_over_the_cables_current_stops() {
    let more = "length = 2000\ncurrent = \"10 A\"\nsize = \"2.5mm2\"\nfuse = \"60 A\"";
    let text = battery("lfp", "short-circuit = \"0.9 kA\"") + &run("battery", "pump", more);
    tells(&text, "E006", Severity::Stop, "60 A");
}

#[test]
fn panels_without_an_isolator_stop() {
    let pv = "length = 4000\ninsulation = \"pv\"";
    for kind in ["none", "plugs"] {
        let text = format!(
            "{HEAD}{}[isolator]\nkind = \"{kind}\"\n{}",
            panels(2, ""),
            run("panels", "controller", pv)
        );
        tells(&text, "E014", Severity::Stop, "");
    }
    // 2000 A of panels have no switch.
    let text = format!(
        "{HEAD}{}{}",
        panels(200, "").replace("5.8 A", "9 A"),
        run("panels", "controller", pv)
    );
    tells(&text, "E014", Severity::Stop, "no switch");
}

#[test]
fn a_cable_without_length_is_told() {
    let text = battery("lfp", "") + &run("battery", "pump", "current = \"4 A\"");
    tells(&text, "F011", Severity::Stop, "length");
}

#[test]
fn a_battery_of_unknown_chemistry_is_told() {
    let text =
        battery("lithium-wonder", "") + &run("battery", "pump", "length = 900\ncurrent = \"4 A\"");
    tells(&text, "N001", Severity::Stop, "lithium-wonder");
}

#[test]
fn lithium_in_frost_without_heating_is_told() {
    let text = format!(
        "{}{}{}",
        battery("lfp", ""),
        panels(1, ""),
        run("controller", "battery", "length = 900")
    );
    tells(&text, "E012", Severity::Caution, "0 °C");
    for safe in ["stopped", "heated"] {
        let text = text.replace("place =", &format!("cold-charging = \"{safe}\"\nplace ="));
        assert!(told(&text).iter().all(|one| one.0 != "E012"), "{safe}");
    }
}

#[test]
fn circuits_of_a_charger_fit_its_kind() {
    let feed = run("supply", "controller", "length = 3000");
    let supply = "[supply]\nvoltage = \"12 V\"\n";
    let text = format!("{HEAD}{}{supply}{feed}", panels(1, ""));
    tells(&text, "E020", Severity::Stop, "panels alone");
    let charger = panels(1, "").replace("max-voltage", "kind = \"dc-dc\"\nmax-voltage");
    tells(&format!("{HEAD}{charger}"), "E020", Severity::Caution, "nothing leads");
    assert!(told(&format!("{HEAD}{charger}{supply}{feed}")).iter().all(|one| one.0 != "E020"));
    // Without its table the feed has no voltage.
    tells(&format!("{HEAD}{charger}{feed}"), "F012", Severity::Stop, "[supply]");
}

#[test]
fn keys_that_answer_one_question_exclude_each_other() {
    let text = format!("{HEAD}{}in-series = 2\nconnection = \"series\"\n", panels(4, ""));
    tells(&text, "F018", Severity::Stop, "in-series");
    let text = battery("lfp", "short-circuit = \"2 kA\"\ninternal-resistance = \"4 mΩ\"");
    tells(&text, "F018", Severity::Stop, "internal-resistance");
    tells(&battery("lfp", "[earth]\nbond = \"chassis\""), "F011", Severity::Stop, "length");
}

#[test]
fn cable_that_stands_no_heat_is_told_as_such() {
    let more = "length = 900\ncurrent = \"4 A\"\nlaid = \"roof-void\"";
    tells(&(battery("lfp", "") + &run("battery", "fan", more)), "E007", Severity::Stop, "60 °C");
}

/// What a run takes without being told stands among the defaults, with its value.
#[test]
fn currents_that_are_not_stated_stand_among_the_defaults() {
    let charger = panels(1, "").replace("max-voltage", "kind = \"dc-dc\"\nmax-voltage");
    let made = worked(&format!(
        "{}{charger}[supply]\nvoltage = \"12 V\"\n{}{}",
        battery("lfp", ""),
        run("supply", "controller", "length = 3000"),
        run("controller", "battery", "length = 900")
    ));
    let taken = rungsheet::compute::defaults::defaults(&made.build);
    let of = |key: &str| {
        let found = taken.iter().find(|taken| taken.key == key);
        found.map(|taken| (taken.of.clone(), taken.value.clone())).expect("told")
    };
    assert_eq!(of("circuit.current"), ("W2".to_owned(), "20 A".to_owned()));
    // 20 A × 14.4 V / (0.9 × 12 V) = 26.7 A.
    assert_eq!(of("supply.current").1, "26.7 A");
    assert_eq!(of("supply.short-circuit").1, "5000 A");
    // 4 × 56 mΩ·Ah / 100 Ah + 0.5 mΩ = 2.74 mΩ; 4 × 3.6 V over it.
    assert_eq!(of("battery.short-circuit").1, "5255 A");
    assert_eq!(of("circuit.laid").0, "W1, W2");
}

/// A bus bar fed by battery and controller: the run to the battery carries the greater of load and
/// charge; the controller's run is fused at the bar; a controller that brings less than the loads take
/// is no fault.
#[test]
fn a_bus_bar_may_be_fed_from_both_sides() {
    let loads = |amps: u32| {
        worked(&format!(
            "{}{}{}{}{}",
            battery("lfp", "short-circuit = \"2 kA\""),
            panels(1, ""),
            run("controller", "bar", "length = 600"),
            run("battery", "bar", "length = 700"),
            run("bar", "heater", &format!("length = 900\ncurrent = \"{amps} A\""))
        ))
    };
    for (amps, main) in [(6, 20.0), (30, 30.0)] {
        let made = loads(amps);
        let runs = &made.results.electrics.as_ref().expect("electrics").runs;
        assert!((runs[1].working.to_a() - main).abs() < 1e-9, "{amps} A");
        assert!((runs[0].working.to_a() - 20.0).abs() < 1e-9);
        let fuse = runs[0].fuse.as_ref().expect("a fuse");
        assert!(fuse.at.contains("bar"), "{}", fuse.at);
        // The run between battery and bar lowers what a fault there is fed with.
        assert!(fuse.feeds < runs[1].fuse.as_ref().expect("a fuse").feeds);
        assert!(made.raised("E010").is_empty());
        let chain: Vec<&str> = made
            .results
            .electrics
            .as_ref()
            .map(|electrics| electrics.chain.iter().map(|run| run.mark.as_str()).collect())
            .expect("electrics");
        assert_eq!(chain, ["W1", "W2"]);
    }
}

/// Over a junction box go the panels' values, and no fuse asks for a battery.
#[test]
fn a_junction_box_passes_on_what_panels_give() {
    let pv = "length = 2000\ninsulation = \"pv\"";
    let made = worked(&format!(
        "{HEAD}{}{}{}",
        panels(2, ""),
        run("panels", "roof box", pv),
        run("roof box", "controller", pv)
    ));
    let electrics = made.results.electrics.as_ref().expect("electrics");
    let [first, second] = &electrics.runs[..] else { panic!("two runs") };
    assert_eq!((first.working, first.design), (second.working, second.design));
    assert!(first.fuse.is_none() && second.fuse.is_none());
    assert_eq!(second.lost_before, first.conductor.as_ref().expect("a cable").drop_share);
    assert_eq!(electrics.chain.len(), 2);
}

/// Bars and loads at random: each bar or load hangs on an earlier bar.
#[derive(Debug, Clone)]
struct Tree {
    /// Bars by what they hang on; 0 is the battery.
    bars: Vec<usize>,
    /// Loads by what they hang on, with amperes and metres.
    loads: Vec<(usize, f64, f64)>,
}

fn tree() -> impl Strategy<Value = Tree> {
    (
        prop::collection::vec(0.0..1.0_f64, 0..4),
        prop::collection::vec((0.0..1.0_f64, 0.5..25.0_f64, 0.3..5.0_f64), 1..7),
    )
        .prop_map(|(bars, loads)| {
            let bars: Vec<usize> =
                bars.iter().enumerate().map(|(k, on)| (on * (k + 1) as f64) as usize).collect();
            let places = bars.len() + 1;
            let loads = loads
                .into_iter()
                .map(|(on, amps, metres)| ((on * places as f64) as usize, amps, metres))
                .collect();
            Tree { bars, loads }
        })
}

/// The whole of the copper of a boat's bus bar with three loads, mm² by m; the run to the bar of a stated size
/// or of the tool's choice. None where a run finds no conductor.
fn copper_of_a_bar(scale: f64, main: Option<&str>) -> Option<f64> {
    let metres = |length: f64| format!("length = \"{:.3} m\"\n", length * scale);
    let size = main.map(|size| format!("size = \"{size}\"\n")).unwrap_or_default();
    let text = battery("lfp", "short-circuit = \"0.9 kA\"")
        + &run("battery", "bar", &(metres(0.9) + &size))
        + &run("bar", "pump", &(metres(2.6) + "current = \"5.5 A\""))
        + &run("bar", "lamps", &(metres(4.1) + "current = \"2.4 A\""))
        + &run("bar", "horn", &(metres(1.7) + "current = \"3 A\""));
    let made = worked(&text);
    let runs = &made.results.electrics.as_ref().expect("electrics").runs;
    let areas = runs
        .iter()
        .map(|run| run.conductor.as_ref().map(|cable| cable.area.to_mm2() * run.length.to_m()));
    areas.sum()
}

#[test]
fn a_run_to_a_bar_is_as_large_as_makes_all_the_copper_least() {
    // Every size of IEC 60228 that carries 10.9 A, tried one by one: an exhaustive search as the check.
    let sizes = ["1.5mm2", "2.5mm2", "4mm2", "6mm2", "10mm2", "16mm2", "25mm2", "35mm2"];
    let mut larger = 0;
    for scale in [0.75, 1.0, 1.25, 1.5, 2.0, 3.0] {
        let chosen = copper_of_a_bar(scale, None).expect("a conductor for each run");
        let tried: Vec<f64> =
            sizes.iter().filter_map(|size| copper_of_a_bar(scale, Some(size))).collect();
        let least = tried.iter().copied().fold(f64::INFINITY, f64::min);
        assert!(chosen <= least + 1e-9, "{scale}: {chosen} over {least}");
        larger += usize::from(chosen < tried[0] - 1e-9);
    }
    assert!(larger > 0, "the smallest size was best each time: the trial shows nothing");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    /// What flows into a bar flows out; drops add along the way; each fuse lies between load and cable
    /// and protects the thinnest cable behind it up to the next fuse.
    #[test]
    fn networks_keep_the_laws(tree in tree()) {
        let node = |place: usize| match place {
            0 => "battery".to_owned(),
            bar => format!("bar {bar}"),
        };
        let mut text = battery("lfp", "short-circuit = \"1.5 kA\"");
        for (k, (on, amps, metres)) in tree.loads.iter().enumerate() {
            write!(
                text,
                "[[circuit]]\nname = \"load {k}\"\nfrom = \"{}\"\nto = \"load {k}\"\n\
                 length = \"{metres:.2} m\"\ncurrent = \"{amps:.2} A\"\ndrop-limit = \"15 %\"\n",
                node(*on)
            ).expect("a String takes it");
        }
        let used = |bar: usize| {
            tree.loads.iter().any(|load| load.0 == bar)
        };
        // Bars that feed nothing are left out, from the last one on.
        let mut kept = vec![false; tree.bars.len() + 1];
        for bar in (1..=tree.bars.len()).rev() {
            kept[bar] = used(bar)
                || (bar + 1..=tree.bars.len()).any(|next| kept[next] && tree.bars[next - 1] == bar);
            if kept[bar] {
                write!(
                    text,
                    "[[circuit]]\nname = \"to bar {bar}\"\nfrom = \"{}\"\nto = \"bar {bar}\"\n\
                     length = 400\ndrop-limit = \"15 %\"\n",
                    node(tree.bars[bar - 1])
                ).expect("a String takes it");
            }
        }
        let made = worked(&text);
        let electrics = made.results.electrics.as_ref().expect("electrics");
        let fed = |run: &Run| -> Vec<&Run> {
            electrics.runs.iter().filter(|other| other.ends.0 == run.ends.1).collect()
        };
        for run in &electrics.runs {
            let out: f64 = fed(run).iter().map(|other| other.working.to_a()).sum();
            prop_assert!(out == 0.0 || (out - run.working.to_a()).abs() < 1e-9, "{}", run.mark);
            let Some(cable) = &run.conductor else {
                prop_assert!(!made.raised("E007").is_empty());
                continue;
            };
            for other in fed(run) {
                let lost = run.lost_before.to_fraction() + cable.drop_share.to_fraction();
                prop_assert!((other.lost_before.to_fraction() - lost).abs() < 1e-12);
            }
            match &run.fuse {
                Some(fuse) => {
                    prop_assert!(fuse.rating >= run.design && fuse.rating <= cable.ampacity);
                    prop_assert!(fuse.breaking >= fuse.feeds);
                    // Behind it lies its own cable, then a fuse that stands nearer the load.
                    for other in fed(run) {
                        let next = other.fuse.as_ref();
                        prop_assert!(next.is_some() || !made.raised("E008").is_empty());
                    }
                }
                None => prop_assert!(!made.raised("E008").is_empty(), "{}", run.mark),
            }
        }
    }
}
