//! The inverse of the basis: kept by pivots, worked out afresh now and then.
use super::{Program, REFRESH, Sense, Var};

impl Program {
    pub(super) fn pivot(&mut self, r: usize, v: Var, alpha: &[f64]) {
        let m = self.rows.len();
        let p = 1.0 / alpha[r];
        let (before, rest) = self.inverse.split_at_mut(r * m);
        let (row, after) = rest.split_at_mut(m);
        for b in row.iter_mut() {
            *b *= p;
        }
        self.x[r] *= p;
        let xr = self.x[r];
        let others = before.chunks_exact_mut(m).chain(after.chunks_exact_mut(m));
        let indices = (0..r).chain(r + 1..m);
        for (other, i) in others.zip(indices) {
            let f = alpha[i];
            if f != 0.0 {
                for (o, b) in other.iter_mut().zip(row.iter()) {
                    *o -= f * b;
                }
                self.x[i] -= f * xr;
            }
        }
        let gone = self.basis[r];
        self.mark(gone, false);
        self.mark(v, true);
        self.basis[r] = v;
        self.work += (2 * m * m + 12 * self.columns.len()) as u64;
        self.since_refresh += 1;
        if self.since_refresh >= REFRESH {
            self.refresh();
        }
    }

    /// Works out the inverse afresh. A singular basis gives way to one of single-row variables.
    pub(super) fn refresh(&mut self) {
        let m = self.rows.len();
        self.since_refresh = 0;
        self.work += (m * m * m) as u64;
        let mut a = vec![0.0; m * m];
        for (k, v) in self.basis.iter().enumerate() {
            if let Var::Column(j) = v {
                for (i, e) in &self.columns[*j].entries {
                    a[i * m + k] = *e;
                }
            } else {
                let (i, e) = self.unit(*v);
                a[i * m + k] = e;
            }
        }
        let mut inv = vec![0.0; m * m];
        for i in 0..m {
            inv[i * m + i] = 1.0;
        }
        // Gauss-Jordan with row pivoting: unit columns cost next to nothing as their rows are sparse.
        for k in 0..m {
            let p = (k..m)
                .max_by(|i, j| a[i * m + k].abs().total_cmp(&a[j * m + k].abs()).then(j.cmp(i)))
                .expect("k < m");
            if a[p * m + k].abs() < 1e-11 {
                self.fall_back();
                return;
            }
            if p != k {
                for c in 0..m {
                    a.swap(p * m + c, k * m + c);
                    inv.swap(p * m + c, k * m + c);
                }
            }
            let f = 1.0 / a[k * m + k];
            for c in 0..m {
                a[k * m + c] *= f;
                inv[k * m + c] *= f;
            }
            let (a_row, inv_row) =
                (a[k * m..(k + 1) * m].to_vec(), inv[k * m..(k + 1) * m].to_vec());
            for i in 0..m {
                let f = a[i * m + k];
                if i != k && f != 0.0 {
                    for c in 0..m {
                        a[i * m + c] -= f * a_row[c];
                        inv[i * m + c] -= f * inv_row[c];
                    }
                }
            }
        }
        self.inverse = inv;
        self.place();
    }

    fn place(&mut self) {
        let m = self.rows.len();
        self.x = (0..m)
            .map(|r| {
                self.inverse[r * m..(r + 1) * m]
                    .iter()
                    .zip(&self.rows)
                    .map(|(b, w)| b * w.rhs)
                    .sum()
            })
            .collect();
    }

    pub(super) fn fall_back(&mut self) {
        let m = self.rows.len();
        for v in self.basis.clone() {
            self.mark(v, false);
        }
        self.basis = (0..m)
            .map(
                |i| if self.rows[i].sense == Sense::AtMost { Var::Slack(i) } else { Var::Short(i) },
            )
            .collect();
        for v in self.basis.clone() {
            self.mark(v, true);
        }
        self.inverse = vec![0.0; m * m];
        for i in 0..m {
            self.inverse[i * m + i] = 1.0;
        }
        self.place();
    }
}
