//! Exact choice among listed columns: branch and bound over a linear program.
//!
//! Nodes are bounded by dual values rounded to integers, so a pruned node is pruned for certain.
//! Rank-1 cuts (Chvatal 1973) sharpen the root; all columns are at hand, so a cut needs no pricing of
//! its own. Branching is on counts: bars of a kind, bars that hold so many of a piece, or of a pair.
use super::cuts::{Cut, MOST_TRIPLES, separate};
use super::problem::number;
use super::relax::scale_for;
use super::simplex::{Program, Sense};

/// Something that can be chosen any number of times.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Column {
    pub(super) cost: i64,
    /// Coefficients by row, in the order of rows.
    pub(super) entries: Vec<(usize, i64)>,
    /// No sensible choice takes it more often.
    pub(super) most: i64,
    /// Group for branching on counts (the kind of bar).
    pub(super) group: usize,
}

/// A row of the choice.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Row {
    pub(super) sense: Sense,
    pub(super) rhs: i64,
}

/// Columns, rows, and how many of the first rows count pieces (`AtLeast` or `Exactly`).
pub(super) struct Choice {
    pub(super) columns: Vec<Column>,
    pub(super) rows: Vec<Row>,
    pub(super) pieces: usize,
    pub(super) groups: usize,
}

/// What a search came to.
pub(super) struct Outcome {
    /// Best choice below the cutoff: its cost, and columns with how often.
    pub(super) best: Option<(i64, Vec<(usize, i64)>)>,
    /// No choice costs less than this; at most the cutoff or the best cost.
    pub(super) bound: i64,
    pub(super) nodes: u64,
    pub(super) work: u64,
}

/// What is asked of a search.
pub(super) struct Aim<'a> {
    /// Only choices of lower cost are wanted.
    pub(super) cutoff: i64,
    /// The least cost of at least this much that can occur.
    pub(super) lift: &'a dyn Fn(i64) -> i64,
    /// Whether any choice below the cutoff will do.
    pub(super) any: bool,
    /// Work allowed.
    pub(super) work: u64,
}

/// At least so many of a piece, together with at least so many of another (or a group, numbered after
/// the pieces).
type PairKey = (usize, i64, usize, i64);

/// A row in use: members with coefficients.
struct LiveRow {
    sense: Sense,
    rhs: i64,
    terms: Vec<(u32, i64)>,
}

struct Search<'a> {
    columns: Vec<Column>,
    /// For each column of `columns`, its index in the choice.
    origin: Vec<usize>,
    choice: &'a Choice,
    aim: &'a Aim<'a>,
    cutoff: i64,
    best: Option<(i64, Vec<(usize, i64)>)>,
    /// Least bound of what was left unexplored.
    open: i64,
    rows: Vec<LiveRow>,
    program: Program,
    /// Columns in the program, and where.
    active: Vec<usize>,
    is_active: Vec<bool>,
    scale: i64,
    /// Highest cost of a column, at least 1.
    largest: i64,
    reduced: Vec<i64>,
    nodes: u64,
    work: u64,
    stop: bool,
}

/// Penalty for missing a row, as a multiple of the highest cost: no dual value is above it.
const PENALTY: i64 = 256;
/// Rows that a node has at most, with its cuts and branches.
const MOST_ROWS: i64 = 512;

/// A scale at which no reduced cost leaves 64 bits; `None` if there is none.
fn safe_scale(choice: &Choice, largest: i64) -> Option<i64> {
    let widest = choice
        .columns
        .iter()
        .map(|c| c.entries.iter().map(|(_, a)| a.abs()).sum::<i64>())
        .max()
        .unwrap_or(1);
    let rows = number(choice.rows.len()) + MOST_ROWS;
    let each = i128::from(largest.max(1) * PENALTY) * i128::from(widest.max(1)) * i128::from(rows);
    let mut scale = scale_for(largest);
    while i128::from(scale) * each > 1 << 62 {
        if scale == 1 {
            return None;
        }
        scale /= 2;
    }
    Some(scale)
}

