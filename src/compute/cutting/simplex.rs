//! A small linear program kept solved while columns and rows come and go.
//!
//! minimise c x, x >= 0, each row `AtLeast`, `AtMost` or `Exactly` its right side. Each row can also
//! be missed at a high penalty, so a solution always exists and its dual values stay bounded. Revised
//! simplex with an explicit inverse: the programs here have some ten to a hundred rows. The answers
//! are floating point and only guide the search; whoever proves something with the dual values does
//! so again in integers.

mod basis;

/// How a row binds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Sense {
    AtLeast,
    AtMost,
    Exactly,
}

/// A variable by what it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Var {
    Column(usize),
    /// What exceeds an `AtLeast` row or is missing to an `AtMost` row; free of cost.
    Slack(usize),
    /// What is missing to an `AtLeast` or `Exactly` row, at the penalty.
    Short(usize),
    /// What exceeds an `AtMost` or `Exactly` row, at the penalty.
    Over(usize),
}

/// A basis to come back to.
#[derive(Debug, Clone)]
pub(super) struct Basis(Vec<Var>);

struct Row {
    sense: Sense,
    rhs: f64,
    slack_in: bool,
    short_in: bool,
    over_in: bool,
}

struct Column {
    cost: f64,
    entries: Vec<(usize, f64)>,
    inside: bool,
}

/// The program with its present basis.
pub(super) struct Program {
    penalty: f64,
    rows: Vec<Row>,
    columns: Vec<Column>,
    basis: Vec<Var>,
    inverse: Vec<f64>,
    x: Vec<f64>,
    since_refresh: u32,
    /// Elementary steps done so far.
    pub(super) work: u64,
}

const FEASIBLE: f64 = 1e-8;
const PIVOT: f64 = 1e-8;
const REFRESH: u32 = 60;

impl Program {
    /// An empty program; `penalty` should be far above any useful dual value.
    pub(super) fn new(penalty: f64) -> Self {
        Self {
            penalty,
            rows: Vec::new(),
            columns: Vec::new(),
            basis: Vec::new(),
            inverse: Vec::new(),
            x: Vec::new(),
            since_refresh: 0,
            work: 0,
        }
    }

    /// Number of rows.
    pub(super) fn height(&self) -> usize {
        self.rows.len()
    }

    /// Adds a row; `terms` gives its coefficients in columns that are already there. Its own slack (or
    /// shortage) becomes basic, so an optimal basis stays dual feasible.
    pub(super) fn push_row(&mut self, sense: Sense, rhs: i64, terms: &[(usize, i64)]) {
        let m = self.rows.len();
        for (j, a) in terms {
            self.columns[*j].entries.push((m, *a as f64));
        }
        self.rows.push(Row {
            sense,
            rhs: rhs as f64,
            slack_in: false,
            short_in: false,
            over_in: false,
        });
        let var = match sense {
            Sense::AtLeast if m > 0 && !self.columns.is_empty() => Var::Slack(m),
            Sense::AtMost => Var::Slack(m),
            _ => Var::Short(m),
        };
        self.basis.push(var);
        self.mark(var, true);
        self.refresh();
    }

    /// Takes the last row away and goes back to a basis from before it was added.
    pub(super) fn pop_row(&mut self, back: &Basis) {
        let m = self.rows.len() - 1;
        for c in &mut self.columns {
            if c.entries.last().is_some_and(|(i, _)| *i == m) {
                c.entries.pop();
            }
        }
        for v in self.basis.clone() {
            self.mark(v, false);
        }
        self.rows.pop();
        self.basis.clone_from(&back.0);
        for v in self.basis.clone() {
            self.mark(v, true);
        }
        self.refresh();
    }

    /// Adds a column that is not in the basis. Entries are in the order of rows.
    pub(super) fn push_column(&mut self, cost: i64, entries: &[(usize, i64)]) -> usize {
        self.columns.push(Column {
            cost: cost as f64,
            entries: entries.iter().map(|(i, a)| (*i, *a as f64)).collect(),
            inside: false,
        });
        self.columns.len() - 1
    }

    /// The present basis.
    pub(super) fn basis(&self) -> Basis {
        Basis(self.basis.clone())
    }

