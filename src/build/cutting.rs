//! `[cutting]`, `[[stock]]`, `[[leftover]]`.

use crate::source::{Span, Stated};
use crate::tables::{Kerf, Section};
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
}

/// A length that can be bought.
#[derive(Debug, Clone)]
pub struct Stock {
    /// Section row.
    pub section: Stated<Section>,
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
    /// Section row.
    pub section: Stated<Section>,
    /// Length on hand.
    pub length: Stated<Length>,
    /// How many alike.
    pub count: Stated<u32>,
    /// What is written on it.
    pub label: Stated<String>,
    /// Place of the table.
    pub span: Span,
}
