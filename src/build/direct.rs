//! `[[part]]`, `[[hole]]`, `[[step]]`: stated directly, beside what is derived.

use crate::source::{Span, Stated};
use crate::tables::Section;
use crate::units::{Duration, Length};

/// A part cut from stock.
#[derive(Debug, Clone)]
pub struct DirectPart {
    /// Mark; the pieces are numbered behind it when there is more than one.
    pub mark: Stated<String>,
    /// Name on every sheet.
    pub name: Stated<String>,
    /// What it is cut from.
    pub section: Stated<Section>,
    /// Cut length.
    pub length: Stated<Length>,
    /// How many alike.
    pub count: Stated<u32>,
    /// Place of the table.
    pub span: Span,
}

/// A hole in a part.
#[derive(Debug, Clone)]
pub struct DirectHole {
    /// Mark of the part.
    pub part: Stated<String>,
    /// Face of the part: `top`, `bottom`, `left`, `right`.
    pub face: Stated<String>,
    /// From the zero end along the part.
    pub x: Stated<Length>,
    /// From the datum edge of the face.
    pub y: Stated<Length>,
    /// Finished diameter.
    pub diameter: Stated<Length>,
    /// What goes through it.
    pub purpose: Stated<HolePurpose>,
    /// Place of the table.
    pub span: Span,
}

/// What a stated hole is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HolePurpose {
    /// A bolt or screw passes freely.
    Clearance,
    /// A rivet nut is set in it.
    RivetNut,
    /// A tapping screw cuts its thread in it.
    Pilot,
    /// A cable passes.
    Cable,
    /// Water runs out.
    Drain,
}

/// A step of the reader's own.
#[derive(Debug, Clone)]
pub struct DirectStep {
    /// Title on its sheet.
    pub title: Stated<String>,
    /// Where it goes among the derived ones.
    pub place: StepPlace,
    /// Actions, one instruction a line.
    pub actions: Vec<Stated<String>>,
    /// Work time.
    pub time: Stated<Duration>,
    /// People at once.
    pub people: Stated<u32>,
    /// Place of the table.
    pub span: Span,
}

/// Where a stated step goes; names are step keys (see the step sheets).
#[derive(Debug, Clone)]
pub enum StepPlace {
    /// Before the named one.
    Before(Stated<String>),
    /// After the named one.
    After(Stated<String>),
    /// Instead of it.
    InsteadOf(Stated<String>),
    /// At the end.
    Last,
}
