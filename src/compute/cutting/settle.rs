//! Pieces of unlike mitres beside each other: their order and turns on a bar, so that slanting ends
//! reach beside each other, then a shorter bar or one bar less where that makes room.
//!
//! A far end with slant a and a zero end with slant b that lean against each other save the lesser of
//! the two along the bar. Alike they share one cut; unlike ones get a cut each, with a wedge of waste
//! between. Small bars are tried in every order and turn; the bound of the plan is not touched.

use super::job::{Section, Stock};
use super::mitre::{End, Mitre};
use super::plan::{Bar, Cut, Measure, Proof, SectionPlan};
use std::collections::BTreeMap;

/// Bars with more pieces keep their order.
const MOST_PIECES: usize = 5;
/// Plans with more bars are left as they are.
const MOST_BARS: usize = 60;

/// A piece by its length and ends.
type Shape = (i64, Mitre);

/// Pieces of one bar in their best order, measured from where the first begins.
struct Order {
    /// Places among the pieces given, each with its start, its turn and whether it shares its cut.
    laid: Vec<(usize, i64, bool, bool)>,
    /// Farthest point of the last piece.
    end: i64,
    /// Saw cuts between pieces, and how far pieces reach beside each other.
    saw: i64,
    nested: i64,
    /// Cut that frees the last piece.
    last_saw: i64,
}

/// The end as it lies.
fn lies(end: End, turned: bool) -> End {
    End { slant: if turned { -end.slant } else { end.slant }, ..end }
}

/// How far behind its outermost point an end lies on the near and the far edge of the bar.
fn set_back(end: End) -> [i64; 2] {
    [end.slant.max(0), (-end.slant).max(0)]
}

struct Search<'a> {
    pieces: &'a [Shape],
    turns: bool,
    now: Vec<(usize, i64, bool, bool)>,
    best: Option<Order>,
}

impl Search<'_> {
    /// `before`: edges of the piece before and its far end as it lies.
    fn go(&mut self, before: Option<([i64; 2], End)>, saw: i64, nested: i64) {
        let reached = before.map_or(0, |(edge, _)| edge[0].max(edge[1]));
        if self.best.as_ref().is_some_and(|best| reached >= best.end) {
            return;
        }
        if self.now.len() == self.pieces.len() {
            let last_saw = before.map_or(0, |(_, far)| far.saw);
            self.best = Some(Order { laid: self.now.clone(), end: reached, saw, nested, last_saw });
            return;
        }
        for at in 0..self.pieces.len() {
            let used = |at: usize| self.now.iter().any(|laid| laid.0 == at);
            let alike = (0..at).any(|k| self.pieces[k] == self.pieces[at] && !used(k));
            if used(at) || alike {
                continue;
            }
            let (length, mitre) = self.pieces[at];
            let slants = mitre.zero.slant != 0 || mitre.far.slant != 0;
            for turned in [false, true] {
                if turned && !(self.turns && slants) {
                    continue;
                }
                let (zero, far) = (lies(mitre.zero, turned), lies(mitre.far, turned));
                let (back, ahead) = (set_back(zero), set_back(far));
                let (from, gap, over, shared) = match before {
                    None => (0, 0, 0, false),
                    Some((edge, end)) => {
                        let shared =
                            end.slant != 0 && end.slant == -zero.slant && end.saw == zero.saw;
                        let gap = end.saw.max(zero.saw);
                        let from = (edge[0] + gap - back[0]).max(edge[1] + gap - back[1]);
                        let over = edge[0].max(edge[1]) + gap - from;
                        (from, gap, over, shared)
                    }
                };
                let edges = [from + length - ahead[0], from + length - ahead[1]];
                self.now.push((at, from, turned, shared));
                self.go(Some((edges, far)), saw + gap, nested + over);
                self.now.pop();
            }
        }
    }
}

/// The shortest way to lay pieces; none for more than are tried.
fn shortest(pieces: &[Shape], turns: bool) -> Option<Order> {
    if pieces.is_empty() || pieces.len() > MOST_PIECES {
        return None;
    }
    let mut search = Search { pieces, turns, now: Vec::new(), best: None };
    search.go(None, 0, 0);
    search.best
}

