//! Quantities: text with a unit; for lengths also a bare number.

use super::Take;
use crate::read::codes;
use crate::read::field::Field;
use crate::read::reader::Reader;
use crate::read::shape::Shape;
use crate::tables::Tables;
use crate::units::{Kind, Length, Money, MoneyFault, Quantity, Unit, display, parse};
use std::fmt::Display;
use toml::de::DeValue;

/// A quantity within limits.
#[derive(Debug, Clone, Copy)]
pub(in crate::read) struct Measure<Q> {
    bare: bool,
    above_zero: bool,
    least: Q,
    most: Q,
}

/// No number with its unit is longer; comparing a long text with every unit is work for nothing.
const LONGEST_TEXT: usize = 100;
/// Longest thing on a vehicle or in a shop: a lorry with trailer is shorter.
const LONGEST: Length = Length::m(30.0);
/// Finer than any gauge; keeps slips such as metres for millimetres from passing as sizes.
const FINEST: Length = Length::mm(0.01);

/// A size: more than nothing, bare numbers allowed.
pub(in crate::read) const fn size() -> Measure<Length> {
    Measure { bare: true, above_zero: true, least: FINEST, most: LONGEST }
}

/// A side of a vehicle, a roof or what stands in its way: a metre written for a millimetre is told.
pub(in crate::read) const fn body_size() -> Measure<Length> {
    stated_size(Length::mm(200.0), LONGEST)
}

/// A side of a panel: from a strip for a lamp to the longest that two people carry.
pub(in crate::read) const fn panel_size() -> Measure<Length> {
    stated_size(Length::mm(50.0), Length::m(4.0))
}

/// A side of a plate, a block or a battery: what a hand or two hold.
pub(in crate::read) const fn piece_size() -> Measure<Length> {
    stated_size(Length::mm(5.0), Length::m(3.0))
}

/// The width of a strip, a bead or a flange.
pub(in crate::read) const fn strip_width() -> Measure<Length> {
    stated_size(Length::mm(1.0), Length::mm(300.0))
}

/// The thickness of a sheet, wall or tape.
pub(in crate::read) const fn thickness() -> Measure<Length> {
    Measure { bare: true, above_zero: true, least: FINEST, most: Length::mm(200.0) }
}

/// A place on an axis, either side of zero, bare numbers allowed.
pub(in crate::read) const fn place() -> Measure<Length> {
    Measure { bare: true, above_zero: false, least: Length::m(-30.0), most: LONGEST }
}

/// A place with limits of its own, either side of zero, bare numbers allowed.
pub(in crate::read) const fn stated_place(least: Length, most: Length) -> Measure<Length> {
    Measure { bare: true, above_zero: false, least, most }
}

/// Room between two things: nothing or more, bare numbers allowed.
pub(in crate::read) const fn room() -> Measure<Length> {
    Measure { bare: true, above_zero: false, least: Length::ZERO, most: LONGEST }
}

/// A size with limits of its own, bare numbers allowed.
pub(in crate::read) const fn stated_size(least: Length, most: Length) -> Measure<Length> {
    Measure { bare: true, above_zero: true, least, most }
}

/// A quantity with limits of its own and always a unit.
pub(in crate::read) const fn measure<Q: Quantity>(least: Q, most: Q) -> Measure<Q> {
    Measure { bare: false, above_zero: false, least, most }
}

impl<Q: Quantity> Measure<Q> {
    /// Zero and less make no sense here.
    pub const fn positive(mut self) -> Self {
        self.above_zero = true;
        self
    }
}

/// Whether a text has more characters; the length in bytes settles most.
pub(in crate::read) fn longer_than(text: &str, most: usize) -> bool {
    text.len() > most && text.chars().nth(most).is_some()
}

impl<Q: Quantity + PartialOrd + Display> Take for Measure<Q> {
    type Out = Q;

    fn shape(&self, _: &Tables) -> Shape {
        Shape::Quantity {
            kind: Q::KIND,
            bare: self.bare,
            above_zero: self.above_zero,
            limits: [self.least.to_string(), self.most.to_string()],
        }
    }

    fn written(&self, value: &Self::Out) -> String {
        value.to_string()
    }

    fn take(&self, r: &mut Reader<'_>, field: &Field<'_>) -> Option<Q> {
        let value = match field.value {
            DeValue::String(text) if longer_than(text, LONGEST_TEXT) => {
                r.raise(codes::text_too_long::raise(field, text.chars().count(), LONGEST_TEXT));
                return None;
            }
            DeValue::String(text) => match parse::<Q>(text, None) {
                Ok(value) => value,
                Err(fault) => {
                    let finding = codes::quantity::raise(r, field, &fault, Q::KIND);
                    r.raise(finding);
                    return None;
                }
            },
            DeValue::Integer(_) | DeValue::Float(_) => self.bare_number(r, field)?,
            _ => {
                let wanted = if self.bare {
                    "a number or text with a unit".to_owned()
                } else {
                    format!("{} with its unit between quotes", Q::KIND.name())
                };
                r.raise(codes::wrong_shape::raise(field, &wanted));
                return None;
            }
        };
        self.within(r, field, value)
    }
}

