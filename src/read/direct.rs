//! `[[part]]`, `[[hole]]` and `[[step]]`.

use super::codes;
use super::cursor::{Cursor, elements_of, stated};
use super::cutting::{About, about};
use super::reader::{Group, Reader};
use super::record::photos;
use super::shape::{Asked, Shape};
use super::take::{
    Choice, Row, Take, mark, measure, name, place, plain_number, sentence, size, stated_size,
    thickness, whole, words,
};
use crate::build::{
    DirectAction, DirectDone, DirectHole, DirectLength, DirectPart, DirectPlate, DirectStep,
    HolePurpose, StepPlace,
};
use crate::source::Stated;
use crate::units::{Angle, Duration, Length};

pub(super) const MOST_PARTS: u32 = 10_000;
const MOST_ACTIONS: usize = 50;
const MOST_TOOLS: usize = 20;
/// Beyond any limit that one reads off a tool.
const LIMIT: f64 = 1e6;

/// One `[[part]]`.
pub(super) enum AnyPart {
    Bar(DirectPart),
    Plate(DirectPlate),
    Length(DirectLength),
}

impl AnyPart {
    /// How many pieces.
    pub(super) fn count(&self) -> u64 {
        u64::from(match self {
            Self::Bar(part) => *part.count,
            Self::Plate(part) => *part.count,
            Self::Length(part) => *part.count,
        })
    }
}

/// Steeper cuts are beyond the fence of any saw in the table.
const STEEPEST: Angle = Angle::deg(60.0);
const TURNS: Choice<bool> = Choice(&[("yes", true), ("no", false)]);

pub(super) fn part(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<AnyPart> {
    const ONE: &str = "one where no count is stated";
    const SQUARE: &str = "a square end where no angle is stated";
    let span = table.span();
    let letter = table.need(r, "mark", mark());
    let what = table.need(r, "name", name());
    r.marked(letter.as_ref());
    r.named(Group::Parts, what.as_ref());
    let count = table.or(r, "count", whole(1, MOST_PARTS), 1, ONE);
    match about(r, &table) {
        // A part is no cable run; the key is told as unknown.
        About::Section | About::Cable => {
            let section = table.need(r, "section", Row(|tables| &tables.sections));
            let length = table.need(r, "length", size());
            let end = || measure(-STEEPEST, STEEPEST);
            let zero_end = table.or(r, "zero-end", end(), Angle::ZERO, SQUARE);
            let far_end = table.or(r, "far-end", end(), Angle::ZERO, SQUARE);
            let across = table.may(r, "across", size());
            table.close(r);
            Some(AnyPart::Bar(DirectPart {
                mark: letter?,
                name: what?,
                section: section?,
                length: length?,
                count,
                zero_end,
                far_end,
                across,
                span,
            }))
        }
        About::Material => {
            let material = table.need(r, "material", Row(|tables| &tables.materials));
            let thick = table.need(r, "thickness", thickness());
            let length = table.need(r, "length", size());
            let width = table.need(r, "width", size());
            let turn = table.or(r, "turn", TURNS, true, "no grain is stated");
            table.close(r);
            Some(AnyPart::Plate(DirectPlate {
                mark: letter?,
                name: what?,
                material: material?,
                thickness: thick?,
                length: length?,
                width: width?,
                count,
                turn,
                span,
            }))
        }
        About::Stuff => {
            let stuff = table.need(r, "stuff", name());
            let length = table.need(r, "length", size());
            table.close(r);
            Some(AnyPart::Length(DirectLength {
                mark: letter?,
                name: what?,
                stuff: stuff?,
                length: length?,
                count,
                span,
            }))
        }
    }
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
    let places = ["before", "after", "instead-of", "leave-out"];
    let stated: Vec<&str> = places.into_iter().filter(|key| table.has(key)).collect();
    for pair in stated.windows(2) {
        let (first, second) =
            ((pair[0], table.key_span(pair[0])), (pair[1], table.key_span(pair[1])));
        r.raise(codes::one_or_the_other::both(first, second));
    }
    if let Some(left) = table.may(r, "leave-out", words(100)) {
        table.close(r);
        let none = "the step is left out";
        return Some(DirectStep {
            title: title?,
            place: StepPlace::LeaveOut(left),
            purpose: None,
            tools: Vec::new(),
            hold: None,
            cautions: Vec::new(),
            actions: Vec::new(),
            time: Stated::default_of(Duration::ZERO, none),
            wait: None,
            people: Stated::default_of(1, none),
            photos: Vec::new(),
            span,
        });
    }
    let before = table.may(r, "before", words(100)).map(StepPlace::Before);
    let after = table.may(r, "after", words(100)).map(StepPlace::After);
    let instead = table.may(r, "instead-of", words(100)).map(StepPlace::InsteadOf);
    let purpose = table.may(r, "purpose", words(160));
    let tools = table.list(r, "tools", MOST_TOOLS, name());
    let hold = table.may(r, "hold", words(160));
    let cautions = table.list(r, "cautions", MOST_TOOLS, words(60));
    let actions = actions(r, &mut table);
    let time =
        table.need(r, "time", measure(Duration::minutes(1.0), Duration::hours(200.0)).positive());
    let wait =
        table.may(r, "wait", measure(Duration::minutes(1.0), Duration::days(1100.0)).positive());
    let people = table.or(r, "people", whole(1, 50), 1, "one where nothing is stated");
    let photos = photos(r, &mut table);
    table.close(r);
    let place = before.or(after).or(instead).unwrap_or(StepPlace::Last);
    Some(DirectStep {
        title: title?,
        place,
        purpose,
        tools,
        hold,
        cautions,
        actions: actions?,
        time: time?,
        wait,
        people,
        photos: photos?,
        span,
    })
}

/// Actions: sentences, or tables of a sentence and how to know that it is right.
fn actions(r: &mut Reader<'_>, table: &mut Cursor<'_>) -> Option<Vec<DirectAction>> {
    let listed = |tables: &_| Shape::List {
        of: Box::new(sentence().shape(tables)),
        least: 1,
        most: MOST_ACTIONS,
    };
    table.noted(r, "actions", Asked::Needed, listed);
    table.noted_table(r, "actions", true);
    let Some(field) = table.field("actions") else {
        table.lacks("actions", None);
        return None;
    };
    let list = elements_of(r, &field, MOST_ACTIONS);
    if field.value.as_array().is_some_and(|list| list.is_empty()) {
        table.lacks("actions", Some((field.span, "nothing in the list".to_owned())));
    }
    // All of them first, so that each fault is told.
    let read: Vec<Option<DirectAction>> = list
        .iter()
        .map(|one| match table.braces(r, "actions", one) {
            Some(inner) => action(r, inner),
            None => stated(r, one, &sentence()).map(|text| DirectAction { text, done: None }),
        })
        .collect();
    read.into_iter().collect::<Option<Vec<_>>>().filter(|list| !list.is_empty())
}

fn action(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<DirectAction> {
    let text = table.need(r, "do", sentence());
    let words_of = table.need(r, "done", words(60));
    let limit = || plain_number(-LIMIT, LIMIT);
    let low = table.may(r, "low", limit());
    let high = table.may(r, "high", limit());
    let unit = table.may(r, "unit", words(8));
    table.close(r);
    let done = DirectDone { words: words_of?, low, high, unit };
    Some(DirectAction { text: text?, done: Some(done) })
}
