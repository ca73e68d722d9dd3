//! Quantities from text: `1180 mm`, `46 1/2 in`, `5' 6 1/2"`, `1 h 30 min`, `−0.28 %/K`.
//!
//! A text is a sign, then one number with its unit, or several with ever finer units of one kind.
//! A number is digits with a point, groups of three digits apart by spaces, a fraction, or a whole
//! number and a fraction. Units are told by the kind that is wanted, so `g` is a gram where a mass
//! belongs and standard gravity where an acceleration belongs. Nothing is guessed: a comma, a wrong
//! case or a missing unit is a fault that says what to write.

use super::{Kind, Quantity, Unit};
use std::fmt;
use std::ops::Range;

/// Stored values beyond this are no build: 10¹⁵ mm reaches past the planets.
const MOST: f64 = 1e15;

/// What is wrong with a quantity, and where in its text.
#[derive(Clone, Debug, PartialEq)]
pub struct QuantityFault {
    /// What is wrong.
    pub kind: QuantityFaultKind,
    /// Bytes of the text that are at fault.
    pub range: Range<usize>,
}

/// What is wrong with a quantity.
#[derive(Clone, Debug, PartialEq)]
pub enum QuantityFaultKind {
    /// Nothing but spaces.
    Empty {
        /// What belongs there.
        wanted: Kind,
    },
    /// Not a number where one belongs.
    NotANumber {
        /// What belongs there.
        wanted: Kind,
    },
    /// NaN or infinity, in words.
    NotFinite,
    /// Beyond all sense.
    TooLarge,
    /// A comma in a number.
    Comma,
    /// A fraction over zero, or a whole number with a fraction of one or more.
    Fraction,
    /// A number alone.
    MissingUnit {
        /// What belongs there.
        wanted: Kind,
    },
    /// A unit that no kind has.
    UnknownUnit {
        /// As written.
        written: String,
        /// What belongs there.
        wanted: Kind,
        /// The unit of the wanted kind whose text is nearest, when one is near.
        nearest: Option<&'static str>,
    },
    /// A unit of another kind.
    WrongKind {
        /// As written.
        written: String,
        /// What it measures.
        found: Kind,
        /// What belongs there.
        wanted: Kind,
    },
    /// A second number whose unit isn't finer than the one before.
    NotFiner,
    /// Below 0 K.
    BelowAbsoluteZero,
}

impl QuantityFault {
    /// What to write instead.
    pub fn help(&self) -> String {
        match &self.kind {
            QuantityFaultKind::UnknownUnit { nearest: Some(unit), .. } => {
                format!("write `{unit}` if that is the unit meant")
            }
            QuantityFaultKind::UnknownUnit { wanted, .. }
            | QuantityFaultKind::WrongKind { wanted, .. }
            | QuantityFaultKind::MissingUnit { wanted } => {
                let units: Vec<String> = wanted
                    .units()
                    .filter(|unit| !unit.symbol.is_empty())
                    .map(|unit| format!("`{}`", unit.symbol))
                    .collect();
                format!("{} takes one of the units {}", wanted.name(), units.join(", "))
            }
            QuantityFaultKind::Empty { wanted } | QuantityFaultKind::NotANumber { wanted } => {
                format!("write {} such as `{}`", wanted.name(), wanted.example())
            }
            QuantityFaultKind::Comma => {
                "write a point before the decimals and nothing, or a space, between thousands"
                    .into()
            }
            QuantityFaultKind::Fraction => "write a fraction below one, such as `46 1/2 in`".into(),
            QuantityFaultKind::NotFiner => {
                "write one number and unit, or coarse before fine, such as `5 ft 6 in`".into()
            }
            QuantityFaultKind::NotFinite | QuantityFaultKind::TooLarge => {
                "write the value as measured".into()
            }
            QuantityFaultKind::BelowAbsoluteZero => "no temperature is below −273.15 °C".into(),
        }
    }
}

impl fmt::Display for QuantityFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.kind {
            QuantityFaultKind::Empty { wanted } => write!(f, "{} is missing", wanted.name()),
            QuantityFaultKind::NotANumber { wanted } => {
                write!(f, "{} starts with a number", wanted.name())
            }
            QuantityFaultKind::NotFinite => f.write_str("the number has no finite value"),
            QuantityFaultKind::TooLarge => f.write_str("the value is too large to be meant"),
            QuantityFaultKind::Comma => f.write_str("a number has no comma"),
            QuantityFaultKind::Fraction => f.write_str("the fraction can't be read"),
            QuantityFaultKind::MissingUnit { .. } => f.write_str("the number has no unit"),
            QuantityFaultKind::UnknownUnit { written, .. } => {
                write!(f, "`{written}` is not a known unit")
            }
            QuantityFaultKind::WrongKind { written, found, wanted } => {
                write!(
                    f,
                    "`{written}` measures {}, but {} belongs here",
                    found.name(),
                    wanted.name()
                )
            }
            QuantityFaultKind::NotFiner => {
                f.write_str("the second unit is not finer than the first")
            }
            QuantityFaultKind::BelowAbsoluteZero => {
                f.write_str("the temperature is below absolute zero")
            }
        }
    }
}

impl std::error::Error for QuantityFault {}

