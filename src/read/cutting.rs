//! `[cutting]`, `[[stock]]` and `[[leftover]]`.

use super::circuit::INSULATIONS;
use super::codes;
use super::cursor::Cursor;
use super::reader::Reader;
use super::take::{Choice, Price, Row, name, room, size, stated_size, thickness, whole};
use crate::build::{Cutting, Goods, Insulation, Leftover, SheetLeftover, SheetStock, Stock};
use crate::source::Stated;
use crate::tables::{Kerf, Material};
use crate::units::Length;
use crate::units::display::InchStep;

const USUAL_SAW: &str = "hacksaw";
const SAW_GROUND: &str = "a hacksaw where no saw is stated";
const KERF_GROUND: &str = "by the table of saws";
const TRIM: Length = Length::mm(5.0);
const TRIM_GROUND: &str = "a square end on each new bar: common practice, no source";
const LEAST: Length = Length::mm(200.0);
const LEAST_GROUND: &str = "shorter ends are rarely used again: common practice, no source";
const SHEET_KERF_GROUND: &str = "the same saw as for bars";
const SHEET_TRIM_GROUND: &str = "edges of a bought sheet are used as they are";
const COLOURS: Choice<&str> = Choice(&[("red", "red"), ("black", "black")]);
const USUAL_INSULATION: &str = "the least that is sold where nothing is stated";
const FRACTION_GROUND: &str = "as a steel rule is divided";
const FRACTIONS: Choice<InchStep> = Choice(&[
    ("1/16", InchStep::Sixteenth),
    ("1/32", InchStep::ThirtySecond),
    ("1/64", InchStep::SixtyFourth),
]);

/// Without `[cutting]`, the defaults of all its keys.
pub(super) fn cutting(r: &mut Reader<'_>, table: Option<Cursor<'_>>) -> Option<Cutting> {
    let usual: Option<Kerf> = r.tables.kerf(USUAL_SAW).ok().cloned();
    let Some(mut table) = table else {
        let saw = Stated::default_of(usual?, SAW_GROUND);
        let kerf = Stated::default_of(saw.value.width, KERF_GROUND);
        let sheet_kerf = Stated::default_of(kerf.value, SHEET_KERF_GROUND);
        return Some(Cutting {
            saw,
            kerf,
            trim: Stated::default_of(TRIM, TRIM_GROUND),
            least_leftover: Stated::default_of(LEAST, LEAST_GROUND),
            sheet_kerf,
            sheet_trim: Stated::default_of(Length::ZERO, SHEET_TRIM_GROUND),
            fraction: Stated::default_of(InchStep::ThirtySecond, FRACTION_GROUND),
        });
    };
    let span = table.span();
    let width = || stated_size(Length::mm(0.1), Length::mm(20.0));
    table.usual(r, "saw", SAW_GROUND, || USUAL_SAW.to_owned());
    table.usual(r, "kerf", KERF_GROUND, || "the saw's".to_owned());
    table.usual(r, "sheet-kerf", SHEET_KERF_GROUND, || "the kerf".to_owned());
    let saw = table.may(r, "saw", Row(|tables| &tables.kerfs));
    let saw = saw.or_else(|| Some(Stated::default_of(usual?, SAW_GROUND).near(span)));
    let kerf = table.may(r, "kerf", width());
    let trim = table.or(r, "trim", room(), TRIM, TRIM_GROUND);
    let least_leftover = table.or(r, "least-leftover", room(), LEAST, LEAST_GROUND);
    // A knife takes nothing away.
    let sheet_kerf = table.may(r, "sheet-kerf", room());
    let sheet_trim = table.or(r, "sheet-trim", room(), Length::ZERO, SHEET_TRIM_GROUND);
    let fraction = table.or(r, "fraction", FRACTIONS, InchStep::ThirtySecond, FRACTION_GROUND);
    table.close(r);
    let saw = saw?;
    let kerf =
        kerf.unwrap_or_else(|| Stated::default_of(saw.value.width, KERF_GROUND).near(saw.span));
    let sheet_kerf = sheet_kerf
        .unwrap_or_else(|| Stated::default_of(kerf.value, SHEET_KERF_GROUND).near(kerf.span));
    Some(Cutting { saw, kerf, trim, least_leftover, sheet_kerf, sheet_trim, fraction })
}

