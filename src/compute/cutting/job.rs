//! What is asked for: sections, the pieces to cut from each, and the stock there is.

/// Most pieces that one section may ask for.
pub const MOST_PIECES: usize = 20_000;
/// Longest length that is accepted: 10 km in hundredths of a millimetre. Sums of [`MOST_PIECES`]
/// such lengths stay far inside 64 bits.
pub const MOST_LENGTH: i64 = 1_000_000_000;
/// Highest price of one bar or sheet that is accepted, in cents.
pub const MOST_PRICE: i64 = 1_000_000_000;

/// A piece to be cut, once.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Piece {
    /// The reader's name for it; pieces may share one.
    pub id: String,
    /// Finished length in hundredths of a millimetre, long point to long point; more than zero.
    pub length: i64,
    /// Length that the piece's saw cuts take beyond one square kerf, zero for square ends. A mitre
    /// takes kerf / cos(angle) along the bar, so the caller gives kerf / cos(angle) - kerf for each
    /// mitred end, rounded up. It is always kept inside the bar, also on the last piece.
    pub extra: i64,
}

/// A stock length that can be bought, or a leftover on hand.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Stock {
    /// Name of this stock length, unlike the others of its section.
    pub id: String,
    /// Whole length in hundredths of a millimetre.
    pub length: i64,
    /// Taken off the zero end before the first piece, its own saw cut included.
    pub trim_start: i64,
    /// Lost at the far end, its own saw cut included.
    pub trim_end: i64,
    /// Price of one bar in cents. A leftover (`limit` given) without a price is free; if anything
    /// that can be bought at will has none, the section is measured by length (see
    /// [`super::plan::Measure`]).
    pub price: Option<i64>,
    /// Bars on hand; `None` means as many as wanted.
    pub limit: Option<u32>,
}

/// Pieces and stock of one cross-section and material; sections never mix on a bar.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Section {
    /// Name of the section, unlike the others of the job.
    pub name: String,
    /// Width of the saw cut in hundredths of a millimetre, zero or more.
    pub kerf: i64,
    /// Leftovers shorter than this are scrap; zero keeps all.
    pub least_useful: i64,
    /// The pieces to cut, in any order.
    pub pieces: Vec<Piece>,
    /// The stock to cut them from, in any order.
    pub stock: Vec<Stock>,
}

/// A whole job of linear stock.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Job {
    /// The sections, in any order.
    pub sections: Vec<Section>,
    /// How much work may go into each section before the best plan so far is returned unproven.
    /// Counted in elementary steps, never in time, so that every machine gives the same plan.
    pub work_limit: u64,
}

impl Job {
    /// Work that is allowed for each section by default: a few seconds on a small machine.
    pub const WORK_LIMIT: u64 = 1_200_000_000;
}
