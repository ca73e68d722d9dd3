//! Rows of the tables, by name.

use super::Take;
use super::measure::longer_than;
use crate::build::RowUse;
use crate::read::codes;
use crate::read::field::Field;
use crate::read::reader::Reader;
use crate::read::shape::Shape;
use crate::tables::{Entry, Table, Tables};
use toml::de::DeValue;

/// No row has a longer name; comparing a long text with every name is work for nothing.
const LONGEST_NAME: usize = 100;

/// A row of one table.
pub(in crate::read) struct Row<T: 'static>(pub fn(&Tables) -> &Table<T>);

impl<T: Entry + Clone> Take for Row<T> {
    type Out = T;

    fn shape(&self, tables: &Tables) -> Shape {
        let table = (self.0)(tables);
        Shape::Row {
            kind: T::KIND,
            names: table.names().map(str::to_owned).collect(),
            also: table.iter().flat_map(|row| row.also().iter().cloned()).collect(),
        }
    }

    fn written(&self, value: &Self::Out) -> String {
        value.name().to_owned()
    }

    fn take(&self, r: &mut Reader<'_>, field: &Field<'_>) -> Option<T> {
        let DeValue::String(name) = field.value else {
            r.raise(codes::wrong_shape::raise(field, "a name between quotes"));
            return None;
        };
        if name.trim().is_empty() {
            r.raise(codes::empty_text::raise(field));
            return None;
        }
        if longer_than(name, LONGEST_NAME) {
            r.raise(codes::text_too_long::raise(field, name.chars().count(), LONGEST_NAME));
            return None;
        }
        match (self.0)(r.tables).find(name) {
            Ok(row) => {
                let key = match field.home.path {
                    "" => field.key.to_owned(),
                    path => format!("{path}.{}", field.key),
                };
                r.uses(RowUse {
                    key,
                    span: field.span,
                    kind: T::KIND,
                    name: row.name().to_owned(),
                    origin: row.origin().clone(),
                });
                Some(row.clone())
            }
            Err(unknown) => {
                r.raise(codes::not_in_table::raise(field, &unknown));
                None
            }
        }
    }
}
