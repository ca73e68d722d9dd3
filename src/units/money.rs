//! Prices.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Mul, Sub};

/// An amount of money in hundredths; which currency is told once for the whole job. Whole numbers,
/// so that a column adds up to the sum printed under it. Stays at the end of its range rather than
/// run over.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Money(i64);

/// Why a text or number isn't a price.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MoneyFault {
    /// Not digits with at most one point.
    NotANumber,
    /// A comma where the point belongs.
    Comma,
    /// More than two places after the point.
    TooFine,
    /// Beyond any price: 10⁹ or more.
    TooLarge,
}

impl Money {
    /// Nothing to pay.
    pub const ZERO: Self = Self(0);
    const MOST: i64 = 100_000_000_000;

    /// From hundredths.
    pub const fn cents(cents: i64) -> Self {
        Self(cents)
    }

    /// In hundredths.
    pub const fn to_cents(self) -> i64 {
        self.0
    }

    /// From a number as a table holds it, to the nearest hundredth.
    ///
    /// # Errors
    /// [`MoneyFault::TooLarge`] at 10⁹ and beyond, [`MoneyFault::NotANumber`] for NaN.
    pub fn from_number(value: f64) -> Result<Self, MoneyFault> {
        if value.is_nan() {
            return Err(MoneyFault::NotANumber);
        }
        let cents = (value * 100.0).round();
        if cents.abs() >= Self::MOST as f64 {
            Err(MoneyFault::TooLarge)
        } else {
            Ok(Self(cents as i64))
        }
    }

    /// From text such as `4`, `4.5` or `4.50`.
    ///
    /// # Errors
    /// A [`MoneyFault`] for anything else.
    pub fn parse(text: &str) -> Result<Self, MoneyFault> {
        let text = text.trim();
        if text.contains(',') {
            return Err(MoneyFault::Comma);
        }
        let (sign, digits) = match text.strip_prefix(['-', '\u{2212}']) {
            Some(rest) => (-1, rest),
            None => (1, text),
        };
        let (whole, part) = digits.split_once('.').unwrap_or((digits, "0"));
        let all_digits = |s: &str| !s.is_empty() && s.bytes().all(|b| b.is_ascii_digit());
        if !all_digits(whole) || !all_digits(part) {
            return Err(MoneyFault::NotANumber);
        }
        if part.len() > 2 {
            return Err(MoneyFault::TooFine);
        }
        let whole: i64 = whole.parse().map_err(|_| MoneyFault::TooLarge)?;
        if whole >= Self::MOST / 100 {
            return Err(MoneyFault::TooLarge);
        }
        let hundredths = part.bytes().map(|b| i64::from(b - b'0')).fold(0, |n, d| n * 10 + d)
            * if part.len() == 1 { 10 } else { 1 };
        Ok(Self(sign * (whole * 100 + hundredths)))
    }

    /// A part or a multiple, to the nearest hundredth: 2.4 m at a price by metre. Zero for a factor
    /// that isn't a number.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        Self((self.0 as f64 * factor).round() as i64)
    }
}

impl fmt::Display for MoneyFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NotANumber => "a price is digits with at most one point, such as 4.50",
            Self::Comma => "a price takes a point before the hundredths and no other mark",
            Self::TooFine => "a price has at most two places after the point",
            Self::TooLarge => "a price stays below 1 000 000 000",
        })
    }
}

impl std::error::Error for MoneyFault {}

impl fmt::Display for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.0 < 0 { "-" } else { "" };
        let cents = self.0.unsigned_abs();
        write!(f, "{sign}{}.{:02}", cents / 100, cents % 100)
    }
}

/// As a number, 4.5 for 4.50.
impl serde::Serialize for Money {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_f64(self.0 as f64 / 100.0)
    }
}

impl Add for Money {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl AddAssign for Money {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl Sub for Money {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl Mul<u64> for Money {
    type Output = Self;
    fn mul(self, count: u64) -> Self {
        Self(self.0.saturating_mul(i64::try_from(count).unwrap_or(i64::MAX)))
    }
}

impl Sum for Money {
    fn sum<I: Iterator<Item = Self>>(items: I) -> Self {
        items.fold(Self::ZERO, Add::add)
    }
}

#[cfg(test)]
mod tests {
    use super::{Money, MoneyFault};

    #[test]
    fn hundredths_are_read_by_place() {
        assert_eq!(Money::parse("4.5"), Ok(Money::cents(450)));
        assert_eq!(Money::parse("4.05"), Ok(Money::cents(405)));
        assert_eq!(Money::parse("-0.30"), Ok(Money::cents(-30)));
        assert_eq!(Money::from_number(1.005), Ok(Money::cents(100)));
    }

    #[test]
    fn what_is_no_price_is_refused() {
        assert_eq!(Money::parse("4,50"), Err(MoneyFault::Comma));
        assert_eq!(Money::parse("4.505"), Err(MoneyFault::TooFine));
        assert_eq!(Money::parse("1e9"), Err(MoneyFault::NotANumber));
        assert_eq!(Money::parse(""), Err(MoneyFault::NotANumber));
        assert_eq!(Money::parse("99999999999999999999"), Err(MoneyFault::TooLarge));
        assert_eq!(Money::from_number(f64::INFINITY), Err(MoneyFault::TooLarge));
    }

    #[test]
    fn sums_are_exact() {
        let ten: Money = std::iter::repeat_n(Money::cents(10), 10).sum();
        assert_eq!(ten.to_string(), "1.00");
        assert_eq!(Money::cents(i64::MAX) + Money::cents(1), Money::cents(i64::MAX));
    }
}
