//! Labels and values joined by dots, and the index of sheets.

use super::{GUTTER, Piece, limited};
use crate::page::context::Context;
use crate::page::draw::stroke;
use crate::page::model::{Cap, NodeId, Path, Pen, Point, Role, Segment, Stroke};
use crate::page::strip::{Owner, Strip};
use crate::page::text::{Align, Lines, Setting, Span, Text, Words, set};

/// Groups of labels with values, such as what to have ready.
#[derive(Debug, Clone, Default)]
pub struct Dotted {
    /// Groups, a little space between them; each row is a label and its value.
    pub groups: Vec<Vec<(Text, Text)>>,
}

/// Sheets with their page numbers.
#[derive(Debug, Clone)]
pub struct Index {
    /// Lines in order.
    pub entries: Vec<IndexEntry>,
    /// Columns side by side, at least 1; filled one after the other.
    pub columns: usize,
}

/// A line of the index.
#[derive(Debug, Clone)]
pub struct IndexEntry {
    /// Words.
    pub label: String,
    /// Anchors of the sheets that it stands for; the link goes to the first.
    pub anchors: Vec<String>,
}

impl IndexEntry {
    /// A line for one sheet.
    pub fn new(label: impl Into<String>, anchor: impl Into<String>) -> Self {
        Self { label: label.into(), anchors: vec![anchor.into()] }
    }
}

pub(super) fn lay(dotted: &Dotted, width: f64, parent: NodeId, context: &Context) -> Vec<Piece> {
    if dotted.groups.iter().all(Vec::is_empty) {
        return Vec::new();
    }
    let list = context.tags.node(parent, Role::L);
    let mut pieces = Vec::new();
    for group in &dotted.groups {
        for (index, (label, value)) in group.iter().enumerate() {
            let item = context.tags.node(list, Role::Li);
            // What has no value is the item itself: a body without content would be read as nothing.
            let role = if value.is_empty() { Role::LBody } else { Role::Lbl };
            let first = context.tags.node(item, role);
            let second =
                if value.is_empty() { first } else { context.tags.node(item, Role::LBody) };
            let mut strip = Strip::new();
            let owners = (Owner::Node(first), Owner::Node(second));
            let height = row(&mut strip, (label, value), (0.0, width), owners, context);
            let before = if index == 0 { 2.0 } else { 0.35 };
            pieces.push(Piece { before, ..Piece::new(strip, height) });
        }
    }
    if let Some(first) = pieces.first_mut() {
        first.snap = true;
    }
    pieces
}

/// Draws label, dots and value; returns the height.
fn row(
    strip: &mut Strip,
    (label, value): (&Text, &Text),
    (x, width): (f64, f64),
    (first, second): (Owner, Owner),
    context: &Context,
) -> f64 {
    let right =
        limited(value, Setting::new(context.small(), width * 0.62).align(Align::Right), 6, context);
    let left = limited(label, Setting::new(context.small(), width), 6, context);
    let gap = 2.0;
    let beside = |left: &Lines| left.last_width() + gap + right.width() <= width;
    let mut left = left;
    if !beside(&left) {
        // A shorter label column leaves room for the value on its last line.
        let narrow = (width - gap - right.width()).max(width * 0.36);
        left = limited(label, Setting::new(context.small(), narrow), 6, context);
    }
    let y = left.draw(strip, x, 0.0, first, context);
    let line = left.setting().line();
    let joined = beside(&left);
    let top = if joined { (y - line).max(0.0) } else { y };
    let end = right.draw(strip, x + width - width * 0.62, top, second, context);
    if joined && right.count() > 0 {
        let first_line = right.part(0, 1).width();
        dots(
            strip,
            (x + left.last_width(), x + width - first_line),
            top + left.setting().baseline(),
        );
    }
    y.max(end)
}

/// Leader dots between two places on one line, set on one raster so that rows agree.
fn dots(strip: &mut Strip, (from, to): (f64, f64), baseline: f64) {
    const STEP: f64 = 1.9;
    let start = ((from + 1.0) / STEP).ceil() * STEP;
    let end = to - 1.0;
    if end - start < 0.1 {
        return;
    }
    let y = baseline - 0.2;
    let segments = vec![Segment::Move(Point::new(start, y)), Segment::Line(Point::new(end, y))];
    let line = Stroke { dash: vec![0.01, STEP - 0.01], cap: Cap::Round, ..stroke(Pen::W050) };
    strip.path(Owner::Layout, Path { segments, stroke: Some(line), fill: None, even_odd: false });
}

pub(super) fn lay_index(
    index: &Index,
    width: f64,
    parent: NodeId,
    context: &Context,
) -> Vec<Piece> {
    if index.entries.is_empty() {
        return Vec::new();
    }
    let columns = index.columns.clamp(1, 4);
    let column = (width - GUTTER * (columns - 1) as f64) / columns as f64;
    let toc = context.tags.node(parent, Role::Toc);
    let down = index.entries.len().div_ceil(columns);
    // Long indexes are set in bands that fit a page.
    let most = ((context.height / 6.0) as usize).max(4);
    let bands = down.div_ceil(most);
    let per_band = down.div_ceil(bands);
    let mut pieces = Vec::new();
    for (number, band) in index.entries.chunks(per_band * columns).enumerate() {
        let per_column = band.len().div_ceil(columns);
        let mut strip = Strip::new();
        let mut tallest: f64 = 0.0;
        for (c, entries) in band.chunks(per_column).enumerate() {
            let x = c as f64 * (column + GUTTER);
            let mut y = 0.0;
            for entry in entries {
                let mut part = Strip::new();
                let height = index_row(&mut part, entry, column, toc, context);
                strip.add(part, x, y);
                y += height + 0.35;
            }
            tallest = tallest.max(y);
        }
        pieces.push(Piece { before: 2.0, snap: number == 0, ..Piece::new(strip, tallest) });
    }
    pieces
}

fn index_row(
    strip: &mut Strip,
    entry: &IndexEntry,
    width: f64,
    toc: NodeId,
    context: &Context,
) -> f64 {
    let item = context.tags.node(toc, Role::Toci);
    let pages = context.pages_of(&entry.anchors);
    let link = context.tags.node(item, Role::Link);
    let words = Words::PagesOf(entry.anchors.clone());
    let value = Text { spans: vec![Span { words, bold: false, link: None }] };
    let label = Text::from(&entry.label);
    let owner = Owner::Node(link);
    let height = row(strip, (&label, &value), (0.0, width), (owner, owner), context);
    let area = crate::page::model::Rect::new(0.0, 0.0, width, height);
    let contents = format!("{}, {} {pages}", entry.label, context.say("sheet"));
    let target = entry.anchors.first().map_or("", String::as_str);
    strip.link(link, area, target, &contents);
    height
}

/// The text in one line for measuring.
pub(super) fn natural(text: &Text, bold: bool, size: f64, context: &Context) -> f64 {
    let setting = Setting::new(size, 1.0e6).most(usize::MAX);
    set(text, if bold { setting.bold() } else { setting }, context).width()
}
