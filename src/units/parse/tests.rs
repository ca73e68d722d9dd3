use super::*;
use crate::units::{
    Acceleration, Angle, Area, Charge, Duration, Force, Length, Mass, Moment, PerKelvin, Pressure,
    Ratio, Speed, Temperature, TemperatureRise, display,
};
use proptest::prelude::*;
use std::ops::Range;

fn length(text: &str) -> Result<Length, QuantityFault> {
    parse(text, None)
}

fn kind<Q: Quantity + std::fmt::Debug>(text: &str) -> QuantityFaultKind {
    parse::<Q>(text, None).expect_err(text).kind
}

#[test]
fn lengths_as_people_write_them() {
    for (text, inches) in [
        ("46 1/2 in", 46.5),
        ("46-1/2 in", 46.5),
        ("46½\"", 46.5),
        ("3/8 in", 0.375),
        ("5' 6 1/2\"", 66.5),
        ("5'6\"", 66.0),
        ("5 ft 6 in", 66.0),
        ("\u{2212}1/4 in", -0.25),
        ("46\u{A0}1/2\u{202F}in", 46.5),
        ("46 125/128 in", 46.976_562_5),
        (".5 in", 0.5),
    ] {
        let read = length(text).expect(text);
        assert!((read.to_inches() - inches).abs() < 1e-12, "{text} is read as {read:?}");
    }
    for (text, mm) in [
        ("1180 mm", 1180.0),
        ("1\u{202F}180 mm", 1180.0),
        ("1 180.5mm", 1180.5),
        ("1.2e1 cm", 120.0),
    ] {
        assert_eq!(length(text), Ok(Length::mm(mm)), "{text}");
    }
}

#[test]
fn other_kinds() {
    assert_eq!(parse("110 km/h", None), Ok(Speed::kmh(110.0)));
    assert_eq!(parse("68 mph", None), Ok(Speed::mph(68.0)));
    assert_eq!(parse("16 °C", None), Ok(Temperature::celsius(16.0)));
    assert_eq!(parse("16 °C", None), Ok(TemperatureRise::k(16.0)));
    assert_eq!(parse("-0.28 %/K", None), Ok(PerKelvin::percent_per_k(-0.28)));
    assert_eq!(parse("23e-6 1/K", None), Ok(PerKelvin::per_k(23e-6)));
    assert_eq!(parse("65 %", None), Ok(Ratio::percent(65.0)));
    assert_eq!(parse("6 mm^2", None), Ok(Area::mm2(6.0)));
    assert_eq!(parse("6 mm2", None), Ok(Area::mm2(6.0)));
    assert_eq!(parse("160 Ah", None), Ok(Charge::ah(160.0)));
    assert_eq!(parse("8 N·m", None), Ok(Moment::nm(8.0)));
    assert_eq!(parse("8 Nm", None), Ok(Moment::nm(8.0)));
    assert_eq!(parse("8 N m", None), Ok(Moment::nm(8.0)));
    assert_eq!(parse("0.85 kPa", None), Ok(Pressure::kpa(0.85)));
    assert_eq!(parse("1 h 30 min", None), Ok(Duration::minutes(90.0)));
    assert_eq!(parse("2°", None), Ok(Angle::deg(2.0)));
    assert_eq!(parse("250 g", None), Ok(Mass::g(250.0)));
    assert_eq!(parse("0.6 g", None), Ok(Acceleration::g(0.6)));
    assert_eq!(parse("40 N", None), Ok(Force::n(40.0)));
}

#[test]
fn a_bare_number_takes_the_unit_it_is_told() {
    assert_eq!(parse("12.5", Some(Unit::MM)), Ok(Length::mm(12.5)));
    assert_eq!(parse("12 1/2", Some(Unit::INCH)), Ok(Length::inches(12.5)));
    assert_eq!(kind::<Length>("12.5"), QuantityFaultKind::MissingUnit { wanted: Kind::Length });
    assert_eq!(Unit::MM.quantity(12.5), Ok(Length::mm(12.5)));
    assert!(Unit::MM.quantity::<Length>(f64::NAN).is_err());
    assert!(Unit::MM.quantity::<Length>(f64::INFINITY).is_err());
    assert!(Unit::KG.quantity::<Length>(1.0).is_err());
}

#[test]
fn a_unit_can_be_named_alone() {
    assert_eq!(Kind::Length.unit(" inches "), Some(Unit::INCH));
    assert_eq!(Kind::Length.unit("kg"), None);
}

