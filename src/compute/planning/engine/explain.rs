//! Why a side has a value: the claims that made it so.

use super::{Claim, Engine, Reason, Side};

impl Engine<'_> {
    /// Adds to `claims` a set of claims, all older, that make `side` at least `least`.
    pub(super) fn explain(&self, side: Side, least: i64, reason: Reason, claims: &mut Vec<Claim>) {
        match reason {
            Reason::Decision => {}
            Reason::Arc { from, wait } => {
                claims.push(self.weakest(side, least, from, wait));
            }
            Reason::Ordered { from, wait, order } => {
                claims.push(order);
                claims.push(self.weakest(side, least, from, wait));
            }
            Reason::Nogood(index) => {
                let others = self.nogoods[index].claims.iter();
                claims.extend(others.filter(|c| c.side != side ^ 1));
            }
            Reason::Stored { from, len } => {
                claims.extend_from_slice(&self.store[from..from + len]);
            }
        }
    }

    /// The weakest claim on `from` that, `wait` later, leaves `side` no value below `least`.
    fn weakest(&self, side: Side, least: i64, from: Side, wait: i64) -> Claim {
        let needed = self.just_below(side, least) + 1 - wait;
        Claim { side: from, least: self.settled(from, needed) }
    }
}
