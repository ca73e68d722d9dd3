//! Ampacity: how much current a conductor carries, by standard and situation.

use super::{Row, RowOrigin, Table};
use crate::source::Seen;
use crate::units::{Current, Temperature, Unit};

/// One column of one standard's table.
#[derive(Clone, Debug, PartialEq)]
pub struct Ampacity {
    /// `33-cfr-183-105`.
    pub name: String,
    /// The standard's key, `33-cfr-183`.
    pub table: String,
    /// What it holds for.
    pub situation: String,
    /// Temperature that the conductor and its insulation may reach.
    pub insulation: Temperature,
    /// Air temperature of the table.
    pub ambient: Temperature,
    /// Current by name of [`super::CableSize`], rising.
    pub amps: Vec<(String, Current)>,
    /// Sizes whose value is from memory though the row as a whole was read.
    pub from_memory: Vec<String>,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl Ampacity {
    /// Current of a size, where the table has it.
    pub fn amps(&self, size: &str) -> Option<Current> {
        self.amps.iter().find(|(name, _)| name.eq_ignore_ascii_case(size)).map(|(_, amps)| *amps)
    }

    /// How the value of a size is known.
    pub fn seen_of(&self, size: &str) -> Seen {
        if self.from_memory.iter().any(|name| name.eq_ignore_ascii_case(size)) {
            Seen::Memory
        } else {
            self.origin.seen
        }
    }

    fn from_row(row: &mut Row<'_>) -> Self {
        let mut amps: Vec<(String, Current)> = row
            .number_map("amps")
            .into_iter()
            .map(|(size, amps)| (size, Current::a(amps.max(0.0))))
            .collect();
        amps.sort_by(|a, b| a.1.total_cmp(&b.1));
        Self {
            name: row.words("name"),
            table: row.words("table"),
            situation: row.words("situation"),
            insulation: row.quantity("insulation", Unit::CELSIUS),
            ambient: row.quantity("ambient", Unit::CELSIUS),
            amps,
            from_memory: row.words_list("from-memory"),
            origin: row.origin(),
        }
    }
}

impl Table<Ampacity> {
    /// The columns of a standard's table, lowest insulation temperature first.
    pub fn columns(&self, table: &str) -> Vec<&Ampacity> {
        let mut columns: Vec<&Ampacity> = self.iter().filter(|row| row.table == table).collect();
        columns.sort_by(|a, b| a.insulation.total_cmp(&b.insulation));
        columns
    }

    /// The column of a standard's table for a cable rated `insulation`: the hottest column that the
    /// cable's rating still covers.
    pub fn column_for(&self, table: &str, insulation: Temperature) -> Option<&Ampacity> {
        self.columns(table).into_iter().rfind(|row| row.insulation <= insulation)
    }
}

entry!(Ampacity, "ampacity", from_row);
