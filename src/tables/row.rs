//! One row of a table file, read by its keys.
//!
//! Takes a TOML table, gives typed values and a list of everything that is wrong with it. A key
//! that nobody asked for is a fault, with the nearest key offered. A wrong value is told and a zero
//! given in its place; a row with faults is then thrown away as a whole.
//!
//! A bare number counts in the unit of its column. In a reader's file only lengths (in mm) may be
//! bare; other quantities carry their unit, as in a build file.

use super::row_origin::GivenBy;
use super::table_fault::TableFault;
use crate::units::{self, Kind, Quantity, QuantityFault, Unit};
use std::collections::BTreeSet;
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// Numbers beyond this are no table value; quantities have the same bound.
const MOST: f64 = 1e15;

/// A row while it is read.
pub struct Row<'r> {
    table: &'r DeTable<'r>,
    span: Range<usize>,
    kind: &'static str,
    given_by: &'r GivenBy,
    asked: BTreeSet<&'static str>,
    faults: Vec<TableFault>,
}

impl<'r> Row<'r> {
    pub(super) fn new(
        table: &'r DeTable<'r>,
        span: Range<usize>,
        kind: &'static str,
        given_by: &'r GivenBy,
    ) -> Self {
        Self { table, span, kind, given_by, asked: BTreeSet::new(), faults: Vec::new() }
    }

    /// Reports keys that nobody asked for, and gives all faults.
    pub(super) fn finish(mut self) -> Vec<TableFault> {
        for (key, _) in self.table {
            let written: &str = key.get_ref();
            if !self.asked.contains(written) {
                let near = self
                    .asked
                    .iter()
                    .min_by_key(|asked| strsim::osa_distance(asked, written))
                    .map(|asked| format!("the nearest key is `{asked}`"));
                self.fault(format!("`{written}` is not a key of this row"), near, key.span());
            }
        }
        self.faults
    }

    fn fault(&mut self, message: String, help: Option<String>, span: Range<usize>) {
        let name = match self.table.get("name").map(Spanned::get_ref) {
            Some(DeValue::String(name)) => format!("{} {name}", self.kind),
            _ => self.kind.to_owned(),
        };
        self.faults.push(TableFault { row: name, message, help, span });
    }

    /// Whether a reader gave it.
    pub(super) const fn is_readers(&self) -> bool {
        matches!(self.given_by, GivenBy::Reader(_))
    }

    /// Who gave it.
    pub(super) const fn given_by(&self) -> &GivenBy {
        self.given_by
    }

    /// Whether nothing is wrong with it so far.
    pub(super) fn is_sound(&self) -> bool {
        self.faults.is_empty()
    }

    /// Whether the key is there; it need not be asked for.
    pub(super) fn has(&self, key: &str) -> bool {
        self.table.get(key).is_some()
    }

    /// Says that a value, though of the right kind, can't be.
    pub fn refuse(&mut self, key: &'static str, why: &str) {
        if !self.has(key) && self.asked.contains(key) {
            let missing = format!("`{key}` is missing");
            if self.faults.iter().all(|fault| fault.message != missing) {
                self.fault(missing, None, self.span.clone());
            }
            return;
        }
        let span = self.table.get(key).map_or_else(|| self.span.clone(), Spanned::span);
        self.fault(format!("`{key}`: {why}"), None, span);
    }

    fn value(&mut self, key: &'static str) -> Option<&'r Spanned<DeValue<'r>>> {
        self.asked.insert(key);
        self.table.get(key)
    }

    fn needed(&mut self, key: &'static str) -> Option<&'r Spanned<DeValue<'r>>> {
        let value = self.value(key);
        if value.is_none() {
            self.fault(format!("`{key}` is missing"), None, self.span.clone());
        }
        value
    }

    fn wrong(&mut self, key: &str, wanted: &str, value: &Spanned<DeValue<'_>>) {
        let found = value.get_ref().type_str();
        self.fault(format!("`{key}` takes {wanted}, not a {found}"), None, value.span());
    }

    /// A text that must be there.
    pub fn words(&mut self, key: &'static str) -> String {
        match self.needed(key) {
            Some(value) => self.text_of(key, value).unwrap_or_default(),
            None => String::new(),
        }
    }

