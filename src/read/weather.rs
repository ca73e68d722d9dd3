//! `[weather]` and `[crew]`.

use super::codes;
use super::cursor::{Cursor, stated};
use super::reader::Reader;
use super::take::{Clock, Day, measure, whole};
use crate::build::{Air, Crew, Weather};
use crate::source::{Span, Stated};
use crate::units::{Length, Ratio, Temperature};
use jiff::civil::{Date, Time};

/// ISO 554 standard atmosphere 23/50 (from memory), for a build where nothing cures.
const DEFAULT_AIR: (Temperature, Ratio) = (Temperature::celsius(23.0), Ratio::percent(50.0));
const AIR_GROUND: &str = "standard atmosphere of ISO 554; nothing here depends on the weather";
/// Colder places must say so: a value that is too warm lets the voltage of the panels pass.
const RECORD_LOW: Temperature = Temperature::celsius(-25.0);
const LOW_GROUND: &str = "common practice, no source: a cold winter night in Central Europe";

pub(super) fn weather(r: &mut Reader<'_>, table: Option<Cursor<'_>>) -> Option<Weather> {
    let Some(mut table) = table else {
        let air = || Air {
            temperature: Stated::default_of(DEFAULT_AIR.0, AIR_GROUND),
            humidity: Stated::default_of(DEFAULT_AIR.1, AIR_GROUND),
        };
        return Some(Weather {
            day: air(),
            night: air(),
            altitude: None,
            record_low: Stated::default_of(RECORD_LOW, LOW_GROUND),
            span: Span::NONE,
        });
    };
    let span = table.span();
    let day = table.need_table(r, "day").and_then(|table| air(r, table));
    let night = table.need_table(r, "night").and_then(|table| air(r, table));
    let altitude = table.may(r, "altitude", measure(Length::m(-450.0), Length::m(6000.0)));
    let low = measure(Temperature::celsius(-90.0), Temperature::celsius(30.0));
    let record_low = table.or(r, "record-low", low, RECORD_LOW, LOW_GROUND);
    table.close(r);
    Some(Weather { day: day?, night: night?, altitude, record_low, span })
}

fn air(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Air> {
    let degrees = measure(Temperature::celsius(-60.0), Temperature::celsius(60.0));
    let temperature = table.need(r, "temperature", degrees);
    let humidity = table.need(r, "humidity", measure(Ratio::percent(1.0), Ratio::percent(100.0)));
    table.close(r);
    Some(Air { temperature: temperature?, humidity: humidity? })
}

/// `issue` is the date of the job, on which work begins where no other day is stated.
pub(super) fn crew(
    r: &mut Reader<'_>,
    table: Option<Cursor<'_>>,
    issue: Option<Stated<Date>>,
) -> Option<Crew> {
    const PEOPLE: &str = "two people: common practice for lifting onto a roof, no source";
    const START: &str = "work starts on the date of issue where no day is stated";
    const HOURS: &str = "ten hours from 08:00 where no hours are stated";
    let begin = Stated::default_of(Time::constant(8, 0, 0, 0), HOURS);
    let end = Stated::default_of(Time::constant(18, 0, 0, 0), HOURS);
    let start = issue.map(|date| Stated::default_of(date.value, START));
    let Some(mut table) = table else {
        return Some(Crew {
            people: Stated::default_of(2, PEOPLE),
            start: start?,
            from: begin,
            to: end,
        });
    };
    let people = table.or(r, "people", whole(1, 50), 2, PEOPLE);
    let start = match table.may(r, "start", Day) {
        Some(stated) => {
            if let Some(issue) = issue.filter(|issue| stated.value < issue.value) {
                let (first, date) = (stated.value.to_string(), issue.value.to_string());
                r.raise(codes::start_before_issue::raise(
                    (stated.span, &first),
                    (issue.span, &date),
                ));
            }
            Some(stated)
        }
        None => start,
    };
    let hours = hours(r, &mut table);
    table.close(r);
    let (from, to) = match hours {
        Some(hours) => hours?,
        None => (begin, end),
    };
    Some(Crew { people, start: start?, from, to })
}

/// Outer `None`: not stated; inner: stated with a fault.
#[allow(clippy::option_option)] // The two kinds of nothing lead to different ends.
fn hours(
    r: &mut Reader<'_>,
    table: &mut Cursor<'_>,
) -> Option<Option<(Stated<Time>, Stated<Time>)>> {
    let field = table.field("day")?;
    let parts = match field.value {
        toml::de::DeValue::Array(list) if list.len() == 2 => {
            super::cursor::elements_of(r, &field, 2)
        }
        _ => {
            r.raise(codes::wrong_shape::raise(
                &field,
                "two clock times, when work begins and ends",
            ));
            return Some(None);
        }
    };
    let [from, to] = parts.as_slice() else { return Some(None) };
    let from = stated(r, from, &Clock);
    let to = stated(r, to, &Clock);
    let (Some(from), Some(to)) = (from, to) else { return Some(None) };
    let minutes = |time: Time| i32::from(time.hour()) * 60 + i32::from(time.minute());
    if minutes(to.value) - minutes(from.value) < 60 {
        let clock = |time: Time| format!("{:02}:{:02}", time.hour(), time.minute());
        let (begins, ends) = (clock(from.value), clock(to.value));
        r.raise(codes::times_out_of_order::raise(from.span, to.span, &begins, &ends));
        return Some(None);
    }
    Some(Some((from, to)))
}
