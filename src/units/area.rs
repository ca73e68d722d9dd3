//! Areas, volumes and what a section's shape does in bending.

use super::length::Length;

quantity! {
    /// An area; stored in mm².
    Area, kind Area, shown "mm²" by to_mm2;
    "square millimetres": mm2, to_mm2, 1.0;
    "square centimetres": cm2, to_cm2, 100.0;
    "square metres": m2, to_m2, 1e6;
}

quantity! {
    /// A volume; stored in mm³.
    Volume, kind Volume, shown "mm³" by to_mm3;
    "cubic millimetres": mm3, to_mm3, 1.0;
    "millilitres": ml, to_ml, 1e3;
    "litres": litres, to_litres, 1e6;
    "cubic metres": m3, to_m3, 1e9;
}

quantity! {
    /// Second moment of area about an axis through the centroid; stored in mm⁴.
    SecondMoment, kind SecondMoment, shown "mm⁴" by to_mm4;
    "mm⁴": mm4, to_mm4, 1.0;
    "cm⁴": cm4, to_cm4, 1e4;
}

quantity! {
    /// Section modulus, second moment over the distance to the outermost fibre; stored in mm³.
    SectionModulus, kind SectionModulus, shown "mm³" by to_mm3;
    "mm³": mm3, to_mm3, 1.0;
    "cm³": cm3, to_cm3, 1e3;
}

impl Area {
    /// Side of the square with this area; zero for a negative area.
    #[must_use]
    pub fn sqrt(self) -> Length {
        Length(self.0.max(0.0).sqrt())
    }

    /// A full circle.
    #[must_use]
    pub fn circle(diameter: Length) -> Self {
        Self(std::f64::consts::FRAC_PI_4 * diameter.0 * diameter.0)
    }
}
