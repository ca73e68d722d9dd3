//! The drawing board: a scene at one scale, in mm on paper from an origin of its own, `y` down.

use super::close::{self, Edge, Gaps};
use super::crowd::Crowd;
use super::{At, Fill, Line, LineKind, Shape, Size, Step, Style, hatch};
use crate::page::context::Context;
use crate::page::draw::{circle_segments, stroke};
use crate::page::fonts::FaceId;
use crate::page::model::{Cap, Image, Ink, Item, Join, Path, Pen, Point, Rect, Segment, Stroke};
use crate::page::text::{MM, length, single};
use std::borrow::Cow;

/// Gap between words and what they belong to, mm.
pub(super) const GAP: f64 = 1.2;

pub(super) struct Plate<'a> {
    pub context: &'a Context,
    /// Paper mm to a model mm.
    pub factor: f64,
    /// Type size of the drawing, points.
    pub size: f64,
    pub items: Vec<Item>,
    pub crowd: Crowd,
    /// Around everything drawn so far.
    pub bounds: Option<Rect>,
    /// Boxes of all words, which must not overlap.
    texts: Crowd,
    /// Words that found no place.
    pub unplaced: Vec<String>,
    /// What is shown of the geometry, if not all.
    pub window: Option<Rect>,
    /// Width and height that the drawing has at most; labels that would outgrow it come last.
    pub room: Option<(f64, f64)>,
    /// Whether words that would outgrow the room are left out.
    pub strict: bool,
    /// Words that a heavy line runs through, as they found no better place.
    pub struck: usize,
    /// Whether lines too close to be told apart are drawn as one.
    pub close_as_one: bool,
    /// Edges that extension lines keep off.
    pub edges: Vec<Edge>,
}

/// Cost of crossing a line that is drawn to be seen first.
const HEAVY: f64 = 6.0;

impl<'a> Plate<'a> {
    pub fn new(context: &'a Context, factor: f64, size: f64) -> Self {
        Self {
            context,
            factor,
            size,
            items: Vec::new(),
            crowd: Crowd::default(),
            bounds: None,
            texts: Crowd::default(),
            unplaced: Vec::new(),
            window: None,
            room: None,
            strict: false,
            struck: 0,
            close_as_one: false,
            edges: Vec::new(),
        }
    }

    /// Model to paper.
    pub fn at(&self, (x, y): At) -> Point {
        let sound = |v: f64| if v.is_finite() { (v * self.factor).clamp(-1e5, 1e5) } else { 0.0 };
        Point::new(sound(x), -sound(y))
    }

    /// A direction in degrees, whatever was given.
    pub fn turn(angle: f64) -> f64 {
        if angle.is_finite() { angle % 360.0 } else { 0.0 }
    }

    /// A length of the model on paper.
    pub fn long(&self, length: f64) -> f64 {
        if length.is_finite() { (length * self.factor).clamp(-1e5, 1e5) } else { 0.0 }
    }

    /// Whether a point of the model is shown.
    pub fn shows(&self, at: At) -> bool {
        let p = self.at(at);
        self.window.is_none_or(|w| w.holds(&Rect::new(p.x, p.y, 0.0, 0.0), 1e-6))
    }

    /// Whether all that is drawn so far fits a room.
    pub fn fits(&self, (width, height): (f64, f64)) -> bool {
        self.bounds.is_none_or(|b| b.width <= width + 1e-6 && b.height <= height + 1e-6)
    }

    /// Whether the drawing still fits its room with this box added.
    pub fn has_room(&self, area: &Rect) -> bool {
        let grown = self.bounds.map_or(*area, |b| b.union(area));
        self.room.is_none_or(|r| grown.width <= r.0 && grown.height <= r.1)
    }

    /// Lets the bounds hold a box.
    pub fn cover(&mut self, area: Rect) {
        self.bounds = Some(self.bounds.map_or(area, |b| b.union(&area)));
    }

    fn cover_point(&mut self, p: Point, by: f64) {
        self.cover(Rect::new(p.x - by, p.y - by, 2.0 * by, 2.0 * by));
    }

    /// A line of one of the types, its pen and its dashes by ISO 128-2.
    pub fn stroke_of(line: Line) -> Stroke {
        let d = line.pen.width();
        // Gap 3d, dash 12d, long dash 24d, dot 0.5d.
        let (dash, cap) = match line.kind {
            LineKind::Continuous => (Vec::new(), Cap::Butt),
            LineKind::Dashed => (vec![12.0 * d, 3.0 * d], Cap::Butt),
            LineKind::DashDot => (vec![24.0 * d, 3.0 * d, 0.5 * d, 3.0 * d], Cap::Butt),
            LineKind::DashDoubleDot => {
                (vec![24.0 * d, 3.0 * d, 0.5 * d, 3.0 * d, 0.5 * d, 3.0 * d], Cap::Butt)
            }
            LineKind::Dotted => (vec![0.01, 6.0 * d], Cap::Round),
        };
        Stroke { dash, cap, join: Join::Miter, ..stroke(line.pen) }
    }

