//! The battery, its blocks, screws and straps, and the controller.

use super::{ShopLine, pieces};
use crate::build::Build;
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
                *battery.mark, battery.chemistry.words, *battery.voltage, *battery.capacity
            ),
            1,
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
    let screws = f64::from(*held.blocks * *held.screws_a_block);
    if screws > 0.0 {
        let (need, buy) = pieces(tables, "tapping-screws", screws);
        let what = format!(
            "wood screw, countersunk, {}\u{a0}×\u{a0}{}",
            display::number_short(held.screw_diameter.to_mm(), 1),
            mm(*held.screw_length)
        );
        lines.push(ShopLine { what, need, buy, price: None });
    }
    lines
}

fn mm(length: Length) -> String {
    display::in_unit_short(length, Unit::MM, 1)
}
