//! Products and quotients of unlike quantities, each listed because it means something.
//!
//! The number at the end brings the product of the stored units to the stored unit of the result.

use super::{
    Acceleration, Area, Charge, Current, Density, Duration, Energy, Force, Length, LineLoad,
    LinearMass, LinearResistance, Mass, Moment, PerKelvin, Power, Pressure, Ratio, Resistance,
    SecondMoment, SectionModulus, Speed, TemperatureRise, Voltage, Volume,
};
use std::ops::{Div, Mul};

/// `A * B = C`, with the sides changed, and both divisions that follow.
macro_rules! product {
    ($a:ident * $b:ident = $c:ident, $scale:expr) => {
        product!(@ $a * $b = $c, $scale);
        product!(@ $b * $a = $c, $scale);
        product!(@ $c / $a = $b, $scale);
        product!(@ $c / $b = $a, $scale);
    };
    ($a:ident squared = $c:ident) => {
        product!(@ $a * $a = $c, 1.0);
        product!(@ $c / $a = $a, 1.0);
    };
    (@ $a:ident * $b:ident = $c:ident, $scale:expr) => {
        impl Mul<$b> for $a {
            type Output = $c;
            fn mul(self, other: $b) -> $c {
                $c(self.0 * other.0 * $scale)
            }
        }
    };
    (@ $c:ident / $a:ident = $b:ident, $scale:expr) => {
        impl Div<$a> for $c {
            type Output = $b;
            fn div(self, other: $a) -> $b {
                $b(self.0 / other.0 / $scale)
            }
        }
    };
}

// Shapes.
product!(Length squared = Area);
product!(Area * Length = Volume, 1.0);
product!(Area squared = SecondMoment);
product!(SectionModulus * Length = SecondMoment, 1.0);

// Forces. N/mm² is MPa.
product!(Pressure * Area = Force, 1.0);
product!(Pressure * Length = LineLoad, 1.0);
product!(LineLoad * Length = Force, 1.0);
product!(Force * Length = Moment, 1.0);
product!(Pressure * SectionModulus = Moment, 1.0);
product!(LineLoad * Area = Moment, 1.0);

// Masses. kg·m/s² is N; a cubic metre is 10⁹ mm³.
product!(Mass * Acceleration = Force, 1.0);
product!(Density * Volume = Mass, 1e-9);
product!(LinearMass * Length = Mass, 1e-3);

// Motion. A metre is 1000 mm.
product!(Speed * Duration = Length, 1e3);
product!(Acceleration * Duration = Speed, 1.0);

// Electricity.
product!(Voltage * Current = Power, 1.0);
product!(Current * Resistance = Voltage, 1.0);
product!(LinearResistance * Length = Resistance, 1e-3);
product!(Power * Duration = Energy, 1.0);
product!(Current * Duration = Charge, 1.0);
product!(Charge * Voltage = Energy, 1.0);

// Heat.
product!(PerKelvin * TemperatureRise = Ratio, 1.0);

#[cfg(test)]
mod tests {
    use super::super::{STANDARD_GRAVITY, Temperature};
    use super::*;

    fn near(left: f64, right: f64) {
        assert!((left - right).abs() <= 1e-12 * right.abs().max(1.0), "{left} is not {right}");
    }

    #[test]
    fn a_newton_on_a_square_millimetre_is_a_megapascal() {
        let stress = Force::n(1.0) / (Length::mm(1.0) * Length::mm(1.0));
        assert_eq!(stress, Pressure::mpa(1.0));
        assert_eq!(Force::n(1.0) / Area::m2(1.0), Pressure::pa(1.0));
    }

    #[test]
    fn a_newton_at_a_metre_is_a_newton_metre() {
        assert_eq!(Force::n(1.0) * Length::m(1.0), Moment::nm(1.0));
        near((Moment::nm(30.0) / Length::mm(300.0)).to_n(), 100.0);
    }

    #[test]
    fn a_kilogram_weighs_nearly_ten_newtons() {
        assert_eq!(Mass::kg(1.0).weight(), Force::n(9.806_65));
        assert_eq!(Mass::kg(2.0) * STANDARD_GRAVITY, Force::kgf(2.0));
    }

    #[test]
    fn a_litre_of_water_is_a_kilogram() {
        near((Density::kg_per_m3(1000.0) * Volume::litres(1.0)).to_kg(), 1.0);
        near((Mass::kg(2.7) / Density::g_per_cm3(2.7)).to_litres(), 1.0);
    }

    #[test]
    fn an_hour_at_a_speed() {
        near((Speed::kmh(90.0) * Duration::hours(2.0)).to_m(), 180_000.0);
        near((Acceleration::m_per_s2(2.0) * Duration::seconds(3.0)).to_m_per_s(), 6.0);
    }

    #[test]
    fn a_battery_is_charge_and_voltage() {
        let battery = Charge::ah(100.0) * Voltage::v(12.8);
        near(battery.to_wh(), 1280.0);
        near((battery / Power::w(64.0)).to_hours(), 20.0);
        near((Power::w(120.0) / Voltage::v(12.0)).to_a(), 10.0);
        near((Current::a(5.0) * Duration::hours(3.0)).to_ah(), 15.0);
    }

    #[test]
    fn a_cable_drops_voltage() {
        let loop_resistance = LinearResistance::milliohm_per_m(3.08) * Length::m(10.0);
        near((Current::a(10.0) * loop_resistance).to_mv(), 308.0);
    }

    #[test]
    fn a_bar_grows_when_it_is_warm() {
        let rise = Temperature::celsius(70.0) - Temperature::celsius(20.0);
        let growth = Length::m(1.0) * (PerKelvin::ppm_per_k(23.0) * rise);
        near(growth.to_mm(), 1.15);
    }

    #[test]
    fn bending_stress_is_moment_over_section_modulus() {
        // b h²/6 for 20 x 30: 3000 mm³.
        let i = SecondMoment::mm4(20.0 * 30.0_f64.powi(3) / 12.0);
        let w: SectionModulus = i / Length::mm(15.0);
        assert_eq!(w, SectionModulus::mm3(3000.0));
        near((Moment::nm(30.0) / w).to_mpa(), 10.0);
    }

    #[test]
    fn dynamic_pressure_at_thirty_metres_a_second() {
        // EN 1991-1-4, 4.5 with its recommended 1.25 kg/m³: q = v²/1.6 Pa.
        let q = Pressure::dynamic(Density::kg_per_m3(1.25), Speed::m_per_s(30.0));
        near(q.to_pa(), 30.0 * 30.0 / 1.6);
    }
}
