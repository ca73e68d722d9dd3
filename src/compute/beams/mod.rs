//! Straight beams that cross each other, on springs: a frame of tubes, or a plate over its tape.
//!
//! Takes nodes that can rise and sink, beams through nodes with their bending stiffness and line
//! load, springs and forces at nodes; gives rises, slopes and bending moments. Euler-Bernoulli beam
//! elements (any textbook of structural mechanics), exact at nodes for loads as given. Beams share
//! the rise of a node where they cross, not its slope: joints that don't clamp.
//!
//! Units: mm, N. Upward is positive; a moment that bends the ends up is positive.

mod solve;

use solve::Equations;

/// A beam through some nodes.
#[derive(Debug, Clone, PartialEq)]
pub struct Beam {
    /// Nodes with their place along the beam, rising, at least two.
    pub nodes: Vec<(usize, f64)>,
    /// Bending stiffness E I, N·mm².
    pub stiffness: f64,
    /// Line load, N/mm.
    pub load: f64,
    /// Moments put on the beam at one of its own nodes (by number in `nodes`), turning it so that
    /// what lies behind rises, N·mm.
    pub turned: Vec<(usize, f64)>,
}

/// Beams with what holds and loads their nodes.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Grid {
    /// How many nodes there are.
    pub nodes: usize,
    /// Beams.
    pub beams: Vec<Beam>,
    /// Springs from the ground to a node, N/mm.
    pub springs: Vec<(usize, f64)>,
    /// Forces on nodes, N.
    pub forces: Vec<(usize, f64)>,
}

/// How the grid lies under its loads.
#[derive(Debug, Clone, PartialEq)]
pub struct Bent {
    /// Rise of each node.
    pub rise: Vec<f64>,
    /// Each beam in order.
    pub beams: Vec<BentBeam>,
}

/// One beam under its loads.
#[derive(Debug, Clone, PartialEq)]
pub struct BentBeam {
    /// Spans between neighbouring nodes.
    pub spans: Vec<Span>,
}

/// A stretch between two nodes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// Place of its start along the beam and its length.
    pub from: f64,
    /// Length.
    pub length: f64,
    /// Rise and slope at the start, then at the end.
    pub ends: [f64; 4],
    /// Moments at start and end.
    pub moments: [f64; 2],
    /// Line load over stiffness.
    curve: f64,
    load: f64,
}

impl Span {
    /// Greatest moment, by size.
    pub fn greatest_moment(&self) -> f64 {
        let [start, end] = self.moments;
        let at = |x: f64| {
            start * (1.0 - x / self.length) + end * x / self.length
                - self.load * x * (self.length - x) / 2.0
        };
        let turning = if self.load.abs() > 1e-15 {
            self.length / 2.0 - (end - start) / (self.load * self.length)
        } else {
            0.0
        };
        [start, end, at(turning.clamp(0.0, self.length))]
            .into_iter()
            .fold(0.0, |most: f64, m| most.max(m.abs()))
    }

    /// Shear force at start and end: slope of the moments.
    pub fn shear(&self) -> [f64; 2] {
        let [start, end] = self.moments;
        let chord = (end - start) / self.length;
        let load = self.load * self.length / 2.0;
        [chord - load, chord + load]
    }

    /// Rise at a share of the length, 0 to 1.
    pub fn rise(&self, s: f64) -> f64 {
        let [w0, t0, w1, t1] = self.ends;
        let l = self.length;
        let (s2, s3) = (s * s, s * s * s);
        w0 * (1.0 - 3.0 * s2 + 2.0 * s3)
            + t0 * l * (s - 2.0 * s2 + s3)
            + w1 * (3.0 * s2 - 2.0 * s3)
            + t1 * l * (s3 - s2)
            + self.curve * l.powi(4) / 24.0 * s2 * (1.0 - s).powi(2)
    }
}

impl BentBeam {
    /// Greatest moment over all spans, by size.
    pub fn greatest_moment(&self) -> f64 {
        self.spans.iter().map(Span::greatest_moment).fold(0.0, f64::max)
    }

    /// Greatest shear force at its two ends, by size.
    pub fn end_shear(&self) -> f64 {
        let first = self.spans.first().map_or(0.0, |span| span.shear()[0].abs());
        let last = self.spans.last().map_or(0.0, |span| span.shear()[1].abs());
        first.max(last)
    }

    /// Greatest distance from the straight line between two places along the beam.
    pub fn sag(&self, from: f64, to: f64) -> f64 {
        const POINTS: u32 = 24;
        let points: Vec<(f64, f64)> = self
            .spans
            .iter()
            .flat_map(|span| {
                (0..=POINTS).map(|i| {
                    let s = f64::from(i) / f64::from(POINTS);
                    (span.from + s * span.length, span.rise(s))
                })
            })
            .filter(|(x, _)| *x >= from - 1e-9 && *x <= to + 1e-9)
            .collect();
        let (Some(first), Some(last)) = (points.first(), points.last()) else { return 0.0 };
        let long = (last.0 - first.0).max(1e-9);
        points
            .iter()
            .map(|(x, w)| (w - first.1 - (last.1 - first.1) * (x - first.0) / long).abs())
            .fold(0.0, f64::max)
    }
}

