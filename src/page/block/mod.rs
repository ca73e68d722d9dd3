//! Blocks: what a sheet is made of.
//!
//! A block is content with no place. Laid out in a width it becomes pieces, each of which stays whole
//! on one page; the pieces say what they keep company with.

mod actions;
mod blanks;
mod booklet;
mod columns;
mod dotted;
mod figure;
mod flow;
mod hold;
mod key_figures;
mod safety;
mod table;
mod table_layout;
mod table_widths;
mod under;
mod words;

use std::rc::Rc;

pub use actions::{Action, ActionRow, Actions, DoneWhen, Mode};
pub use blanks::{Blank, BlankWidth};
pub use booklet::{Booklet, Panel};
pub use columns::Column;
pub use dotted::{Dotted, Index, IndexEntry};
pub use figure::Figure;
pub use flow::Flow;
pub use hold::Hold;
pub use key_figures::KeyFigure;
pub use safety::{Safety, SignalWord};
pub use table::{Cell, ColumnAlign, ColumnWidth, Row, Table, TableColumn};
pub use under::Under;
pub use words::{Heading, Lead};

use super::context::{Context, ProblemKind};
use super::model::{NodeId, Rect};
use super::strip::{Owner, Strip};
use super::text::{Lines, Setting, Text, set};

/// A block of a sheet.
#[derive(Debug, Clone)]
pub enum Block {
    /// A heading inside the sheet, 14 pt bold.
    Heading(Heading),
    /// Running text, 11 pt.
    Paragraph(Text),
    /// A bold line, 11 pt: a caption of what follows, or a last word.
    Strong(Text),
    /// Unnumbered items, 11 pt.
    Bullets(Vec<Text>),
    /// The one thing the sheet is about, 28 pt, with notes at its right.
    Lead(Lead),
    /// Headline numbers, 28 pt, three in a row.
    KeyFigures(Vec<KeyFigure>),
    /// Numbered actions with boxes to tick.
    Actions(Actions),
    /// A table.
    Table(Table),
    /// A safety message.
    Safety(Safety),
    /// A hold line with blanks.
    Hold(Hold),
    /// A row of boxes to write in.
    Blanks(Vec<Blank>),
    /// Labels and values joined by dots.
    Dotted(Dotted),
    /// Sheets with their page numbers, linked.
    Index(Index),
    /// A drawing.
    Figure(Figure),
    /// Blocks side by side on the six-column grid.
    Columns(Vec<Column>),
    /// Blocks that run on from one narrow column to the next.
    Flow(Flow),
    /// Blocks under a caption that is repeated on each of their pages.
    Under(Under),
    /// Blocks that stay on one page with what follows them.
    WithNext(Vec<Block>),
    /// Ways to set the same content, such as a drawing beside or under a list. The one is used with
    /// which the sheet takes the fewest pages, and among those the one that draws at the largest
    /// scale; the first of equals. Its drawings give way in height if that saves a page. Only
    /// directly in a sheet; elsewhere the first is used.
    Choice(Vec<Vec<Block>>),
    /// One sheet to be folded to a pocket booklet; it has to be the only block of its sheet.
    Booklet(Booklet),
    /// A place to link to.
    Anchor(String),
    /// Empty height, mm, dropped at the top of a page.
    Space(f64),
    /// What follows starts on a new page, unless it has room under all that stands since the last such place.
    PageBreak,
}

/// Gap between columns of the grid, mm.
pub(crate) const GUTTER: f64 = 6.0;
/// A part of a block that stays whole.
#[derive(Debug, Clone, Default)]
#[expect(clippy::struct_excessive_bools, reason = "wishes of a piece, each apart from the others")]
pub(crate) struct Piece {
    pub strip: Strip,
    pub height: f64,
    /// Room above, mm, unless at the top of a page.
    pub before: f64,
    /// Stays on one page with the next piece.
    pub keep: bool,
    /// Starts on the 2.5 mm rhythm.
    pub snap: bool,
    /// What follows comes close under it: a heading.
    pub tight: bool,
    /// Drawn above this piece if it is the first on a page: a table's head.
    pub head: Option<Rc<(Strip, f64)>>,
    /// Drawn under this piece if it is the last on its page: a table's closing rule.
    pub closing: Option<Rc<Strip>>,
    /// Counts towards the most actions of a page.
    pub action: bool,
    /// Starts a page.
    pub breaks: bool,
    /// A good place to start a page: something new begins, such as behind a hold line.
    pub opens: bool,
    /// Running words, which belong to what stands before them.
    pub words: bool,
}

impl Piece {
    pub fn new(strip: Strip, height: f64) -> Self {
        Self { strip, height, ..Self::default() }
    }

    /// The same for measuring only.
    pub fn without_strip(&self) -> Self {
        Self { strip: Strip::new(), head: self.head.clone(), closing: None, ..*self }
    }
}