/// What a bar of this stock counts.
fn cost(stock: &Stock, measure: Measure) -> i64 {
    match (measure, stock.limit) {
        (Measure::Price, _) => stock.price.unwrap_or(0),
        (Measure::BoughtLength, None) => stock.length,
        (Measure::BoughtLength, Some(_)) => 0,
    }
}

struct Settled<'a> {
    section: &'a Section,
    ends: &'a dyn Fn(&str) -> Mitre,
    turns: bool,
    measure: Measure,
}

impl Settled<'_> {
    fn stock_of(&self, bar: &Bar) -> Option<&Stock> {
        self.section.stock.iter().find(|stock| stock.id == bar.stock)
    }

    fn shapes(&self, cuts: &[Cut]) -> Vec<Shape> {
        cuts.iter().map(|cut| (cut.to - cut.from, (self.ends)(&cut.piece))).collect()
    }

    /// Room for pieces on a bar of a stock.
    fn room(stock: &Stock) -> i64 {
        stock.length - stock.trim_start - stock.trim_end
    }

    /// Pieces in an order on a bar of a stock.
    fn bar(&self, stock: &Stock, cuts: &[Cut], order: &Order) -> Bar {
        let start = stock.trim_start;
        let cuts = order
            .laid
            .iter()
            .map(|(at, from, turned, shared)| {
                let cut = &cuts[*at];
                let from = start + from;
                let to = from + cut.to - cut.from;
                Cut { piece: cut.piece.clone(), from, to, shared: *shared, turned: *turned }
            })
            .collect();
        let rest = Self::room(stock) - order.end;
        // The last cut may fall off the end.
        let last = order.last_saw.min(rest);
        let leftover = rest - last;
        Bar {
            stock: stock.id.clone(),
            length: stock.length,
            trim_start: stock.trim_start,
            trim_end: stock.trim_end,
            price: stock.price,
            cuts,
            saw: order.saw + last,
            nested: order.nested,
            leftover,
            useful: leftover > 0 && leftover >= self.section.least_useful,
            set_up: 0,
        }
    }

    /// The pieces on the cheapest stock that holds them, of those that are left.
    fn cheapest(&self, cuts: &[Cut], others: &[Bar]) -> Option<(i64, Bar)> {
        let order = shortest(&self.shapes(cuts), self.turns)?;
        let left = |stock: &Stock| {
            let used = others.iter().filter(|bar| bar.stock == stock.id).count();
            stock.limit.is_none_or(|limit| used < limit as usize)
        };
        let mut fits: Vec<&Stock> = self
            .section
            .stock
            .iter()
            .filter(|stock| left(stock) && order.end <= Self::room(stock))
            .collect();
        fits.sort_by_key(|stock| (cost(stock, self.measure), stock.length, stock.id.clone()));
        let stock = *fits.first()?;
        Some((cost(stock, self.measure), self.bar(stock, cuts, &order)))
    }

    fn cost_of(&self, bar: &Bar) -> i64 {
        self.stock_of(bar).map_or(0, |stock| cost(stock, self.measure))
    }

    fn others(bars: &[Bar], but: usize) -> Vec<Bar> {
        let all = bars.iter().enumerate().filter(|(k, _)| *k != but);
        all.map(|(_, bar)| bar.clone()).collect()
    }

    /// Each bar shorter in itself, or on a cheaper stock.
    fn shorten(&self, bars: &mut [Bar]) {
        for at in 0..bars.len() {
            if !self.slants(&bars[at]) {
                continue;
            }
            let others = Self::others(bars, at);
            let Some((cost, next)) = self.cheapest(&bars[at].cuts, &others) else { continue };
            let now = self.cost_of(&bars[at]);
            let same = next.stock == bars[at].stock && next.leftover > bars[at].leftover;
            if cost < now || same {
                bars[at] = next;
            }
        }
    }

    fn slants(&self, bar: &Bar) -> bool {
        bar.cuts.iter().any(|cut| {
            let mitre = (self.ends)(&cut.piece);
            mitre.zero.slant != 0 || mitre.far.slant != 0
        })
    }

    /// One bar less, where its pieces have room on the others for less money; gives whether so.
    fn empty_one(&self, bars: &mut Vec<Bar>) -> bool {
        let now: i64 = bars.iter().map(|bar| self.cost_of(bar)).sum();
        for gone in (0..bars.len()).rev() {
            if self.cost_of(&bars[gone]) == 0 {
                continue;
            }
            let mut others = Self::others(bars, gone);
            let placed = bars[gone].cuts.iter().all(|cut| {
                (0..others.len()).any(|at| {
                    let mut cuts = others[at].cuts.clone();
                    cuts.push(cut.clone());
                    let rest = Self::others(&others, at);
                    let found = self.cheapest(&cuts, &rest);
                    found.is_some_and(|(_, bar)| {
                        others[at] = bar;
                        true
                    })
                })
            });
            let cost: i64 = others.iter().map(|bar| self.cost_of(bar)).sum();
            if placed && cost < now {
                *bars = others;
                return true;
            }
        }
        false
    }
}