impl<Q: Quantity + PartialOrd + Display> Measure<Q> {
    fn bare_number(&self, r: &mut Reader<'_>, field: &Field<'_>) -> Option<Q> {
        let number = number_of(field.value)?;
        if !number.is_finite() {
            r.raise(codes::not_finite::raise(field, field.span));
            return None;
        }
        if !self.bare || Q::KIND != Kind::Length {
            let finding = codes::missing_unit::bare(r, field, Q::KIND);
            r.raise(finding);
            return None;
        }
        match r.unit.quantity::<Q>(number) {
            Ok(value) => Some(value),
            Err(fault) => {
                let finding = codes::quantity::raise(r, field, &fault, Q::KIND);
                r.raise(finding);
                None
            }
        }
    }

    fn within(&self, r: &mut Reader<'_>, field: &Field<'_>, value: Q) -> Option<Q> {
        if self.above_zero && value.stored() <= 0.0 {
            let finding = codes::nothing_or_less::raise(r, field);
            r.raise(finding);
            return None;
        }
        if value < self.least || value > self.most {
            let unit = field.value.as_str().and_then(written_unit::<Q>);
            let meant = self.meant(r, field);
            let [value, least, most] = [value, self.least, self.most].map(|q| in_unit(q, unit));
            let finding = codes::out_of_range::raise(r, field, &value, [&least, &most], &meant);
            r.raise(finding);
            return None;
        }
        Some(value)
    }

    /// What a bare number may have been measured in, as it would be written: units in which it lies
    /// within the limits.
    fn meant(&self, r: &Reader<'_>, field: &Field<'_>) -> Vec<String> {
        if Q::KIND != Kind::Length || number_of(field.value).is_none() {
            return Vec::new();
        }
        let written =
            ["m", "cm", "in", "mm"].map(|unit| format!("{} {unit}", field.written(r.text)));
        let fits = |text: &String| {
            parse::<Q>(text, None).is_ok_and(|value| self.least <= value && value <= self.most)
        };
        written.into_iter().filter(fits).collect()
    }
}

/// The unit that a text ends with.
fn written_unit<Q: Quantity>(text: &str) -> Option<Unit> {
    let number = |c: char| c.is_ascii_digit() || c.is_whitespace() || "+-−./".contains(c);
    Q::KIND.unit(text.trim_start_matches(number))
}

/// In the unit that the author wrote, so that the number is known again.
fn in_unit<Q: Quantity + Display>(quantity: Q, unit: Option<Unit>) -> String {
    let Some(unit) = unit else { return quantity.to_string() };
    let gap = if matches!(unit.symbol, "°" | "") { "" } else { " " };
    format!("{}{gap}{}", display::plain(unit.number_of(quantity), 6), unit.symbol)
}

/// A bare number as TOML has it, NaN and infinity included.
pub(in crate::read) fn number_of(value: &DeValue<'_>) -> Option<f64> {
    match value {
        DeValue::Integer(integer) => {
            // Beyond i128 it is beyond any limit too, and is told as such.
            let digits = i128::from_str_radix(integer.as_str(), integer.radix());
            Some(digits.map_or(f64::MAX, |whole| whole as f64))
        }
        DeValue::Float(float) => Some(float.as_str().parse().unwrap_or(f64::NAN)),
        _ => None,
    }
}

/// A price, as text because a bare number is a length.
#[derive(Debug, Clone, Copy)]
pub(in crate::read) struct Price;

impl Take for Price {
    type Out = Money;

    fn shape(&self, _: &Tables) -> Shape {
        Shape::Price
    }

    fn written(&self, value: &Self::Out) -> String {
        value.to_string()
    }

    fn take(&self, r: &mut Reader<'_>, field: &Field<'_>) -> Option<Money> {
        let DeValue::String(text) = field.value else {
            let finding = codes::unreadable_price::not_text(r, field);
            r.raise(finding);
            return None;
        };
        match Money::parse(text) {
            Ok(price) if price < Money::ZERO => {
                let finding = codes::nothing_or_less::raise(r, field);
                r.raise(finding);
                None
            }
            Ok(price) => Some(price),
            Err(MoneyFault::Comma) => {
                let finding = codes::comma::raise(r, field, 0..text.len());
                r.raise(finding);
                None
            }
            Err(fault) => {
                r.raise(codes::unreadable_price::raise(field, fault));
                None
            }
        }
    }
}
