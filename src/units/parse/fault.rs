//! What can be wrong with a quantity.

use crate::units::Kind;
use std::fmt;
use std::ops::Range;

/// What is wrong with a quantity, and where in its text.
#[derive(Clone, Debug, PartialEq)]
pub struct QuantityFault {
    /// What is wrong.
    pub kind: QuantityFaultKind,
    /// Bytes of the text that are at fault.
    pub range: Range<usize>,
}

/// What is wrong with a quantity.
#[derive(Clone, Debug, PartialEq)]
pub enum QuantityFaultKind {
    /// Nothing but spaces.
    Empty {
        /// What belongs there.
        wanted: Kind,
    },
    /// Not a number where one belongs.
    NotANumber {
        /// What belongs there.
        wanted: Kind,
    },
    /// NaN or infinity, in words.
    NotFinite,
    /// Beyond all sense.
    TooLarge,
    /// A comma in a number.
    Comma,
    /// A fraction over zero, or a whole number with a fraction of one or more.
    Fraction,
    /// A number alone.
    MissingUnit {
        /// What belongs there.
        wanted: Kind,
    },
    /// A unit that no kind has.
    UnknownUnit {
        /// As written.
        written: String,
        /// What belongs there.
        wanted: Kind,
        /// The unit of the wanted kind whose text is nearest, when one is near.
        nearest: Option<&'static str>,
    },
    /// A unit of another kind.
    WrongKind {
        /// As written.
        written: String,
        /// What it measures.
        found: Kind,
        /// What belongs there.
        wanted: Kind,
    },
    /// A second number whose unit isn't finer than the one before.
    NotFiner,
    /// Below 0 K.
    BelowAbsoluteZero,
}

impl QuantityFault {
    /// What to write instead.
    pub fn help(&self) -> String {
        match &self.kind {
            QuantityFaultKind::UnknownUnit { nearest: Some(unit), .. } => {
                format!("write `{unit}` if that is the unit meant")
            }
            QuantityFaultKind::UnknownUnit { wanted, .. }
            | QuantityFaultKind::WrongKind { wanted, .. }
            | QuantityFaultKind::MissingUnit { wanted } => {
                let units: Vec<String> = wanted
                    .units()
                    .filter(|unit| !unit.symbol.is_empty())
                    .map(|unit| format!("`{}`", unit.symbol))
                    .collect();
                format!("{} takes one of the units {}", wanted.name(), units.join(", "))
            }
            QuantityFaultKind::Empty { wanted } | QuantityFaultKind::NotANumber { wanted } => {
                format!("write {} such as `{}`", wanted.name(), wanted.example())
            }
            QuantityFaultKind::Comma => {
                "write a point before the decimals and nothing, or a space, between thousands"
                    .into()
            }
            QuantityFaultKind::Fraction => "write a fraction below one, such as `46 1/2 in`".into(),
            QuantityFaultKind::NotFiner => {
                "write one number and unit, or coarse before fine, such as `5 ft 6 in`".into()
            }
            QuantityFaultKind::NotFinite | QuantityFaultKind::TooLarge => {
                "write the value as measured".into()
            }
            QuantityFaultKind::BelowAbsoluteZero => "no temperature is below −273.15 °C".into(),
        }
    }
}

impl fmt::Display for QuantityFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.kind {
            QuantityFaultKind::Empty { wanted } => write!(f, "{} is missing", wanted.name()),
            QuantityFaultKind::NotANumber { wanted } => {
                write!(f, "{} starts with a number", wanted.name())
            }
            QuantityFaultKind::NotFinite => f.write_str("the number has no finite value"),
            QuantityFaultKind::TooLarge => f.write_str("the value is too large to be meant"),
            QuantityFaultKind::Comma => f.write_str("a number has no comma"),
            QuantityFaultKind::Fraction => f.write_str("the fraction can't be read"),
            QuantityFaultKind::MissingUnit { .. } => f.write_str("the number has no unit"),
            QuantityFaultKind::UnknownUnit { written, .. } => {
                write!(f, "`{written}` is not a known unit")
            }
            QuantityFaultKind::WrongKind { written, found, wanted } => {
                write!(
                    f,
                    "`{written}` measures {}, but {} belongs here",
                    found.name(),
                    wanted.name()
                )
            }
            QuantityFaultKind::NotFiner => {
                f.write_str("the second unit is not finer than the first")
            }
            QuantityFaultKind::BelowAbsoluteZero => {
                f.write_str("the temperature is below absolute zero")
            }
        }
    }
}

impl std::error::Error for QuantityFault {}
