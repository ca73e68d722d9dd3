//! The bond from the battery's minus to the vehicle's body.

use super::Run;
use super::conductor::{self, Asked};
use crate::build::{Bond, Build, Circuit, Insulation, Terminal};
use crate::compute::cables::Cut;
use crate::source::{Figure, Ledger, Seen};
use crate::tables::Tables;
use crate::units::{Area, Current, Length, Ratio};

/// One conductor from the battery's minus to the body.
#[derive(Debug, Clone)]
pub struct EarthBond {
    /// Number on the sheets and on the labels at both ends, after the runs'.
    pub mark: String,
    /// Name of its size.
    pub name: String,
    /// Copper.
    pub area: Area,
    /// The smallest gauge that does.
    pub gauge: Option<String>,
    /// Rating of the largest fuse at the battery, which it must outlast.
    pub fuse: Current,
    /// What it may carry.
    pub ampacity: Current,
    /// Route.
    pub length: Length,
    /// What its cut length is made of.
    pub cut: Cut,
    /// Insulation.
    pub insulation: Insulation,
    /// Diameter over it.
    pub outer: Option<Length>,
    /// Colour letters (IEC 60757).
    pub colour: &'static str,
}

/// The bond: it carries a fault to the body until the largest fuse of the battery blows.
pub(super) fn earth(
    build: &Build,
    runs: &[Run],
    tables: &Tables,
    ledger: &mut Ledger,
) -> Option<EarthBond> {
    let earth = build.earth.as_ref().filter(|earth| *earth.bond == Bond::Chassis)?;
    let length = **earth.length.as_ref()?;
    let at_battery = build.circuits.iter().enumerate().filter(|(_, circuit)| {
        *circuit.from == Terminal::Battery || *circuit.to == Terminal::Battery
    });
    let largest = at_battery
        .filter_map(|(index, _)| runs.iter().find(|run| run.mark == format!("W{}", index + 1)))
        .filter_map(|run| run.fuse.as_ref())
        .map(|fuse| fuse.rating)
        .reduce(Current::max)?;
    // Laid as the first cable at the battery, on its own.
    let like = build
        .circuits
        .iter()
        .find(|circuit| *circuit.from == Terminal::Battery || *circuit.to == Terminal::Battery)?;
    let alone = Circuit {
        length: crate::source::Stated::written(length, earth.span),
        size: None,
        fuse: None,
        bundled: crate::source::Stated::written(2, earth.span),
        ..like.clone()
    };
    let asked = Asked {
        design: largest,
        working: largest,
        voltage: build.battery.as_ref().map(|battery| *battery.voltage)?,
        drop: Ratio::ONE,
    };
    let choice = conductor::choose(&alone, asked, &|_| true, tables);
    let conductor = choice.metric?;
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
    Some(EarthBond {
        mark,
        name: conductor.name,
        area: conductor.area,
        gauge: choice.gauge,
        fuse: largest,
        ampacity: conductor.ampacity,
        length,
        cut: Cut::of(&alone, conductor.outer, Length::ZERO, tables),
        insulation: *alone.insulation,
        outer: conductor.outer,
        colour: "BK",
    })
}