/// Finds the cheapest choice below the cutoff, or shows that there is none.
pub(super) fn search(choice: &Choice, aim: &Aim) -> Outcome {
    let largest = choice.columns.iter().map(|c| c.cost).max().unwrap_or(0);
    let Some(scale) = safe_scale(choice, largest) else {
        return Outcome { best: None, bound: 0, nodes: 0, work: 0 };
    };
    let mut s = Search {
        columns: choice.columns.clone(),
        origin: (0..choice.columns.len()).collect(),
        choice,
        aim,
        cutoff: aim.cutoff,
        best: None,
        open: i64::MAX,
        rows: Vec::new(),
        program: Program::new((largest.max(1) * PENALTY) as f64),
        active: Vec::new(),
        is_active: vec![false; choice.columns.len()],
        scale,
        largest: largest.max(1),
        reduced: Vec::new(),
        nodes: 0,
        work: 0,
        stop: false,
    };
    for row in &choice.rows {
        s.rows.push(LiveRow { sense: row.sense, rhs: row.rhs, terms: Vec::new() });
        s.program.push_row(row.sense, row.rhs, &[]);
    }
    for (j, c) in s.columns.iter().enumerate() {
        for (r, a) in &c.entries {
            s.rows[*r].terms.push((j as u32, *a));
        }
    }
    s.root();
    let reached = s.best.as_ref().map_or(aim.cutoff, |b| b.0);
    Outcome {
        bound: reached.min(s.open),
        best: s.best,
        nodes: s.nodes,
        work: s.work + s.program.work,
    }
}

