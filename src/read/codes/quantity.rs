//! From what is wrong with a quantity to the rule that says so.

use super::{
    comma, missing_unit, not_finite, out_of_range, unknown_unit, unreadable_quantity, wrong_kind,
};
use crate::read::field::Field;
use crate::read::reader::Reader;
use crate::source::Finding;
use crate::units::{Kind, QuantityFault, QuantityFaultKind};

/// The finding for a quantity that `units` could not read.
pub(in crate::read) fn raise(
    r: &Reader<'_>,
    field: &Field<'_>,
    fault: &QuantityFault,
    wanted: Kind,
) -> Finding {
    let span = field.inner(r.text, &fault.range);
    match &fault.kind {
        QuantityFaultKind::MissingUnit { .. } => missing_unit::in_text(r, field, wanted),
        QuantityFaultKind::WrongKind { written, found, .. } => {
            wrong_kind::raise(field, span, written, *found, wanted)
        }
        QuantityFaultKind::UnknownUnit { written, nearest, .. } => {
            unknown_unit::raise(field, fault, span, written, *nearest, wanted)
        }
        QuantityFaultKind::Comma => comma::raise(r, field, fault.range.clone()),
        QuantityFaultKind::NotANumber { .. } if has_comma(field, fault) => {
            comma::raise(r, field, fault.range.clone())
        }
        QuantityFaultKind::NotFinite => not_finite::raise(field, span),
        QuantityFaultKind::TooLarge => out_of_range::beyond_sense(field),
        QuantityFaultKind::BelowAbsoluteZero => out_of_range::below_zero(field),
        QuantityFaultKind::Empty { .. }
        | QuantityFaultKind::NotANumber { .. }
        | QuantityFaultKind::Fraction
        | QuantityFaultKind::NotFiner => unreadable_quantity::raise(field, fault, span),
    }
}

/// `1.180,5` stops at its second mark; what is wrong with it is the comma all the same.
fn has_comma(field: &Field<'_>, fault: &QuantityFault) -> bool {
    let text = field.value.as_str().and_then(|text| text.get(fault.range.clone()));
    text.is_some_and(|number| {
        number.contains(',') && number.starts_with(|c: char| c.is_ascii_digit())
    })
}
