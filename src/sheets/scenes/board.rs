//! A full-size drawing for a printer that is a little out, seen through a tile's window.

use crate::page::scene::{At, Fill, Line, Place, Scene, Side, Size, Style};

/// Draws in true mm, `x` right and `y` up; what lands in the scene is corrected and cut to the window.
pub struct Board {
    /// What it draws on.
    pub scene: Scene,
    factors: (f64, f64),
    window: Option<(At, At)>,
    words: Vec<(At, At)>,
    /// Lines that words keep off if they can.
    seams: Vec<(At, At)>,
    /// Some hole that is shown has no id beside it, as nothing was free.
    pub nameless: bool,
}

/// Gap between words and their point, and so their width over their count of letters: only to see
/// what is free in a tile.
const GAP: f64 = 1.2;
const LETTER: f64 = 0.6;
/// From words in a tile to its edges and seams, mm.
const OFF: f64 = 0.8;

impl Board {
    /// An empty board that stretches by factors across and up.
    pub fn new(scene: Scene, factors: (f64, f64)) -> Self {
        Self { scene, factors, window: None, words: Vec::new(), seams: Vec::new(), nameless: false }
    }

    /// From here on only what lies between two corners is drawn; none lifts that.
    pub fn window(&mut self, window: Option<(At, At)>) {
        self.window = window;
    }

    /// Where a place lands on paper.
    fn to(&self, p: At) -> At {
        (p.0 * self.factors.0, p.1 * self.factors.1)
    }

    /// Whether a place is shown.
    pub fn shows(&self, p: At) -> bool {
        self.window.is_none_or(|(low, high)| {
            (low.0 - 1e-9..=high.0 + 1e-9).contains(&p.0)
                && (low.1 - 1e-9..=high.1 + 1e-9).contains(&p.1)
        })
    }

    /// An open line.
    pub fn line(&mut self, points: &[At], line: Line) {
        if self.window.is_none() {
            let points: Vec<At> = points.iter().map(|p| self.to(*p)).collect();
            self.scene.line(&points, line);
            return;
        }
        for pair in points.windows(2) {
            if let Some((a, b)) = self.cut(pair[0], pair[1]) {
                self.scene.line(&[self.to(a), self.to(b)], line);
            }
        }
    }

    /// The part of a stretch inside the window (Liang and Barsky).
    fn cut(&self, a: At, b: At) -> Option<(At, At)> {
        let Some((low, high)) = self.window else { return Some((a, b)) };
        let (dx, dy) = (b.0 - a.0, b.1 - a.1);
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        let sides =
            [(-dx, a.0 - low.0), (dx, high.0 - a.0), (-dy, a.1 - low.1), (dy, high.1 - a.1)];
        for (way, room) in sides {
            if way.abs() < 1e-12 {
                if room < 0.0 {
                    return None;
                }
            } else if way < 0.0 {
                from = from.max(room / way);
            } else {
                to = to.min(room / way);
            }
        }
        let at = |t: f64| (a.0 + dx * t, a.1 + dy * t);
        (to - from > 1e-9).then(|| (at(from), at(to)))
    }

    /// A rectangle by its low corner.
    pub fn rectangle(&mut self, corner: At, size: (f64, f64), line: Line) {
        let (x, y) = (corner.0 + size.0, corner.1 + size.1);
        if self.window.is_none() {
            let (low, high) = (self.to(corner), self.to((x, y)));
            self.scene.rectangle(low, (high.0 - low.0, high.1 - low.1), line);
        } else {
            let ring = [corner, (x, corner.1), (x, y), (corner.0, y), corner];
            self.line(&ring, line);
        }
    }

    /// A circle; on an unlike correction the ellipse that the printer makes round again.
    pub fn circle(&mut self, centre: At, radius: f64, line: Line) {
        let whole = [(-1.0, -1.0), (1.0, 1.0)]
            .iter()
            .all(|(x, y)| self.shows((centre.0 + x * radius, centre.1 + y * radius)));
        if whole && self.factors.0.to_bits() == self.factors.1.to_bits() {
            self.scene.circle(self.to(centre), radius * self.factors.0, line);
        } else if whole {
            self.arc(centre, radius, (0.0, 360.0), line);
        } else {
            for (from, to) in self.shown_arcs(centre, radius) {
                self.arc(centre, radius, (from, to), line);
            }
        }
    }

