//! `[battery]`.

use super::codes;
use super::cursor::Cursor;
use super::reader::Reader;
use super::take::{
    Choice, Measure, Row, mark, measure, piece_size, place, room, sentence, stated_place,
    stated_size, whole,
};
use crate::build::{Battery, Centre, ColdCharging, RowWay};
use crate::units::{Charge, Current, Length, Mass, Resistance, Temperature, Torque, Voltage};

pub(super) fn battery(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Battery> {
    const HOT: &str = "a closed vehicle in summer: common practice, no source";
    const ALONE: &str = "one where no count is stated";
    const BESIDE: &str = "all side by side where nothing is stated";
    const ROW: &str = "a row from left to right where nothing is stated";
    const GAP: &str = "air between batteries: common practice, no source";
    const STUD: &str = "most batteries of this kind: common practice, no source";
    let span = table.span();
    let letter = table.or(r, "mark", mark(), "B".into(), "B for battery where no mark is stated");
    r.marked(Some(&letter));
    let chemistry = table.need(r, "chemistry", Row(|tables| &tables.chemistries));
    let capacity =
        table.need(r, "capacity", measure(Charge::ah(0.1), Charge::ah(10_000.0)).positive());
    let voltage = table.need(r, "voltage", measure(Voltage::v(1.0), Voltage::v(1000.0)).positive());
    let mass = table.need(r, "mass", measure(Mass::g(10.0), Mass::kg(2000.0)).positive());
    let length = table.need(r, "length", piece_size());
    let width = table.need(r, "width", piece_size());
    let height = table.need(r, "height", piece_size());
    let place = table.need(r, "place", sentence());
    let fault = measure(Current::a(1.0), Current::ka(200.0)).positive();
    let short_circuit = table.may(r, "short-circuit", fault);
    let stud = table.or(r, "stud", STUDS, "M8", STUD);
    let torque = table.may(r, "torque", terminal_torque());
    let inner = measure(Resistance::microohm(10.0), Resistance::ohm(10.0)).positive();
    let internal_resistance = table.may(r, "internal-resistance", inner);
    if let (Some(current), Some(resistance)) = (&short_circuit, &internal_resistance) {
        let (first, second) = ("short-circuit", "internal-resistance");
        r.raise(codes::one_or_the_other::both((first, current.span), (second, resistance.span)));
    }
    let air = measure(Temperature::celsius(-40.0), Temperature::celsius(100.0));
    let hottest = table.or(r, "hottest", air, Temperature::celsius(40.0), HOT);
    let cold_charging = table.may(r, "cold-charging", COLD);
    let count = table.or(r, "count", whole(1, 40), 1, ALONE);
    let in_series = table.or(r, "in-series", whole(1, 40), 1, only(*count > 1, BESIDE));
    let row = table.or(r, "row", ROWS, RowWay::Across, only(*count > 1, ROW));
    let row_gap = table.or(r, "row-gap", room(), Length::mm(10.0), only(*count > 1, GAP));
    let centre = table.table(r, "centre").map(|centre| self::centre(r, centre));
    table.close(r);
    let centre = match centre {
        Some(centre) => Some(centre?),
        None => None,
    };
    Some(Battery {
        mark: letter,
        chemistry: chemistry?,
        capacity: capacity?,
        voltage: voltage?,
        mass: mass?,
        length: length?,
        width: width?,
        height: height?,
        place: place?,
        short_circuit,
        stud,
        torque,
        internal_resistance,
        hottest,
        cold_charging,
        count,
        in_series,
        row,
        row_gap,
        centre,
        span,
    })
}

/// The ground of a default, or that it is not used.
const fn only(used: bool, ground: &'static str) -> &'static str {
    if used { ground } else { "not used: one battery" }
}

const ROWS: Choice<RowWay> = Choice(&[("across", RowWay::Across), ("along", RowWay::Along)]);

/// Middle of a thing inside the vehicle.
pub(super) fn centre(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Centre> {
    let x = table.need(r, "x", place());
    let y = table.need(r, "y", stated_place(Length::m(-1.5), Length::m(1.5)));
    let over_ground = table.need(r, "over-ground", stated_size(Length::mm(50.0), Length::m(4.0)));
    table.close(r);
    Some(Centre { x: x?, y: y?, over_ground: over_ground? })
}

const STUDS: Choice<&str> =
    Choice(&[("M5", "M5"), ("M6", "M6"), ("M8", "M8"), ("M10", "M10"), ("M12", "M12")]);

/// Torque of an electric terminal.
pub(super) fn terminal_torque() -> Measure<Torque> {
    measure(Torque::nm(0.1), Torque::nm(100.0)).positive()
}

const COLD: Choice<ColdCharging> =
    Choice(&[("stopped", ColdCharging::Stopped), ("heated", ColdCharging::Heated)]);
