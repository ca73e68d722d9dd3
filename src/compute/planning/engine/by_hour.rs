//! Waits by the hour: a later end never lets what waits start sooner, so each bound of the one is a
//! bound of the other.

use super::{Claim, Conflict, Engine};

impl Engine<'_> {
    pub(super) fn by_hour(&mut self) -> Result<(), Conflict> {
        let model = self.model;
        for arc in &model.by_hour {
            let first = self.low(arc.from);
            let ready = self.clocked.ready(arc, first);
            if ready > self.low(arc.to) {
                let claim = Claim { side: 2 * arc.from, least: first };
                self.raise_for(2 * arc.to, ready, &[claim])?;
            }
            let second = self.high(arc.to);
            if self.clocked.ready(arc, self.high(arc.from)) > second {
                let last = self.clocked.last(arc, second);
                let claim = Claim { side: 2 * arc.to + 1, least: -second };
                self.raise_for(2 * arc.from + 1, -last, &[claim])?;
            }
        }
        Ok(())
    }
}
