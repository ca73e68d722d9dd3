//! `[[part]]`, `[[hole]]` and `[[step]]`.

use super::codes;
use super::cursor::Cursor;
use super::reader::{Group, Reader};
use super::take::{
    Choice, Row, mark, measure, name, place, sentence, size, stated_size, whole, words,
};
use crate::build::{DirectHole, DirectPart, DirectStep, HolePurpose, StepPlace};
use crate::units::{Duration, Length};

pub(super) const MOST_PARTS: u32 = 10_000;
const MOST_ACTIONS: usize = 50;

pub(super) fn part(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<DirectPart> {
    let span = table.span();
    let letter = table.need(r, "mark", mark());
    let what = table.need(r, "name", name());
    r.marked(letter.as_ref());
    r.named(Group::Parts, what.as_ref());
    let section = table.need(r, "section", Row(|tables| &tables.sections));
    let length = table.need(r, "length", size());
    let count = table.or(r, "count", whole(1, MOST_PARTS), 1, "one where no count is stated");
    table.close(r);
    Some(DirectPart { mark: letter?, name: what?, section: section?, length: length?, count, span })
}

const FACES: Choice<&str> =
    Choice(&[("top", "top"), ("bottom", "bottom"), ("left", "left"), ("right", "right")]);
const PURPOSES: Choice<HolePurpose> = Choice(&[
    ("clearance", HolePurpose::Clearance),
    ("rivet-nut", HolePurpose::RivetNut),
    ("pilot", HolePurpose::Pilot),
    ("cable", HolePurpose::Cable),
    ("drain", HolePurpose::Drain),
]);

pub(super) fn hole(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<DirectHole> {
    let span = table.span();
    let part = table.need(r, "part", words(10));
    let face = table.need(r, "face", FACES);
    let x = table.need(r, "x", place());
    let y = table.need(r, "y", place());
    let diameter = table.need(r, "diameter", stated_size(Length::mm(0.5), Length::mm(300.0)));
    let purpose = table.need(r, "purpose", PURPOSES);
    table.close(r);
    Some(DirectHole {
        part: part?,
        face: face?.map(str::to_owned),
        x: x?,
        y: y?,
        diameter: diameter?,
        purpose: purpose?,
        span,
    })
}

pub(super) fn step(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<DirectStep> {
    let span = table.span();
    let title = table.need(r, "title", name());
    let places = ["before", "after", "instead-of"];
    let stated: Vec<&str> = places.into_iter().filter(|key| table.has(key)).collect();
    for pair in stated.windows(2) {
        let (first, second) =
            ((pair[0], table.key_span(pair[0])), (pair[1], table.key_span(pair[1])));
        r.raise(codes::one_or_the_other::both(first, second));
    }
    let before = table.may(r, "before", words(100)).map(StepPlace::Before);
    let after = table.may(r, "after", words(100)).map(StepPlace::After);
    let instead = table.may(r, "instead-of", words(100)).map(StepPlace::InsteadOf);
    let actions = table.need_list(r, "actions", MOST_ACTIONS, sentence());
    let time =
        table.need(r, "time", measure(Duration::minutes(1.0), Duration::hours(200.0)).positive());
    let people = table.or(r, "people", whole(1, 50), 1, "one where nothing is stated");
    table.close(r);
    let place = before.or(after).or(instead).unwrap_or(StepPlace::Last);
    Some(DirectStep { title: title?, place, actions: actions?, time: time?, people, span })
}
