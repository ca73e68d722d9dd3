//! Conductors, ampacity, fuses, batteries.

use super::{cable, near, tables};
use rungsheet::source::Seen;
use rungsheet::tables::Gauge;
use rungsheet::units::{Area, Current, Length, Temperature, Voltage};

#[test]
fn resistances_are_the_class_5_limits() {
    // IEC 60228 table 3, class 5 plain, Ω/km at 20 °C.
    for (name, ohm_per_km) in [("1.5mm2", 13.3), ("2.5mm2", 7.98), ("6mm2", 3.30), ("35mm2", 0.554)]
    {
        near(cable(name).resistance_20.to_milliohm_per_m(), ohm_per_km, 1e-9, name);
    }
    // IEC 60228 annex: kt at 70 °C 0.833 with 0.004/K; the 0.00393 here is within 1 %.
    let hot = cable("6mm2").resistance_at(Temperature::celsius(70.0));
    near(hot.to_milliohm_per_m(), 3.30 / 0.833, 0.01, "70 °C");
}

#[test]
fn american_gauge_follows_its_formula() {
    // ASTM B258: d = 0.127 · 92^((36 − n)/39) mm.
    for (name, n) in [("awg-18", 18.0), ("awg-10", 10.0), ("awg-4", 4.0), ("awg-2/0", -1.0)] {
        let d = 0.127 * 92f64.powf((36.0 - n) / 39.0);
        near(cable(name).area.to_mm2(), std::f64::consts::FRAC_PI_4 * d * d, 1e-3, name);
    }
    // NEC chapter 9 table 8, stranded uncoated at 75 °C, from memory: 10 AWG 1.24, 4 AWG 0.308 ohm/kft.
    for (name, ohm_per_kft) in [("awg-10", 1.24), ("awg-4", 0.308), ("awg-2/0", 0.0967)] {
        let hot = cable(name).resistance_at(Temperature::celsius(75.0)).to_milliohm_per_m();
        near(hot * 0.3048, ohm_per_kft, 0.015, name);
    }
}

#[test]
fn marine_wire_of_a_gauge_may_hold_less_copper() {
    // SAE minimum circular mils: 10 AWG 9 343 (10 381), 12 AWG 5 833 (6 529): 10 and 11 % less.
    let ten = cable("awg-10");
    near(ten.marine_area.expect("given") / ten.area, 9_343.0 / 10_381.0, 0.001, "10");
    let cold = Temperature::celsius(20.0);
    near(ten.marine_resistance_at(cold) / ten.resistance_at(cold), 1.111, 0.002, "resistance");
}

#[test]
fn sizes_are_matched_by_copper() {
    // Boat wire data page: 14 AWG about 2 mm², next metric 2.5; 10 AWG 6; 1/0 50 is slightly under,
    // 70 not smaller; 4/0 120.
    for (awg_name, metric) in
        [("awg-14", "2.5mm2"), ("awg-10", "6mm2"), ("awg-1/0", "70mm2"), ("awg-4/0", "120mm2")]
    {
        let size = tables().cable_sizes.not_smaller(cable(awg_name), Gauge::Metric);
        assert_eq!(size.map(|size| size.name.as_str()), Some(metric), "{awg_name}");
    }
    let (below, above) = tables().cable_sizes.equivalents(cable("awg-1/0"));
    assert_eq!(below.map(|size| size.name.as_str()), Some("50mm2"));
    assert_eq!(above.map(|size| size.name.as_str()), Some("70mm2"));
}

#[test]
fn ampacities_are_those_of_33_cfr() {
    // 33 CFR 183.425 table 5, 30 °C: 10 AWG at 60/75/80/90/105 °C 40, 40, 50, 55, 60 A; 2/0 at 105 °C 330.
    for (insulation, amps) in
        [(60.0, 40.0), (75.0, 40.0), (80.0, 50.0), (90.0, 55.0), (105.0, 60.0), (100.0, 55.0)]
    {
        let column = tables()
            .ampacities
            .column_for("33-cfr-183", Temperature::celsius(insulation))
            .expect("a column covers it");
        assert_eq!(column.amps("awg-10"), Some(Current::a(amps)), "{insulation}");
    }
    let best = tables().ampacity("33-cfr-183-105").unwrap_or_else(|unknown| panic!("{unknown}"));
    assert_eq!(best.amps("awg-2/0"), Some(Current::a(330.0)));
    assert_eq!(best.amps("awg-40"), None);
}

