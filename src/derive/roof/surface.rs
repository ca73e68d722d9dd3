//! Height of the skin over the roof's zero, anywhere.

use crate::build::{Gap, RoofShape, Station};
use crate::geometry::{Crown, Curve};
use crate::units::Length;

/// The roof as a surface z(x, y): X rearward from the datum, Y to the right of the centre line,
/// Z up with zero at the highest reading. Outside what was measured the nearest measured place
/// holds; [`RoofSurface::covers`] tells.
#[derive(Debug, Clone, PartialEq)]
pub struct RoofSurface {
    form: Form,
}

#[derive(Debug, Clone, PartialEq)]
enum Form {
    Flat,
    /// Arc across with its top on the centre line, and the height of that line along the roof where a
    /// straightedge lay along.
    Arc {
        arc: Crown,
        centre: Option<Curve>,
        lift: f64,
    },
    Gaps {
        /// Where each station is, and its curve across.
        stations: Vec<(f64, Curve)>,
        /// Height of the centre line along the roof, and each station's own height there, which
        /// it replaces; absent where no straightedge lay along.
        spine: Option<Spine>,
        /// What brings the highest reading to zero.
        lift: f64,
    },
}

#[derive(Debug, Clone, PartialEq)]
struct Spine {
    centre: Curve,
    own: Vec<f64>,
}

impl RoofSurface {
    /// From what was measured.
    pub fn new(shape: &RoofShape) -> Self {
        match shape {
            RoofShape::Flat => Self { form: Form::Flat },
            // A rise of nothing, or one that no arc has, leaves the roof flat.
            RoofShape::Crown(crown) => match Crown::new(*crown.chord, *crown.rise) {
                Some(arc) if *crown.rise > Length::ZERO => Self::arc(arc, &crown.along),
                _ => Self { form: Form::Flat },
            },
            RoofShape::Gaps { stations, along, .. } => Self::measured(stations, along),
        }
    }

    fn arc(arc: Crown, along: &[Gap]) -> Self {
        let centre = (!along.is_empty()).then(|| Curve::through(&heights(along)));
        let highest = centre.as_ref().map_or(0.0, |curve| {
            curve.nodes().map(|x| curve.value(x)).fold(f64::NEG_INFINITY, f64::max)
        });
        Self { form: Form::Arc { arc, centre, lift: -highest } }
    }

    fn measured(stations: &[Station], along: &[Gap]) -> Self {
        let mut curves: Vec<(f64, Curve)> = stations
            .iter()
            .map(|station| (station.x.to_mm(), Curve::through(&heights(&station.gaps))))
            .collect();
        curves.sort_by(|a, b| a.0.total_cmp(&b.0));
        curves.dedup_by(|a, b| a.0 == b.0);
        let spine = (!along.is_empty()).then(|| Spine {
            centre: Curve::through(&heights(along)),
            own: curves.iter().map(|(_, curve)| curve.value(0.0)).collect(),
        });
        let mut surface = Self { form: Form::Gaps { stations: curves, spine, lift: 0.0 } };
        let highest = surface
            .places()
            .into_iter()
            .map(|(x, y)| surface.z(x, y))
            .fold(f64::NEG_INFINITY, f64::max);
        if let Form::Gaps { lift, .. } = &mut surface.form
            && highest.is_finite()
        {
            *lift = -highest;
        }
        surface
    }

    /// Places of the readings (mm).
    fn places(&self) -> Vec<(f64, f64)> {
        if let Form::Arc { centre, .. } = &self.form {
            let nodes = centre.iter().flat_map(Curve::nodes);
            return nodes.map(|x| (x, 0.0)).collect();
        }
        let Form::Gaps { stations, spine, .. } = &self.form else { return Vec::new() };
        let across = stations.iter().flat_map(|(x, curve)| curve.nodes().map(|y| (*x, y)));
        let along = spine.iter().flat_map(|spine| spine.centre.nodes().map(|x| (x, 0.0)));
        across.chain(along).collect()
    }

    /// Height of the skin over the roof's zero.
    pub fn height(&self, x: Length, y: Length) -> Length {
        Length::mm(self.z(x.to_mm(), y.to_mm()))
    }

    pub(super) fn z(&self, x: f64, y: f64) -> f64 {
        match &self.form {
            // One place asks for no more than the stations about it.
            Form::Gaps { stations, spine, lift } => {
                let own = |k: usize| spine.as_ref().map_or(0.0, |spine| spine.own[k]);
                let line = Curve::value_through(
                    stations.len(),
                    |k| stations[k].0,
                    |k| stations[k].1.value(y) - own(k),
                    x,
                );
                line + self.spine(x) + lift
            }
            _ => self.along(y).height(x, self.spine(x)),
        }
    }

