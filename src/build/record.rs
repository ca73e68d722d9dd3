//! `[[record]]`: what was really done; photographs.

use crate::source::{Span, Stated};
use crate::units::{Ratio, Temperature};
use jiff::civil::{Date, Time};

/// What was really done.
#[derive(Debug, Clone)]
pub struct Record {
    /// Key or title of the step.
    pub step: Stated<String>,
    /// When it began.
    pub started: Stated<(Date, Time)>,
    /// When it ended; absent: after its planned time.
    pub finished: Option<Stated<(Date, Time)>>,
    /// Who did it.
    pub by: Option<Stated<String>>,
    /// Air at that time.
    pub temperature: Option<Stated<Temperature>>,
    /// Humidity at that time.
    pub humidity: Option<Stated<Ratio>>,
    /// Packs that were used up in it.
    pub batches: Vec<Batch>,
    /// Values that were read.
    pub measured: Vec<Measured>,
    /// What was done in another way than planned.
    pub changes: Vec<Stated<String>>,
    /// Photographs of it.
    pub photos: Vec<Photo>,
    /// Place of the table.
    pub span: Span,
}

/// A pack of stuff by what is printed on it.
#[derive(Debug, Clone)]
pub struct Batch {
    /// What it is.
    pub stuff: Stated<String>,
    /// Its number.
    pub lot: Stated<String>,
    /// The date by which it was to be used.
    pub use_by: Option<Stated<Date>>,
}

/// A value that was read.
#[derive(Debug, Clone)]
pub struct Measured {
    /// Number of the action in the packet, or what is measured in the words of its "done when".
    pub what: Stated<String>,
    /// As read, with its unit: "1942 mm".
    pub value: Stated<String>,
}

/// A photograph beside the build file.
#[derive(Debug, Clone)]
pub struct Photo {
    /// File, from the build file's folder.
    pub file: Stated<String>,
    /// What is to be seen on it.
    pub shows: Option<Stated<String>>,
}
