//! Circuits, controller, and the voltages to expect.

use super::{Facts, Item, Sources, item, say};
use crate::build::{Bond, Build, Terminal};
use crate::compute::cables::clip_pitch;
use crate::compute::electrics::{open_at, string_fuse};
use crate::source::{Figure, Ledger, Seen};
use crate::units::{Length, Temperature, display};

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
    let fed = build.circuits.iter().filter(|circuit| {
        let ends = !build.circuits.iter().any(|other| *other.from == *circuit.to);
        ends && matches!(*circuit.to, Terminal::Load(_))
    });
    let fed: Vec<Item> = fed.map(|circuit| item([("name", circuit.name.value.clone())])).collect();
    facts.list("fed", fed);
    let switched = build
        .circuits
        .iter()
        .filter(|circuit| circuit.switched.is_some() && *circuit.from != Terminal::Panels);
    let rows = switched.map(|circuit| item([("name", circuit.name.value.clone())]));
    facts.list("switched", rows.collect());
    facts.set("bank.links", links(build));
    let purpose = if build.panels.is_empty() {
        "Battery first, then each load; values are measured before anything is closed."
    } else {
        "Battery first, then controller, then panels; values are measured before each is closed."
    };
    facts.set("connect.purpose", purpose);
    // One uncovers the panels while the other measures.
    let helped = !build.panels.is_empty();
    facts.set("people.connect", if helped { "2" } else { "1" });
    facts.set("people.connect-glasses", if helped { "2 pairs" } else { "1 pair" });
    facts.count("devices", usize::from(build.controller.is_some()) + build.circuits.len());
    if let Some(controller) = &build.controller {
        facts.set("controller.mark", controller.mark.value.clone());
        facts.set("isc.high", display::number(controller.max_current.to_a(), 0));
    }
    let fuse = string_fuse(build, from.tables);
    // Where a label is not stated, it is read at the panel.
    let count = |certain: bool| {
        fuse.as_ref().filter(|fuse| fuse.certain == certain).map_or(0, |fuse| fuse.count as usize)
    };
    facts.count("string-fuses", count(false));
    facts.count("string-fuses-planned", count(true));
    facts.count("supply", usize::from(supplied(build)));
    if let Some(supply) = &build.supply {
        let volts = supply.voltage.to_v();
        // Flat to charging, lead acid: 11.5 V to 15 V of 12 V; common practice.
        let limit = |share: f64| display::number(volts * share, 1);
        facts.range("supply.volts", (limit(11.5 / 12.0), limit(15.0 / 12.0)));
    }
    let bonded = build.earth.as_ref().is_some_and(|earth| *earth.bond == Bond::Chassis);
    facts.count("earth", usize::from(bonded));
    if let Some(fuse) = fuse {
        let panels = if fuse.panels > 1 { "string" } else { "panel" };
        facts.set("string-fuse.each", panels);
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

/// Marks of the links of a bank, as the wiring sheet numbers them; empty where there are none.
fn links(build: &Build) -> String {
    let Some(battery) = build.battery.as_ref().filter(|own| *own.count > 1) else {
        return String::new();
    };
    let at_it = |circuit: &crate::build::Circuit| {
        *circuit.from == Terminal::Battery || *circuit.to == Terminal::Battery
    };
    if !build.circuits.iter().any(at_it) {
        return String::new();
    }
    let bonded = build.earth.as_ref().is_some_and(|earth| *earth.bond == Bond::Chassis);
    let strings = battery.strings();
    let count = strings * (*battery.in_series - 1) + (strings - 1) * 2;
    let first = build.circuits.len() as u32 + 1 + u32::from(bonded);
    match count {
        0 => String::new(),
        1 => format!("W{first}"),
        2 => format!("W{first} and W{}", first + 1),
        _ => format!("W{first} to W{}", first + count - 1),
    }
}

fn end(terminal: &Terminal) -> String {
    match terminal {
        Terminal::Panels => "panels".to_owned(),
        Terminal::Controller => "controller".to_owned(),
        Terminal::Battery => "battery".to_owned(),
        Terminal::Supply => "vehicle’s battery".to_owned(),
        Terminal::Load(name) => name.clone(),
    }
}

/// Whether a run leads from the vehicle's battery.
fn supplied(build: &Build) -> bool {
    build.circuits.iter().any(|circuit| *circuit.from == Terminal::Supply)
}

/// Open-circuit voltage between a hot panel under a dull sky and the coldest morning.
fn set_voltage(facts: &mut Facts, from: &Sources<'_>, ledger: &mut Ledger) {
    let build = from.build;
    if build.controller.is_none() {
        return;
    }
    let Some(hot) = open_at(build, HOT) else { return };
    let Some(high) = ledger.get("electrics.voc.cold").map(|figure| figure.value) else { return };
    let low = hot.to_v() * DULL;
    ledger.push(
        Figure::new(
            "steps.voc.low",
            "lowest open-circuit voltage to expect at first power",
            low,
            "V",
        )
        .formula("U(T) s")
        .input("U(T)", format!("{:.1} V", hot.to_v()))
        .input("T", HOT.to_string())
        .input("s", DULL.to_string())
        .source("IEC 60904 conditions; share under a dull sky", Seen::Memory),
    );
    facts.range("voc", say::range(low, high));
}
