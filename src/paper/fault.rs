//! Why something could not be written or taken out again.

use std::fmt;

/// A writer's refusal.
#[derive(Debug, Clone, PartialEq)]
pub enum Fault {
    /// The document breaks promises that a tagged file rests on; each is named.
    Unsound(Vec<String>),
    /// A face could not be cut down to the glyphs that are used.
    Font {
        /// `PostScript` name of the face.
        face: &'static str,
        /// What the face or the subsetter objected to.
        why: String,
    },
    /// A file, or something inside it, is larger than anything a packet can be.
    TooLarge {
        /// What is too large.
        what: &'static str,
        /// The limit, bytes.
        limit: usize,
    },
    /// A picture of these many pixels cannot be drawn.
    NoCanvas {
        /// Columns asked for.
        columns: f64,
        /// Rows asked for.
        rows: f64,
    },
    /// The bytes are not a PDF file, or not enough of one to find anything in.
    NotPdf(&'static str),
    /// The file is protected by a password.
    Encrypted,
    /// The file is a PDF without a file attached to it.
    NoAttachment,
    /// Writing failed for a reason of the library beneath.
    Library(String),
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unsound(faults) => {
                write!(f, "the pages are not sound: {}", faults.join("; "))
            }
            Self::Font { face, why } => write!(f, "face {face} cannot be embedded: {why}"),
            Self::TooLarge { what, limit } => {
                write!(f, "{what} is larger than {limit} bytes")
            }
            Self::NoCanvas { columns, rows } => {
                write!(f, "a picture of {columns:.0} x {rows:.0} pixels cannot be drawn")
            }
            Self::NotPdf(why) => write!(f, "not a readable PDF file: {why}"),
            Self::Encrypted => write!(f, "the PDF file is protected by a password"),
            Self::NoAttachment => write!(f, "no file is attached to this PDF"),
            Self::Library(why) => write!(f, "{why}"),
        }
    }
}

impl std::error::Error for Fault {}
