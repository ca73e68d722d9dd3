//! Quantities as text for paper.
//!
//! Numbers follow ISO 80000-1: thousands apart by a thin space, a true minus, a space before the
//! unit (none before the degree of angle), a tie rounded to the even digit. The spaces are
//! no-break, so that a line never ends between a number and its unit.

use super::{Length, Quantity, Unit};

/// Thin no-break space between thousands.
pub const THIN: char = '\u{202F}';
/// No-break space between number and unit.
pub const NO_BREAK: char = '\u{A0}';
/// Minus sign.
pub const MINUS: char = '\u{2212}';

/// The finest part of an inch that is printed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum InchStep {
    /// As a tape is divided.
    #[default]
    Sixteenth,
    /// As a steel rule is divided.
    ThirtySecond,
    /// As the finest scale of a steel rule is divided.
    SixtyFourth,
}

/// "1/32", without the unit.
impl std::fmt::Display for InchStep {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "1/{}", self.parts())
    }
}

impl InchStep {
    const fn parts(self) -> u64 {
        match self {
            Self::Sixteenth => 16,
            Self::ThirtySecond => 32,
            Self::SixtyFourth => 64,
        }
    }

    /// The step itself.
    pub const fn length(self) -> Length {
        Length::inches(1.0 / self.parts() as f64)
    }
}

/// A number with so many decimals.
///
/// ```
/// use rungsheet::units::display::number;
/// assert_eq!(number(1180.25, 1), "1\u{202F}180.2");
/// assert_eq!(number(-0.28, 2), "\u{2212}0.28");
/// assert_eq!(number(-0.001, 2), "0.00");
/// ```
pub fn number(value: f64, decimals: usize) -> String {
    group(&format!("{value:.decimals$}"))
}

/// A height to drive under something by: metres, rounded up to the centimetre.
///
/// ```
/// use rungsheet::units::{Length, display::clearance_height};
/// assert_eq!(clearance_height(Length::mm(2680.0)), "2.68\u{A0}m");
/// assert_eq!(clearance_height(Length::mm(2681.0)), "2.69\u{A0}m");
/// ```
pub fn clearance_height(height: Length) -> String {
    with_unit(&number((height.to_m() * 100.0 - 1e-9).ceil() / 100.0, 2), "m")
}

/// The same in feet and whole inches, rounded up.
///
/// ```
/// use rungsheet::units::{Length, display::clearance_feet};
/// assert_eq!(clearance_feet(Length::mm(2256.0)), "7\u{A0}ft 5\u{A0}in");
/// assert_eq!(clearance_feet(Length::feet(8.0)), "8\u{A0}ft 0\u{A0}in");
/// ```
pub fn clearance_feet(height: Length) -> String {
    let inches = (height.to_inches() - 1e-9).ceil();
    format!("{:.0}{NO_BREAK}ft {:.0}{NO_BREAK}in", (inches / 12.0).floor(), inches % 12.0)
}

/// A use of capacity, effect over capacity: two decimals, rounded up, so that what is over 1 never
/// reads as 1.00. Where next to nothing holds, a number would say no more than "over 99".
///
/// ```
/// use rungsheet::units::display::capacity_used;
/// assert_eq!(capacity_used(0.8421), "0.85");
/// assert_eq!(capacity_used(1.0001), "1.01");
/// assert_eq!(capacity_used(0.29), "0.29");
/// assert_eq!(capacity_used(f64::INFINITY), "over 99");
/// ```
pub fn capacity_used(share: f64) -> String {
    if share > 99.0 {
        return "over 99".to_owned();
    }
    // The hair keeps 0.29 * 100 = 28.999999999999996 and its like in their places.
    number((share * 100.0 - 1e-9).ceil() / 100.0, 2)
}

/// A number with at most so many decimals, without trailing zeros.
///
/// ```
/// use rungsheet::units::display::number_short;
/// assert_eq!(number_short(12.50, 2), "12.5");
/// assert_eq!(number_short(1000.0, 2), "1\u{202F}000");
/// ```
pub fn number_short(value: f64, decimals: usize) -> String {
    group(trim(&format!("{value:.decimals$}")))
}

