//! `[frame]` or `[[frame]]`.

use super::cursor::Cursor;
use super::reader::{Group, Reader};
use super::take::{Choice, Row, name, piece_size, place, room, stated_size, thickness, whole};
use crate::build::{Arrangement, Frame, LongSide, Overhang, Packer, Place};
use crate::source::Stated;
use crate::tables::TappingScrew;
use crate::units::Length;

const LONG_SIDES: Choice<LongSide> =
    Choice(&[("across", LongSide::Across), ("along", LongSide::Along)]);

/// `panels` is how many panels lie on it, as far as the file tells, for the count of columns where none
/// is stated.
pub(super) fn frame(r: &mut Reader<'_>, mut table: Cursor<'_>, panels: u32) -> Option<Frame> {
    let span = table.span();
    let words = table.may(r, "name", name());
    r.named(Group::Frames, words.as_ref());
    if words.is_none() && r.frames.len() > 1 && !table.has("name") {
        table.lacks("name", Some((span, "several frames must be told apart".to_owned())));
    }
    let words = words.unwrap_or_else(|| {
        Stated::default_of("frame".to_owned(), "no name stated: the only frame").near(span)
    });
    let section = table.need(r, "section", Row(|tables| &tables.sections));
    let corner = super::corner::corner(r, &mut table);
    let long_side =
        table.or(r, "long-side", LONG_SIDES, LongSide::Across, "across where nothing is stated");
    let rows = table.or(r, "rows", whole(1, 200), 1, "one row where none is stated");
    let columns = panels.div_ceil(rows.value).clamp(1, 200);
    let columns = table.or(r, "columns", whole(1, 200), columns, "as many as the panels need");
    let gap = table.or(
        r,
        "gap",
        room(),
        Length::mm(10.0),
        "common practice, no source: room for heat and a cloth",
    );
    let position = table.need_table(r, "position").and_then(|position| self::position(r, position));
    let overhang = overhang(r, &mut table);
    let clearance = table.need(r, "clearance", room());
    let cross_members = table.or(
        r,
        "cross-members",
        whole(0, 100),
        columns.value - 1,
        "one where two panels meet: common practice, no source",
    );
    let screw = table.need_table(r, "panel-screw").and_then(|screw| panel_screw(r, screw));
    let pitch = stated_size(Length::mm(20.0), Length::m(5.0));
    let panel_screw_pitch =
        table.or(r, "panel-screw-pitch", pitch, Length::mm(400.0), "common practice, no source");
    let packer = table.table(r, "packer").map(|packer| self::packer(r, packer));
    table.close(r);
    let packer = match packer {
        Some(packer) => Some(packer?),
        None => None,
    };
    let (panel_screw, panel_screw_length) = screw?;
    Some(Frame {
        name: words,
        section: section?,
        corner: corner?,
        arrangement: Arrangement { long_side, rows, columns },
        gap,
        position: position?,
        overhang,
        clearance: clearance?,
        cross_members,
        panel_screw,
        panel_screw_length,
        panel_screw_pitch,
        packer,
        span,
    })
}

fn overhang(r: &mut Reader<'_>, frame: &mut Cursor<'_>) -> Overhang {
    const NONE: &str = "not used: the frame ends with its panels";
    let span = frame.span();
    let Some(mut table) = frame.table(r, "overhang") else {
        let none = || Stated::default_of(Length::ZERO, NONE).near(span);
        return Overhang { front: none(), rear: none(), left: none(), right: none() };
    };
    let mut side = |key| table.or(r, key, room(), Length::ZERO, NONE);
    let overhang = Overhang {
        front: side("front"),
        rear: side("rear"),
        left: side("left"),
        right: side("right"),
    };
    table.close(r);
    overhang
}

fn position(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Place> {
    let x = table.need(r, "x", place());
    let y = table.need(r, "y", place());
    table.close(r);
    Some(Place { x: x?, y: y? })
}

fn panel_screw(
    r: &mut Reader<'_>,
    mut table: Cursor<'_>,
) -> Option<(Stated<TappingScrew>, Stated<Length>)> {
    let screw = table.need(r, "size", Row(|tables| &tables.tapping_screws));
    let length = table.need(r, "length", thickness());
    table.close(r);
    Some((screw?, length?))
}

fn packer(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Packer> {
    const FREE: &str = "1 mm so that the back sheet is not pressed: common practice, no source";
    let material = table.need(r, "material", Row(|tables| &tables.materials));
    let length = table.need(r, "length", piece_size());
    let width = table.need(r, "width", piece_size());
    let free = table.or(r, "free", room(), Length::mm(1.0), FREE);
    table.close(r);
    Some(Packer { material: material?, length: length?, width: width?, free })
}