    /// Draws a straight line and notes it as one that words rather not cross.
    pub fn straight(&mut self, a: Point, b: Point, line: Line) {
        self.items.push(Item::Path(Path {
            segments: vec![Segment::Move(a), Segment::Line(b)],
            stroke: Some(Self::stroke_of(line)),
            fill: None,
            even_odd: false,
        }));
        self.note_line(a, b, line.pen);
        self.cover_point(a, line.pen.width() / 2.0);
        self.cover_point(b, line.pen.width() / 2.0);
    }

    fn note_line(&mut self, a: Point, b: Point, pen: Pen) {
        let weight = if pen >= Pen::W050 { HEAVY } else { 3.0 };
        self.crowd.line(a, b, weight);
    }

    /// A filled polygon: an arrowhead, a quarter of the datum.
    pub fn solid(&mut self, segments: Vec<Segment>, ink: Ink) {
        for segment in &segments {
            if let Segment::Move(p) | Segment::Line(p) | Segment::Curve(_, _, p) = segment {
                self.cover_point(*p, 0.0);
            }
        }
        self.items.push(Item::Path(Path {
            segments,
            stroke: None,
            fill: Some(ink),
            even_odd: false,
        }));
    }

    /// A circle of a radius on paper.
    pub fn ring(&mut self, centre: Point, radius: f64, line: Option<Line>, fill: Option<Ink>) {
        self.items.push(Item::Path(Path {
            segments: circle_segments(centre, radius),
            stroke: line.map(Self::stroke_of),
            fill,
            even_odd: false,
        }));
        let pen = line.map_or(0.0, |l| l.pen.width());
        self.cover_point(centre, radius + pen / 2.0);
        if let Some(line) = line {
            let corner = |i: usize| {
                let a = i as f64 * std::f64::consts::FRAC_PI_4;
                Point::new(centre.x + radius * a.cos(), centre.y + radius * a.sin())
            };
            for i in 0..8 {
                self.note_line(corner(i), corner(i + 1), line.pen);
            }
        }
    }

    /// Draws the geometry. Returns the box around it, without line widths.
    pub fn geometry(&mut self, shapes: &[Shape]) -> Option<Rect> {
        let outer = std::mem::take(&mut self.items);
        let before = self.bounds.take();
        let mut gaps = Vec::new();
        if self.close_as_one {
            (gaps, self.edges) = close::gaps(shapes, |p| self.at(p));
        }
        for (index, shape) in shapes.iter().enumerate() {
            match shape {
                Shape::Path { rings, closed, line, fill } => {
                    let gaps = gaps.get_mut(index).map(std::mem::take).unwrap_or_default();
                    self.path((rings, *closed), *line, *fill, &gaps);
                }
                Shape::Circle { centre, radius, line, fill } => {
                    let (c, r) = (self.at(*centre), self.long(*radius).abs());
                    match fill {
                        Some(Fill::Hatch { pen, pitch, angle }) => {
                            let round: Vec<Point> = (0..48)
                                .map(|i| {
                                    let a = f64::from(i) / 48.0 * std::f64::consts::TAU;
                                    Point::new(c.x + r * a.cos(), c.y + r * a.sin())
                                })
                                .collect();
                            self.hatch(&[round], (*pen, *pitch, *angle));
                            if line.is_some() {
                                self.ring(c, r, *line, None);
                            }
                        }
                        Some(fill) => {
                            self.ring(c, r, *line, Some(ink(*fill)));
                            self.occupy(Rect::new(c.x - r, c.y - r, 2.0 * r, 2.0 * r), *fill);
                        }
                        None => self.ring(c, r, *line, None),
                    }
                }
                Shape::Image { corner, size, image } => {
                    let (a, b) =
                        (self.at(*corner), self.at((corner.0 + size.0, corner.1 + size.1)));
                    let place =
                        Rect::new(a.x.min(b.x), a.y.min(b.y), (a.x - b.x).abs(), (a.y - b.y).abs());
                    self.items.push(Item::Image(Image { place, ..image.clone() }));
                    self.cover(place);
                    self.crowd.take(place);
                }
            }
        }
        let drawn = std::mem::replace(&mut self.items, outer);
        let mut around = self.bounds.take();
        match self.window {
            Some(window) => {
                if !drawn.is_empty() {
                    self.items.push(Item::Clipped { window, items: drawn });
                }
                around = Some(window);
            }
            None => self.items.extend(drawn),
        }
        self.bounds = before;
        if let Some(area) = around {
            self.cover(area);
        }
        around
    }

