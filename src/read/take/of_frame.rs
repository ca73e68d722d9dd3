//! One of the frames by its name.

use super::Take;
use crate::read::codes;
use crate::read::field::Field;
use crate::read::reader::Reader;
use crate::read::shape::Shape;
use crate::tables::Tables;
use toml::de::DeValue;

/// One of the frames by its name, as its place among them.
#[derive(Debug, Clone, Copy)]
pub(in crate::read) struct OfFrame;

impl Take for OfFrame {
    type Out = usize;

    fn shape(&self, _: &Tables) -> Shape {
        Shape::Frame
    }

    fn written(&self, value: &Self::Out) -> String {
        value.to_string()
    }

    fn take(&self, r: &mut Reader<'_>, field: &Field<'_>) -> Option<usize> {
        let DeValue::String(text) = field.value else {
            r.raise(codes::wrong_shape::raise(field, "the name of a frame between quotes"));
            return None;
        };
        let same = |name: &String| name.to_lowercase() == text.trim().to_lowercase();
        if let Some(found) = r.frames.iter().position(same) {
            return Some(found);
        }
        if r.frames.is_empty() {
            // That there is no frame at all is told where frames are missed.
            return Some(0);
        }
        let names = r.frames.clone();
        let names: Vec<&str> = names.iter().map(String::as_str).collect();
        r.raise(codes::unknown_choice::raise(field, text, &names));
        None
    }
}
