//! What a key takes, told by the same takers that read it.

use crate::units::Kind;

/// What may stand as the value of a key.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// Words between quotes, at most so many characters.
    Text {
        /// Most characters.
        most: usize,
    },
    /// One to three capital letters.
    Mark,
    /// Three capital letters of a currency.
    Currency,
    /// A number with its unit between quotes; for some a bare length too.
    Quantity {
        /// What it measures.
        kind: Kind,
        /// A bare number is a length in the job's unit.
        bare: bool,
        /// Must be more than nothing.
        above_zero: bool,
        /// Least and most, as messages tell them.
        limits: [String; 2],
    },
    /// A plain number.
    Number {
        /// Least.
        least: f64,
        /// Most.
        most: f64,
    },
    /// A whole number.
    Whole {
        /// Least.
        least: u32,
        /// Most.
        most: u32,
    },
    /// One word of a few.
    Word(Vec<&'static str>),
    /// The name of a row of a table.
    Row {
        /// Kind of row, as in a table file.
        kind: &'static str,
        /// Names it may have.
        names: Vec<String>,
        /// Other names they answer to.
        also: Vec<String>,
    },
    /// A price between quotes.
    Price,
    /// A date, year first.
    Date,
    /// A clock time.
    Clock,
    /// A date with a clock time.
    Moment {
        /// The date may not be left out.
        dated: bool,
    },
    /// The name of one of the frames.
    Frame,
    /// An end of a circuit: one of these words, or a name of the reader's own.
    End(&'static [&'static str]),
    /// One table with the keys of this path.
    Table(&'static str),
    /// Several tables with the keys of this path.
    Tables(&'static str),
    /// A list of alike values.
    List {
        /// What each of them is.
        of: Box<Shape>,
        /// Fewest.
        least: usize,
        /// Most.
        most: usize,
    },
    /// A list of just these.
    Each(Vec<Shape>),
}

impl Shape {
    /// For people: "a length above 0, at most 30 m".
    pub fn words(&self) -> String {
        match self {
            Self::Text { most } => format!("words, at most {most} characters"),
            Self::Mark => "one to three capital letters".to_owned(),
            Self::Currency => "three capital letters of a currency".to_owned(),
            Self::Quantity { kind, bare, above_zero, limits: [least, most] } => {
                let from = if *above_zero { "above 0, at least" } else { "at least" };
                let unit = if *bare { "bare or with its unit" } else { "with its unit" };
                let usual = kind.units().map(|unit| unit.symbol).filter(|symbol| *symbol != "µm");
                let symbols: Vec<&str> = usual.take(5).collect();
                format!(
                    "{}, {from} {least}, at most {most}; {unit} ({})",
                    kind.name(),
                    symbols.join(", ")
                )
            }
            Self::Number { least, most } => format!("a plain number from {least} to {most}"),
            Self::Whole { least, most } if least == most => format!("the number {least}"),
            Self::Whole { least, most } => format!("a whole number from {least} to {most}"),
            Self::Word(words) => format!("one of {}", words.join(", ")),
            Self::Row { kind, names, .. } if names.len() <= 6 => {
                format!("a name from `rungsheet tables {kind}`: {}", names.join(", "))
            }
            Self::Row { kind, .. } => format!("a name from `rungsheet tables {kind}`"),
            Self::Price => "a price between quotes".to_owned(),
            Self::Date => "a date, year first".to_owned(),
            Self::Clock => "a clock time".to_owned(),
            Self::Moment { dated: true } => "a date with a clock time".to_owned(),
            Self::Moment { dated: false } => "a clock time, with or without a date".to_owned(),
            Self::Frame => "the name of a frame".to_owned(),
            Self::End(known) => format!("{} or a name of your own", known.join(", ")),
            Self::Table(_) => "a table".to_owned(),
            Self::Tables(_) => "tables, as many as there are".to_owned(),
            Self::List { of, least, most } => match least {
                0 => format!("a list of at most {most}, each {}", of.words()),
                _ => format!("a list of {least} to {most}, each {}", of.words()),
            },
            Self::Each(parts) => {
                let told: Vec<String> = parts.iter().map(Self::words).collect();
                match told.as_slice() {
                    [one, two] if one == two => format!("two of {one}"),
                    _ => format!("a list of {}", told.join(" and ")),
                }
            }
        }
    }
}

/// What was asked of one key while a file was read.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Asked {
    /// What it takes.
    Shape(Shape),
    /// It has to be there.
    Needed,
    /// It may be left out.
    Optional,
    /// What stands in its place, and on what ground.
    Default(String, &'static str),
}

/// All that was asked, in order.
pub(super) type Survey = Vec<(&'static str, &'static str, Asked)>;
