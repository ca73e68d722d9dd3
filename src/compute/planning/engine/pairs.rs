//! Pairs of tasks that never overlap: which comes first, and what follows from it.

use super::{Claim, Conflict, Engine, Reason};

impl Engine<'_> {
    pub(super) fn follow_pair(&mut self, pair: usize) -> Result<(), Conflict> {
        let pair = self.pairs[pair];
        let one = Claim { side: 2 * pair.order, least: 1 };
        let two = one.opposite();
        if !self.fixed(pair.order) {
            self.rule_out(pair.first, pair.second, two)?;
            self.rule_out(pair.second, pair.first, one)?;
        }
        if self.holds(one) {
            self.in_order(pair.first, pair.second, one)?;
        } else if self.holds(two) {
            self.in_order(pair.second, pair.first, two)?;
        }
        Ok(())
    }

    /// When `a` cannot end before `b` starts, the other order holds.
    fn rule_out(&mut self, a: usize, b: usize, other: Claim) -> Result<(), Conflict> {
        let steps = self.model.steps[a];
        if self.low(a) + steps <= self.high(b) || self.holds(other) {
            return Ok(());
        }
        // The claim on `b` is made as weak as that on `a` lets it be.
        let start = self.low(a);
        let claims = [
            Claim { side: 2 * a, least: start },
            Claim { side: 2 * b + 1, least: self.settled(2 * b + 1, 1 - start - steps) },
        ];
        self.raise_for(other.side, other.least, &claims)
    }

    fn in_order(&mut self, a: usize, b: usize, order: Claim) -> Result<(), Conflict> {
        let wait = self.model.steps[a];
        let from = 2 * a;
        self.raise(2 * b, self.bound[from] + wait, Reason::Ordered { from, wait, order })?;
        let from = 2 * b + 1;
        self.raise(2 * a + 1, self.bound[from] + wait, Reason::Ordered { from, wait, order })
    }
}