/// Settles a plan of which not all pieces are of one nest; `of` gives the ends by a piece's id.
pub(super) fn settle(
    plan: &mut SectionPlan,
    section: &Section,
    of: &dyn Fn(&str) -> Mitre,
    turns: bool,
) {
    if plan.bars.len() > MOST_BARS {
        return;
    }
    let on = Settled { section, ends: of, turns, measure: plan.measure };
    let before = plan.bars.clone();
    on.shorten(&mut plan.bars);
    while !plan.cost.proven() && on.empty_one(&mut plan.bars) {
        on.shorten(&mut plan.bars);
    }
    if plan.bars == before {
        return;
    }
    let value = plan.bars.iter().map(|bar| on.cost_of(bar)).sum();
    plan.cost = Proof { value, bound: plan.cost.bound.min(value), ..plan.cost };
    let longest = plan.bars.iter().map(|bar| bar.leftover).max().unwrap_or(0);
    plan.leftover =
        Proof { value: longest, bound: plan.leftover.bound.max(longest), ..plan.leftover };
    number(plan, of);
}

/// Bars that are cut alike get one number, in their order.
fn number(plan: &mut SectionPlan, of: &dyn Fn(&str) -> Mitre) {
    type Pattern = (i64, Vec<(i64, i64, bool, [i64; 2])>);
    let mut known: BTreeMap<Pattern, usize> = BTreeMap::new();
    for bar in &mut plan.bars {
        let cuts = bar.cuts.iter().map(|cut| {
            let mitre = of(&cut.piece);
            (cut.from, cut.to, cut.turned, [mitre.zero.slant, mitre.far.slant])
        });
        let next = known.len();
        bar.set_up = *known.entry((bar.length, cuts.collect())).or_insert(next);
    }
    let value = i64::try_from(known.len()).unwrap_or(i64::MAX);
    plan.set_ups = Proof { value, bound: plan.set_ups.bound.min(value), ..plan.set_ups };
}

#[cfg(test)]
mod tests {
    use super::*;

    fn end(slant: i64, saw: i64) -> End {
        End { slant, saw }
    }

    #[test]
    fn unlike_ends_reach_beside_each_other_by_the_lesser_slant() {
        // 45° and 30° across 25 mm with a saw cut of 2 mm: 25 × tan 30° = 14.43 mm are saved, the wider
        // saw cut of 2.83 mm lies between (trigonometry, by hand).
        let a = (60_000, Mitre { zero: end(0, 200), far: end(2_500, 283) });
        let b = (40_000, Mitre { zero: end(1_443, 231), far: end(0, 200) });
        let order = shortest(&[a, b], true).expect("two pieces");
        assert_eq!(order.end, 60_000 + 40_000 + 283 - 1_443);
        assert_eq!((order.saw, order.nested), (283, 1_443));
        // Not turned over both long points meet and nothing is saved.
        let order = shortest(&[a, b], false).expect("two pieces");
        assert_eq!(order.end, 60_000 + 40_000 + 200);
    }

    #[test]
    fn alike_ends_share_a_cut() {
        let side = (60_000, Mitre { zero: end(2_500, 283), far: end(2_500, 283) });
        let order = shortest(&[side, side, side], true).expect("three pieces");
        assert_eq!(order.end, 3 * 60_000 + 2 * (283 - 2_500));
        assert!(order.laid[1].3 && order.laid[2].3);
    }
}
