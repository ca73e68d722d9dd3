//! Where in a file something was written.

use crate::source::Span;
use std::ops::Range;
use toml::de::{DeTable, DeValue};

/// A key, or the number of a row.
#[derive(Clone, Copy)]
pub(super) enum At<'a> {
    Key(&'a str),
    Row(usize),
}

/// The value at the end of a path, or the last one on the way that is there.
pub(super) fn span(file: &DeTable<'_>, path: &[At<'_>]) -> Span {
    let mut found = Span::NONE;
    let mut value: Option<&DeValue<'_>> = None;
    for at in path {
        let next = match (at, value) {
            (At::Key(key), None) => file.get(*key),
            (At::Key(key), Some(DeValue::Table(table))) => table.get(*key),
            (At::Row(row), Some(DeValue::Array(rows))) => rows.get(*row),
            _ => None,
        };
        let Some(next) = next else { break };
        found = next.span().into();
        value = Some(next.get_ref());
    }
    found
}

/// The bytes of a plain value whose key stands at these.
pub(super) fn value_of(file: &DeTable<'_>, key: &Range<usize>) -> Option<Range<usize>> {
    for (name, value) in file {
        if name.span() == *key {
            let plain = !matches!(value.get_ref(), DeValue::Table(_) | DeValue::Array(_));
            return plain.then(|| value.span());
        }
        if let Some(found) = within(value.get_ref(), key) {
            return Some(found);
        }
    }
    None
}

fn within(value: &DeValue<'_>, key: &Range<usize>) -> Option<Range<usize>> {
    match value {
        DeValue::Table(table) => value_of(table, key),
        DeValue::Array(rows) => rows.iter().find_map(|row| within(row.get_ref(), key)),
        _ => None,
    }
}
