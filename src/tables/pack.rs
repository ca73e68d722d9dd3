//! Pack sizes.

use super::{Row, RowOrigin};
use crate::units::{Ratio, Unit};

/// What a pack is counted in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PackUnit {
    /// Pieces.
    Piece,
    /// Millilitres.
    Millilitre,
    /// Metres.
    Metre,
}

/// How something is sold.
#[derive(Clone, Debug, PartialEq)]
pub struct Pack {
    /// `rivet-nuts`.
    pub name: String,
    /// For people.
    pub words: String,
    /// Group of the shopping list, as a shop is laid out.
    pub group: String,
    /// What is counted.
    pub unit: PackUnit,
    /// Pack sizes, rising.
    pub sizes: Vec<f64>,
    /// Spares to add.
    pub spare: Ratio,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl Pack {
    /// The amount with spares; whole pieces, at least one spare where there are any.
    pub fn with_spares(&self, needed: f64) -> f64 {
        let more = needed * (1.0 + self.spare.to_fraction());
        // 10 % of 20 must stay 2 in spite of rounding.
        if self.unit == PackUnit::Piece { (more - 1e-9).ceil() } else { more }
    }

    /// Packs to buy for an amount: size and number, largest size first, with the least left over,
    /// then the fewest packs. Empty for nothing.
    pub fn packs_for(&self, amount: f64) -> Vec<(f64, u32)> {
        let sizes: Vec<f64> = self.sizes.iter().rev().copied().collect();
        let mut best = Purchase::default();
        if let Some(largest) = sizes.first().copied().filter(|_| amount > 0.0) {
            let whole = (amount / largest).floor().min(1e6) as u32;
            // Fewer of the largest by two or more only adds packs; small sizes then never need to
            // make up more than one of the largest.
            for count in whole.saturating_sub(1)..=whole + 1 {
                let mut purchase = Purchase { packs: vec![(largest, count)], rest: 0.0 };
                purchase.rest = amount - largest * f64::from(count);
                fill(&sizes[1..], largest, &purchase, &mut best);
            }
        }
        best.packs.retain(|(_, count)| *count > 0);
        best.packs
    }

    fn from_row(row: &mut Row<'_>) -> Self {
        let mut sizes = row.number_list("sizes");
        sizes.sort_by(f64::total_cmp);
        if sizes.first().is_none_or(|least| *least <= 0.0) {
            row.refuse("sizes", "takes one or more sizes above zero");
        }
        Self {
            name: row.words("name"),
            words: row.words("words"),
            group: row.words("group"),
            unit: row.choice(
                "unit",
                &[("piece", PackUnit::Piece), ("ml", PackUnit::Millilitre), ("m", PackUnit::Metre)],
            ),
            sizes,
            spare: row.quantity("spare", Unit::ONE),
            origin: row.origin(),
        }
    }
}

/// Packs chosen so far, and what they don't cover yet.
#[derive(Clone, Debug, Default)]
struct Purchase {
    packs: Vec<(f64, u32)>,
    rest: f64,
}

impl Purchase {
    fn count(&self) -> u32 {
        self.packs.iter().map(|(_, count)| count).sum()
    }

    /// Whether it covers the amount and leaves less over, or as much in fewer packs.
    fn beats(&self, other: &Self) -> bool {
        const SAME: f64 = 1e-6;
        let covers = self.rest <= SAME;
        let (over, least) = (-self.rest, -other.rest);
        covers
            && (other.packs.is_empty()
                || over < least - SAME
                || (over <= least + SAME && self.count() < other.count()))
    }
}

/// Tries all numbers of the remaining sizes that could make up for one of the `largest`.
fn fill(sizes: &[f64], largest: f64, chosen: &Purchase, best: &mut Purchase) {
    if chosen.beats(best) {
        best.clone_from(chosen);
    }
    let Some((size, smaller)) = sizes.split_first() else { return };
    let most = ((chosen.rest.max(0.0) / size).ceil()).min((2.0 * largest / size).ceil()) as u32;
    for count in 0..=most {
        let mut next = chosen.clone();
        next.packs.push((*size, count));
        next.rest -= size * f64::from(count);
        fill(smaller, largest, &next, best);
    }
}

entry!(Pack, "pack", from_row);

#[cfg(test)]
mod tests {
    use crate::tables::Tables;

    fn packs(name: &str, amount: f64) -> Vec<(f64, u32)> {
        Tables::builtin().pack(name).expect("builtin").packs_for(amount)
    }

    #[test]
    fn the_least_is_left_over_and_then_the_fewest_packs_bought() {
        assert_eq!(packs("rivet-nuts", 60.0), [(50.0, 1), (10.0, 1)]);
        assert_eq!(packs("rivet-nuts", 30.0), [(10.0, 3)]);
        assert_eq!(packs("rivet-nuts", 1.0), [(10.0, 1)]);
        assert_eq!(packs("rivet-nuts", 230.0), [(100.0, 2), (10.0, 3)]);
        assert_eq!(packs("rivet-nuts", 99.0), [(100.0, 1)]);
        assert_eq!(packs("masking-tape", 60.0), [(33.0, 2)]);
        assert!(packs("rivet-nuts", 0.0).is_empty());
    }

    #[test]
    fn spares_are_whole_pieces() {
        let screws = Tables::builtin().pack("screws-small").expect("builtin");
        assert_eq!(screws.with_spares(20.0), 22.0);
        assert_eq!(screws.with_spares(21.0), 24.0);
    }
}
