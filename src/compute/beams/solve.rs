//! Symmetric equations with a band of entries near the diagonal.

/// Equations K x = f. Entries far from the diagonal cost time, not truth.
pub(super) struct Equations {
    /// Place of each unknown in the order of elimination.
    place: Vec<usize>,
    rows: Vec<Vec<f64>>,
    right: Vec<f64>,
}

/// A pivot smaller than this share of its diagonal entry means that something can move freely.
const LEAST: f64 = 1e-11;

impl Equations {
    /// None yet, to be eliminated in this order.
    pub fn new(count: usize, order: &[usize]) -> Self {
        let mut place = vec![0; count];
        for (at, unknown) in order.iter().enumerate() {
            place[*unknown] = at;
        }
        Self { place, rows: vec![vec![0.0; count]; count], right: vec![0.0; count] }
    }

    /// Adds to an entry.
    pub fn add(&mut self, row: usize, column: usize, value: f64) {
        self.rows[self.place[row]][self.place[column]] += value;
    }

    /// Adds to the right side.
    pub fn load(&mut self, row: usize, value: f64) {
        self.right[self.place[row]] += value;
    }

    /// Solves them by elimination without exchange of rows (they are symmetric and positive where
    /// everything is held), with one refinement.
    pub fn solve(self) -> Option<Vec<f64>> {
        let count = self.right.len();
        let kept = self.rows.clone();
        let mut rows = self.rows;
        // How far each row reaches, so that the empty part is left alone.
        let mut ends: Vec<usize> = rows
            .iter()
            .map(|row| row.iter().rposition(|v| *v != 0.0).map_or(0, |last| last + 1))
            .collect();
        for step in 0..count {
            let pivot = rows[step][step];
            if pivot.is_nan() || pivot <= LEAST * kept[step][step].abs() {
                return None;
            }
            let end = ends[step];
            for below in step + 1..end {
                let by = rows[below][step] / pivot;
                if by == 0.0 {
                    continue;
                }
                let (upper, lower) = rows.split_at_mut(below);
                let (source, target) = (&upper[step], &mut lower[0]);
                for column in step + 1..end {
                    target[column] -= by * source[column];
                }
                target[step] = by;
                ends[below] = ends[below].max(end);
            }
        }
        let back = |right: &[f64]| {
            let mut x = right.to_vec();
            for row in 0..count {
                let known: f64 = (0..row)
                    .map(|c| if rows[row][c] == 0.0 { 0.0 } else { rows[row][c] * x[c] })
                    .sum();
                x[row] -= known;
            }
            for row in (0..count).rev() {
                let known: f64 = (row + 1..ends[row]).map(|c| rows[row][c] * x[c]).sum();
                x[row] = (x[row] - known) / rows[row][row];
            }
            x
        };
        let mut x = back(&self.right);
        let rest: Vec<f64> = (0..count)
            .map(|row| self.right[row] - kept[row].iter().zip(&x).map(|(k, v)| k * v).sum::<f64>())
            .collect();
        for (value, mend) in x.iter_mut().zip(back(&rest)) {
            *value += mend;
        }
        x.iter().all(|v| v.is_finite()).then(|| self.place.iter().map(|at| x[*at]).collect())
    }
}
