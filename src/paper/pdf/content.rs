//! One page as operations of the PDF imaging model.
//!
//! Lengths go from mm to points of 1/72 in, places rounded to a hundredth of a point (0.0035 mm), pens
//! and dashes to a thousandth: a full-size template stays true far below what a printer can do, and
//! numbers stay short.

use super::codes::{Codes, FaceCodes, texts};
use super::operators::{Operators, Shown};
use super::tags::int;
use crate::page::model::{
    ArtifactKind, Cap, Document, FaceId, GlyphRun, Image, Ink, Item, Join, Mark, Page, Path, Pen,
    Point, Segment, Sequence, Stroke,
};

/// Points in a millimetre.
const POINTS: f64 = 72.0 / 25.4;

/// Thousandths of a point.
fn milli(mm: f64) -> i64 {
    (mm * POINTS * 1000.0).round() as i64
}

/// A place on the page in thousandths of a point, to the hundredth of a point: 0.0018 mm off at most, a
/// twentieth of what the edge of a printed line is, and a third of a digit less in every number.
fn place(mm: f64) -> i64 {
    (mm * POINTS * 100.0).round() as i64 * 10
}

/// A length in points that prints with three decimals at most.
fn short(milli: i64) -> f32 {
    (milli as f64 / 1000.0) as f32
}

/// mm to points.
pub(super) fn pt(mm: f64) -> f32 {
    short(milli(mm))
}

/// Name of a face's font resource.
pub(super) fn font_name(face: FaceId) -> &'static str {
    match face {
        FaceId::Regular => "R",
        FaceId::Bold => "B",
        FaceId::Signs => "S",
    }
}

/// Pictures of a document, each once.
#[derive(Default)]
pub(super) struct Pictures<'a>(Vec<&'a Image>);

impl<'a> Pictures<'a> {
    /// Walks all pages in drawing order.
    pub fn collect(document: &'a Document) -> Self {
        let mut pictures = Self::default();
        for page in &document.pages {
            for sequence in &page.content {
                pictures.items(&sequence.items);
            }
        }
        pictures
    }

    fn items(&mut self, items: &'a [Item]) {
        for item in items {
            match item {
                Item::Image(image) if self.number(image).is_none() => self.0.push(image),
                Item::Clipped { items, .. } => self.items(items),
                _ => {}
            }
        }
    }

    fn number(&self, image: &Image) -> Option<usize> {
        self.0.iter().position(|p| {
            (p.columns, p.rows, p.format) == (image.columns, image.rows, image.format)
                && p.pixels == image.pixels
        })
    }

    /// Pictures in order of first use.
    pub fn iter(&self) -> impl Iterator<Item = &'a Image> {
        self.0.iter().copied()
    }
}

/// Name of a picture's resource.
pub(super) fn picture_name(number: usize) -> String {
    format!("P{number}")
}

/// The content of a page, not yet packed.
pub(super) fn page(
    document: &Document,
    page: &Page,
    codes: &Codes,
    pictures: &Pictures,
) -> Vec<u8> {
    let mut writer = Writer {
        to: Operators::default(),
        top: place(page.height),
        codes,
        pictures,
        state: State::default(),
        text: None,
    };
    for sequence in &page.content {
        writer.sequence(document, sequence);
    }
    writer.end_text();
    writer.to.finish()
}

/// What the graphics state holds, to leave out what it holds already.
#[derive(Clone, PartialEq)]
struct State {
    font: Option<(FaceId, i64)>,
    fill: Ink,
    line: Ink,
    pen: Option<Pen>,
    dash: Vec<f64>,
    cap: Cap,
    join: Join,
}

impl Default for State {
    /// As a page begins (ISO 32000-1, table 52).
    fn default() -> Self {
        Self {
            font: None,
            fill: Ink::Black,
            line: Ink::Black,
            pen: None,
            dash: Vec::new(),
            cap: Cap::Butt,
            join: Join::Miter,
        }
    }
}

struct Writer<'a> {
    to: Operators,
    /// Height of the page, thousandths of a point.
    top: i64,
    codes: &'a Codes,
    pictures: &'a Pictures<'a>,
    state: State,
    /// Inside a text object: where its line starts, thousandths of a point.
    text: Option<(i64, i64)>,
}