/// Every published ampacity table rises with the area and stands above its air (Joule heating).
#[test]
fn more_copper_never_carries_less() {
    for column in &tables().ampacities {
        let mut last = Area::ZERO;
        for (size, _) in &column.amps {
            let area = cable(size).area;
            assert!(area > last, "{} {size}", column.name);
            last = area;
        }
        assert!(column.insulation > column.ambient, "{}", column.name);
    }
}

#[test]
fn hot_air_factors_reproduce_the_printed_currents() {
    // IEC 60364-5-52 table B.52.4 method C as printed, 70 °C PVC, 6 mm²: 41 A at 30 °C, 36 at 40, 32 at
    // 45, 29 at 50, 25 at 55; 25 mm²: 96, 84, 76, 68, 59. Within the 1 A that rounding down costs.
    let table = tables().ampacity("iec-60364-c3-70").unwrap_or_else(|unknown| panic!("{unknown}"));
    let factor = tables().ambient_factor("iec-30").unwrap_or_else(|unknown| panic!("{unknown}"));
    let insulation = Temperature::celsius(70.0);
    for (size, at_30, printed) in
        [("6mm2", 41.0, [36.0, 32.0, 29.0, 25.0]), ("25mm2", 96.0, [84.0, 76.0, 68.0, 59.0])]
    {
        let base = table.amps(size).expect("listed").to_a();
        assert_eq!(base, at_30);
        for (ambient, printed) in [40.0, 45.0, 50.0, 55.0].into_iter().zip(printed) {
            let by = factor.factor(insulation, Temperature::celsius(ambient)).expect("listed");
            let amps = base * by.to_fraction();
            assert!((amps - printed).abs() <= 1.0, "{size} at {ambient}: {amps}, not {printed}");
        }
    }
}

#[test]
fn hot_air_factors_follow_the_square_root_of_the_margin() {
    // NEC table 310.15(B)(1): sqrt((Tc − Ta)/(Tc − 30)) at the upper edge of each band.
    let nec = tables().ambient_factor("nec-30").unwrap_or_else(|unknown| panic!("{unknown}"));
    for column in &nec.ratings {
        let rated = column.rating.to_celsius();
        for (up_to, factor) in &column.steps {
            let by_rule = ((rated - up_to.to_celsius()) / (rated - 30.0)).sqrt();
            near(factor.to_fraction(), by_rule, 0.012, &format!("{rated} at {up_to}"));
        }
    }
    // Printed example: 90 °C wire at 49 °C, 40 A becomes 32.8 A.
    let factor = nec.factor(Temperature::celsius(90.0), Temperature::celsius(49.0));
    near(factor.expect("listed").to_fraction() * 40.0, 32.8, 1e-9, "49 °C");
    // Beyond the table there is no factor, so no current.
    assert_eq!(nec.factor(Temperature::celsius(60.0), Temperature::celsius(61.0)), None);
}

#[test]
fn bundles_are_counted_in_what_the_standard_counts() {
    // NEC table 310.15(C)(1): 4 to 6 conductors 0.8, 7 to 9 0.7, 10 to 20 0.5. IEC 60364-5-52 table
    // B.52.17, from memory: 2 circuits 0.8, 3 circuits 0.7.
    let factor = |name: &str, circuits| {
        let row = tables().bundle_factor(name).unwrap_or_else(|unknown| panic!("{unknown}"));
        row.factor(circuits).to_fraction()
    };
    near(factor("nec", 1), 1.0, 1e-12, "one pair");
    near(factor("nec", 2), 0.8, 1e-12, "two pairs");
    near(factor("nec", 4), 0.7, 1e-12, "four pairs");
    near(factor("nec", 5), 0.5, 1e-12, "five pairs");
    near(factor("iec", 2), 0.8, 1e-12, "two circuits");
    near(factor("iec", 3), 0.7, 1e-12, "three circuits");
    near(factor("33-cfr", 2), 0.6, 1e-12, "33 CFR 183.425 note 2");
}

