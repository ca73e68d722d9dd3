//! `[vehicle]`.

use super::cursor::Cursor;
use super::reader::Reader;
use super::record::photos;
use super::take::{Choice, Row, body_size, measure, name, place, sentence, thickness, whole};
use crate::build::{Balance, Finish, RoofLimit, RoofSkin, Vehicle};
use crate::units::{Length, Mass, Speed};

const FINISHES: Choice<Finish> = Choice(&[
    ("paint", Finish::Paint),
    ("old-paint", Finish::OldPaint),
    ("gelcoat", Finish::Gelcoat),
    ("chalky-gelcoat", Finish::ChalkyGelcoat),
    ("bare", Finish::Bare),
]);

pub(super) fn vehicle(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Vehicle> {
    let span = table.span();
    let words = table.or(r, "name", name(), "vehicle".into(), "no name stated");
    let height = table.may(r, "height", body_size());
    let speed = table.need(r, "speed", measure(Speed::kmh(1.0), Speed::kmh(250.0)).positive());
    let skin = table.need_table(r, "roof-skin").and_then(|skin| roof_skin(r, skin));
    let limit = table.table(r, "roof-limit").and_then(|limit| roof_limit(r, limit));
    let balance = table.table(r, "balance").and_then(|balance| read_balance(r, balance));
    let behind_roof = table.list(r, "behind-roof", 50, sentence());
    let photos = photos(r, &mut table);
    table.close(r);
    Some(Vehicle {
        name: words,
        height,
        speed: speed?,
        skin: skin?,
        limit,
        balance,
        behind_roof,
        photos: photos?,
        span,
    })
}

fn roof_skin(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<RoofSkin> {
    let material = table.need(r, "material", Row(|tables| &tables.materials));
    let thick = table.need(r, "thickness", thickness());
    let finish = table.need(r, "finish", FINISHES);
    table.close(r);
    Some(RoofSkin { material: material?, thickness: thick?, finish: finish? })
}

fn read_balance(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Balance> {
    const MIDDLE: &str = "on the centre line where nothing is stated: common practice, no source";
    let mass = table.need(r, "mass", measure(Mass::kg(100.0), Mass::kg(60_000.0)).positive());
    let centre_height = table.need(r, "centre-height", body_size());
    let centre_x = table.may(r, "centre-x", place());
    let centre_y = table.or(r, "centre-y", place(), Length::ZERO, MIDDLE);
    table.close(r);
    Some(Balance { mass: mass?, centre_height: centre_height?, centre_x, centre_y })
}

fn roof_limit(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<RoofLimit> {
    const ONE: &str = "one at a time on the roof: common practice, no source";
    let load = measure(Mass::kg(1.0), Mass::kg(10_000.0)).positive();
    let moving = table.need(r, "moving", load);
    let standing = table.need(r, "standing", load);
    let people = table.or(r, "people", whole(0, 20), 1, ONE);
    table.close(r);
    Some(RoofLimit { moving: moving?, people, standing: standing? })
}
