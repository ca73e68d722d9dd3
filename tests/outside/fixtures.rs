//! Things bolted through a skin, held against sums by hand.

use crate::support::{near, worked};

const CARRIER: &str = include_str!("../../examples/wheel-carrier.toml");
const FAN: &str = include_str!("../../examples/roof-fan.toml");

/// Budynas and Nisbett, Shigley's Mechanical Engineering Design, 8-12 (bolted joints loaded eccentrically),
/// from memory: the moment goes to each bolt by its distance from the middle of the group, M r / Σ r².
/// Six bolts in three rows at 155, 0 and 155 mm: Σ x² = 4 × 155² = 96 100 mm². On a bump 3 × 25.5 kg ×
/// 9.80665 m/s² = 750.2 N hang 170 mm off the skin: 127.5 N·m, 127 500 × 155 / 96 100 = 205.7 N a bolt.
#[test]
fn bolts_of_a_carrier_get_the_moment_by_their_distance() {
    let made = worked(CARRIER);
    near(made.figure("fixture.R.at-hinges"), 127.5, 1e-3, "moment on the door");
    near(made.figure("fixture.R.pull.bump-downward"), 205.7, 1e-3, "pull of the worst bolt");
    // Sideways 0.6 g: 25.5 × 9.80665 × 0.6 × 170 = 25 507 N mm over Σ y² = 6 × 95² = 54 150: 44.7 N; with
    // the weight's 42 511 N mm × 155 / 96 100 = 68.6 N.
    near(made.figure("fixture.R.pull.bend"), 44.7 + 68.6, 2e-3, "pull in a bend");
}

/// EN 1993-1-8 table 3.4: tension 0.9 f A / 1.25 = 0.9 × 700 × 36.6 / 1.25 = 18 446 N for M8 A2-70, shear
/// 0.5 × 700 × 36.6 / 1.25 = 10 248 N. On the bump 750.2 / 6 = 125.0 N shear and 205.7 N tension:
/// 125.0 / 10 248 + 205.7 / (1.4 × 18 446) = 0.0122 + 0.0080.
#[test]
fn bolts_of_a_carrier_are_used_by_table_3_4() {
    let made = worked(CARRIER);
    near(made.figure("fixture.R.use.bolt"), 0.0202, 1e-2, "use of the bolt");
    // Bearing 2.5 × 8 × 0.8 × f / 1.25, punching 0.6 π (24 + 2 × 3) 0.8 f / 1.25 with the skin's f = 270 N/mm²
    // (EN 10130, DC01: 270 to 410): 3 456 N and 9 772 N.
    near(made.figure("fixture.R.use.bearing"), 125.0 / 3456.0, 1e-2, "use of the skin at the hole");
    near(
        made.figure("fixture.R.use.through"),
        205.7 / 9772.0,
        1e-2,
        "use of the skin under the washer",
    );
}

/// By hand: 60 mph = 26.82 m/s; with no head wind ½ × 1.25 × 26.82² = 449.7 Pa; 2.5 × 449.7 × 0.4445² m² =
/// 222.1 N of lift on 17 1/2 in square, less 9 lb = 40.0 N.
#[test]
fn air_lifts_a_fan_by_its_pressure_and_its_area() {
    let made = worked(FAN);
    let fan = &made.results.fixtures[0];
    let head = made.build.actions.head_wind.to_m_per_s();
    let q = 0.5 * 1.25 * (26.8224_f64 + head).powi(2);
    near(fan.cases[0].pull.to_n(), 2.5 * q * 0.4445 * 0.4445 - 40.0, 2e-3, "lift at speed");
    assert!(fan.at_hinges.is_none() && fan.bolts == 8);
    // 9 ft 1 in and 5 in are 114 in.
    let (_, after) = made.results.weights.height.expect("its height is stated");
    near(after.to_inches(), 114.0, 1e-9, "height with the fan");
}
