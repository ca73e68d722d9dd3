//! A cubic curve through readings that never goes beyond them.
//!
//! Between two readings the curve stays between their values, so a roof does not bulge where no
//! gap was measured. The slope at a reading is that of the parabola through it and its two
//! neighbours, held within three times the lesser of the two chord slopes and zero where the
//! chords turn (Fritsch and Carlson, SIAM J. Numer. Anal. 17, 1980; Hyman, SIAM J. Sci. Stat.
//! Comput. 4, 1983). The parabola makes it exact for a roof of even curvature, where the harmonic
//! mean of chord slopes that is often taken would lose a quarter of the slope.

/// A shape-preserving cubic z(t) through readings with increasing t, both in one unit.
///
/// ```
/// use rungsheet::geometry::Curve;
/// let roof = Curve::through(&[(0.0, 0.0), (400.0, 22.0), (800.0, 30.0)]);
/// assert_eq!(roof.value(400.0), 22.0);
/// assert!(roof.value(200.0) > 11.0);
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    at: Vec<f64>,
    value: Vec<f64>,
    slope: Vec<f64>,
}

impl Curve {
    /// Through the readings; they must increase strictly in `at`. Without any the curve is zero.
    pub fn through(readings: &[(f64, f64)]) -> Self {
        let at: Vec<f64> = readings.iter().map(|r| r.0).collect();
        let value: Vec<f64> = readings.iter().map(|r| r.1).collect();
        let slope = slopes(&at, &value);
        Self { at, value, slope }
    }

    /// First and last place of a reading; `None` without any.
    pub fn span(&self) -> Option<(f64, f64)> {
        Some((*self.at.first()?, *self.at.last()?))
    }

    /// Places of the readings.
    pub fn nodes(&self) -> &[f64] {
        &self.at
    }

    /// Value at `t`; beyond the readings the nearest one holds.
    pub fn value(&self, t: f64) -> f64 {
        let Some((first, last)) = self.span() else { return 0.0 };
        if t <= first {
            return self.value[0];
        }
        if t >= last {
            return self.value[self.value.len() - 1];
        }
        // `first < t < last`, so there is a reading on each side.
        let right = self.at.partition_point(|node| *node <= t);
        let left = right - 1;
        let width = self.at[right] - self.at[left];
        let u = (t - self.at[left]) / width;
        // Hermite form of the cubic on one interval.
        let v = 1.0 - u;
        self.value[left] * v * v * (1.0 + 2.0 * u)
            + self.value[right] * u * u * (1.0 + 2.0 * v)
            + width * (self.slope[left] * u * v * v - self.slope[right] * u * u * v)
    }
}

fn slopes(at: &[f64], value: &[f64]) -> Vec<f64> {
    let chord: Vec<f64> =
        at.windows(2).zip(value.windows(2)).map(|(t, z)| (z[1] - z[0]) / (t[1] - t[0])).collect();
    let width: Vec<f64> = at.windows(2).map(|t| t[1] - t[0]).collect();
    let count = chord.len();
    match count {
        0 => return vec![0.0; at.len()],
        1 => return vec![chord[0]; 2],
        _ => {}
    }
    let mut slope = Vec::with_capacity(at.len());
    slope.push(end(chord[0], chord[1], width[0], width[1]));
    for k in 1..count {
        let parabola =
            (chord[k - 1] * width[k] + chord[k] * width[k - 1]) / (width[k - 1] + width[k]);
        slope.push(held(parabola, chord[k - 1], chord[k]));
    }
    slope.push(end(chord[count - 1], chord[count - 2], width[count - 1], width[count - 2]));
    slope
}

/// Slope of the parabola at an end, held so that the last interval does not turn.
fn end(near: f64, far: f64, near_width: f64, far_width: f64) -> f64 {
    let parabola = near + (near - far) * near_width / (near_width + far_width);
    held(parabola, near, near)
}

fn held(slope: f64, left: f64, right: f64) -> f64 {
    if left * right <= 0.0 || slope * left <= 0.0 {
        return 0.0;
    }
    slope.signum() * slope.abs().min(3.0 * left.abs().min(right.abs()))
}

#[cfg(test)]
mod tests {
    use super::Curve;
    use proptest::prelude::*;

    #[test]
    fn a_parabola_is_met_exactly() {
        let z = |t: f64| -1.4e-4 * t * t;
        let readings: Vec<(f64, f64)> =
            [-700.0, -350.0, 0.0, 350.0, 700.0].map(|t| (t, z(t))).to_vec();
        let curve = Curve::through(&readings);
        for t in (-700..=700).step_by(25).map(f64::from) {
            assert!((curve.value(t) - z(t)).abs() < 1e-9, "{t}: {}", curve.value(t));
        }
    }

    #[test]
    fn beyond_the_readings_the_nearest_holds() {
        let curve = Curve::through(&[(0.0, 1.0), (10.0, 3.0), (20.0, 4.0)]);
        assert_eq!(curve.value(-5.0), 1.0);
        assert_eq!(curve.value(99.0), 4.0);
        assert_eq!(Curve::through(&[(3.0, 7.0)]).value(50.0), 7.0);
        assert_eq!(Curve::through(&[]).value(50.0), 0.0);
    }

    proptest! {
        #[test]
        fn between_two_readings_it_stays_between_them(
            steps in prop::collection::vec((1.0_f64..400.0, -80.0_f64..80.0), 2..9),
            share in 0.0_f64..1.0,
        ) {
            let mut t = 0.0;
            let readings: Vec<(f64, f64)> =
                steps.iter().map(|(dt, z)| { t += dt; (t, *z) }).collect();
            let curve = Curve::through(&readings);
            for pair in readings.windows(2) {
                let z = curve.value(pair[0].0 + share * (pair[1].0 - pair[0].0));
                let (low, high) = (pair[0].1.min(pair[1].1), pair[0].1.max(pair[1].1));
                prop_assert!(z >= low - 1e-9 && z <= high + 1e-9, "{z} outside {low}..{high}");
            }
        }
    }
}
