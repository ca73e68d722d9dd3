//! Conductors that lie alone: the bond to the body, links from battery to battery.

use super::Run;
use super::conductor::{self, Asked, Conductor};
use crate::build::{Build, Circuit, Insulation, Terminal};
use crate::compute::cables::Cut;
use crate::source::{Span, Stated};
use crate::tables::Tables;
use crate::units::{Area, Current, Length, Ratio};

/// One conductor alone.
#[derive(Debug, Clone)]
pub struct Single {
    /// Number on the sheets and on the labels at both ends, after the runs'.
    pub mark: String,
    /// "bond to the body", "link".
    pub name: &'static str,
    /// Terminals by their id.
    pub ends: [String; 2],
    /// Its size, and what it may carry.
    pub conductor: Conductor,
    /// The smallest gauge that does.
    pub gauge: Option<String>,
    /// What it must outlast.
    pub fuse: Current,
    /// What is round it.
    pub insulation: Insulation,
    /// Route.
    pub length: Length,
    /// Cut length, with what it is made of.
    pub cut: Cut,
    /// Colour letters (IEC 60757).
    pub colour: &'static str,
}

/// The first run that has an end at the battery.
fn at_battery(build: &Build) -> impl Iterator<Item = (usize, &Circuit)> {
    build.circuits.iter().enumerate().filter(|(_, circuit)| {
        *circuit.from == Terminal::Battery || *circuit.to == Terminal::Battery
    })
}

/// The largest fuse of the runs at the battery.
pub(super) fn largest_fuse(build: &Build, runs: &[Run]) -> Option<Current> {
    at_battery(build)
        .filter_map(|(index, _)| runs.iter().find(|run| run.mark == format!("W{}", index + 1)))
        .filter_map(|run| run.fuse.as_ref())
        .map(|fuse| fuse.rating)
        .reduce(Current::max)
}

/// A conductor that carries so much, laid as the first run at the battery but on its own: the run that
/// it stands for, its size, and the smallest gauge.
pub(super) fn beside_battery(
    build: &Build,
    carries: Current,
    (length, span): (Length, Span),
    tables: &Tables,
) -> Option<(Circuit, Conductor, Option<String>)> {
    let (_, like) = at_battery(build).next()?;
    let alone = Circuit {
        length: Stated::written(length, span),
        size: None,
        fuse: None,
        switched: None,
        bundled: Stated::written(2, span),
        from: Stated::written(Terminal::Battery, span),
        to: Stated::written(Terminal::Battery, span),
        ..like.clone()
    };
    let asked = Asked {
        design: carries,
        working: carries,
        voltage: build.battery.as_ref()?.bank_voltage(),
        drop: Ratio::ONE,
        least: Area::ZERO,
    };
    let choice = conductor::choose(&alone, asked, &|_| true, tables);
    Some((alone, choice.metric?, choice.gauge))
}
