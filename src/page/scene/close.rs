//! Lines that lie too close to be told apart on paper are drawn as one.
//!
//! Page rule 36 asks for 0.7 mm between parallel lines. At a small scale a saw's kerf, a tube's wall
//! or a tube beside a panel is narrower: of the two lines the narrower, then the shorter, then the
//! later one is left out as far as they run side by side. Only level and upright lines are looked at,
//! dashed ones are not, and what a later area hides does not count.

use super::{At, LineKind, Shape, Step};
use crate::page::model::{Pen, Point, Segment};

/// Least distance of parallel lines on paper, mm.
const LEAST: f64 = 0.7;
/// Lines nearer than this are one already.
const SAME: f64 = 0.005;
/// They have to run side by side for so long, mm.
const ALONG: f64 = 2.0;
/// What is left of a line is drawn if it is longer than this, mm.
const REST: f64 = 0.7;

/// Where two lines side by side are looked at, as parts of their length.
const LOOKS: [f64; 7] = [0.5, 0.25, 0.75, 0.1, 0.9, 0.38, 0.62];

/// Parts of a path's straight pieces that are left out: ring, piece, and from where to where on it,
/// as parts of its length.
pub(super) type Gaps = Vec<(usize, usize, (f64, f64))>;

struct Piece {
    shape: usize,
    ring: usize,
    index: usize,
    at: f64,
    low: f64,
    high: f64,
    /// The piece runs from its high end to its low end.
    turned: bool,
    pen: Pen,
    gaps: Vec<(f64, f64)>,
}

impl Piece {
    fn long(&self) -> f64 {
        self.high - self.low
    }
}

/// Stretches in which two pieces run side by side and neither is left out.
fn shared(one: &Piece, two: &Piece) -> Vec<(f64, f64)> {
    let mut stretches = vec![(one.low.max(two.low), one.high.min(two.high))];
    for (low, high) in one.gaps.iter().chain(&two.gaps) {
        stretches = stretches
            .into_iter()
            .flat_map(|(near, far)| [(near, far.min(*low)), (near.max(*high), far)])
            .filter(|(near, far)| far > near)
            .collect();
    }
    stretches
}

/// A level or upright edge as drawn.
pub(super) struct Edge {
    level: bool,
    at: f64,
    low: f64,
    high: f64,
}

/// The parts of a thin line from `a` to `b` that no edge runs beside too closely.
pub(super) fn clear(edges: &[Edge], a: Point, b: Point) -> Vec<(Point, Point)> {
    let level = (a.y - b.y).abs() < 0.01;
    if !level && (a.x - b.x).abs() >= 0.01 {
        return vec![(a, b)];
    }
    let (at, from, to) = if level { (a.y, a.x, b.x) } else { (a.x, a.y, b.y) };
    let point = |along: f64| if level { Point::new(along, at) } else { Point::new(at, along) };
    let mut parts = vec![(from.min(to), from.max(to))];
    for edge in edges.iter().filter(|edge| edge.level == level) {
        let apart = (edge.at - at).abs();
        let beside = edge.high.min(from.max(to)) - edge.low.max(from.min(to));
        if (SAME..LEAST - 1e-3).contains(&apart) && beside >= ALONG {
            parts = parts
                .into_iter()
                .flat_map(|(low, high)| [(low, high.min(edge.low)), (low.max(edge.high), high)])
                .filter(|(low, high)| high - low > REST)
                .collect();
        }
    }
    parts.into_iter().map(|(low, high)| (point(low), point(high))).collect()
}

