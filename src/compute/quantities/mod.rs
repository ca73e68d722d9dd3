//! What to buy and which tools to bring.
//!
//! Takes the work, the cut list and the cable list; gives one shopping list grouped as a shop is,
//! every amount rounded up to packs with its spares, and the tools that the holes, fasteners and
//! bonds ask for.

mod bonding_stuff;
pub(crate) mod electrical;
mod fixtures;
mod locker;
mod metal;
mod restraint;
mod small_parts;
mod tools;

use crate::build::Build;
use crate::compute::cables::Cables;
use crate::compute::cure::JointCure;
use crate::compute::cut_list::CutList;
use crate::compute::electrics::Electrics;
use crate::derive::Work;
use crate::source::{Figure, Ledger, Seen};
use crate::tables::Tables;
use crate::units::{Length, Money, Volume};

pub use bonding_stuff::packer_sealant;
pub use locker::{Locked, drops_words};
pub use tools::{Tool, ToolGroup};

/// The shopping list.
#[derive(Debug, Clone, Default)]
pub struct Shopping {
    /// Shelves of the shop, in order.
    pub shelves: Vec<Shelf>,
    /// Price of what has one.
    pub priced: Money,
    /// How many lines have no price.
    pub unpriced: usize,
    /// Tools and protective equipment.
    pub tools: Vec<Tool>,
    /// Beads, tape and seals in place.
    pub bonding: Vec<Amount>,
    /// Threads that are locked, by size.
    pub locked: Vec<Locked>,
}

/// One shelf of the shop.
#[derive(Debug, Clone)]
pub struct Shelf {
    /// Its name.
    pub name: &'static str,
    /// What to take from it.
    pub lines: Vec<ShopLine>,
}

/// One line to buy.
#[derive(Debug, Clone)]
pub struct ShopLine {
    /// What to ask for.
    pub what: String,
    /// Amount that the work needs.
    pub need: String,
    /// Packs to buy.
    pub buy: String,
    /// Price of them, if known.
    pub price: Option<Money>,
}

/// Amount of a bead or strip in place.
#[derive(Debug, Clone)]
pub struct Amount {
    /// Mark of the joint.
    pub mark: String,
    /// What it is.
    pub what: String,
    /// Length laid.
    pub length: Length,
    /// Volume in place; nothing for tape.
    pub volume: Option<Volume>,
}

/// Beads, tape and seals in place.
pub fn laid(build: &Build, work: &Work) -> Vec<Amount> {
    bonding_stuff::amounts(build, work)
}

/// Adds everything up.
#[expect(clippy::too_many_arguments, reason = "each is a chapter of its own")]
pub fn quantities(
    build: &Build,
    work: &Work,
    cuts: Option<&CutList>,
    electrics: Option<&Electrics>,
    cables: Option<&Cables>,
    cures: &[JointCure],
    tables: &Tables,
    ledger: &mut Ledger,
) -> Shopping {
    let bonding = bonding_stuff::amounts(build, work);
    let locked = locker::locked(work, tables);
    let mut fasteners = small_parts::lines(work, tables);
    fasteners.extend(locker::lines(&locked, tables, ledger));
    fasteners.extend(fixtures::fasteners(build, tables));
    let mut bonded = bonding_stuff::lines(build, work, cures, &bonding, tables, ledger);
    bonded.extend(fixtures::sealants(build));
    let shelves: Vec<Shelf> = [
        ("bars and sheets", metal::lines(cuts)),
        ("bought parts", metal::bought(work, cuts)),
        ("fasteners", fasteners),
        ("bonding and sealing", bonded),
        ("battery and what holds it", restraint::lines(build, tables)),
        ("electrical", electrical::lines(build, electrics.zip(cables), cuts, tables)),
    ]
    .into_iter()
    .filter(|(_, lines)| !lines.is_empty())
    .map(|(name, lines)| Shelf { name, lines })
    .collect();
    let all = shelves.iter().flat_map(|shelf| &shelf.lines);
    let priced: Money = all.clone().filter_map(|line| line.price).sum();
    let unpriced = all.filter(|line| line.price.is_none()).count();
    ledger.push(
        Figure::new(
            "shopping.priced",
            "price of what has a price",
            priced.to_cents() as f64 / 100.0,
            "",
        )
        .formula("Σ packs × price")
        .input("lines without a price", unpriced.to_string())
        .source("prices of the build file", Seen::DataSheet),
    );
    let tools = tools::tools(build, work, electrics, tables);
    Shopping { shelves, priced, unpriced, tools, bonding, locked }
}

/// "2 packs of 25, 1 of 10".
fn packs(list: &[(f64, u32)], unit: &str) -> String {
    let size = |size: f64| {
        if size.fract() == 0.0 { format!("{size:.0}") } else { format!("{size:.1}") }
    };
    let gap = if unit.is_empty() { "" } else { "\u{a0}" };
    list.iter()
        .map(|(one, count)| format!("{count}\u{a0}×\u{a0}{}{gap}{unit}", size(*one)))
        .collect::<Vec<_>>()
        .join(", ")
}

/// A count of pieces in packs with spares: need, buy.
fn pieces(tables: &Tables, pack: &str, count: f64) -> (String, String) {
    let need = format!("{count:.0}");
    let Ok(pack) = tables.pack(pack) else { return (need.clone(), need) };
    let buy = packs(&pack.packs_for(pack.with_spares(count)), "");
    (need, buy)
}
