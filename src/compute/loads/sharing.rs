//! How a rigid frame on elastic mounts shares a load.
//!
//! Takes springs at points and a force with its moment about the origin; gives the force that the
//! frame puts on each mount. The frame moves by a displacement `d` and a small turn `t`; a mount at
//! `r` moves by `d + t x r` and is loaded by its stiffness times that. Six equations of equilibrium
//! give `d` and `t` (linear elastic statics, any textbook).
//!
//! Axes: X rearward, Y right, Z up. A positive Z force on a mount pulls it off the roof.

/// A mount as three springs at a point: place in mm, stiffness in N/mm along X, Y, Z.
#[derive(Debug, Clone, Copy)]
pub struct Spring {
    /// Place, mm.
    pub at: [f64; 3],
    /// Stiffness along X, Y, Z, N/mm.
    pub stiffness: [f64; 3],
}

/// A force in N and its moment about the origin in N·mm.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Wrench {
    /// Force, N.
    pub force: [f64; 3],
    /// Moment about the origin, N·mm.
    pub moment: [f64; 3],
}

impl Wrench {
    /// A force at a point.
    pub fn at(point: [f64; 3], force: [f64; 3]) -> Self {
        Self { force, moment: cross(point, force) }
    }

    /// Both together.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        let add = |a: [f64; 3], b: [f64; 3]| [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
        Self { force: add(self.force, other.force), moment: add(self.moment, other.moment) }
    }

    /// The same, so many times as large.
    #[must_use]
    pub fn times(self, by: f64) -> Self {
        Self { force: self.force.map(|v| v * by), moment: self.moment.map(|v| v * by) }
    }
}

/// The mounts can't hold the frame: it could turn or slide without any of them giving way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Loose;

/// Force that the frame puts on each mount, N, in the order of the springs.
///
/// # Errors
/// [`Loose`] if the springs leave the frame free to move: fewer than three, or all in one line.
pub fn share(springs: &[Spring], load: Wrench) -> Result<Vec<[f64; 3]>, Loose> {
    if springs.is_empty() {
        return Err(Loose);
    }
    // Moments are taken about the middle of the mounts and lengths scaled, which keeps the six
    // equations of like size.
    let count = springs.len() as f64;
    let middle = [0, 1, 2].map(|i| springs.iter().map(|s| s.at[i]).sum::<f64>() / count);
    let reach = springs.iter().map(|s| norm(minus(s.at, middle))).fold(0.0_f64, f64::max).max(1.0);
    let arm = |s: &Spring| minus(s.at, middle).map(|v| v / reach);
    let moment = minus(load.moment, cross(middle, load.force)).map(|v| v / reach);

    let mut rows = [[0.0_f64; 7]; 6];
    for spring in springs {
        let r = arm(spring);
        // Columns: displacement for each unit of d (0..3) and of the scaled turn (3..6).
        let moves = |column: usize| -> [f64; 3] {
            let mut unit = [0.0; 3];
            if column < 3 {
                unit[column] = 1.0;
                unit
            } else {
                unit[column - 3] = 1.0;
                cross(unit, r)
            }
        };
        // Rows and columns are named as the equations are written.
        #[expect(clippy::needless_range_loop, reason = "the column numbers an unknown")]
        for column in 0..6 {
            let u = moves(column);
            let f = [0, 1, 2].map(|i| spring.stiffness[i] * u[i]);
            let m = cross(r, f);
            for i in 0..3 {
                rows[i][column] += f[i];
                rows[i + 3][column] += m[i];
            }
        }
    }
    for i in 0..3 {
        rows[i][6] = load.force[i];
        rows[i + 3][6] = moment[i];
    }
    let motion = solve(&rows).ok_or(Loose)?;
    Ok(springs
        .iter()
        .map(|spring| {
            let turn = cross([motion[3], motion[4], motion[5]], arm(spring));
            [0, 1, 2].map(|i| spring.stiffness[i] * (motion[i] + turn[i]))
        })
        .collect())
}

