//! One page as operations of the PDF imaging model.
//!
//! Lengths go from mm to points of 1/72 in, rounded to a thousandth of a point (0.00035 mm): a
//! full-size template stays true far below what a printer can do, and numbers stay short.

use super::codes::{Codes, FaceCodes, texts};
use super::tags::int;
use crate::page::model::{
    ArtifactKind, Cap, Document, FaceId, GlyphRun, Image, Ink, Item, Join, Mark, Page, Path, Pen,
    Point, Segment, Sequence, Stroke,
};
use printpdf::{
    Color, CurTransMat, DictItem, FontId, Greyscale, Line, LineCapStyle, LineDashPattern,
    LineJoinStyle, LinePoint, Op, PaintMode, PdfFontHandle, PdfPage, Polygon, PolygonRing, Pt,
    TextItem, TextMatrix, WindingOrder, XObjectId, XObjectTransform,
};
use std::collections::BTreeMap;

/// Points in a millimetre.
const POINTS: f64 = 72.0 / 25.4;

/// Codes of glyphs are handed to printpdf as characters from here on (private plane 15), so that a
/// whole word is one string in the file instead of one string a glyph.
pub(super) const CODE_PLANE: u32 = 0xF_0000;

/// Thousandths of a point.
fn milli(mm: f64) -> i64 {
    (mm * POINTS * 1000.0).round() as i64
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

/// The page as printpdf has it.
pub(super) fn page(
    document: &Document,
    page: &Page,
    codes: &Codes,
    pictures: &Pictures,
) -> PdfPage {
    let mut writer = Writer {
        ops: Vec::new(),
        top: milli(page.height),
        codes,
        pictures,
        state: State::default(),
        text: None,
    };
    for sequence in &page.content {
        writer.sequence(document, sequence);
    }
    let mut made = PdfPage::new(printpdf::Mm(0.0), printpdf::Mm(0.0), writer.ops);
    let sheet = printpdf::Rect::from_wh(Pt(pt(page.width)), Pt(pt(page.height)));
    made.media_box = sheet.clone();
    made.trim_box = sheet.clone();
    made.crop_box = sheet;
    made
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
    ops: Vec<Op>,
    /// Height of the page, thousandths of a point.
    top: i64,
    codes: &'a Codes,
    pictures: &'a Pictures<'a>,
    state: State,
    /// Inside a text object: where its line starts, thousandths of a point.
    text: Option<(i64, i64)>,
}

impl Writer<'_> {
    fn sequence(&mut self, document: &Document, sequence: &Sequence) {
        let (tag, properties) = match sequence.mark {
            Mark::Artifact(kind) => {
                let kind = match kind {
                    ArtifactKind::Pagination => "Pagination",
                    ArtifactKind::Layout => "Layout",
                };
                ("Artifact", ("Type", DictItem::Name(kind.into())))
            }
            Mark::Content { mcid, node } => (
                document.tree.get(node.0).map_or("Span", |n| n.role.name()),
                ("MCID", DictItem::Int(int(mcid))),
            ),
        };
        self.begin(tag, properties);
        self.items(&sequence.items);
        self.end_text();
        self.ops.push(Op::EndMarkedContentWithProperties);
    }

    fn begin(&mut self, tag: &str, (key, value): (&str, DictItem)) {
        self.ops.push(Op::BeginMarkedContentWithProperties {
            tag: tag.into(),
            properties: DictItem::Dict { map: BTreeMap::from([(key.into(), value)]) },
        });
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
                    self.ops.push(Op::SaveGraphicsState);
                    let corner = Point::new(window.x, window.bottom());
                    let mut area = self.rectangle(corner, window.width, window.height);
                    area.mode = Some(PaintMode::Clip);
                    self.ops.push(Op::DrawRectangle { rectangle: area });
                    self.items(items);
                    self.end_text();
                    self.ops.push(Op::RestoreGraphicsState);
                    self.state = before;
                }
            }
        }
    }

    // ---- text ----

    fn end_text(&mut self) {
        if self.text.take().is_some() {
            self.ops.push(Op::EndTextSection);
        }
    }

    fn run(&mut self, run: &GlyphRun) {
        let codes = self.codes;
        let Some(face) = codes.face(run.face) else { return };
        let (x, y) = (milli(run.origin.x), self.top - milli(run.origin.y));
        let turned = run.angle != 0.0;
        if turned {
            self.end_text();
        }
        let line = if let Some(line) = self.text {
            line
        } else {
            self.ops.push(Op::StartTextSection);
            (0, 0)
        };
        self.text = Some((x, y));
        self.ink(run.ink, true);
        let size = (run.size * 1000.0).round() as i64;
        if self.state.font != Some((run.face, size)) {
            self.state.font = Some((run.face, size));
            self.ops.push(Op::SetFont {
                font: PdfFontHandle::External(FontId(font_name(run.face).into())),
                size: Pt(short(size)),
            });
        }
        if turned {
            let (sin, cos) = run.angle.to_radians().sin_cos();
            let [sin, cos] = [sin, cos].map(|v| ((v * 1e6).round() / 1e6) as f32);
            let matrix = TextMatrix::Raw([cos, sin, -sin, cos, short(x), short(y)]);
            self.ops.push(Op::SetTextMatrix { matrix });
        } else {
            let pos = printpdf::Point { x: Pt(short(x - line.0)), y: Pt(short(y - line.1)) };
            self.ops.push(Op::SetTextCursor { pos });
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
                    shown.flush(&mut self.ops);
                }
                if open {
                    self.ops.push(Op::EndMarkedContent);
                }
                open = shared;
                if open {
                    let whole = run.text.get(glyph.text_start as usize..glyph.text_end as usize);
                    let data = utf16(whole.unwrap_or_default());
                    self.begin("Span", ("ActualText", DictItem::Bytes(data)));
                }
            }
            if glyph.dy != rise {
                shown.flush(&mut self.ops);
                rise = glyph.dy;
                let points = f64::from(rise) * per_unit * run.size / 1000.0;
                self.ops.push(Op::SetLineOffset { multiplier: short((points * 1000.0) as i64) });
            }
            let back = at - (pen + f64::from(glyph.dx)) * per_unit;
            if back.abs() >= 0.5 {
                shown.offset(back.round());
                at -= back.round();
            }
            let (code, width) = face.get(glyph.id, text);
            shown.code(code);
            at += width;
            pen += f64::from(glyph.advance);
        }
        shown.flush(&mut self.ops);
        if open {
            self.ops.push(Op::EndMarkedContent);
        }
        if rise != 0 {
            self.ops.push(Op::SetLineOffset { multiplier: 0.0 });
        }
    }

    // ---- lines and areas ----

    fn ink(&mut self, ink: Ink, fill: bool) {
        let held = if fill { &mut self.state.fill } else { &mut self.state.line };
        if *held == ink {
            return;
        }
        *held = ink;
        let col = Color::Greyscale(Greyscale::new(ink.grey() as f32, None));
        self.ops.push(if fill { Op::SetFillColor { col } } else { Op::SetOutlineColor { col } });
    }

    fn stroke(&mut self, stroke: &Stroke) {
        self.ink(stroke.ink, false);
        if self.state.pen != Some(stroke.pen) {
            self.state.pen = Some(stroke.pen);
            self.ops.push(Op::SetOutlineThickness { pt: Pt(pt(stroke.pen.width())) });
        }
        if self.state.dash != stroke.dash {
            self.state.dash.clone_from(&stroke.dash);
            let lengths: Vec<f32> = stroke.dash.iter().map(|&mm| pt(mm)).collect();
            self.ops.push(Op::SetLineDashPattern { dash: LineDashPattern::new(0.0, &lengths) });
        }
        if self.state.cap != stroke.cap {
            self.state.cap = stroke.cap;
            let cap = match stroke.cap {
                Cap::Butt => LineCapStyle::Butt,
                Cap::Round => LineCapStyle::Round,
            };
            self.ops.push(Op::SetLineCapStyle { cap });
        }
        if self.state.join != stroke.join {
            self.state.join = stroke.join;
            let join = match stroke.join {
                Join::Miter => LineJoinStyle::Miter,
                Join::Round => LineJoinStyle::Round,
            };
            self.ops.push(Op::SetLineJoinStyle { join });
        }
    }

    fn rectangle(&self, corner: Point, width: f64, height: f64) -> printpdf::Rect {
        // From rounded corners, so that neighbours that share an edge on the page share it here.
        let (left, low) = (milli(corner.x), milli(corner.y));
        let (right, high) = (milli(corner.x + width), milli(corner.y - height));
        printpdf::Rect {
            x: Pt(short(left)),
            y: Pt(short(self.top - low)),
            width: Pt(short(right - left)),
            height: Pt(short(low - high)),
            mode: None,
            winding_order: None,
        }
    }

    fn path(&mut self, path: &Path) {
        self.end_text();
        if let Some(ink) = path.fill {
            self.ink(ink, true);
        }
        if let Some(stroke) = &path.stroke {
            self.stroke(stroke);
        }
        let mode = match (path.fill.is_some(), path.stroke.is_some()) {
            (true, true) => PaintMode::FillStroke,
            (true, false) => PaintMode::Fill,
            (false, true) => PaintMode::Stroke,
            (false, false) => return,
        };
        if let Some((corner, width, height)) = upright_box(&path.segments) {
            let mut rectangle = self.rectangle(corner, width, height);
            rectangle.mode = Some(mode);
            self.ops.push(Op::DrawRectangle { rectangle });
            return;
        }
        let rings = self.rings(&path.segments);
        if path.fill.is_some() {
            let winding_order =
                if path.even_odd { WindingOrder::EvenOdd } else { WindingOrder::NonZero };
            let rings =
                rings.iter().map(|(points, _)| PolygonRing { points: points.clone() }).collect();
            let polygon = Polygon { rings, mode: PaintMode::Fill, winding_order };
            self.ops.push(Op::DrawPolygon { polygon });
        }
        if path.stroke.is_some() {
            // Each subpath apart: printpdf's polygon closes its last ring only, and closes it always.
            for (points, is_closed) in rings {
                self.ops.push(Op::DrawLine { line: Line { points, is_closed } });
            }
        }
    }

    /// Subpaths as printpdf has them: points, those of a curve's handles marked, and whether closed.
    fn rings(&self, segments: &[Segment]) -> Vec<(Vec<LinePoint>, bool)> {
        let place = |p: Point, bezier: bool| LinePoint {
            p: printpdf::Point { x: Pt(pt(p.x)), y: Pt(short(self.top - milli(p.y))) },
            bezier,
        };
        let mut rings: Vec<(Vec<LinePoint>, bool)> = Vec::new();
        let mut start = None;
        for segment in segments {
            if let Segment::Move(p) = segment {
                start = Some(*p);
                rings.push((vec![place(*p, false)], false));
                continue;
            }
            // Drawing on after a close starts again from where the closed subpath began.
            if let (Some((_, true)), Some(p)) = (rings.last(), start) {
                rings.push((vec![place(p, false)], false));
            }
            let Some((points, closed)) = rings.last_mut() else { continue };
            match *segment {
                Segment::Line(p) => points.push(place(p, false)),
                Segment::Curve(a, b, p) => {
                    points.extend([place(a, true), place(b, true), place(p, false)]);
                }
                Segment::Close => *closed = true,
                Segment::Move(_) => {}
            }
        }
        rings
    }

    fn image(&mut self, image: &Image) {
        self.end_text();
        let Some(number) = self.pictures.number(image) else { return };
        let place = &image.place;
        let area = self.rectangle(Point::new(place.x, place.bottom()), place.width, place.height);
        let before = self.state.clone();
        self.ops.push(Op::SaveGraphicsState);
        let matrix = CurTransMat::Raw([area.width.0, 0.0, 0.0, area.height.0, area.x.0, area.y.0]);
        self.ops.push(Op::SetTransformationMatrix { matrix });
        self.ops.push(Op::UseXobject {
            id: XObjectId(picture_name(number)),
            transform: XObjectTransform { no_auto_scale: true, ..XObjectTransform::default() },
        });
        self.ops.push(Op::RestoreGraphicsState);
        self.state = before;
    }
}

/// Codes and movements that make one showing of text.
#[derive(Default)]
struct Shown {
    items: Vec<TextItem>,
    word: String,
}

impl Shown {
    fn code(&mut self, code: u16) {
        let standin = char::from_u32(CODE_PLANE + u32::from(code));
        self.word.push(standin.unwrap_or(char::REPLACEMENT_CHARACTER));
    }

    fn offset(&mut self, back: f64) {
        self.end_word();
        self.items.push(TextItem::Offset(back as f32));
    }

    fn end_word(&mut self) {
        if !self.word.is_empty() {
            self.items.push(TextItem::Text(std::mem::take(&mut self.word)));
        }
    }

    fn flush(&mut self, ops: &mut Vec<Op>) {
        self.end_word();
        if !self.items.is_empty() {
            ops.push(Op::ShowText { items: std::mem::take(&mut self.items) });
        }
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
