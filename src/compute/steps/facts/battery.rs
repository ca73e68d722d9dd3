//! The battery and what holds it.

use super::{Facts, Item, Sources, item, say, with_range};
use crate::build::{Anchor, HoldBy, WoodScrew};
use crate::compute::restraint::{BlockScrew, floor_bolts};
use crate::units::{Length, display};

/// Mass from which two people lift, kg: HSE INDG143 at knuckle height, close to the body (25 kg for
/// men, 16 kg for women); the lower counts; from memory.
const ALONE: f64 = 16.0;

pub(super) fn set(facts: &mut Facts, from: &Sources<'_>) {
    facts.count("battery", 0);
    facts.count("restraint", 0);
    for name in
        ["cradle", "straps", "block-bolts", "anchor-bolts", "floor-bolts.all", "anchor-screws"]
    {
        facts.count(name, 0);
    }
    facts.list("floor-bolts", Vec::new());
    facts.count("floor-blocks", 0);
    facts.count("block-screws", 0);
    facts.count("block-screw.sunk", 0);
    facts.count("battery.heavy", 0);
    facts.count("battery.bank", 0);
    facts.count("batteries", 0);
    facts.count("battery.lithium", 0);
    let Some(battery) = &from.build.battery else { return };
    facts.list("battery", vec![item([("mark", battery.mark.value.clone())])]);
    facts.set("battery.mark", battery.marks().join(", "));
    facts.count("batteries", *battery.count as usize);
    facts.count("battery.bank", usize::from(*battery.count > 1));
    facts.set("battery.place", battery.place.value.clone());
    facts.set("battery.mass", say::with(battery.mass.to_kg(), "kg"));
    let heavy = battery.mass.to_kg() > ALONE;
    facts.count("battery.heavy", usize::from(heavy));
    let people = if heavy { "2" } else { "1" };
    facts.set("people.battery", people);
    facts.set("people.battery-count", if heavy { "2 people" } else { "1 person" });
    facts.range("battery", from.size("battery length"));
    let (row, _) = battery.row_size();
    if *battery.count > 1 {
        // Each may be off as one alone; the row is marked by its longest outline.
        let one = from.size("battery length");
        let more = (row - *battery.length).to_mm();
        let add = |words: &String| {
            words.parse::<f64>().map_or(words.clone(), |v| display::number(v + more, 1))
        };
        facts.range("battery", (add(&one.0), add(&one.1)));
    }
    let chemistry = &battery.chemistry;
    facts.count("battery.lithium", usize::from(!chemistry.name.starts_with("lead")));
    let cells = f64::from(battery.bank_cells());
    let volts = |cell: crate::units::Voltage| cell.to_v() * cells;
    facts.range("battery.volts", say::range(volts(chemistry.cut_off), volts(chemistry.full)));
    let kiloamperes = |value: f64| display::with_unit(&display::number_short(value, 1), "kA");
    let short = battery.short_circuit.as_ref().map_or_else(
        || format!("up to {}", kiloamperes(chemistry.short_circuit[1].to_ka())),
        |current| kiloamperes(current.to_ka() * f64::from(battery.strings())),
    );
    facts.set("battery.short", short);
    let Some(restraint) = &from.build.restraint else { return };
    facts.count("restraint", 1);
    facts.count("cradle", usize::from(*restraint.kind == HoldBy::Cradle));
    facts.count("floor-blocks", *restraint.blocks as usize);
    facts.set("floor-blocks.height", format!("{} high", say::mm(*restraint.block_height)));
    facts.count("straps", *restraint.straps as usize);
    let play = facts.high("hole-over");
    let rows = floor_bolts(restraint).into_iter().map(|set| {
        let hole = set.bolt.thread.clearance.medium;
        with_range(
            item([
                ("what", set.what.to_owned()),
                ("count", set.count.to_string()),
                ("thread", set.bolt.thread.name.clone()),
                ("hole", say::mm(hole)),
            ]),
            say::range(hole.to_mm(), hole.to_mm() + play),
        )
    });
    let rows: Vec<Item> = rows.collect();
    let with = |what: &str| usize::from(rows.iter().any(|row| row["what"] == what));
    facts.count("block-bolts", with("blocks"));
    facts.count("anchor-bolts", with("strap ends"));
    let bolts: u32 = floor_bolts(restraint).iter().map(|set| set.count).sum();
    facts.count("floor-bolts.all", bolts as usize);
    facts.list("floor-bolts", rows);
    if let Some(Anchor::Screws(screw, count)) = &restraint.anchor {
        facts.count("anchor-screws", (*restraint.straps * 2 * **count) as usize);
        facts.set("anchor-screw", size(screw));
        facts.set("screw.reach", say::mm(*screw.length));
    }
    let Some(own) = BlockScrew::of(restraint) else { return };
    let Some(screw) = &restraint.screw else { return };
    facts.count("block-screws", (*restraint.blocks * *restraint.screws_a_block) as usize);
    facts.set("block-screw", size(screw));
    let BlockScrew { pilot, sink, bore, .. } = own;
    facts.set("block-screw.pilot", say::mm(pilot));
    facts.range(
        "block-screw.pilot",
        say::range(pilot.to_mm() + facts.low("hole-over"), pilot.to_mm() + facts.high("hole-over")),
    );
    facts.count("block-screw.sunk", usize::from(sink > Length::ZERO));
    facts.set("block-screw.bore", say::mm(bore));
    let play = facts.high("head-sink");
    facts.range("block-screw.sink", say::range(sink.to_mm(), sink.to_mm() + play));
    facts.set("screw.reach", say::mm(*screw.length));
}

fn size(screw: &WoodScrew) -> String {
    format!("{} × {}", say::mm(*screw.diameter), say::mm(*screw.length))
}