    /// Stretches of a circle inside the window, degrees.
    fn shown_arcs(&self, (x, y): At, radius: f64) -> Vec<(f64, f64)> {
        let Some((low, high)) = self.window else { return vec![(0.0, 360.0)] };
        let mut cuts = vec![0.0, 360.0];
        for edge in [low.0 - x, high.0 - x] {
            if edge.abs() < radius {
                let a = (edge / radius).acos().to_degrees();
                cuts.extend([a, 360.0 - a]);
            }
        }
        for edge in [low.1 - y, high.1 - y] {
            if edge.abs() < radius {
                let a = (edge / radius).asin().to_degrees();
                cuts.extend([a.rem_euclid(360.0), 180.0 - a]);
            }
        }
        cuts.sort_by(f64::total_cmp);
        cuts.windows(2)
            .map(|w| (w[0], w[1]))
            .filter(|(from, to)| {
                let (sin, cos) = f64::midpoint(*from, *to).to_radians().sin_cos();
                to - from > 1e-6 && self.shows((x + radius * cos, y + radius * sin))
            })
            .collect()
    }

    fn arc(&mut self, centre: At, radius: f64, (from, to): (f64, f64), line: Line) {
        let count = ((to - from) / 45.0).ceil().max(1.0);
        let step = ((to - from) / count).to_radians();
        // Length of a handle for a piece of a circle.
        let handle = radius * 4.0 / 3.0 * (step / 4.0).tan();
        let at = |angle: f64, along: f64| {
            let (sin, cos) = angle.sin_cos();
            self.to((centre.0 + radius * cos - along * sin, centre.1 + radius * sin + along * cos))
        };
        let start = from.to_radians();
        let pieces: Vec<(At, At, At)> = (0..count as usize)
            .map(|k| {
                let (a, b) = (start + step * k as f64, start + step * (k + 1) as f64);
                (at(a, handle), at(b, -handle), at(b, 0.0))
            })
            .collect();
        let first = at(start, 0.0);
        self.scene.curve(first, &pieces, line);
    }

    /// A black area, where its first point is shown.
    pub fn black(&mut self, ring: &[At]) {
        if ring.first().is_some_and(|p| self.shows(*p)) {
            let ring = ring.iter().map(|p| self.to(*p)).collect();
            self.scene.area(&[ring], Some(Fill::Black), None);
        }
    }

    /// The datum with its word, where it is shown.
    pub fn datum(&mut self, at: At, words: &str) {
        if self.shows(at) {
            self.scene.datum(self.to(at), words);
        }
    }

    /// Words; in a window on the first side of their point where they fit and cover no others.
    /// Returns whether they were drawn.
    pub fn words(&mut self, at: At, text: impl Into<String>, place: Place, style: Style) -> bool {
        let text = text.into();
        if self.window.is_none() {
            self.scene.words(self.to(at), text, place, style);
            return true;
        }
        let others = [Side::Right, Side::Left, Side::Above, Side::Below].map(Place::Beside);
        let places = if place == Place::Centre {
            vec![place]
        } else {
            std::iter::once(place).chain(others).collect()
        };
        let off_seams = |area: &(At, At)| self.seams.iter().all(|seam| apart(seam, area));
        let areas = places.iter().map(|place| (*place, self.box_of(at, &text, *place, style)));
        let free: Vec<(Place, (At, At))> = areas.filter(|(_, area)| self.is_free(*area)).collect();
        let best = free.iter().find(|(_, area)| off_seams(area)).or(free.first()).copied();
        if let Some((place, area)) = best {
            self.words.push(area);
            self.scene.words(self.to(at), text, place, style);
        }
        best.is_some()
    }