#[test]
fn a_blade_fuse_cannot_break_a_lithium_battery() {
    // ISO 8820-3: 1000 A; a lithium bank gives 3 to 20 kA (arithmetic from cell resistances); class T
    // breaks 20 kA.
    let fuse = |name: &str| tables().fuse(name).unwrap_or_else(|unknown| panic!("{unknown}"));
    let twelve = Voltage::v(14.6);
    let lfp = tables().chemistry("lfp").unwrap_or_else(|unknown| panic!("{unknown}"));
    assert_eq!(fuse("blade").breaking_at(twelve), Some(Current::ka(1.0)));
    assert!(fuse("blade").breaking_at(twelve) < Some(lfp.short_circuit[0]));
    assert!(fuse("class-t").breaking_at(twelve) >= Some(lfp.short_circuit[1]));
    assert_eq!(fuse("blade").breaking_at(Voltage::v(58.4)), None);
    // Common data of fuses on the terminal: 10 kA at 14 V, 5 kA at 32 V: a battery on charge is above 14 V.
    assert_eq!(fuse("terminal").breaking_at(twelve), Some(Current::ka(5.0)));
    assert_eq!(fuse("blade").rating_at_or_above(Current::a(16.0)), Some(Current::a(20.0)));
    assert_eq!(fuse("blade").rating_at_or_below(Current::a(19.0)), Some(Current::a(15.0)));
}

#[test]
fn lithium_iron_phosphate_has_its_voltages_and_limits() {
    // Battery references and pack data sheets: 3.2 V nominal, 3.65 V full, 2.5 V cut-off, charging 0 to
    // 45 °C; a 4-cell pack is 12.8 V.
    let lfp = tables().chemistry("lfp").unwrap_or_else(|unknown| panic!("{unknown}"));
    assert_eq!(
        (lfp.nominal, lfp.full, lfp.cut_off),
        (Voltage::v(3.2), Voltage::v(3.65), Voltage::v(2.5))
    );
    assert_eq!(lfp.charge[0], Temperature::celsius(0.0));
    assert_eq!(lfp.cells(Voltage::v(12.8)), lfp.cells_for_12_v);
    assert_eq!(lfp.cells(Voltage::v(51.2)), 16);
    assert!(!lfp.vents);
}

#[test]
fn glands_and_lugs_are_found_by_cable_and_stud() {
    // EN 60423 threads with typical clamp ranges, from memory; a 6 mm² solar cable is 6.1 mm
    // (EN 50618 data page).
    let solar = cable("6mm2").outer_pv.expect("given");
    near(solar.to_mm(), 6.1, 1e-12, "solar cable");
    assert_eq!(tables().glands.gland_for(solar).map(|row| row.name.as_str()), Some("gland-M12"));
    assert_eq!(tables().glands.gland_for(Length::mm(60.0)), None);
    // DIN 46235, from memory: 35 mm² takes M8; there is no 120 mm² lug for M6.
    assert!(tables().lugs.lug_for("35mm2", "M8").is_some());
    assert!(tables().lugs.lug_for("120mm2", "M6").is_none());
}

#[test]
fn rows_from_memory_say_so() {
    // ISO 10133 and EN 50618 tables were not read; 33 CFR was; of NEC 310.16 only some sizes.
    let seen = |name: &str, size: &str| {
        tables().ampacity(name).unwrap_or_else(|unknown| panic!("{unknown}")).seen_of(size)
    };
    assert_eq!(seen("iso-10133-70", "6mm2"), Seen::Memory);
    assert_eq!(seen("33-cfr-183-105", "awg-10"), Seen::Verified);
    assert_eq!(seen("nec-310-16-60", "awg-4/0"), Seen::Memory);
    assert_eq!(seen("nec-310-16-60", "awg-10"), Seen::Verified);
    let tape = tables().tape("acrylic-foam-tape").unwrap_or_else(|unknown| panic!("{unknown}"));
    assert_eq!(tape.origin.seen_of("short-term"), Seen::CommonPractice);
    assert_eq!(tape.origin.seen_of("short-term-read"), Seen::Verified);
    assert_eq!(tape.origin.seen_of("hot-factor"), Seen::Memory);
}
