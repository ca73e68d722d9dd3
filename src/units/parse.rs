//! Quantities from text: `1180 mm`, `46 1/2 in`, `5' 6 1/2"`, `1 h 30 min`, `−0.28 %/K`.
//!
//! A text is a sign, then one number with its unit, or several with ever finer units of one kind.
//! A number is digits with a point, groups of three digits apart by spaces, a fraction, or a whole
//! number and a fraction. Units are told by the kind that is wanted, so `g` is a gram where a mass
//! belongs and standard gravity where an acceleration belongs. Nothing is guessed: a comma, a wrong
//! case or a missing unit is a fault that says what to write.

mod cursor;
mod fault;

pub use fault::{QuantityFault, QuantityFaultKind};

use super::{Kind, Quantity, Unit};
use cursor::Cursor;

/// Stored values beyond this are no build: 10¹⁵ mm reaches past the planets.
const MOST: f64 = 1e15;

/// Reads a quantity. `bare` is the unit of a number that stands alone; without it, a unit is
/// demanded.
///
/// # Errors
/// A [`QuantityFault`] with the bytes of `text` that are at fault.
///
/// ```
/// use rungsheet::units::{Length, Unit, parse};
/// assert_eq!(parse::<Length>("46 1/2 in", None), Ok(Length::inches(46.5)));
/// let height = parse::<Length>("5' 6 1/2\"", None).expect("feet, inches and a fraction");
/// assert!(height.is_near(Length::inches(66.5), Length::SLACK));
/// assert_eq!(parse::<Length>("1180", Some(Unit::MM)), Ok(Length::mm(1180.0)));
/// assert!(parse::<Length>("12 kg", None).is_err());
/// ```
pub fn parse<Q: Quantity>(text: &str, bare: Option<Unit>) -> Result<Q, QuantityFault> {
    let mut cursor = Cursor::new(text);
    let fault = |kind, range| Err(QuantityFault { kind, range });
    cursor.skip_spaces();
    let begin = cursor.at();
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
    if let Some(unit) = wanted.unit(written) {
        return Ok(unit);
    }
    let tidy = tidy_unit(written);
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

#[cfg(test)]
mod tests;