    /// Values of the columns that are not zero, in the order of columns.
    pub(super) fn solution(&self) -> Vec<(usize, f64)> {
        let mut s: Vec<(usize, f64)> = self
            .basis
            .iter()
            .zip(&self.x)
            .filter_map(|(v, x)| match v {
                Var::Column(j) if *x > FEASIBLE => Some((*j, *x)),
                _ => None,
            })
            .collect();
        s.sort_by_key(|(j, _)| *j);
        s
    }

    /// Whether some row is missed.
    pub(super) fn misses(&self) -> bool {
        self.basis
            .iter()
            .zip(&self.x)
            .any(|(v, x)| matches!(v, Var::Short(_) | Var::Over(_)) && *x > 1e-7)
    }

    /// Dual values of the rows.
    pub(super) fn duals(&self) -> Vec<f64> {
        let m = self.rows.len();
        let mut y = vec![0.0; m];
        for (r, v) in self.basis.iter().enumerate() {
            let c = self.cost(*v);
            if c != 0.0 {
                for (yi, b) in y.iter_mut().zip(&self.inverse[r * m..(r + 1) * m]) {
                    *yi += c * b;
                }
            }
        }
        y
    }

    /// Row `r` of the inverse with the value of its basic variable, for cuts.
    pub(super) fn tableau_row(&self, r: usize) -> (&[f64], f64) {
        let m = self.rows.len();
        (&self.inverse[r * m..(r + 1) * m], self.x[r])
    }

    /// Solves from the present basis.
    pub(super) fn solve(&mut self) {
        let limit = 200 + 20 * self.rows.len() as u32;
        let done = self.dual(limit) && self.primal(limit);
        if !done {
            // Numbers have drifted or a cycle: from the beginning, which is always feasible.
            self.fall_back();
            self.primal(4 * limit);
        }
    }

    fn mark(&mut self, v: Var, inside: bool) {
        match v {
            Var::Column(j) => self.columns[j].inside = inside,
            Var::Slack(i) => self.rows[i].slack_in = inside,
            Var::Short(i) => self.rows[i].short_in = inside,
            Var::Over(i) => self.rows[i].over_in = inside,
        }
    }

    fn cost(&self, v: Var) -> f64 {
        match v {
            Var::Column(j) => self.columns[j].cost,
            Var::Slack(_) => 0.0,
            Var::Short(_) | Var::Over(_) => self.penalty,
        }
    }

    /// Coefficient of a variable that lives in one row only.
    fn unit(&self, v: Var) -> (usize, f64) {
        match v {
            Var::Slack(i) => (i, if self.rows[i].sense == Sense::AtMost { 1.0 } else { -1.0 }),
            Var::Short(i) => (i, 1.0),
            Var::Over(i) => (i, -1.0),
            Var::Column(_) => unreachable!("columns have entries of their own"),
        }
    }

    /// Product of a row vector with the variable's column.
    fn dot(&self, y: &[f64], v: Var) -> f64 {
        if let Var::Column(j) = v {
            self.columns[j].entries.iter().map(|(i, a)| y[*i] * a).sum()
        } else {
            let (i, a) = self.unit(v);
            y[i] * a
        }
    }

    fn image(&self, v: Var) -> Vec<f64> {
        let m = self.rows.len();
        let mut alpha = vec![0.0; m];
        let mut add = |i: usize, a: f64| {
            for (r, out) in alpha.iter_mut().enumerate() {
                *out += self.inverse[r * m + i] * a;
            }
        };
        if let Var::Column(j) = v {
            for (i, a) in &self.columns[j].entries {
                add(*i, *a);
            }
        } else {
            let (i, a) = self.unit(v);
            add(i, a);
        }
        alpha
    }