    fn path(
        &mut self,
        (rings, closed): (&[Vec<Step>], bool),
        line: Option<Line>,
        fill: Option<Fill>,
        gaps: &Gaps,
    ) {
        let steps: usize = rings.iter().map(|ring| ring.len() + 1).sum();
        let mut segments = Vec::with_capacity(steps);
        let mut flat: Vec<Vec<Point>> = Vec::with_capacity(rings.len());
        for ring in rings {
            let mut points: Vec<Point> = Vec::with_capacity(ring.len());
            for step in ring {
                match *step {
                    Step::To(p) => {
                        let p = self.at(p);
                        segments.push(if points.is_empty() {
                            Segment::Move(p)
                        } else {
                            Segment::Line(p)
                        });
                        points.push(p);
                    }
                    Step::Curve(a, b, c) => {
                        let (a, b, c) = (self.at(a), self.at(b), self.at(c));
                        let from = *points.last().unwrap_or(&a);
                        if points.is_empty() {
                            segments.push(Segment::Move(from));
                        }
                        segments.push(Segment::Curve(a, b, c));
                        points.extend((1..=8).map(|i| bezier(from, a, b, c, f64::from(i) / 8.0)));
                    }
                }
            }
            if points.len() < 2 {
                continue;
            }
            if closed {
                segments.push(Segment::Close);
            }
            for p in &points {
                self.cover_point(*p, line.map_or(0.0, |l| l.pen.width() / 2.0));
            }
            if let Some(line) = line {
                for pair in points.windows(2) {
                    self.note_line(pair[0], pair[1], line.pen);
                }
                if let (true, Some(a), Some(b)) = (closed, points.last(), points.first()) {
                    self.note_line(*a, *b, line.pen);
                }
            }
            flat.push(points);
        }
        if flat.is_empty() {
            return;
        }
        let mut solid = None;
        match fill {
            Some(Fill::Hatch { pen, pitch, angle }) => self.hatch(&flat, (pen, pitch, angle)),
            Some(fill) => {
                solid = Some(ink(fill));
                for ring in &flat {
                    let area = ring
                        .iter()
                        .map(|p| Rect::new(p.x, p.y, 0.0, 0.0))
                        .reduce(|a, b| a.union(&b));
                    if let Some(area) = area {
                        self.occupy(area, fill);
                    }
                }
            }
            None => {}
        }
        let mut draw = |segments: Vec<Segment>, line: Option<Line>, fill: Option<Ink>| {
            if !segments.is_empty() && (fill.is_some() || line.is_some()) {
                let stroke = line.map(Self::stroke_of);
                self.items.push(Item::Path(Path { segments, stroke, fill, even_odd: true }));
            }
        };
        if gaps.is_empty() {
            draw(segments, line, solid);
        } else {
            draw(segments.clone(), None, solid);
            draw(close::without(&segments, gaps), line, None);
        }
    }

    /// Black areas take no words.
    fn occupy(&mut self, area: Rect, fill: Fill) {
        if fill == Fill::Black {
            self.crowd.take(area);
        }
    }

    fn hatch(&mut self, rings: &[Vec<Point>], (pen, pitch, angle): (Pen, f64, f64)) {
        // Parallel lines are 0.7 mm apart or more (page rule 36).
        let pitch = if pitch.is_finite() { pitch.max(0.7) } else { 1.8 };
        let lines = hatch::lines(rings, pitch, angle);
        let around = rings.iter().flatten().map(|p| Rect::new(p.x, p.y, 0.0, 0.0));
        let around = around.reduce(|a, b| a.union(&b)).unwrap_or_default();
        // Between edges that are drawn as one there is nothing to hatch.
        if lines.is_empty() || around.width.min(around.height) < 0.7 {
            return;
        }
        let mut segments = Vec::with_capacity(lines.len() * 2);
        for (a, b) in lines {
            segments.extend([Segment::Move(a), Segment::Line(b)]);
            self.crowd.line(a, b, 2.0);
        }
        self.items.push(Item::Path(Path {
            segments,
            stroke: Some(stroke(pen)),
            fill: None,
            even_odd: false,
        }));
    }

    /// Type size of a style, points.
    pub fn points(&self, style: Style) -> f64 {
        match style.size {
            Size::Own => self.size,
            Size::Caption => 11.0,
            Size::Identity => 9.0,
            Size::Title => 18.0,
            Size::Name => 28.0,
        }
    }

    /// Width and height of words as seen, capitals only: a line break is `\n`.
    pub fn measure(&self, text: &str, style: Style) -> (f64, f64) {
        let size = self.points(style);
        let mut width: f64 = 0.0;
        let mut count = 0.0;
        for line in text.split('\n').take(LINES) {
            width = width.max(length(&cut(line), size, style.bold, &self.context.shaper));
            count += 1.0;
        }
        let cap = FaceId::Regular.cap_height() * size * MM;
        (width, cap + (count - 1.0) * size * 1.25 * MM)
    }

