//! `[[panel]]`.

use super::cursor::Cursor;
use super::reader::Reader;
use super::take::{
    OfFrame, mark, measure, panel_size, room, stated_size, strip_width, thickness, whole,
};
use crate::build::{Flange, Panel};
use crate::source::Stated;
use crate::units::{Current, Length, Mass, PerKelvin, Power, Voltage};

/// `framed`: screws go into the panels' flanges, so these must be known.
pub(super) fn panel(r: &mut Reader<'_>, mut table: Cursor<'_>, framed: bool) -> Option<Panel> {
    const DRIFT: &str =
        "common practice for crystalline silicon, no source; the label may give less";
    const LEAD: &str = "common practice, no source: measure yours";
    const UNUSED: &str = "not used: no frame is screwed to the panel";
    let span = table.span();
    let letter = table.or(r, "mark", mark(), "P".into(), "P for panel where no mark is stated");
    r.marked(Some(&letter));
    let count = table.or(r, "count", whole(1, 200), 1, "one where no count is stated");
    let on = table.may(r, "frame", OfFrame);
    let length = table.need(r, "length", panel_size());
    let width = table.need(r, "width", panel_size());
    let thick = table.need(r, "thickness", stated_size(Length::mm(0.5), Length::mm(200.0)));
    let mass = table.need(r, "mass", measure(Mass::g(10.0), Mass::kg(200.0)).positive());
    let flange = if framed {
        table.need_table(r, "flange").and_then(|flange| self::flange(r, flange))
    } else {
        match table.table(r, "flange") {
            Some(flange) => self::flange(r, flange),
            None => Some(Flange {
                width: Stated::default_of(Length::ZERO, UNUSED).near(span),
                thickness: Stated::default_of(Length::ZERO, UNUSED).near(span),
            }),
        }
    };
    let recess = if framed {
        table.need(r, "recess", room())
    } else {
        Some(table.or(r, "recess", room(), Length::ZERO, UNUSED))
    };
    let power = table.may(r, "power", measure(Power::w(0.1), Power::w(2000.0)).positive());
    let volts = measure(Voltage::v(0.1), Voltage::v(1500.0)).positive();
    let amps = measure(Current::a(0.01), Current::a(100.0)).positive();
    let voc = table.may(r, "voc", volts);
    let isc = table.may(r, "isc", amps);
    let vmp = table.may(r, "vmp", volts);
    let imp = table.may(r, "imp", amps);
    let max_fuse = table.may(r, "max-fuse", amps);
    let drift = measure(PerKelvin::percent_per_k(-1.0), PerKelvin::ZERO);
    let voc_drift = table.or(r, "voc-drift", drift, PerKelvin::percent_per_k(-0.35), DRIFT);
    let lead = table.or(r, "lead", room(), Length::mm(900.0), LEAD);
    table.close(r);
    Some(Panel {
        mark: letter,
        count,
        frame: on.map(|on| on.value),
        length: length?,
        width: width?,
        thickness: thick?,
        mass: mass?,
        flange: flange?,
        recess: recess?,
        power,
        voc,
        isc,
        vmp,
        imp,
        max_fuse,
        voc_drift,
        lead,
        span,
    })
}

fn flange(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Flange> {
    let width = table.need(r, "width", strip_width());
    let thick = table.need(r, "thickness", thickness());
    table.close(r);
    Some(Flange { width: width?, thickness: thick? })
}