    /// Variables outside the basis.
    fn outside(&self) -> impl Iterator<Item = Var> + '_ {
        let columns =
            self.columns.iter().enumerate().filter(|(_, c)| !c.inside).map(|(j, _)| Var::Column(j));
        let singles = self.rows.iter().enumerate().flat_map(|(i, r)| {
            let slack = r.sense != Sense::Exactly && !r.slack_in;
            let short = r.sense != Sense::AtMost && !r.short_in;
            let over = r.sense != Sense::AtLeast && !r.over_in;
            [
                slack.then_some(Var::Slack(i)),
                short.then_some(Var::Short(i)),
                over.then_some(Var::Over(i)),
            ]
            .into_iter()
            .flatten()
        });
        columns.chain(singles)
    }

    /// Mends negative values while reduced costs stay right. False if it gave up.
    fn dual(&mut self, limit: u32) -> bool {
        for _ in 0..limit {
            let Some(r) = (0..self.x.len())
                .filter(|r| self.x[*r] < -FEASIBLE)
                .min_by(|a, b| self.x[*a].total_cmp(&self.x[*b]).then(a.cmp(b)))
            else {
                return true;
            };
            let m = self.rows.len();
            let y = self.duals();
            let rho = self.inverse[r * m..(r + 1) * m].to_vec();
            let mut best: Option<(f64, f64, Var)> = None;
            for v in self.outside() {
                let alpha = self.dot(&rho, v);
                if alpha < -PIVOT {
                    let ratio = (self.cost(v) - self.dot(&y, v)).max(0.0) / -alpha;
                    let better = best.is_none_or(|(b, a, _)| {
                        ratio < b - 1e-10 || (ratio <= b + 1e-10 && alpha < a)
                    });
                    if better {
                        best = Some((ratio, alpha, v));
                    }
                }
            }
            let Some((_, _, v)) = best else { return false };
            let alpha = self.image(v);
            if alpha[r].abs() < PIVOT {
                return false;
            }
            self.pivot(r, v, &alpha);
        }
        false
    }

    /// Mends reduced costs while values stay right. False if it gave up.
    fn primal(&mut self, limit: u32) -> bool {
        let tolerance = 1e-9 * self.penalty.clamp(1.0, 1e3);
        let mut idle = 0;
        for _ in 0..limit {
            let y = self.duals();
            let mut best: Option<(f64, Var)> = None;
            for v in self.outside() {
                let d = self.cost(v) - self.dot(&y, v);
                if d < -tolerance && best.is_none_or(|(b, _)| d < b) {
                    best = Some((d, v));
                    // After long idling the first candidate is taken, which cannot cycle for ever.
                    if idle > 50 {
                        break;
                    }
                }
            }
            let Some((_, v)) = best else { return true };
            let alpha = self.image(v);
            let mut leave: Option<(f64, usize)> = None;
            for (r, a) in alpha.iter().enumerate() {
                if *a > PIVOT {
                    let ratio = self.x[r].max(0.0) / a;
                    let better = leave.is_none_or(|(b, s)| {
                        ratio < b - 1e-11 || (ratio <= b + 1e-11 && *a > alpha[s])
                    });
                    if better {
                        leave = Some((ratio, r));
                    }
                }
            }
            let Some((ratio, r)) = leave else { return false };
            idle = if ratio > 1e-9 { 0 } else { idle + 1 };
            self.pivot(r, v, &alpha);
        }
        false
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn covers_at_least_cost_and_follows_a_new_row() {
        // min 3a + 2b, a + b >= 4, a <= 3, then b <= 2: 8 by b alone, then 10 with two a.
        let mut p = Program::new(1e4);
        p.push_row(Sense::AtLeast, 4, &[]);
        p.push_row(Sense::AtMost, 3, &[]);
        p.push_column(3, &[(0, 1), (1, 1)]);
        let b = p.push_column(2, &[(0, 1)]);
        p.solve();
        assert_eq!(p.solution(), [(1, 4.0)]);
        let back = p.basis();
        p.push_row(Sense::AtMost, 2, &[(b, 1)]);
        p.solve();
        assert_eq!(p.solution(), [(0, 2.0), (1, 2.0)]);
        assert!(!p.misses());
        p.pop_row(&back);
        p.solve();
        assert_eq!(p.solution(), [(1, 4.0)]);
    }

    #[test]
    fn says_when_a_row_cannot_be_met() {
        let mut p = Program::new(1e4);
        p.push_row(Sense::AtLeast, 4, &[]);
        p.push_row(Sense::AtMost, 3, &[]);
        p.push_column(1, &[(0, 1), (1, 1)]);
        p.solve();
        assert!(p.misses());
    }
}