/// Gauss elimination with full row pivoting and one refinement; `None` if the rows depend on each
/// other (pivot below 1e-9 of the largest coefficient).
fn solve(rows: &[[f64; 7]; 6]) -> Option<[f64; 6]> {
    let size = rows.iter().flat_map(|r| r[..6].iter()).fold(0.0_f64, |a, v| a.max(v.abs()));
    if !size.is_finite() || size == 0.0 {
        return None;
    }
    let eliminate = |right: [f64; 6]| -> Option<[f64; 6]> {
        let mut a = *rows;
        for (row, value) in a.iter_mut().zip(right) {
            row[6] = value;
        }
        for step in 0..6 {
            let pivot = (step..6).max_by(|&i, &j| a[i][step].abs().total_cmp(&a[j][step].abs()))?;
            if a[pivot][step].abs() < size * 1e-9 {
                return None;
            }
            a.swap(step, pivot);
            for row in step + 1..6 {
                let by = a[row][step] / a[step][step];
                let pivot = a[step];
                for (value, above) in a[row].iter_mut().zip(pivot).skip(step) {
                    *value -= by * above;
                }
            }
        }
        let mut x = [0.0; 6];
        for row in (0..6).rev() {
            let known: f64 = (row + 1..6).map(|c| a[row][c] * x[c]).sum();
            x[row] = (a[row][6] - known) / a[row][row];
        }
        Some(x)
    };
    let right = rows.map(|r| r[6]);
    let first = eliminate(right)?;
    let rest =
        [0, 1, 2, 3, 4, 5].map(|i| right[i] - (0..6).map(|c| rows[i][c] * first[c]).sum::<f64>());
    let mend = eliminate(rest)?;
    Some([0, 1, 2, 3, 4, 5].map(|i| first[i] + mend[i]))
}

/// Vector product.
pub(super) fn cross(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

fn minus(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

fn norm(a: [f64; 3]) -> f64 {
    a.iter().map(|v| v * v).sum::<f64>().sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn springs() -> impl Strategy<Value = Vec<Spring>> {
        prop::collection::vec(
            (
                prop::array::uniform3(-2000.0..2000.0_f64),
                prop::array::uniform3(100.0..10_000.0_f64),
            )
                .prop_map(|(at, stiffness)| Spring { at, stiffness }),
            4..9,
        )
    }

    proptest! {
        /// Sum of reactions and of their moments equals the load (statics), 1e-9 relative.
        #[test]
        fn reactions_balance_the_load(
            springs in springs(),
            force in prop::array::uniform3(-5000.0..5000.0_f64),
            moment in prop::array::uniform3(-1e6..1e6_f64),
        ) {
            let load = Wrench { force, moment };
            if let Ok(on) = share(&springs, load) {
                let sum = springs.iter().zip(&on).fold(Wrench::default(), |sum, (s, f)| {
                    sum.plus(Wrench::at(s.at, *f))
                });
                let scale_f = 1.0 + on.iter().map(|f| norm(*f)).sum::<f64>();
                for i in 0..3 {
                    prop_assert!((sum.force[i] - force[i]).abs() < 1e-9 * scale_f);
                    prop_assert!((sum.moment[i] - moment[i]).abs() < 1e-9 * scale_f * 3500.0);
                }
            }
        }
    }

    #[test]
    fn three_mounts_by_hand() {
        // A plate on three equal feet at (0,0), (1000,0), (0,600): a vertical load at (250,150)
        // leaves 0.5, 0.25, 0.25 of it (moments about two edges; statics, done by hand).
        let foot = |x: f64, y: f64| Spring { at: [x, y, 0.0], stiffness: [1000.0; 3] };
        let on = share(
            &[foot(0.0, 0.0), foot(1000.0, 0.0), foot(0.0, 600.0)],
            Wrench::at([250.0, 150.0, 0.0], [0.0, 0.0, 400.0]),
        )
        .expect("three feet hold it");
        for (force, expected) in on.iter().zip([200.0, 100.0, 100.0]) {
            assert!((force[2] - expected).abs() < 1e-9);
        }
    }

    #[test]
    fn mounts_in_one_line_hold_nothing() {
        let foot = |x: f64| Spring { at: [x, 0.0, 0.0], stiffness: [1000.0; 3] };
        let load = Wrench::at([0.0, 300.0, 0.0], [0.0, 0.0, 100.0]);
        assert_eq!(share(&[foot(0.0), foot(500.0), foot(900.0)], load), Err(Loose));
        assert_eq!(share(&[], load), Err(Loose));
    }
}
