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
    nodes: Vec<Node>,
}

/// A reading and the slope there.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Node {
    at: f64,
    value: f64,
    slope: f64,
}

impl Curve {
    /// Through the readings; they must increase strictly in `at`. Without any the curve is zero.
    pub fn through(readings: &[(f64, f64)]) -> Self {
        readings.iter().copied().collect()
    }

    /// First and last place of a reading; `None` without any.
    pub fn span(&self) -> Option<(f64, f64)> {
        Some((self.nodes.first()?.at, self.nodes.last()?.at))
    }

    /// Places of the readings.
    pub fn nodes(&self) -> impl Iterator<Item = f64> {
        self.nodes.iter().map(|node| node.at)
    }

    /// Value at `t`; beyond the readings the nearest one holds.
    pub fn value(&self, t: f64) -> f64 {
        let [first, .., last] = &self.nodes[..] else {
            return self.nodes.first().map_or(0.0, |only| only.value);
        };
        if t <= first.at {
            return first.value;
        }
        if t >= last.at {
            return last.value;
        }
        // `first < t < last`, so there is a reading on each side.
        let after = self.nodes.partition_point(|node| node.at <= t);
        between(self.nodes[after - 1], self.nodes[after], t)
    }

    /// The value at `t` of the curve through so many readings, of which no more are asked for than
    /// the two to each side: what [`Curve::through`] all of them would give there.
    pub fn value_through(
        count: usize,
        at: impl Fn(usize) -> f64,
        value: impl Fn(usize) -> f64,
        t: f64,
    ) -> f64 {
        let Some(last) = count.checked_sub(1) else { return 0.0 };
        if last == 0 || t <= at(0) {
            return value(0);
        }
        if t >= at(last) {
            return value(last);
        }
        // The first reading beyond `t`.
        let (mut low, mut after) = (0, last);
        while after - low > 1 {
            let middle = usize::midpoint(low, after);
            if at(middle) <= t { low = middle } else { after = middle }
        }
        let start = after.saturating_sub(2);
        let mut window = [Node { at: 0.0, value: 0.0, slope: 0.0 }; 4];
        let mut known = 0;
        for (node, k) in window.iter_mut().zip(start..count.min(after + 2)) {
            *node = Node { at: at(k), value: value(k), slope: 0.0 };
            known += 1;
        }
        let nodes = &window[..known];
        let (left, right) = (after - 1 - start, after - start);
        let slope_at = |k: usize| Node { slope: slope(nodes, k), ..nodes[k] };
        between(slope_at(left), slope_at(right), t)
    }
}

/// Hermite form of the cubic on one interval.
fn between(left: Node, right: Node, t: f64) -> f64 {
    let width = right.at - left.at;
    let u = (t - left.at) / width;
    let v = 1.0 - u;
    left.value * v * v * (1.0 + 2.0 * u)
        + right.value * u * u * (1.0 + 2.0 * v)
        + width * (left.slope * u * v * v - right.slope * u * u * v)
}

impl FromIterator<(f64, f64)> for Curve {
    fn from_iter<I: IntoIterator<Item = (f64, f64)>>(readings: I) -> Self {
        let mut nodes: Vec<Node> =
            readings.into_iter().map(|(at, value)| Node { at, value, slope: 0.0 }).collect();
        for k in 0..nodes.len() {
            nodes[k].slope = slope(&nodes, k);
        }
        Self { nodes }
    }
}

/// Slope at a reading.
fn slope(nodes: &[Node], k: usize) -> f64 {
    let chord = |from: usize| {
        let (a, b) = (&nodes[from], &nodes[from + 1]);
        (b.value - a.value) / (b.at - a.at)
    };
    let width = |from: usize| nodes[from + 1].at - nodes[from].at;
    let last = nodes.len() - 1;
    match last {
        0 => 0.0,
        1 => chord(0),
        _ if k == 0 => end(chord(0), chord(1), width(0), width(1)),
        _ if k == last => end(chord(k - 1), chord(k - 2), width(k - 1), width(k - 2)),
        _ => {
            let (before, after) = (chord(k - 1), chord(k));
            let parabola = (before * width(k) + after * width(k - 1)) / (width(k - 1) + width(k));
            held(parabola, before, after)
        }
    }
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

    proptest! {
        #[test]
        fn a_window_of_readings_gives_what_all_of_them_give(
            values in prop::collection::vec(-50.0..0.0_f64, 0..8),
            t in -200.0..1000.0_f64,
        ) {
            let at = |k: usize| (k * k) as f64 * 11.0;
            let readings: Vec<(f64, f64)> =
                values.iter().enumerate().map(|(k, value)| (at(k), *value)).collect();
            let whole = Curve::through(&readings).value(t);
            let window = Curve::value_through(values.len(), at, |k| values[k], t);
            prop_assert_eq!(whole.to_bits(), window.to_bits());
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
