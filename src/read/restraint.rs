//! `[restraint]`.

use super::codes;
use super::cursor::Cursor;
use super::reader::Reader;
use super::take::{Choice, Row, measure, piece_size, stated_size, thickness, whole};
use crate::build::{Anchor, HoldBy, Restraint, SpreaderPlate, ThroughBolt, WoodScrew};
use crate::source::Stated;
use crate::tables::{BoltGrade, Material, Tables};
use crate::units::{Angle, Force, Length, Ratio};

const KINDS: Choice<HoldBy> = Choice(&[
    ("top-over", HoldBy::TopOver),
    ("direct", HoldBy::Direct),
    ("cradle", HoldBy::Cradle),
]);

pub(super) fn restraint(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Restraint> {
    const BLOCKS: &str = "one on each side: common practice, no source";
    const SCREWS: &str = "two keep a block from turning: common practice, no source";
    const OVER: &str = "straps over the top, blocks round the foot: common practice, no source";
    const ROAD: &str = "what a road asks; a crash is told beside it";
    const HAND: &str = "a tenth of the lashing capacity, by EN 12195-2";
    const STEEP: &str = "a strap that comes down close beside the battery: common practice";
    const SLANT: &str = "half way between floor and upright: common practice";
    const TURN: &str = "half way between along and across: common practice";
    const SLIDES: &str = "plastic on plywood, CTU Code annex 7";
    const NONE: &str = "not used: nothing here asks for it";
    let span = table.span();
    let kind = table.or(r, "kind", KINDS, HoldBy::TopOver, OVER);
    let cradle = *kind == HoldBy::Cradle;
    let road = r.tables.restraint_level("road").ok().cloned()?;
    let level = table.or(r, "level", Row(|tables| &tables.restraint_levels), road, ROAD);
    let straps = if cradle {
        Some(table.or(r, "straps", whole(0, 20), 0, NONE))
    } else {
        table.need(r, "straps", whole(0, 20))
    };
    let capacity = measure(Force::n(1.0), Force::kn(100.0)).positive();
    let strap_capacity = if cradle {
        let stated = table.may(r, "strap-capacity", capacity);
        Some(stated.unwrap_or_else(|| Stated::default_of(Force::ZERO, NONE).near(span)))
    } else {
        table.need(r, "strap-capacity", capacity)
    };
    let tension = strap_capacity
        .as_ref()
        .map_or(Force::ZERO, |capacity| **capacity * share(r.tables, "hand-tension"));
    let strapped = straps.as_ref().is_some_and(|straps| **straps > 0);
    let only = |used: bool, ground: &'static str| if used { ground } else { NONE };
    let strap_tension = table.or(r, "strap-tension", capacity, tension, only(strapped, HAND));
    let leans = measure(Angle::deg(5.0), Angle::deg(90.0));
    let (usual, why) = match *kind {
        HoldBy::Direct => (Angle::deg(45.0), SLANT),
        _ => (Angle::deg(75.0), STEEP),
    };
    let strap_angle = table.or(r, "strap-angle", leans, usual, only(strapped, why));
    let direct = strapped && *kind == HoldBy::Direct;
    let turns = measure(Angle::deg(0.0), Angle::deg(90.0));
    let strap_turn = table.or(r, "strap-turn", turns, Angle::deg(45.0), only(direct, TURN));
    let anchor = table.table(r, "anchor").map(|anchor| self::anchor(r, anchor));
    let rubs = measure(Ratio::of_one(0.0), Ratio::of_one(1.0));
    let usual = Ratio::of_one(share(r.tables, "friction"));
    let friction = table.or(r, "friction", rubs, usual, only(strapped, SLIDES));
    let (most, why) = if cradle { (0, NONE) } else { (4, BLOCKS) };
    let blocks = table.or(r, "blocks", whole(0, 40), most, why);
    let block_height = if cradle || *blocks == 0 {
        let none = Stated::default_of(Length::ZERO, NONE).near(span);
        Some(table.may(r, "block-height", piece_size()).unwrap_or(none))
    } else {
        table.need(r, "block-height", piece_size())
    };
    let screws_a_block = table.or(r, "screws-a-block", whole(1, 40), 2, only(*blocks > 0, SCREWS));
    if table.has("screw") && table.has("bolt") {
        let (first, second) = (table.key_span("screw"), table.key_span("bolt"));
        r.raise(codes::one_or_the_other::both(("screw", first), ("bolt", second)));
    }
    let bolted = table.has("bolt");
    let screw = if cradle || bolted || *blocks == 0 {
        table.table(r, "screw").map(|screw| self::screw(r, screw))
    } else {
        Some(table.need_table(r, "screw").and_then(|screw| self::screw(r, screw)))
    };
    let bolt = if cradle {
        Some(table.need_table(r, "bolt").and_then(|bolt| self::bolt(r, bolt)))
    } else {
        table.table(r, "bolt").map(|bolt| self::bolt(r, bolt))
    };
    let floor = table.need(r, "floor", Row(|tables| &tables.materials));
    let floor_thickness = table.need(r, "floor-thickness", thickness());
    table.close(r);
    Some(Restraint {
        kind,
        level,
        straps: straps?,
        strap_capacity: strap_capacity?,
        strap_tension,
        strap_angle,
        strap_turn,
        anchor: made(anchor)?,
        friction,
        blocks,
        screws_a_block,
        screw: made(screw)?,
        bolt: made(bolt)?,
        floor: floor?,
        floor_thickness: floor_thickness?,
        block_height: block_height?,
        span,
    })
}

/// A table that is not there is fine; one that could not be made is not.
#[allow(clippy::option_option)] // The two kinds of nothing lead to different ends.
fn made<T>(table: Option<Option<T>>) -> Option<Option<T>> {
    match table {
        Some(made) => made.map(Some),
        None => Some(None),
    }
}

fn share(tables: &Tables, name: &str) -> f64 {
    tables.allowances.get(name).map_or(0.0, |row| row.share.to_fraction())
}

fn screw(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<WoodScrew> {
    let diameter = table.need(r, "diameter", stated_size(Length::mm(1.0), Length::mm(30.0)));
    let length = table.need(r, "length", stated_size(Length::mm(5.0), Length::mm(500.0)));
    table.close(r);
    Some(WoodScrew { diameter: diameter?, length: length? })
}

fn bolt(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<ThroughBolt> {
    const GRADE: &str = "bolts as most shops have them: common practice, no source";
    const COUNT: &str = "one at each place where nothing is stated";
    let grade: BoltGrade = r.tables.bolt_grade("8.8").ok().cloned()?;
    let thread = table.need(r, "thread", Row(|tables| &tables.threads));
    let grade = table.or(r, "grade", Row(|tables| &tables.bolt_grades), grade, GRADE);
    let count = table.or(r, "count", whole(1, 40), 1, COUNT);
    let spreader = table.table(r, "spreader").map(|plate| self::spreader(r, plate));
    table.close(r);
    Some(ThroughBolt { thread: thread?, grade, count, spreader: made(spreader)? })
}

fn spreader(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<SpreaderPlate> {
    const STEEL: &str = "plain steel where nothing is stated";
    let steel: Material = r.tables.material("steel-s235").ok().cloned()?;
    let length = table.need(r, "length", piece_size());
    let width = table.need(r, "width", piece_size());
    let thick = table.need(r, "thickness", thickness());
    let material = table.or(r, "material", Row(|tables| &tables.materials), steel, STEEL);
    table.close(r);
    Some(SpreaderPlate { length: length?, width: width?, thickness: thick?, material })
}

fn anchor(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Anchor> {
    const COUNT: &str = "two keep a fitting from turning: common practice, no source";
    const KEYS: [&str; 3] = ["capacity", "screw", "bolt"];
    let written: Vec<&'static str> = KEYS.into_iter().filter(|key| table.has(key)).collect();
    if let [first, second, ..] = written.as_slice() {
        let (a, b) = (table.key_span(first), table.key_span(second));
        r.raise(codes::one_or_the_other::both((first, a), (second, b)));
    }
    let capacity = table.may(r, "capacity", measure(Force::n(1.0), Force::kn(100.0)).positive());
    let screw = table.table(r, "screw").map(|screw| self::screw(r, screw));
    let why = if written.contains(&"screw") { COUNT } else { "not used: no wood screws" };
    let screws = table.or(r, "screws", whole(1, 20), 2, why);
    let bolt = table.table(r, "bolt").map(|bolt| self::bolt(r, bolt));
    if written.is_empty() {
        let means = "a strap is no stronger than what fixes it to the floor";
        let home = "the anchor";
        r.raise(codes::one_or_the_other::neither(home, "screw", "bolt", table.span(), means));
    }
    table.close(r);
    match (capacity, made(screw)?, made(bolt)?) {
        (Some(capacity), None, None) => Some(Anchor::Fitting(capacity)),
        (None, Some(screw), None) => Some(Anchor::Screws(screw, screws)),
        (None, None, Some(bolt)) => Some(Anchor::Bolts(bolt)),
        _ => None,
    }
}
