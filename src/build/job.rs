//! `[job]`: title block and paper.

use crate::source::Stated;
use crate::units::Length;
use jiff::civil::Date;

/// Title block fields (ISO 7200) and how to print.
#[derive(Debug, Clone)]
pub struct Job {
    /// Title, at most 25 characters.
    pub title: Stated<String>,
    /// Document number, at most 16 characters.
    pub number: Stated<String>,
    /// Revision, at most 2 characters.
    pub revision: Stated<String>,
    /// Date of issue, printed and used for file dates; the plan has its own start.
    pub date: Stated<Date>,
    /// Who planned it.
    pub by: Stated<String>,
    /// Unit of bare numbers, and of the reading aid beside millimetres.
    pub units: Stated<LengthUnit>,
    /// Sheet size.
    pub paper: Stated<Paper>,
    /// Language of the packet's fixed words.
    pub language: Stated<Language>,
    /// ISO 4217 letters printed with prices.
    pub currency: Stated<String>,
    /// How holes are marked and drilled.
    pub marking: Marking,
}

/// How holes are marked and drilled, and how far from true they land.
#[derive(Debug, Clone)]
pub struct Marking {
    /// By hand or with a jig.
    pub by: Stated<MarkingBy>,
    /// Circle in which a hole's middle lands, as a diameter.
    pub zone: Stated<Length>,
}

/// What guides the drill.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MarkingBy {
    /// Marked, punched and drilled by hand.
    Hand,
    /// Drilled in a jig or a drill press with a fence.
    Jig,
}

/// The job's length unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LengthUnit {
    /// Millimetres.
    Millimetre,
    /// Inches: bare numbers are inches and sheets get an inch column.
    Inch,
}

/// Sheet size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    /// 210 x 297 mm.
    A4,
    /// 8.5 x 11 in.
    Letter,
}

/// Language of a packet's fixed words; words of the build file stay as they are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Language {
    /// As the source has them.
    English,
    /// By the German rows.
    German,
}

/// Zone within which a hole lands that is marked, punched and drilled by hand: a circle of this
/// diameter (aeronautical drilling practice: ±1 mm from true).
pub const HAND_ZONE: Length = Length::mm(2.0);
/// The same in a jig or a drill press with a fence (common practice, no source).
pub const JIG_ZONE: Length = Length::mm(1.0);
