//! Conductors.

use crate::derive::support::{mm, said};
use proptest::prelude::*;
use rungsheet::build::{Circuit, Insulation, Laid, Terminal};
use rungsheet::compute::electrics::assess;
use rungsheet::source::Span;
use rungsheet::tables::{Gauge, Tables};
use rungsheet::units::{Current, Ratio, Temperature, Voltage};

fn circuit(metres: f64, celsius: f64, bundled: u32, insulation: Insulation) -> Circuit {
    Circuit {
        name: said("run".to_owned()),
        from: said(Terminal::Battery),
        to: said(Terminal::Load("pump".to_owned())),
        length: mm(metres * 1000.0),
        current: None,
        size: None,
        fuse: None,
        switched: None,
        switch_rating: None,
        insulation: said(insulation),
        laid: said(Laid::Open),
        bundled: said(bundled),
        ambient: said(Temperature::celsius(celsius)),
        drop_limit: said(Ratio::percent(3.0)),
        span: Span::NONE,
    }
}

fn insulation() -> impl Strategy<Value = Insulation> {
    prop_oneof![Just(Insulation::Pvc70), Just(Insulation::Pvc105), Just(Insulation::Solar)]
}

proptest! {
    /// What a thinner cable passes a thicker one of the same list passes too, and loses less.
    #[test]
    fn thicker_never_fails_what_thinner_passes(
        metres in 0.2..15.0_f64,
        amps in 0.5..200.0_f64,
        volts in 12.0..48.0_f64,
        celsius in 10.0..60.0_f64,
        bundled in 2..9_u32,
        kind in insulation(),
        metric in prop::bool::ANY,
    ) {
        let tables = Tables::builtin();
        let run = circuit(metres, celsius, bundled, kind);
        let gauge = if metric { Gauge::Metric } else { Gauge::Awg };
        let (working, design) = (Current::a(amps), Current::a(amps * 1.25));
        let mut passed: Option<String> = None;
        let mut drop: Option<Voltage> = None;
        for size in tables.cable_sizes.sizes(gauge) {
            let Some(conductor) = assess(&run, size, working, Voltage::v(volts), tables) else {
                continue;
            };
            let fails = conductor.too_thin(design, *run.drop_limit);
            if let (Some(thin), Some(why)) = (&passed, fails) {
                prop_assert!(false, "{thin} passes, {} fails by {why:?}", size.name);
            }
            prop_assert!(drop.is_none_or(|drop| conductor.drop < drop), "{}", size.name);
            drop = Some(conductor.drop);
            if fails.is_none() {
                passed = Some(size.name.clone());
            }
        }
    }

    /// Hotter air or more conductors beside it never let a cable carry more.
    #[test]
    fn heat_and_company_never_help(
        celsius in 10.0..55.0_f64,
        hotter in 0.0..15.0_f64,
        bundled in 2..9_u32,
        more in 0..6_u32,
        kind in insulation(),
    ) {
        let tables = Tables::builtin();
        let size = tables.cable_size("6mm2").expect("a size");
        let amps = |celsius, bundled| {
            let run = circuit(1.0, celsius, bundled, kind);
            assess(&run, size, Current::a(5.0), Voltage::v(12.8), tables).map(|c| c.ampacity)
        };
        let (easy, hard) = (amps(celsius, bundled), amps(celsius + hotter, bundled + more));
        if let (Some(easy), Some(hard)) = (easy, hard) {
            prop_assert!(hard <= easy);
        }
    }
}
