//! Dimensions after ISO 129-1: values above their line, read from the bottom or from the right,
//! narrow filled arrowheads, extension lines that leave a gap at the part.

use super::close;
use super::plate::Plate;
use super::{At, Line, Side, Style};
use crate::page::fonts::FaceId;
use crate::page::model::{Ink, Point, Rect, Segment};
use crate::page::text::MM;

/// A dimension as asked for.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Dimension {
    Linear { side: Side, from: At, to: At, text: String },
    Aligned { from: At, to: At, offset: f64, text: String },
    Running { side: Side, zero: At, places: Vec<(At, String)> },
    Round { centre: At, radius: f64, angle: f64, inside: bool, text: String },
    Angle { vertex: At, from: f64, to: f64, radius: f64, text: String },
}

/// Length of an arrowhead, mm; a third as wide.
pub(super) const HEAD: f64 = 3.0;
/// Gap between part and extension line, mm.
const GAP: f64 = 1.0;
/// Extension line beyond the dimension line, mm.
const BEYOND: f64 = 1.5;
/// From the part to the first dimension line, mm.
const FIRST: f64 = 6.5;

impl Plate<'_> {
    /// Draws all dimensions of a scene around the box of its geometry.
    pub(super) fn dimensions(&mut self, all: &[Dimension], around: Rect) {
        for side in [Side::Above, Side::Below, Side::Left, Side::Right] {
            self.side(all, side, around);
        }
        for dimension in all {
            match dimension {
                Dimension::Aligned { from, to, offset, text } => {
                    let (a, b) = (self.at(*from), self.at(*to));
                    let long = (b.x - a.x).hypot(b.y - a.y).max(1e-9);
                    // To the left of the way from a to b, with y down.
                    let offset = if offset.is_finite() { offset.clamp(-100.0, 100.0) } else { 0.0 };
                    let (nx, ny) = ((b.y - a.y) / long * offset, -(b.x - a.x) / long * offset);
                    let (p, q) = (Point::new(a.x + nx, a.y + ny), Point::new(b.x + nx, b.y + ny));
                    self.linear((a, b), (p, q), text);
                }
                Dimension::Round { centre, radius, angle, inside, text } => {
                    self.round(*centre, *radius, (*angle, *inside), text);
                }
                Dimension::Angle { vertex, from, to, radius, text } => {
                    self.angle_dimension(*vertex, (*from, *to), *radius, text);
                }
                Dimension::Linear { .. } | Dimension::Running { .. } => {}
            }
        }
    }

    /// Linear and running dimensions of one side, in levels that grow outwards.
    fn side(&mut self, all: &[Dimension], side: Side, around: Rect) {
        let level_side = matches!(side, Side::Above | Side::Below);
        let along = |p: Point| if level_side { p.x } else { p.y };
        let mut asked: Vec<(&Dimension, f64, f64)> = Vec::new();
        for dimension in all {
            let (low, high) = match dimension {
                Dimension::Linear { side: s, from, to, text } if *s == side => {
                    let (a, b) = (along(self.at(*from)), along(self.at(*to)));
                    let (low, high) = (a.min(b), a.max(b));
                    let words = self.measure(text, Style::PLAIN).0;
                    // Words that do not fit between the arrows stand beyond the second.
                    if words + 1.5 > high - low {
                        if level_side {
                            (low - 6.0, high + 8.0 + words)
                        } else {
                            (low - 8.0 - words, high + 6.0)
                        }
                    } else if high - low < 3.0 * HEAD {
                        (low - 6.0, high + 6.0)
                    } else {
                        (low, high)
                    }
                }
                Dimension::Running { side: s, zero, places } if *s == side => {
                    let ends = places.iter().map(|p| along(self.at(p.0)));
                    let zero = along(self.at(*zero));
                    let low = ends.clone().fold(zero, f64::min);
                    (low - 4.0, ends.fold(zero, f64::max) + 4.0)
                }
                _ => continue,
            };
            asked.push((dimension, low, high));
        }
        // Short ones inside; of equals the first as given.
        asked.sort_by(|a, b| (a.2 - a.1).total_cmp(&(b.2 - b.1)));
        let mut levels: Vec<Vec<(f64, f64)>> = Vec::new();
        let mut placed: Vec<(usize, &Dimension)> = Vec::new();
        for (dimension, low, high) in asked {
            let meets =
                |taken: &Vec<(f64, f64)>| taken.iter().any(|t| low < t.1 + 0.5 && t.0 < high + 0.5);
            let level = levels.iter().rposition(meets).map_or(0, |l| l + 1);
            if level == levels.len() {
                levels.push(Vec::new());
            }
            levels[level].push((low, high));
            placed.push((level, dimension));
        }
        let mut offset = FIRST;
        for level in 0..levels.len() {
            let mut deep: f64 = 0.0;
            for (at, dimension) in &placed {
                if *at == level {
                    deep = deep.max(self.one(dimension, side, around, offset));
                }
            }
            offset += deep;
        }
    }

    /// Height of a line of figures with room around it, mm.
    fn step(&self) -> f64 {
        FaceId::Regular.cap_height() * self.size * MM + 3.6
    }

    /// Draws one dimension with its line `offset` mm outside; returns the depth of its level.
    fn one(&mut self, dimension: &Dimension, side: Side, around: Rect, offset: f64) -> f64 {
        let out = |p: Point| match side {
            Side::Above => Point::new(p.x, around.y - offset),
            Side::Below => Point::new(p.x, around.bottom() + offset),
            Side::Left => Point::new(around.x - offset, p.y),
            Side::Right => Point::new(around.right() + offset, p.y),
        };
        match dimension {
            Dimension::Linear { from, to, text, .. } => {
                let (a, b) = (self.at(*from), self.at(*to));
                self.linear((a, b), (out(a), out(b)), text);
                self.step()
            }
            Dimension::Running { zero, places, .. } => {
                let zero = self.at(*zero);
                let mut ends: Vec<(Point, &str)> =
                    places.iter().map(|(p, t)| (self.at(*p), t.as_str())).collect();
                ends.sort_by(|a, b| a.0.x.total_cmp(&b.0.x).then(a.0.y.total_cmp(&b.0.y)));
                self.running_line(zero, &ends, side, &out)
            }
            _ => 0.0,
        }
    }

    fn extension(&mut self, part: Point, end: Point) {
        let (dx, dy) = (end.x - part.x, end.y - part.y);
        let long = dx.hypot(dy);
        if long < GAP + 0.5 {
            return;
        }
        let (ux, uy) = (dx / long, dy / long);
        let from = Point::new(part.x + ux * GAP, part.y + uy * GAP);
        let to = Point::new(end.x + ux * BEYOND, end.y + uy * BEYOND);
        // It is left out where an edge runs beside it too closely to be told apart.
        for (from, to) in close::clear(&self.edges, from, to) {
            self.straight(from, to, Line::THIN);
        }
    }

    /// An arrowhead with its tip at `tip`, pointing along (`ux`, `uy`).
    pub(super) fn arrowhead(&mut self, tip: Point, ux: f64, uy: f64, long: f64) {
        let half = long / 6.0;
        let back = Point::new(tip.x - ux * long, tip.y - uy * long);
        self.solid(
            vec![
                Segment::Move(tip),
                Segment::Line(Point::new(back.x - uy * half, back.y + ux * half)),
                Segment::Line(Point::new(back.x + uy * half, back.y - ux * half)),
                Segment::Close,
            ],
            Ink::Black,
        );
    }

    /// A linear dimension of two points of the part on a line between `p` and `q`.
    fn linear(&mut self, (a, b): (Point, Point), (p, q): (Point, Point), text: &str) {
        self.extension(a, p);
        self.extension(b, q);
        let (dx, dy) = (q.x - p.x, q.y - p.y);
        let long = dx.hypot(dy);
        if long < 0.01 {
            self.unplaced.push(text.to_owned());
            return;
        }
        let (ux, uy) = (dx / long, dy / long);
        let words = self.measure(text, Style::PLAIN).0;
        let inside = long >= 3.0 * HEAD;
        if inside {
            self.straight(p, q, Line::THIN);
            self.arrowhead(p, -ux, -uy, HEAD);
            self.arrowhead(q, ux, uy, HEAD);
        } else {
            let tail = 2.0 * HEAD;
            self.straight(Point::new(p.x - ux * tail, p.y - uy * tail), q, Line::THIN);
            self.straight(q, Point::new(q.x + ux * tail, q.y + uy * tail), Line::THIN);
            self.arrowhead(p, ux, uy, HEAD);
            self.arrowhead(q, -ux, -uy, HEAD);
        }
        // The angle of reading: from the bottom or from the right.
        let mut angle = (-dy).atan2(dx).to_degrees();
        if angle > 90.0 + 1e-6 {
            angle -= 180.0;
        } else if angle <= -90.0 + 1e-6 {
            angle += 180.0;
        }
        let (sin, cos) = angle.to_radians().sin_cos();
        let lift = FaceId::Regular.cap_height() * self.size * MM / 2.0 + 1.0;
        let above = |c: Point, by: f64| Point::new(c.x - by * sin, c.y - by * cos);
        let middle = Point::new(f64::midpoint(p.x, q.x), f64::midpoint(p.y, q.y));
        // Beyond the end that comes last in reading direction, on a line drawn on under it.
        let forward = if ux * cos - uy * sin > 0.0 { 1.0 } else { -1.0 };
        let end = if forward > 0.0 { q } else { p };
        let shift = 2.0 * HEAD + words / 2.0;
        let beyond = Point::new(end.x + cos * shift, end.y - sin * shift);
        let fits = words + 1.5 <= long;
        let mut places = Vec::new();
        if fits {
            places.push((above(middle, lift), angle));
        } else {
            places.push((beyond, angle));
            places.push((above(middle, lift + self.step()), angle));
        }
        places.push((above(middle, -lift), angle));
        if !fits {
            let from = Point::new(end.x + cos * HEAD, end.y - sin * HEAD);
            let to = Point::new(end.x + cos * (2.0 * HEAD - 0.8), end.y - sin * (2.0 * HEAD - 0.8));
            self.straight(from, to, Line::THIN);
        }
        self.set_at_one_of(text, Style::PLAIN, &places);
    }

    /// Running dimensions; returns the depth of the level.
    fn running_line(
        &mut self,
        zero: Point,
        ends: &[(Point, &str)],
        side: Side,
        out: &dyn Fn(Point) -> Point,
    ) -> f64 {
        let origin = out(zero);
        let level = matches!(side, Side::Above | Side::Below);
        let along = |p: &Point| if level { p.x } else { p.y };
        let cap = FaceId::Regular.cap_height() * self.size * MM;
        let start = along(&origin);
        self.extension(zero, origin);
        self.ring(origin, 0.9, Some(Line::THIN), Some(Ink::White));
        for (end, _) in ends {
            let tip = out(*end);
            self.extension(*end, tip);
            let way = (along(&tip) - start).signum();
            if (along(&tip) - start).abs() < 0.5 {
                continue;
            }
            let (ux, uy) = if level { (way, 0.0) } else { (0.0, way) };
            let from = Point::new(origin.x + ux * 0.9, origin.y + uy * 0.9);
            self.straight(from, tip, Line::THIN);
            let head = HEAD.min((along(&tip) - start).abs() - 0.9).max(0.4);
            self.arrowhead(tip, ux, uy, head);
        }
        let outward = match side {
            Side::Above | Side::Left => -1.0,
            Side::Below | Side::Right => 1.0,
        };
        let widths: Vec<f64> = ends.iter().map(|(_, t)| self.measure(t, Style::PLAIN).0).collect();
        if level && self.level_values_fit(&origin, ends, &widths, out) {
            // Values stand over the line, ending at their extension line.
            for ((end, text), width) in ends.iter().zip(&widths) {
                let tip = out(*end);
                let way = if tip.x >= start { 1.0 } else { -1.0 };
                let x = tip.x - way * (width / 2.0 + 0.9);
                let centre = Point::new(x, tip.y - cap / 2.0 - 1.1);
                self.set_at_one_of(text, Style::PLAIN, &[(centre, 0.0)]);
            }
            let centre = Point::new(origin.x, origin.y - cap / 2.0 - 2.0);
            let aside = Point::new(origin.x - 3.0, origin.y - cap / 2.0 - 1.1);
            // Under what it measures, the extension line comes down through the place over the ring.
            let under = Point::new(origin.x, origin.y + cap / 2.0 + BEYOND + 0.6);
            let places = match side {
                Side::Below => [(aside, 0.0), (under, 0.0)],
                _ => [(centre, 0.0), (aside, 0.0)],
            };
            self.set_at_one_of("0", Style::PLAIN, &places);
            return cap + 5.0;
        }
        // Values stand beyond the ends of the extension lines, moved apart where they are too close.
        let mut all: Vec<(f64, String, f64)> = ends
            .iter()
            .zip(&widths)
            .map(|((p, t), w)| (along(&out(*p)), (*t).to_owned(), *w))
            .collect();
        all.push((start, "0".to_owned(), self.measure("0", Style::PLAIN).0));
        all.sort_by(|a, b| a.0.total_cmp(&b.0));
        let wanted: Vec<f64> = all.iter().map(|a| a.0).collect();
        let spread = apart(&wanted, FaceId::Regular.text_ascent() * self.size * MM + 1.4);
        let angle = if level { 90.0 } else { 0.0 };
        let base = if level { origin.y } else { origin.x };
        let mut deepest: f64 = 0.0;
        for ((at, text, width), to) in all.iter().zip(&spread) {
            let bent = (at - to).abs() > 0.05;
            let reach = if spread.iter().zip(&wanted).any(|(a, b)| (a - b).abs() > 0.05) {
                6.0
            } else {
                BEYOND + 0.6
            };
            if bent {
                let (p, q) = (base + outward * BEYOND, base + outward * (reach - 0.8));
                let (a, b) = if level {
                    (Point::new(*at, p), Point::new(*to, q))
                } else {
                    (Point::new(p, *at), Point::new(q, *to))
                };
                self.straight(a, b, Line::THIN);
            }
            let middle = base + outward * (reach + width / 2.0);
            let centre = if level { Point::new(*to, middle) } else { Point::new(middle, *to) };
            self.set_at_one_of(text, Style::PLAIN, &[(centre, angle)]);
            deepest = deepest.max(reach + width + 2.0);
        }
        deepest
    }

    fn level_values_fit(
        &self,
        origin: &Point,
        ends: &[(Point, &str)],
        widths: &[f64],
        out: &dyn Fn(Point) -> Point,
    ) -> bool {
        let room = self.measure("0", Style::PLAIN).0 / 2.0 + 1.2;
        let (mut right, mut left) = (origin.x + room, origin.x - room);
        let tips: Vec<(f64, f64)> =
            ends.iter().zip(widths).map(|((p, _), w)| (out(*p).x, *w)).collect();
        for (x, w) in tips.iter().filter(|t| t.0 >= origin.x) {
            if x - 0.9 - w < right {
                return false;
            }
            right = x + 0.6;
        }
        for (x, w) in tips.iter().rev().filter(|t| t.0 < origin.x) {
            if x + 0.9 + w > left {
                return false;
            }
            left = x - 0.6;
        }
        true
    }

    fn round(&mut self, centre: At, radius: f64, (angle, inside): (f64, bool), text: &str) {
        const TURNS: [f64; 9] = [0.0, 30.0, -30.0, 60.0, -60.0, 90.0, -90.0, 150.0, 180.0];
        let c = self.at(centre);
        let angle = Self::turn(angle);
        let r = self.long(radius).abs();
        let (width, height) = self.measure(text, Style::PLAIN);
        // First without crossing any line, then without lying over words, then wherever it is.
        for care in [2, 1, 0] {
            for turn in TURNS {
                for reach in [7.0, 11.0, 16.0, 22.0] {
                    let a = (angle + turn).to_radians();
                    let (ux, uy) = (a.cos(), -a.sin());
                    let edge = Point::new(c.x + ux * r, c.y + uy * r);
                    // A leader comes from outside the circle, or from within the arc.
                    let out = if inside { -1.0 } else { 1.0 };
                    let far = r + out * reach;
                    let knee = Point::new(c.x + ux * far, c.y + uy * far);
                    let way = if ux * out >= 0.0 { 1.0 } else { -1.0 };
                    let middle = Point::new(knee.x + way * (2.5 + width / 2.0), knee.y);
                    let area = self.box_of((width, height), Style::PLAIN, middle, 0.0);
                    if (care > 0 && (self.crowd.hits(&area, 0.0) || !self.has_room(&area)))
                        || (care > 1 && self.crowd.crossed(&area) > 0.0)
                    {
                        continue;
                    }
                    self.straight(edge, knee, Line::THIN);
                    self.straight(knee, Point::new(knee.x + way * 2.0, knee.y), Line::THIN);
                    self.arrowhead(edge, -ux * out, -uy * out, HEAD);
                    self.set_at_one_of(text, Style::PLAIN, &[(middle, 0.0)]);
                    return;
                }
            }
        }
    }

    fn angle_dimension(&mut self, vertex: At, (from, to): (f64, f64), radius: f64, text: &str) {
        let c = self.at(vertex);
        let (from, to) = (Self::turn(from), Self::turn(to));
        let r = if radius.is_finite() { radius.clamp(5.0, 150.0) } else { 15.0 };
        let on = |a: f64, r: f64| {
            let a = a.to_radians();
            Point::new(c.x + r * a.cos(), c.y - r * a.sin())
        };
        let count = (((to - from).abs() / 6.0).ceil() as usize).clamp(2, 80);
        let step = (to - from) / count as f64;
        for i in 0..count {
            let a = from + step * i as f64;
            self.straight(on(a, r), on(a + step, r), Line::THIN);
        }
        // Heads lie along the arc: the chord of their own length.
        let chord = (HEAD / r).to_degrees() * step.signum();
        for (tip, back) in [(from, from + chord), (to, to - chord)] {
            let (p, q) = (on(tip, r), on(back, r));
            let long = (p.x - q.x).hypot(p.y - q.y).max(1e-9);
            self.arrowhead(p, (p.x - q.x) / long, (p.y - q.y) / long, HEAD);
        }
        let (w, h) = self.measure(text, Style::PLAIN);
        let middle = f64::midpoint(from, to);
        let a = middle.to_radians();
        let clear = (a.cos() * w / 2.0).abs() + (a.sin() * h / 2.0).abs() + 1.8;
        let places: Vec<(Point, f64)> = [clear, clear + 5.0, -clear, clear + 10.0]
            .into_iter()
            .map(|d| (on(middle, r + d), 0.0))
            .collect();
        self.set_at_one_of(text, Style::PLAIN, &places);
    }
}

