//! Words, names and marks.

use super::Take;
use crate::page::text::missing_characters;
use crate::read::codes;
use crate::read::field::Field;
use crate::read::reader::Reader;
use crate::read::shape::Shape;
use crate::tables::Tables;
use toml::de::DeValue;
use unicode_segmentation::UnicodeSegmentation;

/// Words for paper: on one line, not empty, not too long.
#[derive(Debug, Clone, Copy)]
pub(in crate::read) struct Words {
    most: usize,
}

/// At most so many characters.
pub(in crate::read) const fn words(most: usize) -> Words {
    Words { most }
}

/// A name as it stands on every sheet.
pub(in crate::read) const fn name() -> Words {
    Words { most: 60 }
}

/// A sentence or two.
pub(in crate::read) const fn sentence() -> Words {
    Words { most: 400 }
}

impl Take for Words {
    type Out = String;

    fn shape(&self, _: &Tables) -> Shape {
        Shape::Text { most: self.most }
    }

    fn written(&self, value: &Self::Out) -> String {
        value.clone()
    }

    fn take(&self, r: &mut Reader<'_>, field: &Field<'_>) -> Option<String> {
        let DeValue::String(text) = field.value else {
            r.raise(codes::wrong_shape::raise(field, "text between quotes"));
            return None;
        };
        let trimmed = text.trim();
        if trimmed.is_empty() {
            r.raise(codes::empty_text::raise(field));
            return None;
        }
        if let Some(odd) = trimmed.chars().find(|c| is_unprintable(*c)) {
            let finding = codes::unprintable_text::raise(r.text, field, odd);
            r.raise(finding);
            return None;
        }
        // Bytes first: counting the characters of a megabyte is work for nothing.
        let count =
            if trimmed.len() > 100_000 { trimmed.len() } else { trimmed.graphemes(true).count() };
        if count > self.most {
            r.raise(codes::text_too_long::raise(field, count, self.most));
            return None;
        }
        let missing = missing_characters(trimmed);
        if !missing.is_empty() {
            let finding = codes::letter_without_face::raise(r.text, field, &missing);
            r.raise(finding);
        }
        Some(trimmed.to_owned())
    }
}

/// What no printer shows: control characters, and the marks that turn the direction of writing.
fn is_unprintable(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{200E}' | '\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}'
            | '\u{2028}' | '\u{2029}' | '\u{FEFF}' | '\u{FFFD}')
}

/// Marks that a number follows ("F1"), so they end in a letter.
#[derive(Debug, Clone, Copy)]
pub(in crate::read) struct Mark;

/// Capital letters, at most three.
pub(in crate::read) const fn mark() -> Mark {
    Mark
}

impl Take for Mark {
    type Out = String;

    fn shape(&self, _: &Tables) -> Shape {
        Shape::Mark
    }

    fn written(&self, value: &Self::Out) -> String {
        value.clone()
    }

    fn take(&self, r: &mut Reader<'_>, field: &Field<'_>) -> Option<String> {
        let text = words(10_000).take(r, field)?;
        if text.len() <= 3 && text.bytes().all(|b| b.is_ascii_uppercase()) {
            return Some(text);
        }
        r.raise(codes::unfit_mark::raise(field, &text));
        None
    }
}

/// Three capital letters of a currency.
#[derive(Debug, Clone, Copy)]
pub(in crate::read) struct Letters;

/// The letters of a currency by ISO 4217; whether the code is in use is not checked.
pub(in crate::read) const fn currency() -> Letters {
    Letters
}

impl Take for Letters {
    type Out = String;

    fn shape(&self, _: &Tables) -> Shape {
        Shape::Currency
    }

    fn written(&self, value: &Self::Out) -> String {
        value.clone()
    }

    fn take(&self, r: &mut Reader<'_>, field: &Field<'_>) -> Option<String> {
        let text = words(10_000).take(r, field)?;
        if text.len() == 3 && text.bytes().all(|b| b.is_ascii_uppercase()) {
            return Some(text);
        }
        r.raise(codes::unreadable_currency::raise(field, &text));
        None
    }
}