impl Writer<'_> {
    /// One text object goes on through sequences of nothing but words, their marks in it: places are
    /// then told from the line before, in fewer digits. Other sequences have theirs inside.
    fn sequence(&mut self, document: &Document, sequence: &Sequence) {
        let level = |item: &Item| matches!(item, Item::Glyphs(run) if run.angle == 0.0);
        let words = sequence.items.iter().all(level);
        if words {
            self.begin_text();
        } else {
            self.end_text();
        }
        match sequence.mark {
            Mark::Artifact(ArtifactKind::Layout) => self.to.name("Artifact").operator("BMC"),
            Mark::Artifact(ArtifactKind::Pagination) => {
                self.to.name("Artifact").text("<</Type/Pagination>>").operator("BDC");
            }
            Mark::Content { mcid, node } => {
                let role = document.tree.get(node.0).map_or("Span", |n| n.role.name());
                self.to.text("/").text(role).text("<</MCID ").number(int(mcid)).text(">>");
                self.to.operator("BDC");
            }
        }
        self.items(&sequence.items);
        if !words {
            self.end_text();
        }
        self.to.operator("EMC");
    }

    fn items(&mut self, items: &[Item]) {
        for item in items {
            match item {
                Item::Glyphs(run) => self.run(run),
                Item::Path(path) => self.path(path),
                Item::Image(image) => self.image(image),
                Item::Clipped { window, items } => {
                    self.end_text();
                    let before = self.state.clone();
                    self.to.operator("q");
                    let corner = Point::new(window.x, window.bottom());
                    self.rectangle(corner, window.width, window.height);
                    self.to.operator("W");
                    self.to.operator("n");
                    self.items(items);
                    self.end_text();
                    self.to.operator("Q");
                    self.state = before;
                }
            }
        }
    }

    // ---- text ----

    /// Where the line starts from which the next one is told.
    fn begin_text(&mut self) -> (i64, i64) {
        *self.text.get_or_insert_with(|| {
            self.to.operator("BT");
            (0, 0)
        })
    }

    fn end_text(&mut self) {
        if self.text.take().is_some() {
            self.to.operator("ET");
        }
    }

    fn run(&mut self, run: &GlyphRun) {
        let codes = self.codes;
        let Some(face) = codes.face(run.face) else { return };
        let (x, y) = (place(run.origin.x), self.top - place(run.origin.y));
        let turned = run.angle != 0.0;
        if turned {
            self.end_text();
        }
        let line = self.begin_text();
        self.text = Some((x, y));
        self.ink(run.ink, true);
        let size = (run.size * 1000.0).round() as i64;
        if self.state.font != Some((run.face, size)) {
            self.state.font = Some((run.face, size));
            self.to.name(font_name(run.face)).thousandths(size).operator("Tf");
        }
        if turned {
            let (sin, cos) = run.angle.to_radians().sin_cos();
            let [sin, cos] = [sin, cos].map(|v| (v * 1e6).round() / 1e6);
            // No plus sign, and no minus before a zero.
            let matrix = [cos, sin, 0.0 - sin, cos].map(|v| format!("{v} "));
            self.to.text(&matrix.concat()).thousandths(x).thousandths(y).operator("Tm");
        } else {
            self.to.thousandths(x - line.0).thousandths(y - line.1).operator("Td");
        }
        self.glyphs(run, face);
        if turned {
            self.end_text();
        }
    }

    /// Shows the glyphs. The pen that the viewer keeps (`at`, thousandths of an em, by the widths in
    /// the file) is set against where each glyph belongs, so roundings never add up.
    fn glyphs(&mut self, run: &GlyphRun, face: &FaceCodes) {
        let per_unit = 1000.0 / f64::from(run.face.units_per_em());
        let mut shown = Shown::default();
        let mut at = 0.0;
        let mut pen = 0.0;
        let mut rise = 0;
        let mut open = false;
        for (index, (glyph, text)) in run.glyphs.iter().zip(texts(run)).enumerate() {
            let starts_cluster = glyph.text_start < glyph.text_end;
            if starts_cluster {
                let next = run.glyphs.get(index + 1);
                let shared = next.is_some_and(|n| n.text_start == n.text_end);
                if open || shared {
                    shown.flush(&mut self.to);
                }
                if open {
                    self.to.operator("EMC");
                }
                open = shared;
                if open {
                    let whole = run.text.get(glyph.text_start as usize..glyph.text_end as usize);
                    let data = utf16(whole.unwrap_or_default());
                    self.to.text("/Span<</ActualText ").hexadecimal(&data).text(">>");
                    self.to.operator("BDC");
                }
            }
            if glyph.dy != rise {
                shown.flush(&mut self.to);
                rise = glyph.dy;
                let points = f64::from(rise) * per_unit * run.size / 1000.0;
                self.to.thousandths((points * 1000.0) as i64).operator("Ts");
            }
            let back = at - (pen + f64::from(glyph.dx)) * per_unit;
            if back.abs() >= 0.5 {
                shown.back(back.round() as i64);
                at -= back.round();
            }
            let (code, width) = face.get(glyph.id, text);
            shown.code(code, face.short());
            at += width;
            pen += f64::from(glyph.advance);
        }
        shown.flush(&mut self.to);
        if open {
            self.to.operator("EMC");
        }
        if rise != 0 {
            self.to.thousandths(0).operator("Ts");
        }
    }

    // ---- lines and areas ----

    fn ink(&mut self, ink: Ink, fill: bool) {
        let held = if fill { &mut self.state.fill } else { &mut self.state.line };
        if *held == ink {
            return;
        }
        *held = ink;
        let grey = (ink.grey() * 1000.0).round() as i64;
        self.to.thousandths(grey).operator(if fill { "g" } else { "G" });
    }

    fn stroke(&mut self, stroke: &Stroke) {
        self.ink(stroke.ink, false);
        if self.state.pen != Some(stroke.pen) {
            self.state.pen = Some(stroke.pen);
            self.to.thousandths(milli(stroke.pen.width())).operator("w");
        }
        if self.state.dash != stroke.dash {
            self.state.dash.clone_from(&stroke.dash);
            self.to.dashes(stroke.dash.iter().map(|&mm| milli(mm))).integer(0).operator("d");
        }
        if self.state.cap != stroke.cap {
            self.state.cap = stroke.cap;
            let cap = match stroke.cap {
                Cap::Butt => 0,
                Cap::Round => 1,
            };
            self.to.integer(cap).operator("J");
        }
        if self.state.join != stroke.join {
            self.state.join = stroke.join;
            let join = match stroke.join {
                Join::Miter => 0,
                Join::Round => 1,
            };
            self.to.integer(join).operator("j");
        }
    }

    /// Adds a rectangle, from its lower left corner, to the path in the making.
    fn rectangle(&mut self, corner: Point, width: f64, height: f64) {
        // From rounded corners, so that neighbours that share an edge on the page share it here.
        let (left, low) = (place(corner.x), place(corner.y));
        let (right, high) = (place(corner.x + width), place(corner.y - height));
        let bottom = self.top - low;
        self.to.thousandths(left).thousandths(bottom);
        self.to.thousandths(right - left).thousandths(low - high).operator("re");
    }

    fn path(&mut self, path: &Path) {
        self.end_text();
        if let Some(ink) = path.fill {
            self.ink(ink, true);
        }
        if let Some(stroke) = &path.stroke {
            self.stroke(stroke);
        }
        let paint = match (path.fill.is_some(), path.stroke.is_some(), path.even_odd) {
            (true, true, false) => "B",
            (true, true, true) => "B*",
            (true, false, false) => "f",
            (true, false, true) => "f*",
            (false, true, _) => "S",
            (false, false, _) => return,
        };
        if let Some((corner, width, height)) = upright_box(&path.segments) {
            self.rectangle(corner, width, height);
            // One rectangle has the same inside by either rule.
            self.to.operator(paint.trim_end_matches('*'));
        } else {
            self.segments(&path.segments);
            self.to.operator(paint);
        }
    }

    fn segments(&mut self, segments: &[Segment]) {
        for segment in segments {
            let (points, operator): (&[Point], _) = match segment {
                Segment::Move(p) => (std::slice::from_ref(p), "m"),
                Segment::Line(p) => (std::slice::from_ref(p), "l"),
                Segment::Curve(a, b, p) => (&[*a, *b, *p], "c"),
                Segment::Close => (&[], "h"),
            };
            for p in points {
                self.to.thousandths(place(p.x)).thousandths(self.top - place(p.y));
            }
            self.to.operator(operator);
        }
    }

    fn image(&mut self, image: &Image) {
        self.end_text();
        let Some(number) = self.pictures.number(image) else { return };
        let area = &image.place;
        let (left, bottom) = (place(area.x), self.top - place(area.bottom()));
        self.to.operator("q");
        self.to
            .thousandths(place(area.width))
            .integer(0)
            .integer(0)
            .thousandths(place(area.height));
        self.to.thousandths(left).thousandths(bottom).operator("cm");
        self.to.name(&picture_name(number)).operator("Do");
        self.to.operator("Q");
    }
}

/// Lower left corner, width and height of a path that is one rectangle along the page's edges.
fn upright_box(segments: &[Segment]) -> Option<(Point, f64, f64)> {
    let [Segment::Move(a), Segment::Line(b), Segment::Line(c), Segment::Line(d), Segment::Close] =
        segments
    else {
        return None;
    };
    let flat_first = a.y == b.y && b.x == c.x && c.y == d.y && d.x == a.x;
    let steep_first = a.x == b.x && b.y == c.y && c.x == d.x && d.y == a.y;
    if !flat_first && !steep_first {
        return None;
    }
    let corner = Point::new(a.x.min(c.x), a.y.max(c.y));
    Some((corner, (c.x - a.x).abs(), (c.y - a.y).abs()))
}

/// A PDF text string in UTF-16 with its mark.
pub(super) fn utf16(text: &str) -> Vec<u8> {
    let units = std::iter::once(0xFEFF).chain(text.encode_utf16());
    units.flat_map(u16::to_be_bytes).collect()
}