/// Decimals that the values of a column need, two at most: a column has one count of them.
///
/// ```
/// use rungsheet::units::display::decimals_of;
/// assert_eq!(decimals_of([2.5, 10.0].into_iter()), 1);
/// assert_eq!(decimals_of([6.0, 10.0].into_iter()), 0);
/// ```
pub fn decimals_of(values: impl Iterator<Item = f64>) -> usize {
    let needs = |value: f64| {
        (0..2).find(|k| (value * 10_f64.powi(*k)).fract().abs() < 1e-6).map_or(2, |k| k as usize)
    };
    values.map(needs).max().unwrap_or(0)
}

/// A quantity in a unit with so many decimals. The unit must be of the quantity's kind.
///
/// ```
/// use rungsheet::units::{Angle, Length, Unit, display::in_unit};
/// assert_eq!(in_unit(Length::m(1.18), Unit::MM, 0), "1\u{202F}180\u{A0}mm");
/// assert_eq!(in_unit(Angle::deg(2.0), Unit::DEG, 1), "2.0°");
/// ```
pub fn in_unit<Q: Quantity>(quantity: Q, unit: Unit, decimals: usize) -> String {
    with_unit(&number(unit.number_of(quantity), decimals), unit.symbol)
}

/// Like [`in_unit`] without trailing zeros.
pub fn in_unit_short<Q: Quantity>(quantity: Q, unit: Unit, decimals: usize) -> String {
    with_unit(&number_short(unit.number_of(quantity), decimals), unit.symbol)
}

/// A length in inches and the nearest fraction, reduced. A dash of the trade joins nothing: whole
/// and fraction have a no-break space between them.
///
/// ```
/// use rungsheet::units::{Length, display::{InchStep, inches}};
/// assert_eq!(inches(Length::inches(46.49), InchStep::Sixteenth), "46\u{A0}1/2\u{A0}in");
/// assert_eq!(inches(Length::mm(9.5), InchStep::ThirtySecond), "3/8\u{A0}in");
/// ```
pub fn inches(length: Length, step: InchStep) -> String {
    let parts = step.parts();
    let steps = (length.abs().to_inches() * parts as f64).round_ties_even();
    let sign = if length < Length::ZERO && steps > 0.0 { "\u{2212}" } else { "" };
    // Steps beyond u64 saturate; lengths that were read stay far below.
    let steps = steps as u64;
    let (whole, over) = (steps / parts, steps % parts);
    let whole_text = group(&whole.to_string());
    let text = match (whole, over) {
        (_, 0) => whole_text,
        (0, _) => fraction(over, parts),
        _ => format!("{whole_text}{NO_BREAK}{}", fraction(over, parts)),
    };
    with_unit(&format!("{sign}{text}"), "in")
}

/// A span of time in the two largest units that matter, "2 d 4 h", to the nearest minute.
///
/// ```
/// use rungsheet::units::{Duration, display::duration};
/// assert_eq!(duration(Duration::hours(52.0)), "2\u{A0}d 4\u{A0}h");
/// assert_eq!(duration(Duration::minutes(59.7)), "1\u{A0}h");
/// assert_eq!(duration(Duration::minutes(20.0)), "20\u{A0}min");
/// ```
pub fn duration(time: super::Duration) -> String {
    let sign = if time < super::Duration::ZERO { "\u{2212}" } else { "" };
    let minutes = time.abs().to_minutes().round_ties_even();
    // From a day on, minutes are noise: round to hours first so that 23.99 h carries over.
    let minutes =
        if minutes >= 1440.0 { (minutes / 60.0).round_ties_even() * 60.0 } else { minutes } as u64;
    let (days, hours, minutes) = (minutes / 1440, minutes / 60 % 24, minutes % 60);
    let named = [(days, "d"), (hours, "h"), (minutes, "min")];
    let told: Vec<String> = named
        .iter()
        .filter(|(count, _)| *count > 0)
        .map(|(count, unit)| with_unit(&group(&count.to_string()), unit))
        .collect();
    if told.is_empty() { with_unit("0", "min") } else { format!("{sign}{}", told.join(" ")) }
}

