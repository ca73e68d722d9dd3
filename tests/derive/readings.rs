//! Readings that no roof has are refused; those that a roof may have are not.

use super::support::Van;
use rungsheet::derive::derive;
use rungsheet::source::Severity;

fn codes(station: &[(f64, f64)]) -> Vec<&'static str> {
    let van = Van {
        stations: vec![(400.0, station.to_vec()), (2800.0, station.to_vec())],
        ..Van::default()
    };
    let (_, findings) = derive(&van.build());
    findings
        .iter()
        .filter(|f| f.severity == Severity::Stop && f.rule.code < "L006" && f.rule.code >= "L")
        .map(|f| f.rule.code)
        .collect()
}

#[test]
fn an_even_crown_is_taken() {
    assert_eq!(
        codes(&[(-700.0, 68.0), (-350.0, 17.0), (0.0, 0.0), (350.0, 17.0), (700.0, 68.0)]),
        [""; 0]
    );
}

#[test]
fn a_flat_middle_with_round_edges_is_taken() {
    assert_eq!(
        codes(&[
            (-700.0, 60.0),
            (-500.0, 12.0),
            (-200.0, 1.0),
            (200.0, 0.0),
            (500.0, 11.0),
            (700.0, 58.0)
        ]),
        [""; 0]
    );
}

#[test]
fn beads_of_three_millimetres_are_taken() {
    assert_eq!(
        codes(&[
            (-700.0, 50.0),
            (-350.0, 14.0),
            (-100.0, 0.0),
            (0.0, 3.0),
            (100.0, 0.0),
            (350.0, 14.0),
            (700.0, 50.0)
        ]),
        [""; 0]
    );
}

#[test]
fn a_straightedge_in_the_air_is_refused() {
    assert_eq!(codes(&[(-700.0, 78.0), (0.0, 10.0), (700.0, 78.0)]), ["L002"; 2]);
}

#[test]
fn a_straightedge_that_rocked_is_refused() {
    assert_eq!(
        codes(&[(-700.0, 60.0), (-350.0, 0.0), (0.0, 9.0), (350.0, 0.0), (700.0, 60.0)]),
        ["L003"; 2]
    );
}

#[test]
fn a_wrong_digit_is_refused() {
    assert_eq!(
        codes(&[(-700.0, 68.0), (-350.0, 117.0), (0.0, 0.0), (350.0, 17.0), (700.0, 68.0)]),
        ["L004"; 2]
    );
}
