//! What is taken already: boxes that nothing may overlap, lines that are better not crossed.

use crate::page::model::{Point, Rect};
use std::cell::{Cell, RefCell};

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
    seen_boxes: Seen,
    seen_lines: Seen,
}

/// What was met since the last beginning: a label asks at many places, so nothing is cleared and nothing
/// is allocated for one of them.
#[derive(Debug, Default)]
struct Seen {
    turn: Cell<u32>,
    turns: RefCell<Vec<u32>>,
}

impl Seen {
    /// Nothing of so many was met yet.
    fn begin(&self, count: usize) {
        let mut turns = self.turns.borrow_mut();
        if let Some(next) = self.turn.get().checked_add(1) {
            self.turn.set(next);
        } else {
            turns.clear();
            self.turn.set(1);
        }
        turns.resize(count, 0);
    }

    /// Whether this one is met for the first time.
    fn first(&self, number: usize) -> bool {
        let turn = self.turn.get();
        std::mem::replace(&mut self.turns.borrow_mut()[number], turn) != turn
    }
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
        self.seen_lines.begin(self.lines.len());
        self.near_lines(area).filter(|&i| self.seen_lines.first(i)).map(|i| self.lines[i].2).sum()
    }

    /// Greatest cost among the lines that a box would lie over.
    pub fn heaviest(&self, area: &Rect) -> f64 {
        self.near_lines(area).map(|i| self.lines[i].2).fold(0.0, f64::max)
    }

    /// Lines that a box would lie over, some more than once.
    fn near_lines(&self, area: &Rect) -> impl Iterator<Item = usize> {
        self.line_cells.near(area).filter(move |&i| {
            let (a, b, _) = self.lines[i];
            !apart(a, b, area) && passes(a, b, area)
        })
    }

    /// Cost of a line from `a` to `b`: lines crossed, and a great deal for each box passed through.
    pub fn cost_of_line(&self, a: Point, b: Point) -> f64 {
        let area = around(a, b);
        self.seen_boxes.begin(self.boxes.len());
        let boxes = self.box_cells.near(&area).filter(|&i| {
            let taken = &self.boxes[i];
            !apart(a, b, taken) && passes(a, b, taken) && self.seen_boxes.first(i)
        });
        let boxes = boxes.count() as f64 * 40.0;
        self.seen_lines.begin(self.lines.len());
        let lines = self.line_cells.near(&area).filter(|&i| {
            let (c, d, _) = self.lines[i];
            !apart(c, d, &area) && crosses((a, b), (c, d)) && self.seen_lines.first(i)
        });
        boxes + lines.map(|i| self.lines[i].2 * 0.5).sum::<f64>()
    }
}

/// Whether a line lies wholly to one side of a box: what most of them do.
fn apart(a: Point, b: Point, area: &Rect) -> bool {
    a.x.max(b.x) < area.x
        || a.x.min(b.x) > area.right()
        || a.y.max(b.y) < area.y
        || a.y.min(b.y) > area.bottom()
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