    /// A text that may be missing.
    pub fn maybe_words(&mut self, key: &'static str) -> Option<String> {
        let value = self.value(key)?;
        self.text_of(key, value)
    }

    fn text_of(&mut self, key: &str, value: &Spanned<DeValue<'_>>) -> Option<String> {
        match value.get_ref() {
            DeValue::String(text) if !text.trim().is_empty() => Some(text.to_string()),
            _ => {
                self.wrong(key, "a text", value);
                None
            }
        }
    }

    /// A list of texts; nothing where it is missing.
    pub fn words_list(&mut self, key: &'static str) -> Vec<String> {
        let mut texts = Vec::new();
        for value in self.items(key) {
            texts.extend(self.text_of(key, value));
        }
        texts
    }

    /// A number without a unit that must be there; it may be negative.
    pub fn number(&mut self, key: &'static str) -> f64 {
        match self.needed(key) {
            Some(value) => self.number_of(key, value).unwrap_or(0.0),
            None => 0.0,
        }
    }

    /// A number without a unit that may be missing.
    pub fn maybe_number(&mut self, key: &'static str) -> Option<f64> {
        let value = self.value(key)?;
        self.number_of(key, value)
    }

    /// Numbers without a unit that must be there, `N` of them.
    pub fn numbers<const N: usize>(&mut self, key: &'static str) -> [f64; N] {
        let Some(value) = self.needed(key) else { return [0.0; N] };
        let read: Vec<f64> =
            self.items_of(key, value).iter().filter_map(|item| self.number_of(key, item)).collect();
        self.exactly(key, value, read).unwrap_or([0.0; N])
    }

    /// Numbers without a unit, `N` of them, as a list that may be missing.
    pub fn maybe_numbers<const N: usize>(&mut self, key: &'static str) -> Option<[f64; N]> {
        self.value(key)?;
        Some(self.numbers(key))
    }

    /// Lists of `N` numbers each.
    pub fn number_rows<const N: usize>(&mut self, key: &'static str) -> Vec<[f64; N]> {
        let mut rows = Vec::new();
        for item in self.items(key) {
            let read: Vec<f64> = self
                .items_of(key, item)
                .iter()
                .filter_map(|number| self.number_of(key, number))
                .collect();
            rows.extend(self.exactly(key, item, read));
        }
        rows
    }

    /// Lists of numbers, each as long as it is.
    pub fn number_lists(&mut self, key: &'static str) -> Vec<Vec<f64>> {
        let mut lists = Vec::new();
        for item in self.items(key) {
            let items = self.items_of(key, item);
            lists.push(items.iter().filter_map(|number| self.number_of(key, number)).collect());
        }
        lists
    }

    /// Numbers without a unit; nothing where the list is missing.
    pub fn number_list(&mut self, key: &'static str) -> Vec<f64> {
        let mut list = Vec::new();
        for item in self.items(key) {
            list.extend(self.number_of(key, item));
        }
        list
    }

    fn number_of(&mut self, key: &str, value: &Spanned<DeValue<'_>>) -> Option<f64> {
        match bare_number(value.get_ref()) {
            Some(number) if number.abs() <= MOST => Some(number),
            _ => {
                self.wrong(key, "a number", value);
                None
            }
        }
    }

    /// A whole number from 0 that must be there.
    pub fn whole(&mut self, key: &'static str) -> u32 {
        let value = self.needed(key);
        value.and_then(|value| self.whole_of(key, value)).unwrap_or(0)
    }

    /// Whole numbers from 0; nothing where the list is missing.
    pub fn whole_list(&mut self, key: &'static str) -> Vec<u32> {
        let mut list = Vec::new();
        for item in self.items(key) {
            list.extend(self.whole_of(key, item));
        }
        list
    }

    fn whole_of(&mut self, key: &str, value: &Spanned<DeValue<'_>>) -> Option<u32> {
        match bare_number(value.get_ref()) {
            Some(number) if number >= 0.0 && number.fract() == 0.0 && number < 1e9 => {
                Some(number as u32)
            }
            _ => {
                self.wrong(key, "a whole number", value);
                None
            }
        }
    }

    /// True or false; false where it is missing.
    pub fn flag(&mut self, key: &'static str) -> bool {
        let Some(value) = self.value(key) else { return false };
        if let DeValue::Boolean(flag) = value.get_ref() {
            *flag
        } else {
            self.wrong(key, "true or false", value);
            false
        }
    }

