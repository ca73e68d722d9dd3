//! Facts of a build by name: what templates may say.
//!
//! Each chapter sets its facts from build, work and ledger. A fact is words (with a number behind
//! them where it counts something) or a list of rows. Lists are always set, empty where there is
//! nothing, so that a name nobody sets is a fault of a template.

mod battery;
mod bonds;
mod brackets;
mod cutting;
mod drilling;
mod electrics;
mod entry;
mod fixtures;
mod frame;
mod limits;
mod mounts;
mod panels;
mod props;
mod roof;
mod say;

pub use bonds::{cleaner_for, faces_of, faces_under, primer_for, wipes_for};
pub use brackets::bend_limits;

use crate::build::Build;
use crate::compute::sizes::Sizes;
use crate::derive::Work;
use crate::source::Ledger;
use crate::tables::Tables;
use std::collections::{BTreeMap, BTreeSet};

pub use say::{mark_order, marks};

/// A row of a list: values by field.
pub type Item = BTreeMap<String, String>;

/// Facts by name.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Facts {
    words: BTreeMap<String, String>,
    numbers: BTreeMap<String, f64>,
    lists: BTreeMap<String, Vec<Item>>,
    limits: BTreeMap<String, Span>,
}

/// Bounds of a limit of workmanship; an open side counts as none.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
struct Span {
    low: f64,
    high: f64,
}

/// What facts are gathered from.
pub(super) struct Sources<'a> {
    /// What the reader wrote.
    pub build: &'a Build,
    /// What is made and fitted.
    pub work: &'a Work,
    /// Materials and rates.
    pub tables: &'a Tables,
    /// Sizes to confirm, with their limits.
    pub sizes: &'a Sizes,
}

impl Facts {
    /// All facts of a build. Figures worked out on the way are entered in the ledger.
    pub(super) fn gather(from: &Sources<'_>, ledger: &mut Ledger) -> Self {
        let mut facts = Self::default();
        for (name, count) in [("one", 1), ("two", 2)] {
            facts.count(name, count);
        }
        limits::set(&mut facts);
        roof::set(&mut facts, from, ledger);
        cutting::set(&mut facts, from);
        drilling::set(&mut facts, from);
        frame::set(&mut facts, from);
        mounts::set(&mut facts, from, ledger);
        panels::set(&mut facts, from);
        bonds::set(&mut facts, from, ledger);
        entry::set(&mut facts, from);
        fixtures::set(&mut facts, from, ledger);
        electrics::set(&mut facts, from, ledger);
        battery::set(&mut facts, from);
        facts
    }

    /// Sets words.
    pub fn set(&mut self, name: impl Into<String>, words: impl Into<String>) {
        self.words.insert(name.into(), words.into());
    }

    /// Sets words if there are any.
    fn maybe(&mut self, name: &str, words: Option<String>) {
        if let Some(words) = words {
            self.set(name, words);
        }
    }

    /// Sets a count: its words are the number.
    pub fn count(&mut self, name: &str, count: usize) {
        self.number(name, count as f64, count.to_string());
    }

    /// Sets words with a number behind them.
    fn number(&mut self, name: &str, number: f64, words: String) {
        self.numbers.insert(name.to_owned(), number);
        self.set(name, words);
    }

    /// Sets `name.low` and `name.high`.
    fn range(&mut self, name: &str, (low, high): (String, String)) {
        self.set(format!("{name}.low"), low);
        self.set(format!("{name}.high"), high);
    }

    /// Sets a list; the count of its rows goes with it.
    fn list(&mut self, name: &str, rows: Vec<Item>) {
        self.numbers.insert(name.to_owned(), rows.len() as f64);
        self.lists.insert(name.to_owned(), rows);
    }

    /// Words of a fact.
    pub fn words(&self, name: &str) -> Option<&str> {
        self.words.get(name).map(String::as_str)
    }

    /// Number behind a fact: what a count says, rows of a list; absent for mere words.
    pub fn number_of(&self, name: &str) -> Option<f64> {
        self.numbers.get(name).copied()
    }

    /// Rows of a list.
    pub fn rows(&self, name: &str) -> Option<&[Item]> {
        self.lists.get(name).map(Vec::as_slice)
    }

    /// Marks that the rows of a list name, in order, each once.
    pub fn marks_of(&self, list: &str) -> Vec<String> {
        let mut seen = BTreeSet::new();
        let rows = self.rows(list).unwrap_or_default();
        rows.iter()
            .filter_map(|row| row.get("each").or_else(|| row.get("mark")))
            .flat_map(|marks| marks.split(' '))
            .filter(|mark| !mark.is_empty() && seen.insert((*mark).to_owned()))
            .map(str::to_owned)
            .collect()
    }

    /// Every name that there is.
    pub fn names(&self) -> Vec<&str> {
        let words = self.words.keys().chain(self.numbers.keys()).chain(self.lists.keys());
        words.map(String::as_str).collect()
    }

    /// Whether a fact is there: words that say something, a count above zero, a list with rows.
    pub fn has(&self, name: &str) -> bool {
        match self.numbers.get(name) {
            Some(number) => *number > 0.0,
            None => self.words.get(name).is_some_and(|words| !words.is_empty()),
        }
    }

    /// Whether every name of a `when` is there and every `!name` is not.
    pub fn holds(&self, when: &str) -> bool {
        when.split_whitespace().all(|name| match name.strip_prefix('!') {
            Some(name) => !self.has(name),
            None => self.has(name),
        })
    }

    /// Lower bound of a limit of workmanship; zero where it is open.
    fn low(&self, limit: &str) -> f64 {
        self.limits.get(limit).map_or(0.0, |span| span.low)
    }

    /// Upper bound of a limit of workmanship; zero where it is open.
    fn high(&self, limit: &str) -> f64 {
        self.limits.get(limit).map_or(0.0, |span| span.high)
    }

    /// A value with a limit of workmanship taken off and added.
    fn about(&self, value: f64, limit: &str) -> (String, String) {
        say::range(value - self.low(limit).abs(), value + self.high(limit))
    }
}

impl Sources<'_> {
    /// Limits of a size to confirm, as told; dashes for one that is not there.
    fn size(&self, key: &str) -> (String, String) {
        self.sizes.get(key).map_or_else(
            || (String::new(), String::new()),
            |size| say::range(size.limits.low.to_mm(), size.limits.high.to_mm()),
        )
    }
}

/// A row of fields.
fn item<const N: usize>(fields: [(&str, String); N]) -> Item {
    fields.into_iter().map(|(name, words)| (name.to_owned(), words)).collect()
}

/// The same row with `low` and `high`.
fn with_range(mut row: Item, (low, high): (String, String)) -> Item {
    row.insert("low".to_owned(), low);
    row.insert("high".to_owned(), high);
    row
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_when_names_what_must_and_must_not_be_there() {
        let mut facts = Facts::default();
        facts.count("feet", 3);
        facts.count("hinges", 0);
        facts.set("saw", "hacksaw");
        facts.list("cuts", Vec::new());
        assert!(facts.holds(""));
        assert!(facts.holds("feet saw !hinges !cuts !roof"));
        assert!(!facts.holds("hinges"));
        assert!(!facts.holds("feet !saw"));
    }

    #[test]
    fn marks_come_once_and_in_order() {
        let mut facts = Facts::default();
        let row = |each: &str| item([("each", each.to_owned())]);
        facts.list("cuts", vec![row("L2 L1"), row("C1"), row("L1")]);
        assert_eq!(facts.marks_of("cuts"), ["L2", "L1", "C1"]);
    }
}
