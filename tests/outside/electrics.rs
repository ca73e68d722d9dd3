//! Electrics on the way that a build takes. Values were read in the sources named, or computed with the
//! library named, unless it says `from memory`.

use crate::support::{Worked, near, worked};
use rungsheet::compute::electrics::assess;
use rungsheet::tables::Tables;
use rungsheet::units::{Current, Voltage};
use std::fmt::Write as _;

/// Temperature that plain PVC, the default insulation, stands, °C (IEC 60364-5-52).
const PVC: f64 = 70.0;
/// Air of a spring day, which `[weather]` asks for.
pub const DAY: &str = "day = { temperature = \"15 °C\", humidity = \"60 %\" }\n\
                       night = { temperature = \"7 °C\", humidity = \"80 %\" }\n";
pub const HEAD: &str = "format = 1\n[job]\ntitle = \"Trial\"\ndate = \"2026-05-09\"\n";

/// Panels of one kind with a controller.
fn panels(count: u32, [voc, isc, vmp, imp]: [f64; 4], drift: f64, controller: &str) -> String {
    format!(
        "{HEAD}[weather]\nrecord-low = \"-10 °C\"\n\
         day = {{ temperature = \"15 °C\", humidity = \"60 %\" }}\n\
         night = {{ temperature = \"7 °C\", humidity = \"80 %\" }}\n\
         [[panel]]\ncount = {count}\nlength = 1640\nwidth = 990\nthickness = 35\nmass = \"18 kg\"\n\
         flange = {{ width = 25, thickness = 1.5 }}\nrecess = 26\n\
         voc = \"{voc} V\"\nisc = \"{isc} A\"\nvmp = \"{vmp} V\"\nimp = \"{imp} A\"\n\
         voc-drift = \"{drift} %/K\"\n\
         [controller]\nkind = \"solar\"\nmax-current = \"40 A\"\ncharge-voltage = \"14.4 V\"\n{controller}\n"
    )
}

/// One kind of panel: mark, count, label (voc, isc, vmp, imp), coefficient in %/K, more keys.
pub fn panel(mark: &str, count: u32, label: [f64; 4], drift: f64, more: &str) -> String {
    let [voc, isc, vmp, imp] = label;
    format!(
        "[[panel]]\nmark = \"{mark}\"\ncount = {count}\nlength = 1640\nwidth = 990\n\
         thickness = 35\nmass = \"18 kg\"\nvoc = \"{voc} V\"\nisc = \"{isc} A\"\n\
         vmp = \"{vmp} V\"\nimp = \"{imp} A\"\nvoc-drift = \"{drift} %/K\"\n{more}\n"
    )
}

/// A battery with runs from it: name, one-way metres, amperes, more keys.
fn runs(voltage: &str, chemistry: &str, list: &[(&str, f64, f64, &str)]) -> Worked {
    let mut text = format!(
        "{HEAD}[battery]\nchemistry = \"{chemistry}\"\ncapacity = \"100 Ah\"\nvoltage = \"{voltage}\"\n\
         mass = \"11 kg\"\nlength = 330\nwidth = 172\nheight = 216\nplace = \"bench\"\n\
         short-circuit = \"0.9 kA\"\n"
    );
    for (name, metres, amps, more) in list {
        writeln!(
            text,
            "[[circuit]]\nname = \"{name}\"\nfrom = \"battery\"\nto = \"{name}\"\n\
             length = \"{metres} m\"\ncurrent = \"{amps} A\"\n{more}"
        )
        .expect("a String takes it");
    }
    worked(&text)
}

/// The 60-cell panel of the CEC data base that pvlib 0.16.1 ships: 39.4 V, 9.97 A, −0.11032 V/K.
const MODULE: [f64; 4] = [39.4, 9.97, 31.2, 9.63];
const DRIFT: f64 = -0.28;

fn series(count: u32, low: &str) -> Worked {
    let text = panels(count, MODULE, DRIFT, "max-voltage = \"150 V\"\nconnection = \"series\"");
    worked(&text.replace("-10 °C", low))
}

/// Coefficient method: −10 °C 43.261 V, −20 °C 44.364 V; pvlib's single-diode model gives 43.511 V and
/// 44.674 V, within 0.7 %; NEC table 690.7 (from memory) has factors 1.14 and 1.18, which are more.
#[test]
fn cold_panels_give_more_voltage() {
    for (low, linear, model, factor) in
        [("-10 °C", 43.261, 43.511, 1.14), ("-20 °C", 44.364, 44.674, 1.18)]
    {
        let found = series(1, low).figure("electrics.voc.cold");
        near(found, linear, 2e-4, "coefficient");
        near(found, model, 0.007, "single-diode model");
        assert!(found < factor * 39.4);
    }
}

