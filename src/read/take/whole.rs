//! Counts.

use super::Take;
use super::measure::number_of;
use crate::read::codes;
use crate::read::field::Field;
use crate::read::reader::Reader;
use crate::read::shape::Shape;
use crate::tables::Tables;

/// A whole number within limits.
#[derive(Debug, Clone, Copy)]
pub(in crate::read) struct Whole {
    least: u32,
    most: u32,
}

/// A whole number from `least` to `most`.
pub(in crate::read) const fn whole(least: u32, most: u32) -> Whole {
    Whole { least, most }
}

impl Take for Whole {
    type Out = u32;

    fn shape(&self, _: &Tables) -> Shape {
        Shape::Whole { least: self.least, most: self.most }
    }

    fn written(&self, value: &Self::Out) -> String {
        value.to_string()
    }

    fn take(&self, r: &mut Reader<'_>, field: &Field<'_>) -> Option<u32> {
        let Some(number) = number_of(field.value) else {
            let finding = codes::not_whole::no_number(r, field);
            r.raise(finding);
            return None;
        };
        if !number.is_finite() {
            r.raise(codes::not_finite::raise(field, field.span));
            return None;
        }
        if number.fract() != 0.0 {
            let finding = codes::not_whole::raise(r, field, number);
            r.raise(finding);
            return None;
        }
        if self.least > 0 && number <= 0.0 {
            let finding = codes::nothing_or_less::raise(r, field);
            r.raise(finding);
            return None;
        }
        if number < f64::from(self.least) || number > f64::from(self.most) {
            let finding = codes::out_of_range::count(r, field, self.least, self.most);
            r.raise(finding);
            return None;
        }
        Some(number as u32)
    }
}