/// Reads a quantity. `bare` is the unit of a number that stands alone; without it, a unit is
/// demanded.
///
/// # Errors
/// A [`QuantityFault`] with the bytes of `text` that are at fault.
///
/// ```
/// use rungsheet::units::{Length, Unit, parse};
/// assert_eq!(parse::<Length>("46 1/2 in", None), Ok(Length::inches(46.5)));
/// assert_eq!(parse::<Length>("5' 6 1/2\"", None), Ok(Length::inches(66.5)));
/// assert_eq!(parse::<Length>("1180", Some(Unit::MM)), Ok(Length::mm(1180.0)));
/// assert!(parse::<Length>("12 kg", None).is_err());
/// ```
pub fn parse<Q: Quantity>(text: &str, bare: Option<Unit>) -> Result<Q, QuantityFault> {
    let mut cursor = Cursor { text, at: 0 };
    let fault = |kind, range| Err(QuantityFault { kind, range });
    cursor.skip_spaces();
    let begin = cursor.at;
    let whole = begin..text.trim_end().len().max(begin);
    if cursor.rest().is_empty() {
        return fault(QuantityFaultKind::Empty { wanted: Q::KIND }, 0..text.len());
    }
    let sign = cursor.sign();
    cursor.skip_spaces();
    let mut total = 0.0;
    let mut last: Option<Unit> = None;
    loop {
        let number = cursor.number(Q::KIND)?;
        cursor.skip_spaces();
        let (written, range) = cursor.unit();
        let unit = if written.is_empty() {
            match bare {
                Some(unit) if last.is_none() && unit.kind == Q::KIND => unit,
                _ => {
                    return fault(QuantityFaultKind::MissingUnit { wanted: Q::KIND }, whole);
                }
            }
        } else {
            find(written, Q::KIND).map_err(|kind| QuantityFault { kind, range: range.clone() })?
        };
        if last.is_some_and(|last| unit.size() >= last.size() || !compounds(Q::KIND)) {
            return fault(QuantityFaultKind::NotFiner, range);
        }
        // Only kinds whose zero is nothing come in several terms; there the sign is for all.
        total += unit.to_stored(sign * number);
        last = Some(unit);
        cursor.skip_spaces();
        if cursor.rest().is_empty() {
            break;
        }
    }
    check_size(total, Q::KIND)
        .map(Q::from_stored)
        .map_err(|kind| QuantityFault { kind, range: whole })
}

/// Feet and inches, hours and minutes, pounds and ounces: kinds that people write in two units.
const fn compounds(kind: Kind) -> bool {
    matches!(kind, Kind::Length | Kind::Duration | Kind::Mass)
}

/// A stored value that a build can mean.
pub(super) fn check_size(stored: f64, kind: Kind) -> Result<f64, QuantityFaultKind> {
    if stored.is_nan() {
        Err(QuantityFaultKind::NotFinite)
    } else if stored.abs() > MOST {
        Err(QuantityFaultKind::TooLarge)
    } else if kind == Kind::Temperature && stored < -1e-9 {
        Err(QuantityFaultKind::BelowAbsoluteZero)
    } else {
        Ok(stored)
    }
}

/// The unit of the wanted kind with this text, else why not.
fn find(written: &str, wanted: Kind) -> Result<Unit, QuantityFaultKind> {
    let tidy = tidy_unit(written);
    if let Some(unit) = wanted.units().find(|unit| unit.is_written(&tidy)) {
        return Ok(*unit);
    }
    let written = written.to_owned();
    if let Some(other) = Unit::ALL.iter().find(|unit| unit.is_written(&tidy)) {
        return Err(QuantityFaultKind::WrongKind { written, found: other.kind, wanted });
    }
    Err(QuantityFaultKind::UnknownUnit { nearest: nearest(&tidy, wanted), written, wanted })
}

/// The unit whose text differs least: in case only, else by the fewest letters, if most of the
/// letters agree.
fn nearest(tidy: &str, wanted: Kind) -> Option<&'static str> {
    let lower = tidy.to_lowercase();
    wanted
        .units()
        .flat_map(|unit| unit.spellings.iter().chain([&unit.symbol]).map(move |s| (unit.symbol, s)))
        .filter(|(symbol, _)| !symbol.is_empty())
        .map(|(symbol, spelling)| (strsim::levenshtein(&lower, &spelling.to_lowercase()), symbol))
        .filter(|(steps, symbol)| *steps <= symbol.chars().count().max(tidy.chars().count()) / 2)
        .min_by_key(|(steps, _)| *steps)
        .map(|(_, symbol)| symbol)
}

/// One way to write what has several: dots, exponents, Greek letters that exist twice, spaces.
pub(super) fn tidy_unit(written: &str) -> String {
    let mut out = String::with_capacity(written.len());
    let mut chars = written.trim().chars().peekable();
    while let Some(c) = chars.next() {
        let next = chars.peek().copied();
        match c {
            '^' if matches!(next, Some('2'..='4')) => {
                out.push(match chars.next() {
                    Some('2') => '²',
                    Some('3') => '³',
                    _ => '⁴',
                });
            }
            '⋅' | '*' | '•' | '∙' => out.push('·'),
            '\u{3BC}' => out.push('µ'),
            '\u{2126}' => out.push('Ω'),
            c if c.is_whitespace() => {
                if !out.ends_with(' ') {
                    out.push(' ');
                }
            }
            c => out.push(c),
        }
    }
    out
}

/// A place in the text of a quantity.
struct Cursor<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Cursor<'a> {
    fn rest(&self) -> &'a str {
        &self.text[self.at..]
    }

    fn take_while(&mut self, wanted: impl Fn(char) -> bool) -> &'a str {
        let rest = self.rest();
        let end = rest.find(|c| !wanted(c)).unwrap_or(rest.len());
        self.at += end;
        &rest[..end]
    }

    fn skip_spaces(&mut self) {
        self.take_while(char::is_whitespace);
    }

    fn sign(&mut self) -> f64 {
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
    fn number(&mut self, wanted: Kind) -> Result<f64, QuantityFault> {
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
    fn unit(&mut self) -> (&'a str, Range<usize>) {
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

#[cfg(test)]
mod tests;
