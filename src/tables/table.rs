//! Rows of one kind, found by name.

use super::natural;
use super::row::Row;
use super::row_origin::RowOrigin;
use std::fmt;

/// A kind of row: how it is read, and what it is called.
pub trait Entry: Sized {
    /// The key of its rows in a table file, and what messages call it.
    const KIND: &'static str;

    /// Its name, by which a build file asks for it.
    fn name(&self) -> &str;

    /// Other names it answers to.
    fn also(&self) -> &[String] {
        &[]
    }

    /// Where it came from.
    fn origin(&self) -> &RowOrigin;

    /// Reads what one entry of the file stands for, mostly one row. What is wrong is told to `row`;
    /// the values are then thrown away.
    fn read_all(row: &mut Row<'_>) -> Vec<Self>;
}

/// Implements [`Entry`] for a row with the fields `name` and `origin`.
macro_rules! entry {
    ($row:ident, $kind:literal, $read:ident) => {
        impl $crate::tables::Entry for $row {
            const KIND: &'static str = $kind;

            fn name(&self) -> &str {
                &self.name
            }

            fn origin(&self) -> &$crate::tables::RowOrigin {
                &self.origin
            }

            fn read_all(row: &mut $crate::tables::Row<'_>) -> Vec<Self> {
                vec![Self::$read(row)]
            }
        }
    };
}

/// Rows of one kind in natural order of their names (`M8` before `M10`), each name once.
#[derive(Clone, Debug, PartialEq)]
pub struct Table<T> {
    rows: Vec<T>,
}

impl<T> Default for Table<T> {
    fn default() -> Self {
        Self { rows: Vec::new() }
    }
}

impl<T: Entry> Table<T> {
    /// The row of that name; case doesn't count.
    pub fn get(&self, name: &str) -> Option<&T> {
        match self.place_of(name) {
            Ok(at) => self.rows.get(at),
            Err(_) => self
                .rows
                .iter()
                .find(|row| row.also().iter().any(|also| also.eq_ignore_ascii_case(name))),
        }
    }

    /// The row of that name.
    ///
    /// # Errors
    /// [`Unknown`] with the names that are nearest.
    pub fn find(&self, name: &str) -> Result<&T, Unknown> {
        // Both spellings are English; the tables keep one.
        let name = name.trim().replace("aluminum", "aluminium");
        self.get(&name).ok_or_else(|| self.unknown(&name))
    }

    /// Puts a row in. A row of the same name gives way and is returned.
    pub fn add(&mut self, row: T) -> Option<T> {
        match self.place_of(row.name()) {
            Ok(at) => Some(std::mem::replace(&mut self.rows[at], row)),
            Err(at) => {
                self.rows.insert(at, row);
                None
            }
        }
    }

    /// Puts many rows in; of rows with one name the last stays.
    pub(super) fn add_all(&mut self, rows: Vec<T>) {
        self.rows.extend(rows);
        // Stable, so that of equal names the later comes last.
        self.rows.sort_by(|a, b| natural::compare(a.name(), b.name()));
        self.rows.reverse();
        self.rows.dedup_by(|later, kept| natural::compare(later.name(), kept.name()).is_eq());
        self.rows.reverse();
    }

    /// Takes over the rows of another table.
    pub(super) fn absorb(&mut self, other: Self) {
        if self.rows.is_empty() {
            *self = other;
        } else if !other.rows.is_empty() {
            self.add_all(other.rows);
        }
    }

    /// All rows in natural order of names.
    pub fn iter(&self) -> std::slice::Iter<'_, T> {
        self.rows.iter()
    }

    /// All names in natural order.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.rows.iter().map(T::name)
    }

    /// How many rows there are.
    pub fn len(&self) -> usize {
        self.rows.len()
    }

    /// Whether there is no row.
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }

    fn place_of(&self, name: &str) -> Result<usize, usize> {
        self.rows.binary_search_by(|row| natural::compare(row.name(), name))
    }

    fn unknown(&self, name: &str) -> Unknown {
        let lower = name.to_ascii_lowercase();
        let mut near: Vec<(usize, &str)> = self
            .rows
            .iter()
            .flat_map(|row| {
                std::iter::once(row.name()).chain(row.also().iter().map(String::as_str))
            })
            .map(|known| (strsim::osa_distance(&lower, &known.to_ascii_lowercase()), known))
            .filter(|(steps, known)| *steps <= known.len().max(name.len()) / 2)
            .collect();
        near.sort_by(|a, b| a.0.cmp(&b.0).then_with(|| natural::compare(a.1, b.1)));
        Unknown {
            kind: T::KIND,
            name: name.to_owned(),
            nearest: near.into_iter().take(3).map(|(_, known)| known.to_owned()).collect(),
        }
    }
}

impl<'a, T: Entry> IntoIterator for &'a Table<T> {
    type Item = &'a T;
    type IntoIter = std::slice::Iter<'a, T>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

/// A name that no row has.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unknown {
    /// What was looked for, such as `section`.
    pub kind: &'static str,
    /// The name as asked for.
    pub name: String,
    /// Known names that look most like it, nearest first, at most three.
    pub nearest: Vec<String>,
}

impl Unknown {
    /// What to write instead, if any name is near.
    pub fn help(&self) -> Option<String> {
        let (last, rest) = self.nearest.split_last()?;
        Some(if rest.is_empty() {
            format!("the nearest name is `{last}`")
        } else {
            format!("the nearest names are `{}` and `{last}`", rest.join("`, `"))
        })
    }
}

impl fmt::Display for Unknown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "no {} is named `{}`", self.kind.replace('-', " "), self.name)
    }
}

impl std::error::Error for Unknown {}