impl Search<'_> {
    fn out_of_work(&self) -> bool {
        self.work + self.program.work > self.aim.work
    }

    /// Prices all columns with integer dual values: the node's certain bound (times scale), and
    /// columns that should enter the program.
    fn price(&mut self) -> (i128, Vec<usize>) {
        let duals = self.program.duals();
        self.reduced.clear();
        self.reduced.extend(self.columns.iter().map(|c| c.cost * self.scale));
        let mut bound: i128 = 0;
        let top = (self.largest * PENALTY * self.scale) as f64;
        for (row, y) in self.rows.iter().zip(&duals) {
            let mut v = (y * self.scale as f64).round().clamp(-top, top) as i64;
            match row.sense {
                Sense::AtLeast => v = v.max(0),
                Sense::AtMost => v = v.min(0),
                Sense::Exactly => {}
            }
            if v == 0 {
                continue;
            }
            bound += i128::from(v) * i128::from(row.rhs);
            for (j, a) in &row.terms {
                self.reduced[*j as usize] -= v * a;
            }
            self.work += row.terms.len() as u64;
        }
        self.work += self.columns.len() as u64;
        let worth = -(self.scale / 200_000 + 64);
        let mut enter: Vec<usize> = Vec::new();
        for (j, r) in self.reduced.iter().enumerate() {
            if *r < 0 {
                bound += i128::from(*r) * i128::from(self.columns[j].most);
                if *r < worth && !self.is_active[j] {
                    enter.push(j);
                }
            }
        }
        if enter.len() > 40 {
            enter.sort_by_key(|j| (self.reduced[*j], *j));
            enter.truncate(40);
        }
        (bound, enter)
    }

    fn activate(&mut self, j: usize) {
        self.is_active[j] = true;
        let mut entries = self.columns[j].entries.clone();
        for (r, row) in self.rows.iter().enumerate().skip(self.choice.rows.len()) {
            if let Ok(at) = row.terms.binary_search_by_key(&(j as u32), |t| t.0) {
                entries.push((r, row.terms[at].1));
            }
        }
        self.program.push_column(self.columns[j].cost, &entries);
        self.active.push(j);
    }

    /// Solves the node; its certain bound, or `None` when it is pruned.
    fn bound(&mut self) -> Option<i64> {
        let mut best = i64::MIN;
        loop {
            self.program.solve();
            let (bound, enter) = self.price();
            let s = i128::from(self.scale);
            let whole = (bound + s - 1).div_euclid(s).clamp(-1 << 60, 1 << 60) as i64;
            best = best.max((self.aim.lift)(whole));
            if best >= self.cutoff {
                return None;
            }
            if enter.is_empty() || self.out_of_work() {
                return Some(best);
            }
            for j in enter {
                self.activate(j);
            }
        }
    }

    /// Takes a whole solution if it really meets every row.
    fn accept(&mut self, solution: &[(usize, f64)]) -> bool {
        let chosen: Vec<(usize, i64)> = solution
            .iter()
            .map(|(a, x)| (self.active[*a], x.round() as i64))
            .filter(|(_, n)| *n > 0)
            .collect();
        let mut got = vec![0_i64; self.choice.rows.len()];
        let mut cost = 0;
        for (j, n) in &chosen {
            let c = &self.choice.columns[self.origin[*j]];
            cost += c.cost * n;
            for (r, a) in &c.entries {
                got[*r] += a * n;
            }
        }
        let met = self.choice.rows.iter().zip(&got).all(|(row, g)| match row.sense {
            Sense::AtLeast => *g >= row.rhs,
            Sense::AtMost => *g <= row.rhs,
            Sense::Exactly => *g == row.rhs,
        });
        if met && cost < self.cutoff {
            self.cutoff = cost;
            let mut chosen: Vec<(usize, i64)> =
                chosen.into_iter().map(|(j, n)| (self.origin[j], n)).collect();
            chosen.sort_unstable();
            self.best = Some((cost, chosen));
            self.stop = self.aim.any;
        }
        met
    }

    fn root(&mut self) {
        // To begin with, a few columns for each row; pricing brings the others.
        let mut per_row = vec![0; self.rows.len()];
        for j in 0..self.columns.len() {
            if self.columns[j].entries.iter().any(|(r, _)| per_row[*r] < 4) {
                for (r, _) in &self.columns[j].entries {
                    per_row[*r] += 1;
                }
                self.activate(j);
            }
        }
        self.nodes += 1;
        let Some(mut bound) = self.bound() else { return };
        let mut cuts: Vec<Cut> = Vec::new();
        for _ in 0..25 {
            if self.out_of_work() || self.try_solution() {
                break;
            }
            let rows = &self.choice.rows;
            let sets = rows.len().pow(if rows.len() <= MOST_TRIPLES { 3 } else { 2 });
            self.work += (sets * self.program.height()) as u64;
            let solution: Vec<(usize, f64)> =
                self.program.solution().into_iter().map(|(a, x)| (self.active[a], x)).collect();
            let found = separate(&self.columns, rows, &self.program, &solution, &cuts);
            if found.is_empty() || cuts.len() > 60 {
                break;
            }
            for cut in found {
                let terms: Vec<(u32, i64)> = self
                    .columns
                    .iter()
                    .enumerate()
                    .filter_map(|(j, c)| {
                        let a = cut.coefficient(&c.entries);
                        (a != 0).then_some((j as u32, a))
                    })
                    .collect();
                self.work += 4 * self.columns.len() as u64;
                self.push_row(Sense::AtLeast, cut.rhs, terms);
                cuts.push(cut);
            }
            match self.bound() {
                None => return,
                Some(b) => bound = bound.max(b),
            }
            self.forget();
        }
        if self.stop {
            return;
        }
        self.node(bound, 0);
    }

    /// Drops columns that no choice below the cutoff can hold, from rows and pricing.
    fn forget(&mut self) {
        let (bound, _) = self.price();
        // Everything below this may still be needed.
        let gap = i128::from(self.cutoff - 1) * i128::from(self.scale) - bound;
        let keep: Vec<bool> = self
            .reduced
            .iter()
            .zip(&self.is_active)
            .map(|(r, active)| *active || i128::from(*r) <= gap)
            .collect();
        if keep.iter().all(|k| *k) {
            return;
        }
        let mut at = vec![u32::MAX; keep.len()];
        let mut next = 0;
        for (j, k) in keep.iter().enumerate() {
            if *k {
                at[j] = next;
                next += 1;
            }
        }
        for row in &mut self.rows {
            row.terms.retain(|(j, _)| keep[*j as usize]);
            for t in &mut row.terms {
                t.0 = at[t.0 as usize];
            }
        }
        for a in &mut self.active {
            *a = at[*a] as usize;
        }
        let mut it = keep.iter();
        self.columns.retain(|_| *it.next().expect("one flag a column"));
        let mut it = keep.iter();
        self.origin.retain(|_| *it.next().expect("one flag a column"));
        let mut it = keep.iter();
        self.is_active.retain(|_| *it.next().expect("one flag a column"));
    }

    fn push_row(&mut self, sense: Sense, rhs: i64, terms: Vec<(u32, i64)>) {
        let mine: Vec<(usize, i64)> = self
            .active
            .iter()
            .enumerate()
            .filter_map(|(a, j)| {
                terms.binary_search_by_key(&(*j as u32), |t| t.0).ok().map(|at| (a, terms[at].1))
            })
            .collect();
        self.program.push_row(sense, rhs, &mine);
        self.rows.push(LiveRow { sense, rhs, terms });
    }

    /// Whether the program's solution is whole (and then taken).
    fn try_solution(&mut self) -> bool {
        let solution = self.program.solution();
        !self.program.misses()
            && solution.iter().all(|(_, x)| (x - x.round()).abs() < 1e-6)
            && self.accept(&solution)
    }

    fn node(&mut self, bound: i64, depth: usize) {
        if self.stop {
            self.open = self.open.min(bound);
            return;
        }
        if self.out_of_work() || depth > 300 {
            self.open = self.open.min(bound);
            return;
        }
        if self.try_solution() && bound >= self.cutoff {
            return;
        }
        if self.stop {
            self.open = self.open.min(bound);
            return;
        }
        let Some((members, floor)) = self.branching() else {
            // Whole but not acceptable, or floating point has failed: leave it open.
            self.open = self.open.min(bound);
            return;
        };
        let back = self.program.basis();
        for up in [true, false] {
            let (sense, rhs) =
                if up { (Sense::AtLeast, floor + 1) } else { (Sense::AtMost, floor) };
            self.push_row(sense, rhs, members.iter().map(|j| (*j, 1)).collect());
            self.nodes += 1;
            if let Some(b) = self.bound() {
                self.node(b.max(bound), depth + 1);
            }
            self.rows.pop();
            self.program.pop_row(&back);
            if bound >= self.cutoff {
                return;
            }
            if self.stop {
                self.open = self.open.min(bound);
                return;
            }
        }
    }

    /// A set of columns whose sum should be whole and is not: its members, and the whole part.
    fn branching(&self) -> Option<(Vec<u32>, i64)> {
        let solution: Vec<(usize, f64)> =
            self.program.solution().into_iter().map(|(a, x)| (self.active[a], x)).collect();
        let split = |x: f64| {
            let f = x - x.floor();
            f.min(1.0 - f)
        };
        let mut per_group = vec![0.0; self.choice.groups];
        for (j, x) in &solution {
            per_group[self.columns[*j].group] += x;
        }
        let group = (0..per_group.len())
            .max_by(|a, b| split(per_group[*a]).total_cmp(&split(per_group[*b])).then(b.cmp(a)));
        if let Some(g) = group.filter(|g| split(per_group[*g]) > 0.02) {
            let members = self.members(|c| c.group == g);
            return Some((members, per_group[g].floor() as i64));
        }
        // Sums over columns that hold at least a of piece i and at least b of piece k (or are of a
        // kind), the most undecided first; of those the largest.
        let pieces = self.choice.pieces;
        let count =
            |c: &Column, i: usize| c.entries.iter().find(|(r, _)| *r == i).map_or(0, |(_, a)| *a);
        let mut sums: std::collections::BTreeMap<PairKey, f64> = std::collections::BTreeMap::new();
        for (j, x) in &solution {
            let c = &self.columns[*j];
            for (at, (i, a)) in c.entries.iter().enumerate().filter(|(_, e)| e.0 < pieces) {
                for v in 1..=*a {
                    *sums.entry((*i, v, pieces + c.group, 0)).or_insert(0.0) += x;
                    for (k, b) in c.entries[at + 1..].iter().filter(|e| e.0 < pieces) {
                        for w in 1..=*b {
                            *sums.entry((*i, v, *k, w)).or_insert(0.0) += x;
                        }
                    }
                }
            }
        }
        let mut best: Option<(f64, PairKey, f64)> = None;
        for (key, x) in &sums {
            // Undecided sums of large value move the bound most on their lower side.
            let score = split(*x) * (1.0 + 0.05 * x.min(4.0));
            if split(*x) > 1e-5 && best.is_none_or(|(s, _, _)| score > s + 1e-9) {
                best = Some((score, *key, *x));
            }
        }
        if let Some((_, (i, v, k, w), x)) = best {
            let members = self.members(|c| {
                count(c, i) >= v
                    && if k >= pieces { c.group == k - pieces } else { count(c, k) >= w }
            });
            return Some((members, x.floor() as i64));
        }
        let (j, x) = solution
            .iter()
            .filter(|(_, x)| split(*x) > 1e-6)
            .max_by(|a, b| split(a.1).total_cmp(&split(b.1)).then(b.0.cmp(&a.0)))?;
        Some((vec![*j as u32], x.floor() as i64))
    }

    fn members(&self, wanted: impl Fn(&Column) -> bool) -> Vec<u32> {
        (0..self.columns.len() as u32).filter(|j| wanted(&self.columns[*j as usize])).collect()
    }
}