/// What each shape leaves out, and all level and upright edges of the drawing.
pub(super) fn gaps(
    shapes: &[Shape],
    place: impl Fn((f64, f64)) -> Point,
) -> (Vec<Gaps>, Vec<Edge>) {
    let mut out: Vec<Gaps> = vec![Gaps::new(); shapes.len()];
    let mut edges = Vec::new();
    // Most drawings have no lines so close that it matters what hides them.
    let areas = std::cell::OnceCell::new();
    let areas = || -> &Vec<Option<Vec<Vec<Point>>>> {
        areas.get_or_init(|| shapes.iter().map(|s| area(s, &place)).collect())
    };
    for (level, mut pieces) in [true, false].into_iter().zip(pieces(shapes, &place)) {
        let edge = |piece: &Piece| Edge { level, at: piece.at, low: piece.low, high: piece.high };
        edges.extend(pieces.iter().map(edge));
        pieces.sort_by(|a, b| a.at.total_cmp(&b.at));
        for one in 0..pieces.len() {
            for two in one + 1..pieces.len() {
                let apart = pieces[two].at - pieces[one].at;
                if apart >= LEAST - 1e-3 {
                    break;
                }
                if apart < SAME {
                    continue;
                }
                let seen = |piece: &Piece, along: f64| {
                    let p = if level {
                        Point::new(along, piece.at)
                    } else {
                        Point::new(piece.at, along)
                    };
                    !areas()[piece.shape + 1..].iter().flatten().any(|rings| holds(rings, p))
                };
                let both = shared(&pieces[one], &pieces[two]);
                let close = both.iter().any(|(near, far)| {
                    far - near >= ALONG
                        && LOOKS.iter().any(|share| {
                            let along = near + (far - near) * share;
                            seen(&pieces[one], along) && seen(&pieces[two], along)
                        })
                });
                if !close {
                    continue;
                }
                let rank = |piece: &Piece| (piece.pen, (piece.long() * 10.0).round() as i64);
                let (a, b) = (&pieces[one], &pieces[two]);
                let first_stays = match rank(a).cmp(&rank(b)) {
                    std::cmp::Ordering::Greater => true,
                    std::cmp::Ordering::Less => false,
                    std::cmp::Ordering::Equal => a.shape <= b.shape,
                };
                let goes = if first_stays { two } else { one };
                for (low, high) in both {
                    let gone = &mut pieces[goes];
                    // A stump is left out too.
                    let low = if low - gone.low < REST { gone.low } else { low };
                    let high = if gone.high - high < REST { gone.high } else { high };
                    gone.gaps.push((low, high));
                }
            }
        }
        for piece in pieces {
            for (low, high) in &piece.gaps {
                let share = |at: f64| ((at - piece.low) / piece.long()).clamp(0.0, 1.0);
                let (mut from, mut to) = (share(*low), share(*high));
                if piece.turned {
                    (from, to) = (1.0 - to, 1.0 - from);
                }
                out[piece.shape].push((piece.ring, piece.index, (from, to)));
            }
        }
    }
    for gaps in &mut out {
        gaps.sort_by(|a, b| (a.0, a.1).cmp(&(b.0, b.1)).then(a.2.0.total_cmp(&b.2.0)));
    }
    (out, edges)
}

/// The segments of a path without its gaps; a ring is begun behind one of them, so that no corner is
/// parted.
pub(super) fn without(segments: &[Segment], gaps: &Gaps) -> Vec<Segment> {
    let mut out = Vec::new();
    let rings = segments.chunk_by(|_, next| !matches!(next, Segment::Move(_)));
    for (number, ring) in rings.enumerate() {
        let own = |index: usize| {
            gaps.iter().filter(move |gap| gap.0 == number && gap.1 == index).map(|gap| gap.2)
        };
        let Some(Segment::Move(first)) = ring.first().copied() else { continue };
        let closed = matches!(ring.last(), Some(Segment::Close));
        // Each piece with its start.
        let mut pieces: Vec<(Point, Segment)> = Vec::new();
        let mut here = first;
        for segment in &ring[1..] {
            let next = match *segment {
                Segment::Line(p) | Segment::Curve(_, _, p) => p,
                Segment::Close => first,
                Segment::Move(_) => continue,
            };
            let drawn = match *segment {
                Segment::Close => Segment::Line(first),
                other => other,
            };
            pieces.push((here, drawn));
            here = next;
        }
        let count = pieces.len();
        let begin = if closed {
            (0..count).find(|index| own(*index).next().is_some()).unwrap_or(0)
        } else {
            0
        };
        let mut open = false;
        for index in (begin..count).chain(0..begin) {
            let (from, segment) = pieces[index];
            let mut done = 0.0;
            let Segment::Line(to) = segment else {
                if !open {
                    out.push(Segment::Move(from));
                }
                out.push(segment);
                open = true;
                continue;
            };
            let at = |share: f64| {
                Point::new(from.x + (to.x - from.x) * share, from.y + (to.y - from.y) * share)
            };
            let mut pass = |open: &mut bool, low: f64, high: f64| {
                if high - low > 1e-6 {
                    if !*open {
                        out.push(Segment::Move(at(low)));
                    }
                    out.push(Segment::Line(at(high)));
                    *open = true;
                }
            };
            for (low, high) in own(index) {
                pass(&mut open, done, low);
                done = high.max(done);
                open = false;
            }
            pass(&mut open, done, 1.0);
        }
    }
    out
}

