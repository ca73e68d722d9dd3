//! `[[part]]`, `[[hole]]`, `[[step]]`: stated directly, beside what is derived.

use super::record::Photo;
use crate::source::{Span, Stated};
use crate::tables::{Material, Section};
use crate::units::{Angle, Duration, Length};

/// A part cut from stock.
#[derive(Debug, Clone)]
pub struct DirectPart {
    /// Mark; the pieces are numbered behind it when there is more than one.
    pub mark: Stated<String>,
    /// Name on every sheet.
    pub name: Stated<String>,
    /// What it is cut from.
    pub section: Stated<Section>,
    /// Cut length, from the outermost point of one end to that of the other.
    pub length: Stated<Length>,
    /// How many alike.
    pub count: Stated<u32>,
    /// How far the zero end is off square: above zero with its long point at the left (or on top,
    /// where the mitre runs across the height), seen along the part with the zero end near.
    pub zero_end: Stated<Angle>,
    /// The same of the far end.
    pub far_end: Stated<Angle>,
    /// Side of the section that the mitre runs across; absent: its width (a flat bar's broad side).
    pub across: Option<Stated<Length>>,
    /// Place of the table.
    pub span: Span,
}

/// A rectangular part cut from sheet.
#[derive(Debug, Clone)]
pub struct DirectPlate {
    /// Mark; the pieces are numbered behind it when there is more than one.
    pub mark: Stated<String>,
    /// Name on every sheet.
    pub name: Stated<String>,
    /// What it is made of.
    pub material: Stated<Material>,
    /// Thickness.
    pub thickness: Stated<Length>,
    /// Along the grain, if the sheet has one.
    pub length: Stated<Length>,
    /// Across it.
    pub width: Stated<Length>,
    /// How many alike.
    pub count: Stated<u32>,
    /// Whether it may lie turned by a right angle on the sheet: no grain, no rolled edge.
    pub turn: Stated<bool>,
    /// Place of the table.
    pub span: Span,
}

/// A piece of cable, tape or hose.
#[derive(Debug, Clone)]
pub struct DirectLength {
    /// Mark; the pieces are numbered behind it when there is more than one.
    pub mark: Stated<String>,
    /// Name on every sheet.
    pub name: Stated<String>,
    /// What it is cut from, by the reader's own name.
    pub stuff: Stated<String>,
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
    /// What it is for, in one line.
    pub purpose: Option<Stated<String>>,
    /// What to have ready, with sizes.
    pub tools: Vec<Stated<String>>,
    /// What must be so before its first action.
    pub hold: Option<Stated<String>>,
    /// Keys of the safety messages that stand before its first action.
    pub cautions: Vec<Stated<String>>,
    /// Actions, one instruction a line.
    pub actions: Vec<DirectAction>,
    /// Work time.
    pub time: Stated<Duration>,
    /// How long it rests before what waits for it, and before driving.
    pub wait: Option<Stated<Duration>>,
    /// People at once.
    pub people: Stated<u32>,
    /// Photographs for its sheet.
    pub photos: Vec<Photo>,
    /// Place of the table.
    pub span: Span,
}

/// An action of a stated step.
#[derive(Debug, Clone)]
pub struct DirectAction {
    /// The instruction.
    pub text: Stated<String>,
    /// How to know that it is right.
    pub done: Option<DirectDone>,
}

/// How to know that an action of a stated step is right.
#[derive(Debug, Clone)]
pub struct DirectDone {
    /// What is measured, or the state to be reached.
    pub words: Stated<String>,
    /// Least value, in the unit.
    pub low: Option<Stated<f64>>,
    /// Greatest value, in the unit.
    pub high: Option<Stated<f64>>,
    /// Unit as printed.
    pub unit: Option<Stated<String>>,
}

/// Where a stated step goes; names are step keys (see the step sheets) or titles of stated steps.
#[derive(Debug, Clone)]
pub enum StepPlace {
    /// Before the named one.
    Before(Stated<String>),
    /// After the named one.
    After(Stated<String>),
    /// Instead of it.
    InsteadOf(Stated<String>),
    /// Nowhere: the named one is left out, and the title says why.
    LeaveOut(Stated<String>),
    /// At the end.
    Last,
}