/// What a table of parts or stock is about: the key that says so.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum About {
    /// `section`: bars.
    Section,
    /// `material`: sheets.
    Material,
    /// `stuff`: cable, tape and the like.
    Stuff,
    /// `cable`: a core for the runs of the build.
    Cable,
}

/// Which of the keys is there; told where there are two of them.
pub(super) fn about(r: &mut Reader<'_>, table: &Cursor<'_>) -> About {
    let keys = [
        ("section", About::Section),
        ("material", About::Material),
        ("stuff", About::Stuff),
        ("cable", About::Cable),
    ];
    let stated: Vec<_> = keys.into_iter().filter(|(key, _)| table.has(key)).collect();
    for pair in stated.windows(2) {
        let place = |key: &'static str| (key, table.key_span(key));
        r.raise(codes::one_or_the_other::both(place(pair[0].0), place(pair[1].0)));
    }
    stated.first().map_or(About::Section, |(_, about)| *about)
}

fn goods(r: &mut Reader<'_>, table: &mut Cursor<'_>, about: About) -> Option<Goods> {
    match about {
        About::Stuff => table.need(r, "stuff", name()).map(Goods::Named),
        About::Cable => {
            let size = table.need(r, "cable", Row(|tables| &tables.cable_sizes));
            let insulation =
                table.or(r, "insulation", INSULATIONS, Insulation::Pvc70, USUAL_INSULATION);
            let colour = table.need(r, "colour", COLOURS);
            let (size, colour) = (size?, colour?);
            Some(Goods::Named(size.map(|size| insulation.core(size.area, colour.value))))
        }
        About::Section | About::Material => {
            table.need(r, "section", Row(|tables| &tables.sections)).map(Goods::Section)
        }
    }
}

/// One `[[stock]]`.
pub(super) enum AnyStock {
    Long(Stock),
    Sheet(SheetStock),
}

/// One `[[leftover]]`.
pub(super) enum AnyLeftover {
    Long(Leftover),
    Sheet(SheetLeftover),
}

pub(super) fn stock(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<AnyStock> {
    let span = table.span();
    let about = about(r, &table);
    if about == About::Material {
        let slab = self::slab(r, &mut table);
        let price = table.may(r, "price", Price);
        table.close(r);
        let (material, thickness, length, width) = slab?;
        return Some(AnyStock::Sheet(SheetStock {
            material,
            thickness,
            length,
            width,
            price,
            span,
        }));
    }
    let of = goods(r, &mut table, about);
    let length = table.need(r, "length", reel());
    let price = table.may(r, "price", Price);
    table.close(r);
    Some(AnyStock::Long(Stock { of: of?, length: length?, price, span }))
}

/// Material, thickness, length and width of a sheet.
type Slab = (Stated<Material>, Stated<Length>, Stated<Length>, Stated<Length>);

fn slab(r: &mut Reader<'_>, table: &mut Cursor<'_>) -> Option<Slab> {
    let material = table.need(r, "material", Row(|tables| &tables.materials));
    let thick = table.need(r, "thickness", thickness());
    let length = table.need(r, "length", size());
    let width = table.need(r, "width", size());
    Some((material?, thick?, length?, width?))
}

/// A length as sold; cable comes on reels.
fn reel() -> super::take::Measure<Length> {
    stated_size(Length::mm(0.01), Length::m(1000.0))
}

pub(super) fn leftover(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<AnyLeftover> {
    const ONE: &str = "one where no count is stated";
    const BARE: &str = "no label stated";
    let span = table.span();
    let about = about(r, &table);
    if about == About::Material {
        let slab = self::slab(r, &mut table);
        let count = table.or(r, "count", whole(1, 1000), 1, ONE);
        let label = table.or(r, "label", name(), "leftover".into(), BARE);
        table.close(r);
        let (material, thickness, length, width) = slab?;
        return Some(AnyLeftover::Sheet(SheetLeftover {
            material,
            thickness,
            length,
            width,
            count,
            label,
            span,
        }));
    }
    let of = goods(r, &mut table, about);
    let length = table.need(r, "length", reel());
    let count = table.or(r, "count", whole(1, 1000), 1, ONE);
    let label = table.or(r, "label", name(), "leftover".into(), BARE);
    table.close(r);
    Some(AnyLeftover::Long(Leftover { of: of?, length: length?, count, label, span }))
}