    /// A quantity that must be there; `unit` is that of a bare number.
    pub fn quantity<Q: Quantity>(&mut self, key: &'static str, unit: Unit) -> Q {
        match self.needed(key) {
            Some(value) => self.quantity_of(key, value, unit).unwrap_or(Q::from_stored(0.0)),
            None => Q::from_stored(0.0),
        }
    }

    /// A quantity that must be there and that something will be divided by.
    pub fn quantity_above_zero<Q: Quantity>(&mut self, key: &'static str, unit: Unit) -> Q {
        let quantity: Q = self.quantity(key, unit);
        if quantity.stored() > 0.0 {
            return quantity;
        }
        self.refuse(key, "must be above zero");
        Q::from_stored(1.0)
    }

    /// A quantity that may be missing.
    pub fn maybe<Q: Quantity>(&mut self, key: &'static str, unit: Unit) -> Option<Q> {
        let value = self.value(key)?;
        self.quantity_of(key, value, unit)
    }

    /// `N` quantities that must be there, as a list.
    pub fn quantities<Q: Quantity, const N: usize>(
        &mut self,
        key: &'static str,
        unit: Unit,
    ) -> [Q; N] {
        let nothing = [Q::from_stored(0.0); N];
        let Some(value) = self.needed(key) else { return nothing };
        let read: Vec<Q> = self
            .items_of(key, value)
            .iter()
            .filter_map(|item| self.quantity_of(key, item, unit))
            .collect();
        self.exactly(key, value, read).unwrap_or(nothing)
    }

    /// `N` quantities as a list that may be missing.
    pub fn maybe_quantities<Q: Quantity, const N: usize>(
        &mut self,
        key: &'static str,
        unit: Unit,
    ) -> Option<[Q; N]> {
        self.value(key)?;
        Some(self.quantities(key, unit))
    }

    /// A list of quantities; nothing where it is missing.
    pub fn quantity_list<Q: Quantity>(&mut self, key: &'static str, unit: Unit) -> Vec<Q> {
        let mut list = Vec::new();
        for item in self.items(key) {
            list.extend(self.quantity_of::<Q>(key, item, unit));
        }
        list
    }

    /// Lists of `N` quantities of one unit each.
    pub fn quantity_rows<Q: Quantity, const N: usize>(
        &mut self,
        key: &'static str,
        unit: Unit,
    ) -> Vec<[Q; N]> {
        let mut rows = Vec::new();
        for item in self.items(key) {
            let read: Vec<Q> = self
                .items_of(key, item)
                .iter()
                .filter_map(|quantity| self.quantity_of(key, quantity, unit))
                .collect();
            rows.extend(self.exactly(key, item, read));
        }
        rows
    }

    fn quantity_of<Q: Quantity>(
        &mut self,
        key: &str,
        value: &Spanned<DeValue<'_>>,
        unit: Unit,
    ) -> Option<Q> {
        let strict = self.is_readers() && !matches!(Q::KIND, Kind::Length | Kind::Ratio);
        let read: Result<Q, QuantityFault> = match value.get_ref() {
            DeValue::String(text) => units::parse(text, (!strict).then_some(unit)),
            bare => match bare_number(bare) {
                Some(_) if strict => {
                    let message = format!("`{key}` needs its unit");
                    let help = format!("write {} such as `\"12 {}\"`", Q::KIND.name(), unit.symbol);
                    self.fault(message, Some(help), value.span());
                    return None;
                }
                Some(number) => unit.quantity(number),
                None => {
                    self.wrong(key, Q::KIND.name(), value);
                    return None;
                }
            },
        };
        match read {
            Ok(quantity) if quantity.stored() < 0.0 && Q::KIND != Kind::Temperature => {
                self.fault(format!("`{key}` can't be negative"), None, value.span());
                None
            }
            Ok(quantity) => Some(quantity),
            Err(fault) => {
                self.fault(format!("`{key}`: {fault}"), Some(fault.help()), value.span());
                None
            }
        }
    }

    /// One of several words that must be there.
    pub fn choice<T: Copy>(&mut self, key: &'static str, choices: &[(&str, T)]) -> T {
        let value = self.needed(key);
        value.and_then(|value| self.choice_of(key, value, choices)).unwrap_or(choices[0].1)
    }

