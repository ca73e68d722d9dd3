//! `corner` of a frame: the name of a connector, or a table of how tubes meet.

use super::codes;
use super::cursor::Cursor;
use super::reader::Reader;
use super::take::{Choice, Row, whole};
use crate::build::{
    Corner, CornerAngle, CornerCut, CornerFastener, CornerJoin, Through, TubeCorner,
};

const CUTS: Choice<CornerCut> = Choice(&[("mitre", CornerCut::Mitre), ("butt", CornerCut::Butt)]);
const THROUGH: Choice<Through> =
    Choice(&[("side-tubes", Through::Sides), ("end-tubes", Through::Ends)]);
const JOINS: Choice<bool> = Choice(&[("angle", false), ("weld", true)]);

pub(super) fn corner(r: &mut Reader<'_>, frame: &mut Cursor<'_>) -> Option<Corner> {
    if !frame.is_table("corner") {
        return frame
            .need(r, "corner", Row(|tables| &tables.corner_connectors))
            .map(Corner::Connector);
    }
    let mut table = frame.need_table(r, "corner")?;
    let span = table.span();
    let cut = table.need(r, "cut", CUTS);
    let mitred = cut.as_ref().is_some_and(|cut| cut.value == CornerCut::Mitre);
    let ground = if mitred {
        "not used: both tubes are mitred"
    } else {
        "common practice, no source: side tubes carry the mounts and stay whole"
    };
    let through = table.or(r, "through", THROUGH, Through::Sides, ground);
    let weld = table.or(r, "join", JOINS, false, "an angle: no shop is needed");
    let join = if weld.value {
        Some(CornerJoin::Weld)
    } else {
        self::angle(r, &mut table).map(CornerJoin::Angle)
    };
    table.close(r);
    Some(Corner::Tubes(TubeCorner { cut: cut?, through, join: join?, span }))
}

fn angle(r: &mut Reader<'_>, table: &mut Cursor<'_>) -> Option<CornerAngle> {
    let section = table.need(r, "angle", Row(|tables| &tables.sections));
    let each = table.or(
        r,
        "each",
        whole(1, 6),
        2,
        "common practice, no source: with two in a leg the corner can't turn",
    );
    match (table.place_of("rivet"), table.place_of("screw")) {
        (None, None) => {
            let reason = "rivets or tapping screws, `screw`, hold the angle";
            table.lacks("rivet", Some((table.span(), reason.to_owned())));
        }
        (Some(rivet), Some(screw)) => {
            r.raise(codes::one_or_the_other::both(("rivet", rivet), ("screw", screw)));
        }
        _ => {}
    }
    let rivet = table.may(r, "rivet", Row(|tables| &tables.blind_rivets));
    let screw = table.may(r, "screw", Row(|tables| &tables.tapping_screws));
    let fastener = rivet.map(CornerFastener::Rivet).or(screw.map(CornerFastener::Screw))?;
    Some(CornerAngle { section: section?, each, fastener })
}
