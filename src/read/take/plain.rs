//! Plain numbers, which have no unit.

use super::Take;
use super::measure::number_of;
use crate::read::codes;
use crate::read::field::Field;
use crate::read::reader::Reader;
use crate::read::shape::Shape;
use crate::tables::Tables;

/// A number without a unit within limits.
#[derive(Debug, Clone, Copy)]
pub(in crate::read) struct Plain {
    least: f64,
    most: f64,
}

/// A number from `least` to `most`.
pub(in crate::read) const fn plain_number(least: f64, most: f64) -> Plain {
    Plain { least, most }
}

impl Take for Plain {
    type Out = f64;

    fn shape(&self, _: &Tables) -> Shape {
        Shape::Number { least: self.least, most: self.most }
    }

    fn written(&self, value: &Self::Out) -> String {
        value.to_string()
    }

    fn take(&self, r: &mut Reader<'_>, field: &Field<'_>) -> Option<f64> {
        let Some(number) = number_of(field.value) else {
            r.raise(codes::wrong_shape::raise(field, "a plain number, without quotes and unit"));
            return None;
        };
        if !number.is_finite() {
            r.raise(codes::not_finite::raise(field, field.span));
            return None;
        }
        if number < self.least || number > self.most {
            let (least, most) = (self.least.to_string(), self.most.to_string());
            r.raise(codes::out_of_range::raise(
                r,
                field,
                &number.to_string(),
                [&least, &most],
                &[],
            ));
            return None;
        }
        Some(number)
    }
}