/// Lays blocks out one under the other.
pub(crate) fn lay_all(
    blocks: &[Block],
    width: f64,
    parent: NodeId,
    context: &Context,
) -> Vec<Piece> {
    let mut pieces = Vec::new();
    for block in blocks {
        pieces.extend(lay(block, width, parent, context));
    }
    pieces
}

pub(crate) fn lay(block: &Block, width: f64, parent: NodeId, context: &Context) -> Vec<Piece> {
    match block {
        Block::Heading(heading) => words::heading(heading, width, parent, context),
        Block::Paragraph(text) => words::paragraph(text, false, width, parent, context),
        Block::Strong(text) => words::paragraph(text, true, width, parent, context),
        Block::Bullets(items) => words::bullets(items, width, parent, context),
        Block::Lead(lead) => words::lead(lead, width, parent, context),
        Block::KeyFigures(figures) => key_figures::lay(figures, width, parent, context),
        Block::Actions(actions) => actions::lay(actions, width, parent, context),
        Block::Table(table) => table_layout::lay(table, width, parent, context),
        Block::Safety(safety) => safety::lay(safety, width, parent, context),
        Block::Hold(hold) => hold::lay(hold, width, parent, context),
        Block::Blanks(blanks) => blanks::lay(blanks, width, parent, context),
        Block::Dotted(dotted) => dotted::lay(dotted, width, parent, context),
        Block::Index(index) => dotted::lay_index(index, width, parent, context),
        Block::Figure(figure) => figure::lay(figure, width, parent, context),
        Block::Columns(columns) => columns::lay(columns, width, parent, context),
        Block::Flow(flow) => flow::lay(flow, width, parent, context),
        Block::Under(under) => under::lay(under, width, parent, context),
        Block::WithNext(blocks) => {
            let mut pieces = lay_all(blocks, width, parent, context);
            for piece in &mut pieces {
                piece.keep = true;
            }
            pieces
        }
        Block::Choice(ways) => {
            let (way, limit) = context.way.get();
            let before = context.figure_limit.replace(limit);
            let way = ways.get(way).or(ways.first());
            let pieces = way.map_or_else(Vec::new, |w| lay_all(w, width, parent, context));
            context.figure_limit.set(before);
            pieces
        }
        Block::Booklet(booklet) => booklet::lay_flat(booklet, width, parent, context),
        Block::Anchor(name) => {
            let mut strip = Strip::new();
            strip.anchors.push((name.clone(), 0.0));
            vec![Piece { keep: true, ..Piece::new(strip, 0.0) }]
        }
        Block::Space(height) => {
            let before = if height.is_finite() { height.clamp(0.0, 100.0) } else { 0.0 };
            vec![Piece { before, ..Piece::new(Strip::new(), 0.0) }]
        }
        Block::PageBreak => {
            vec![Piece { breaks: true, keep: true, ..Piece::new(Strip::new(), 0.0) }]
        }
    }
}

/// A box to tick, as a figure of its own in the tag tree. `x` and `y` are its outer top left corner.
pub(crate) fn tick_box(
    strip: &mut Strip,
    (x, y, side): (f64, f64, f64),
    parent: NodeId,
    context: &Context,
) {
    let node = context.tags.blank(parent, &context.say("box to tick"));
    let area = Rect::new(x, y, side, side);
    strip.path(Owner::Node(node), super::draw::frame(area, super::model::Pen::W050));
    strip.figure(node, area);
}

/// An empty frame to write in, as a figure of its own.
pub(crate) fn write_box(
    strip: &mut Strip,
    area: Rect,
    label: &str,
    parent: NodeId,
    context: &Context,
) {
    let blank = context.say("blank to fill in");
    let alt = if label.is_empty() { blank } else { format!("{blank}: {label}") };
    let node = context.tags.blank(parent, &alt);
    strip.path(Owner::Node(node), super::draw::frame(area, super::model::Pen::W025));
    strip.figure(node, area);
}

/// The text in at most `most` lines; a longer one is cut with an ellipsis and told of.
pub(crate) fn limited(text: &Text, setting: Setting, most: usize, context: &Context) -> Lines {
    let lines = set(text, setting, context);
    if lines.count() <= most {
        return lines;
    }
    context.problem(ProblemKind::TooLong, text.plain());
    lines.cut(most, context)
}

/// Pieces one under the other as one strip; returns it and its height.
pub(crate) fn stack(pieces: Vec<Piece>) -> (Strip, f64) {
    let mut strip = Strip::new();
    let mut y = 0.0;
    let mut tight = false;
    for (index, piece) in pieces.into_iter().enumerate() {
        if index > 0 {
            y += if tight { piece.before.min(1.2) } else { piece.before };
        }
        tight = piece.tight;
        strip.add(piece.strip, 0.0, y);
        y += piece.height;
    }
    (strip, y)
}
