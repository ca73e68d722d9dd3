//! `[job]`.

use super::cursor::Cursor;
use super::reader::Reader;
use super::take::{Choice, Day, currency, measure, name, words};
use crate::build::{HAND_ZONE, JIG_ZONE, Job, Language, LengthUnit, Marking, MarkingBy, Paper};
use crate::source::Stated;
use crate::units::Length;

const UNITS: Choice<LengthUnit> = Choice(&[
    ("mm", LengthUnit::Millimetre),
    ("in", LengthUnit::Inch),
    ("millimetre", LengthUnit::Millimetre),
    ("inch", LengthUnit::Inch),
]);
const PAPERS: Choice<Paper> = Choice(&[("A4", Paper::A4), ("Letter", Paper::Letter)]);
/// By their BCP 47 tags.
const LANGUAGES: Choice<Language> = Choice(&[("en", Language::English), ("de", Language::German)]);

/// The ground for a date of issue that the build file does not state.
const ISSUE: &str = "SOURCE_DATE_EPOCH where the build file states no date";

/// Reads the title block, and sets the unit of bare lengths for everything that follows.
pub(super) fn job(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Job> {
    let units =
        table.or(r, "units", UNITS, LengthUnit::Millimetre, "millimetres where no unit is stated");
    r.bare_lengths(units.value);
    // ISO 7200 gives the fields these lengths.
    let title = table.need(r, "title", words(25));
    let number = table.or(r, "number", words(16), "1".into(), "number 1 where none is stated");
    let revision =
        table.or(r, "revision", words(2), "A".into(), "first revision where none is stated");
    let date = match r.issue {
        Some(issue) => Some(table.or(r, "date", Day, issue, ISSUE)),
        None => table.need(r, "date", Day),
    };
    let by = table.or(r, "by", name(), "not stated".into(), "nobody is named");
    let (usual, ground) = match units.value {
        LengthUnit::Millimetre => (Paper::A4, "A4 goes with millimetres"),
        LengthUnit::Inch => (Paper::Letter, "Letter goes with inches"),
    };
    let paper = table.or(r, "paper", PAPERS, usual, ground);
    let language = table.or(
        r,
        "language",
        LANGUAGES,
        Language::English,
        "English where no language is stated",
    );
    // ISO 4217 keeps XXX for "no currency involved".
    let currency =
        table.or(r, "currency", currency(), "XXX".into(), "ISO 4217: no currency stated");
    let marking = match table.table(r, "marking") {
        Some(own) => self::marking(r, own),
        None => usual_zone(Stated::default_of(MarkingBy::Hand, "by hand where nothing is stated")),
    };
    table.close(r);
    Some(Job {
        title: title?,
        number,
        revision,
        date: date?,
        by,
        units,
        paper,
        language,
        currency,
        marking,
    })
}

const MARKERS: Choice<MarkingBy> = Choice(&[("hand", MarkingBy::Hand), ("jig", MarkingBy::Jig)]);

fn marking(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Marking {
    let by = table.or(r, "by", MARKERS, MarkingBy::Hand, "by hand where nothing is stated");
    let usual = usual_zone(by);
    let zone = measure(Length::mm(0.05), Length::mm(6.0)).positive();
    for by in [MarkingBy::Hand, MarkingBy::Jig] {
        let usual = usual_zone(Stated::written(by, table.span())).zone;
        let by = if by == MarkingBy::Hand { "hand" } else { "jig" };
        if let Some(ground) = usual.ground() {
            table.usual(r, "zone", ground, || format!("{usual} ({by})", usual = usual.value));
        }
    }
    let zone = table.may(r, "zone", zone).unwrap_or(usual.zone);
    table.close(r);
    Marking { by: usual.by, zone }
}

/// The usual zone of a way of marking.
fn usual_zone(by: Stated<MarkingBy>) -> Marking {
    const HAND: &str = "±1 mm by hand: aeronautical drilling practice";
    let zone = match by.value {
        MarkingBy::Hand => Stated::default_of(HAND_ZONE, HAND),
        MarkingBy::Jig => Stated::default_of(JIG_ZONE, "±0.5 mm in a jig: common practice"),
    };
    Marking { by, zone }
}
