//! Threadlocker and its activator, by size of thread.

use super::{ShopLine, packs};
use crate::compute::cure::LOCKER;
use crate::derive::{Screw, Work};
use crate::source::{Figure, Ledger, Seen};
use crate::tables::{Tables, Thread};
use crate::units::{Area, Volume, display};
use std::f64::consts::PI;

/// A drop of thin liquid: 20 of them are a millilitre, as of water from the standard drop counter of
/// the pharmacopoeias (from memory).
const DROP: Volume = Volume::ml(0.05);
/// Thread in its nut or rivet nut, in diameters; common practice.
const ENGAGED: f64 = 1.5;

/// Threads of a size that are locked.
#[derive(Debug, Clone, PartialEq)]
pub struct Locked {
    /// "M5".
    pub thread: String,
    /// How many.
    pub count: u32,
    /// Whole drops on each.
    pub drops: u32,
    /// Threadlocker on all of them, as it spreads over their threads.
    pub volume: Volume,
    /// Faces of bolts and nuts to be wetted with activator.
    pub faces: Area,
}

/// Bolts in rivet nuts that stay done up, by size.
pub(super) fn locked(work: &Work, tables: &Tables) -> Vec<Locked> {
    let Ok(locker) = tables.threadlocker(LOCKER) else { return Vec::new() };
    let mut list: Vec<(&Thread, u32)> = Vec::new();
    for fastening in work.fastenings.iter().filter(|fastening| !fastening.undone) {
        let Screw::BoltInRivetNut { thread, .. } = &fastening.screw else { continue };
        match list.iter_mut().find(|(known, _)| known.name == thread.name) {
            Some((_, count)) => *count += fastening.count,
            None => list.push((thread, fastening.count)),
        }
    }
    list.sort_by(|a, b| a.0.diameter.total_cmp(&b.0.diameter));
    list.into_iter()
        .map(|(thread, count)| {
            let each = locker.volume_for(thread.diameter);
            let face = thread.diameter * (thread.diameter * ENGAGED) * PI;
            Locked {
                thread: thread.name.clone(),
                count,
                drops: (each / DROP).ceil().max(1.0) as u32,
                volume: each * f64::from(count),
                faces: face * (2.0 * f64::from(count)),
            }
        })
        .collect()
}

/// What to buy for them.
pub(super) fn lines(locked: &[Locked], tables: &Tables, ledger: &mut Ledger) -> Vec<ShopLine> {
    let mut lines = Vec::new();
    let drops: u32 = locked.iter().map(|one| one.drops * one.count).sum();
    if drops == 0 {
        return lines;
    }
    for one in locked {
        let thread = &one.thread;
        ledger.push(
            Figure::new(
                format!("quantities.threadlocker.{thread}"),
                format!("threadlocker on {thread} threads"),
                f64::from(one.drops * one.count),
                "drops",
            )
            .formula(
                "threads × whole drops of 0.05 ml; 0.05 ml on M6, by the square of the diameter",
            )
            .input("threads", one.count.to_string())
            .input("spread on them", format!("{:.2} ml", one.volume.to_ml()))
            .source("volume of the threadlocker’s row; 20 drops a millilitre", Seen::Memory),
        );
    }
    // Whole drops are what leaves the bottle.
    let out = DROP * f64::from(drops);
    if let (Ok(pack), Ok(locker)) = (tables.pack("threadlocker"), tables.threadlocker(LOCKER)) {
        lines.push(line(
            &locker.words,
            format!("{drops}\u{a0}drops, {}\u{a0}ml", display::number(out.to_ml(), 1)),
            &pack.packs_for(pack.with_spares(out.to_ml())),
            out,
        ));
    }
    let activator =
        tables.primers.iter().find(|primer| primer.goes_under.iter().any(|name| name == LOCKER));
    if let (Ok(pack), Some(primer)) = (tables.pack("primer"), activator) {
        let need = primer.volume_for(locked.iter().map(|one| one.faces).sum());
        lines.push(line(
            &primer.words,
            format!("{}\u{a0}ml", display::number(need.to_ml().max(0.1), 1)),
            &pack.packs_for(pack.with_spares(need.to_ml())),
            need,
        ));
    }
    lines
}

/// A line with what stays in its bottles.
fn line(what: &str, need: String, bought: &[(f64, u32)], used: Volume) -> ShopLine {
    let bottles: f64 = bought.iter().map(|(size, count)| size * f64::from(*count)).sum();
    let left = display::number(bottles - used.to_ml(), 1);
    let buy = format!("{}, {left}\u{a0}ml left", packs(bought, "ml"));
    ShopLine { what: what.to_owned(), need, buy, price: None }
}

/// "M5: 12 × 1 drop, M6: 6 × 1 drop".
pub fn drops_words(locked: &[Locked]) -> String {
    let told = |one: &Locked| {
        let word = if one.drops == 1 { "drop" } else { "drops" };
        format!("{}: {}\u{a0}×\u{a0}{}\u{a0}{word}", one.thread, one.count, one.drops)
    };
    locked.iter().map(told).collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Length;

    #[test]
    fn a_larger_thread_takes_more_drops() {
        let locker = Tables::builtin().threadlocker(LOCKER).expect("built in");
        let drops = |mm: f64| (locker.volume_for(Length::mm(mm)) / DROP).ceil();
        assert_eq!([5.0, 6.0, 8.0, 10.0].map(drops), [1.0, 1.0, 2.0, 3.0]);
    }
}
