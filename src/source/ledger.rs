//! All figures of a packet.

use super::Figure;
use serde::{Serialize, Serializer};
use std::collections::BTreeMap;

/// Figures in the order in which they were worked out, each under a name of its own.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ledger {
    figures: Vec<Figure>,
    places: BTreeMap<String, usize>,
}

impl Ledger {
    /// An empty ledger.
    #[must_use]
    pub const fn new() -> Self {
        Self { figures: Vec::new(), places: BTreeMap::new() }
    }

    /// Enters a figure and gives the name under which it stands. The same figure again changes
    /// nothing; another one under a taken name (two parts may be called alike) gets the next free
    /// of `name.2`, `name.3`, …
    pub fn push(&mut self, mut figure: Figure) -> String {
        let wanted = figure.id.clone();
        let mut count = 1;
        while let Some(place) = self.places.get(&figure.id) {
            if self.figures[*place] == figure {
                return figure.id;
            }
            count += 1;
            figure.id = format!("{wanted}.{count}");
        }
        let id = figure.id.clone();
        self.places.insert(id.clone(), self.figures.len());
        self.figures.push(figure);
        id
    }

    /// Enters the figures of another ledger after these.
    pub fn append(&mut self, other: Self) {
        for figure in other.figures {
            self.push(figure);
        }
    }

    /// The figures from this place on, alone.
    #[must_use]
    pub fn since(mut self, place: usize) -> Self {
        let mut own = Self::new();
        own.extend(self.figures.drain(place.min(self.figures.len())..));
        own
    }

    /// The figure of this name.
    pub fn get(&self, id: &str) -> Option<&Figure> {
        self.places.get(id).map(|place| &self.figures[*place])
    }

    /// All figures in the order in which they were entered.
    pub fn iter(&self) -> std::slice::Iter<'_, Figure> {
        self.figures.iter()
    }

    /// How many there are.
    pub const fn len(&self) -> usize {
        self.figures.len()
    }

    /// Whether there are none.
    pub const fn is_empty(&self) -> bool {
        self.figures.is_empty()
    }
}

impl<'a> IntoIterator for &'a Ledger {
    type Item = &'a Figure;
    type IntoIter = std::slice::Iter<'a, Figure>;
    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

impl Extend<Figure> for Ledger {
    fn extend<I: IntoIterator<Item = Figure>>(&mut self, figures: I) {
        for figure in figures {
            self.push(figure);
        }
    }
}

/// As a list of figures.
impl Serialize for Ledger {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_seq(&self.figures)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn figure(id: &str, value: f64) -> Figure {
        Figure::new(id, "", value, "mm")
    }

    #[test]
    fn names_are_unique_and_order_is_kept() {
        let mut ledger = Ledger::new();
        ledger.push(figure("b", 1.0));
        ledger.push(figure("a", 2.0));
        assert_eq!(ledger.push(figure("b", 1.0)), "b", "the same figure stays one");
        assert_eq!(ledger.push(figure("b", 3.0)), "b.2");
        assert_eq!(ledger.push(figure("b", 3.0)), "b.2");
        assert_eq!(ledger.push(figure("b", 4.0)), "b.3");
        let ids: Vec<&str> = ledger.iter().map(|f| f.id.as_str()).collect();
        assert_eq!(ids, ["b", "a", "b.2", "b.3"]);
        assert_eq!(ledger.get("b.2").map(|f| f.value), Some(3.0));
        assert_eq!(ledger.get("c"), None);
    }
}