    /// The roof on a line along it, at `y` from the centre line.
    fn along(&self, y: f64) -> Along {
        match &self.form {
            Form::Flat => Along::Level(0.0),
            Form::Arc { arc, lift, .. } => {
                let edge = arc.chord().to_mm() / 2.0;
                let height = arc.height(Length::mm(y.clamp(-edge, edge)));
                let z = height.map_or(0.0, |height| (height - arc.rise()).to_mm());
                Along::Level(z + lift)
            }
            Form::Gaps { stations, spine, lift } => {
                let line = stations.iter().enumerate().map(|(k, (x, across))| {
                    let own = spine.as_ref().map_or(0.0, |spine| spine.own[k]);
                    (*x, across.value(y) - own)
                });
                Along::Through { line: line.collect(), lift: *lift }
            }
        }
    }

    /// Height of the centre line where a straightedge along it told; zero elsewhere.
    fn spine(&self, x: f64) -> f64 {
        match &self.form {
            Form::Gaps { spine: Some(spine), .. } => spine.centre.value(x),
            Form::Arc { centre: Some(centre), .. } => centre.value(x),
            _ => 0.0,
        }
    }

    /// From the centre line to a place, by a tape that lies across on the skin; signed as `y` is.
    pub fn by_tape_across(&self, x: Length, y: Length) -> Length {
        let tape = self.by_tape((x, Length::ZERO), (x, y));
        if y < Length::ZERO { -tape } else { tape }
    }

    /// From place to place by a tape that lies straight on the skin, seen from above.
    pub fn by_tape(&self, from: (Length, Length), to: (Length, Length)) -> Length {
        let (from, to) = ((from.0.to_mm(), from.1.to_mm()), (to.0.to_mm(), to.1.to_mm()));
        let at = |k: u32| {
            let share = f64::from(k) / f64::from(GRID);
            let (x, y) = (from.0 + (to.0 - from.0) * share, from.1 + (to.1 - from.1) * share);
            (x, y, self.z(x, y))
        };
        let tape: f64 = (0..GRID)
            .map(|k| {
                let (a, b) = (at(k), at(k + 1));
                (b.0 - a.0).hypot(b.1 - a.1).hypot(b.2 - a.2)
            })
            .sum();
        Length::mm(tape)
    }

    /// Slope across, dz/dy; positive rises to the right.
    pub fn slope_across(&self, x: Length, y: Length) -> f64 {
        let (x, y) = (x.to_mm(), y.to_mm());
        (self.z(x, y + STEP) - self.z(x, y - STEP)) / (2.0 * STEP)
    }

    /// Slope along, dz/dx; positive rises to the rear.
    pub fn slope_along(&self, x: Length, y: Length) -> f64 {
        let (x, y) = (x.to_mm(), y.to_mm());
        (self.z(x + STEP, y) - self.z(x - STEP, y)) / (2.0 * STEP)
    }

    /// Radius of the skin across, seen over a chord of the length `over` whose middle is here;
    /// positive where it is crowned, `None` where it is as good as flat (over 1 km).
    pub fn radius_across(&self, x: Length, y: Length, over: Length) -> Option<Length> {
        self.radius(x, y, over, (0.0, 1.0))
    }

    /// As [`RoofSurface::radius_across`], along the roof.
    pub fn radius_along(&self, x: Length, y: Length, over: Length) -> Option<Length> {
        self.radius(x, y, over, (1.0, 0.0))
    }

    fn radius(&self, x: Length, y: Length, over: Length, way: (f64, f64)) -> Option<Length> {
        let (x, y, half) = (x.to_mm(), y.to_mm(), over.to_mm() / 2.0);
        if half <= 0.0 {
            return None;
        }
        let end = |side: f64| self.z(x + side * half * way.0, y + side * half * way.1);
        let sagitta = self.z(x, y) - f64::midpoint(end(-1.0), end(1.0));
        // Through three points: R = h/2 + c²/(8h).
        let radius = sagitta / 2.0 + half * half / (2.0 * sagitta);
        (radius.is_finite() && radius.abs() < 1e6).then(|| Length::mm(radius))
    }

