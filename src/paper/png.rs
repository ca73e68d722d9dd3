//! Pages as pictures, for looking at without a PDF reader.

use super::Fault;
use super::picture::encode;
use crate::page::model::{
    Cap, FaceId, GlyphRun, Image, Ink, Item, Join, Page, Path, PixelFormat, Rect, Segment, Stroke,
};
use rustybuzz::ttf_parser::{GlyphId, OutlineBuilder};
use std::collections::BTreeMap;
use tiny_skia::{
    Color, FillRule, FilterQuality, LineCap, LineJoin, Mask, Paint, PathBuilder, Pixmap,
    PixmapPaint, PremultipliedColorU8, StrokeDash, Transform,
};

/// Most pixels of a picture: an A4 page at 1000 dpi.
const MOST: f64 = 100e6;

/// Draws a page as a PNG file with so many pixels in an inch. Grey, unless a picture on the page has
/// colours.
///
/// # Errors
/// [`Fault::NoCanvas`] if the picture would have no pixels or more than 100 million.
pub fn png_page(page: &Page, dpi: f64) -> Result<Vec<u8>, Fault> {
    let scale = dpi / 25.4;
    let (columns, rows) = ((page.width * scale).round(), (page.height * scale).round());
    let fits = columns >= 1.0 && rows >= 1.0 && columns * rows <= MOST;
    // `fits` is false for what is not a number.
    let pixmap = if fits { Pixmap::new(columns as u32, rows as u32) } else { None };
    let mut pixmap = pixmap.ok_or(Fault::NoCanvas { columns, rows })?;
    pixmap.fill(Color::WHITE);
    let mut canvas = Canvas {
        pixmap,
        to_pixels: Transform::from_scale(scale as f32, scale as f32),
        shapes: BTreeMap::new(),
    };
    for sequence in &page.content {
        canvas.items(&sequence.items, None);
    }
    let pixels = canvas.pixmap.pixels();
    let grey = pixels.iter().all(|p| p.red() == p.green() && p.green() == p.blue());
    let (format, bytes) = if grey {
        (PixelFormat::Grey8, pixels.iter().map(|p| p.red()).collect::<Vec<u8>>())
    } else {
        let bytes = pixels.iter().flat_map(|p| [p.red(), p.green(), p.blue()]).collect();
        (PixelFormat::Rgb8, bytes)
    };
    encode(canvas.pixmap.width(), canvas.pixmap.height(), format, &bytes, Some(dpi))
}

struct Canvas {
    pixmap: Pixmap,
    to_pixels: Transform,
    /// Outlines in font units; spaces have none.
    shapes: BTreeMap<(FaceId, u16), Option<tiny_skia::Path>>,
}

fn paint(ink: Ink) -> Paint<'static> {
    let mut paint = Paint::default();
    let level = (ink.grey() * 255.0).round() as u8;
    paint.set_color_rgba8(level, level, level, 255);
    paint
}

impl Canvas {
    fn items(&mut self, items: &[Item], mask: Option<&Mask>) {
        for item in items {
            match item {
                Item::Glyphs(run) => self.run(run, mask),
                Item::Path(path) => self.path(path, mask),
                Item::Image(image) => self.image(image, mask),
                Item::Clipped { window, items } => {
                    // Windows are not nested, so the outer mask, if any, is of no account.
                    if let Some(window) = self.window(window) {
                        self.items(items, Some(&window));
                    }
                }
            }
        }
    }

    fn window(&self, window: &Rect) -> Option<Mask> {
        let area = tiny_skia::Rect::from_xywh(
            window.x as f32,
            window.y as f32,
            window.width as f32,
            window.height as f32,
        )?;
        let mut mask = Mask::new(self.pixmap.width(), self.pixmap.height())?;
        let path = PathBuilder::from_rect(area);
        mask.fill_path(&path, FillRule::Winding, true, self.to_pixels);
        Some(mask)
    }

