//! From one TOML value to one value of the build. A taker gives nothing where it raised a finding.

mod choice;
mod date;
mod measure;
mod of_frame;
mod plain;
mod row;
mod text;
mod whole;

pub(super) use choice::Choice;
pub(super) use date::{Clock, Day, Moment};
pub(super) use measure::{
    Measure, Price, body_size, measure, number_of, panel_size, piece_size, place, room, size,
    stated_place, stated_size, strip_width, thickness,
};
pub(super) use of_frame::OfFrame;
pub(super) use plain::plain_number;
pub(super) use row::Row;
pub(super) use text::{currency, mark, name, sentence, words};
pub(super) use whole::whole;

use super::field::Field;
use super::reader::Reader;
use super::shape::Shape;
use crate::tables::Tables;

/// A way to read one value.
pub(super) trait Take {
    /// What it gives.
    type Out;
    /// The value, or nothing and a finding.
    fn take(&self, r: &mut Reader<'_>, field: &Field<'_>) -> Option<Self::Out>;
    /// What it takes.
    fn shape(&self, tables: &Tables) -> Shape;
    /// A value as one would write it, for defaults.
    fn written(&self, value: &Self::Out) -> String;
}