/// Three of them at −20 °C stay under a limit of 150 V (model 134.0 V, table factor 139.5 V); four are
/// refused (178.7 V).
#[test]
fn a_string_too_long_for_the_controller_is_refused() {
    let three = series(3, "-20 °C");
    near(three.figure("electrics.voc.cold"), 134.0, 0.007, "three");
    assert!(three.raised("E001").is_empty());
    let four = series(4, "-20 °C");
    near(four.figure("electrics.voc.cold"), 178.7, 0.007, "four");
    assert_eq!(four.raised("E001").len(), 1);
}

/// pvlib's single-diode model: 25.77 V at 70 °C, 25.175 V at 75 °C, so 24.58 V on the same line at the
/// 80 °C that are planned with. Those lie between 64.8 °C (heat balance, free) and 97.5 °C (insulated
/// back) of its models at 1000 W/m², 40 °C, 1 m/s.
#[test]
fn hot_panels_give_less_voltage() {
    let model = 25.175 + (25.175 - 25.77);
    near(series(1, "-10 °C").figure("electrics.vmp.hot"), model, 0.005, "at 80 °C");
}

/// NEC 690.8: two strings of 10 A are 25 A at the edge of a cloud, and 31.25 A for cable and fuse.
#[test]
fn cables_from_panels_carry_156_per_cent() {
    let text = panels(2, [24.6, 10.0, 21.6, 9.4], DRIFT, "max-voltage = \"100 V\"")
        + "[[circuit]]\nname = \"roof\"\nfrom = \"panels\"\nto = \"controller\"\nlength = 4000\ninsulation = \"pv\"\n";
    let made = worked(&text);
    let run = &made.results.electrics.as_ref().expect("electrics").runs[0];
    near(run.design.to_a(), 31.25, 1e-9, "design");
    near(made.figure("electrics.isc"), 20.0, 1e-9, "short circuit");
    let conductor = run.conductor.as_ref().expect("a conductor");
    assert!(conductor.ampacity >= run.design);
}

/// A worked example on IEC 62548: four strings of 12.28 A feed 36.84 A into a faulty one, a fuse lies
/// between 18.42 A and 29.47 A. With two strings none is needed (12.28 A; from memory).
#[test]
fn strings_side_by_side_need_fuses_from_three_up() {
    let strings = |count| {
        worked(&panels(
            count,
            [41.0, 12.28, 34.0, 11.6],
            DRIFT,
            "max-voltage = \"100 V\"\nconnection = \"parallel\"",
        ))
    };
    let four = strings(4);
    let found = four.raised("E003");
    assert!(found[0].message.contains("36.8 A"), "{}", found[0].message);
    assert!(found[0].helps[0].contains("between 18.4 A and 29.5 A"), "{:?}", found[0].helps);
    assert!(strings(2).raised("E003").is_empty());
}

/// Voltage drop by hand, ΔU = 2 L R I / U: 2.5 mm² class 5 7.98 Ω/km at 20 °C (IEC 60228 table 3), copper
/// warmed by 0.00393/K (IEC 60287).
#[test]
fn voltage_drop_by_hand() {
    let made = runs("12.8 V", "lfp", &[("lamps", 2.0, 8.0, "ambient = \"30 °C\"")]);
    let run = &made.results.electrics.as_ref().expect("electrics").runs[0];
    let conductor = run.conductor.as_ref().expect("a conductor");
    // 1.5 mm² loses 2 · 2 · 0.0133 · 8 / 12.8 = 3.3 % even when cold; 3 % is the default limit.
    assert_eq!(conductor.name, "2.5mm2");
    let share = 8.0 / conductor.ampacity.to_a();
    let copper = 30.0 + (PVC - 30.0) * share * share;
    let ohm = 0.00798 * (1.0 + 0.003_93 * (copper - 20.0));
    near(conductor.drop.to_v(), 2.0 * 2.0 * ohm * 8.0, 1e-3, "drop");
    near(made.figure("electrics.drop.W1"), conductor.drop.to_v() / 12.8 * 100.0, 1e-9, "share");
}