    /// The box that words take, as measured, ascenders and descenders included, with their middle on
    /// a point.
    pub fn box_of(&self, (w, h): (f64, f64), style: Style, centre: Point, angle: f64) -> Rect {
        let size = self.points(style) * MM;
        let cap = FaceId::Regular.cap_height() * size;
        let over = FaceId::Regular.text_ascent() * size - cap;
        let under = FaceId::Regular.text_descent() * size;
        // Corners about the centre: along the text, and up from the middle of the capitals.
        let (sin, cos) = angle.to_radians().sin_cos();
        let corners = [(-w / 2.0, h / 2.0 + over), (w / 2.0, -h / 2.0 - under)];
        let mut area: Option<Rect> = None;
        for x in [corners[0].0, corners[1].0] {
            for y in [corners[0].1, corners[1].1] {
                let p = Point::new(centre.x + x * cos - y * sin, centre.y - x * sin - y * cos);
                let point = Rect::new(p.x, p.y, 0.0, 0.0);
                area = Some(area.map_or(point, |a| a.union(&point)));
            }
        }
        area.unwrap_or_default()
    }

    /// Whether words may stand in a box: no other words are there.
    pub fn free_of_words(&self, area: &Rect) -> bool {
        !self.texts.hits(area, 0.05)
    }

    /// Sets words with the middle of their capitals on a point.
    pub fn set(&mut self, text: &str, style: Style, centre: Point, angle: f64) {
        let (width, height) = self.measure(text, style);
        let area = self.box_of((width, height), style, centre, angle);
        let size = self.points(style);
        let lead = size * 1.25 * MM;
        let cap = FaceId::Regular.cap_height() * size * MM;
        let (sin, cos) = angle.to_radians().sin_cos();
        for (index, line) in text.split('\n').take(LINES).enumerate() {
            let line = cut(line);
            let own = length(&line, size, style.bold, &self.context.shaper);
            // Lines of one text start at the same edge.
            let along = if text.contains('\n') { -width / 2.0 } else { -own / 2.0 };
            let up = height / 2.0 - cap - index as f64 * lead;
            let origin =
                Point::new(centre.x + along * cos - up * sin, centre.y - along * sin - up * cos);
            let kind = (size, style.bold, Ink::Black);
            let (runs, _) = single(&line, kind, origin, angle, &self.context.shaper);
            self.items.extend(runs.into_iter().filter(|r| !r.glyphs.is_empty()).map(Item::Glyphs));
        }
        // A line may graze the room around the letters.
        let by = 0.3_f64.min(area.width / 4.0).min(area.height / 4.0);
        let core =
            Rect::new(area.x + by, area.y + by, area.width - 2.0 * by, area.height - 2.0 * by);
        self.struck += usize::from(self.crossed_by_heavy(&core));
        self.texts.take(area);
        self.crowd.take(area);
        self.cover(area);
    }

    fn crossed_by_heavy(&self, area: &Rect) -> bool {
        self.crowd.heaviest(area) >= HEAVY
    }

    /// Sets words at the first of several places that is free of other words; otherwise they are left
    /// out and reported.
    pub fn set_at_one_of(&mut self, text: &str, style: Style, places: &[(Point, f64)]) -> bool {
        if text.trim().is_empty() {
            return true;
        }
        let measured = self.measure(text, style);
        for (centre, angle) in places {
            let area = self.box_of(measured, style, *centre, *angle);
            if self.free_of_words(&area) && (!self.strict || self.has_room(&area)) {
                self.set(text, style, *centre, *angle);
                return true;
            }
        }
        self.unplaced.push(text.to_owned());
        false
    }
}

/// Most lines and characters of one text in a drawing.
const LINES: usize = 6;

fn cut(line: &str) -> Cow<'_, str> {
    match line.char_indices().nth(90) {
        Some(_) => line.chars().take(89).chain(['…']).collect(),
        None => line.into(),
    }
}

fn ink(fill: Fill) -> Ink {
    match fill {
        Fill::White => Ink::White,
        Fill::Tint(percent) => Ink::Tint(percent.clamp(1, 10)),
        Fill::Black | Fill::Hatch { .. } => Ink::Black,
    }
}

fn bezier(p: Point, a: Point, b: Point, q: Point, t: f64) -> Point {
    let s = 1.0 - t;
    let mix = |p: f64, a: f64, b: f64, q: f64| {
        s * s * s * p + 3.0 * s * s * t * a + 3.0 * s * t * t * b + t * t * t * q
    };
    Point::new(mix(p.x, a.x, b.x, q.x), mix(p.y, a.y, b.y, q.y))
}
