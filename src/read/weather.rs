//! `[weather]` and `[crew]`.

use super::codes;
use super::cursor::{Cursor, stated};
use super::reader::Reader;
use super::shape::{Asked, Shape};
use super::take::{Choice, Clock, Day, Moment, Row, Take, measure, whole, words};
use crate::build::{Air, Crew, HourAir, RateChange, Sky, Weather};
use crate::source::{Span, Stated};
use crate::units::{Angle, Duration, Length, Ratio, Temperature, TemperatureRise};
use jiff::civil::{Date, Time, Weekday};

/// ISO 554 standard atmosphere 23/50 (from memory), for a build where nothing cures.
const DEFAULT_AIR: (Temperature, Ratio) = (Temperature::celsius(23.0), Ratio::percent(50.0));
const AIR_GROUND: &str = "standard atmosphere of ISO 554; nothing here depends on the weather";
/// Colder places must say so: a value that is too warm lets the voltage of the panels pass.
const RECORD_LOW: Temperature = Temperature::celsius(-25.0);
const LOW_GROUND: &str = "common practice, no source: a cold winter night in Central Europe";

/// Skin over air in the sun: light paint; dark paint gets twice as warm.
const SUN_WARMS: TemperatureRise = TemperatureRise::k(15.0);
const SUN_GROUND: &str = "common practice, no source: a light roof in the sun at noon";
/// Skin below air under an open night sky.
const NIGHT_COOLS: TemperatureRise = TemperatureRise::k(4.0);
const NIGHT_GROUND: &str = "common practice, no source: sheet metal under a clear night sky";
const SKY_GROUND: &str = "not stated: sun and clear night both count where they do harm";
const LATITUDE: Angle = Angle::deg(50.0);
const LATITUDE_GROUND: &str =
    "hours of light as in Central Europe where neither they nor a latitude are stated";
/// Two weeks of a forecast by the hour.
const MOST_HOURS: usize = 400;
const SKIES: Choice<Sky> =
    Choice(&[("covered", Sky::Covered), ("clear", Sky::Clear), ("changing", Sky::Changing)]);
const HOUR_SKIES: Choice<Sky> = Choice(&[("dry", Sky::Changing), ("rain", Sky::Rain)]);
const DAYS: Choice<Weekday> = Choice(&[
    ("monday", Weekday::Monday),
    ("tuesday", Weekday::Tuesday),
    ("wednesday", Weekday::Wednesday),
    ("thursday", Weekday::Thursday),
    ("friday", Weekday::Friday),
    ("saturday", Weekday::Saturday),
    ("sunday", Weekday::Sunday),
]);
/// All of them, Monday first.
const ALL_DAYS: [Weekday; 7] = [
    Weekday::Monday,
    Weekday::Tuesday,
    Weekday::Wednesday,
    Weekday::Thursday,
    Weekday::Friday,
    Weekday::Saturday,
    Weekday::Sunday,
];
const DAYS_GROUND: &str = "work on every day of the week where none are stated";

/// `cures`: something here waits for air, so that it has to be stated.
pub(super) fn weather(
    r: &mut Reader<'_>,
    table: Option<Cursor<'_>>,
    cures: bool,
) -> Option<Weather> {
    let Some(mut table) = table else {
        return Some(Weather {
            day: default_air(),
            night: default_air(),
            hours: Vec::new(),
            sky: Stated::default_of(Sky::Changing, SKY_GROUND),
            sun_warms: Stated::default_of(SUN_WARMS, SUN_GROUND),
            night_cools: Stated::default_of(NIGHT_COOLS, NIGHT_GROUND),
            daylight: None,
            latitude: Stated::default_of(LATITUDE, LATITUDE_GROUND),
            altitude: None,
            record_low: Stated::default_of(RECORD_LOW, LOW_GROUND),
            span: Span::NONE,
        });
    };
    let span = table.span();
    let air = air_over_time(r, &mut table, cures);
    let sky = table.or(r, "sky", SKIES, Sky::Changing, SKY_GROUND);
    let rise = measure(TemperatureRise::ZERO, TemperatureRise::k(50.0));
    let sun_warms = table.or(r, "sun-warms", rise, SUN_WARMS, SUN_GROUND);
    let fall = measure(TemperatureRise::ZERO, TemperatureRise::k(20.0));
    let night_cools = table.or(r, "night-cools", fall, NIGHT_COOLS, NIGHT_GROUND);
    let daylight =
        two_clocks(r, &mut table, "daylight", "two clock times, when it gets light and dark");
    let globe = measure(Angle::deg(-75.0), Angle::deg(75.0));
    let latitude = table.or(r, "latitude", globe, LATITUDE, LATITUDE_GROUND);
    let altitude = table.may(r, "altitude", measure(Length::m(-450.0), Length::m(6000.0)));
    let low = measure(Temperature::celsius(-90.0), Temperature::celsius(30.0));
    let record_low = table.or(r, "record-low", low, RECORD_LOW, LOW_GROUND);
    table.close(r);
    let (day, night, hours) = air?;
    let daylight = match daylight {
        Some(daylight) => Some(daylight?),
        None => None,
    };
    Some(Weather {
        day,
        night,
        hours,
        sky,
        sun_warms,
        night_cools,
        daylight,
        latitude,
        altitude,
        record_low,
        span,
    })
}

