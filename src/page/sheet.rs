//! What a caller gives: a packet of sheets of blocks.

use super::block::Block;
use super::model::Attachment;
use super::voice::Voice;

/// Paper sizes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    /// 210 × 297 mm (ISO 216).
    A4,
    /// 8½ × 11 in = 215.9 × 279.4 mm.
    Letter,
}

impl Paper {
    /// Width and height, mm.
    pub fn size(self) -> (f64, f64) {
        match self {
            Paper::A4 => (210.0, 297.0),
            Paper::Letter => (215.9, 279.4),
        }
    }
}

/// What is printed on every page so that sheets of two issues can't be mixed unseen.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Identity {
    /// Document number.
    pub number: String,
    /// Title of the packet, 25 characters or fewer (ISO 7200).
    pub title: String,
    /// Revision.
    pub revision: String,
    /// Date of issue, `YYYY-MM-DD`; may be empty.
    pub date: String,
    /// Fingerprint of the build file, grouped by four.
    pub fingerprint: String,
}

/// Sheets to be laid out as one document.
#[derive(Debug, Clone)]
pub struct Packet {
    /// Paper that it is printed on.
    pub paper: Paper,
    /// Identity line.
    pub identity: Identity,
    /// What it is about in one sentence, for the file's metadata.
    pub subject: String,
    /// Who made it, for the file's metadata.
    pub author: String,
    /// BCP 47 tag of the language of all texts.
    pub language: String,
    /// Says what the layout itself puts on paper.
    pub voice: Voice,
    /// Sheets in order.
    pub sheets: Vec<Sheet>,
    /// Printed on both sides: the bound side changes with every page, and sheets that are
    /// single-sided get a blank back.
    pub duplex: bool,
    /// Marked on every page as not to be worked from; the words say why. None for a sound packet.
    pub draft: Option<String>,
    /// A file to travel inside the PDF.
    pub attachment: Option<Attachment>,
}

/// One sheet. It may run over several pages.
#[derive(Debug, Clone)]
pub struct Sheet {
    /// Name to link to, unique in the packet.
    pub anchor: String,
    /// Title, 18 pt bold, one line.
    pub title: String,
    /// One line that says what the sheet is for.
    pub purpose: String,
    /// The tab at the outer edge.
    pub tab: Option<Tab>,
    /// The row of steps at the top right.
    pub steps: Option<JobStrip>,
    /// Content.
    pub blocks: Vec<Block>,
    /// True if the back has to stay blank: templates, records, sign-off, cards to cut apart.
    pub single_sided: bool,
}

/// A solid tab at the outer edge with a word or two; its height on the edge tells the kind.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tab {
    /// One or two words.
    pub word: String,
    /// Which of the `slots` places from the top, from 0.
    pub slot: usize,
    /// How many places the edge has.
    pub slots: usize,
}

impl Tab {
    /// A tab in one of the places of the edge.
    pub fn new(word: impl Into<String>, slot: usize, slots: usize) -> Self {
        Self { word: word.into(), slot, slots }
    }
}

/// Where in the job a sheet stands: steps done are outlined, this one is solid, those to come are a
/// line at the foot of their box, and a wait is a gap.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JobStrip {
    /// Steps and waits in order.
    pub marks: Vec<StripMark>,
    /// Which step this sheet is, counted among the steps from 0; none if it is not a step.
    pub here: Option<usize>,
}

/// A mark of the job strip.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StripMark {
    /// A step.
    Step,
    /// A wait (a cure, a night) between steps.
    Wait,
}
