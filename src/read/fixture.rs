//! `[[fixture]]`.

use super::cursor::Cursor;
use super::reader::Reader;
use super::take::{Choice, Row, mark, measure, name, place, size, thickness, words};
use crate::build::{FixedOn, Fixture, Vehicle};
use crate::units::Mass;

const ON: Choice<FixedOn> = Choice(&[("roof", FixedOn::Roof), ("rear-door", FixedOn::RearDoor)]);

/// One table; a skin that is not stated is the roof's.
pub(super) fn fixture(
    r: &mut Reader<'_>,
    mut table: Cursor<'_>,
    vehicle: Option<&Vehicle>,
) -> Option<Fixture> {
    const ROOF: &str = "the skin of the roof";
    let span = table.span();
    let letter = table.need(r, "mark", mark());
    let what = table.need(r, "name", name());
    r.marked(letter.as_ref());
    let on = table.need(r, "on", ON);
    let part = table.need(r, "part", words(10));
    let x = table.need(r, "x", place());
    let y = table.need(r, "y", place());
    let thread = table.need(r, "thread", Row(|tables| &tables.threads));
    let mass = table.need(r, "mass", measure(Mass::kg(0.05), Mass::kg(200.0)).positive());
    let reach = table.need(r, "reach", size());
    let depth = table.need(r, "depth", size());
    let width = table.need(r, "width", size());
    let length = table.need(r, "length", size());
    let of_roof = vehicle.map(|vehicle| &vehicle.skin);
    let (skin, skin_thickness) = match of_roof {
        Some(roof) => (
            Some(table.or(
                r,
                "skin",
                Row(|tables| &tables.materials),
                roof.material.value.clone(),
                ROOF,
            )),
            Some(table.or(r, "skin-thickness", thickness(), *roof.thickness, ROOF)),
        ),
        None => (
            table.need(r, "skin", Row(|tables| &tables.materials)),
            table.need(r, "skin-thickness", thickness()),
        ),
    };
    let backing = table.may(r, "backing", thickness());
    let long = table.may(r, "opening-length", size());
    let wide = table.may(r, "opening-width", size());
    let sealing = table.need(r, "sealing", Row(|tables| &tables.adhesives));
    table.close(r);
    // A square is told by one side.
    let opening = match (long, wide) {
        (Some(long), Some(wide)) => Some([long, wide]),
        (Some(side), None) | (None, Some(side)) => Some([side, side]),
        (None, None) => None,
    };
    Some(Fixture {
        mark: letter?,
        name: what?,
        on: on?,
        part: part?,
        x: x?,
        y: y?,
        thread: thread?,
        mass: mass?,
        reach: reach?,
        depth: depth?,
        width: width?,
        length: length?,
        skin: skin?,
        skin_thickness: skin_thickness?,
        backing,
        opening,
        sealing: sealing?,
        span,
    })
}
