//! Languages: what a finished packet says, said in another language.
//!
//! English is the language of the source, so the English text is the key of a row: a pattern whose
//! holes stand for what differs. [`retell`] takes a packet and gives back how many of its texts have
//! no row; those stay English. Nothing here knows what a sheet is about, and no stage before it knows
//! that there is another language.

mod pattern;
mod plain;
mod table;

use crate::page::{Packet, Voice};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, Mutex, PoisonError};

pub use pattern::{Hole, Pattern};
pub use table::{Fault, Row, Table};

/// Holes in holes in holes: deeper than any real text, and an end for any table.
const DEEPEST: usize = 8;

/// Rows tried for a text before it is given up.
const ROWS: usize = 3;

/// Between parts of a text that have nothing to do with each other's grammar.
const APART: &str = " · ";

/// Texts that have no row, each once.
pub type Missing = BTreeSet<String>;

/// Says a packet in the language of a table. Words of `own` are someone's own and stay as they are.
pub fn retell(packet: &mut Packet, table: &Table, own: &BTreeSet<String>) -> Missing {
    let mut teller = Teller::new(table, own);
    // A title of one's own is kept in the identity line; the rest of that line has no words.
    packet.language.clone_from(&table.tag);
    packet.voice = voice(table, Arc::default());
    packet.each_text(&mut |text| {
        if let Some(told) = teller.tell(text) {
            *text = told;
        }
    });
    teller.missing
}

/// Says what the layout itself puts on paper, and gathers what has no row.
pub fn voice(table: &Table, missing: Arc<Mutex<Missing>>) -> Voice {
    let (table, own) = (table.clone(), BTreeSet::new());
    Voice::new(
        table.decimal,
        Arc::new(move |text: &str| {
            let mut teller = Teller::new(&table, &own);
            let told = teller.tell(text).unwrap_or_else(|| text.to_owned());
            missing.lock().unwrap_or_else(PoisonError::into_inner).extend(teller.missing);
            told
        }),
    )
}

/// A number with or without a unit: "17.5 kg", "-0.28 %/K".
fn is_size(words: &str) -> bool {
    let words = words.trim();
    let begun = words.strip_prefix(['-', '−', '+']).unwrap_or(words);
    begun.starts_with(|c: char| c.is_ascii_digit()) && plain::is_plain(words)
}

/// Every string of a build file that is no size: words of someone's own, and marks.
pub fn own_words(contents: &str) -> BTreeSet<String> {
    fn strings(value: &toml::Value, own: &mut BTreeSet<String>) {
        match value {
            // A size is printed as any other, with the decimal sign of the language.
            toml::Value::String(words) if !is_size(words) => {
                own.insert(words.trim().to_owned());
            }
            toml::Value::Array(all) => all.iter().for_each(|one| strings(one, own)),
            toml::Value::Table(table) => table.values().for_each(|one| strings(one, own)),
            _ => {}
        }
    }
    let mut own = BTreeSet::new();
    if let Ok(table) = contents.parse::<toml::Table>() {
        table.values().for_each(|one| strings(one, &mut own));
    }
    own
}

/// Says text by text, and remembers what was said.
pub struct Teller<'a> {
    table: &'a Table,
    own: &'a BTreeSet<String>,
    told: BTreeMap<String, Option<String>>,
    missing: Missing,
    used: BTreeSet<&'a str>,
}

impl<'a> Teller<'a> {
    /// A teller that has said nothing yet.
    pub fn new(table: &'a Table, own: &'a BTreeSet<String>) -> Self {
        Self { table, own, told: BTreeMap::new(), missing: Missing::new(), used: BTreeSet::new() }
    }

    /// The text in the other language; nothing if it is the same there.
    pub fn tell(&mut self, text: &str) -> Option<String> {
        if let Some(told) = self.told.get(text) {
            return told.clone();
        }
        let mut unsaid = Vec::new();
        // The layout binds numbers to their units by itself; rows are written with common spaces.
        let told = self.whole(&text.replace('\u{a0}', " "), 0, &mut unsaid);
        self.missing.extend(unsaid);
        self.told.insert(text.to_owned(), told.clone());
        told
    }

