//! Solids seen from a corner: prisms and round things in their order from the back to the front.
//!
//! A parallel view (ISO 5456-3): lengths along a direction keep their ratio, and nothing is measured
//! in it. What is drawn later hides what lies behind it, so parts are drawn in the order in which
//! they lie over each other.

use crate::page::scene::{At, Fill, Line, Scene};

/// A place or a way in space, mm.
pub(super) type Space = [f64; 3];

/// Points round a circle.
const ROUND: u32 = 32;

pub(super) fn add(a: Space, b: Space, times: f64) -> Space {
    [a[0] + b[0] * times, a[1] + b[1] * times, a[2] + b[2] * times]
}

fn cross(a: Space, b: Space) -> Space {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

fn dot(a: Space, b: Space) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

/// Where one stands: `z` is upwards on the paper.
#[derive(Debug, Clone, Copy)]
pub(super) struct Eye {
    towards: Space,
    right: Space,
    up: Space,
}

impl Eye {
    /// An eye over the `y` side, turned by `turn` degrees to the side of greater `x`, raised by `rise`.
    pub fn new(turn: f64, rise: f64) -> Self {
        let (st, ct) = turn.to_radians().sin_cos();
        let (sr, cr) = rise.to_radians().sin_cos();
        let towards = [st * cr, ct * cr, sr];
        // To the right of one who looks along the level way.
        let right = [-ct, st, 0.0];
        Self { towards, right, up: cross(towards, right) }
    }

    /// A place on the paper.
    pub fn at(&self, p: Space) -> At {
        (dot(p, self.right), dot(p, self.up))
    }

    /// Whether one looks at the side that points this way.
    pub fn sees(&self, way: Space) -> bool {
        dot(way, self.towards) > 1e-9
    }

    fn ring(&self, points: &[Space]) -> Vec<At> {
        points.iter().map(|p| self.at(*p)).collect()
    }

    /// A prism: a ring of its end, anticlockwise seen against `way`, and the way to its other end.
    pub fn prism(&self, scene: &mut Scene, ring: &[Space], way: Space) {
        let moved: Vec<Space> = ring.iter().map(|p| add(*p, way, 1.0)).collect();
        self.loft(scene, (ring, &moved), Line::HEAVY);
    }

    /// A body between two rings of as many points, the first anticlockwise seen from the second.
    pub fn loft(&self, scene: &mut Scene, (ring, other): (&[Space], &[Space]), line: Line) {
        let (Some(first), Some(last)) = (ring.first(), other.first()) else { return };
        let way = add(*last, *first, -1.0);
        let mut faces: Vec<(f64, Vec<At>)> = Vec::new();
        let mut face = |points: Vec<Space>| {
            let depth = points.iter().map(|p| self.depth(*p)).sum::<f64>();
            faces.push((depth / points.len().max(1) as f64, self.ring(&points)));
        };
        for index in 0..ring.len() {
            let next = (index + 1) % ring.len();
            let edge = add(ring[next], ring[index], -1.0);
            if self.sees(cross(edge, way)) {
                face(vec![ring[index], ring[next], other[next], other[index]]);
            }
        }
        if self.sees(way) {
            face(other.to_vec());
        } else {
            face(ring.to_vec());
        }
        faces.sort_by(|a, b| a.0.total_cmp(&b.0));
        for (_, points) in faces {
            scene.area(&[points], Some(Fill::White), Some(line));
        }
    }

    /// How near a place is to the eye.
    pub fn depth(&self, p: Space) -> f64 {
        dot(p, self.towards)
    }

    /// Points of a circle about a place, in the plane of two ways of length one.
    pub fn circle(&self, centre: Space, (a, b): (Space, Space), radius: f64) -> Vec<At> {
        (0..ROUND)
            .map(|step| {
                let angle = f64::from(step) / f64::from(ROUND) * std::f64::consts::TAU;
                let p = add(centre, a, radius * angle.cos());
                self.at(add(p, b, radius * angle.sin()))
            })
            .collect()
    }

    /// A round bar between two places.
    pub fn bar(&self, scene: &mut Scene, (from, to): (Space, Space), radius: f64) {
        let way = add(to, from, -1.0);
        let long = dot(way, way).sqrt().max(1e-9);
        let way = way.map(|v| v / long);
        // Two ways square to it; a bar along z has x.
        let level = if way[2].abs() > 0.9 { [1.0, 0.0, 0.0] } else { [0.0, 0.0, 1.0] };
        let a = cross(way, level);
        let size = dot(a, a).sqrt();
        let a = a.map(|v| v / size);
        let b = cross(way, a);
        let ends = if self.sees(way) { [from, to] } else { [to, from] };
        let [far, near] = ends.map(|at| self.circle(at, (a, b), radius));
        // Its outermost lines lie where the circle reaches farthest to both sides of the axis on paper.
        let (p, q) = (self.at(from), self.at(to));
        let (dx, dy) = (q.0 - p.0, q.1 - p.1);
        let off = |at: &At| at.1 * dx - at.0 * dy;
        let side = |ring: &[At], way: f64| {
            let most = |a: &&At, b: &&At| (off(a) * way).total_cmp(&(off(b) * way));
            ring.iter().max_by(most).copied().unwrap_or(p)
        };
        let hull = [side(&far, 1.0), side(&near, 1.0), side(&near, -1.0), side(&far, -1.0)];
        scene.area(&[far], Some(Fill::White), Some(Line::VISIBLE));
        scene.area(&[hull.to_vec()], Some(Fill::White), None);
        scene.line(&hull[..2], Line::VISIBLE);
        scene.line(&hull[2..], Line::VISIBLE);
        scene.area(&[near], Some(Fill::White), Some(Line::VISIBLE));
    }

    /// A level round thing from `low`, so high; its radius below and above.
    pub fn round(&self, scene: &mut Scene, low: Space, high: f64, radii: (f64, f64)) {
        let level = ([1.0, 0.0, 0.0], [0.0, 1.0, 0.0]);
        let top = add(low, [0.0, 0.0, 1.0], high);
        let (under, over) = (self.circle(low, level, radii.0), self.circle(top, level, radii.1));
        let (a, b) = (self.at(low), self.at(top));
        scene.area(&[under], Some(Fill::White), Some(Line::VISIBLE));
        let side = [
            (a.0 - radii.0, a.1),
            (b.0 - radii.1, b.1),
            (b.0 + radii.1, b.1),
            (a.0 + radii.0, a.1),
        ];
        scene.area(&[side.to_vec()], Some(Fill::White), None);
        scene.line(&side[..2], Line::VISIBLE);
        scene.line(&side[2..], Line::VISIBLE);
        scene.area(&[over], Some(Fill::White), Some(Line::VISIBLE));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A unit cube's corner view: the eye over greater x and y sees these directions so.
    #[test]
    fn ways_point_where_they_should() {
        let eye = Eye::new(30.0, 25.0);
        let (x, y, z) = (eye.at([1.0, 0.0, 0.0]), eye.at([0.0, 1.0, 0.0]), eye.at([0.0, 0.0, 1.0]));
        assert!(z.0.abs() < 1e-12 && z.1 > 0.0, "up is up: {z:?}");
        assert!(x.0 < 0.0 && x.1 < 0.0, "x comes forward to the left: {x:?}");
        assert!(y.0 > 0.0 && y.1 < 0.0, "y comes forward to the right: {y:?}");
        // A parallel view of orthogonal ways: their squares add up to two.
        let squares: f64 = [x, y, z].iter().map(|p| p.0 * p.0 + p.1 * p.1).sum();
        assert!((squares - 2.0).abs() < 1e-12);
    }
}
