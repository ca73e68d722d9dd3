//! The finished page: what the layout makes and the writers draw.
//!
//! Everything is settled here. A writer needs no font metrics, no line breaking and no knowledge of
//! what a sheet is about; it walks the pages and draws what it finds, in the order in which it finds
//! it. The module takes nothing from the rest of the crate but the faces in [`super::fonts`].
//!
//! # Coordinates
//! Millimetres on paper as `f64`, from the top left corner of the page, `x` to the right and `y`
//! **down**. A PDF writer turns a height over with `page.height - y`. Type sizes are in points of
//! 1/72 in (25.4/72 mm). Angles are in degrees, anticlockwise as seen on the page, 0 to the right.
//!
//! # Tags
//! A page is a list of [`Sequence`]s. Each one is either an artifact (frames, rules, tabs, the
//! identity line) or a marked-content sequence with an `mcid` that is unique on its page and counts
//! from 0 in drawing order. The tag tree is [`Document::tree`], a flat list in which node 0 is the
//! root with [`Role::Document`]; each [`Node`] lists its kids in reading order: other nodes, marked
//! content by page and `mcid`, or a link by its number (to be written as an object reference).
//!
//! Held by the layout, so writers may rely on it (see [`Document::faults`]):
//! - every `mcid` is the kid of exactly one node and no sequence is nested in another;
//! - each node but the root is the kid of exactly one node, and kids come after parents in the list;
//! - headings start at H1 and skip no level; `Figure` has `alt` and `bbox`; `Th` has `scope`;
//! - each row of a table has the same count of cells, spans counted;
//! - each link has a `Link` node whose kids are its content and the link itself;
//! - every sequence holds at least one item, every run at least one glyph, every path a segment.

mod tree;

use std::sync::Arc;

pub use super::fonts::FaceId;
pub use tree::{Attachment, Destination, Kid, Link, Metadata, Node, OutlineEntry, Role, Scope};

/// A finished packet: pages, tags, links, outline and what the file says about itself.
#[derive(Debug, Clone, PartialEq)]
pub struct Document {
    /// Title of the whole packet, shown in the window's title bar.
    pub title: String,
    /// Language of the text as a BCP 47 tag, such as `en`.
    pub language: String,
    /// Pages in order.
    pub pages: Vec<Page>,
    /// Tag tree; node 0 is the root and has [`Role::Document`].
    pub tree: Vec<Node>,
    /// Nested outline (bookmarks).
    pub outline: Vec<OutlineEntry>,
    /// Named places that links point to, sorted by name, names unique.
    pub destinations: Vec<Destination>,
    /// Links in page order; a [`Kid::Link`] is an index into this list.
    pub links: Vec<Link>,
    /// What goes into the file's metadata.
    pub metadata: Metadata,
    /// A file that travels inside the PDF (the build file).
    pub attachment: Option<Attachment>,
    /// True if the packet is laid out for printing on both sides, turned on the long edge.
    pub duplex: bool,
}

/// One side of one sheet of paper.
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    /// Width of the paper, mm.
    pub width: f64,
    /// Height of the paper, mm.
    pub height: f64,
    /// Page label, as printed in the identity line ("1", "2", …).
    pub label: String,
    /// Title of the sheet this page belongs to, for file names and listings.
    pub title: String,
    /// Kind of sheet in one or two words, as printed on the tab ("Step", "Cut"); may be empty.
    pub kind: String,
    /// True if the paper's other side has to stay blank.
    pub single_sided: bool,
    /// Content in drawing order, which is also the reading order of what is tagged.
    pub content: Vec<Sequence>,
}

/// A stretch of content under one mark.
#[derive(Debug, Clone, PartialEq)]
pub struct Sequence {
    /// Tagged or artifact.
    pub mark: Mark,
    /// Items in drawing order, later ones over earlier ones.
    pub items: Vec<Item>,
}

/// Whether content is part of the tag tree.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mark {
    /// Decoration or repeated furniture; not in the tag tree.
    Artifact(ArtifactKind),
    /// Marked content: number on this page, and the node whose kid it is (its role names the tag
    /// of the marked content operator).
    Content {
        /// Marked-content id, unique on the page.
        mcid: usize,
        /// Index into [`Document::tree`].
        node: NodeId,
    },
}

/// Kinds of artifact, as PDF names them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ArtifactKind {
    /// Identity line, tab, job strip and title of a continued page: `/Type /Pagination`.
    Pagination,
    /// Rules, frames, dot leaders, backgrounds: `/Type /Layout`.
    Layout,
}

/// Index of a node in [`Document::tree`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct NodeId(pub usize);