fn default_air() -> Air {
    Air {
        temperature: Stated::default_of(DEFAULT_AIR.0, AIR_GROUND),
        humidity: Stated::default_of(DEFAULT_AIR.1, AIR_GROUND),
    }
}

/// The warmest and the coldest air, and what lies between by the hour where that is stated. Three
/// ways to write it: by the hour, one air that stays, or day and night.
fn air_over_time(
    r: &mut Reader<'_>,
    table: &mut Cursor<'_>,
    cures: bool,
) -> Option<(Air, Air, Vec<HourAir>)> {
    let steady = ["temperature", "humidity"].into_iter().find(|key| table.has(key));
    let stated: Vec<&str> = ["hours"]
        .into_iter()
        .chain(steady)
        .chain(["day", "night"].into_iter().find(|key| table.has(key)))
        .filter(|key| table.has(key))
        .collect();
    for pair in stated.windows(2) {
        let (first, second) =
            ((pair[0], table.key_span(pair[0])), (pair[1], table.key_span(pair[1])));
        r.raise(codes::one_or_the_other::both(first, second));
    }
    if stated.len() > 1 {
        // All of them are known; which one counts is not.
        for key in ["hours", "temperature", "humidity", "day", "night"] {
            let _ = table.field(key);
        }
        return None;
    }
    if table.has("hours") {
        let rows: Vec<Option<HourAir>> =
            table.tables(r, "hours", MOST_HOURS).into_iter().map(|row| hour(r, row)).collect();
        if rows.is_empty() {
            let span = table.key_span("hours");
            table.lacks("day", Some((span, "nothing in the list".to_owned())));
            return None;
        }
        let mut hours = rows.into_iter().collect::<Option<Vec<HourAir>>>()?;
        if let Some(odd) = hours.iter().find(|hour| hour.date.is_some() != hours[0].date.is_some())
        {
            r.raise(codes::one_or_the_other::both(
                ("a clock with its date", hours[0].span),
                ("a clock alone", odd.span),
            ));
            return None;
        }
        hours.sort_by_key(|hour| (hour.date, hour.time));
        if let Some(pair) = hours
            .windows(2)
            .find(|pair| (pair[0].date, pair[0].time) == (pair[1].date, pair[1].time))
        {
            r.raise(codes::reading_twice::hour(pair[1].span, pair[0].span));
            return None;
        }
        let by = |hour: &&HourAir| hour.air.temperature.to_k();
        let warmest = hours.iter().max_by(|a, b| by(a).total_cmp(&by(b)))?.air.clone();
        let coldest = hours.iter().min_by(|a, b| by(a).total_cmp(&by(b)))?.air.clone();
        return Some((warmest, coldest, hours));
    }
    if steady.is_some() {
        let temperature = table.need(r, "temperature", degrees());
        let humidity = table.need(r, "humidity", wetness());
        let air = Air { temperature: temperature?, humidity: humidity? };
        return Some((air.clone(), air, Vec::new()));
    }
    if !cures && !table.has("day") && !table.has("night") {
        // Asked for, so that a misspelt key finds them.
        for key in ["hours", "temperature", "humidity", "day", "night"] {
            let _ = table.field(key);
        }
        return Some((default_air(), default_air(), Vec::new()));
    }
    let day = table.need_table(r, "day").and_then(|table| air(r, table));
    let night = table.need_table(r, "night").and_then(|table| air(r, table));
    Some((day?, night?, Vec::new()))
}