/// A number text and a unit symbol, joined as ISO 80000-1 asks.
pub fn with_unit(number: &str, symbol: &str) -> String {
    match symbol {
        "" | "°" => format!("{number}{symbol}"),
        _ => format!("{number}{NO_BREAK}{symbol}"),
    }
}

/// Plain ASCII digits with at most so many significant figures, for messages on a terminal.
pub fn plain(value: f64, figures: usize) -> String {
    if value == 0.0 || !value.is_finite() {
        return if value == 0.0 { "0".to_owned() } else { value.to_string() };
    }
    // Figures before the point: 3 for 100 to 999, 0 or less below one.
    let before = value.abs().log10().floor() as isize + 1;
    let decimals = usize::try_from(figures.cast_signed() - before).unwrap_or(0);
    let text = format!("{value:.decimals$}");
    trim(&text).to_owned()
}

/// "6/16" as "3/8".
fn fraction(over: u64, parts: u64) -> String {
    let shift = over.trailing_zeros();
    format!("{}/{}", over >> shift, parts >> shift)
}

/// Trailing zeros, and the point they leave, taken off.
fn trim(text: &str) -> &str {
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { text }
}

/// True minus, no negative zero, thin spaces between thousands on both sides of four digits or
/// more before the point.
fn group(text: &str) -> String {
    let (negative, digits) = match text.strip_prefix('-') {
        Some(rest) => (rest.bytes().any(|b| (b'1'..=b'9').contains(&b)), rest),
        None => (false, text),
    };
    let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
    let mut out = String::with_capacity(text.len() + 8);
    if negative {
        out.push(MINUS);
    }
    let countable = whole.bytes().all(|b| b.is_ascii_digit());
    for (i, digit) in whole.char_indices() {
        if countable && i > 0 && (whole.len() - i).is_multiple_of(3) {
            out.push(THIN);
        }
        out.push(digit);
    }
    if !part.is_empty() {
        out.push('.');
        out.push_str(part);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Duration;

    #[test]
    fn a_length_carries_into_the_next_inch() {
        assert_eq!(inches(Length::inches(0.99), InchStep::Sixteenth), "1\u{A0}in");
        assert_eq!(inches(Length::inches(0.01), InchStep::Sixteenth), "0\u{A0}in");
        assert_eq!(
            inches(Length::inches(-2.25), InchStep::Sixteenth),
            "\u{2212}2\u{A0}1/4\u{A0}in"
        );
        assert_eq!(inches(Length::inches(1.0 / 64.0), InchStep::SixtyFourth), "1/64\u{A0}in");
    }

    #[test]
    fn thousands_stand_apart() {
        assert_eq!(number(1_234_567.0, 0), "1\u{202F}234\u{202F}567");
        assert_eq!(number(999.6, 0), "1\u{202F}000");
        assert_eq!(number(-1234.5, 1), "\u{2212}1\u{202F}234.5");
    }

    #[test]
    fn nothing_is_not_negative() {
        assert_eq!(number(-0.0, 1), "0.0");
        assert_eq!(number_short(-0.04, 1), "0");
        assert_eq!(duration(Duration::ZERO), "0\u{A0}min");
    }

    #[test]
    fn hours_carry_into_days() {
        assert_eq!(duration(Duration::hours(47.99)), "2\u{A0}d");
        assert_eq!(duration(Duration::minutes(90.0)), "1\u{A0}h 30\u{A0}min");
    }

    #[test]
    fn messages_show_six_figures() {
        assert_eq!((Length::mm(0.1) + Length::mm(0.2)).to_string(), "0.3 mm");
        assert_eq!(Length::mm(1180.0).to_string(), "1180 mm");
        assert_eq!(format!("{:.1}", Length::mm(2.0)), "2.0 mm");
        assert_eq!(plain(-1_234_567.8, 6), "-1234568");
    }
}