    fn run(&mut self, run: &GlyphRun, mask: Option<&Mask>) {
        let scale = run.size_mm() / f64::from(run.face.units_per_em());
        let (sin, cos) = run.angle.to_radians().sin_cos();
        let paint = paint(run.ink);
        let mut pen = 0.0;
        for glyph in &run.glyphs {
            let shape = self
                .shapes
                .entry((run.face, glyph.id))
                .or_insert_with(|| outline(run.face, glyph.id));
            let (along, up) = ((pen + f64::from(glyph.dx)) * scale, f64::from(glyph.dy) * scale);
            pen += f64::from(glyph.advance);
            let Some(shape) = shape else { continue };
            let x = run.origin.x + along * cos - up * sin;
            let y = run.origin.y - along * sin - up * cos;
            // Font units, y up, turned anticlockwise, to mm on the page, y down.
            let [a, b] = [scale * cos, scale * sin].map(|v| v as f32);
            let placed = Transform::from_row(a, -b, -b, -a, x as f32, y as f32);
            let placed = placed.post_concat(self.to_pixels);
            self.pixmap.fill_path(shape, &paint, FillRule::Winding, placed, mask);
        }
    }

    fn path(&mut self, path: &Path, mask: Option<&Mask>) {
        let mut builder = PathBuilder::new();
        for segment in &path.segments {
            let f = |p: crate::page::model::Point| (p.x as f32, p.y as f32);
            match *segment {
                Segment::Move(p) => builder.move_to(f(p).0, f(p).1),
                Segment::Line(p) => builder.line_to(f(p).0, f(p).1),
                Segment::Curve(a, b, p) => {
                    builder.cubic_to(f(a).0, f(a).1, f(b).0, f(b).1, f(p).0, f(p).1);
                }
                Segment::Close => builder.close(),
            }
        }
        let Some(made) = builder.finish() else { return };
        if let Some(ink) = path.fill {
            let rule = if path.even_odd { FillRule::EvenOdd } else { FillRule::Winding };
            self.pixmap.fill_path(&made, &paint(ink), rule, self.to_pixels, mask);
        }
        if let Some(stroke) = &path.stroke {
            let ink = paint(stroke.ink);
            self.pixmap.stroke_path(&made, &ink, &pen(stroke), self.to_pixels, mask);
        }
    }

    fn image(&mut self, image: &Image, mask: Option<&Mask>) {
        let Some(mut source) = Pixmap::new(image.columns, image.rows) else { return };
        let depth = match image.format {
            PixelFormat::Grey8 => 1,
            PixelFormat::Rgb8 => 3,
        };
        for (to, from) in source.pixels_mut().iter_mut().zip(image.pixels.chunks_exact(depth)) {
            let level = |i: usize| from.get(i).copied().unwrap_or(from[0]);
            let pixel = PremultipliedColorU8::from_rgba(level(0), level(1), level(2), 255);
            *to = pixel.unwrap_or(*to);
        }
        let place = &image.place;
        let transform = Transform::from_row(
            (place.width / f64::from(image.columns)) as f32,
            0.0,
            0.0,
            (place.height / f64::from(image.rows)) as f32,
            place.x as f32,
            place.y as f32,
        );
        // As PDF readers draw without smoothing; photographs are far finer than the page.
        let how = PixmapPaint { quality: FilterQuality::Nearest, ..PixmapPaint::default() };
        let placed = transform.post_concat(self.to_pixels);
        self.pixmap.draw_pixmap(0, 0, source.as_ref(), &how, placed, mask);
    }
}

fn pen(stroke: &Stroke) -> tiny_skia::Stroke {
    tiny_skia::Stroke {
        width: stroke.pen.width() as f32,
        miter_limit: 10.0,
        line_cap: match stroke.cap {
            Cap::Butt => LineCap::Butt,
            Cap::Round => LineCap::Round,
        },
        line_join: match stroke.join {
            Join::Miter => LineJoin::Miter,
            Join::Round => LineJoin::Round,
        },
        dash: StrokeDash::new(stroke.dash.iter().map(|&mm| mm as f32).collect(), 0.0),
    }
}

fn outline(face: FaceId, glyph: u16) -> Option<tiny_skia::Path> {
    let mut shape = Shape(PathBuilder::new());
    face.face().outline_glyph(GlyphId(glyph), &mut shape)?;
    shape.0.finish()
}

struct Shape(PathBuilder);

impl OutlineBuilder for Shape {
    fn move_to(&mut self, x: f32, y: f32) {
        self.0.move_to(x, y);
    }
    fn line_to(&mut self, x: f32, y: f32) {
        self.0.line_to(x, y);
    }
    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.0.quad_to(x1, y1, x, y);
    }
    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        self.0.cubic_to(x1, y1, x2, y2, x, y);
    }
    fn close(&mut self) {
        self.0.close();
    }
}
