//! `[[mount]]`.

use super::codes;
use super::cursor::Cursor;
use super::reader::{Group, Reader};
use super::take::{
    Choice, OfFrame, Row, mark, measure, name, piece_size, place, plain_number, room, stated_size,
    strip_width, thickness, whole,
};
use crate::build::{
    Bead, BoltedFoot, BondedFoot, Edge, Fold, HingeLine, Latch, LatchHoles, LatchKind, Mount,
    MountKind, Plate, Prop, Rail, RailClamp, Spreader, TapeStrips, Wedge,
};
use crate::source::Stated;
use crate::tables::Section;
use crate::units::{Angle, Force, Length, Pressure};

const MOST_PLACES: usize = 200;
pub(super) const EDGES: Choice<Edge> = Choice(&[
    ("left", Edge::Left),
    ("right", Edge::Right),
    ("front", Edge::Front),
    ("rear", Edge::Rear),
]);

#[derive(Debug, Clone, Copy, PartialEq)]
enum Kind {
    Hinge,
    BondedFoot,
    BoltedFoot,
    RailClamp,
}

const KINDS: Choice<Kind> = Choice(&[
    ("hinge", Kind::Hinge),
    ("bonded-foot", Kind::BondedFoot),
    ("bolted-foot", Kind::BoltedFoot),
    ("rail-clamp", Kind::RailClamp),
]);

const MOST_ANGLES: usize = 20;
const MOST_PROPS: usize = 10;
const LATCHES: Choice<LatchKind> =
    Choice(&[("knob", LatchKind::Knob), ("draw-latch", LatchKind::DrawLatch)]);

