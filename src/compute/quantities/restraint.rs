//! The battery, its blocks, screws and straps, and the controller.

use super::{ShopLine, pieces};
use crate::build::{Anchor, Build, HoldBy, WoodScrew};
use crate::compute::restraint::floor_bolts;
use crate::tables::Tables;
use crate::units::{Length, Unit, display};

/// Lines to buy.
pub(super) fn lines(build: &Build, tables: &Tables) -> Vec<ShopLine> {
    let mut lines = Vec::new();
    let mut one = |what: String, count: u32| {
        let count = count.to_string();
        lines.push(ShopLine { what, need: count.clone(), buy: count, price: None });
    };
    if let Some(battery) = &build.battery {
        one(
            format!(
                "{}: battery, {}, {}, {}",
                battery.marks().join(", "),
                battery.chemistry.words,
                *battery.voltage,
                *battery.capacity
            ),
            *battery.count,
        );
    }
    if let Some(controller) = &build.controller {
        one(
            format!(
                "{}: charge controller, input to {}, {}",
                *controller.mark, *controller.max_voltage, *controller.max_current
            ),
            1,
        );
    }
    let Some(held) = build.restraint.as_ref().filter(|_| build.battery.is_some()) else {
        return lines;
    };
    if *held.blocks > 0 {
        one(
            format!("wood block, {} high, by the battery sheet", mm(*held.block_height)),
            *held.blocks,
        );
    }
    if *held.straps > 0 {
        let capacity = display::number(held.strap_capacity.to_n(), 0);
        one(
            format!(
                "lashing strap with fittings for the floor, {capacity}\u{a0}N in straight pull"
            ),
            *held.straps,
        );
    }
    let mut screws = |screw: &WoodScrew, count: u32, where_: &str| {
        let (need, buy) = pieces(tables, "tapping-screws", f64::from(count));
        let what = format!(
            "wood screw, countersunk, {}\u{a0}×\u{a0}{}, {where_}",
            display::number_short(screw.diameter.to_mm(), 1),
            mm(*screw.length)
        );
        lines.push(ShopLine { what, need, buy, price: None });
    };
    let ends = *held.straps * 2;
    if let Some(screw) = held.screw.as_ref().filter(|_| *held.blocks > 0 && held.bolt.is_none()) {
        screws(screw, *held.blocks * *held.screws_a_block, "for the blocks");
    }
    if let Some(Anchor::Screws(screw, count)) = held.anchor.as_ref().filter(|_| ends > 0) {
        screws(screw, ends * **count, "for the strap fittings");
    }
    for set in floor_bolts(held) {
        let thread = &set.bolt.thread;
        let count = f64::from(set.count);
        let (need, buy) = pieces(tables, "bolts", count);
        let length = thread.length_at_least(set.grip);
        let size = length.map_or_else(
            || format!("{} over {}", thread.name, mm(set.grip)),
            |length| format!("{}\u{a0}×\u{a0}{}", thread.name, mm(length)),
        );
        let what = format!(
            "hexagon bolt {size}, {}, with large washer and locking nut, for the {}",
            set.bolt.grade.words, set.what
        );
        lines.push(ShopLine { what, need: need.clone(), buy, price: None });
        let Some(plate) = &set.bolt.spreader else { continue };
        let what = format!(
            "spreader plate, {}, {}\u{a0}×\u{a0}{}\u{a0}×\u{a0}{}, hole {}",
            plate.material.words,
            display::number_short(plate.length.to_mm(), 1),
            display::number_short(plate.width.to_mm(), 1),
            mm(*plate.thickness),
            mm(thread.clearance.medium)
        );
        lines.push(ShopLine { what, need: need.clone(), buy: need, price: None });
    }
    if *held.kind == HoldBy::Cradle {
        let what = "metal cradle with a bar over the battery, insulated inside".to_owned();
        lines.push(ShopLine { what, need: "1".into(), buy: "1".into(), price: None });
    }
    lines
}

fn mm(length: Length) -> String {
    display::in_unit_short(length, Unit::MM, 1)
}
