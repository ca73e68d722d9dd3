//! Which total costs can occur at all: a bound rises to the next of them.
use super::problem::Problem;

/// Most cells of the table of costs.
const CELLS: i64 = 400_000;

/// Total costs that some choice of bars reaches with room for all the weight.
pub(super) struct Costs {
    unit: i64,
    /// Most weight that bars of total cost `unit * index` hold; -1 if no bars cost just that.
    room: Vec<i64>,
    weight: i64,
}

fn gcd(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { gcd(b, a % b) }
}

impl Costs {
    /// Works out the costs up to `most`.
    pub(super) fn new(problem: &Problem, most: i64) -> Self {
        let unit = problem.kinds.iter().fold(0, |g, k| gcd(k.cost, g)).max(1);
        let weight = problem.weight();
        if most / unit >= CELLS {
            return Self { unit, room: Vec::new(), weight };
        }
        let mut room = vec![-1_i64; (most / unit + 1) as usize];
        room[0] = 0;
        for (k, kind) in problem.kinds.iter().enumerate() {
            let cost = (kind.cost / unit) as usize;
            if cost == 0 {
                let free = kind.cap * problem.most(k);
                for r in room.iter_mut().filter(|r| **r >= 0) {
                    *r += free;
                }
            } else if kind.limit.is_none() {
                for c in cost..room.len() {
                    if room[c - cost] >= 0 {
                        room[c] = room[c].max(room[c - cost] + kind.cap);
                    }
                }
            } else {
                for _ in
                    0..problem.most(k).min(i64::try_from(room.len() / cost).unwrap_or(i64::MAX))
                {
                    for c in (cost..room.len()).rev() {
                        if room[c - cost] >= 0 {
                            room[c] = room[c].max(room[c - cost] + kind.cap);
                        }
                    }
                }
            }
        }
        Self { unit, room, weight }
    }

    /// The least cost of at least `cost` that can occur; beyond the table a multiple of the unit.
    pub(super) fn at_least(&self, cost: i64) -> i64 {
        let from = (cost.max(0) + self.unit - 1) / self.unit;
        let mut at = from;
        while let Some(room) = usize::try_from(at).ok().and_then(|i| self.room.get(i)) {
            if *room >= self.weight {
                break;
            }
            at += 1;
        }
        at * self.unit
    }
}