/// Two boat-parts guides on the formula of ABYC E-11: a pump of 10 A at 21 ft out and back on 12 V needs
/// 12 AWG of full gauge for 3 % and 16 AWG for 10 %.
#[test]
fn the_pump_of_the_boat_guides_gets_its_wire() {
    // 21 ft of conductor are 3.2 m one way.
    let wire = |limit: &str| {
        let more =
            format!("drop-limit = \"{limit}\"\ninsulation = \"pvc-105\"\nambient = \"30 °C\"");
        let made = runs("12 V", "lead-agm", &[("pump", 3.2, 10.0, &more)]);
        made.results.electrics.expect("electrics").runs[0].gauge.clone().expect("a gauge")
    };
    assert_eq!(wire("3 %"), "AWG 12");
    assert_eq!(wire("10 %"), "AWG 16");
}

/// 33 CFR 183.425 table 5 and its factor for warm places: 10 AWG of 105 °C carries 60 A in 30 °C. NEC
/// table 310.15(B)(1): 90 °C wire in 49 °C carries 0.82 of it (a training article, 32.8 A of 40 A).
#[test]
fn heat_takes_ampacity_away() {
    let size = Tables::builtin().cable_size("6mm2").unwrap_or_else(|u| panic!("{u}"));
    let amps = |ambient: &str| {
        let more = format!("ambient = \"{ambient}\"\ninsulation = \"pv\"");
        let made = runs("12.8 V", "lfp", &[("heater", 1.0, 20.0, &more)]);
        let circuit = &made.build.circuits[0];
        let (working, voltage) = (Current::a(20.0), Voltage::v(12.8));
        assess(circuit, size, working, voltage, Tables::builtin()).expect("listed").ampacity
    };
    near(amps("49 °C") / amps("30 °C"), 0.82, 1e-9, "49 °C");
}

/// The fuse lies from 1.25 times the load (NEC 210.20 (A)) to what the cable carries (NEC 240.4; not the
/// 150 % of 33 CFR 183.455), breaks what the battery feeds, and stands within 178 mm of it (33 CFR
/// 183.460: 7 in).
#[test]
fn fuses_lie_between_load_and_cable() {
    let list: Vec<(String, f64)> =
        [2.0, 5.0, 8.0, 12.0, 20.0, 35.0, 60.0].map(|amps| (format!("load {amps}"), amps)).to_vec();
    let list: Vec<(&str, f64, f64, &str)> =
        list.iter().map(|(name, amps)| (name.as_str(), 1.5, *amps, "")).collect();
    let made = runs("12.8 V", "lfp", &list);
    let electrics = made.results.electrics.as_ref().expect("electrics");
    assert_eq!(electrics.runs.len(), 7);
    for run in &electrics.runs {
        let (conductor, fuse) =
            (run.conductor.as_ref().expect("a cable"), run.fuse.as_ref().expect("a fuse"));
        near(run.design.to_a(), run.working.to_a() * 1.25, 1e-9, "design");
        assert!(fuse.rating >= run.design && fuse.rating <= conductor.ampacity, "{run:?}");
        assert!(fuse.breaking.to_ka() >= 0.9, "{run:?}");
        near(fuse.within.expect("at the battery").to_inches(), 7.0, 2e-3, "distance");
    }
}