#[test]
fn a_wrong_unit_is_told_from_an_unknown_one() {
    assert!(matches!(
        kind::<Length>("12 kg"),
        QuantityFaultKind::WrongKind { found: Kind::Mass, wanted: Kind::Length, .. }
    ));
    for (text, near) in [("12 MM", Some("mm")), ("12 inchs", Some("in")), ("12 zork", None)] {
        match kind::<Length>(text) {
            QuantityFaultKind::UnknownUnit { nearest, .. } => assert_eq!(nearest, near, "{text}"),
            other => panic!("{text}: {other:?}"),
        }
    }
    match kind::<Speed>("110 kmh") {
        QuantityFaultKind::UnknownUnit { nearest, .. } => assert_eq!(nearest, Some("km/h")),
        other => panic!("{other:?}"),
    }
}

#[test]
fn what_is_no_quantity_is_refused_with_its_place() {
    let cases: [(&str, QuantityFaultKind, Range<usize>); 9] = [
        ("12,5 mm", QuantityFaultKind::Comma, 0..4),
        ("1,180.5 mm", QuantityFaultKind::Comma, 0..7),
        ("NaN mm", QuantityFaultKind::NotFinite, 0..3),
        ("-inf mm", QuantityFaultKind::NotFinite, 1..4),
        ("1e400 mm", QuantityFaultKind::TooLarge, 0..5),
        ("1e20 mm", QuantityFaultKind::TooLarge, 0..7),
        ("3/0 in", QuantityFaultKind::Fraction, 0..3),
        ("6 in 5 ft", QuantityFaultKind::NotFiner, 7..9),
        ("about 5 mm", QuantityFaultKind::NotANumber { wanted: Kind::Length }, 0..5),
    ];
    for (text, kind, range) in cases {
        assert_eq!(length(text), Err(QuantityFault { kind, range }), "{text}");
    }
    assert_eq!(kind::<Length>("  "), QuantityFaultKind::Empty { wanted: Kind::Length });
    assert_eq!(kind::<Length>("46 3/2 in"), QuantityFaultKind::Fraction);
    assert_eq!(kind::<Temperature>("-274 °C"), QuantityFaultKind::BelowAbsoluteZero);
    assert_eq!(kind::<Length>("1.2.3 mm"), QuantityFaultKind::NotANumber { wanted: Kind::Length });
    assert_eq!(kind::<Pressure>("5 kPa 3 Pa"), QuantityFaultKind::NotFiner);
    assert!(matches!(kind::<Length>("12 13 mm"), QuantityFaultKind::MissingUnit { .. }));
}

proptest! {
    #[test]
    fn no_text_panics_and_faults_lie_inside(text in "\\PC{0,24}") {
        for fault in [
            parse::<Length>(&text, None).err(),
            parse::<Temperature>(&text, Some(Unit::CELSIUS)).err(),
            parse::<PerKelvin>(&text, None).err(),
        ].into_iter().flatten() {
            prop_assert!(text.get(fault.range.clone()).is_some(), "{fault:?}");
            prop_assert!(!fault.to_string().is_empty() && !fault.help().is_empty());
        }
    }

    #[test]
    fn likely_text_never_panics(text in "[-−+]?[0-9]{0,4}[ .,/eE½'\"-]{0,2}[0-9]{0,3}[ /]?[0-9]{0,2} ?(mm|in|'|ft|kg|°C)?( [0-9] in)?") {
        if let Err(fault) = parse::<Length>(&text, None) {
            prop_assert!(text.get(fault.range.clone()).is_some(), "{fault:?}");
        }
    }

    #[test]
    fn paper_reads_back(tenths in -100_000_000_i32..100_000_000) {
        let value = Length::mm(f64::from(tenths) / 10.0);
        let text = display::in_unit(value, Unit::MM, 1);
        let read = length(&text).expect("what is printed can be read");
        prop_assert!(read.is_near(value, Length::mm(1e-6)), "{text}");
    }

    #[test]
    fn inches_read_back_within_half_a_step(sixty_fourths in -100_000_i32..100_000) {
        let value = Length::inches(f64::from(sixty_fourths) / 64.0);
        for step in [display::InchStep::Sixteenth, display::InchStep::ThirtySecond, display::InchStep::SixtyFourth] {
            let read = length(&display::inches(value, step)).expect("what is printed can be read");
            prop_assert!(read.is_near(value, step.length() * 0.5 + Length::SLACK));
        }
    }
}
