//! A bar pushed at both ends: Euler, and the buckling curves of EN 1999-1-1 6.3.1 and EN 1993-1-1 6.3.1.

use crate::tables::MaterialKind;
use crate::units::{Force, Length, Pressure, SecondMoment};

/// A buckling curve: imperfection α and the slenderness λ₀ below which nothing buckles.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Curve {
    /// α.
    pub imperfection: f64,
    /// λ₀.
    pub plateau: f64,
}

impl Curve {
    /// Aluminium of class A, in the tempers that tubes and flats are sold in (EN 1999-1-1 table 6.6,
    /// from memory); steel by the lowest of the usual curves, c (EN 1993-1-1 table 6.1).
    pub const fn of(kind: MaterialKind) -> Self {
        match kind {
            MaterialKind::Aluminium => Self { imperfection: 0.20, plateau: 0.10 },
            _ => Self { imperfection: 0.49, plateau: 0.20 },
        }
    }

    /// χ: what is left of the yield load at a slenderness `√(A f / N_cr)`.
    pub fn left(self, slenderness: f64) -> f64 {
        let phi = 0.5
            * (1.0 + self.imperfection * (slenderness - self.plateau) + slenderness * slenderness);
        (1.0 / (phi + (phi * phi - slenderness * slenderness).max(0.0).sqrt())).min(1.0)
    }
}

/// π² E I / l², pinned at both ends.
pub fn euler(modulus: Pressure, inertia: SecondMoment, length: Length) -> Force {
    let (e, i, l) = (modulus.to_mpa(), inertia.to_mm4(), length.to_mm());
    Force::n(std::f64::consts::PI.powi(2) * e * i / (l * l))
}

/// How much the moment in the middle of a bar grows that is pushed with a share of its critical load,
/// as far off its middle at one end as at the other: 1 / cos(½ π √share).
pub fn grows(share: f64) -> f64 {
    // At the critical load it has no bound.
    let cos = (std::f64::consts::FRAC_PI_2 * share.clamp(0.0, 0.999).sqrt()).cos();
    1.0 / cos
}
