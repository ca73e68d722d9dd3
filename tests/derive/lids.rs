//! A lifted frame and the lids that open beside it.

use super::laws::van;
use super::sampled;
use super::support::{Van, said};
use proptest::prelude::*;
use rungsheet::build::{Edge, Lid};
use rungsheet::derive::derive;
use rungsheet::units::Angle;

/// A hatch behind the hinges of the left edge, with a lid.
fn hatch() -> impl Strategy<Value = (Van, Edge, f64)> {
    let edges = prop::sample::select(vec![Edge::Left, Edge::Right, Edge::Front, Edge::Rear]);
    (van(), edges, 20.0..180.0_f64, (-120.0..-45.0_f64, 100.0..500.0_f64, 20.0..88.0_f64)).prop_map(
        |(van, edge, opens, (out, wide, lift))| {
            let across = van.panel.0 * f64::from(van.rows) + van.gap * f64::from(van.rows - 1);
            let y = van.at.1 - across / 2.0 + out - wide;
            let keep_out = Some([van.at.0 + 100.0, y.round(), 200.0, wide.round(), 40.0]);
            (Van { keep_out, lift, ..van }, edge, opens.round())
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, ..ProptestConfig::default() })]

    /// Where nothing is told, no place of the lid at any angle of its own is inside the frame at any
    /// angle of its own.
    #[test]
    fn a_lid_that_is_clear_is_clear_when_sampled((van, edge, opens) in hatch()) {
        let mut build = van.build();
        let roof = build.roof.as_mut().expect("a roof");
        let hatch = roof.keep_outs.last_mut().expect("a hatch");
        hatch.lid = Some(Lid { hinged: said(edge), opens: said(Angle::deg(opens)) });
        let (work, findings) = derive(&build);
        let Some(tilt) = work.lifts.first() else { return Ok(()) };
        let [x, y, long, wide, high] = van.keep_out.expect("a hatch");
        let top = |y: f64| sampled::skin(&work, x, y) + high;
        let top = top(y).max(top(y + wide));
        // The lid as a line seen from behind: where its free edge is, and its hinge.
        let places: Vec<(f64, f64)> = (0..=60).flat_map(|i| {
            let angle = (opens * f64::from(i) / 60.0).to_radians();
            (0..=12).map(move |k| {
                let r = f64::from(k) / 12.0;
                match edge {
                    Edge::Left => (y + wide * r * angle.cos(), top + wide * r * angle.sin()),
                    Edge::Right => (y + wide * (1.0 - r * angle.cos()), top + wide * r * angle.sin()),
                    _ => (y + wide * r, top + long * angle.sin()),
                }
            })
        }).collect();
        let meets = sampled::sweeps(&work, &places, 180);
        let told = sampled::told(&findings, &["L034", "L011", "L016"]);
        prop_assert!(!meets || told, "{:?} {edge:?} {opens} {:?}", van.keep_out, tilt);
    }
}

/// A lid that lies behind the hinges and opens away from them is told nowhere; one that opens over them
/// meets the panels (a lid 400 deep hinged 60 beyond the pins reaches over the frame).
#[test]
fn a_lid_is_told_by_where_it_opens() {
    let told = |edge: Edge, opens: f64| {
        let van = Van {
            keep_out: Some([900.0, -990.0, 300.0, 380.0, 40.0]),
            lift: 45.0,
            ..Van::default()
        };
        let van = Van { roof: (3200.0, 2200.0), ..van };
        let mut build = van.build();
        let hatch =
            build.roof.as_mut().and_then(|roof| roof.keep_outs.last_mut()).expect("a hatch");
        hatch.lid = Some(Lid { hinged: said(edge), opens: said(Angle::deg(opens)) });
        derive(&build).1.iter().any(|finding| finding.rule.code == "L034")
    };
    assert!(!told(Edge::Left, 90.0));
    assert!(told(Edge::Right, 180.0));
}
