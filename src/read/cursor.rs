//! Takes the keys of one table by name and tells what was left over.

use super::field::{Field, Home};
use super::reader::Reader;
use super::shape::{Asked, Shape};
use super::take::Take;
use super::{codes, keys};
use crate::source::{Span, Stated};
use crate::tables::Tables;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// One table of the file.
pub(super) struct Cursor<'t> {
    entries: &'t DeTable<'t>,
    home: Home,
    asked: Vec<&'static str>,
    missing: Vec<Missing>,
}

/// A key that was asked for in vain, and why it is needed if the table alone does not tell.
type Missing = (&'static str, Option<(Span, String)>);

// Takers are small and written where they are used: `need(r, "x", place())`.
#[allow(clippy::needless_pass_by_value)]
impl<'t> Cursor<'t> {
    pub fn new(entries: &'t DeTable<'t>, home: Home) -> Self {
        Self { entries, home, asked: Vec::new(), missing: Vec::new() }
    }

    /// Its header or braces.
    pub fn span(&self) -> Span {
        self.home.span
    }

    /// The table, for messages.
    pub fn home(&self) -> Home {
        self.home
    }

    /// Whether a table stands under the key.
    pub fn is_table(&self, key: &str) -> bool {
        self.entries.get(key).is_some_and(|value| value.get_ref().is_table())
    }

    /// Whether the key is there; it does not count as asked for.
    pub fn has(&self, key: &str) -> bool {
        self.entries.contains_key(key)
    }

    /// Where the key itself is written.
    pub fn key_span(&self, key: &str) -> Span {
        self.entries.get_key_value(key).map_or(self.home.span, |(key, _)| key.span().into())
    }

    /// Where the key itself is written, if it is there.
    pub fn place_of(&self, key: &str) -> Option<Span> {
        self.has(key).then(|| self.key_span(key))
    }

    /// The key with its value, if it is there.
    pub fn field(&mut self, key: &'static str) -> Option<Field<'t>> {
        debug_assert!(keys::key_of(self.home.path, key).is_some(), "{key} is in the list of keys");
        self.asked.push(key);
        let (name, value) = self.entries.get_key_value(key)?;
        Some(Field {
            key: name.get_ref(),
            span: value.span().into(),
            value: value.get_ref(),
            home: self.home,
            element: false,
        })
    }

    /// A key that must be there.
    pub fn need<T: Take>(
        &mut self,
        r: &mut Reader<'_>,
        key: &'static str,
        take: T,
    ) -> Option<Stated<T::Out>> {
        self.noted(r, key, Asked::Needed, |tables| take.shape(tables));
        if let Some(field) = self.field(key) {
            return stated(r, &field, &take);
        }
        self.lacks(key, None);
        None
    }

    /// A key that may be there.
    pub fn may<T: Take>(
        &mut self,
        r: &mut Reader<'_>,
        key: &'static str,
        take: T,
    ) -> Option<Stated<T::Out>> {
        self.noted(r, key, Asked::Optional, |tables| take.shape(tables));
        let field = self.field(key)?;
        stated(r, &field, &take)
    }

    /// A key with a sound default, and the ground for it.
    pub fn or<T: Take>(
        &mut self,
        r: &mut Reader<'_>,
        key: &'static str,
        take: T,
        default: T::Out,
        ground: &'static str,
    ) -> Stated<T::Out> {
        self.usual(r, key, ground, || take.written(&default));
        self.may(r, key, take)
            .unwrap_or_else(|| Stated::default_of(default, ground).near(self.home.span))
    }

    /// Notes what a key takes that is read by hand.
    pub fn noted(
        &self,
        r: &mut Reader<'_>,
        key: &'static str,
        needed: Asked,
        shape: impl FnOnce(&Tables) -> Shape,
    ) {
        r.note(self.home, key, |_| needed);
        r.note(self.home, key, |tables| Asked::Shape(shape(tables)));
    }

    /// Notes what stands in the place of a key that is left out, and on what ground.
    pub fn usual(
        &self,
        r: &mut Reader<'_>,
        key: &'static str,
        ground: &'static str,
        written: impl FnOnce() -> String,
    ) {
        r.note(self.home, key, |_| Asked::Default(written(), ground));
    }

    /// Notes that a key is missing, to be told when the table is closed; `reason` tells why it is
    /// needed if the table alone does not.
    pub fn lacks(&mut self, key: &'static str, reason: Option<(Span, String)>) {
        self.missing.push((key, reason));
    }

    /// A table that must be there.
    pub fn need_table(&mut self, r: &mut Reader<'_>, key: &'static str) -> Option<Cursor<'t>> {
        r.note(self.home, key, |_| Asked::Needed);
        if !self.has(key) {
            self.asked.push(key);
            self.lacks(key, None);
            self.noted_table(r, key, false);
            return None;
        }
        self.open(r, key)
    }

    /// A table that may be there.
    pub fn table(&mut self, r: &mut Reader<'_>, key: &'static str) -> Option<Cursor<'t>> {
        r.note(self.home, key, |_| Asked::Optional);
        self.open(r, key)
    }

    fn open(&mut self, r: &mut Reader<'_>, key: &'static str) -> Option<Cursor<'t>> {
        self.noted_table(r, key, false);
        let field = self.field(key)?;
        let path = self.path_of(key)?;
        match field.value {
            DeValue::Table(entries) => Some(inside(r, entries, path, field.span)),
            DeValue::Array(list) => {
                r.raise(codes::wrong_shape::one_table(&field, path));
                let first = list.first()?;
                let entries = first.get_ref().as_table()?;
                Some(inside(r, entries, path, first.span().into()))
            }
            _ => {
                r.raise(codes::wrong_shape::one_table(&field, path));
                None
            }
        }
    }

    /// Tables of a kind, at most so many.
    pub fn tables(
        &mut self,
        r: &mut Reader<'_>,
        key: &'static str,
        most: usize,
    ) -> Vec<Cursor<'t>> {
        r.note(self.home, key, |_| Asked::Optional);
        self.noted_table(r, key, true);
        let Some(field) = self.field(key) else { return Vec::new() };
        let Some(path) = self.path_of(key) else { return Vec::new() };
        match field.value {
            DeValue::Table(entries) => {
                r.raise(codes::wrong_shape::many_tables(&field, path));
                vec![inside(r, entries, path, field.span)]
            }
            DeValue::Array(list) => {
                if list.len() > most {
                    let beyond = list.get(most).map_or(field.span, |item| item.span().into());
                    r.raise(codes::too_many::raise(&field, list.len(), most, beyond));
                }
                let mut tables = Vec::new();
                for item in list.iter().take(most) {
                    match item.get_ref() {
                        DeValue::Table(entries) => {
                            tables.push(inside(r, entries, path, item.span().into()));
                        }
                        _ => r.raise(codes::wrong_shape::many_tables(&element(&field, item), path)),
                    }
                }
                tables
            }
            _ => {
                r.raise(codes::wrong_shape::many_tables(&field, path));
                Vec::new()
            }
        }
    }

    /// One table or tables of a kind, at most so many.
    pub fn one_or_many(
        &mut self,
        r: &mut Reader<'_>,
        key: &'static str,
        most: usize,
    ) -> Vec<Cursor<'t>> {
        self.noted_table(r, key, false);
        self.noted_table(r, key, true);
        let alone = self.entries.get(key).is_some_and(|value| value.get_ref().is_table());
        if alone {
            return self.table(r, key).into_iter().collect();
        }
        self.tables(r, key, most)
    }

    /// The table between braces that an element of the key's list may be.
    pub fn braces(
        &self,
        r: &Reader<'_>,
        key: &'static str,
        element: &Field<'t>,
    ) -> Option<Cursor<'t>> {
        let entries = element.value.as_table()?;
        Some(inside(r, entries, self.path_of(key)?, element.span))
    }

    /// What is written under a key of each of one table or several; it does not count as asked for.
    pub fn words_in(&self, key: &str, inner: &str) -> Vec<Option<String>> {
        let word = |table: &DeValue<'_>| {
            let value = table.as_table()?.get(inner)?;
            Some(value.get_ref().as_str()?.trim().to_owned())
        };
        match self.entries.get(key).map(Spanned::get_ref) {
            Some(DeValue::Array(list)) => list.iter().map(|item| word(item.get_ref())).collect(),
            Some(table @ DeValue::Table(_)) => vec![word(table)],
            _ => Vec::new(),
        }
    }

    /// The elements of a list that may be there, at most so many.
    pub fn elements(
        &mut self,
        r: &mut Reader<'_>,
        key: &'static str,
        most: usize,
    ) -> Vec<Field<'t>> {
        let Some(field) = self.field(key) else { return Vec::new() };
        elements_of(r, &field, most)
    }

    /// A list of alike values that must be there and not empty, at most so many.
    pub fn need_list<T: Take>(
        &mut self,
        r: &mut Reader<'_>,
        key: &'static str,
        most: usize,
        take: T,
    ) -> Option<Vec<Stated<T::Out>>> {
        let listed =
            |tables: &Tables| Shape::List { of: Box::new(take.shape(tables)), least: 1, most };
        self.noted(r, key, Asked::Needed, listed);
        let Some(field) = self.field(key) else {
            self.lacks(key, None);
            return None;
        };
        let elements = elements_of(r, &field, most);
        if field.value.as_array().is_some_and(|list| list.is_empty()) {
            self.lacks(key, Some((field.span, "nothing in the list".to_owned())));
        }
        // All of them first, so that each fault is told.
        let read: Vec<Option<Stated<T::Out>>> =
            elements.iter().map(|field| stated(r, field, &take)).collect();
        read.into_iter().collect::<Option<Vec<_>>>().filter(|list| !list.is_empty())
    }

    /// A list of alike values, at most so many; faulty ones are told and left out.
    pub fn list<T: Take>(
        &mut self,
        r: &mut Reader<'_>,
        key: &'static str,
        most: usize,
        take: T,
    ) -> Vec<Stated<T::Out>> {
        let listed =
            |tables: &Tables| Shape::List { of: Box::new(take.shape(tables)), least: 0, most };
        self.noted(r, key, Asked::Optional, listed);
        let elements = self.elements(r, key, most);
        elements.iter().filter_map(|field| stated(r, field, &take)).collect()
    }

    /// Tells of every key that nobody asked for and of every one that is missing. A missing key that
    /// stands there misspelt is told once, where it stands.
    pub fn close(self, r: &mut Reader<'_>) {
        let mut absent: Vec<&str> =
            self.asked.iter().copied().filter(|asked| !self.has(asked)).collect();
        // Missing ones first: a misspelt key is more likely one that has to be there.
        absent.sort_by_key(|asked| !self.missing.iter().any(|(key, _)| key == asked));
        let mut misspelt = Vec::new();
        for (key, _) in self.entries {
            let name: &str = key.get_ref();
            if !self.asked.contains(&name) && !r.counted_only() {
                let near = codes::nearest(name, absent.iter().copied());
                misspelt.extend(near);
                r.raise(codes::unknown_key::raise(self.home, name, key.span().into(), near));
            }
        }
        let told = self.missing.into_iter().filter(|(key, _)| !misspelt.contains(key));
        for (key, reason) in told {
            r.raise(codes::missing_key::raise(self.home, key, reason));
        }
    }

    /// Like [`Cursor::close`], for a table of which it is not known what else belongs in it.
    pub fn close_unjudged(self, r: &mut Reader<'_>) {
        for (key, reason) in self.missing {
            r.raise(codes::missing_key::raise(self.home, key, reason));
        }
    }

    pub fn noted_table(&self, r: &mut Reader<'_>, key: &'static str, many: bool) {
        if let Some(path) = self.path_of(key) {
            let shape = if many { Shape::Tables(path) } else { Shape::Table(path) };
            r.note(self.home, key, |_| Asked::Shape(shape));
        }
    }

    /// The path of a table within this one, as the list of keys spells it.
    fn path_of(&self, key: &str) -> Option<&'static str> {
        let wanted = match self.home.path {
            "" => key.to_owned(),
            path => format!("{path}.{key}"),
        };
        keys::table_of(&wanted).map(|table| table.path)
    }
}

