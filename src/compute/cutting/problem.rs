//! One section in the form that is solved: kinds of piece with demands, kinds of bar with prices.
//!
//! A piece weighs length + extra + kerf, a bar holds usable + kerf, so that a last cut that is flush
//! with the end fits: sum(length + extra) + (n-1) kerf <= usable is the same as
//! sum(weight) <= usable + kerf.

/// A kind of bar.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Kind {
    /// Usable length plus one kerf.
    pub(super) cap: i64,
    /// Cost of one bar, zero or more.
    pub(super) cost: i64,
    /// Bars on hand; `None`: as many as wanted.
    pub(super) limit: Option<i64>,
}

/// What one section asks, without names.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Problem {
    /// Weights of the kinds of piece, heaviest first.
    pub(super) weights: Vec<i64>,
    /// How many of each, more than zero.
    pub(super) demand: Vec<i64>,
    /// Kinds of bar.
    pub(super) kinds: Vec<Kind>,
    /// Width of the saw cut.
    pub(super) kerf: i64,
}

/// What goes on one bar, and how many bars are cut so.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Pattern {
    /// Kind of bar.
    pub(super) kind: usize,
    /// Pieces of each kind.
    pub(super) counts: Vec<i64>,
}

/// A whole cutting of a problem: patterns with how often each is cut.
pub(super) type Cutting = Vec<(Pattern, i64)>;

impl Problem {
    /// All pieces.
    pub(super) fn pieces(&self) -> i64 {
        self.demand.iter().sum()
    }

    /// All weight.
    pub(super) fn weight(&self) -> i64 {
        self.weights.iter().zip(&self.demand).map(|(w, d)| w * d).sum()
    }

    /// Most bars of a kind that a plan needs: each holds a piece.
    pub(super) fn most(&self, kind: usize) -> i64 {
        self.kinds[kind].limit.map_or(self.pieces(), |l| l.min(self.pieces()))
    }

    /// Weight of some pieces.
    pub(super) fn load(&self, counts: &[i64]) -> i64 {
        self.weights.iter().zip(counts).map(|(w, c)| w * c).sum()
    }

    /// What is left of a bar of `kind` after `counts` are cut from it.
    pub(super) fn leftover(&self, kind: usize, counts: &[i64]) -> i64 {
        (self.kinds[kind].cap - self.kerf - self.load(counts)).max(0)
    }

    /// Cost of a cutting.
    pub(super) fn cost(&self, cutting: &Cutting) -> i64 {
        cutting.iter().map(|(p, n)| self.kinds[p.kind].cost * n).sum()
    }

    /// Longest leftover of a bar that is cut; -1 if none is.
    pub(super) fn longest_leftover(&self, cutting: &Cutting) -> i64 {
        cutting.iter().map(|(p, _)| self.leftover(p.kind, &p.counts)).max().unwrap_or(-1)
    }

    /// Whether a cutting holds every piece exactly once on bars that there are.
    pub(super) fn is_met_by(&self, cutting: &Cutting) -> bool {
        let mut got = vec![0; self.demand.len()];
        let mut bars = vec![0; self.kinds.len()];
        for (p, n) in cutting {
            if *n < 1
                || p.counts.iter().all(|c| *c == 0)
                || self.load(&p.counts) > self.kinds[p.kind].cap
            {
                return false;
            }
            bars[p.kind] += n;
            for (g, c) in got.iter_mut().zip(&p.counts) {
                *g += c * n;
            }
        }
        got == self.demand
            && bars.iter().zip(&self.kinds).all(|(b, k)| k.limit.is_none_or(|l| *b <= l))
    }

    /// Turns a choice of patterns that covers the demand at least into an exact cutting: surplus
    /// pieces are dropped from the fullest-to-emptiest order reversed, so that what is dropped
    /// gathers on as few bars as possible and leaves one long leftover. `keep` is a bar not to touch
    /// (its index in the list of single bars that `chosen` unrolls to).
    pub(super) fn trim_surplus(&self, chosen: &[(Pattern, i64)], keep: Option<usize>) -> Cutting {
        let mut bars: Vec<Pattern> = Vec::new();
        let mut kept = None;
        for (i, (p, n)) in chosen.iter().enumerate() {
            for _ in 0..*n {
                if keep == Some(i) && kept.is_none() {
                    kept = Some(bars.len());
                }
                bars.push(p.clone());
            }
        }
        let mut surplus: Vec<i64> = self.demand.iter().map(|d| -d).collect();
        for b in &bars {
            for (s, c) in surplus.iter_mut().zip(&b.counts) {
                *s += c;
            }
        }
        while surplus.iter().any(|s| *s > 0) {
            // The bar that can be emptied furthest.
            let gain = |b: &Pattern| -> i64 {
                b.counts
                    .iter()
                    .zip(&surplus)
                    .zip(&self.weights)
                    .map(|((c, s), w)| (*c).min((*s).max(0)) * w)
                    .sum()
            };
            let best = (0..bars.len())
                .filter(|i| Some(*i) != kept && gain(&bars[*i]) > 0)
                .max_by_key(|i| {
                    (
                        self.leftover(bars[*i].kind, &bars[*i].counts) + gain(&bars[*i]),
                        bars.len() - i,
                    )
                })
                .or(kept);
            let Some(best) = best else { break };
            if gain(&bars[best]) == 0 {
                break;
            }
            for (c, s) in bars[best].counts.iter_mut().zip(&mut surplus) {
                let drop = (*c).min((*s).max(0));
                *c -= drop;
                *s -= drop;
            }
        }
        gather(bars.into_iter().map(|b| (b, 1)))
    }
}

/// A count of things in memory as a signed number.
pub(super) fn number(n: usize) -> i64 {
    i64::try_from(n).expect("memory holds fewer things than that")
}

/// Puts equal patterns together, in order; bars without pieces are no bars.
pub(super) fn gather(bars: impl Iterator<Item = (Pattern, i64)>) -> Cutting {
    let mut all: std::collections::BTreeMap<Pattern, i64> = std::collections::BTreeMap::new();
    for (b, n) in bars {
        if b.counts.iter().any(|c| *c > 0) {
            *all.entry(b).or_insert(0) += n;
        }
    }
    all.into_iter().collect()
}
