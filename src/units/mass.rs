//! Masses and densities.

use super::{
    factors::{OUNCE, POUND},
    force::Force,
    motion::STANDARD_GRAVITY,
};

quantity! {
    /// A mass; stored in kg. Its weight is a [`Force`].
    Mass, kind Mass, shown "kg" by to_kg;
    "kilograms": kg, to_kg, 1.0;
    "grams": g, to_g, 1e-3;
    "tonnes": t, to_t, 1e3;
    "pounds": lb, to_lb, POUND;
    "ounces": oz, to_oz, OUNCE;
}

quantity! {
    /// Mass by volume; stored in kg/m³.
    Density, kind Density, shown "kg/m³" by to_kg_per_m3;
    "kilograms per cubic metre": kg_per_m3, to_kg_per_m3, 1.0;
    "grams per cubic centimetre": g_per_cm3, to_g_per_cm3, 1e3;
}

quantity! {
    /// Mass by length, as bar and cable are listed; stored in kg/m.
    LinearMass, kind LinearMass, shown "kg/m" by to_kg_per_m;
    "kilograms per metre": kg_per_m, to_kg_per_m, 1.0;
}

impl Mass {
    /// The force of standard gravity on it.
    #[must_use]
    pub fn weight(self) -> Force {
        self * STANDARD_GRAVITY
    }
}
