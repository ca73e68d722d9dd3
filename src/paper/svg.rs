//! Pages and single drawings as SVG files, for screens and for other programs.
//!
//! Letters are outlines, so no font is needed; what they say is in the `title` and `desc` of the file,
//! which is how a picture speaks to those who do not see it (SVG 1.1, 5.4). One user unit is one
//! millimetre.

use super::picture::encode;
use crate::page::model::{
    Cap, Document, FaceId, GlyphRun, Image, Ink, Item, Join, Mark, NodeId, Page, Path, Rect,
    Segment, Stroke,
};
use rustybuzz::ttf_parser::{GlyphId, OutlineBuilder};
use std::collections::BTreeSet;
use std::fmt::Write;
use svg::node::element;

/// A page as an SVG file of the page's size.
///
/// Its title is the sheet's title and page label, its description the tagged text of the page in
/// reading order.
pub fn svg_page(page: &Page) -> String {
    let mut words = String::new();
    let mut drawing = Drawing::default();
    for sequence in &page.content {
        drawing.items(&sequence.items);
        if matches!(sequence.mark, Mark::Content { .. }) {
            say(&sequence.items, &mut words);
        }
    }
    let title = match (page.title.is_empty(), page.label.is_empty()) {
        (false, false) => format!("{}, page {}", page.title, page.label),
        (false, true) => page.title.clone(),
        (true, _) => format!("Page {}", page.label),
    };
    drawing.finish(&Rect::new(0.0, 0.0, page.width, page.height), &title, &words)
}

/// One figure of a document as an SVG file of the figure's size, or nothing if the node is not a
/// figure with a box and content.
///
/// Its description is the text that stands in its place in the PDF.
pub fn svg_drawing(document: &Document, figure: NodeId) -> Option<String> {
    let node = document.tree.get(figure.0)?;
    let (index, area) = node.bbox?;
    let page = document.pages.get(index)?;
    let mut drawing = Drawing::default();
    for sequence in &page.content {
        if let Mark::Content { node, .. } = sequence.mark
            && belongs(document, node, figure)
        {
            drawing.items(&sequence.items);
        }
    }
    if drawing.body.is_empty() {
        return None;
    }
    let title = node.title.as_deref().unwrap_or(&page.title);
    Some(drawing.finish(&area, title, node.alt.as_deref().unwrap_or_default()))
}

/// Whether a node is the figure or lies under it. Parents come before their kids in the tree, so the
/// way up ends.
fn belongs(document: &Document, node: NodeId, figure: NodeId) -> bool {
    let mut at = node;
    while at > figure {
        match document.tree.get(at.0) {
            Some(n) if n.parent < at => at = n.parent,
            _ => return false,
        }
    }
    at == figure
}

fn say(items: &[Item], words: &mut String) {
    for item in items {
        match item {
            Item::Glyphs(run) => {
                if !words.is_empty() && !words.ends_with(' ') {
                    words.push(' ');
                }
                words.push_str(&run.text);
            }
            Item::Clipped { items, .. } => say(items, words),
            Item::Path(_) | Item::Image(_) => {}
        }
    }
}

/// A number with three decimals at most: a thousandth of a millimetre, or of a font unit.
fn short(value: f64) -> String {
    let rounded = (value * 1000.0).round() / 1000.0;
    // No "-0".
    (rounded + 0.0).to_string()
}

/// Text without the characters that XML 1.0 has no place for.
fn plain(text: &str) -> String {
    let fits =
        |c: &char| !matches!(c, '\u{0}'..='\u{8}' | '\u{b}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}');
    text.trim().chars().filter(fits).collect()
}

fn colour(ink: Ink) -> String {
    let level = (ink.grey() * 255.0).round() as u8;
    format!("#{level:02x}{level:02x}{level:02x}")
}

#[derive(Default)]
struct Drawing {
    body: Vec<element::Element>,
    glyphs: BTreeSet<(FaceId, u16)>,
    windows: Vec<Rect>,
}