    /// Words over or under a circle; in a window at the first free place about it, off the seams if there
    /// is one.
    pub fn words_around(
        &mut self,
        (x, y): At,
        (reach, over): (f64, bool),
        text: &str,
        style: Style,
    ) -> bool {
        let (side, up) = if over { (Side::Above, 1.0) } else { (Side::Below, -1.0) };
        if self.window.is_none() {
            return self.words((x, y + reach * up), text, Place::Beside(side), style);
        }
        let (low, high) = self.box_of((0.0, 0.0), text, Place::Centre, style);
        let (w, h) = ((high.0 - low.0) / 2.0, (high.1 - low.1) / 2.0);
        let mut free = Vec::new();
        for far in [0.0, 2.0] {
            let by = reach + GAP + far;
            let slant = by * std::f64::consts::FRAC_1_SQRT_2;
            let ways = [(0.0, by), (by, 0.0), (-by, 0.0), (0.0, -by)].into_iter().chain([
                (slant, slant),
                (-slant, slant),
                (slant, -slant),
                (-slant, -slant),
            ]);
            for (dx, dy) in ways {
                let out = |d: f64, half: f64| if d == 0.0 { 0.0 } else { d + half * d.signum() };
                let at = (x + out(dx, w), y + out(dy, h) * up);
                let area = self.box_of(at, text, Place::Centre, style);
                if self.is_free(area) {
                    free.push((at, area));
                }
            }
        }
        let off_seams = |area: &(At, At)| self.seams.iter().all(|seam| apart(seam, area));
        let best = free.iter().find(|(_, area)| off_seams(area)).or(free.first()).copied();
        if let Some((at, area)) = best {
            self.words.push(area);
            self.scene.words(self.to(at), text, Place::Centre, style);
        }
        best.is_some()
    }

    /// Words on just this side of their point, where they cover no others there.
    pub fn words_only(&mut self, at: At, text: &str, place: Place, style: Style) -> bool {
        let area = self.box_of(at, text, place, style);
        let free = self.is_free(area);
        if free {
            self.words.push(area);
            self.scene.words(self.to(at), text, place, style);
        }
        free
    }

    /// Keeps words out of a square about a point.
    pub fn keep_clear(&mut self, at: At, by: f64) {
        self.words.push(((at.0 - by, at.1 - by), (at.0 + by, at.1 + by)));
    }

    /// Keeps words off a level or upright line where they find room beside it.
    pub fn keep_off(&mut self, from: At, to: At) {
        self.seams.push(((from.0 - OFF, from.1 - OFF), (to.0 + OFF, to.1 + OFF)));
    }

    /// Keeps words out of a rectangle.
    pub fn keep_area(&mut self, low: At, high: At) {
        self.words.push((low, high));
    }

    /// Words at the first of many places of the window where they cover nothing.
    pub fn words_anywhere(&mut self, text: &str, styles: &[Style]) -> bool {
        let Some((low, high)) = self.window else { return false };
        for style in styles {
            let mut y = low.1 + 4.0;
            while y < high.1 {
                let mut x = low.0 + 4.0;
                while x < high.0 {
                    if self.is_free(self.box_of((x, y), text, Place::Centre, *style)) {
                        return self.words((x, y), text, Place::Centre, *style);
                    }
                    x += 3.0;
                }
                y += 3.0;
            }
        }
        false
    }

    fn is_free(&self, area: (At, At)) -> bool {
        let ((x0, y0), (x1, y1)) = area;
        self.shows((x0 - OFF, y0 - OFF))
            && self.shows((x1 + OFF, y1 + OFF))
            && self.words.iter().all(|taken| apart(taken, &area))
    }

    fn box_of(&self, at: At, text: &str, place: Place, style: Style) -> (At, At) {
        let points = match style.size {
            Size::Own => self.scene.lettering.size(),
            Size::Caption => 11.0,
            Size::Identity => 9.0,
            Size::Title => 18.0,
            Size::Name => 28.0,
        };
        let em = points * 25.4 / 72.0;
        let longest = text.lines().map(|line| line.chars().count()).max().unwrap_or(0);
        let (long, tall) = (longest as f64 * em * LETTER, text.lines().count() as f64 * em * 1.25);
        let (w, h) = if style.upwards { (tall, long) } else { (long, tall) };
        let (dx, dy) = match place {
            Place::Centre => (0.0, 0.0),
            Place::Beside(Side::Above) => (0.0, h / 2.0 + GAP),
            Place::Beside(Side::Below) => (0.0, -h / 2.0 - GAP),
            Place::Beside(Side::Left) => (-w / 2.0 - GAP, 0.0),
            Place::Beside(Side::Right) => (w / 2.0 + GAP, 0.0),
        };
        let middle = (at.0 + dx, at.1 + dy);
        ((middle.0 - w / 2.0, middle.1 - h / 2.0), (middle.0 + w / 2.0, middle.1 + h / 2.0))
    }
}

/// Whether two boxes, each by its low and its high corner, have nothing in common.
fn apart((low, high): &(At, At), (l, h): &(At, At)) -> bool {
    low.0 >= h.0 || high.0 <= l.0 || low.1 >= h.1 || high.1 <= l.1
}
