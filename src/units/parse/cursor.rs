//! A walk through the text of a quantity.

use super::{QuantityFault, QuantityFaultKind};
use crate::units::Kind;
use std::ops::Range;

/// A place in the text of a quantity.
pub(super) struct Cursor<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Cursor<'a> {
    pub(super) const fn new(text: &'a str) -> Self {
        Self { text, at: 0 }
    }

    /// Bytes that were read.
    pub(super) const fn at(&self) -> usize {
        self.at
    }

    pub(super) fn rest(&self) -> &'a str {
        &self.text[self.at..]
    }

    fn take_while(&mut self, wanted: impl Fn(char) -> bool) -> &'a str {
        let rest = self.rest();
        let end = rest.find(|c| !wanted(c)).unwrap_or(rest.len());
        self.at += end;
        &rest[..end]
    }

    pub(super) fn skip_spaces(&mut self) {
        self.take_while(char::is_whitespace);
    }

    pub(super) fn sign(&mut self) -> f64 {
        let mut chars = self.rest().chars();
        let sign = match chars.next() {
            Some('-' | '\u{2212}') => -1.0,
            Some('+') => 1.0,
            _ => return 1.0,
        };
        self.at = self.text.len() - chars.as_str().len();
        sign
    }

    /// Digits, point, exponent; or a fraction; or both.
    pub(super) fn number(&mut self, wanted: Kind) -> Result<f64, QuantityFault> {
        let begin = self.at;
        if let Some(part) = self.vulgar() {
            return Ok(part);
        }
        let mut digits = self.take_while(|c| c.is_ascii_digit()).to_owned();
        if (1..=3).contains(&digits.len()) {
            while let Some(group) = self.group_of_three() {
                digits.push_str(group);
            }
        }
        if self.rest().starts_with('/') && !digits.is_empty() {
            return self.over(&digits, begin);
        }
        if self.rest().starts_with(',') {
            self.at += 1;
            self.take_while(|c| c.is_ascii_digit() || matches!(c, ',' | '.'));
            return Err(self.fault(QuantityFaultKind::Comma, begin));
        }
        let mut whole = !digits.is_empty();
        if self.rest().starts_with('.') {
            self.at += 1;
            digits.push('.');
            digits.push_str(self.take_while(|c| c.is_ascii_digit()));
            whole = false;
        }
        if digits.is_empty() || digits == "." {
            return Err(self.no_number(wanted, begin));
        }
        if let Some(exponent) = self.exponent() {
            digits.push_str(exponent);
            whole = false;
        }
        if self.rest().starts_with(['.', ',']) {
            self.take_while(|c| c.is_ascii_digit() || matches!(c, ',' | '.'));
            return Err(self.fault(QuantityFaultKind::NotANumber { wanted }, begin));
        }
        let value: f64 = digits
            .parse()
            .map_err(|_| self.fault(QuantityFaultKind::NotANumber { wanted }, begin))?;
        if !value.is_finite() {
            return Err(self.fault(QuantityFaultKind::TooLarge, begin));
        }
        Ok(if whole { value + self.fraction_after()? } else { value })
    }

    /// Why no digit stands here.
    fn no_number(&mut self, wanted: Kind, begin: usize) -> QuantityFault {
        self.at = begin;
        let word = self.take_while(|c| !c.is_whitespace()).to_lowercase();
        let kind = if ["nan", "inf", "infinity", "∞"].iter().any(|w| word.starts_with(w)) {
            QuantityFaultKind::NotFinite
        } else {
            QuantityFaultKind::NotANumber { wanted }
        };
        self.fault(kind, begin)
    }

    fn fault(&self, kind: QuantityFaultKind, begin: usize) -> QuantityFault {
        QuantityFault { kind, range: begin..self.at }
    }

    /// A space and three digits that are no part of a fraction.
    fn group_of_three(&mut self) -> Option<&'a str> {
        let rest = self.rest();
        let space = rest.chars().next().filter(|c| c.is_whitespace())?;
        let after = &rest[space.len_utf8()..];
        let count = after.bytes().take_while(u8::is_ascii_digit).count();
        if count != 3 || after[3..].starts_with('/') {
            return None;
        }
        self.at += space.len_utf8() + 3;
        Some(&after[..3])
    }

    /// `e3`, `E-3`.
    fn exponent(&mut self) -> Option<&'a str> {
        let rest = self.rest();
        let after = rest.strip_prefix(['e', 'E'])?;
        let digits = after.strip_prefix(['-', '+']).unwrap_or(after);
        let count = digits.bytes().take_while(u8::is_ascii_digit).count();
        let length = rest.len() - digits.len() + count;
        (count > 0).then(|| {
            self.at += length;
            &rest[..length]
        })
    }

    /// What follows a whole number: ` 1/2`, `-1/2`, `½`, or nothing.
    fn fraction_after(&mut self) -> Result<f64, QuantityFault> {
        let before = self.at;
        if self.rest().starts_with('-') {
            self.at += 1;
        } else {
            self.skip_spaces();
        }
        let begin = self.at;
        if let Some(part) = self.vulgar() {
            return Ok(part);
        }
        let over = self.take_while(|c| c.is_ascii_digit());
        if !over.is_empty() && self.rest().starts_with('/') {
            let part = self.over(over, begin)?;
            if part >= 1.0 {
                return Err(self.fault(QuantityFaultKind::Fraction, begin));
            }
            return Ok(part);
        }
        self.at = before;
        Ok(0.0)
    }

    /// The `/8` after `3`.
    fn over(&mut self, over: &str, begin: usize) -> Result<f64, QuantityFault> {
        self.at += 1;
        let under = self.take_while(|c| c.is_ascii_digit());
        match (over.parse::<f64>(), under.parse::<f64>()) {
            (Ok(over), Ok(under)) if under > 0.0 && over.is_finite() && under.is_finite() => {
                Ok(over / under)
            }
            _ => Err(self.fault(QuantityFaultKind::Fraction, begin)),
        }
    }

    /// A fraction that is one character.
    fn vulgar(&mut self) -> Option<f64> {
        let c = self.rest().chars().next()?;
        let part = match c {
            '½' => 1.0 / 2.0,
            '¼' => 1.0 / 4.0,
            '¾' => 3.0 / 4.0,
            '⅛' => 1.0 / 8.0,
            '⅜' => 3.0 / 8.0,
            '⅝' => 5.0 / 8.0,
            '⅞' => 7.0 / 8.0,
            _ => return None,
        };
        self.at += c.len_utf8();
        Some(part)
    }

    /// All up to the next number: a digit starts one unless it stands in the unit, as in `mm2` and
    /// `kg/m3`.
    pub(super) fn unit(&mut self) -> (&'a str, Range<usize>) {
        let begin = self.at;
        let rest = self.rest();
        let mut end = rest.len();
        let mut before = ' ';
        // `1/K` and `10⁻⁶/K` are the units that begin with a digit.
        let own_digits = if rest.starts_with("1/") || rest.starts_with("10⁻") { 2 } else { 0 };
        for (i, c) in rest.char_indices() {
            let starts_number = c.is_ascii_digit() || "½¼¾⅛⅜⅝⅞".contains(c);
            let quote = matches!(before, '\'' | '"' | '′' | '″' | '’' | '”');
            if starts_number && i >= own_digits && (before.is_whitespace() || quote) {
                end = i;
                break;
            }
            before = c;
        }
        let written = rest[..end].trim_end();
        self.at += end;
        (written, begin..begin + written.len())
    }
}
