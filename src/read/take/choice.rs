//! One word of a few.

use super::Take;
use crate::read::codes;
use crate::read::field::Field;
use crate::read::reader::Reader;
use crate::read::shape::Shape;
use crate::tables::Tables;
use toml::de::DeValue;

/// One word of a few, each with what it means.
#[derive(Debug, Clone, Copy)]
pub(in crate::read) struct Choice<T: 'static>(pub &'static [(&'static str, T)]);

impl<T: Copy + PartialEq> Take for Choice<T> {
    type Out = T;

    fn shape(&self, _: &Tables) -> Shape {
        Shape::Word(self.0.iter().map(|(word, _)| *word).collect())
    }

    fn written(&self, value: &Self::Out) -> String {
        self.0.iter().find(|(_, meant)| meant == value).map_or("", |(word, _)| word).to_owned()
    }

    fn take(&self, r: &mut Reader<'_>, field: &Field<'_>) -> Option<T> {
        let DeValue::String(text) = field.value else {
            r.raise(codes::wrong_shape::raise(field, "one word between quotes"));
            return None;
        };
        if let Some((_, meant)) = self.0.iter().find(|(word, _)| *word == text.as_ref()) {
            return Some(*meant);
        }
        let words: Vec<&str> = self.0.iter().map(|(word, _)| *word).collect();
        r.raise(codes::unknown_choice::raise(field, text, &words));
        None
    }
}
