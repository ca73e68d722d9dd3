//! Hatching: parallel lines inside rings, by the even-odd rule.

use crate::page::model::Point;

/// Line pieces inside the rings (closed, straight-edged), `pitch` mm apart, in a direction of `angle`
/// degrees anticlockwise as seen (with `y` down). The raster is fixed to the paper's origin, so that
/// areas side by side that lean alike line up.
pub(super) fn lines(rings: &[Vec<Point>], pitch: f64, angle: f64) -> Vec<(Point, Point)> {
    let (sin, cos) = angle.to_radians().sin_cos();
    // Along the lines and across them.
    let turn = |p: &Point| (p.x * cos - p.y * sin, p.x * sin + p.y * cos);
    let back = |u: f64, v: f64| Point::new(u * cos + v * sin, -u * sin + v * cos);
    let rings: Vec<Vec<(f64, f64)>> = rings.iter().map(|r| r.iter().map(turn).collect()).collect();
    let all = || rings.iter().flatten().map(|p| p.1);
    let low = all().fold(f64::INFINITY, f64::min);
    let high = all().fold(f64::NEG_INFINITY, f64::max);
    if !(low.is_finite() && high.is_finite() && pitch > 0.0) || (high - low) / pitch > 20_000.0 {
        return Vec::new();
    }
    let mut pieces = Vec::new();
    let mut index = (low / pitch).ceil();
    while index * pitch < high {
        let v = index * pitch;
        let mut crossings: Vec<f64> = Vec::new();
        for ring in &rings {
            for (a, b) in ring.iter().zip(ring.iter().cycle().skip(1)) {
                if (a.1 <= v) != (b.1 <= v) {
                    crossings.push(a.0 + (v - a.1) / (b.1 - a.1) * (b.0 - a.0));
                }
            }
        }
        crossings.sort_by(f64::total_cmp);
        for pair in crossings.chunks_exact(2) {
            if pair[1] - pair[0] > 0.05 {
                pieces.push((back(pair[0], v), back(pair[1], v)));
            }
        }
        index += 1.0;
    }
    pieces
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(x: f64, y: f64, side: f64) -> Vec<Point> {
        [(x, y), (x + side, y), (x + side, y + side), (x, y + side)]
            .map(|(x, y)| Point::new(x, y))
            .to_vec()
    }

    #[test]
    fn hatching_covers_the_area_once() {
        // Length of lines times pitch approaches the area.
        let lines = lines(&[square(0.0, 0.0, 10.0)], 0.1, 45.0);
        let length: f64 = lines.iter().map(|(a, b)| (a.x - b.x).hypot(a.y - b.y)).sum();
        assert!((length * 0.1 - 100.0).abs() < 0.5, "{}", length * 0.1);
    }

    #[test]
    fn holes_stay_free() {
        let rings = [square(0.0, 0.0, 10.0), square(3.0, 3.0, 4.0)];
        let lines = lines(&rings, 0.1, 30.0);
        let length: f64 = lines.iter().map(|(a, b)| (a.x - b.x).hypot(a.y - b.y)).sum();
        assert!((length * 0.1 - 84.0).abs() < 0.5, "{}", length * 0.1);
        let middles = lines.iter().map(|(a, b)| (f64::midpoint(a.x, b.x), f64::midpoint(a.y, b.y)));
        for (x, y) in middles {
            assert!(!(x > 3.001 && x < 6.999 && y > 3.001 && y < 6.999), "{x} {y}");
        }
    }

    #[test]
    fn the_direction_is_anticlockwise_as_seen() {
        let lines = lines(&[square(0.0, 0.0, 10.0)], 1.0, 45.0);
        let (a, b) = lines[lines.len() / 2];
        // Up the page while going right: y falls as x grows.
        assert!((b.x - a.x) * (b.y - a.y) < 0.0);
    }
}
