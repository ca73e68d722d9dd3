//! Electrics against published libraries: pvlib's single-diode model, pint's units, networkx's flows.
//! `reference/electrics.py` tells how the tables were made.

use super::electrics::{DAY, HEAD, panel};
use super::reference::{number, rows_by};
use crate::support::{Worked, near, worked};
use rungsheet::compute::electrics::{Run, assess};
use rungsheet::tables::Tables;
use rungsheet::units::{Current, Voltage};
use std::fmt::Write as _;

const VOLTAGES: &str = include_str!("reference/panel_voltages.csv");
const MISMATCH: &str = include_str!("reference/panel_mismatch.csv");
const DROPS: &str = include_str!("reference/voltage_drops.csv");
const BUS_BARS: &str = include_str!("reference/bus_bars.csv");

fn joined(panels: &str, low: f64, more: &str) -> Worked {
    worked(&format!(
        "{HEAD}[weather]\nrecord-low = \"{low} °C\"\n{DAY}{panels}\
         [controller]\nmax-voltage = \"150 V\"\nmax-current = \"40 A\"\ncharge-voltage = \"14.4 V\"\n{more}\n"
    ))
}

/// pvlib's single-diode model of four panels: in frost the coefficient method is within 0.8 % of it, and
/// at hot cells the working voltage is never above it and within 4 %.
#[test]
fn voltages_follow_the_single_diode_model() {
    let mut checks = 0;
    for row in rows_by(VOLTAGES, "electrics.py") {
        let [voc, isc, vmp, imp, drift, cell, open, working] =
            [1, 2, 3, 4, 5, 6, 7, 8].map(|k| number(row[k]));
        let label = panel("P", 1, [voc, isc, vmp, imp], drift, "");
        if cell < 25.0 {
            let made = joined(&label, cell, "");
            near(made.figure("electrics.voc.cold"), open, 0.008, row[0]);
        } else {
            let hot = joined(&label, 0.0, "").figure("electrics.vmp.hot");
            near(cell, 80.0, 1e-12, "the cell temperature that is planned with");
            assert!(hot <= working && hot > 0.96 * working, "{}: {hot} of {working} V", row[0]);
        }
        checks += 1;
    }
    assert_eq!(checks, 16);
}

/// Power of two panels in one string and side by side, from the curves of pvlib: like panels lose
/// nothing; of unlike ones the least current and the least voltage promise no more than the curves
/// give, and not 11 % less.
#[test]
fn unlike_panels_lose_what_their_curves_say() {
    for row in rows_by(MISMATCH, "electrics.py") {
        let labels: Vec<f64> = (2..10).map(|k| number(row[k])).collect();
        let [own, series, parallel] = [10, 11, 12].map(|k| number(row[k]));
        let alike = row[0] == row[1];
        let panels = if alike {
            panel("P", 2, [labels[0], labels[1], labels[2], labels[3]], -0.3, "")
        } else {
            panel("P", 1, [labels[0], labels[1], labels[2], labels[3]], -0.3, "")
                + &panel("N", 1, [labels[4], labels[5], labels[6], labels[7]], -0.3, "")
        };
        for (way, curves) in [("series", series), ("parallel", parallel)] {
            let made = joined(&panels, 0.0, &format!("connection = \"{way}\""));
            let what = format!("{} and {} in {way}", row[0], row[1]);
            let field = made.results.electrics.as_ref().and_then(|e| e.field).expect("panels");
            let left = own - field.lost.to_w();
            if alike {
                near(left, curves, 1e-5, &what);
                assert!(made.raised("E004").is_empty(), "{what}");
            } else {
                assert!(
                    left <= curves * 1.0001 && left > 0.89 * curves,
                    "{what}: {left} of {curves}"
                );
                assert_eq!(made.raised("E004").len(), 1, "{what}");
                near(made.figure("electrics.mismatch"), own - left, 1e-9, &what);
            }
        }
    }
}