impl Drawing {
    fn items(&mut self, items: &[Item]) {
        for item in items {
            let made = match item {
                Item::Glyphs(run) => self.run(run),
                Item::Path(path) => drawn(path),
                Item::Image(image) => pixels(image),
                Item::Clipped { window, items } => {
                    let outer = std::mem::take(&mut self.body);
                    self.items(items);
                    let inner = std::mem::replace(&mut self.body, outer);
                    let mut group = element::Group::new()
                        .set("clip-path", format!("url(#w{})", self.windows.len()));
                    for item in inner {
                        group = group.add(item);
                    }
                    self.windows.push(*window);
                    group.into()
                }
            };
            self.body.push(made);
        }
    }

    /// A run: its glyphs in font units, turned and scaled as one.
    fn run(&mut self, run: &GlyphRun) -> element::Element {
        let scale = run.size_mm() / f64::from(run.face.units_per_em());
        let mut placed = format!("translate({} {})", short(run.origin.x), short(run.origin.y));
        if run.angle != 0.0 {
            // Clockwise in SVG, anticlockwise in the model.
            let _ = write!(placed, " rotate({})", short(-run.angle));
        }
        let _ = write!(placed, " scale({scale:.6} {:.6})", -scale);
        let mut group = element::Group::new().set("transform", placed);
        if run.ink != Ink::Black {
            group = group.set("fill", colour(run.ink));
        }
        let mut pen = 0i64;
        for glyph in &run.glyphs {
            if outline(run.face, glyph.id).is_some() {
                self.glyphs.insert((run.face, glyph.id));
                let mut shape = element::Use::new().set("href", reference(run.face, glyph.id));
                let x = pen + i64::from(glyph.dx);
                if x != 0 {
                    shape = shape.set("x", x);
                }
                if glyph.dy != 0 {
                    shape = shape.set("y", glyph.dy);
                }
                group = group.add(shape);
            }
            pen += i64::from(glyph.advance);
        }
        group.into()
    }

    fn finish(self, area: &Rect, title: &str, words: &str) -> String {
        let mut shapes = element::Definitions::new();
        for &(face, glyph) in &self.glyphs {
            if let Some(outline) = outline(face, glyph) {
                let id = reference(face, glyph);
                shapes = shapes.add(element::Path::new().set("id", &id[1..]).set("d", outline));
            }
        }
        for (number, window) in self.windows.iter().enumerate() {
            let area = rectangle(window);
            shapes = shapes.add(element::ClipPath::new().set("id", format!("w{number}")).add(area));
        }
        let box_of = [area.x, area.y, area.width, area.height].map(short).join(" ");
        let mut document = svg::Document::new()
            .set("width", format!("{}mm", short(area.width)))
            .set("height", format!("{}mm", short(area.height)))
            .set("viewBox", box_of)
            .set("role", "img")
            .set("aria-labelledby", "title desc")
            .add(element::Title::new(plain(title)).set("id", "title"))
            .add(
                element::Description::new()
                    .set("id", "desc")
                    .add(svg::node::Text::new(plain(words))),
            )
            .add(shapes)
            .add(rectangle(area).set("fill", colour(Ink::White)));
        for item in self.body {
            document = document.add(item);
        }
        let mut text = String::from("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
        // Writing to a string cannot fail.
        let _ = writeln!(text, "{document}");
        text
    }
}

fn rectangle(area: &Rect) -> element::Rectangle {
    element::Rectangle::new()
        .set("x", short(area.x))
        .set("y", short(area.y))
        .set("width", short(area.width))
        .set("height", short(area.height))
}

/// The name of a glyph's shape, with the sign that refers to it.
fn reference(face: FaceId, glyph: u16) -> String {
    let face = match face {
        FaceId::Regular => 'r',
        FaceId::Bold => 'b',
        FaceId::Signs => 's',
    };
    format!("#{face}{glyph}")
}

/// Path data of a glyph in font units, or nothing for a space.
fn outline(face: FaceId, glyph: u16) -> Option<String> {
    let mut data = Data(String::new());
    face.face().outline_glyph(GlyphId(glyph), &mut data)?;
    (!data.0.is_empty()).then_some(data.0)
}

struct Data(String);

impl Data {
    fn put(&mut self, letter: char, numbers: &[f32]) {
        self.0.push(letter);
        for (index, &number) in numbers.iter().enumerate() {
            if index > 0 {
                self.0.push(' ');
            }
            self.0.push_str(&short(f64::from(number)));
        }
    }
}

impl OutlineBuilder for Data {
    fn move_to(&mut self, x: f32, y: f32) {
        self.put('M', &[x, y]);
    }
    fn line_to(&mut self, x: f32, y: f32) {
        self.put('L', &[x, y]);
    }
    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.put('Q', &[x1, y1, x, y]);
    }
    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        self.put('C', &[x1, y1, x2, y2, x, y]);
    }
    fn close(&mut self) {
        self.0.push('Z');
    }
}