    /// Some of several words; nothing where the list is missing.
    pub fn choices<T: Copy>(&mut self, key: &'static str, choices: &[(&str, T)]) -> Vec<T> {
        let mut list = Vec::new();
        for item in self.items(key) {
            list.extend(self.choice_of(key, item, choices));
        }
        list
    }

    fn choice_of<T: Copy>(
        &mut self,
        key: &str,
        value: &Spanned<DeValue<'_>>,
        choices: &[(&str, T)],
    ) -> Option<T> {
        let text = self.text_of(key, value)?;
        let found = choices.iter().find(|(word, _)| *word == text).map(|(_, choice)| *choice);
        if found.is_none() {
            let known: Vec<&str> = choices.iter().map(|(word, _)| *word).collect();
            let help = format!("write one of `{}`", known.join("`, `"));
            self.fault(format!("`{key}` can't be `{text}`"), Some(help), value.span());
        }
        found
    }

    /// An inner table that may be missing.
    pub fn inner<T>(
        &mut self,
        key: &'static str,
        read: impl FnOnce(&mut Row<'_>) -> T,
    ) -> Option<T> {
        let value = self.value(key)?;
        self.inner_of(key, value, read)
    }

    /// An inner table that must be there, and what stands in its place where it isn't.
    pub fn needed_inner<T: Default>(
        &mut self,
        key: &'static str,
        read: impl FnOnce(&mut Row<'_>) -> T,
    ) -> T {
        match self.needed(key) {
            Some(value) => self.inner_of(key, value, read).unwrap_or_default(),
            None => T::default(),
        }
    }

    /// A list of inner tables; nothing where it is missing.
    pub fn inner_list<T>(
        &mut self,
        key: &'static str,
        mut read: impl FnMut(&mut Row<'_>) -> T,
    ) -> Vec<T> {
        let mut list = Vec::new();
        for item in self.items(key) {
            list.extend(self.inner_of(key, item, &mut read));
        }
        list
    }

    fn inner_of<T>(
        &mut self,
        key: &str,
        value: &'r Spanned<DeValue<'r>>,
        read: impl FnOnce(&mut Row<'_>) -> T,
    ) -> Option<T> {
        let DeValue::Table(table) = value.get_ref() else {
            self.wrong(key, "a table", value);
            return None;
        };
        let mut row = Row::new(table, value.span(), self.kind, self.given_by);
        let inner = read(&mut row);
        for fault in row.finish() {
            self.fault(format!("`{key}`: {}", fault.message), fault.help, fault.span);
        }
        Some(inner)
    }

    /// Keys and bare numbers of an inner table, in the order of the keys.
    pub fn number_map(&mut self, key: &'static str) -> Vec<(String, f64)> {
        let Some(value) = self.needed(key) else { return Vec::new() };
        let DeValue::Table(table) = value.get_ref() else {
            self.wrong(key, "a table", value);
            return Vec::new();
        };
        let mut map = Vec::new();
        for (name, number) in table {
            if let Some(number) = self.number_of(key, number) {
                map.push((name.get_ref().to_string(), number));
            }
        }
        map
    }

    fn items(&mut self, key: &'static str) -> &'r [Spanned<DeValue<'r>>] {
        match self.value(key) {
            Some(value) => self.items_of(key, value),
            None => &[],
        }
    }

    fn items_of<'v>(
        &mut self,
        key: &str,
        value: &'v Spanned<DeValue<'v>>,
    ) -> &'v [Spanned<DeValue<'v>>] {
        if let DeValue::Array(items) = value.get_ref() {
            items
        } else {
            self.wrong(key, "a list", value);
            &[]
        }
    }

    fn exactly<T, const N: usize>(
        &mut self,
        key: &str,
        value: &Spanned<DeValue<'_>>,
        read: Vec<T>,
    ) -> Option<[T; N]> {
        let found = read.len();
        let array = <[T; N]>::try_from(read).ok();
        if array.is_none() {
            self.fault(format!("`{key}` takes {N} values, not {found}"), None, value.span());
        }
        array
    }
}

fn bare_number(value: &DeValue<'_>) -> Option<f64> {
    match value {
        DeValue::Integer(number) if number.radix() == 10 => number.as_str().parse().ok(),
        DeValue::Float(number) => number.as_str().parse().ok(),
        _ => None,
    }
}