impl NodeId {
    /// The root of the tag tree.
    pub const ROOT: NodeId = NodeId(0);
}

/// A thing to draw.
#[derive(Debug, Clone, PartialEq)]
pub enum Item {
    /// Text.
    Glyphs(GlyphRun),
    /// Lines and areas.
    Path(Path),
    /// Pixels.
    Image(Image),
    /// Items drawn only where they lie inside a rectangle (a tile of a large template). Never nested.
    Clipped {
        /// What stays visible.
        window: Rect,
        /// Items in drawing order.
        items: Vec<Item>,
    },
}

/// A place on a page, mm.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    /// From the left edge, mm.
    pub x: f64,
    /// From the top edge, mm, down.
    pub y: f64,
}

impl Point {
    /// A place from its two distances in mm.
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }
}

/// A rectangle on a page, mm; `width` and `height` are not negative.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Rect {
    /// Left edge.
    pub x: f64,
    /// Top edge.
    pub y: f64,
    /// Extent to the right.
    pub width: f64,
    /// Extent downwards.
    pub height: f64,
}

impl Rect {
    /// A rectangle from its top left corner and its extents in mm.
    pub const fn new(x: f64, y: f64, width: f64, height: f64) -> Self {
        Self { x, y, width, height }
    }

    /// The right edge.
    pub fn right(&self) -> f64 {
        self.x + self.width
    }

    /// The bottom edge.
    pub fn bottom(&self) -> f64 {
        self.y + self.height
    }

    /// The smallest rectangle around both.
    #[must_use]
    pub fn union(&self, other: &Rect) -> Rect {
        let x = self.x.min(other.x);
        let y = self.y.min(other.y);
        Rect::new(x, y, self.right().max(other.right()) - x, self.bottom().max(other.bottom()) - y)
    }

    /// Whether the two share more than `slack` mm in both directions.
    pub fn overlaps(&self, other: &Rect, slack: f64) -> bool {
        self.right().min(other.right()) - self.x.max(other.x) > slack
            && self.bottom().min(other.bottom()) - self.y.max(other.y) > slack
    }

    /// Whether `other` lies inside, with `slack` mm of leniency.
    pub fn holds(&self, other: &Rect, slack: f64) -> bool {
        other.x >= self.x - slack
            && other.y >= self.y - slack
            && other.right() <= self.right() + slack
            && other.bottom() <= self.bottom() + slack
    }
}

/// What marks on paper are made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ink {
    /// Full black.
    Black,
    /// Paper white (over black).
    White,
    /// Black at so many percent, 1 to 10. For areas only, never for text or lines.
    Tint(u8),
}

impl Ink {
    /// Lightness from 0 (black) to 1 (white).
    pub fn grey(self) -> f64 {
        match self {
            Ink::Black => 0.0,
            Ink::White => 1.0,
            Ink::Tint(percent) => 1.0 - f64::from(percent.min(100)) / 100.0,
        }
    }
}

/// Glyphs of one face and size on one baseline.
///
/// The first glyph's origin is `origin`; each glyph is drawn at the pen plus its offsets, then the
/// pen moves on by its advance along the turned baseline. All three are in font units of the face
/// ([`FaceId::units_per_em`]), `y` **up** as fonts have it. In mm: `units * size_mm() / units_per_em`.
#[derive(Debug, Clone, PartialEq)]
pub struct GlyphRun {
    /// Face the glyph ids belong to.
    pub face: FaceId,
    /// Type size, points.
    pub size: f64,
    /// Start of the baseline, mm.
    pub origin: Point,
    /// Direction of the baseline in degrees, anticlockwise; 0 reads to the right, 90 upwards.
    pub angle: f64,
    /// Black or white.
    pub ink: Ink,
    /// The characters of the run in reading order, for extraction.
    pub text: String,
    /// Glyphs in drawing order (left to right along the baseline, for right-to-left text too).
    pub glyphs: Vec<Glyph>,
}

impl GlyphRun {
    /// Size of the em in mm.
    pub fn size_mm(&self) -> f64 {
        self.size * 25.4 / 72.0
    }

    /// Length of the run along its baseline, mm.
    pub fn length(&self) -> f64 {
        let units: i64 = self.glyphs.iter().map(|g| i64::from(g.advance)).sum();
        units as f64 * self.size_mm() / f64::from(self.face.units_per_em())
    }

