//! `[roof]` and `[[roof.keep-out]]`.

use super::codes;
use super::cursor::{Cursor, elements_of, stated};
use super::field::Field;
use super::reader::{Group, Reader};
use super::record::photos;
use super::shape::{Asked, Shape};
use super::take::{
    Choice, Take, body_size, measure, name, place, room, sentence, stated_size, whole,
};
use crate::build::{Crown, Gap, KeepOut, KeepOutKind, Lid, Roof, RoofShape, Station};
use crate::source::{Span, Stated};
use crate::tables::Tables;
use crate::units::{Angle, Length};

const MOST_STATIONS: usize = 100;
const MOST_READINGS: usize = 200;
const MOST_KEEP_OUTS: usize = 200;
/// Readings nearer to each other than this are one place under a tape.
const SAME_PLACE: Length = Length::mm(1.0);

pub(super) fn roof(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Roof> {
    let span = table.span();
    let datum = table.need(r, "datum", sentence());
    let length = table.need(r, "length", body_size());
    let width = table.need(r, "width", body_size());
    let shape = shape(r, &mut table);
    let keep_outs: Vec<Option<KeepOut>> = table
        .tables(r, "keep-out", MOST_KEEP_OUTS)
        .into_iter()
        .map(|item| keep_out(r, item))
        .collect();
    let photos = photos(r, &mut table);
    table.close(r);
    if let (Some(width), Some(RoofShape::Crown(Crown { chord, .. }))) = (&width, &shape)
        && chord.value > width.value
    {
        let most = width.value.to_string();
        let wider = codes::out_of_range::of_other(
            "chord",
            chord,
            "200 mm",
            &most,
            ("width of the roof", width.span),
        );
        r.raise(wider);
    }
    let keep_outs = keep_outs.into_iter().collect::<Option<Vec<_>>>();
    Some(Roof {
        datum: datum?,
        length: length?,
        width: width?,
        shape: shape?,
        keep_outs: keep_outs?,
        photos: photos?,
        span,
    })
}

fn shape(r: &mut Reader<'_>, table: &mut Cursor<'_>) -> Option<RoofShape> {
    if table.has("sections") && table.has("crown") {
        let (first, second) = (table.key_span("sections"), table.key_span("crown"));
        r.raise(codes::one_or_the_other::both(("sections", first), ("crown", second)));
    }
    let along_span = if table.has("along") { table.key_span("along") } else { Span::NONE };
    table.noted(r, "along", Asked::Optional, |tables| pairs(tables, 2));
    let along_field = table.field("along");
    let along = along_field.map(|field| readings(r, &field, "the straightedge lengthwise", 2));
    let crown = table.table(r, "crown").map(|crown| arc(r, crown));
    let sections = table.has("sections");
    let stations = table.tables(r, "sections", MOST_STATIONS);
    if sections {
        let read: Vec<Option<Station>> =
            stations.into_iter().map(|item| station(r, item)).collect();
        let mut stations = read.into_iter().collect::<Option<Vec<_>>>()?;
        if stations.is_empty() {
            r.raise(codes::too_few_readings::raise("`sections`", 0, 1, table.key_span("sections")));
            return None;
        }
        stations.sort_by(|a, b| a.x.value.total_cmp(&b.x.value));
        for pair in stations.windows(2) {
            if pair[1].x.value - pair[0].x.value < SAME_PLACE {
                let (first, second) = (pair[0].x.span, pair[1].x.span);
                let at = pair[1].x.value.to_string();
                r.raise(codes::reading_twice::raise(
                    "straightedges lie",
                    &at,
                    second.max(first),
                    first.min(second),
                ));
            }
        }
        let along = along.unwrap_or_else(|| Some(Vec::new()))?;
        return Some(RoofShape::Gaps { stations, along, along_span });
    }
    if !along_span.is_none() && crown.is_none() {
        table.lacks("sections", Some((along_span, "needed by `along`".into())));
        return None;
    }
    match crown {
        Some(crown) => {
            let along = along.unwrap_or_else(|| Some(Vec::new()))?;
            Some(RoofShape::Crown(Crown { along, along_span, ..crown? }))
        }
        None => Some(RoofShape::Flat),
    }
}

fn arc(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Crown> {
    let chord = table.need(r, "chord", body_size());
    let rise = table.need(r, "rise", stated_size(Length::mm(0.01), Length::m(3.0)));
    table.close(r);
    let (chord, rise) = (chord?, rise?);
    if rise.value > chord.value / 2.0 {
        let most = (chord.value / 2.0).to_string();
        r.raise(codes::out_of_range::of_other(
            "rise",
            &rise,
            "0 mm",
            &most,
            ("half the chord", chord.span),
        ));
        return None;
    }
    Some(Crown::even(chord, rise))
}

fn station(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Station> {
    let span = table.span();
    let x = table.need(r, "x", place());
    table.noted(r, "gaps", Asked::Needed, |tables| pairs(tables, 3));
    let gaps = if let Some(field) = table.field("gaps") {
        readings(r, &field, "the straightedge across", 3)
    } else {
        table.lacks("gaps", None);
        None
    };
    table.close(r);
    Some(Station { x: x?, gaps: gaps?, span })
}

/// What a straightedge's readings are.
fn pairs(tables: &Tables, least: usize) -> Shape {
    let pair = Shape::Each(vec![place().shape(tables), room().shape(tables)]);
    Shape::List { of: Box::new(pair), least, most: MOST_READINGS }
}

/// Pairs of place and gap, sorted by place.
fn readings(r: &mut Reader<'_>, field: &Field<'_>, what: &str, least: usize) -> Option<Vec<Gap>> {
    let pairs = elements_of(r, field, MOST_READINGS);
    let read: Vec<Option<Gap>> = pairs.iter().map(|pair| reading(r, pair)).collect();
    let count = read.len();
    let mut gaps = read.into_iter().collect::<Option<Vec<_>>>()?;
    if count < least {
        r.raise(codes::too_few_readings::raise(what, count, least, field.span));
        return None;
    }
    gaps.sort_by(|a, b| a.at.total_cmp(&b.at));
    for pair in gaps.windows(2) {
        if pair[1].at - pair[0].at < SAME_PLACE {
            let (first, second) = (pair[0].span, pair[1].span);
            let at = pair[1].at.to_string();
            r.raise(codes::reading_twice::raise(
                "readings",
                &at,
                second.max(first),
                first.min(second),
            ));
        }
    }
    Some(gaps)
}

fn reading(r: &mut Reader<'_>, pair: &Field<'_>) -> Option<Gap> {
    let parts = if pair.value.as_array().is_some_and(|list| list.len() == 2) {
        elements_of(r, pair, 2)
    } else {
        Vec::new()
    };
    let [at, gap] = parts.as_slice() else {
        r.raise(codes::wrong_shape::raise(pair, "a pair of place and gap, as in [-700, 68]"));
        return None;
    };
    let at: Option<Stated<Length>> = stated(r, at, &place());
    let gap: Option<Stated<Length>> = stated(r, gap, &room());
    Some(Gap { at: at?.value, gap: gap?.value, span: pair.span })
}

const KINDS: Choice<KeepOutKind> = Choice(&[
    ("thing", KeepOutKind::Thing),
    ("fan", KeepOutKind::Fan),
    ("antenna", KeepOutKind::Antenna),
    ("hatch", KeepOutKind::Hatch),
    ("walkway", KeepOutKind::Walkway),
    ("rib", KeepOutKind::Rib),
]);

fn keep_out(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<KeepOut> {
    let span = table.span();
    let what = table.need(r, "name", name());
    r.named(Group::KeepOuts, what.as_ref());
    let x = table.need(r, "x", place());
    let y = table.need(r, "y", place());
    let length = table.need(r, "length", stated_size(Length::mm(5.0), Length::m(30.0)));
    let width = table.need(r, "width", stated_size(Length::mm(5.0), Length::m(30.0)));
    let kind = table.or(
        r,
        "kind",
        KINDS,
        KeepOutKind::Thing,
        "not used: a thing of no kind that a frame could pass over",
    );
    let height = if *kind == KeepOutKind::Walkway {
        Some(table.or(r, "height", room(), Length::ZERO, "not used: somebody steps on the skin"))
    } else {
        table.need(r, "height", room())
    };
    let lid = table.table(r, "lid").map(|mut lid| {
        let hinged = lid.need(r, "hinged", super::mount::EDGES);
        let opens = lid.need(r, "opens", measure(Angle::deg(0.0), Angle::deg(180.0)));
        lid.close(r);
        Some(Lid { hinged: hinged?, opens: opens? })
    });
    let count = table.or(r, "count", whole(1, 100), 1, "one where no count is stated");
    let every = if *count > 1 {
        table.need(r, "every", stated_size(Length::mm(5.0), Length::m(5.0)))
    } else {
        let one = stated_size(Length::mm(5.0), Length::m(5.0));
        Some(table.or(r, "every", one, Length::ZERO, "not used: there is one"))
    };
    table.close(r);
    let lid = match lid {
        Some(lid) => Some(lid?),
        None => None,
    };
    Some(KeepOut {
        kind,
        lid,
        count,
        every: every?,
        name: what?,
        x: x?,
        y: y?,
        length: length?,
        width: width?,
        height: height?,
        span,
    })
}
