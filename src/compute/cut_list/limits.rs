//! Least and greatest length of a piece.

use crate::tables::{Kerf, Tables};
use crate::units::Length;

/// Limits of a finished size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Least.
    pub low: Length,
    /// Greatest.
    pub high: Length,
}

impl Limits {
    /// Limits of a sawn length: what a careful cut with this saw holds, and never wider than
    /// ISO 2768-1 class c (beyond its range the last step of it).
    pub fn of(nominal: Length, saw: &Kerf, tables: &Tables) -> Self {
        let plus = class_c(nominal, tables).min(saw.length_tolerance);
        Self { low: nominal - plus, high: nominal + plus }
    }

    /// Limits of a size that no tighter one is stated for: ISO 2768-1 class c, and beyond its range
    /// the last step of it.
    pub fn general(nominal: Length, tables: &Tables) -> Self {
        let plus = class_c(nominal, tables);
        Self { low: nominal - plus, high: nominal + plus }
    }
}

/// Plus or minus of class c.
fn class_c(nominal: Length, tables: &Tables) -> Length {
    let class = tables.tolerance("iso-2768-c").ok();
    class.and_then(|class| class.linear(nominal.min(class.end))).unwrap_or(Length::mm(0.2))
}