    /// The box from ascender to descender of the face along the run, as an upright rectangle around it.
    pub fn bounds(&self) -> Rect {
        let up = self.face.text_ascent() * self.size_mm();
        let down = self.face.text_descent() * self.size_mm();
        let long = self.length();
        let (sin, cos) = self.angle.to_radians().sin_cos();
        let corners = [(0.0, up), (long, up), (0.0, -down), (long, -down)]
            .map(|(a, b)| (self.origin.x + a * cos - b * sin, self.origin.y - a * sin - b * cos));
        let fold = |pick: fn(f64, f64) -> f64, start: f64, of: fn(&(f64, f64)) -> f64| {
            corners.iter().map(of).fold(start, pick)
        };
        let x = fold(f64::min, f64::INFINITY, |c| c.0);
        let y = fold(f64::min, f64::INFINITY, |c| c.1);
        let right = fold(f64::max, f64::NEG_INFINITY, |c| c.0);
        let bottom = fold(f64::max, f64::NEG_INFINITY, |c| c.1);
        Rect::new(x, y, right - x, bottom - y)
    }
}

/// One glyph of a run.
///
/// `text` is the byte range of [`GlyphRun::text`] that the glyph stands for. A ligature has several
/// characters; of several glyphs that make one cluster the first in the list has all its text and
/// the others an empty range. The ranges together cover the text once. One glyph id may stand for
/// different texts in different runs (a space and a no-break space): a PDF writer whose `ToUnicode` map is taken already
/// wraps such a glyph, and a cluster of several glyphs, in a span with `ActualText`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Glyph {
    /// Glyph id in the face; never 0.
    pub id: u16,
    /// Movement of the pen, font units, kerning included.
    pub advance: i32,
    /// Shift of the drawn glyph to the right, font units.
    pub dx: i32,
    /// Shift of the drawn glyph upwards, font units.
    pub dy: i32,
    /// Start of its text, bytes.
    pub text_start: u32,
    /// End of its text, bytes; equal to the start if the text belongs to another glyph.
    pub text_end: u32,
}

/// Line widths of ISO 128-2; nothing is drawn in another.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Pen {
    /// 0.18 mm, hatching on sheets other than step sheets.
    W018,
    /// 0.25 mm, dimensions, centre lines, context.
    W025,
    /// 0.35 mm
    W035,
    /// 0.5 mm, visible edges.
    W050,
    /// 0.7 mm, what a step is about.
    W070,
    /// 1.0 mm
    W100,
    /// 1.4 mm
    W140,
}

impl Pen {
    /// Width of the line, mm.
    pub fn width(self) -> f64 {
        match self {
            Pen::W018 => 0.18,
            Pen::W025 => 0.25,
            Pen::W035 => 0.35,
            Pen::W050 => 0.5,
            Pen::W070 => 0.7,
            Pen::W100 => 1.0,
            Pen::W140 => 1.4,
        }
    }
}

/// How a line ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cap {
    /// Square, at the end point.
    Butt,
    /// Half a disc beyond the end point.
    Round,
}

/// How two lines meet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Join {
    /// Sharp, with the usual limit of 10.
    Miter,
    /// Round.
    Round,
}

/// A stroke along a path.
#[derive(Debug, Clone, PartialEq)]
pub struct Stroke {
    /// Width.
    pub pen: Pen,
    /// Black or white.
    pub ink: Ink,
    /// Lengths of marks and gaps in turn, mm; empty for a continuous line, else an even count.
    pub dash: Vec<f64>,
    /// Ends, of dashes too.
    pub cap: Cap,
    /// Corners.
    pub join: Join,
}

/// One piece of a path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Segment {
    /// Start a new subpath.
    Move(Point),
    /// Straight to the point.
    Line(Point),
    /// Cubic Bézier curve by two control points to the third.
    Curve(Point, Point, Point),
    /// Straight back to the start of the subpath.
    Close,
}

/// Lines and areas. Each subpath starts with `Move`. The area is filled first, then the line drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Path {
    /// Pieces in order.
    pub segments: Vec<Segment>,
    /// The line, if any.
    pub stroke: Option<Stroke>,
    /// The area, if any.
    pub fill: Option<Ink>,
    /// Fill by the even-odd rule; otherwise by non-zero winding.
    pub even_odd: bool,
}

/// A picture made of pixels, stretched over its box.
#[derive(Debug, Clone, PartialEq)]
pub struct Image {
    /// Where it goes, mm.
    pub place: Rect,
    /// Columns of pixels.
    pub columns: u32,
    /// Rows of pixels.
    pub rows: u32,
    /// How a pixel is stored.
    pub format: PixelFormat,
    /// Rows from the top, without padding.
    pub pixels: Arc<[u8]>,
}

/// How a pixel is stored.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PixelFormat {
    /// One byte, 0 black.
    Grey8,
    /// Three bytes, sRGB.
    Rgb8,
}
