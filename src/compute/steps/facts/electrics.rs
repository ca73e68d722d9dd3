//! Circuits, controller, and the voltages to expect.

use super::{Facts, Item, Sources, item, say};
use crate::build::{PanelConnection, Terminal};
use crate::compute::cables::clip_pitch;
use crate::compute::electrics::string_fuse;
use crate::source::{Figure, Ledger, Seen};
use crate::units::{Length, Temperature, TemperatureRise, display};

/// Standard test conditions, IEC 60904-3.
const STANDARD: Temperature = Temperature::celsius(25.0);
/// A panel in full sun without wind, from memory: 45 °C over air of 25 °C.
const HOT: Temperature = Temperature::celsius(70.0);
/// Share of the open-circuit voltage left under a bright overcast sky: a tenth of the light lowers
/// it by about 10 % (logarithm of the light); from memory.
const DULL: f64 = 0.9;

pub(super) fn set(facts: &mut Facts, from: &Sources<'_>, ledger: &mut Ledger) {
    let build = from.build;
    let rows: Vec<Item> = build
        .circuits
        .iter()
        .map(|circuit| {
            item([
                ("name", circuit.name.value.clone()),
                ("from", end(&circuit.from)),
                ("to", end(&circuit.to)),
                ("pitch", display::number(clip_pitch(circuit, from.tables).to_mm(), 0)),
                (
                    "metres",
                    display::with_unit(&display::number(circuit.length.to_m() * 2.0, 1), "m"),
                ),
            ])
        })
        .collect();
    // Two conductors, two ends each.
    facts.count("circuits.ends", rows.len() * 4);
    facts.count("electrics", rows.len());
    facts.list("circuits", rows);
    let metres: Length = build.circuits.iter().map(|circuit| *circuit.length).sum();
    facts.number("circuits.metres", metres.to_m(), say::with(metres.to_m(), "m"));
    facts.count("controller", usize::from(build.controller.is_some()));
    facts.count("devices", usize::from(build.controller.is_some()) + build.circuits.len());
    if let Some(controller) = &build.controller {
        facts.set("controller.mark", controller.mark.value.clone());
        facts.set("isc.high", display::number(controller.max_current.to_a(), 0));
    }
    let fuse = string_fuse(build, from.tables);
    facts.count("string-fuses", fuse.as_ref().map_or(0, |fuse| fuse.count as usize));
    if let Some(fuse) = fuse {
        facts.set("string-fuse", say::with(fuse.rating.to_a(), "A"));
        // The label has no upper limit.
        facts.range("string.label", (display::number(fuse.back.to_a(), 1), String::new()));
    }
    set_voltage(facts, from, ledger);
    let range = facts.words("voc.high").map_or("volts, ohms".to_owned(), |high| {
        format!("volts, over {}", display::with_unit(high, "V"))
    });
    facts.set("meter.range", range);
}

fn end(terminal: &Terminal) -> String {
    match terminal {
        Terminal::Panels => "panels".to_owned(),
        Terminal::Controller => "controller".to_owned(),
        Terminal::Battery => "battery".to_owned(),
        Terminal::Load(name) => name.clone(),
    }
}

/// Open-circuit voltage between a hot panel under a dull sky and the coldest morning.
fn set_voltage(facts: &mut Facts, from: &Sources<'_>, ledger: &mut Ledger) {
    let build = from.build;
    let (Some(panel), Some(controller)) = (build.panels.first(), &build.controller) else { return };
    let Some(voc) = &panel.voc else { return };
    let in_string = match *controller.connection {
        PanelConnection::Series => build.panels.iter().map(|panel| f64::from(*panel.count)).sum(),
        PanelConnection::Parallel => 1.0,
    };
    let at = |temperature: Temperature| {
        let rise: TemperatureRise = temperature - STANDARD;
        voc.to_v() * in_string * (1.0 + panel.voc_drift.to_per_k() * rise.to_k())
    };
    let low = at(HOT) * DULL;
    let high = ledger
        .get("electrics.voc.cold")
        .map_or_else(|| at(*build.weather.record_low), |figure| figure.value);
    ledger.push(
        Figure::new(
            "steps.voc.low",
            "lowest open-circuit voltage to expect at first power",
            low,
            "V",
        )
        .formula("n V (1 + β (T − 25 °C)) s")
        .input("n", format!("{in_string}"))
        .input("V", voc.to_string())
        .input("T", HOT.to_string())
        .input("s", DULL.to_string())
        .source("IEC 60904 conditions; share under a dull sky", Seen::Memory),
    );
    facts.range("voc", say::range(low, high));
}
