//! `tables`: materials and parts by name, with where each comes from.

use super::args::TablesOf;
use super::fault::Fault;
use super::{Ended, output, own};
use crate::tables::Tables;
use std::fmt::Write;

/// Lists kinds, or the rows of one.
pub fn tables(options: &TablesOf) -> Result<(), Ended> {
    let tables = own::tables(&options.own)?;
    let mut text = String::new();
    match &options.kind {
        None => {
            for kind in Tables::KINDS {
                let count = tables.origins().filter(|(of, ..)| of == kind).count();
                let _ = writeln!(text, "{count:5}  {kind}");
            }
        }
        Some(asked) => {
            let kind = Tables::KINDS.iter().find(|kind| kind.eq_ignore_ascii_case(asked));
            let Some(kind) = kind else {
                let kinds = Tables::KINDS.iter().map(|kind| (*kind).to_owned()).collect();
                return Err(Fault::UnknownRows(asked.clone(), kinds).into());
            };
            for (_, name, origin) in tables.origins().filter(|(of, ..)| of == kind) {
                let seen = origin.seen.name();
                let _ = writeln!(text, "{name}\n      {} ({seen})", origin.source);
            }
        }
    }
    output::write(None, text.as_bytes())?;
    Ok(())
}
