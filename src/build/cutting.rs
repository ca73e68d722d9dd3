//! `[cutting]`, `[[stock]]`, `[[leftover]]`.

use crate::source::{Span, Stated};
use crate::tables::{Kerf, Material, Section};
use crate::units::display::InchStep;
use crate::units::{Length, Money};

/// Saw, trim and what counts as a useful leftover.
#[derive(Debug, Clone)]
pub struct Cutting {
    /// Row of the saw.
    pub saw: Stated<Kerf>,
    /// Width of the saw cut.
    pub kerf: Stated<Length>,
    /// Cut off one end of each new bar, its own saw cut included.
    pub trim: Stated<Length>,
    /// A shorter leftover is scrap.
    pub least_leftover: Stated<Length>,
    /// Width of the cut in sheets.
    pub sheet_kerf: Stated<Length>,
    /// Cut off each edge of a new sheet, its own cut included.
    pub sheet_trim: Stated<Length>,
    /// Finest part of an inch on the cut sheets of a build in inches.
    pub fraction: Stated<InchStep>,
}

/// What is sold by length.
#[derive(Debug, Clone)]
pub enum Goods {
    /// A bar of a section, sawn.
    Section(Stated<Section>),
    /// Cable, tape, hose: cut with a blade that takes nothing away; by the reader's own name.
    Named(Stated<String>),
}

impl Goods {
    /// What tells it from other goods.
    pub fn name(&self) -> &str {
        match self {
            Self::Section(section) => &section.name,
            Self::Named(name) => name,
        }
    }

    /// The section, if it has one.
    pub fn section(&self) -> Option<&Section> {
        match self {
            Self::Section(section) => Some(section),
            Self::Named(_) => None,
        }
    }
}

/// A length that can be bought.
#[derive(Debug, Clone)]
pub struct Stock {
    /// What it is.
    pub of: Goods,
    /// Length as sold.
    pub length: Stated<Length>,
    /// Price of one.
    pub price: Option<Stated<Money>>,
    /// Place of the table.
    pub span: Span,
}

/// A length on hand.
#[derive(Debug, Clone)]
pub struct Leftover {
    /// What it is.
    pub of: Goods,
    /// Length on hand.
    pub length: Stated<Length>,
    /// How many alike.
    pub count: Stated<u32>,
    /// What is written on it.
    pub label: Stated<String>,
    /// Place of the table.
    pub span: Span,
}

/// A sheet that can be bought; grain, if it has one, runs along its length.
#[derive(Debug, Clone)]
pub struct SheetStock {
    /// Material row.
    pub material: Stated<Material>,
    /// Thickness.
    pub thickness: Stated<Length>,
    /// Length as sold.
    pub length: Stated<Length>,
    /// Width as sold.
    pub width: Stated<Length>,
    /// Price of one.
    pub price: Option<Stated<Money>>,
    /// Place of the table.
    pub span: Span,
}

/// A sheet on hand.
#[derive(Debug, Clone)]
pub struct SheetLeftover {
    /// Material row.
    pub material: Stated<Material>,
    /// Thickness.
    pub thickness: Stated<Length>,
    /// Length on hand.
    pub length: Stated<Length>,
    /// Width on hand.
    pub width: Stated<Length>,
    /// How many alike.
    pub count: Stated<u32>,
    /// What is written on it.
    pub label: Stated<String>,
    /// Place of the table.
    pub span: Span,
}
