//! Rank-1 cuts: multiples of rows, added up and rounded.
//!
//! From rows a x >= b (whole x >= 0) and multipliers u >= 0 follows sum(ceil(u a)) x >= ceil(u b)
//! (Chvatal 1973, Gomory 1963). Multipliers are fractions with a small denominator, so coefficients
//! are exact.
use super::search::{Column, Row};
use super::simplex::{Program, Sense};

/// Up to so many rows are tried three at a time.
pub(super) const MOST_TRIPLES: usize = 30;

/// A cut by its multipliers, numerators over `den`; rows `AtMost` count as their negatives.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Cut {
    numerators: Vec<i64>,
    den: i64,
    pub(super) rhs: i64,
}

fn ceil_div(a: i64, b: i64) -> i64 {
    -(-a).div_euclid(b)
}

impl Cut {
    fn new(numerators: Vec<i64>, den: i64, rows: &[Row]) -> Self {
        let rhs = ceil_div(numerators.iter().zip(rows).map(|(u, r)| u * r.rhs).sum(), den);
        Self { numerators, den, rhs }
    }

    /// Coefficient of a column with these entries.
    pub(super) fn coefficient(&self, entries: &[(usize, i64)]) -> i64 {
        let sum: i64 =
            entries.iter().filter_map(|(r, a)| self.numerators.get(*r).map(|u| u * a)).sum();
        ceil_div(sum, self.den)
    }

    fn violation(&self, columns: &[Column], solution: &[(usize, f64)]) -> f64 {
        let lhs: f64 =
            solution.iter().map(|(j, x)| self.coefficient(&columns[*j].entries) as f64 * x).sum();
        self.rhs as f64 - lhs
    }
}

/// Cuts that the solution violates, the deepest first, at most a dozen. Numerators are signed: an
/// `AtMost` row takes them negative.
pub(super) fn separate(
    columns: &[Column],
    rows: &[Row],
    program: &Program,
    solution: &[(usize, f64)],
    known: &[Cut],
) -> Vec<Cut> {
    let mut found: Vec<(f64, Cut)> = Vec::new();
    let mut consider = |numerators: Vec<i64>, den: i64| {
        let cut = Cut::new(numerators, den, rows);
        let v = cut.violation(columns, solution);
        if v > 0.02 && !known.contains(&cut) && !found.iter().any(|(_, c)| *c == cut) {
            found.push((v, cut));
        }
    };
    let sign = |r: usize| if rows[r].sense == Sense::AtMost { -1 } else { 1 };
    // Halves of one to three rows.
    let n = rows.len();
    let mut halves = |set: &[usize]| {
        if set.iter().map(|r| rows[*r].rhs).sum::<i64>() % 2 != 0 {
            let mut u = vec![0; n];
            for r in set {
                u[*r] = sign(*r);
            }
            consider(u, 2);
        }
    };
    for a in 0..n {
        halves(&[a]);
        for b in a + 1..n {
            halves(&[a, b]);
            if n <= MOST_TRIPLES {
                for c in b + 1..n {
                    halves(&[a, b, c]);
                }
            }
        }
    }
    // Rows of the tableau of fractional basic variables, as Gomory's cuts use them.
    for at in 0..program.height() {
        let (row, x) = program.tableau_row(at);
        let f = x - x.floor();
        if !(0.02..=0.98).contains(&f) {
            continue;
        }
        for den in [12_i64, 60] {
            for flip in [1.0, -1.0] {
                let u: Vec<i64> = row[..n]
                    .iter()
                    .enumerate()
                    .map(|(r, v)| {
                        let v = v * flip * sign(r) as f64;
                        let part = ((v - v.floor()) * den as f64).round() as i64 % den;
                        part * sign(r)
                    })
                    .collect();
                consider(u, den);
            }
        }
    }
    found.sort_by(|a, b| b.0.total_cmp(&a.0).then_with(|| a.1.numerators.cmp(&b.1.numerators)));
    found.truncate(12);
    found.into_iter().map(|(_, c)| c).collect()
}
