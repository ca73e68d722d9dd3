//! A number and how it was worked out.

use serde::Serialize;

/// How well its source is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Seen {
    /// The published source was read.
    Verified,
    /// Recalled; the source was not read again.
    Memory,
    /// The trade does so; no source is known.
    CommonPractice,
    /// Follows from other figures alone.
    Computed,
    /// From the reader's own data sheet or measurement.
    DataSheet,
}

impl Seen {
    /// As printed beside the source.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Verified => "source read",
            Self::Memory => "from memory",
            Self::CommonPractice => "common practice",
            Self::Computed => "worked out",
            Self::DataSheet => "data sheet",
        }
    }
}

/// A printed number with its pedigree.
///
/// ```
/// use rungsheet::source::{Figure, Seen};
/// let q = Figure::new("loads.pressure.driving", "dynamic pressure at the design speed", 583.5, "Pa")
///     .formula("q = ½ ρ v²")
///     .input("ρ", "1.25 kg/m³")
///     .input("v", "110 km/h")
///     .source("EN 1991-1-4:2005, 4.5", Seen::Verified)
///     .decides();
/// assert!(q.decides);
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Figure {
    /// Dotted name, one in the packet: `loads.pressure.driving`.
    pub id: String,
    /// What it is, for the reader.
    pub label: String,
    /// The number, in `unit`, not rounded.
    pub value: f64,
    /// Its unit; empty for a plain number.
    pub unit: &'static str,
    /// How it was worked out; empty for what was read.
    pub formula: String,
    /// The symbols of the formula and their values as printed.
    pub inputs: Vec<(String, String)>,
    /// Where formula or value comes from.
    pub source: String,
    /// How well that source is known.
    pub seen: Seen,
    /// What was taken to be so.
    pub assumptions: Vec<String>,
    /// Whether something else would be built if it were different.
    pub decides: bool,
}

impl Figure {
    /// A figure that follows from others, until it is told a source.
    #[must_use]
    pub fn new(
        id: impl Into<String>,
        label: impl Into<String>,
        value: f64,
        unit: &'static str,
    ) -> Self {
        Self {
            id: id.into(),
            label: label.into(),
            value,
            unit,
            formula: String::new(),
            inputs: Vec::new(),
            source: String::new(),
            seen: Seen::Computed,
            assumptions: Vec::new(),
            decides: false,
        }
    }

    /// How it was worked out.
    #[must_use]
    pub fn formula(mut self, formula: impl Into<String>) -> Self {
        self.formula = formula.into();
        self
    }

    /// A symbol of the formula and its value.
    #[must_use]
    pub fn input(mut self, symbol: impl Into<String>, value: impl Into<String>) -> Self {
        self.inputs.push((symbol.into(), value.into()));
        self
    }

    /// Where formula or value comes from.
    #[must_use]
    pub fn source(mut self, source: impl Into<String>, seen: Seen) -> Self {
        self.source = source.into();
        self.seen = seen;
        self
    }

    /// Something that was taken to be so.
    #[must_use]
    pub fn assume(mut self, assumption: impl Into<String>) -> Self {
        self.assumptions.push(assumption.into());
        self
    }

    /// Something else would be built if it were different.
    #[must_use]
    pub const fn decides(mut self) -> Self {
        self.decides = true;
        self
    }
}
