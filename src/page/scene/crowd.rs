//! What is taken already: boxes that nothing may overlap, lines that are better not crossed.

use crate::page::model::{Point, Rect};

/// Side of a cell, mm.
const CELL: f64 = 8.0;
/// Cells along a side of the grid.
const SIDE: usize = 32;

/// Boxes and lines on the paper, found by place.
#[derive(Debug, Default)]
pub(super) struct Crowd {
    boxes: Vec<Rect>,
    lines: Vec<(Point, Point, f64)>,
    box_cells: Cells,
    line_cells: Cells,
}

/// What touches each cell of a grid that the whole plane is wrapped round. Cells far apart share what
/// they hold, so that what is found has to be looked at for itself; nothing is missed.
#[derive(Debug)]
struct Cells {
    /// For each cell its last entry, counted from 1; 0 where nothing is.
    last: Vec<u32>,
    /// Number of a box or line, and the entry before it in the same cell.
    entries: Vec<(u32, u32)>,
}

impl Default for Cells {
    fn default() -> Self {
        Self { last: vec![0; SIDE * SIDE], entries: Vec::new() }
    }
}

impl Cells {
    /// The cells that an area touches, each once.
    fn touched(area: &Rect) -> impl Iterator<Item = usize> {
        let cell = |v: f64| (v / CELL).floor().clamp(-1e6, 1e6) as i32;
        let whole = i32::try_from(SIDE - 1).unwrap_or(i32::MAX);
        let range = |low: f64, high: f64| (cell(low), cell(high).min(cell(low) + whole));
        let (x0, x1) = range(area.x, area.right());
        let (y0, y1) = range(area.y, area.bottom());
        let wrapped = |v: i32| v as usize % SIDE;
        (y0..=y1).flat_map(move |y| (x0..=x1).map(move |x| wrapped(y) * SIDE + wrapped(x)))
    }

    fn add(&mut self, number: usize, area: &Rect) {
        let number = number as u32;
        for cell in Self::touched(area) {
            let last = self.last[cell];
            if last > 0 && self.entries[last as usize - 1].0 == number {
                continue;
            }
            self.entries.push((number, last));
            self.last[cell] = self.entries.len() as u32;
        }
    }

    /// Numbers of what may touch an area, some more than once.
    fn near(&self, area: &Rect) -> impl Iterator<Item = usize> {
        Self::touched(area).flat_map(move |cell| {
            let mut at = self.last[cell];
            std::iter::from_fn(move || {
                let (number, before) = *self.entries.get((at as usize).checked_sub(1)?)?;
                at = before;
                Some(number as usize)
            })
        })
    }
}

fn around(a: Point, b: Point) -> Rect {
    Rect::new(a.x.min(b.x), a.y.min(b.y), (a.x - b.x).abs(), (a.y - b.y).abs())
}

impl Crowd {
    /// Takes a box.
    pub fn take(&mut self, area: Rect) {
        self.box_cells.add(self.boxes.len(), &area);
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
        let at = |t: f64| Point::new(a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t);
        for part in 0..parts {
            let p = at(part as f64 / parts as f64);
            let q = at((part + 1) as f64 / parts as f64);
            self.line_cells.add(index, &around(p, q));
        }
    }

    /// Whether a box would lie over one that is taken.
    pub fn hits(&self, area: &Rect, slack: f64) -> bool {
        self.box_cells.near(area).any(|i| self.boxes[i].overlaps(area, slack))
    }

    /// Cost of the lines that a box would lie over.
    pub fn crossed(&self, area: &Rect) -> f64 {
        self.over(area).into_iter().map(|i| self.lines[i].2).sum()
    }

    /// Greatest cost among the lines that a box would lie over.
    pub fn heaviest(&self, area: &Rect) -> f64 {
        self.near_lines(area).map(|i| self.lines[i].2).fold(0.0, f64::max)
    }

    fn over(&self, area: &Rect) -> Vec<usize> {
        let mut seen = Vec::new();
        for i in self.near_lines(area) {
            if !seen.contains(&i) {
                seen.push(i);
            }
        }
        seen
    }

    /// Lines that a box would lie over, some more than once.
    fn near_lines(&self, area: &Rect) -> impl Iterator<Item = usize> {
        self.line_cells.near(area).filter(move |&i| {
            let (a, b, _) = self.lines[i];
            let beside = a.x.max(b.x) < area.x || a.x.min(b.x) > area.right();
            !beside && passes(a, b, area)
        })
    }

    /// Cost of a line from `a` to `b`: lines crossed, and a great deal for each box passed through.
    pub fn cost_of_line(&self, a: Point, b: Point) -> f64 {
        let area = around(a, b);
        let mut boxes = Vec::new();
        for i in self.box_cells.near(&area) {
            if !boxes.contains(&i) && passes(a, b, &self.boxes[i]) {
                boxes.push(i);
            }
        }
        let mut lines = Vec::new();
        for i in self.line_cells.near(&area) {
            if !lines.contains(&i) && crosses((a, b), (self.lines[i].0, self.lines[i].1)) {
                lines.push(i);
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
