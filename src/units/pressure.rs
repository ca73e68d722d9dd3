//! Pressures and stresses.

use super::{factors::PSI, mass::Density, motion::Speed};

quantity! {
    /// A pressure, a stress or a modulus; stored in `MPa`, which is N/mm².
    Pressure, kind Pressure, shown "MPa" by to_mpa;
    "pascals": pa, to_pa, 1e-6;
    "hectopascals": hpa, to_hpa, 1e-4;
    "kilopascals": kpa, to_kpa, 1e-3;
    "megapascals": mpa, to_mpa, 1.0;
    "gigapascals": gpa, to_gpa, 1e3;
    "pounds-force per square inch": psi, to_psi, PSI;
}

impl Pressure {
    /// Dynamic pressure q = ½ ρ v² (EN 1991-1-4, 4.5): what air of this density does when it is
    /// stopped from this speed.
    #[must_use]
    pub fn dynamic(air: Density, speed: Speed) -> Self {
        Self::pa(0.5 * air.0 * speed.0 * speed.0)
    }
}