/// The elements of a list, at most so many.
pub(super) fn elements_of<'t>(
    r: &mut Reader<'_>,
    field: &Field<'t>,
    most: usize,
) -> Vec<Field<'t>> {
    let DeValue::Array(list) = field.value else {
        r.raise(codes::wrong_shape::raise(field, "a list between [ and ]"));
        return Vec::new();
    };
    if list.len() > most {
        let beyond = list.get(most).map_or(field.span, |item| item.span().into());
        r.raise(codes::too_many::raise(field, list.len(), most, beyond));
    }
    list.iter().take(most).map(|item| element(field, item)).collect()
}

/// One value, through a taker.
pub(super) fn stated<T: Take>(
    r: &mut Reader<'_>,
    field: &Field<'_>,
    take: &T,
) -> Option<Stated<T::Out>> {
    take.take(r, field).map(|value| Stated::written(value, field.span))
}

fn element<'t>(list: &Field<'t>, item: &'t Spanned<DeValue<'t>>) -> Field<'t> {
    Field { span: item.span().into(), value: item.get_ref(), element: true, ..*list }
}

fn inside<'t>(
    r: &Reader<'_>,
    entries: &'t DeTable<'t>,
    path: &'static str,
    span: Span,
) -> Cursor<'t> {
    let inline = r.text.slice(span).starts_with('{');
    Cursor::new(entries, Home { path, span, inline })
}