impl Grid {
    /// Solves it; `None` where it could move without bending or stretching anything.
    pub fn bend(&self) -> Option<Bent> {
        let slopes: Vec<usize> = self
            .beams
            .iter()
            .scan(self.nodes, |next, beam| {
                let first = *next;
                *next += beam.nodes.len();
                Some(first)
            })
            .collect();
        let count = self.nodes + self.beams.iter().map(|b| b.nodes.len()).sum::<usize>();
        let mut equations = Equations::new(count, &self.order(&slopes, count));
        for (node, k) in &self.springs {
            equations.add(*node, *node, *k);
        }
        for (node, force) in &self.forces {
            equations.load(*node, *force);
        }
        for (beam, first) in self.beams.iter().zip(&slopes) {
            for (own, moment) in &beam.turned {
                equations.load(first + own, *moment);
            }
            for (number, pair) in beam.nodes.windows(2).enumerate() {
                let places = [pair[0].0, first + number, pair[1].0, first + number + 1];
                element(&mut equations, beam, pair[1].1 - pair[0].1, places);
            }
        }
        let moved = equations.solve()?;
        let beams = self
            .beams
            .iter()
            .zip(&slopes)
            .map(|(beam, first)| BentBeam { spans: spans(beam, *first, &moved) })
            .collect();
        Some(Bent { rise: moved[..self.nodes].to_vec(), beams })
    }

    /// An order of the unknowns in which each stands near those it meets: for one long beam, rise
    /// and slope of each node in turn.
    fn order(&self, slopes: &[usize], count: usize) -> Vec<usize> {
        let mut order = Vec::with_capacity(count);
        let mut seen = vec![false; count];
        for (beam, first) in self.beams.iter().zip(slopes) {
            for (own, (node, _)) in beam.nodes.iter().enumerate() {
                for unknown in [*node, first + own] {
                    if !std::mem::replace(&mut seen[unknown], true) {
                        order.push(unknown);
                    }
                }
            }
        }
        order.extend((0..count).filter(|unknown| !seen[*unknown]));
        order
    }
}

/// Stiffness and line load of one element between rise and slope at both ends.
fn element(equations: &mut Equations, beam: &Beam, length: f64, places: [usize; 4]) {
    let k = beam.stiffness / length.powi(3);
    let l = length;
    let rows = [
        [12.0, 6.0 * l, -12.0, 6.0 * l],
        [6.0 * l, 4.0 * l * l, -6.0 * l, 2.0 * l * l],
        [-12.0, -6.0 * l, 12.0, -6.0 * l],
        [6.0 * l, 2.0 * l * l, -6.0 * l, 4.0 * l * l],
    ];
    for (i, row) in rows.iter().enumerate() {
        for (j, value) in row.iter().enumerate() {
            equations.add(places[i], places[j], k * value);
        }
    }
    let (half, twelfth) = (beam.load * l / 2.0, beam.load * l * l / 12.0);
    for (place, load) in places.into_iter().zip([half, twelfth, half, -twelfth]) {
        equations.load(place, load);
    }
}

fn spans(beam: &Beam, first: usize, moved: &[f64]) -> Vec<Span> {
    beam.nodes
        .windows(2)
        .enumerate()
        .map(|(number, pair)| {
            let l = pair[1].1 - pair[0].1;
            let ends = [
                moved[pair[0].0],
                moved[first + number],
                moved[pair[1].0],
                moved[first + number + 1],
            ];
            let [w0, t0, w1, t1] = ends;
            let fixed = beam.load * l * l / 12.0;
            let start =
                beam.stiffness * (6.0 * (w1 - w0) / (l * l) - (4.0 * t0 + 2.0 * t1) / l) + fixed;
            let end =
                beam.stiffness * (6.0 * (w0 - w1) / (l * l) + (2.0 * t0 + 4.0 * t1) / l) + fixed;
            Span {
                from: pair[0].1,
                length: l,
                ends,
                moments: [start, end],
                curve: beam.load / beam.stiffness,
                load: beam.load,
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// Springs carry what acts, and its moment (statics), 1e-9 relative.
        #[test]
        fn springs_carry_what_acts(
            places in prop::collection::vec(50.0..600.0_f64, 3..7),
            load in -2.0..2.0_f64,
            force in -500.0..500.0_f64,
            k in 10.0..1e4_f64,
        ) {
            let mut at = 0.0;
            let nodes: Vec<(usize, f64)> = std::iter::once((0, 0.0))
                .chain(places.iter().enumerate().map(|(i, step)| { at += step; (i + 1, at) }))
                .collect();
            let count = nodes.len();
            let grid = Grid {
                nodes: count,
                beams: vec![Beam { nodes: nodes.clone(), stiffness: 1.1e9, load, turned: vec![] }],
                springs: (0..count).map(|n| (n, k)).collect(),
                forces: vec![(1, force)],
            };
            let bent = grid.bend().expect("springs hold it");
            let scale = force.abs() + load.abs() * at + 1.0;
            let up: f64 = bent.rise.iter().map(|w| w * k).sum();
            prop_assert!((up - force - load * at).abs() < 1e-9 * scale);
            let moment: f64 = nodes.iter().map(|(n, x)| bent.rise[*n] * k * x).sum();
            let acts = force * nodes[1].1 + load * at * at / 2.0;
            prop_assert!((moment - acts).abs() < 1e-9 * scale * at);
        }
    }

    #[test]
    fn a_grid_that_can_turn_has_no_answer() {
        let beam =
            Beam { nodes: vec![(0, 0.0), (1, 100.0)], stiffness: 1e6, load: 0.0, turned: vec![] };
        let grid =
            Grid { nodes: 2, beams: vec![beam], springs: vec![(0, 10.0)], forces: vec![(1, 1.0)] };
        assert_eq!(grid.bend(), None);
    }
}