/// Places moved apart to at least `least`, each as near to its wanted place as that allows. The wanted
/// places are in order.
fn apart(wanted: &[f64], least: f64) -> Vec<f64> {
    // Pool neighbours that collide; each pool sits at the mean of what its members want.
    let mut pools: Vec<(f64, usize)> = Vec::new();
    for (i, w) in wanted.iter().enumerate() {
        let want = w - i as f64 * least;
        pools.push((want, 1));
        while let [.., a, b] = pools[..] {
            if a.0 <= b.0 {
                break;
            }
            let n = a.1 + b.1;
            let mean = (a.0 * a.1 as f64 + b.0 * b.1 as f64) / n as f64;
            pools.truncate(pools.len() - 2);
            pools.push((mean, n));
        }
    }
    let mut out = Vec::with_capacity(wanted.len());
    for (mean, n) in pools {
        for _ in 0..n {
            out.push(mean + out.len() as f64 * least);
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_too_close_move_apart_evenly() {
        let out = apart(&[10.0, 10.0, 10.0], 5.0);
        assert_eq!(out, [5.0, 10.0, 15.0]);
        let out = apart(&[0.0, 100.0], 5.0);
        assert_eq!(out, [0.0, 100.0]);
        let out = apart(&[0.0, 1.0, 2.0, 50.0, 52.0], 5.0);
        assert!(out.windows(2).all(|w| w[1] - w[0] >= 5.0 - 1e-9), "{out:?}");
    }
}