/// Common practice, no source: two panels of the 100 W class side by side, 12 V, 10 AWG that lies there
/// already, about 5 m one way: the drop stays under 3 % and nothing stops the work.
#[test]
fn two_panels_on_ten_gauge_over_five_metres() {
    let made = worked(&format!(
        "{HEAD}[crew]\npeople = 2\n[[panel]]\ncount = 2\nlength = 1200\nwidth = 550\nthickness = 30\n\
         mass = \"7.5 kg\"\nvoc = \"22.3 V\"\nisc = \"6.1 A\"\nvmp = \"18.6 V\"\nimp = \"5.4 A\"\n\
         [battery]\nchemistry = \"lfp\"\ncapacity = \"100 Ah\"\nvoltage = \"12.8 V\"\nmass = \"12 kg\"\n\
         length = 330\nwidth = 172\nheight = 216\nplace = \"bench\"\nshort-circuit = \"2 kA\"\n\
         cold-charging = \"stopped\"\n\
         [restraint]\nstraps = 1\nstrap-capacity = \"2500 N\"\nblocks = 4\nblock-height = 60\n\
         screw = {{ diameter = 6, length = 60 }}\nfloor = \"plywood-birch\"\nfloor-thickness = 18\n\
         [controller]\nmax-voltage = \"100 V\"\nmax-current = \"20 A\"\ncharge-voltage = \"14.2 V\"\n\
         [[circuit]]\nname = \"roof to controller\"\nfrom = \"panels\"\nto = \"controller\"\n\
         length = \"5 m\"\nsize = \"awg-10\"\ninsulation = \"pv\"\n\
         [[circuit]]\nname = \"controller to battery\"\nfrom = \"controller\"\nto = \"battery\"\nlength = \"1 m\"\n"
    ));
    let stops: Vec<_> = made
        .findings
        .iter()
        .filter(|finding| finding.severity == rungsheet::source::Severity::Stop)
        .map(|finding| &finding.message)
        .collect();
    assert!(stops.is_empty(), "{stops:?}");
    let drop = made.figure("electrics.drop.W1");
    assert!(drop < 3.0, "{drop}");
    // 10 A through 2 x 5 m of 3.28 to 3.4 ohm/km (ASTM B258), copper at 20 °C to 60 °C, of 14.8 V hot.
    let copper = 10.8 * 10.0 * 3.277e-3;
    let of = made.results.electrics.as_ref().expect("electrics").runs[0].voltage.to_v();
    assert!(drop > 100.0 * copper / of && drop < 120.0 * copper / of, "{drop} of {of} V");
}

/// Kirchhoff's laws over a bus bar: what flows in flows out, drops add along the chain, and each fuse
/// protects the cable behind it. Resistances of IEC 60228.
#[test]
fn currents_balance_and_drops_add_at_a_bus_bar() {
    let battery = format!(
        "{HEAD}[battery]\nchemistry = \"lfp\"\ncapacity = \"100 Ah\"\nvoltage = \"12.8 V\"\n\
         mass = \"11 kg\"\nlength = 330\nwidth = 172\nheight = 216\nplace = \"bench\"\n\
         short-circuit = \"2.4 kA\"\n"
    );
    let run = |name: &str, from: &str, to: &str, more: &str| {
        format!("[[circuit]]\nname = \"{name}\"\nfrom = \"{from}\"\nto = \"{to}\"\n{more}\n")
    };
    // What is fed may stand before what feeds it.
    let made = worked(&format!(
        "{battery}{}{}{}{}",
        run("fridge", "bus bar", "fridge", "length = 2500\ncurrent = \"6 A\""),
        run("main", "battery", "bus bar", "length = 800"),
        run("second bar", "bus bar", "rear bus bar", "length = 3000"),
        run("lamps", "rear bus bar", "lamps", "length = 2000\ncurrent = \"4 A\""),
    ));
    let electrics = made.results.electrics.as_ref().expect("electrics");
    let [fridge, main, second, lamps] = &electrics.runs[..] else { panic!("four runs") };
    near(second.working.to_a(), 4.0, 1e-12, "all that the lamps take");
    near(main.working.to_a(), 10.0, 1e-12, "6 A and 4 A");
    let own = |run: &rungsheet::compute::electrics::Run| {
        run.conductor.as_ref().expect("a conductor").drop_share.to_percent()
    };
    near(fridge.lost_before.to_percent(), own(main), 1e-9, "before the fridge's run");
    near(
        made.figure("electrics.drop-from-source.W4"),
        own(main) + own(second) + own(lamps),
        1e-9,
        "battery to lamps",
    );
    assert!(made.figure("electrics.drop-from-source.W4") <= 3.0);
    for run in &electrics.runs {
        let (fuse, conductor) = (run.fuse.as_ref(), run.conductor.as_ref());
        let (fuse, conductor) = (fuse.expect("a fuse"), conductor.expect("a conductor"));
        assert!(fuse.rating <= conductor.ampacity, "{}", run.mark);
        assert!(fuse.rating >= run.design, "{}", run.mark);
        assert!(fuse.breaking >= fuse.feeds, "{}", run.mark);
    }
    // Each run in between lowers what a short circuit can draw: Ohm's law with the cables in series.
    let feeds = |run: &rungsheet::compute::electrics::Run| run.fuse.as_ref().map(|f| f.feeds);
    assert!(feeds(main) > feeds(fridge) && feeds(fridge) > feeds(lamps));
    assert_eq!(feeds(fridge), feeds(second));
}