    /// What was measured, as (x from, x to, y from, y to); `None` where the shape holds everywhere.
    /// A single station is taken to hold along the whole roof, as it says nothing else.
    pub fn measured_span(&self) -> Option<[Length; 4]> {
        let bounds = match &self.form {
            Form::Flat => return None,
            Form::Arc { arc, centre, .. } => {
                let edge = arc.chord().to_mm() / 2.0;
                let (front, rear) = centre
                    .as_ref()
                    .and_then(Curve::span)
                    .unwrap_or((f64::NEG_INFINITY, f64::INFINITY));
                [front, rear, -edge, edge]
            }
            Form::Gaps { stations, spine, .. } => {
                let xs = |pick: fn(f64, f64) -> f64, start: f64| {
                    let along = spine.iter().flat_map(|spine| spine.centre.nodes());
                    stations.iter().map(|(x, _)| *x).chain(along).fold(start, pick)
                };
                let ys = |pick: fn(f64, f64) -> f64, start: f64, side: fn((f64, f64)) -> f64| {
                    stations.iter().filter_map(|(_, c)| c.span()).map(side).fold(start, pick)
                };
                let single = stations.len() < 2 && spine.is_none();
                [
                    if single { f64::NEG_INFINITY } else { xs(f64::min, f64::INFINITY) },
                    if single { f64::INFINITY } else { xs(f64::max, f64::NEG_INFINITY) },
                    ys(f64::max, f64::NEG_INFINITY, |span| span.0),
                    ys(f64::min, f64::INFINITY, |span| span.1),
                ]
            }
        };
        // Lengths are finite; a roof is far shorter than 10 km.
        Some(bounds.map(|bound| Length::mm(bound.clamp(-1e7, 1e7))))
    }

    /// Whether a place lies inside what was measured.
    pub fn covers(&self, x: Length, y: Length) -> bool {
        self.measured_span().is_none_or(|[front, rear, left, right]| {
            x.clears(front) && x.fits(rear) && y.clears(left) && y.fits(right)
        })
    }

    /// Highest skin within a rectangle given by its corners, with its place. Between readings the
    /// curve never rises over them, so the readings' lines, the edges and a grid are enough.
    pub fn highest(
        &self,
        from: (Length, Length),
        to: (Length, Length),
    ) -> (Length, Length, Length) {
        let places = self.places();
        let line = |low: f64, high: f64, nodes: &mut dyn Iterator<Item = f64>| -> Vec<f64> {
            let grid = (0..=GRID).map(|k| low + (high - low) * f64::from(k) / f64::from(GRID));
            grid.chain(nodes.filter(|node| (low..=high).contains(node))).collect()
        };
        let zero = [0.0];
        let xs = line(from.0.to_mm(), to.0.to_mm(), &mut places.iter().map(|p| p.0));
        let ys = line(from.1.to_mm(), to.1.to_mm(), &mut places.iter().map(|p| p.1).chain(zero));
        let mut best = (f64::NEG_INFINITY, xs[0], ys[0]);
        let lines: Vec<_> = ys.iter().map(|y| (*y, self.along(*y))).collect();
        for x in &xs {
            let spine = self.spine(*x);
            for (y, along) in &lines {
                let z = along.height(*x, spine);
                if z > best.0 {
                    best = (z, *x, *y);
                }
            }
        }
        (Length::mm(best.0), Length::mm(best.1), Length::mm(best.2))
    }

    /// Whether a straightedge along the roof tied the stations in height, or there is nothing to tie.
    pub const fn is_tied(&self) -> bool {
        match &self.form {
            Form::Gaps { spine, .. } => spine.is_some(),
            Form::Flat | Form::Arc { .. } => true,
        }
    }
}

/// The roof on a line along it: found once for all places on the line.
enum Along {
    Level(f64),
    Through {
        /// Through the stations, over the centre line.
        line: Curve,
        lift: f64,
    },
}

impl Along {
    /// Height at a place; `spine` is the centre line's there.
    fn height(&self, x: f64, spine: f64) -> f64 {
        match self {
            Along::Level(z) => *z + spine,
            Along::Through { line, lift } => line.value(x) + spine + lift,
        }
    }
}

/// Half the stretch over which a slope is taken (mm): far below a bolt's size, far above rounding.
const STEP: f64 = 0.5;
/// Parts into which a rectangle's sides are divided when the highest skin is sought.
const GRID: u32 = 40;

/// Readings as heights: down from the straightedge.
fn heights(gaps: &[Gap]) -> Vec<(f64, f64)> {
    let mut nodes: Vec<(f64, f64)> =
        gaps.iter().map(|gap| (gap.at.to_mm(), -gap.gap.to_mm())).collect();
    nodes.sort_by(|a, b| a.0.total_cmp(&b.0));
    nodes.dedup_by(|a, b| a.0 == b.0);
    nodes
}
