//! The bond from the battery's minus to the vehicle's body.

use super::single::Single;
use super::{Run, single};
use crate::build::{Bond, Build};
use crate::compute::cables::Cut;
use crate::source::{Figure, Ledger, Seen};
use crate::tables::Tables;
use crate::units::Length;

/// The bond: it carries a fault to the body until the largest fuse of the battery blows.
pub(super) fn earth(
    build: &Build,
    runs: &[Run],
    tables: &Tables,
    ledger: &mut Ledger,
) -> Option<Single> {
    let earth = build.earth.as_ref().filter(|earth| *earth.bond == Bond::Chassis)?;
    let length = **earth.length.as_ref()?;
    let battery = build.battery.as_ref()?;
    let largest = single::largest_fuse(build, runs)?;
    let (alone, conductor, gauge) =
        single::beside_battery(build, largest, (length, earth.span), tables)?;
    let mark = format!("W{}", build.circuits.len() + 1);
    ledger.push(
        Figure::new(
            format!("electrics.ampacity.{mark}"),
            format!("{mark}: current that the bond to the body may carry"),
            conductor.ampacity.to_a(),
            "A",
        )
        .formula("ampacity ≥ largest fuse at the battery")
        .input("fuse", format!("{:.0} A", largest.to_a()))
        .input("size", super::area_words(conductor.area))
        .source("ABYC E-11, ISO 10133: a bond outlasts the fuse", Seen::Memory)
        .assume("no current of loads returns over the body: every load has its own minus")
        .decides(),
    );
    Some(Single {
        mark,
        name: "bond to the body",
        ends: [format!("{}:\u{2212}", battery.at_minus()), "body".to_owned()],
        cut: Cut::of(&alone, conductor.outer, Length::ZERO, tables),
        conductor,
        gauge,
        fuse: largest,
        insulation: *alone.insulation,
        length,
        colour: "BK",
    })
}
