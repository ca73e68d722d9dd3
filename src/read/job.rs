//! `[job]`.

use super::cursor::Cursor;
use super::reader::Reader;
use super::take::{Choice, Day, currency, name, words};
use crate::build::{Job, LengthUnit, Paper};

const UNITS: Choice<LengthUnit> = Choice(&[
    ("mm", LengthUnit::Millimetre),
    ("in", LengthUnit::Inch),
    ("millimetre", LengthUnit::Millimetre),
    ("inch", LengthUnit::Inch),
]);
const PAPERS: Choice<Paper> = Choice(&[("A4", Paper::A4), ("Letter", Paper::Letter)]);

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
    let date = table.need(r, "date", Day);
    let by = table.or(r, "by", name(), "not stated".into(), "nobody is named");
    let (usual, ground) = match units.value {
        LengthUnit::Millimetre => (Paper::A4, "A4 goes with millimetres"),
        LengthUnit::Inch => (Paper::Letter, "Letter goes with inches"),
    };
    let paper = table.or(r, "paper", PAPERS, usual, ground);
    // ISO 4217 keeps XXX for "no currency involved".
    let currency =
        table.or(r, "currency", currency(), "XXX".into(), "ISO 4217: no currency stated");
    table.close(r);
    Some(Job { title: title?, number, revision, date: date?, by, units, paper, currency })
}
