//! Resistance of bolts, pins, walls and sheet, EN 1993-1-8 table 3.4 and 3.13, EN 1999-1-1 8.5 in the
//! same form, EN 1993-1-3 table 8.2 for tapping screws.

use crate::units::{Area, Force, Length, Pressure, Torque};

/// Partial factor of joints and of fracture (EN 1993-1-8 2.2, EN 1999-1-1 8.1).
pub const JOINT: f64 = 1.25;
/// Partial factor of yielding: aluminium (EN 1999-1-1 6.1.3, from memory). Steel may have 1.0; the
/// same is used.
pub const YIELD: f64 = 1.1;

/// Bolt in shear, one plane: αᵥ f A / γ. α 0.6 for classes 4.6, 5.6, 8.8 and through the shank, 0.5
/// for the others and for stainless bolts.
pub fn bolt_shear(alpha: f64, ultimate: Pressure, area: Area) -> Force {
    ultimate * area * (alpha / JOINT)
}

/// Bolt in tension: k f A / γ; k 0.9, countersunk 0.63.
pub fn bolt_tension(countersunk: bool, ultimate: Pressure, stress_area: Area) -> Force {
    ultimate * stress_area * (if countersunk { 0.63 } else { 0.9 } / JOINT)
}

/// Share of a bolt in shear and tension together: V / Vᵣ + T / 1.4 Tᵣ, and T / Tᵣ by itself.
pub fn together(shear: f64, tension: f64) -> f64 {
    (shear + tension / 1.4).max(tension)
}

/// Factors of bearing for a bolt at an end and an edge: α and k.
pub fn bearing_factors(
    hole: Length,
    end: Length,
    edge: Length,
    bolt_over_plate: f64,
) -> (f64, f64) {
    let alpha = (end / (hole * 3.0)).min(bolt_over_plate).min(1.0);
    let k = (2.8 * (edge / hole) - 1.7).min(2.5);
    (alpha.max(0.0), k.max(0.0))
}

/// Bearing and tearing out of a wall: k α f d t / γ, no more than 1.5 f d t / γ for a single bolt in a
/// single lap (EN 1993-1-8 3.6.1 (10)).
pub fn bearing(
    (alpha, k): (f64, f64),
    ultimate: Pressure,
    bolt: Length,
    wall: Length,
    single_lap: bool,
) -> Force {
    let cap = if single_lap { 1.5 } else { f64::INFINITY };
    ultimate * (bolt * wall) * ((alpha * k).min(cap) / JOINT)
}

/// Head or washer pulled through a wall: 0.6 π d t f / γ.
pub fn punching(diameter: Length, wall: Length, ultimate: Pressure) -> Force {
    ultimate * (diameter * wall) * (0.6 * std::f64::consts::PI / JOINT)
}

/// Tapping screw pulled out of sheet: 0.45 d t f / γ where the sheet is thinner than the thread's
/// pitch, else 0.65 d t f / γ (EN 1993-1-3 table 8.2).
pub fn thread_pull_out(screw: Length, pitch: Length, sheet: Length, ultimate: Pressure) -> Force {
    let k = if sheet < pitch { 0.45 } else { 0.65 };
    ultimate * (screw * sheet) * (k / JOINT)
}

/// Elastic modulus of a strip in bending: b t² / 6, in mm³.
pub fn strip_modulus(width: Length, thickness: Length) -> f64 {
    width.to_mm().max(0.0) * thickness.to_mm().powi(2) / 6.0
}

/// Most that a thin skin carries at the rim of a stiff pad before it yields, as a cone of membrane
/// between pad and supports: slope θ = √(2 f / E) at the rim, where the stretch θ²/2 brings it to f;
/// upright part of the pull over the rim u: u t f θ. From statics and Hooke's law; bending at the rim
/// is left out, so a faint dent may show before.
pub fn skin_at_rim(rim: Length, thickness: Length, proof: Pressure, modulus: Pressure) -> Force {
    let slope = (2.0 * (proof / modulus)).sqrt();
    proof * (rim * thickness) * (slope / YIELD)
}

/// Least friction of a rivet nut's flange between wall and clamped part: oily paint, from memory.
const FLANGE: f64 = 0.05;

/// Torque that tightening leaves for the wall to hold a rivet nut by: that of the thread,
/// F (0.159 P + 0.577 μ d), less the friction of its clamped flange at the mean of hole and flange.
/// F = T / (K d) and μ = (K − 0.159 P/d) / 1.156 (short form of MIL-HDBK-60, 100.5.2).
pub fn turning_of_nut(
    torque: Torque,
    k: f64,
    (diameter, pitch): (Length, Length),
    (hole, flange): (Length, Length),
) -> Torque {
    let (d, p) = (diameter.to_m(), pitch.to_m());
    let preload = torque.to_nm() / (k * d);
    let friction = ((k - 0.159 * p / d) / 1.156).max(0.0);
    let radius = (hole + flange).to_m() / 4.0;
    Torque::nm((preload * (0.159 * p + 0.577 * friction * d - FLANGE * radius)).max(0.0))
}