    /// Texts that had no row so far.
    pub fn missing(&self) -> &Missing {
        &self.missing
    }

    /// English patterns of the rows that were of use so far.
    pub fn used(&self) -> &BTreeSet<&'a str> {
        &self.used
    }

    /// A text with its outer spaces kept; what has no row is added to `unsaid`.
    fn whole(&mut self, text: &str, depth: usize, unsaid: &mut Vec<String>) -> Option<String> {
        let inner = text.trim();
        if inner.is_empty() {
            return None;
        }
        let start = text.len() - text.trim_start().len();
        let told = self.inner(inner, depth, unsaid)?;
        Some(format!("{}{told}{}", &text[..start], &text[start + inner.len()..]))
    }

    /// Words of the build file, alone or beside numbers and dates as in a title block; a long one is cut.
    fn is_own(&self, text: &str) -> bool {
        let one = |part: &str| {
            let begun = part.strip_suffix('…').filter(|begun| begun.chars().count() > 5);
            self.own.contains(part)
                || begun.is_some_and(|begun| self.own.iter().any(|own| own.starts_with(begun)))
        };
        one(text)
            || text.contains("  ")
                && text
                    .split("  ")
                    .all(|part| one(part) || plain::is_plain(part) || part.starts_with("rev "))
    }

    fn inner(&mut self, text: &str, depth: usize, unsaid: &mut Vec<String>) -> Option<String> {
        let found = self.table.find(text, if depth == 0 { ROWS } else { 1 });
        if text.contains(APART)
            && !found.first().is_some_and(|(row, _)| row.english.contains(APART))
        {
            let mut parts = Vec::new();
            for part in text.split(APART) {
                parts.push(self.whole(part, depth, unsaid).unwrap_or_else(|| part.to_owned()));
            }
            return Some(parts.join(APART));
        }
        // Mere figures are no sentence of ours, and words of someone's own only where most of them
        // are the row's.
        let strange = |row: &table::Row| {
            plain::is_plain(text)
                || self.own.contains(text) && row.words() * 2 < text.chars().count()
        };
        let found: Vec<_> =
            found.into_iter().filter(|(row, held)| held.is_empty() || !strange(row)).collect();
        let mut best: Option<(&table::Row, Vec<String>, Vec<String>)> = None;
        for (row, held) in found {
            let (mut said, mut lost) = self.held(&held, depth);
            // A hole that ends at another space may be said.
            if depth == 0 && !lost.is_empty() {
                for held in row.ways(text).iter().skip(1) {
                    let other = self.held(held, depth);
                    if length(&other.1) < length(&lost) {
                        (said, lost) = other;
                    }
                }
            }
            // A sentence of two languages is worse than one in the other.
            let fine = length(&lost) <= row.words();
            if fine && best.as_ref().is_none_or(|best| length(&lost) < length(&best.2)) {
                let whole = lost.is_empty();
                best = Some((row, said, lost));
                if whole {
                    break;
                }
            }
        }
        if let Some((row, said, mut lost)) = best {
            self.used.insert(&row.english);
            unsaid.append(&mut lost);
            return Some(self.table.fill(row, &said));
        }
        if self.is_own(text) {
            return None;
        }
        if plain::is_plain(text) {
            return Some(plain::numbers(text, self.table.decimal));
        }
        unsaid.push(text.to_owned());
        None
    }

    /// What stands in holes, said, and what of it has no row.
    fn held(&mut self, held: &[&str], depth: usize) -> (Vec<String>, Vec<String>) {
        let mut lost = Vec::new();
        let said = held
            .iter()
            .map(|part| {
                let deeper = (depth < DEEPEST).then(|| self.whole(part, depth + 1, &mut lost));
                deeper.flatten().unwrap_or_else(|| (*part).to_owned())
            })
            .collect();
        (said, lost)
    }
}

fn length(parts: &[String]) -> usize {
    parts.iter().map(|part| part.chars().count()).sum()
}
