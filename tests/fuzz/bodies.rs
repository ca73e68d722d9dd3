//! What is done with bytes that a fuzzer makes up. The targets call it, and so does a test on any compiler.

use rungsheet::source::{Severity, Span, Text};
use rungsheet::tables::Tables;
use rungsheet::units::{
    Acceleration, Angle, Charge, Current, Duration, Energy, Force, Length, Mass, Money, PerKelvin,
    Power, Pressure, Quantity, Ratio, Resistance, Speed, Temperature, Torque, Unit, Voltage, parse,
};
use rungsheet::{compute, derive, paper, read as reader};

/// The TOML reader: findings lie in the file; what can be read is worked out, where it is small.
pub fn read(bytes: &[u8]) {
    let Ok(text) = reader::open("made-up.toml", bytes) else { return };
    let tables = Tables::builtin();
    let (build, mut findings) = reader::read(&text, tables);
    lie_in(&text, &findings);
    let Some(build) = build else {
        assert!(findings.iter().any(|finding| finding.severity == Severity::Stop));
        return;
    };
    let (work, more) = derive::derive(&build);
    findings.extend(more);
    // Plans and cut lists take a while in a build that watches itself.
    if build.is_bench_work() && build.parts.len() < 4 {
        let (results, more) = compute::compute(&build, &work, tables);
        findings.extend(more);
        for figure in &results.ledger {
            assert!(figure.value.is_finite(), "{} is {}", figure.id, figure.value);
        }
    }
    lie_in(&text, &findings);
}

fn lie_in(text: &Text, findings: &[rungsheet::source::Finding]) {
    for finding in findings {
        let others = finding.others.iter().map(|(span, _)| *span);
        for span in finding.primary.into_iter().chain(others).filter(|span| *span != Span::NONE) {
            assert!(text.contents().get(span.range()).is_some(), "{span:?} {finding:?}");
        }
        assert!(!finding.message.is_empty() && !finding.message.contains('\n'), "{finding:?}");
    }
}

/// A text as a quantity of every kind: a finite value that can be written and read again, or a fault inside the text.
pub fn quantities(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    one::<Acceleration>(text, None);
    one::<Angle>(text, None);
    one::<Charge>(text, None);
    one::<Current>(text, None);
    one::<Duration>(text, None);
    one::<Energy>(text, None);
    one::<Force>(text, None);
    one::<Length>(text, Some(Unit::MM));
    one::<Length>(text, None);
    one::<Mass>(text, None);
    one::<PerKelvin>(text, None);
    one::<Power>(text, None);
    one::<Pressure>(text, None);
    one::<Ratio>(text, None);
    one::<Resistance>(text, None);
    one::<Speed>(text, None);
    one::<Temperature>(text, None);
    one::<Torque>(text, None);
    one::<Voltage>(text, None);
    if let Ok(money) = Money::parse(text) {
        assert_eq!(Money::parse(&money.to_string()), Ok(money), "{text:?}");
    }
}

fn one<Q: Quantity>(text: &str, bare: Option<Unit>) {
    match parse::<Q>(text, bare) {
        Ok(quantity) => assert!(quantity.stored().is_finite(), "{text:?}"),
        Err(fault) => {
            assert!(text.get(fault.range.clone()).is_some(), "{text:?}: {fault:?}");
            assert!(!fault.to_string().is_empty());
        }
    }
}

/// A hostile PDF: the file in it or a refusal, within the memory that the largest attachment takes.
pub fn recover(bytes: &[u8]) {
    if let Ok(found) = paper::recover(bytes) {
        assert!(!found.name.contains(['/', '\\', '\0']), "{:?}", found.name);
        assert!(found.name != ".." && !found.name.is_empty(), "{:?}", found.name);
    }
}
