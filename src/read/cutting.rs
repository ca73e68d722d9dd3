//! `[cutting]`, `[[stock]]` and `[[leftover]]`.

use super::cursor::Cursor;
use super::reader::Reader;
use super::take::{Price, Row, name, room, size, stated_size, whole};
use crate::build::{Cutting, Leftover, Stock};
use crate::source::Stated;
use crate::tables::Kerf;
use crate::units::Length;

const USUAL_SAW: &str = "hacksaw";
const SAW_GROUND: &str = "a hacksaw where no saw is stated";
const KERF_GROUND: &str = "by the table of saws";

/// Without `[cutting]`, the defaults of all its keys.
pub(super) fn cutting(r: &mut Reader<'_>, table: Option<Cursor<'_>>) -> Option<Cutting> {
    const TRIM: Length = Length::mm(5.0);
    const TRIM_GROUND: &str = "a square end on each new bar: common practice, no source";
    const LEAST: Length = Length::mm(200.0);
    const LEAST_GROUND: &str = "shorter ends are rarely used again: common practice, no source";
    let usual: Option<Kerf> = r.tables.kerf(USUAL_SAW).ok().cloned();
    let Some(mut table) = table else {
        let saw = Stated::default_of(usual?, SAW_GROUND);
        let kerf = Stated::default_of(saw.value.width, KERF_GROUND);
        return Some(Cutting {
            saw,
            kerf,
            trim: Stated::default_of(TRIM, TRIM_GROUND),
            least_leftover: Stated::default_of(LEAST, LEAST_GROUND),
        });
    };
    let span = table.span();
    let saw = table.may(r, "saw", Row(|tables| &tables.kerfs));
    let saw = saw.or_else(|| Some(Stated::default_of(usual?, SAW_GROUND).near(span)));
    let kerf = table.may(r, "kerf", stated_size(Length::mm(0.1), Length::mm(20.0)));
    let trim = table.or(r, "trim", room(), TRIM, TRIM_GROUND);
    let least_leftover = table.or(r, "least-leftover", room(), LEAST, LEAST_GROUND);
    table.close(r);
    let saw = saw?;
    let kerf =
        kerf.unwrap_or_else(|| Stated::default_of(saw.value.width, KERF_GROUND).near(saw.span));
    Some(Cutting { saw, kerf, trim, least_leftover })
}

pub(super) fn stock(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Stock> {
    let span = table.span();
    let section = table.need(r, "section", Row(|tables| &tables.sections));
    let length = table.need(r, "length", size());
    let price = table.may(r, "price", Price);
    table.close(r);
    Some(Stock { section: section?, length: length?, price, span })
}

pub(super) fn leftover(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Leftover> {
    let span = table.span();
    let section = table.need(r, "section", Row(|tables| &tables.sections));
    let length = table.need(r, "length", size());
    let count = table.or(r, "count", whole(1, 1000), 1, "one where no count is stated");
    let label = table.or(r, "label", name(), "leftover".into(), "no label stated");
    table.close(r);
    Some(Leftover { section: section?, length: length?, count, label, span })
}
