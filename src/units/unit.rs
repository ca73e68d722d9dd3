//! The units that a build file may use.

use super::factors as f;
use super::parse::{QuantityFault, QuantityFaultKind, check_size};
use super::quantity::Quantity;

/// What a quantity measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs)] // Each is the type of the same name.
pub enum Kind {
    Acceleration,
    Angle,
    Area,
    Charge,
    Current,
    Density,
    Duration,
    Energy,
    Force,
    Length,
    LineLoad,
    LinearMass,
    LinearResistance,
    Mass,
    Moment,
    PerKelvin,
    Power,
    Pressure,
    Ratio,
    Resistance,
    SecondMoment,
    SectionModulus,
    Speed,
    Temperature,
    TemperatureRise,
    Voltage,
    Volume,
}

impl Kind {
    /// For a sentence: "a length".
    pub const fn name(self) -> &'static str {
        match self {
            Self::Acceleration => "an acceleration",
            Self::Angle => "an angle",
            Self::Area => "an area",
            Self::Charge => "a charge",
            Self::Current => "a current",
            Self::Density => "a density",
            Self::Duration => "a time",
            Self::Energy => "an energy",
            Self::Force => "a force",
            Self::Length => "a length",
            Self::LineLoad => "a load by length",
            Self::LinearMass => "a mass by length",
            Self::LinearResistance => "a resistance by length",
            Self::Mass => "a mass",
            Self::Moment => "a torque",
            Self::PerKelvin => "a change by kelvin",
            Self::Power => "a power",
            Self::Pressure => "a pressure",
            Self::Ratio => "a percentage",
            Self::Resistance => "a resistance",
            Self::SecondMoment => "a second moment of area",
            Self::SectionModulus => "a section modulus",
            Self::Speed => "a speed",
            Self::Temperature => "a temperature",
            Self::TemperatureRise => "a temperature difference",
            Self::Voltage => "a voltage",
            Self::Volume => "a volume",
        }
    }

    /// Its units, in the order of the table.
    pub fn units(self) -> impl Iterator<Item = &'static Unit> {
        Unit::ALL.iter().filter(move |unit| unit.kind == self)
    }

    /// The unit of this kind with this name or symbol, for a key that names a unit alone.
    pub fn unit(self, text: &str) -> Option<Unit> {
        let tidy = super::parse::tidy_unit(text);
        self.units().find(|unit| unit.is_written(&tidy)).copied()
    }

    /// A way to write one, such as `12 mm`.
    pub fn example(self) -> String {
        let symbol = self.units().next().map_or("", |unit| unit.symbol);
        let gap = if symbol == "°" { "" } else { " " };
        format!("12{gap}{symbol}")
    }
}

/// A unit: how it is written and how it is brought to the stored unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unit {
    /// As printed.
    pub symbol: &'static str,
    /// What it measures.
    pub kind: Kind,
    /// Other ways to write it.
    pub(super) spellings: &'static [&'static str],
    /// Stored units in one of it.
    factor: f64,
    /// Stored value at its zero.
    offset: f64,
}

impl Unit {
    /// `value` of this unit in the stored unit.
    pub(super) fn to_stored(self, value: f64) -> f64 {
        value * self.factor + self.offset
    }

    /// How many stored units it holds; a finer unit has less.
    pub(super) const fn size(self) -> f64 {
        self.factor
    }

    /// The number that `quantity` is in this unit. The unit must be of the quantity's kind.
    pub fn number_of<Q: Quantity>(self, quantity: Q) -> f64 {
        debug_assert!(self.kind == Q::KIND, "{} doesn't measure {}", self.symbol, Q::KIND.name());
        (quantity.stored() - self.offset) / self.factor
    }

    /// `value` of this unit as a quantity, for a number that stands without quotation marks.
    ///
    /// # Errors
    /// When the value is NaN, infinite or beyond all sense, or the unit is of another kind; the
    /// range is empty because there is no text.
    pub fn quantity<Q: Quantity>(self, value: f64) -> Result<Q, QuantityFault> {
        let fault = |kind| QuantityFault { kind, range: 0..0 };
        if self.kind != Q::KIND {
            return Err(fault(QuantityFaultKind::WrongKind {
                written: self.symbol.to_owned(),
                found: self.kind,
                wanted: Q::KIND,
            }));
        }
        check_size(self.to_stored(value), Q::KIND).map(Q::from_stored).map_err(fault)
    }

    /// Every way to write it, its symbol first.
    pub fn written(&self) -> impl Iterator<Item = &'static str> {
        std::iter::once(self.symbol).chain(self.spellings.iter().copied())
    }

    /// Whether a text means this unit. Upper and lower case differ: mΩ isn't MΩ.
    pub(super) fn is_written(&self, text: &str) -> bool {
        self.symbol == text || self.spellings.contains(&text)
    }
}

