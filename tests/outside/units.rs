//! Unit conversions against NIST Special Publication 811 (2008 edition), appendix B.8, and the
//! same from `scipy.constants` as a second witness.

use super::reference::{near, number, rows};
use rungsheet::units::{
    Acceleration, Angle, Area, Density, Duration, Energy, Force, Length, LinearMass, Mass, Moment,
    Pressure, Quantity, SecondMoment, Speed, Temperature, Unit, Volume, parse,
};

/// One of a unit, as it is written in a build file, in SI units.
fn one<Q: Quantity>(unit: &str, si: fn(Q) -> f64) -> f64 {
    parse::<Q>(&format!("1 {unit}"), None).map_or_else(|fault| panic!("1 {unit}: {fault}"), si)
}

/// The same, read as the kind of quantity with this name.
fn in_si(kind: &str, unit: &str) -> f64 {
    match kind {
        "acceleration" => one(unit, Acceleration::to_m_per_s2),
        "angle" => one(unit, Angle::to_rad),
        "area" => one(unit, Area::to_m2),
        "density" => one(unit, Density::to_kg_per_m3),
        "energy" => one(unit, Energy::to_j),
        "force" => one(unit, Force::to_n),
        "length" => one(unit, Length::to_m),
        "linear mass" => one(unit, LinearMass::to_kg_per_m),
        "mass" => one(unit, Mass::to_kg),
        "moment" => one(unit, Moment::to_nm),
        "pressure" => one(unit, Pressure::to_pa),
        "second moment" => one(unit, |i: SecondMoment| i.to_mm4() * 1e-12),
        "speed" => one(unit, Speed::to_m_per_s),
        "time" => one(unit, Duration::to_seconds),
        "volume" => one(unit, Volume::to_m3),
        other => panic!("no kind {other}"),
    }
}

/// Kind, unit and factor, as the appendix prints them: bold (exact) factors in the first table,
/// factors rounded to seven figures in the second. Written down from memory and compared with
/// secondary copies of the appendix.
const EXACT: [(&str, &str, f64); 18] = [
    ("acceleration", "g", 9.806_65),
    ("area", "in²", 6.4516e-4),
    ("area", "ft²", 9.290_304e-2),
    ("energy", "kWh", 3.6e6),
    ("energy", "Wh", 3.6e3),
    ("force", "kgf", 9.806_65),
    ("length", "in", 2.54e-2),
    ("length", "ft", 3.048e-1),
    ("length", "yd", 9.144e-1),
    ("length", "mi", 1.609_344e3),
    ("mass", "lb", 4.535_923_7e-1),
    ("mass", "t", 1e3),
    ("pressure", "bar", 1e5),
    ("pressure", "mbar", 1e2),
    ("speed", "mph", 4.4704e-1),
    ("time", "min", 60.0),
    ("time", "h", 3.6e3),
    ("time", "d", 8.64e4),
];

const ROUNDED: [(&str, &str, f64); 12] = [
    ("angle", "°", 1.745_329e-2),
    ("density", "lb/ft³", 1.601_846e1),
    ("force", "lbf", 4.448_222),
    ("linear mass", "lb/ft", 1.488_164),
    ("mass", "oz", 2.834_952e-2),
    ("moment", "lbf·ft", 1.355_818),
    ("moment", "lbf·in", 1.129_848e-1),
    ("pressure", "psi", 6.894_757e3),
    ("pressure", "lbf/ft²", 4.788_026e1),
    ("second moment", "in⁴", 4.162_314e-7),
    ("speed", "kn", 5.144_444e-1),
    ("volume", "in³", 1.638_706e-5),
];

#[test]
fn exact_factors_of_sp_811() {
    for (kind, unit, factor) in EXACT {
        let ours = in_si(kind, unit);
        assert!(near(ours, factor, 4e-16, 0.0), "1 {unit} is {ours} instead of {factor}");
    }
}

#[test]
fn rounded_factors_of_sp_811() {
    for (kind, unit, factor) in ROUNDED {
        let ours = in_si(kind, unit);
        // Half a step of the seventh figure.
        let step = 10_f64.powf(factor.log10().floor() - 6.0);
        assert!((ours - factor).abs() <= 0.501 * step, "1 {unit} is {ours} instead of {factor}");
    }
}

/// Factors that scipy.constants gives, stored in units.csv (generate.py tells the versions).
#[test]
fn factors_of_a_reference_library() {
    let kinds = [
        ("length", "in ft yd mi"),
        ("mass", "lb oz"),
        ("force", "lbf kgf"),
        ("pressure", "psi bar"),
        ("speed", "km/h mph kn"),
        ("time", "min h d"),
        ("acceleration", "g"),
        ("angle", "°"),
        ("volume", "l"),
        ("area", "in² ft²"),
    ];
    for row in rows(include_str!("reference/units.csv")) {
        let (kind, _) = kinds
            .iter()
            .find(|(_, units)| units.split(' ').any(|unit| unit == row[0]))
            .unwrap_or_else(|| panic!("{} has a kind", row[0]));
        let (ours, theirs) = (in_si(kind, row[0]), number(row[1]));
        assert!(near(ours, theirs, 1e-15, 0.0), "1 {} is {ours} instead of {theirs}", row[0]);
    }
}

/// SP 811, B.8: t/°C = (t/°F − 32)/1.8, T/K = t/°C + 273.15; values by `scipy.constants`.
#[test]
fn temperatures_on_three_scales() {
    for row in rows(include_str!("reference/temperatures.csv")) {
        let [celsius, kelvin, fahrenheit] = [row[0], row[1], row[2]].map(number);
        for t in [
            Temperature::celsius(celsius),
            Temperature::k(kelvin),
            Temperature::fahrenheit(fahrenheit),
            parse(&format!("{fahrenheit} °F"), None).expect("a temperature"),
            parse(&format!("{kelvin} K"), None).expect("a temperature"),
        ] {
            assert!(near(t.to_celsius(), celsius, 0.0, 1e-9), "{t:?} instead of {celsius} °C");
            assert!(near(t.to_k(), kelvin, 0.0, 1e-9), "{t:?} instead of {kelvin} K");
            assert!(near(t.to_fahrenheit(), fahrenheit, 0.0, 1e-9), "{t:?} is not {fahrenheit} °F");
            assert!(near(Unit::FAHRENHEIT.number_of(t), fahrenheit, 0.0, 1e-9));
        }
    }
}

/// EN 1991-1-4:2005, 4.5 with its recommended density of 1.25 kg/m³: q = 0.613 v² in the older
/// British practice (1.226 kg/m³, BS 6399-2), 0.625 v² here.
#[test]
fn air_at_speed_presses() {
    let q = |density, kmh| Pressure::dynamic(Density::kg_per_m3(density), Speed::kmh(kmh)).to_pa();
    assert!(near(q(1.25, 108.0), 0.625 * 900.0, 1e-12, 0.0));
    assert!(near(q(1.226, 144.0), 0.613 * 1600.0, 1e-12, 0.0));
}
