//! Work against time: the tasks that must lie between two times need no more than is there, and
//! a task that would be too much between them is pushed out (overload checking and edge finding,
//! Carlier and Pinson 1989, with hours counted along the calendar and each day only as far as
//! whole tasks can fill it).

use super::{Claim, Conflict, Engine, Side};
use crate::compute::planning::resources::{Axis, Place};

/// A member of a resource as it stands.
#[derive(Clone, Copy, Debug)]
struct Block {
    task: usize,
    first: i64,
    last: i64,
    work: i64,
    rate: i64,
    begin: Place,
    end: Place,
}

/// Room kept between runs.
#[derive(Debug, Default)]
pub(super) struct Scratch {
    blocks: Vec<Block>,
    ends: Vec<(i64, Place)>,
    claims: Vec<Claim>,
}

impl Engine<'_> {
    pub(super) fn energy(&mut self) -> Result<(), Conflict> {
        for r in 0..self.resources.len() {
            for mirror in [false, true] {
                if !std::mem::take(&mut self.stale[r][usize::from(mirror)]) {
                    continue;
                }
                let mut scratch = std::mem::take(&mut self.scratch);
                let result = self.sweep(r, mirror, &mut scratch);
                self.scratch = scratch;
                result?;
                if self.head < self.trail.len() {
                    return Ok(());
                }
            }
        }
        Ok(())
    }

    /// Claim that a task starts (mirrored: ends) no earlier than `t` on the axis.
    pub(super) fn not_before(&self, task: usize, t: i64, mirror: bool) -> Claim {
        let (side, least): (Side, i64) =
            if mirror { (2 * task + 1, t + self.model.steps[task]) } else { (2 * task, t) };
        Claim { side, least: self.settled(side, least) }
    }

    /// Claim that a task ends (mirrored: starts) no later than `t` on the axis.
    pub(super) fn not_after(&self, task: usize, t: i64, mirror: bool) -> Claim {
        let (side, least): (Side, i64) =
            if mirror { (2 * task, -t) } else { (2 * task + 1, self.model.steps[task] - t) };
        Claim { side, least: self.settled(side, least) }
    }

    fn sweep(&mut self, r: usize, mirror: bool, scratch: &mut Scratch) -> Result<(), Conflict> {
        let resource = &self.resources[r];
        let axis: &Axis = &resource.axes[usize::from(mirror)];
        let Scratch { blocks, ends, claims } = scratch;
        blocks.clear();
        for &(task, rate) in &resource.members {
            let steps = self.model.steps[task];
            let (first, last) = if mirror {
                (-(self.high(task) + steps), -self.low(task))
            } else {
                (self.low(task), self.high(task) + steps)
            };
            let (begin, end) = (axis.begin(first), axis.end(last));
            blocks.push(Block { task, first, last, work: rate * steps, rate, begin, end });
        }
        blocks.sort_unstable_by_key(|b| (std::cmp::Reverse(b.first), b.task));
        ends.clear();
        ends.extend(blocks.iter().map(|b| (b.last, b.end)));
        ends.sort_unstable();
        ends.dedup();
        for &end in ends.iter() {
            let mut work = 0;
            // The task of most work that starts late enough but may end after `end`.
            let mut other: Option<Block> = None;
            for i in 0..blocks.len() {
                let block = blocks[i];
                if block.last <= end.0 {
                    work += block.work;
                } else if other.is_none_or(|o| o.work < block.work) {
                    other = Some(block);
                } else {
                    continue;
                }
                if work == 0 {
                    continue;
                }
                let begin = (block.first, block.begin);
                let room = axis.between(begin, end);
                if work > room {
                    let mut spare = work - room - 1;
                    let within = blocks[..=i].iter().filter(|b| b.last <= end.0);
                    let within: Vec<usize> = within
                        .filter(|b| {
                            let needless = b.work <= spare;
                            spare -= if needless { b.work } else { 0 };
                            !needless
                        })
                        .map(|b| b.task)
                        .collect();
                    let from = axis.widened(begin, spare);
                    claims.clear();
                    for task in within {
                        claims.push(self.not_before(task, from, mirror));
                        claims.push(self.not_after(task, end.0, mirror));
                    }
                    return Err(self.conflict_of(claims));
                }
                let Some(o) = other.filter(|o| work + o.work > room) else { continue };
                let start = if resource.alone {
                    axis.used_up(begin.0, begin.1, work)
                } else {
                    end.0 - (room - work) / o.rate
                };
                if start <= o.first {
                    continue;
                }
                let push = self.not_before(o.task, start, mirror);
                if self.holds(push) {
                    continue;
                }
                claims.clear();
                claims.push(self.not_before(o.task, begin.0, mirror));
                // Work that is not needed for the same push.
                let mut needed = work;
                for b in blocks[..=i].iter().filter(|b| b.last <= end.0) {
                    let less = needed - b.work;
                    if resource.alone && less > 0 && less + o.work > room {
                        let start = axis.used_up(begin.0, begin.1, less);
                        if self.not_before(o.task, start, mirror).least >= push.least {
                            needed = less;
                            continue;
                        }
                    }
                    claims.push(self.not_before(b.task, begin.0, mirror));
                    claims.push(self.not_after(b.task, end.0, mirror));
                }
                self.raise_for(push.side, push.least, claims)?;
            }
        }
        Ok(())
    }
}
