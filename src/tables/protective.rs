//! Protective equipment and arrangements.

use super::{Row, RowOrigin, Table};

/// What protects against a hazard.
#[derive(Clone, Debug, PartialEq)]
pub struct Protective {
    /// `nitrile-gloves`.
    pub name: String,
    /// For people.
    pub words: String,
    /// Number of the ISO 7010 sign, `M009`.
    pub sign: Option<String>,
    /// Keys of the hazards it is for: of products (`isocyanate`) and of work (`drilling`).
    pub against: Vec<String>,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl Protective {
    fn from_row(row: &mut Row<'_>) -> Self {
        Self {
            name: row.words("name"),
            words: row.words("words"),
            sign: row.maybe_words("sign"),
            against: row.words_list("against"),
            origin: row.origin(),
        }
    }
}

impl Table<Protective> {
    /// All that protects against a hazard key.
    pub fn against(&self, hazard: &str) -> impl Iterator<Item = &Protective> {
        self.iter().filter(move |row| row.against.iter().any(|key| key == hazard))
    }
}

entry!(Protective, "protective", from_row);
