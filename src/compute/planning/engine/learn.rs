//! Learning from conflicts, and following what was learnt.

use super::{Claim, Conflict, Engine, NONE, Nogood, Raise, Reason, Side, Watch};
use crate::compute::planning::spans::FAR;

/// What a conflict teaches.
pub(super) struct Lesson {
    /// Claims that never hold together; the first is the one to be turned round, the second the
    /// latest of the others.
    claims: Vec<Claim>,
    /// Level to which to go back.
    level: usize,
    /// Number of levels in it.
    levels: usize,
}

impl Engine<'_> {
    /// Visits the nogoods in which this raise made a watched claim true.
    pub(super) fn follow_nogoods(&mut self, raise: Raise) -> Result<(), Conflict> {
        let mut list = std::mem::take(&mut self.watches[raise.side]);
        let mut kept = 0;
        let mut outcome = Ok(());
        let mut at = 0;
        while at < list.len() {
            let watch = list[at];
            at += 1;
            list[kept] = watch;
            kept += 1;
            if watch.least <= raise.old || watch.least > raise.new || self.fails(watch.other) {
                continue;
            }
            let me = Claim { side: raise.side, least: watch.least };
            let index = watch.nogood;
            let claims = &mut self.nogoods[index].claims;
            if claims[0] == me {
                claims.swap(0, 1);
            }
            let other = claims[0];
            if self.fails(other) {
                continue;
            }
            let bound = &self.bound;
            let claims = &self.nogoods[index].claims;
            let free = (2..claims.len()).find(|&k| bound[claims[k].side] < claims[k].least);
            if let Some(k) = free {
                let claims = &mut self.nogoods[index].claims;
                claims.swap(1, k);
                let next = claims[1];
                kept -= 1;
                // A nogood has one claim a side, so this is never the list in hand.
                let watch = Watch { least: next.least, nogood: index, other };
                self.watches[next.side].push(watch);
                continue;
            }
            let turned = other.opposite();
            let result = if self.holds(other) {
                let claims = std::mem::take(&mut self.nogoods[index].claims);
                let conflict = self.conflict_of(&claims);
                self.nogoods[index].claims = claims;
                Err(conflict)
            } else {
                self.raise(turned.side, turned.least, Reason::Nogood(index))
            };
            if let Err(conflict) = result {
                self.praise(index);
                outcome = Err(conflict);
                break;
            }
        }
        list.copy_within(at.., kept);
        list.truncate(kept + list.len() - at);
        self.watches[raise.side] = list;
        outcome
    }

    fn praise(&mut self, nogood: usize) {
        self.nogoods[nogood].worth += self.worth_step;
    }

    /// The value of a side before the raise at `mark` of the trail.
    fn value_before(&self, side: Side, mark: usize) -> i64 {
        let mut at = self.last[side];
        let mut value = self.bound[side];
        while at != NONE && at >= mark {
            value = self.trail[at].old;
            at = self.trail[at].before;
        }
        value
    }

    /// The level at which a claim came true.
    fn level_of(&self, claim: Claim) -> usize {
        let mut at = self.last[claim.side];
        let mut found = NONE;
        while at != NONE && self.trail[at].new >= claim.least {
            found = at;
            at = self.trail[at].before;
        }
        if found == NONE || self.root[claim.side] >= claim.least {
            return 0;
        }
        self.levels.partition_point(|l| l.0 <= found)
    }

    /// Traces the conflict back to the last claim that the current level adds to it. `None` when
    /// the conflict holds at the root: nothing is left.
    pub(super) fn trace(&mut self) -> Option<Lesson> {
        let conflict = std::mem::take(&mut self.conflict);
        let top = conflict.iter().map(|&c| self.level_of(c)).max().unwrap_or(0);
        if top == 0 {
            return None;
        }
        self.back_to(top);
        let start = self.levels[top - 1].0;
        let mut touched: Vec<Side> = Vec::new();
        let mut open = 0_usize;
        for &claim in &conflict {
            self.ask(claim, start, &mut touched, &mut open);
        }
        let mut at = self.trail.len();
        let mut reasons = Vec::new();
        let first = loop {
            at -= 1;
            let raise = self.trail[at];
            let asked = self.asked[raise.side];
            if asked <= raise.old {
                continue;
            }
            let claim = Claim { side: raise.side, least: asked };
            if open == 1 {
                break claim;
            }
            open -= 1;
            self.asked[raise.side] = -FAR;
            self.activity[raise.side / 2] += self.activity_step;
            if let Reason::Nogood(index) = raise.reason {
                self.praise(index);
            }
            reasons.clear();
            self.explain(raise.side, asked, raise.reason, &mut reasons);
            for &claim in &reasons {
                self.ask(claim, start, &mut touched, &mut open);
            }
        };
        self.activity[first.side / 2] += self.activity_step;
        let lesson = self.lesson(first, &touched);
        for side in touched {
            self.asked[side] = -FAR;
        }
        self.conflict = conflict;
        Some(lesson)
    }

    /// Asks for a claim, unless it holds at the root; `open` counts those of the current level.
    fn ask(&mut self, claim: Claim, start: usize, touched: &mut Vec<Side>, open: &mut usize) {
        let Claim { side, least } = claim;
        debug_assert!(self.bound[side] >= least, "what is traced back holds");
        if least <= self.root[side] || least <= self.asked[side] {
            return;
        }
        let old = self.value_before(side, start);
        if least > old && self.asked[side] <= old {
            *open += 1;
        }
        touched.push(side);
        self.asked[side] = least;
    }

    fn lesson(&mut self, first: Claim, touched: &[Side]) -> Lesson {
        let mut sides: Vec<Side> =
            touched.iter().copied().filter(|&s| self.asked[s] > -FAR && s != first.side).collect();
        sides.sort_unstable();
        sides.dedup();
        let mut kept: Vec<(usize, Claim)> = sides
            .iter()
            .map(|&side| Claim { side, least: self.asked[side] })
            .map(|claim| (self.level_of(claim), claim))
            .collect();
        // A claim taken out supports no other, so none goes for want of itself.
        kept.sort_by_key(|k| (std::cmp::Reverse(k.0), k.1));
        kept.retain(|&(_, claim)| {
            let needless = self.follows_from_asked(claim);
            if needless {
                self.asked[claim.side] = -FAR;
            }
            !needless
        });
        for (_, claim) in &kept {
            self.activity[claim.side / 2] += self.activity_step;
        }
        let level = kept.first().map_or(0, |k| k.0);
        let mut levels: Vec<usize> = kept.iter().map(|k| k.0).collect();
        levels.dedup();
        let mut claims = vec![first];
        claims.extend(kept.iter().map(|k| k.1));
        Lesson { claims, level, levels: levels.len() + 1 }
    }

    /// Whether the other claims asked for make this one true already.
    fn follows_from_asked(&self, claim: Claim) -> bool {
        let mut at = self.last[claim.side];
        let mut found = NONE;
        while at != NONE && self.trail[at].new >= claim.least {
            found = at;
            at = self.trail[at].before;
        }
        if found == NONE {
            return false;
        }
        let reason = self.trail[found].reason;
        if matches!(reason, Reason::Decision) {
            return false;
        }
        let mut claims = Vec::new();
        self.explain(claim.side, claim.least, reason, &mut claims);
        claims.iter().all(|c| {
            c.least <= self.root[c.side] || (c.least <= self.asked[c.side] && c.side != claim.side)
        })
    }

    /// Goes back as the lesson says and turns its first claim round.
    pub(super) fn learn(&mut self, lesson: Lesson) -> Result<(), Conflict> {
        self.back_to(lesson.level);
        let turned = lesson.claims[0].opposite();
        if lesson.claims.len() == 1 {
            return self.raise(turned.side, turned.least, Reason::Decision);
        }
        let index = self.nogoods.len();
        self.watch(&lesson.claims, index);
        self.nogoods.push(Nogood {
            claims: lesson.claims,
            worth: self.worth_step,
            levels: lesson.levels,
        });
        self.raise(turned.side, turned.least, Reason::Nogood(index))
    }

    /// Watches the first two claims of a nogood.
    fn watch(&mut self, claims: &[Claim], nogood: usize) {
        for (me, other) in [(claims[0], claims[1]), (claims[1], claims[0])] {
            self.watches[me.side].push(Watch { least: me.least, nogood, other });
        }
    }

    /// Lets older conflicts count less.
    pub(super) fn fade(&mut self) {
        self.activity_step /= 0.95;
        self.worth_step /= 0.999;
        if self.activity_step > 1e100 {
            self.activity.iter_mut().for_each(|a| *a *= 1e-100);
            self.activity_step *= 1e-100;
        }
        if self.worth_step > 1e100 {
            self.nogoods.iter_mut().for_each(|n| n.worth *= 1e-100);
            self.worth_step *= 1e-100;
        }
    }

    /// Forgets the less useful half of the nogoods; to be called at the root.
    pub(super) fn forget(&mut self) {
        let mut old = std::mem::take(&mut self.nogoods);
        let mut rank: Vec<usize> = (0..old.len()).collect();
        rank.sort_by(|&a, &b| {
            let keep = |n: &Nogood| n.levels <= 3;
            keep(&old[b])
                .cmp(&keep(&old[a]))
                .then(old[b].worth.total_cmp(&old[a].worth))
                .then(a.cmp(&b))
        });
        rank.truncate(old.len() / 2);
        rank.sort_unstable();
        for list in &mut self.watches {
            list.clear();
        }
        for index in rank {
            let mut nogood = Nogood { claims: Vec::new(), worth: 0.0, levels: 0 };
            std::mem::swap(&mut nogood, &mut old[index]);
            // Claims true at the root may be left out; one that fails there makes it needless.
            if nogood.claims.iter().any(|&c| self.fails(c)) {
                continue;
            }
            nogood.claims.retain(|c| self.bound[c.side] < c.least);
            if nogood.claims.len() < 2 {
                // Followed fully at the root, it has nothing more to say.
                continue;
            }
            self.watch(&nogood.claims, self.nogoods.len());
            self.nogoods.push(nogood);
        }
    }
}
