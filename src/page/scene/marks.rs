//! Marks of a size on paper, words at fixed places, and labels that look for a place.

use super::dimension::HEAD;
use super::plate::{GAP, Plate};
use super::{At, Clear, Line, Note, Place, Scene, Side, Style};
use crate::page::draw::{QUARTER, rectangle};
use crate::page::model::{Ink, Item, Pen, Point, Rect, Segment};

/// Radius of the datum's disc, mm.
const DATUM: f64 = 2.2;
/// Arms of a hole's cross beyond its circle, mm.
const ARM: f64 = 1.6;
/// Length of the arrow to the front, mm.
const FRONT: f64 = 14.0;
/// Least radius of a circle about a number, mm.
const RING: f64 = 3.6;
/// Room beside and over words in a box, mm.
const ASIDE: f64 = 3.0;
const OVER: f64 = 3.0;
/// Half the open middle of a hole's cross, mm: room for a punch mark.
const OPEN: f64 = 0.5;

impl Plate<'_> {
    /// Draws the marks among the notes.
    pub(super) fn marks(&mut self, notes: &[Note]) {
        for note in notes {
            self.mark(note);
        }
    }

    /// Sets the words that have a place of their own.
    pub(super) fn fixed_words(&mut self, notes: &[Note]) {
        for note in notes {
            if let Note::Words { at, text, place, style } = note
                && self.shows(*at)
            {
                self.words(*at, text, *place, *style);
            }
        }
    }

    /// Sets the labels, which look for their places.
    pub(super) fn labels(&mut self, notes: &[Note]) {
        for note in notes {
            match note {
                Note::Datum { at, words } if self.shows(*at) => {
                    let order = [4, 5, 3, 6, 2, 0, 1, 7];
                    self.label((*at, DATUM + 0.4), words, Style::PLAIN, (false, order));
                }
                Note::Front { at, angle } if self.shows(*at) => self.front(*at, *angle),
                Note::Label { at, text, bold, clear, leader } if self.shows(*at) => {
                    // The arms of a hole's cross reach out further than its circle.
                    let around = match clear {
                        Clear::Model(radius) => self.long(*radius).max(0.3) + ARM + 0.6,
                        Clear::Point | Clear::Side(_) => 1.0,
                    };
                    let style = if *bold { Style::BOLD } else { Style::PLAIN };
                    let order = match clear {
                        Clear::Side(Side::Above) => [2, 1, 3, 0, 4, 6, 7, 5],
                        Clear::Side(Side::Below) => [6, 7, 5, 0, 4, 2, 1, 3],
                        Clear::Side(Side::Left) => [4, 3, 5, 2, 6, 0, 1, 7],
                        _ => [0, 2, 6, 4, 1, 7, 3, 5],
                    };
                    self.label((*at, around), text, style, (*leader, order));
                }
                _ => {}
            }
        }
    }

    fn mark(&mut self, note: &Note) {
        match note {
            Note::Hole { at, diameter, sink } if self.shows(*at) => {
                let c = self.at(*at);
                let r = self.long(diameter / 2.0).abs().max(0.3);
                self.ring(c, r, Some(Line::VISIBLE), None);
                let reach = sink.map_or(r, |s| self.long(s / 2.0).abs().max(r)) + ARM;
                let open = OPEN.min(r * 0.6);
                for (ux, uy) in [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)] {
                    let from = Point::new(c.x + ux * open, c.y + uy * open);
                    let to = Point::new(c.x + ux * reach, c.y + uy * reach);
                    self.straight(from, to, Line::THIN);
                }
                self.crowd.take(Rect::new(c.x - r, c.y - r, 2.0 * r, 2.0 * r));
            }
            Note::Datum { at, .. } if self.shows(*at) => self.datum_disc(*at),
            Note::Arrow { from, to, open } if self.shows(*from) => {
                let (a, b) = (self.at(*from), self.at(*to));
                self.arrow(a, b, *open);
            }
            Note::Dot { at } if self.shows(*at) => {
                let c = self.at(*at);
                self.ring(c, 0.6, None, Some(Ink::Black));
            }
            Note::Stamp { at, scene } if self.shows(*at) => self.stamp(*at, scene),
            Note::Framed { at, text, round } if self.shows(*at) => self.framed(*at, text, *round),
            Note::Keep { corner, size } => {
                let (a, b) = (self.at(*corner), self.at((corner.0 + size.0, corner.1 + size.1)));
                let area =
                    Rect::new(a.x.min(b.x), a.y.min(b.y), (a.x - b.x).abs(), (a.y - b.y).abs());
                self.crowd.take(area);
            }
            _ => {}
        }
    }

    /// Words in a box or a circle that holds them.
    fn framed(&mut self, at: At, text: &str, round: bool) {
        let c = self.at(at);
        let style = if round { Style::BOLD } else { Style::PLAIN };
        let (wide, high) = self.measure(text, style);
        if round {
            let radius = (wide.hypot(high) / 2.0 + 1.0).max(RING);
            self.ring(c, radius, Some(Line::VISIBLE), Some(Ink::White));
        } else {
            let (w, h) = (wide + 2.0 * ASIDE, high + 2.0 * OVER);
            let area = Rect::new(c.x - w / 2.0, c.y - h / 2.0, w, h);
            self.items.push(Item::Path(rectangle(area, Some(Line::HEAVY.pen), Some(Ink::White))));
            self.cover(grown(&area, Line::HEAVY.pen.width() / 2.0));
            self.crowd.take(area);
        }
        if self.free_of_words(&self.box_of((wide, high), style, c, 0.0)) {
            self.set(text, style, c, 0.0);
        } else {
            self.unplaced.push(text.to_owned());
        }
    }

    fn datum_disc(&mut self, at: At) {
        let c = self.at(at);
        self.ring(c, DATUM, Some(Line::VISIBLE), Some(Ink::White));
        let k = DATUM * QUARTER;
        let p = |x: f64, y: f64| Point::new(c.x + x, c.y + y);
        self.solid(
            vec![
                Segment::Move(c),
                Segment::Line(p(0.0, -DATUM)),
                Segment::Curve(p(k, -DATUM), p(DATUM, -k), p(DATUM, 0.0)),
                Segment::Close,
                Segment::Move(c),
                Segment::Line(p(0.0, DATUM)),
                Segment::Curve(p(-k, DATUM), p(-DATUM, k), p(-DATUM, 0.0)),
                Segment::Close,
            ],
            Ink::Black,
        );
        self.crowd.take(Rect::new(c.x - DATUM, c.y - DATUM, 2.0 * DATUM, 2.0 * DATUM));
    }

    fn arrow(&mut self, a: Point, b: Point, open: bool) {
        let (dx, dy) = (b.x - a.x, b.y - a.y);
        let long = dx.hypot(dy);
        if long < 0.5 {
            return;
        }
        let (ux, uy) = (dx / long, dy / long);
        if !open {
            self.straight(a, b, Line::THIN);
            self.arrowhead(b, ux, uy, HEAD.min(long));
            return;
        }
        // Outline of a broad arrow: shaft 2.4 mm, head 5.4 mm wide and 4 mm long.
        let head = 4.0_f64.min(long * 0.6);
        let at = |along: f64, across: f64| {
            Point::new(a.x + ux * along - uy * across, a.y + uy * along + ux * across)
        };
        let shape = [
            at(0.0, 1.2),
            at(long - head, 1.2),
            at(long - head, 2.7),
            at(long, 0.0),
            at(long - head, -2.7),
            at(long - head, -1.2),
            at(0.0, -1.2),
        ];
        for i in 0..shape.len() {
            self.straight(
                shape[i],
                shape[(i + 1) % shape.len()],
                Line::new(Pen::W035, super::LineKind::Continuous),
            );
        }
    }

    /// The arrow and its word together at the place asked for, or near it where they cross less.
    fn front(&mut self, at: At, angle: f64) {
        let wanted = self.at(at);
        let (sin, cos) = Self::turn(angle).to_radians().sin_cos();
        let home = self.bounds;
        let front = self.context.say("front");
        let size = self.measure(&front, Style::PLAIN);
        let mut best: Option<(f64, Point, Point)> = None;
        for ring in 0..8_i32 {
            if best.is_some_and(|b| b.0 < f64::from(ring) * 0.5) {
                break;
            }
            for (i, j) in (-ring..=ring).flat_map(|i| (-ring..=ring).map(move |j| (i, j))) {
                if i.abs().max(j.abs()) != ring {
                    continue;
                }
                let a = Point::new(wanted.x + f64::from(i) * 6.0, wanted.y + f64::from(j) * 5.0);
                for (word, cost) in self.front_words(a, (sin, cos), size) {
                    let area = self.box_of(size, Style::PLAIN, word, 0.0);
                    // Growing the drawing may cost its scale.
                    let all = home.map_or(area, |home| home.union(&area));
                    let more = home.map_or(0.0, |h| all.width - h.width + all.height - h.height);
                    let cost = cost + f64::from(ring) * 0.5 + more * 0.06;
                    if (ring == 0 || more < 1e-9 || self.has_room(&all))
                        && best.is_none_or(|b| cost < b.0 - 1e-9)
                    {
                        best = Some((cost, a, word));
                    }
                }
            }
        }
        let Some((_, a, word)) = best else {
            self.unplaced.push(front);
            return;
        };
        let b = Point::new(a.x + FRONT * cos, a.y - FRONT * sin);
        self.straight(a, b, Line::VISIBLE);
        self.arrowhead(b, cos, -sin, 4.0);
        let reach = Rect::new(a.x.min(b.x), a.y.min(b.y), (a.x - b.x).abs(), (a.y - b.y).abs());
        self.crowd.take(grown(&reach, 1.2));
        self.set(&front, Style::PLAIN, word, 0.0);
    }

    /// Places of the word, `w` by `h`, beside an arrow that starts here, each with what it and the arrow cross;
    /// none where something is taken already.
    fn front_words(
        &self,
        a: Point,
        (sin, cos): (f64, f64),
        (w, h): (f64, f64),
    ) -> Vec<(Point, f64)> {
        let b = Point::new(a.x + FRONT * cos, a.y - FRONT * sin);
        let reach = Rect::new(a.x.min(b.x), a.y.min(b.y), (a.x - b.x).abs(), (a.y - b.y).abs());
        let arrow = grown(&reach, 1.2);
        if self.crowd.hits(&arrow, 0.0) {
            return Vec::new();
        }
        let crossed = self.crowd.crossed(&arrow);
        let middle = Point::new(f64::midpoint(a.x, b.x), f64::midpoint(a.y, b.y));
        // Beside the arrow's shaft, or before and behind its ends.
        let level = cos.abs() > 0.7;
        let up = h / 2.0 + 1.6 + if level { 0.0 } else { FRONT / 2.0 };
        let side = w / 2.0 + 1.6 + if level { FRONT / 2.0 } else { 0.0 };
        let (over, under) = ((0.0, -up), (0.0, up));
        let (right, left) = ((side, 0.0), (-side, 0.0));
        let order = if level { [over, under, right, left] } else { [right, left, over, under] };
        order
            .into_iter()
            .enumerate()
            .filter_map(|(rank, (x, y))| {
                let centre = Point::new(middle.x + x, middle.y + y);
                let area = self.box_of((w, h), Style::PLAIN, centre, 0.0);
                if self.crowd.hits(&area, 0.0) || (self.strict && !self.has_room(&area)) {
                    return None;
                }
                let cost = crossed + self.crowd.crossed(&grown(&area, 0.4)) + rank as f64 * 0.1;
                Some((centre, cost))
            })
            .collect()
    }

    fn stamp(&mut self, at: At, scene: &Scene) {
        let c = self.at(at);
        let mut plate = Plate::new(self.context, 1.0, self.size);
        plate.geometry(&scene.shapes);
        let Some(own) = plate.bounds else { return };
        let (dx, dy) = (c.x - own.x - own.width / 2.0, c.y - own.y - own.height / 2.0);
        let items = std::mem::take(&mut plate.items);
        self.items.extend(items.into_iter().map(|i| crate::page::strip::moved(i, dx, dy)));
        let area = Rect::new(own.x + dx, own.y + dy, own.width, own.height);
        self.crowd.take(area);
        self.cover(area);
    }

    /// Words where they were asked for; beside their point if other words are there already.
    fn words(&mut self, at: At, text: &str, place: Place, style: Style) {
        if text.trim().is_empty() {
            return;
        }
        let p = self.at(at);
        let angle = if style.upwards { 90.0 } else { 0.0 };
        let (long, cap) = self.measure(text, style);
        let (w, h) = if style.upwards { (cap, long) } else { (long, cap) };
        let centre = match place {
            Place::Centre => p,
            Place::Beside(Side::Above) => Point::new(p.x, p.y - h / 2.0 - GAP),
            Place::Beside(Side::Below) => Point::new(p.x, p.y + h / 2.0 + GAP),
            Place::Beside(Side::Left) => Point::new(p.x - w / 2.0 - GAP, p.y),
            Place::Beside(Side::Right) => Point::new(p.x + w / 2.0 + GAP, p.y),
        };
        let centre = if place == Place::Centre && !style.upwards {
            self.off_lines(text, style, centre)
        } else {
            centre
        };
        let area = self.box_of((long, cap), style, centre, angle);
        if self.free_of_words(&area) && (!self.strict || self.has_room(&area)) {
            self.set(text, style, centre, angle);
        } else {
            self.label((at, 0.8), text, style, (false, [2, 6, 0, 4, 1, 7, 3, 5]));
        }
    }

    /// A place close to this one at which words cross fewer lines.
    fn off_lines(&self, text: &str, style: Style, centre: Point) -> Point {
        let (w, h) = self.measure(text, style);
        let cost = |at: Point| {
            let area = self.box_of((w, h), style, at, 0.0);
            let far = (at.x - centre.x).hypot(at.y - centre.y);
            let taken = if self.free_of_words(&area) { 0.0 } else { 100.0 };
            taken + self.crowd.crossed(&area) + far * 0.1
        };
        let mut best = (cost(centre), centre);
        for (x, y) in [(0.0, 1.0), (0.0, -1.0), (1.0, 0.0), (-1.0, 0.0), (1.0, 1.0), (-1.0, 1.0)] {
            let at = Point::new(centre.x + x * (w / 2.0 + 1.4), centre.y - y * (h / 2.0 + 1.6));
            let own = cost(at);
            if own < best.0 - 1.0 {
                best = (own, at);
            }
        }
        best.1
    }

    /// A label near a point: the cheapest of the places around it, cost being what it would lie over
    /// or cross, how far off it is, and how late its direction comes in `order` (eighths of a turn
    /// anticlockwise from the right).
    fn label(
        &mut self,
        (at, around): (At, f64),
        text: &str,
        style: Style,
        (leader, order): (bool, [usize; 8]),
    ) {
        if text.trim().is_empty() {
            return;
        }
        let p = self.at(at);
        let style = Style { upwards: false, ..style };
        let (w, h) = self.measure(text, style);
        let home = self.bounds.unwrap_or(Rect::new(p.x, p.y, 0.0, 0.0));
        let mut best: Option<(f64, Point, bool)> = None;
        let rings: &[f64] = if leader {
            &[6.0, 9.0, 13.0, 18.0, 25.0]
        } else {
            &[0.0, 1.2, 2.4, 5.0, 8.0, 12.0, 17.0]
        };
        for &far in rings {
            if best.is_some_and(|b| b.0 < far * 0.25) {
                break;
            }
            for (rank, &eighth) in order.iter().enumerate() {
                let a = eighth as f64 * std::f64::consts::FRAC_PI_4;
                let (ux, uy) = (a.cos(), -a.sin());
                let reach = around + far;
                // The near edge of the words is `reach` away from the point.
                let centre = Point::new(
                    p.x + ux * reach + ux.signum() * if ux.abs() < 0.1 { 0.0 } else { w / 2.0 },
                    p.y + uy * reach + uy.signum() * if uy.abs() < 0.1 { 0.0 } else { h / 2.0 },
                );
                let joined = leader || far > 3.0;
                let area = self.box_of((w, h), style, centre, 0.0);
                let room = self.has_room(&area);
                let outside = self.window.is_some_and(|win| !win.holds(&area, 0.0));
                // Growing the drawing costs its scale.
                let grown = home.union(&area);
                let growth = (grown.width - home.width + grown.height - home.height) * 0.06;
                let own = rank as f64 * 0.12
                    + far * 0.25
                    + growth
                    + if joined { 0.5 } else { 0.0 }
                    + if outside { 30.0 } else { 0.0 }
                    + if room { 0.0 } else { 60.0 };
                let hopeless = |crossed: f64| best.is_some_and(|b| own + crossed >= b.0);
                if hopeless(0.0) || self.crowd.hits(&area, 0.0) || self.strict && !room {
                    continue;
                }
                // Lines have a width, and words like a little air.
                let airy =
                    Rect::new(area.x - 0.5, area.y - 0.3, area.width + 1.0, area.height + 0.6);
                let crossed = self.crowd.crossed(&airy);
                if hopeless(crossed) {
                    continue;
                }
                let mut cost = own + crossed;
                if joined {
                    let (from, to) = (edge_of(p, around * 0.6, &area), near(&area, p));
                    cost += self.crowd.cost_of_line(from, to);
                }
                if best.is_none_or(|b| cost < b.0) {
                    best = Some((cost, centre, joined));
                }
            }
        }
        let Some((_, centre, joined)) = best else {
            self.unplaced.push(text.to_owned());
            return;
        };
        if joined {
            let area = self.box_of((w, h), style, centre, 0.0);
            let to = near(&area, p);
            let from = if leader { p } else { edge_of(p, around, &area) };
            self.straight(from, to, Line::THIN);
            if leader {
                self.ring(p, 0.6, None, Some(Ink::Black));
            }
        }
        self.set(text, style, centre, 0.0);
    }
}

/// A box with so much more on all sides, mm.
fn grown(area: &Rect, by: f64) -> Rect {
    Rect::new(area.x - by, area.y - by, area.width + 2.0 * by, area.height + 2.0 * by)
}

/// The point of a box's left or right edge, at mid height, that is nearer; the middle of the top or
/// bottom edge for what is right above or below.
fn near(area: &Rect, p: Point) -> Point {
    let middle = area.y + area.height / 2.0;
    if p.x < area.x {
        Point::new(area.x - 0.6, middle)
    } else if p.x > area.right() {
        Point::new(area.right() + 0.6, middle)
    } else if p.y < area.y {
        Point::new(area.x + area.width / 2.0, area.y - 0.2)
    } else {
        Point::new(area.x + area.width / 2.0, area.bottom() + 0.2)
    }
}

/// The point on a circle about `p` towards a box.
fn edge_of(p: Point, radius: f64, area: &Rect) -> Point {
    let to = near(area, p);
    let (dx, dy) = (to.x - p.x, to.y - p.y);
    let long = dx.hypot(dy).max(1e-9);
    Point::new(p.x + dx / long * radius, p.y + dy / long * radius)
}
