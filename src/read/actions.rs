//! `[loads]`.

use super::cursor::Cursor;
use super::reader::Reader;
use super::take::{Choice, measure, plain_number, sentence};
use crate::build::{Actions, CrashClass, StormPressure, Uplift};
use crate::source::Stated;
use crate::units::{Pressure, Speed};

const CLASSES: Choice<CrashClass> = Choice(&[
    ("m1-n1", CrashClass::M1N1),
    ("m2-n2", CrashClass::M2N2),
    ("m3-n3", CrashClass::M3N3),
]);

pub(super) fn actions(r: &mut Reader<'_>, table: Option<Cursor<'_>>) -> Actions {
    let usual = Actions::usual();
    let Some(mut table) = table else { return usual };
    let wind = measure(Speed::ZERO, Speed::m_per_s(60.0));
    let or = |r: &mut Reader<'_>, table: &mut Cursor<'_>, key, usual: Stated<Speed>| {
        table.usual(r, key, usual.ground().unwrap_or(""), || usual.value.to_string());
        table.may(r, key, wind).unwrap_or_else(|| usual.near(table.span()))
    };
    let head_wind = or(r, &mut table, "head-wind", usual.head_wind);
    let cross_wind = or(r, &mut table, "cross-wind", usual.cross_wind);
    let storm_wind = or(r, &mut table, "storm-wind", usual.storm_wind);
    let uplift = table.table(r, "uplift").map(|table| uplift(r, table));
    let storm_pressure = table.table(r, "storm-pressure").map(|table| storm_pressure(r, table));
    let snow = table.may(r, "snow", measure(Pressure::ZERO, Pressure::kpa(20.0)).positive());
    let crash = table.may(r, "crash-class", CLASSES);
    let span = table.span();
    table.close(r);
    Actions {
        head_wind,
        cross_wind,
        storm_wind,
        uplift: uplift.unwrap_or(None),
        storm_pressure: storm_pressure.unwrap_or(None),
        snow,
        crash,
        span,
    }
}

fn uplift(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Uplift> {
    let coefficient = table.need(r, "coefficient", plain_number(0.05, 5.0));
    let source = table.need(r, "source", sentence());
    table.close(r);
    Some(Uplift { coefficient: coefficient?, source: source? })
}

fn storm_pressure(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<StormPressure> {
    let pressure = table.need(r, "pressure", measure(Pressure::pa(50.0), Pressure::kpa(10.0)));
    let source = table.need(r, "source", sentence());
    table.close(r);
    Some(StormPressure { pressure: pressure?, source: source? })
}