fn drawn(path: &Path) -> element::Element {
    let mut data = String::new();
    for segment in &path.segments {
        let (letter, points) = match segment {
            Segment::Move(p) => ('M', vec![p]),
            Segment::Line(p) => ('L', vec![p]),
            Segment::Curve(a, b, p) => ('C', vec![a, b, p]),
            Segment::Close => ('Z', Vec::new()),
        };
        data.push(letter);
        let numbers: Vec<String> = points.iter().flat_map(|p| [short(p.x), short(p.y)]).collect();
        data.push_str(&numbers.join(" "));
    }
    let mut made = element::Path::new().set("d", data);
    made = made.set("fill", path.fill.map_or_else(|| "none".into(), colour));
    if path.even_odd && path.fill.is_some() {
        made = made.set("fill-rule", "evenodd");
    }
    if let Some(stroke) = &path.stroke {
        made = stroked(made, stroke);
    }
    made.into()
}

fn stroked(path: element::Path, stroke: &Stroke) -> element::Path {
    let mut path = path
        .set("stroke", colour(stroke.ink))
        .set("stroke-width", short(stroke.pen.width()))
        // The PDF's limit; SVG's own is 4.
        .set("stroke-miterlimit", 10);
    if !stroke.dash.is_empty() {
        let lengths: Vec<String> = stroke.dash.iter().map(|&mm| short(mm)).collect();
        path = path.set("stroke-dasharray", lengths.join(" "));
    }
    if stroke.cap == Cap::Round {
        path = path.set("stroke-linecap", "round");
    }
    if stroke.join == Join::Round {
        path = path.set("stroke-linejoin", "round");
    }
    path
}

fn pixels(image: &Image) -> element::Element {
    let place = &image.place;
    let made = element::Image::new()
        .set("x", short(place.x))
        .set("y", short(place.y))
        .set("width", short(place.width))
        .set("height", short(place.height))
        .set("preserveAspectRatio", "none");
    match encode(image.columns, image.rows, image.format, &image.pixels, None) {
        Ok(png) => made.set("href", format!("data:image/png;base64,{}", base64(&png))).into(),
        // Pixels that do not fit their own count are refused by `Document::faults`.
        Err(_) => made.into(),
    }
}

/// RFC 4648, section 4.
fn base64(bytes: &[u8]) -> String {
    const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for group in bytes.chunks(3) {
        let byte = |i: usize| u32::from(group.get(i).copied().unwrap_or(0));
        let bits = (byte(0) << 16) | (byte(1) << 8) | byte(2);
        for place in 0..4 {
            let letter = LETTERS[(bits >> (18 - 6 * place)) as usize & 63];
            text.push(if place > group.len() { '=' } else { char::from(letter) });
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn base64_gives_the_standards_examples() {
        // RFC 4648, section 10.
        for (plain, coded) in [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg=="),
            ("fooba", "Zm9vYmE="),
            ("foobar", "Zm9vYmFy"),
        ] {
            assert_eq!(base64(plain.as_bytes()), coded);
        }
    }
}
