//! `[battery]`.

use super::codes;
use super::cursor::Cursor;
use super::reader::Reader;
use super::take::{
    Choice, Measure, Row, mark, measure, piece_size, sentence, stated_place, stated_size,
};
use crate::build::{Battery, Centre, ColdCharging};
use crate::units::{Charge, Current, Length, Mass, Resistance, Temperature, Torque, Voltage};

pub(super) fn battery(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Battery> {
    const HOT: &str = "a closed vehicle in summer: common practice, no source";
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
    let centre = table.table(r, "centre").and_then(|centre| read_centre(r, centre));
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
    table.close(r);
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
        centre,
        short_circuit,
        stud,
        torque,
        internal_resistance,
        hottest,
        cold_charging,
        span,
    })
}

fn read_centre(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Centre> {
    let half = stated_place(Length::m(-1.5), Length::m(1.5));
    let right = table.need(r, "right", half);
    let over_ground = table.need(r, "over-ground", stated_size(Length::mm(50.0), Length::m(4.0)));
    table.close(r);
    Some(Centre { right: right?, over_ground: over_ground? })
}

const STUDS: Choice<&str> =
    Choice(&[("M5", "M5"), ("M6", "M6"), ("M8", "M8"), ("M10", "M10"), ("M12", "M12")]);

/// Torque of an electric terminal.
pub(super) fn terminal_torque() -> Measure<Torque> {
    measure(Torque::nm(0.1), Torque::nm(100.0)).positive()
}

const COLD: Choice<ColdCharging> =
    Choice(&[("stopped", ColdCharging::Stopped), ("heated", ColdCharging::Heated)]);
