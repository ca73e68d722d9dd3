//! The packet in the language that it is asked for, laid out.

use crate::build::Language;
use crate::page::model::Document;
use crate::page::{self, Packet, Problem};
use crate::tongue::{self, Table};
use std::collections::BTreeSet;
use std::sync::OnceLock;

/// A packet laid out, with what is to be told of it.
pub struct Spoken {
    /// Its pages.
    pub document: Document,
    /// What could not be done as asked.
    pub problems: Vec<Problem>,
    /// Texts that have no words in the language.
    missing: usize,
}

impl Spoken {
    /// The note on texts that stay English, if there are any.
    pub fn note(&self) -> Option<String> {
        match self.missing {
            0 => None,
            1 => Some("rungsheet: 1 text has no German words yet and is printed as it is".into()),
            many => Some(format!(
                "rungsheet: {many} texts have no German words yet and are printed as they are"
            )),
        }
    }
}

/// Says a packet in a language and lays it out. What stands in the build file stays as it is, and so do
/// all other words of `own`.
pub fn lay_out(
    mut packet: Packet,
    language: Language,
    own: impl FnOnce() -> BTreeSet<String>,
) -> Spoken {
    static GERMAN: OnceLock<Table> = OnceLock::new();
    let missing = match language {
        Language::English => 0,
        Language::German => {
            let table = GERMAN.get_or_init(Table::german);
            tongue::retell(&mut packet, table, &own()).len()
        }
    };
    let (document, problems) = page::lay_out(&packet);
    Spoken { document, problems, missing }
}
