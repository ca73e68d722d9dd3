//! Dates and clock times, as text or as TOML's own.

use super::Take;
use crate::read::codes;
use crate::read::field::Field;
use crate::read::reader::Reader;
use crate::read::shape::Shape;
use crate::tables::Tables;
use jiff::civil::{Date, Time};
use toml::de::DeValue;

/// Years that a packet can be for: outside them a digit is wrong.
const YEARS: std::ops::RangeInclusive<i16> = 2000..=2199;

/// A date of the calendar.
#[derive(Debug, Clone, Copy)]
pub(in crate::read) struct Day;

impl Take for Day {
    type Out = Date;

    fn shape(&self, _: &Tables) -> Shape {
        Shape::Date
    }

    fn written(&self, value: &Self::Out) -> String {
        value.to_string()
    }

    fn take(&self, r: &mut Reader<'_>, field: &Field<'_>) -> Option<Date> {
        let date = match field.value {
            DeValue::String(text) => plain_date(text.trim()),
            DeValue::Datetime(moment) if moment.time.is_none() => moment.date.and_then(|d| {
                let (month, day) = (i8::try_from(d.month).ok()?, i8::try_from(d.day).ok()?);
                Date::new(i16::try_from(d.year).ok()?, month, day).ok()
            }),
            _ => None,
        };
        if date.is_none_or(|date| !YEARS.contains(&date.year())) {
            let finding = codes::unreadable_date::raise(r, field);
            r.raise(finding);
            return None;
        }
        date
    }
}

/// `2026-05-09` and nothing else.
fn plain_date(text: &str) -> Option<Date> {
    let [year, month, day] = parts(text, '-', [4, 2, 2])?;
    Date::new(i16::try_from(year).ok()?, i8::try_from(month).ok()?, i8::try_from(day).ok()?).ok()
}

/// A clock time to the minute.
#[derive(Debug, Clone, Copy)]
pub(in crate::read) struct Clock;

impl Take for Clock {
    type Out = Time;

    fn shape(&self, _: &Tables) -> Shape {
        Shape::Clock
    }

    fn written(&self, value: &Self::Out) -> String {
        format!("{:02}:{:02}", value.hour(), value.minute())
    }

    fn take(&self, r: &mut Reader<'_>, field: &Field<'_>) -> Option<Time> {
        let time = match field.value {
            DeValue::String(text) => plain_time(text.trim()),
            DeValue::Datetime(moment) if moment.date.is_none() => moment.time.and_then(|t| {
                Time::new(i8::try_from(t.hour).ok()?, i8::try_from(t.minute).ok()?, 0, 0).ok()
            }),
            _ => None,
        };
        if time.is_none() {
            let finding = codes::unreadable_time::raise(r, field);
            r.raise(finding);
        }
        time
    }
}

/// A clock time with the date before it; the date may be left out where `dated` is false.
#[derive(Debug, Clone, Copy)]
pub(in crate::read) struct Moment {
    /// Whether it takes a date.
    pub dated: bool,
}

impl Take for Moment {
    type Out = (Option<Date>, Time);

    fn shape(&self, _: &Tables) -> Shape {
        Shape::Moment { dated: self.dated }
    }

    fn written(&self, value: &Self::Out) -> String {
        format!("{:02}:{:02}", value.1.hour(), value.1.minute())
    }

    fn take(&self, r: &mut Reader<'_>, field: &Field<'_>) -> Option<(Option<Date>, Time)> {
        let moment = match field.value {
            DeValue::String(text) => match text.trim().split_once([' ', 'T']) {
                Some((date, time)) => {
                    plain_date(date).zip(plain_time(time)).map(|(date, time)| (Some(date), time))
                }
                None => plain_time(text.trim()).map(|time| (None, time)),
            },
            DeValue::Datetime(moment) if moment.offset.is_none() => moment.time.and_then(|t| {
                let time =
                    Time::new(i8::try_from(t.hour).ok()?, i8::try_from(t.minute).ok()?, 0, 0);
                let date = match moment.date {
                    Some(d) => {
                        let (month, day) = (i8::try_from(d.month).ok()?, i8::try_from(d.day).ok()?);
                        Some(Date::new(i16::try_from(d.year).ok()?, month, day).ok()?)
                    }
                    None => None,
                };
                Some((date, time.ok()?))
            }),
            _ => None,
        };
        let fits = moment.filter(|(date, _)| match date {
            Some(date) => YEARS.contains(&date.year()),
            None => !self.dated,
        });
        if fits.is_none() {
            let finding = codes::unreadable_time::raise(r, field);
            r.raise(finding);
        }
        fits
    }
}

/// `08:00` and nothing else.
fn plain_time(text: &str) -> Option<Time> {
    let [hour, minute] = parts(text, ':', [2, 2])?;
    Time::new(i8::try_from(hour).ok()?, i8::try_from(minute).ok()?, 0, 0).ok()
}

/// Numbers of so many digits each with a sign between them.
fn parts<const N: usize>(text: &str, between: char, digits: [usize; N]) -> Option<[u16; N]> {
    let mut numbers = [0; N];
    let mut pieces = text.split(between);
    for (number, width) in numbers.iter_mut().zip(digits) {
        let piece = pieces.next()?;
        if piece.len() != width || !piece.bytes().all(|b| b.is_ascii_digit()) {
            return None;
        }
        *number = piece.parse().ok()?;
    }
    pieces.next().is_none().then_some(numbers)
}

#[cfg(test)]
mod tests {
    use super::{plain_date, plain_time};

    #[test]
    fn only_dates_of_the_calendar_are_read() {
        assert!(plain_date("2028-02-29").is_some());
        for text in [
            "2026-02-29",
            "2026-2-9",
            "09.05.2026",
            "2026-05-09 ",
            "2026-05-09-01",
            "",
            "२०२६-05-09",
        ] {
            assert!(plain_date(text).is_none(), "{text}");
        }
    }

    #[test]
    fn only_times_of_the_clock_are_read() {
        assert!(plain_time("23:59").is_some());
        for text in ["24:00", "8:00", "08:00:00", "8 am", "-8:00", ""] {
            assert!(plain_time(text).is_none(), "{text}");
        }
    }
}
