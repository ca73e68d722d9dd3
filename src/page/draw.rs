//! Short ways to the paths that blocks draw.

use super::model::{Cap, Ink, Join, Path, Pen, Point, Rect, Segment, Stroke};

/// Control distance of a quarter circle by a cubic curve: 4/3 · (√2 − 1).
pub(crate) const QUARTER: f64 = 0.552_284_749_830_793_4;

pub(crate) fn stroke(pen: Pen) -> Stroke {
    Stroke { pen, ink: Ink::Black, dash: Vec::new(), cap: Cap::Butt, join: Join::Miter }
}

pub(crate) fn line(from: Point, to: Point, pen: Pen) -> Path {
    open(&[from, to], pen)
}

/// A level rule.
pub(crate) fn rule(x: f64, y: f64, width: f64, pen: Pen) -> Path {
    line(Point::new(x, y), Point::new(x + width, y), pen)
}

pub(crate) fn open(points: &[Point], pen: Pen) -> Path {
    Path { segments: chain(points, false), stroke: Some(stroke(pen)), fill: None, even_odd: false }
}

pub(crate) fn polygon(points: &[Point], pen: Option<Pen>, fill: Option<Ink>) -> Path {
    Path { segments: chain(points, true), stroke: pen.map(stroke), fill, even_odd: false }
}

pub(crate) fn chain(points: &[Point], close: bool) -> Vec<Segment> {
    let mut segments: Vec<Segment> = points
        .iter()
        .enumerate()
        .map(|(i, &p)| if i == 0 { Segment::Move(p) } else { Segment::Line(p) })
        .collect();
    if close && !segments.is_empty() {
        segments.push(Segment::Close);
    }
    segments
}

/// A frame whose line lies inside the box.
pub(crate) fn frame(area: Rect, pen: Pen) -> Path {
    let w = pen.width() / 2.0;
    rectangle(
        Rect::new(area.x + w, area.y + w, area.width - 2.0 * w, area.height - 2.0 * w),
        Some(pen),
        None,
    )
}

pub(crate) fn rectangle(area: Rect, pen: Option<Pen>, fill: Option<Ink>) -> Path {
    let points = [
        Point::new(area.x, area.y),
        Point::new(area.right(), area.y),
        Point::new(area.right(), area.bottom()),
        Point::new(area.x, area.bottom()),
    ];
    polygon(&points, pen, fill)
}

pub(crate) fn circle(centre: Point, radius: f64, pen: Option<Pen>, fill: Option<Ink>) -> Path {
    Path {
        segments: circle_segments(centre, radius),
        stroke: pen.map(stroke),
        fill,
        even_odd: false,
    }
}

pub(crate) fn circle_segments(c: Point, r: f64) -> Vec<Segment> {
    let k = r * QUARTER;
    let p = |x: f64, y: f64| Point::new(c.x + x, c.y + y);
    vec![
        Segment::Move(p(r, 0.0)),
        Segment::Curve(p(r, k), p(k, r), p(0.0, r)),
        Segment::Curve(p(-k, r), p(-r, k), p(-r, 0.0)),
        Segment::Curve(p(-r, -k), p(-k, -r), p(0.0, -r)),
        Segment::Curve(p(k, -r), p(r, -k), p(r, 0.0)),
        Segment::Close,
    ]
}
