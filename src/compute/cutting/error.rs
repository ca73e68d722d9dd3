//! What can be wrong with a cutting job.
use std::fmt;

/// Why a job cannot be planned. `section` names the section, `item` the piece or stock.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub enum CuttingError {
    /// Two sections share a name.
    DuplicateSection {
        /// The name.
        section: String,
    },
    /// Two stock lengths of a section share an id.
    DuplicateStock {
        /// The section.
        section: String,
        /// The id.
        item: String,
    },
    /// Pieces are asked for, and there is nothing to cut them from.
    NoStock {
        /// The section.
        section: String,
    },
    /// A length or width is zero or less.
    NotPositive {
        /// The section.
        section: String,
        /// The piece or stock.
        item: String,
    },
    /// A kerf, extra, trim, price or least useful length is below zero.
    Negative {
        /// The section.
        section: String,
        /// What is below zero.
        item: String,
    },
    /// The trims leave nothing of a bar or sheet.
    TrimTakesAll {
        /// The section.
        section: String,
        /// The stock.
        item: String,
    },
    /// A piece fits no stock, even alone.
    PieceTooLong {
        /// The section.
        section: String,
        /// The piece.
        item: String,
        /// What it takes of a bar.
        length: i64,
        /// The most that any stock offers.
        longest: i64,
    },
    /// The stock on hand does not hold the pieces.
    NotEnoughStock {
        /// The section.
        section: String,
        /// Whether that is certain; otherwise no plan was found within the work limit.
        proven: bool,
    },
    /// More pieces than [`super::job::MOST_PIECES`].
    TooManyPieces {
        /// The section.
        section: String,
        /// How many are asked for.
        pieces: usize,
    },
    /// A length or price beyond the range that sums are safe for.
    TooLarge {
        /// The section.
        section: String,
        /// The piece or stock.
        item: String,
    },
}

impl fmt::Display for CuttingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::DuplicateSection { section } => write!(f, "section {section} is given twice"),
            Self::DuplicateStock { section, item } => {
                write!(f, "{section}: stock {item} is given twice")
            }
            Self::NoStock { section } => write!(f, "{section}: no stock to cut from"),
            Self::NotPositive { section, item } => {
                write!(f, "{section}: {item} must be longer than zero")
            }
            Self::Negative { section, item } => write!(f, "{section}: {item} is below zero"),
            Self::TrimTakesAll { section, item } => {
                write!(f, "{section}: the trims leave nothing of {item}")
            }
            Self::PieceTooLong { section, item, length, longest } => write!(
                f,
                "{section}: {item} takes {}.{:02} mm and the longest stock offers {}.{:02} mm",
                length / 100,
                length % 100,
                longest / 100,
                longest % 100
            ),
            Self::NotEnoughStock { section, proven: true } => {
                write!(f, "{section}: the stock on hand does not hold all pieces")
            }
            Self::NotEnoughStock { section, proven: false } => {
                write!(f, "{section}: no plan found for the stock on hand")
            }
            Self::TooManyPieces { section, pieces } => {
                write!(f, "{section}: {pieces} pieces are more than can be planned at once")
            }
            Self::TooLarge { section, item } => {
                write!(f, "{section}: {item} is beyond the range of lengths and prices")
            }
        }
    }
}

impl std::error::Error for CuttingError {}