/// Level pieces of all continuous lines, then upright ones.
fn pieces(shapes: &[Shape], place: &impl Fn((f64, f64)) -> Point) -> [Vec<Piece>; 2] {
    let mut lists = [Vec::new(), Vec::new()];
    for (shape, drawn) in shapes.iter().enumerate() {
        let Shape::Path { rings, closed, line: Some(line), .. } = drawn else { continue };
        if line.kind != LineKind::Continuous {
            continue;
        }
        for (number, ring) in rings.iter().enumerate() {
            for (index, (a, b)) in straights(ring, *closed) {
                let (a, b) = (place(a), place(b));
                for (level, list) in [true, false].into_iter().zip(&mut lists) {
                    let (at, other, from, to) =
                        if level { (a.y, b.y, a.x, b.x) } else { (a.x, b.x, a.y, b.y) };
                    if (at - other).abs() > 0.01 || (from - to).abs() < ALONG {
                        continue;
                    }
                    list.push(Piece {
                        shape,
                        ring: number,
                        index,
                        at,
                        low: from.min(to),
                        high: from.max(to),
                        turned: from > to,
                        pen: line.pen,
                        gaps: Vec::new(),
                    });
                }
            }
        }
    }
    lists
}

/// The straight pieces of a ring by number, with their ends; the closing piece comes last.
fn straights(ring: &[Step], closed: bool) -> impl Iterator<Item = (usize, (At, At))> {
    let end = |step: &Step| match *step {
        Step::To(p) | Step::Curve(_, _, p) => p,
    };
    let along = ring.windows(2).enumerate().filter_map(move |(index, two)| match two[1] {
        Step::To(p) => Some((index, (end(&two[0]), p))),
        Step::Curve(..) => None,
    });
    let last = ring.len().saturating_sub(1);
    let around = ring.first().zip(ring.last()).filter(|_| closed);
    along.chain(around.map(move |(first, own)| (last, (end(own), end(first)))))
}

/// The rings of an area that hides what was drawn before it.
fn area(shape: &Shape, place: &impl Fn((f64, f64)) -> Point) -> Option<Vec<Vec<Point>>> {
    use super::Fill;
    match shape {
        Shape::Path { rings, fill: Some(fill), .. } if !matches!(fill, Fill::Hatch { .. }) => Some(
            rings
                .iter()
                .map(|ring| {
                    ring.iter()
                        .map(|step| match *step {
                            Step::To(p) | Step::Curve(_, _, p) => place(p),
                        })
                        .collect()
                })
                .collect(),
        ),
        _ => None,
    }
}

/// Whether a point lies inside rings, by the even-odd rule.
fn holds(rings: &[Vec<Point>], p: Point) -> bool {
    let mut odd = false;
    for ring in rings {
        for (at, a) in ring.iter().enumerate() {
            let b = &ring[(at + 1) % ring.len()];
            if (a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x {
                odd = !odd;
            }
        }
    }
    odd
}

#[cfg(test)]
mod tests {
    use super::super::{Line, Scene};
    use super::*;

    fn paper(p: (f64, f64)) -> Point {
        Point::new(p.0, p.1)
    }

    /// Page rule 36: a bar with a kerf of 0.2 mm on paper has one line there, and a part's heavy edge
    /// stays where a thin line runs along it.
    #[test]
    fn of_two_close_lines_the_wider_stays() {
        let mut scene = Scene::new("two pieces");
        scene.rectangle((0.0, 0.0), (20.0, 9.0), Line::VISIBLE);
        scene.rectangle((20.2, 0.0), (20.0, 9.0), Line::VISIBLE);
        scene.line(&[(40.6, -3.0), (40.6, 12.0)], Line::THIN);
        let (gaps, _) = gaps(&scene.shapes, paper);
        assert!(gaps[0].is_empty(), "{gaps:?}");
        // The left edge of the second piece is its last.
        assert_eq!(gaps[1], vec![(0, 3, (0.0, 1.0))]);
        assert_eq!(gaps[2], vec![(0, 0, (3.0 / 15.0, 12.0 / 15.0))]);
    }

    #[test]
    fn what_is_hidden_does_not_count() {
        let mut scene = Scene::new("a tube under a panel");
        scene.line(&[(0.0, 1.0), (30.0, 1.0)], Line::VISIBLE);
        scene.filled_rectangle((-1.0, 0.5), (40.0, 10.0), super::super::Fill::White, None);
        scene.line(&[(0.0, 1.3), (30.0, 1.3)], Line::THIN);
        assert!(gaps(&scene.shapes, paper).0.iter().all(Vec::is_empty));
    }
}
