//! What several tests share: short makers of jobs, a random sequence, and a check of plans that
//! works from the job alone.
use rungsheet::compute::cutting::{Job, Piece, Plan, Section, Stock};

/// Splitmix64 (Steele, Lea, Flood 2014): the same sequence everywhere.
pub struct Random(pub u64);

impl Random {
    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// From `low` to `high`, both included.
    pub fn within(&mut self, low: i64, high: i64) -> i64 {
        low + i64::try_from(self.next() % (high - low + 1) as u64).expect("below the span")
    }
}

pub fn piece(id: &str, length: i64) -> Piece {
    Piece { id: id.into(), length, extra: 0 }
}

pub fn stock(id: &str, length: i64, price: i64, limit: Option<u32>) -> Stock {
    Stock { id: id.into(), length, trim_start: 0, trim_end: 0, price: Some(price), limit }
}

pub fn job(kerf: i64, pieces: Vec<Piece>, stock: Vec<Stock>) -> Job {
    let section = Section { name: "tube".into(), kerf, least_useful: 0, pieces, stock };
    Job { sections: vec![section], work_limit: Job::WORK_LIMIT }
}

/// What is wrong with a plan for a job, worked out from the marks.
pub fn fault(job: &Job, plan: &Plan) -> Option<String> {
    if plan.sections.len() != job.sections.len() {
        return Some("sections differ".into());
    }
    for section in &job.sections {
        let p = plan.sections.iter().find(|p| p.section == section.name)?;
        let mut asked: Vec<(String, i64)> =
            section.pieces.iter().map(|p| (p.id.clone(), p.length)).collect();
        let mut cut: Vec<(String, i64)> = p
            .bars
            .iter()
            .flat_map(|b| b.cuts.iter().map(|c| (c.piece.clone(), c.to - c.from)))
            .collect();
        asked.sort();
        cut.sort();
        if asked != cut {
            return Some(format!("{}: pieces differ", section.name));
        }
        let mut cost = 0;
        for b in &p.bars {
            let Some(s) = section.stock.iter().find(|s| s.id == b.stock) else {
                return Some(format!("unknown stock {}", b.stock));
            };
            cost += s.price.unwrap_or(0);
            let mut at = s.trim_start;
            let mut pieces = 0;
            let mut extras = Vec::new();
            for (n, c) in b.cuts.iter().enumerate() {
                if n == 0 && c.from != at || n > 0 && c.from < at + section.kerf {
                    return Some(format!("mark {} comes too soon after {at}", c.from));
                }
                if n > 0 {
                    extras.push(c.from - at - section.kerf);
                }
                if n > 0 && c.to - c.from > b.cuts[n - 1].to - b.cuts[n - 1].from {
                    return Some("a longer piece comes later".into());
                }
                pieces += c.to - c.from;
                at = c.to;
            }
            if b.cuts.is_empty() || at > s.length - s.trim_end {
                return Some("empty bar or piece beyond the end".into());
            }
            let all = b.trim_start + pieces + b.saw + b.leftover + b.trim_end;
            if all != s.length || b.length != s.length || b.saw < 0 || b.leftover < 0 {
                return Some(format!("sum {all} is not the length {}", s.length));
            }
            // The last piece has its cut, unless less than that is left.
            if b.leftover > 0 && at + section.kerf + b.leftover + b.trim_end > s.length {
                return Some("leftover reaches into the last cut".into());
            }
        }
        for s in &section.stock {
            let used = p.bars.iter().filter(|b| b.stock == s.id).count();
            if s.limit.is_some_and(|l| used > l as usize) {
                return Some(format!("{} is used {used} times", s.id));
            }
        }
        let by_price = section.stock.iter().all(|s| s.price.is_some());
        if by_price && cost != p.cost.value {
            return Some(format!("cost {} is told, {cost} is paid", p.cost.value));
        }
        if p.cost.bound > p.cost.value || p.leftover.bound < p.leftover.value {
            return Some("a bound is passed".into());
        }
        if p.bars.iter().map(|b| b.leftover).max().unwrap_or(0) != p.leftover.value {
            return Some("longest leftover differs".into());
        }
    }
    None
}