/// Ohm's law in pint's units with class 5 copper (IEC 60228 table 3), warmed by 0.00393/K (IEC 60287).
#[test]
fn drops_follow_ohms_law_in_units() {
    for row in rows_by(DROPS, "electrics.py") {
        let [celsius, mm, amps, of, volts, percent] = [1, 2, 3, 4, 5, 6].map(|k| number(row[k]));
        let made = worked(&format!(
            "{HEAD}[battery]\nchemistry = \"lfp\"\ncapacity = \"100 Ah\"\nvoltage = \"{of} V\"\n\
             mass = \"11 kg\"\nlength = 330\nwidth = 172\nheight = 216\nplace = \"bench\"\n\
             [[circuit]]\nname = \"run\"\nfrom = \"battery\"\nto = \"load\"\nlength = {mm}\n\
             current = \"{amps} A\"\nambient = \"{celsius} °C\"\ninsulation = \"pv\"\n"
        ));
        let (tables, circuit) = (Tables::builtin(), &made.build.circuits[0]);
        let size = tables.cable_size(row[0]).unwrap_or_else(|unknown| panic!("{unknown}"));
        // Next to no load leaves the copper as warm as the air.
        let whisper = Current::a(1e-6);
        let found = assess(circuit, size, whisper, Voltage::v(of), tables).expect("listed");
        near(found.drop.to_v() * amps / 1e-6, volts, 1e-6, row[0]);
        near(found.drop_share.to_percent() * amps / 1e-6, percent, 1e-6, row[0]);
        // Under load it is warmer, and stands 90 °C at most.
        let loaded =
            assess(circuit, size, Current::a(amps), Voltage::v(of), tables).expect("listed");
        let hottest = (1.0 + 0.003_93 * 70.0) / (1.0 + 0.003_93 * (celsius - 20.0));
        assert!(loaded.drop.to_v() >= volts * 0.999_999, "{}", row[0]);
        assert!(loaded.drop.to_v() <= volts * hottest * 1.000_001, "{}", row[0]);
    }
}

/// Flows to all loads at once over trees of bus bars, by networkx: each run carries that flow, drops add
/// along the way from the battery, and each fuse protects the cable behind it up to the next one.
#[test]
fn currents_balance_as_flows_in_a_network() {
    let mut cases: Vec<Vec<Vec<&str>>> = Vec::new();
    for row in rows_by(BUS_BARS, "electrics.py") {
        match cases.last_mut() {
            Some(case) if case[0][0] == row[0] => case.push(row),
            _ => cases.push(vec![row]),
        }
    }
    assert_eq!(cases.len(), 12);
    for case in cases {
        let mut text = format!(
            "{HEAD}[battery]\nchemistry = \"lfp\"\ncapacity = \"100 Ah\"\nvoltage = \"12.8 V\"\n\
             mass = \"11 kg\"\nlength = 330\nwidth = 172\nheight = 216\nplace = \"bench\"\n\
             short-circuit = \"1.8 kA\"\n"
        );
        // The order of the file is not that of the tree.
        for row in case.iter().rev() {
            let current = if row[3].is_empty() {
                String::new()
            } else {
                format!("current = \"{} A\"\n", row[3])
            };
            write!(
                text,
                "[[circuit]]\nname = \"to {to}\"\nfrom = \"{}\"\nto = \"{to}\"\nlength = 700\n\
                 drop-limit = \"9 %\"\n{current}",
                row[1],
                to = row[2],
            )
            .expect("a String takes it");
        }
        let made = worked(&text);
        let runs = &made.results.electrics.as_ref().expect("electrics").runs;
        let to = |node: &str| runs.iter().find(|run| run.ends.1 == node).expect("a run");
        let share = |run: &Run| run.conductor.as_ref().expect("a cable").drop_share.to_percent();
        for row in &case {
            let run = to(row[2]);
            near(run.working.to_a(), number(row[4]), 1e-9, row[2]);
            let (mut before, mut node) = (0.0, row[1]);
            while node != "battery" {
                before += share(to(node));
                node = to(node).ends.0.as_str();
            }
            near(run.lost_before.to_percent() + 1.0, before + 1.0, 1e-9, row[2]);
            let fuse = run.fuse.as_ref().expect("a fuse");
            let carries = run.conductor.as_ref().expect("a cable").ampacity;
            assert!(run.design <= fuse.rating && fuse.rating <= carries, "{}", run.mark);
            assert!(fuse.breaking >= fuse.feeds, "{}", run.mark);
        }
    }
}