pub(super) fn mount(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Mount> {
    let span = table.span();
    let letter = table.need(r, "mark", mark());
    r.marked(letter.as_ref());
    let kind = table.need(r, "kind", KINDS);
    let frame = on_frame(r, &mut table);
    let edge = table.need(r, "edge", EDGES);
    let at = table.need_list(r, "at", MOST_PLACES, place());
    let Some(kind) = kind else {
        // Which other keys belong here depends on the kind.
        let words = table.may(r, "name", name());
        r.named(Group::Mounts, words.as_ref());
        table.close_unjudged(r);
        return None;
    };
    let (usual, shape) = match kind.value {
        Kind::Hinge => ("hinge", hinge(r, &mut table).map(MountKind::Hinge)),
        Kind::BondedFoot => ("bonded foot", bonded_foot(r, &mut table).map(MountKind::BondedFoot)),
        Kind::BoltedFoot => ("bolted foot", bolted_foot(r, &mut table).map(MountKind::BoltedFoot)),
        Kind::RailClamp => ("rail clamp", rail_clamp(r, &mut table).map(MountKind::RailClamp)),
    };
    let words =
        table.or(r, "name", name(), usual.into(), "named for its kind where no name is stated");
    r.named(Group::Mounts, Some(&words));
    table.close(r);
    Some(Mount {
        mark: letter?,
        name: words,
        frame: frame?,
        edge: edge?,
        at: at?,
        kind: shape?,
        span,
    })
}

/// Which of the frames it holds; needed where there are several.
fn on_frame(r: &mut Reader<'_>, table: &mut Cursor<'_>) -> Option<usize> {
    if r.frames.len() > 1 {
        return table.need(r, "frame", OfFrame).map(|frame| frame.value);
    }
    let stated = table.has("frame");
    let frame = table.may(r, "frame", OfFrame).map(|frame| frame.value);
    if stated { frame } else { Some(0) }
}

fn hinge(r: &mut Reader<'_>, table: &mut Cursor<'_>) -> Option<HingeLine> {
    const LIFT: &str = "enough to reach under with an arm: common practice, no source";
    let row = table.need(r, "hinge", Row(|tables| &tables.hinges));
    let bolt = table.need(r, "bolt", Row(|tables| &tables.threads));
    let rail = table.need_table(r, "rail").and_then(|rail| self::rail(r, rail));
    let any = measure(Angle::deg(0.0), Angle::deg(90.0));
    let angles = table.list(r, "angles", MOST_ANGLES, any);
    table.usual(r, "lift", LIFT, || Angle::deg(30.0).to_string());
    let most = angles.iter().map(|angle| angle.value).reduce(Angle::max);
    let lift = match (table.may(r, "lift", any), most) {
        (Some(lift), _) => lift,
        (None, Some(most)) => Stated::default_of(most, "the greatest of its angles"),
        (None, None) => Stated::default_of(Angle::deg(30.0), LIFT),
    };
    for angle in angles.iter().filter(|angle| angle.value > lift.value) {
        let most = lift.value.to_string();
        let words = ("the lift", lift.span);
        r.raise(codes::out_of_range::of_other("an angle", angle, "0°", &most, words));
    }
    let mut angles = angles;
    angles.sort_by(|a, b| a.value.total_cmp(&b.value));
    let prop = table.table(r, "prop").map(|prop| self::prop(r, prop));
    Some(HingeLine {
        hinge: row?,
        bolt: bolt?,
        rail: rail?,
        lift,
        angles,
        prop: prop.unwrap_or(None),
    })
}

fn prop(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Prop> {
    let span = table.span();
    let section = table.need(r, "section", Row(|tables| &tables.sections));
    let on = table.need_list(r, "on", MOST_PROPS, mark());
    let at = table.may(r, "at", place());
    table.close(r);
    Some(Prop { section: section?, on: on?, at, span })
}

fn rail(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Rail> {
    const WALL: &str = "common practice, no source: measure yours before buying bolts";
    let y = table.need(r, "y", place());
    let height = table.need(r, "height", room());
    let width = table.need(r, "width", strip_width());
    let wall = table.or(r, "thickness", thickness(), Length::mm(2.0), WALL);
    table.close(r);
    Some(Rail { y: y?, height: height?, width: width?, thickness: wall })
}

fn bonded_foot(r: &mut Reader<'_>, table: &mut Cursor<'_>) -> Option<BondedFoot> {
    let plate = table.need_table(r, "plate").and_then(|plate| self::plate(r, plate));
    let bracket = bracket(r, table);
    table.usual(r, "angle-length", "as long as the plate where nothing is stated", || {
        "the plate's".to_owned()
    });
    let angle_length = table.may(r, "angle-length", piece_size());
    let bolt = table.need(r, "bolt", Row(|tables| &tables.threads));
    let plate_screw = table.need(r, "plate-screw", Row(|tables| &tables.threads));
    if !table.has("tape") && !table.has("bead") {
        let means = "nothing would hold the foot on the roof";
        let (home, span) = (table.home().name(), table.span());
        r.raise(codes::one_or_the_other::neither(&home, "tape", "bead", span, means));
    }
    let tape = table.table(r, "tape").map(|tape| strips(r, tape));
    let bead = table.table(r, "bead").map(|bead| self::bead(r, bead));
    let wedge = table.table(r, "wedge").map(|wedge| self::wedge(r, wedge));
    let latch = table.table(r, "latch").map(|latch| self::latch(r, latch));
    let plate = plate?;
    let angle_length = angle_length.unwrap_or_else(|| {
        Stated::default_of(plate.length.value, "as long as the plate where nothing is stated")
            .near(table.span())
    });
    let (angle, fold) = bracket?;
    Some(BondedFoot {
        plate,
        angle,
        fold,
        angle_length,
        bolt: bolt?,
        plate_screw: plate_screw?,
        tape: tape.unwrap_or(None),
        bead: bead.unwrap_or(None),
        wedge: wedge.unwrap_or(None),
        latch: latch.unwrap_or(None),
    })
}

fn bolted_foot(r: &mut Reader<'_>, table: &mut Cursor<'_>) -> Option<BoltedFoot> {
    let bracket = bracket(r, table);
    let spreader = table.need_table(r, "spreader").and_then(|plate| self::spreader(r, plate));
    table.usual(r, "angle-length", "as long as the spreader where nothing is stated", || {
        "the spreader's".to_owned()
    });
    let angle_length = table.may(r, "angle-length", piece_size());
    let bolt = table.need(r, "bolt", Row(|tables| &tables.threads));
    let roof_bolt = table.need(r, "roof-bolt", Row(|tables| &tables.threads));
    let sealing = table.need(r, "sealing", Row(|tables| &tables.adhesives));
    let wedge = table.table(r, "wedge").map(|wedge| self::wedge(r, wedge));
    let latch = table.table(r, "latch").map(|latch| self::latch(r, latch));
    let spreader = spreader?;
    let angle_length = angle_length.unwrap_or_else(|| {
        const WHY: &str = "as long as the spreader where nothing is stated";
        Stated::default_of(spreader.length.value, WHY).near(table.span())
    });
    let (angle, fold) = bracket?;
    Some(BoltedFoot {
        angle,
        fold,
        angle_length,
        bolt: bolt?,
        roof_bolt: roof_bolt?,
        spreader,
        sealing: sealing?,
        wedge: wedge.unwrap_or(None),
        latch: latch.unwrap_or(None),
    })
}

/// What the bracket is: cut from an angle, or bent from flat stuff.
fn bracket(r: &mut Reader<'_>, table: &mut Cursor<'_>) -> Option<(Stated<Section>, Option<Fold>)> {
    if table.has("angle") && table.has("fold") {
        let (first, second) = (table.key_span("angle"), table.key_span("fold"));
        r.raise(codes::one_or_the_other::both(("angle", first), ("fold", second)));
    }
    if !table.has("fold") {
        return table.need(r, "angle", Row(|tables| &tables.sections)).map(|angle| (angle, None));
    }
    let angle = table.may(r, "angle", Row(|tables| &tables.sections));
    let span = table.key_span("fold");
    let fold = table.table(r, "fold").and_then(|fold| self::fold(r, fold))?;
    Some((angle.unwrap_or_else(|| Stated::written(fold.section(), span)), Some(fold)))
}

fn fold(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Fold> {
    let material = table.need(r, "material", Row(|tables| &tables.materials));
    let thick = table.need(r, "thickness", stated_size(Length::mm(0.5), Length::mm(12.0)));
    let standing = table.need(r, "standing", piece_size());
    let lying = table.need(r, "lying", piece_size());
    let radius = table.need(r, "radius", stated_size(Length::mm(0.1), Length::mm(100.0)));
    let k = table.may(r, "k", plain_number(0.2, 0.6));
    table.close(r);
    Some(Fold {
        material: material?,
        thickness: thick?,
        standing: standing?,
        lying: lying?,
        radius: radius?,
        k,
    })
}

fn latch(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Latch> {
    let kind = table.need(r, "kind", LATCHES);
    let strength = table.may(r, "strength", measure(Force::n(10.0), Force::kn(100.0)));
    if let Some(kind) = kind.as_ref().filter(|kind| kind.value == LatchKind::DrawLatch)
        && strength.is_none()
    {
        table.lacks("strength", Some((kind.span, "needed by a draw latch".into())));
    }
    let mut holes = LatchHoles::usual();
    if kind.as_ref().is_some_and(|kind| kind.value == LatchKind::DrawLatch) {
        let usual = holes.clone();
        let mut size = |key: &'static str, usual: Stated<Length>| {
            table.usual(r, key, usual.ground().unwrap_or(""), || usual.value.to_string());
            table.may(r, key, strip_width()).unwrap_or(usual)
        };
        holes = LatchHoles {
            body: size("body", usual.body),
            keeper: size("keeper", usual.keeper),
            reach: size("reach", usual.reach),
        };
    }
    table.close(r);
    Some(Latch { kind: kind?, strength, holes })
}

fn wedge(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Wedge> {
    const LEAST: &str = "a thinner edge breaks off: common practice, no source";
    let material = table.need(r, "material", Row(|tables| &tables.materials));
    let edge = stated_size(Length::mm(0.5), Length::mm(60.0));
    let least = table.or(r, "least", edge, Length::mm(3.0), LEAST);
    table.close(r);
    Some(Wedge { material: material?, least })
}

fn spreader(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Spreader> {
    let material = table.need(r, "material", Row(|tables| &tables.materials));
    let length = table.need(r, "length", piece_size());
    let width = table.need(r, "width", piece_size());
    let thick = table.need(r, "thickness", thickness());
    table.close(r);
    Some(Spreader { material: material?, length: length?, width: width?, thickness: thick? })
}

fn rail_clamp(r: &mut Reader<'_>, table: &mut Cursor<'_>) -> Option<RailClamp> {
    let bracket = bracket(r, table);
    table.usual(r, "angle-length", "as long as the plate where nothing is stated", || {
        "the plate's".to_owned()
    });
    let angle_length = table.need(r, "angle-length", piece_size());
    let bolt = table.need(r, "bolt", Row(|tables| &tables.threads));
    let clamp_bolt = table.need(r, "clamp-bolt", Row(|tables| &tables.threads));
    let plate = table.need_table(r, "clamp-plate").and_then(|mut plate| {
        let material = plate.need(r, "material", Row(|tables| &tables.materials));
        let thick = plate.need(r, "thickness", thickness());
        plate.close(r);
        material.zip(thick)
    });
    let rail = table.need_table(r, "rail").and_then(|rail| self::rail(r, rail));
    let latch = table.table(r, "latch").map(|latch| self::latch(r, latch));
    let (material, thickness) = plate?;
    let (angle, fold) = bracket?;
    Some(RailClamp {
        angle,
        fold,
        angle_length: angle_length?,
        bolt: bolt?,
        clamp_bolt: clamp_bolt?,
        material,
        thickness,
        rail: rail?,
        latch: latch.unwrap_or(None),
    })
}

fn plate(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Plate> {
    let material = table.need(r, "material", Row(|tables| &tables.materials));
    let length = table.need(r, "length", piece_size());
    let width = table.need(r, "width", piece_size());
    let thick = table.need(r, "thickness", thickness());
    let shift = place();
    let shift = table.or(r, "shift", shift, Length::ZERO, "the leg stands over the plate's middle");
    table.close(r);
    Some(Plate { material: material?, length: length?, width: width?, thickness: thick?, shift })
}

fn strips(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<TapeStrips> {
    let kind = table.need(r, "kind", Row(|tables| &tables.tapes));
    let width = table.need(r, "width", strip_width());
    let thick = table.need(r, "thickness", thickness());
    let strips = table.need(r, "strips", whole(1, 50));
    let sheet = measure(Pressure::kpa(1.0), Pressure::mpa(1.0));
    let short_term = table.may(r, "short-term", sheet);
    table.close(r);
    Some(TapeStrips { kind: kind?, width: width?, thickness: thick?, strips: strips?, short_term })
}

fn bead(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Bead> {
    let kind = table.need(r, "kind", Row(|tables| &tables.adhesives));
    let width = table.need(r, "width", strip_width());
    let strength = table.may(r, "strength", measure(Pressure::kpa(10.0), Pressure::mpa(40.0)));
    table.close(r);
    Some(Bead { kind: kind?, width: width?, strength })
}
