//! Numbers as printed.

use super::Basis;
pub use crate::compute::cure::date_words as clock;
use crate::units::{Duration, Length, Mass, Money, Unit, display};
use jiff::civil::Date;

/// Millimetres with the decimals asked for, thousands apart, unit behind.
pub fn mm(length: Length, decimals: usize) -> String {
    display::in_unit(length, Unit::MM, decimals)
}

/// Millimetres without the unit, for columns that say it in their head.
pub fn bare(length: Length, decimals: usize) -> String {
    display::number(length.to_mm(), decimals)
}

/// Inches to the nearest 1/32 without the unit, for columns that say it in their head.
pub fn bare_inches(length: Length) -> String {
    let told = display::inches(length, display::InchStep::ThirtySecond);
    told.strip_suffix("\u{a0}in").unwrap_or(&told).to_owned()
}

/// Kilograms to a tenth.
pub fn kg(mass: Mass) -> String {
    format!("{}\u{a0}kg", display::number(mass.to_kg(), 1))
}

/// An amount with its currency in front.
pub fn money(amount: Money, currency: &str) -> String {
    let number = display::number(amount.to_cents() as f64 / 100.0, 2);
    // ISO 4217: XXX stands where no currency was stated.
    if currency == "XXX" { number } else { format!("{currency}\u{a0}{number}") }
}

/// A wait in the unit that fits it: minutes, hours or days; "over a year" for none.
pub fn wait(time: Option<Duration>) -> String {
    let Some(time) = time else { return "over a year".into() };
    if time < Duration::minutes(90.0) {
        format!("{}\u{a0}min", display::number((time.to_minutes() / 5.0).ceil() * 5.0, 0))
    } else if time < Duration::hours(100.0) {
        format!("{}\u{a0}h", display::number(time.to_hours().ceil(), 0))
    } else {
        format!("{}\u{a0}days", display::number(time.to_days().ceil(), 0))
    }
}

/// A time in which something must be done: whole minutes, rounded down.
pub fn within(time: Duration) -> String {
    format!("{}\u{a0}min", display::number((time.to_minutes() + 0.01).floor().max(1.0), 0))
}

/// "Sat 14:30" from a clock that counts from midnight before the first day; with the date from a week
/// on, when the day's name alone would be taken for an earlier one.
pub fn day_time(first: Date, at: Duration) -> String {
    let told = clock(first, at);
    let late = at >= Duration::days(7.0);
    match (told.split_once('\u{a0}'), told.rsplit_once(' ')) {
        (Some((day, _)), Some((_, time))) if !late => format!("{day} {time}"),
        _ => told,
    }
}

/// "14:30" of a clock, whatever its day.
pub fn hour(at: Duration) -> String {
    let minutes = (at.to_minutes().round() as i64).rem_euclid(1440);
    format!("{:02}:{:02}", minutes / 60, minutes % 60)
}

/// Work time in hours and minutes, however long: "24 h 5 min".
pub fn work_time(time: Duration) -> String {
    let minutes = time.to_minutes().round() as i64;
    let rest = format!("{}\u{a0}min", minutes % 60);
    match (minutes / 60, minutes % 60) {
        (0, _) => rest,
        (hours, 0) => format!("{hours}\u{a0}h"),
        (hours, _) => format!("{hours}\u{a0}h {rest}"),
    }
}

/// "Sat 16 May" of a day counted from the first.
pub fn day_name(basis: &Basis, day: i64) -> String {
    let told = clock(*basis.build.crew.start, Duration::days(day as f64));
    told.rsplit_once(' ').map_or(told.clone(), |(name, _)| name.to_owned())
}
