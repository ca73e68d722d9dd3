//! `[[record]]`, and photographs wherever they may stand.

use super::codes;
use super::cursor::{Cursor, elements_of, stated};
use super::reader::Reader;
use super::shape::{Asked, Shape};
use super::take::{Day, Moment, name, sentence, words};
use super::weather::{degrees, wetness};
use crate::build::{Batch, Measured, Photo, Record};
use crate::source::Stated;
use jiff::civil::{Date, Time};
use toml::de::DeValue;

const MOST_NAME: usize = 200;
const MOST_PHOTOS: usize = 20;
const MOST_LINES: usize = 100;

/// A step that was done.
pub(super) fn record(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Record> {
    let span = table.span();
    let step = table.need(r, "step", name());
    let dated = Moment { dated: true };
    let moment = |stated: Stated<(Option<Date>, Time)>| {
        let (date, time) = stated.value;
        date.map(|date| Stated::written((date, time), stated.span))
    };
    let started = table.need(r, "started", dated).and_then(moment);
    let ended = table.may(r, "finished", dated).and_then(moment);
    let by = table.may(r, "by", name());
    let temperature = table.may(r, "temperature", degrees());
    let humidity = table.may(r, "humidity", wetness());
    let batches: Vec<Option<Batch>> =
        table.tables(r, "batch", MOST_LINES).into_iter().map(|table| batch(r, table)).collect();
    let measured: Vec<Option<Measured>> = table
        .tables(r, "measured", MOST_LINES)
        .into_iter()
        .map(|table| measured(r, table))
        .collect();
    let changes = table.list(r, "changes", MOST_LINES, sentence());
    let photos = photos(r, &mut table);
    table.close(r);
    let (step, started) = (step?, started?);
    if let Some(end) = ended.as_ref().filter(|end| end.value < started.value) {
        let words =
            |(date, time): (Date, Time)| format!("{date} {:02}:{:02}", time.hour(), time.minute());
        r.raise(codes::times_out_of_order::record(
            (started.span, &words(started.value)),
            (end.span, &words(end.value)),
        ));
        return None;
    }
    Some(Record {
        step,
        started,
        finished: ended,
        by,
        temperature,
        humidity,
        batches: batches.into_iter().collect::<Option<Vec<_>>>()?,
        measured: measured.into_iter().collect::<Option<Vec<_>>>()?,
        changes,
        photos: photos?,
        span,
    })
}

fn batch(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Batch> {
    let stuff = table.need(r, "stuff", name());
    let lot = table.need(r, "lot", words(40));
    let use_by = table.may(r, "use-by", Day);
    table.close(r);
    Some(Batch { stuff: stuff?, lot: lot?, use_by })
}

fn measured(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Measured> {
    let what = table.need(r, "what", name());
    let value = table.need(r, "value", words(30));
    table.close(r);
    Some(Measured { what: what?, value: value? })
}

/// Photographs: a file, a table of file and words, or a list of these.
pub(super) fn photos(r: &mut Reader<'_>, table: &mut Cursor<'_>) -> Option<Vec<Photo>> {
    let name = || Shape::Text { most: MOST_NAME };
    let list = |_: &_| Shape::List { of: Box::new(name()), least: 1, most: MOST_PHOTOS };
    table.noted(r, "photo", Asked::Optional, |_| name());
    table.noted(r, "photo", Asked::Optional, list);
    table.noted_table(r, "photo", true);
    table.noted_table(r, "photo", false);
    let Some(field) = table.field("photo") else { return Some(Vec::new()) };
    let list = match field.value {
        DeValue::Array(_) => elements_of(r, &field, MOST_PHOTOS),
        _ => vec![field],
    };
    let read: Vec<Option<Photo>> = list
        .iter()
        .map(|one| match table.braces(r, "photo", one) {
            Some(mut inner) => {
                let file = inner.need(r, "file", words(MOST_NAME));
                let shows = inner.may(r, "shows", words(160));
                inner.close(r);
                Some(Photo { file: file?, shows })
            }
            None => stated(r, one, &words(MOST_NAME)).map(|file| Photo { file, shows: None }),
        })
        .collect();
    read.into_iter().collect()
}
