//! Tables: what they hold. Widths come from the content, numbers stand on their decimal point, a rule
//! follows every group or every fourth row, and the head is repeated where a table runs on (page rules
//! 57 and 58).

use crate::page::scene::Scene;
use crate::page::text::Text;

/// A table.
#[derive(Debug, Clone, Default)]
pub struct Table {
    /// Columns from the left.
    pub columns: Vec<TableColumn>,
    /// Heads over several columns: words and how many columns they span; empty for none. The spans
    /// must add up to the count of columns.
    pub over: Vec<(Text, usize)>,
    /// Rows from the top.
    pub rows: Vec<Row>,
}

/// A column of a table.
#[derive(Debug, Clone)]
pub struct TableColumn {
    /// Head, 11 pt bold, with the unit after a comma: "length, mm".
    pub head: Text,
    /// Where its cells stand.
    pub align: ColumnAlign,
    /// How wide it is.
    pub width: ColumnWidth,
}

/// Where the cells of a column stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ColumnAlign {
    /// Words: at the left.
    Left,
    /// At the right.
    Right,
    /// Numbers: on the decimal point.
    Decimal,
    /// In the middle.
    Centre,
}

/// How wide a column is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ColumnWidth {
    /// As its content asks.
    Auto,
    /// As its content asks, and never more than this many mm.
    AtMost(f64),
    /// This many mm.
    Mm(f64),
}

/// A row of a table.
#[derive(Debug, Clone, Default)]
pub struct Row {
    /// Cells from the left. Missing ones are printed as a dash, surplus ones are dropped.
    pub cells: Vec<Cell>,
    /// Whether the row ends a group: a rule is drawn under it. Where no row of a table says so, a
    /// rule is drawn under every fourth.
    pub ends_group: bool,
}

/// A cell of a table.
#[derive(Debug, Clone)]
pub enum Cell {
    /// Words or a number, 11 pt.
    Text(Text),
    /// The same in bold.
    Bold(Text),
    /// What the row is about (a mark, a name), in bold; the head of its row when read aloud.
    Head(Text),
    /// A box to tick.
    Tick,
    /// A box to write in, 10 mm high, with this unit after it.
    Blank(String),
    /// A box to write a clock in, 7 mm high.
    Clock,
    /// Nothing known or nothing to say: a dash.
    Dash,
    /// A small drawing at its own size.
    Scene(Scene),
}

impl From<&str> for Cell {
    fn from(words: &str) -> Self {
        Cell::Text(words.into())
    }
}

impl From<String> for Cell {
    fn from(words: String) -> Self {
        Cell::Text(words.into())
    }
}

impl From<Text> for Cell {
    fn from(words: Text) -> Self {
        Cell::Text(words)
    }
}

impl TableColumn {
    /// A column of words.
    pub fn left(head: impl Into<Text>) -> Self {
        Self { head: head.into(), align: ColumnAlign::Left, width: ColumnWidth::Auto }
    }

    /// A column of numbers, on the decimal point.
    pub fn number(head: impl Into<Text>) -> Self {
        Self { head: head.into(), align: ColumnAlign::Decimal, width: ColumnWidth::Auto }
    }

    /// A column whose cells stand at the right.
    pub fn right(head: impl Into<Text>) -> Self {
        Self { head: head.into(), align: ColumnAlign::Right, width: ColumnWidth::Auto }
    }

    /// A column whose cells stand in the middle: boxes to tick, signs.
    pub fn centre(head: impl Into<Text>) -> Self {
        Self { head: head.into(), align: ColumnAlign::Centre, width: ColumnWidth::Auto }
    }

    /// The same column so wide.
    #[must_use]
    pub fn width(mut self, width: ColumnWidth) -> Self {
        self.width = width;
        self
    }
}

impl Row {
    /// A row of these cells.
    pub fn new(cells: Vec<Cell>) -> Self {
        Self { cells, ends_group: false }
    }

    /// The same row as the last of its group.
    #[must_use]
    pub fn ends_group(mut self) -> Self {
        self.ends_group = true;
        self
    }
}