/// One constant a unit, and the table of all.
macro_rules! units {
    ($($name:ident $kind:ident $symbol:literal [$($other:literal)*] $factor:expr $(, from $offset:expr)?;)*) => {
        impl Unit {
            $(
                #[doc = concat!("`", $symbol, "`")]
                pub const $name: Self = Self {
                    symbol: $symbol,
                    kind: Kind::$kind,
                    spellings: &[$($other),*],
                    factor: $factor,
                    offset: 0.0 $(+ $offset)?,
                };
            )*

            /// Every unit; the first of a kind is the one that messages offer.
            pub const ALL: &'static [Self] = &[$(Self::$name),*];
        }
    };
}

// Texts are compared after `parse::tidy_unit`: `^2` is already ², `*` and `⋅` already ·.
units! {
    MM Length "mm" ["millimetre" "millimetres" "millimeter" "millimeters"] 1.0;
    CM Length "cm" ["centimetre" "centimetres" "centimeter" "centimeters"] 10.0;
    M Length "m" ["metre" "metres" "meter" "meters"] 1e3;
    UM Length "µm" ["micron" "microns" "um"] 1e-3;
    INCH Length "in" ["\"" "″" "”" "inch" "inches"] f::INCH;
    FOOT Length "ft" ["'" "′" "’" "foot" "feet"] f::FOOT;
    YARD Length "yd" ["yard" "yards"] f::YARD;
    KM Length "km" ["kilometre" "kilometres" "kilometer" "kilometers"] 1e6;
    MILE Length "mi" ["mile" "miles"] f::MILE_M * 1e3;

    MM2 Area "mm²" ["mm2" "sqmm"] 1.0;
    CM2 Area "cm²" ["cm2"] 100.0;
    M2 Area "m²" ["m2"] 1e6;
    IN2 Area "in²" ["in2" "sq in"] f::INCH * f::INCH;
    FT2 Area "ft²" ["ft2" "sq ft"] f::FOOT * f::FOOT;

    ML Volume "ml" ["mL" "millilitre" "millilitres" "milliliter" "milliliters"] 1e3;
    LITRE Volume "l" ["L" "litre" "litres" "liter" "liters"] 1e6;
    MM3 Volume "mm³" ["mm3"] 1.0;
    CM3 Volume "cm³" ["cm3"] 1e3;
    M3 Volume "m³" ["m3"] 1e9;
    IN3 Volume "in³" ["in3"] f::INCH * f::INCH * f::INCH;

    MM4 SecondMoment "mm⁴" ["mm4"] 1.0;
    CM4 SecondMoment "cm⁴" ["cm4"] 1e4;
    IN4 SecondMoment "in⁴" ["in4"] f::INCH * f::INCH * f::INCH * f::INCH;

    MODULUS_MM3 SectionModulus "mm³" ["mm3"] 1.0;
    MODULUS_CM3 SectionModulus "cm³" ["cm3"] 1e3;
    MODULUS_IN3 SectionModulus "in³" ["in3"] f::INCH * f::INCH * f::INCH;

    DEG Angle "°" ["deg" "degree" "degrees" "º"] std::f64::consts::PI / 180.0;
    RAD Angle "rad" ["radian" "radians"] 1.0;

    N Force "N" ["newton" "newtons"] 1.0;
    DAN Force "daN" [] 10.0;
    KN Force "kN" [] 1e3;
    LBF Force "lbf" [] f::POUND_FORCE;
    KGF Force "kgf" [] f::GRAVITY;

    NM Moment "N·m" ["Nm" "N m"] 1e3;
    NCM Moment "N·cm" ["Ncm" "N cm"] 10.0;
    NMM Moment "N·mm" ["Nmm" "N mm"] 1.0;
    KNM Moment "kN·m" ["kNm" "kN m"] 1e6;
    LBF_FT Moment "lbf·ft" ["lbf ft" "ft·lbf" "ft lbf" "ft-lbf" "lbf-ft" "ft-lb" "lb-ft" "lb ft" "ft lb" "lb·ft" "ft·lb"] f::POUND_FORCE * f::FOOT;
    LBF_IN Moment "lbf·in" ["lbf in" "in·lbf" "in lbf" "in-lbf" "lbf-in" "in-lb" "lb-in" "lb in" "in lb" "lb·in" "in·lb"] f::POUND_FORCE * f::INCH;

    N_PER_MM LineLoad "N/mm" [] 1.0;
    N_PER_M LineLoad "N/m" [] 1e-3;
    KN_PER_M LineLoad "kN/m" [] 1.0;

    KPA Pressure "kPa" ["kN/m²" "kN/m2"] 1e-3;
    MPA Pressure "MPa" ["N/mm²" "N/mm2"] 1.0;
    GPA Pressure "GPa" ["kN/mm²" "kN/mm2"] 1e3;
    PA Pressure "Pa" ["N/m²" "N/m2"] 1e-6;
    HPA Pressure "hPa" ["mbar"] 1e-4;
    BAR Pressure "bar" [] 0.1;
    PSI Pressure "psi" ["lbf/in²" "lbf/in2"] f::PSI;
    PSF Pressure "lbf/ft²" ["lbf/ft2" "psf"] f::PSF;

    KG Mass "kg" ["kilogram" "kilograms"] 1.0;
    G Mass "g" ["gram" "grams"] 1e-3;
    T Mass "t" ["tonne" "tonnes"] 1e3;
    LB Mass "lb" ["lbs" "pound" "pounds"] f::POUND;
    OZ Mass "oz" ["ounce" "ounces"] f::OUNCE;

    KG_PER_M3 Density "kg/m³" ["kg/m3"] 1.0;
    G_PER_CM3 Density "g/cm³" ["g/cm3" "g/ml" "g/mL" "kg/l" "kg/L"] 1e3;
    LB_PER_FT3 Density "lb/ft³" ["lb/ft3"] f::POUND_PER_CUBIC_FOOT;

    KG_PER_M LinearMass "kg/m" [] 1.0;
    G_PER_M LinearMass "g/m" ["kg/km"] 1e-3;
    LB_PER_FT LinearMass "lb/ft" [] f::POUND / f::FOOT * 1e3;

    KMH Speed "km/h" [] f::KMH;
    MPH Speed "mph" ["mi/h"] f::MPH;
    M_PER_S Speed "m/s" [] 1.0;
    KNOT Speed "kn" ["knot" "knots"] f::KNOT;

    M_PER_S2 Acceleration "m/s²" ["m/s2"] 1.0;
    STANDARD_G Acceleration "g" [] f::GRAVITY;

    H Duration "h" ["hour" "hours"] f::HOUR;
    MIN Duration "min" ["minute" "minutes"] f::MINUTE;
    S Duration "s" ["second" "seconds"] 1.0;
    D Duration "d" ["day" "days"] f::DAY;
    WEEK Duration "weeks" ["week"] 7.0 * f::DAY;

    CELSIUS Temperature "°C" ["C" "degC" "deg C" "℃" "º C" "ºC" "° C"] 1.0, from f::CELSIUS_ZERO;
    FAHRENHEIT Temperature "°F" ["F" "degF" "deg F" "℉" "ºF" "° F"] f::FAHRENHEIT_STEP, from f::FAHRENHEIT_ZERO;
    KELVIN Temperature "K" [] 1.0;

    KELVIN_RISE TemperatureRise "K" ["°C" "C" "℃"] 1.0;
    FAHRENHEIT_RISE TemperatureRise "°F" ["F" "℉"] f::FAHRENHEIT_STEP;

    PERCENT_PER_K PerKelvin "%/K" ["%/°C" "%/C" "%/℃" "% / K" "% / °C"] 1e-2;
    PPM_PER_K PerKelvin "µm/(m·K)" ["ppm/K" "ppm/°C" "um/(m·K)" "µm/m/K" "µm/m·K" "10⁻⁶/K"] 1e-6;
    PER_K PerKelvin "1/K" ["/K"] 1.0;
    PPM_PER_F PerKelvin "ppm/°F" ["µin/(in·°F)"] 1e-6 / f::FAHRENHEIT_STEP;

    V Voltage "V" ["volt" "volts"] 1.0;
    MV Voltage "mV" [] 1e-3;

    A Current "A" ["amp" "amps" "ampere" "amperes"] 1.0;
    MA Current "mA" [] 1e-3;
    KA Current "kA" [] 1e3;

    OHM Resistance "Ω" ["ohm" "ohms"] 1.0;
    MILLIOHM Resistance "mΩ" ["mohm" "milliohm" "milliohms"] 1e-3;

    MILLIOHM_PER_M LinearResistance "mΩ/m" ["Ω/km" "ohm/km" "mohm/m"] 1e-3;
    OHM_PER_M LinearResistance "Ω/m" ["ohm/m"] 1.0;

    W Power "W" ["watt" "watts"] 1.0;
    KW Power "kW" [] 1e3;

    WH Energy "Wh" ["W·h"] f::HOUR;
    KWH Energy "kWh" ["kW·h"] 1e3 * f::HOUR;
    J Energy "J" [] 1.0;
    KJ Energy "kJ" [] 1e3;

    AH Charge "Ah" ["A·h"] f::HOUR;
    MAH Charge "mAh" ["mA·h"] 1e-3 * f::HOUR;
    COULOMB Charge "C" [] 1.0;

    PERCENT Ratio "%" ["percent" "per cent"] 1e-2;
    PER_MILLE Ratio "‰" [] 1e-3;
    ONE Ratio "" [] 1.0;
}

#[cfg(test)]
mod tests {
    use super::Unit;
    use std::collections::BTreeSet;

    #[test]
    fn no_text_means_two_units_of_a_kind() {
        let mut seen = BTreeSet::new();
        for unit in Unit::ALL {
            for text in unit.spellings.iter().chain([&unit.symbol]) {
                assert!(seen.insert((unit.kind, *text)), "{text} twice in {:?}", unit.kind);
            }
        }
    }

    #[test]
    fn what_is_printed_can_be_read_back() {
        for unit in Unit::ALL {
            for text in unit.spellings.iter().chain([&unit.symbol]) {
                assert_eq!(super::super::parse::tidy_unit(text), *text);
            }
        }
    }
}
