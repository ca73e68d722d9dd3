//! What is taken already: boxes that nothing may overlap, lines that are better not crossed.

use std::collections::HashMap;

use crate::page::model::{Point, Rect};

const CELL: f64 = 8.0;

/// Boxes and lines on the paper, found by place.
#[derive(Debug, Default)]
pub(super) struct Crowd {
    boxes: Vec<Rect>,
    lines: Vec<(Point, Point, f64)>,
    box_cells: HashMap<(i32, i32), Vec<usize>>,
    line_cells: HashMap<(i32, i32), Vec<usize>>,
}

fn cells(area: &Rect) -> impl Iterator<Item = (i32, i32)> {
    let cell = |v: f64| (v / CELL).floor().clamp(-1e6, 1e6) as i32;
    let (x0, x1) = (cell(area.x), cell(area.right()));
    let (y0, y1) = (cell(area.y), cell(area.bottom()));
    // A drawing is a few hundred mm wide; more cells than that come from hostile sizes.
    let (x1, y1) = (x1.min(x0 + 100), y1.min(y0 + 100));
    (x0..=x1).flat_map(move |x| (y0..=y1).map(move |y| (x, y)))
}

fn around(a: Point, b: Point) -> Rect {
    Rect::new(a.x.min(b.x), a.y.min(b.y), (a.x - b.x).abs(), (a.y - b.y).abs())
}

impl Crowd {
    /// Takes a box.
    pub fn take(&mut self, area: Rect) {
        for cell in cells(&area) {
            self.box_cells.entry(cell).or_default().push(self.boxes.len());
        }
        self.boxes.push(area);
    }

    /// Notes a line with its weight (cost of crossing it once).
    pub fn line(&mut self, a: Point, b: Point, weight: f64) {
        // Long slanted lines are noted by their parts, so that they touch few cells.
        let length = (a.x - b.x).hypot(a.y - b.y);
        if !length.is_finite() || length > 10_000.0 {
            // Longer than any paper: such a scale is not used.
            return;
        }
        let parts = ((length / (2.0 * CELL)).ceil() as usize).max(1);
        let index = self.lines.len();
        self.lines.push((a, b, weight));
        for part in 0..parts {
            let at = |t: f64| Point::new(a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t);
            let p = at(part as f64 / parts as f64);
            let q = at((part + 1) as f64 / parts as f64);
            for cell in cells(&around(p, q)) {
                let list = self.line_cells.entry(cell).or_default();
                if list.last() != Some(&index) {
                    list.push(index);
                }
            }
        }
    }

    /// Whether a box would lie over one that is taken.
    pub fn hits(&self, area: &Rect, slack: f64) -> bool {
        cells(area).any(|cell| {
            self.box_cells
                .get(&cell)
                .is_some_and(|list| list.iter().any(|&i| self.boxes[i].overlaps(area, slack)))
        })
    }

    /// Cost of the lines that a box would lie over.
    pub fn crossed(&self, area: &Rect) -> f64 {
        self.over(area).into_iter().map(|i| self.lines[i].2).sum()
    }

    /// Greatest cost among the lines that a box would lie over.
    pub fn heaviest(&self, area: &Rect) -> f64 {
        self.over(area).into_iter().map(|i| self.lines[i].2).fold(0.0, f64::max)
    }

    fn over(&self, area: &Rect) -> Vec<usize> {
        let mut seen = Vec::new();
        for cell in cells(area) {
            for &i in self.line_cells.get(&cell).into_iter().flatten() {
                let (a, b, _) = self.lines[i];
                let beside = a.x.max(b.x) < area.x || a.x.min(b.x) > area.right();
                if !beside && passes(a, b, area) && !seen.contains(&i) {
                    seen.push(i);
                }
            }
        }
        seen
    }

    /// Cost of a line from `a` to `b`: lines crossed, and a great deal for each box passed through.
    pub fn cost_of_line(&self, a: Point, b: Point) -> f64 {
        let area = around(a, b);
        let mut lines = Vec::new();
        let mut boxes = Vec::new();
        for cell in cells(&area) {
            for &i in self.box_cells.get(&cell).into_iter().flatten() {
                if !boxes.contains(&i) && passes(a, b, &self.boxes[i]) {
                    boxes.push(i);
                }
            }
            for &i in self.line_cells.get(&cell).into_iter().flatten() {
                if !lines.contains(&i) && crosses((a, b), (self.lines[i].0, self.lines[i].1)) {
                    lines.push(i);
                }
            }
        }
        boxes.len() as f64 * 40.0 + lines.iter().map(|&i| self.lines[i].2 * 0.5).sum::<f64>()
    }
}

/// Whether a line passes through a box (Liang and Barsky).
pub(super) fn passes(a: Point, b: Point, area: &Rect) -> bool {
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
    let sides = [
        (-dx, a.x - area.x),
        (dx, area.right() - a.x),
        (-dy, a.y - area.y),
        (dy, area.bottom() - a.y),
    ];
    for (p, q) in sides {
        if p.abs() < 1e-12 {
            if q < 0.0 {
                return false;
            }
        } else if p < 0.0 {
            enter = enter.max(q / p);
        } else {
            leave = leave.min(q / p);
        }
    }
    enter < leave
}

fn crosses((a, b): (Point, Point), (c, d): (Point, Point)) -> bool {
    let side = |p: Point, q: Point, r: Point| (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn boxes_and_lines_are_found() {
        let mut crowd = Crowd::default();
        crowd.take(Rect::new(10.0, 10.0, 5.0, 5.0));
        assert!(crowd.hits(&Rect::new(14.0, 14.0, 5.0, 5.0), 0.0));
        assert!(!crowd.hits(&Rect::new(15.5, 10.0, 5.0, 5.0), 0.0));
        crowd.line(Point::new(0.0, 0.0), Point::new(200.0, 100.0), 3.0);
        assert!((crowd.crossed(&Rect::new(99.0, 49.0, 2.0, 2.0)) - 3.0).abs() < 1e-9);
        assert!(crowd.crossed(&Rect::new(99.0, 10.0, 2.0, 2.0)).abs() < 1e-9);
        assert!(crowd.cost_of_line(Point::new(12.0, 0.0), Point::new(12.0, 30.0)) > 40.0);
    }
}
