//! Sheets: what is asked for, and what is answered.
use super::plan::{Measure, Proof, Remark};

/// Most pieces that one sheet section may ask for.
pub const MOST_SHEET_PIECES: usize = 2_000;
/// Longest side that is accepted: 100 m in hundredths of a millimetre, so that sums of areas stay
/// inside 64 bits.
pub const MOST_SIDE: i64 = 10_000_000;

/// A rectangular piece to be cut, once.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct SheetPiece {
    /// The reader's name for it; pieces may share one.
    pub id: String,
    /// Size along the sheet's width, in hundredths of a millimetre; more than zero.
    pub width: i64,
    /// Size along the sheet's height; more than zero.
    pub height: i64,
    /// Whether it may be turned by a right angle (no grain, no pattern).
    pub turn: bool,
}

/// A sheet that can be bought, or a leftover on hand.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct SheetStock {
    /// Name of this sheet, unlike the others of its section.
    pub id: String,
    /// Whole width.
    pub width: i64,
    /// Whole height.
    pub height: i64,
    /// Taken off each of the four edges, its own saw cut included.
    pub trim: i64,
    /// Price of one sheet in cents; missing prices as for bars, with area in place of length.
    pub price: Option<i64>,
    /// Sheets on hand; `None` means as many as wanted.
    pub limit: Option<u32>,
}

/// Pieces and sheets of one material and thickness.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetSection {
    /// Name of the section, unlike the others of the job.
    pub name: String,
    /// Width of the saw cut, zero or more.
    pub kerf: i64,
    /// The pieces to cut, in any order.
    pub pieces: Vec<SheetPiece>,
    /// The sheets to cut them from, in any order.
    pub stock: Vec<SheetStock>,
}

/// A whole job of sheets.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetJob {
    /// The sections, in any order.
    pub sections: Vec<SheetSection>,
    /// Work allowed for each section, counted in steps; see [`super::Job::work_limit`].
    pub work_limit: u64,
}

/// A rectangle on a sheet; the corner nearest the sheet's zero corner, and its size.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Panel {
    /// Along the width from the sheet's zero corner.
    pub x: i64,
    /// Along the height from the sheet's zero corner.
    pub y: i64,
    /// Size along the width.
    pub width: i64,
    /// Size along the height.
    pub height: i64,
}

impl Panel {
    /// Area, zero or more.
    pub fn area(&self) -> i64 {
        self.width * self.height
    }
}

/// A piece where it lies.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Placed {
    /// The piece's name.
    pub piece: String,
    /// Where it lies.
    pub panel: Panel,
    /// Whether it lies turned by a right angle.
    pub turned: bool,
}

/// One straight cut from edge to edge of a panel, in the order of sawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SheetCut {
    /// Whether the cut runs along the height (parts left from right) or along the width.
    pub along_height: bool,
    /// Where the kept side ends and the kerf begins: x if along the height, else y.
    pub at: i64,
    /// The panel that is parted.
    pub of: Panel,
}

/// One sheet and how it is cut.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CutSheet {
    /// Id of the stock.
    pub stock: String,
    /// Whole width of the sheet.
    pub width: i64,
    /// Whole height of the sheet.
    pub height: i64,
    /// Trim at each edge.
    pub trim: i64,
    /// Price of the sheet if it has one.
    pub price: Option<i64>,
    /// The pieces.
    pub placed: Vec<Placed>,
    /// The cuts in order; each runs from edge to edge of a panel that earlier cuts left.
    pub cuts: Vec<SheetCut>,
    /// Panels that are left over, largest first.
    pub leftovers: Vec<Panel>,
}

/// The plan of one sheet section.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetSectionPlan {
    /// Name of the section.
    pub section: String,
    /// The sheets in the order of cutting.
    pub sheets: Vec<CutSheet>,
    /// What the cost is counted in; [`Measure::BoughtLength`] stands for the area bought, in square
    /// millimetres rounded up, sheet by sheet.
    pub measure: Measure,
    /// First criterion: cost of all sheets, least.
    pub cost: Proof,
    /// Second: area of the largest strip that one cut across a whole sheet leaves, most.
    pub leftover: Proof,
    /// What is worth telling.
    pub remarks: Vec<Remark>,
}

/// The plan of a job of sheets: sections in the order of their names.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetPlan {
    /// One plan a section.
    pub sections: Vec<SheetSectionPlan>,
}

impl SheetPlan {
    /// Whether the least cost is proven for every section.
    pub fn proven(&self) -> bool {
        self.sections.iter().all(|s| s.cost.proven())
    }
}