fn hour(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<HourAir> {
    let span = table.span();
    let at = table.need(r, "at", Moment { dated: false });
    let temperature = table.need(r, "temperature", degrees());
    let humidity = table.need(r, "humidity", wetness());
    let sky = table.may(r, "sky", HOUR_SKIES).map(|sky| sky.value);
    table.close(r);
    let at = at?;
    let air = Air { temperature: temperature?, humidity: humidity? };
    Some(HourAir { date: at.0, time: at.1, air, sky, span })
}

pub(super) fn degrees() -> impl Take<Out = Temperature> + Copy {
    measure(Temperature::celsius(-60.0), Temperature::celsius(60.0))
}

pub(super) fn wetness() -> impl Take<Out = Ratio> + Copy {
    measure(Ratio::percent(1.0), Ratio::percent(100.0))
}

fn air(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Air> {
    let temperature = table.need(r, "temperature", degrees());
    let humidity = table.need(r, "humidity", wetness());
    table.close(r);
    Some(Air { temperature: temperature?, humidity: humidity? })
}

/// A work time of the reader's own.
pub(super) fn rate(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<RateChange> {
    let rate = table.need(r, "name", Row(|tables| &tables.rates));
    let time =
        table.need(r, "time", measure(Duration::seconds(1.0), Duration::hours(100.0)).positive());
    table.close(r);
    Some(RateChange { rate: rate?, time: time? })
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
            days: Stated::default_of(ALL_DAYS.to_vec(), DAYS_GROUND),
            spare_tools: Vec::new(),
        });
    };
    let people = table.or(r, "people", whole(1, 50), 2, PEOPLE);
    table.usual(r, "start", START, || "the date of the job".to_owned());
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
    table.usual(r, "day", HOURS, || "08:00 to 18:00".to_owned());
    let hours = two_clocks(r, &mut table, "day", "two clock times, when work begins and ends");
    let most = ALL_DAYS.len();
    table.noted(r, "on", Asked::Optional, |tables| Shape::List {
        of: Box::new(DAYS.shape(tables)),
        least: 1,
        most,
    });
    table.usual(r, "on", DAYS_GROUND, || "every day".to_owned());
    let on = table.key_span("on");
    let days = if table.has("on") {
        let days = table.need_list(r, "on", most, DAYS)?;
        Stated::written(days.iter().map(|day| day.value).collect(), on)
    } else {
        // Asked for, so that a misspelt key finds it.
        table.elements(r, "on", most);
        Stated::default_of(ALL_DAYS.to_vec(), DAYS_GROUND)
    };
    let spare_tools = table.list(r, "spare-tools", 50, words(40));
    table.close(r);
    let (from, to) = match hours {
        Some(hours) => hours?,
        None => (begin, end),
    };
    Some(Crew { people, start: start?, from, to, days, spare_tools })
}

/// Outer `None`: not stated; inner: stated with a fault.
#[allow(clippy::option_option)] // The two kinds of nothing lead to different ends.
fn two_clocks(
    r: &mut Reader<'_>,
    table: &mut Cursor<'_>,
    key: &'static str,
    wanted: &str,
) -> Option<Option<(Stated<Time>, Stated<Time>)>> {
    table.noted(r, key, Asked::Optional, |_| Shape::Each(vec![Shape::Clock, Shape::Clock]));
    let field = table.field(key)?;
    let parts = match field.value {
        toml::de::DeValue::Array(list) if list.len() == 2 => {
            super::cursor::elements_of(r, &field, 2)
        }
        _ => {
            r.raise(codes::wrong_shape::raise(&field, wanted));
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
        r.raise(codes::times_out_of_order::raise(key, (from.span, &begins), (to.span, &ends)));
        return Some(None);
    }
    Some(Some((from, to)))
}
