//! Acrylic foam tapes.

use super::{Row, RowOrigin};
use crate::units::{Density, Duration, Length, Pressure, Ratio, Temperature, Unit};

/// Gas constant in kJ/(mol·K), exact since the SI of 2019.
const GAS: f64 = 8.314_462_618_153_24e-3;

/// A class of double-sided foam tape.
#[derive(Clone, Debug, PartialEq)]
pub struct Tape {
    /// Kebab-case class name.
    pub name: String,
    /// For people.
    pub words: String,
    /// Thicknesses sold.
    pub thicknesses: Vec<Length>,
    /// Widths sold.
    pub widths: Vec<Length>,
    /// Lengths of rolls sold.
    pub roll_lengths: Vec<Length>,
    /// Design stress for gusts, braking and cornering, shear or tension, fully built up, at 23 °C.
    pub short_term: Pressure,
    /// The only short-term value that was read in a document, to show how much rests on practice.
    pub short_term_read: Option<Pressure>,
    /// Design stress for what pulls or shears all the time.
    pub sustained: Pressure,
    /// Share of strength left when hot.
    pub hot_factor: Ratio,
    /// Temperature that `hot_factor` is for.
    pub hot_from: Temperature,
    /// Least temperature of surface and tape at application.
    pub least_application: Temperature,
    /// Best application temperatures, from and to.
    pub ideal_application: [Temperature; 2],
    /// Highest surface temperature at application.
    pub most_application: Temperature,
    /// Pressure with which to roll it on.
    pub application_pressure: Pressure,
    /// Build-up: time and share of final strength, rising, at `built_up_at`.
    pub built_up: Vec<(Duration, Ratio)>,
    /// Temperature of the build-up points.
    pub built_up_at: Temperature,
    /// Activation energy that moves the build-up times with temperature, in kJ/mol.
    pub activation_kj_per_mol: f64,
    /// Service temperatures for years, from and to.
    pub service: [Temperature; 2],
    /// Highest temperature for minutes to hours.
    pub service_short: Temperature,
    /// Shear movement each way as a share of the thickness, for design.
    pub movement: Ratio,
    /// Shear movement at the most, before harm.
    pub movement_ultimate: Ratio,
    /// Thickness needed as a multiple of the gap between rigid faces that don't match.
    pub thickness_by_gap: f64,
    /// Density.
    pub density: Density,
    /// Modulus in tension and shear order of magnitude, for sharing load between unlike bonds.
    pub modulus: Pressure,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl Tape {
    /// The share of final strength after `elapsed` at a steady temperature `at`.
    ///
    /// Straight lines between the build-up points over the logarithm of time; the first line is
    /// carried back towards zero, after the last point the bond is full. Times are scaled by
    /// Arrhenius from the temperature of the points.
    pub fn built_up_after(&self, elapsed: Duration, at: Temperature) -> Ratio {
        self.built_up_share(elapsed * self.rate(at))
    }

    /// How many times faster than at the temperature of the build-up points the bond builds up.
    pub fn rate(&self, at: Temperature) -> f64 {
        let per_kelvin = 1.0 / self.built_up_at.to_k() - 1.0 / at.to_k().max(1.0);
        (self.activation_kj_per_mol / GAS * per_kelvin).exp()
    }

    /// The share of final strength after `elapsed` at the temperature of the points.
    pub fn built_up_share(&self, elapsed: Duration) -> Ratio {
        let Some((last, full)) = self.built_up.last().copied() else { return Ratio::ONE };
        if elapsed >= last {
            return full;
        }
        if elapsed <= Duration::ZERO {
            return Ratio::ZERO;
        }
        let pair = self
            .built_up
            .windows(2)
            .find(|pair| elapsed < pair[1].0)
            .or_else(|| self.built_up.windows(2).last());
        let Some([(t0, s0), (t1, s1)]) = pair else { return Ratio::ZERO };
        let along = (elapsed / *t0).ln() / (*t1 / *t0).ln();
        (*s0 + (*s1 - *s0) * along).clamp(Ratio::ZERO, Ratio::ONE)
    }
}

entry!(Tape, "tape", from_row);

impl Tape {
    fn from_row(row: &mut Row<'_>) -> Self {
        let built_up: Vec<(Duration, Ratio)> = row
            .number_rows("built-up")
            .into_iter()
            .map(|[minutes, share]| (Duration::minutes(minutes), Ratio::of_one(share)))
            .collect();
        let rising =
            built_up.windows(2).all(|pair| pair[0].0 < pair[1].0 && pair[0].1 <= pair[1].1);
        if !rising || built_up.len() < 2 || built_up[0].0 <= Duration::ZERO {
            row.refuse("built-up", "takes two or more [minutes, share], both rising");
        }
        let [movement, movement_ultimate] = row.quantities("movement", Unit::ONE);
        Self {
            name: row.words("name"),
            words: row.words("words"),
            thicknesses: row.quantity_list("thicknesses", Unit::MM),
            widths: row.quantity_list("widths", Unit::MM),
            roll_lengths: row.quantity_list("roll-lengths", Unit::MM),
            short_term: row.quantity("short-term", Unit::KPA),
            short_term_read: row.maybe("short-term-read", Unit::KPA),
            sustained: row.quantity("sustained", Unit::KPA),
            hot_factor: row.quantity("hot-factor", Unit::ONE),
            hot_from: row.quantity("hot-from", Unit::CELSIUS),
            least_application: row.quantity("least-application", Unit::CELSIUS),
            ideal_application: row.quantities("ideal-application", Unit::CELSIUS),
            most_application: row.quantity("most-application", Unit::CELSIUS),
            application_pressure: row.quantity("application-pressure", Unit::KPA),
            built_up,
            built_up_at: row.quantity("built-up-at", Unit::CELSIUS),
            activation_kj_per_mol: row.number("activation"),
            service: row.quantities("service", Unit::CELSIUS),
            service_short: row.quantity("service-short", Unit::CELSIUS),
            movement,
            movement_ultimate,
            thickness_by_gap: row.number("thickness-by-gap"),
            density: row.quantity("density", Unit::KG_PER_M3),
            modulus: row.quantity("modulus", Unit::KPA),
            origin: row.origin(),
        }
    }
}
