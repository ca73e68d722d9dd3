//! Adhesives and sealants by class.

use super::{Row, RowOrigin};
use crate::units::{
    Density, Duration, Length, Pressure, Ratio, Temperature, TemperatureRise, Unit, Volume,
};

/// What hardens it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum AdhesiveClass {
    /// One-part polyurethane, cures with moisture, contains isocyanate.
    Polyurethane1,
    /// Silyl-modified ("hybrid"), cures with moisture.
    Hybrid,
    /// Silicone, cures with moisture.
    Silicone,
    /// Two-part epoxy.
    Epoxy2,
    /// Two-part toughened acrylic.
    Acrylic2,
    /// Butyl tape; stays soft.
    ButylTape,
    /// Lap sealant over edges and screw heads.
    LapSealant,
    /// Sealant that dries as its solvent leaves.
    SolventBorne,
}

impl AdhesiveClass {
    /// As written in table files.
    pub const ALL: &'static [(&'static str, Self)] = &[
        ("polyurethane-one-part", Self::Polyurethane1),
        ("hybrid", Self::Hybrid),
        ("silicone", Self::Silicone),
        ("epoxy-two-part", Self::Epoxy2),
        ("acrylic-two-part", Self::Acrylic2),
        ("butyl-tape", Self::ButylTape),
        ("lap-sealant", Self::LapSealant),
        ("solvent-borne", Self::SolventBorne),
    ];
}

/// How it hardens.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Cure {
    /// From the open face inwards, with moisture. Depth grows with the root of time.
    Moisture {
        /// Depth from one open face in the first day at 23 °C and 50 %, to plan with.
        first_day: Length,
        /// The same, typical.
        first_day_typical: Length,
        /// Whether the rate follows the root of the vapour pressure.
        by_vapour: bool,
        /// Factor on the rate by 10 K, as a second clock; the later of the two decides.
        q10: Option<f64>,
    },
    /// All through, after mixing. Times are for 23 °C.
    Mixed {
        /// Time to use it up.
        pot_life: Duration,
        /// Time until it may be handled.
        handling: Duration,
        /// Time to full strength.
        full: Duration,
        /// Warming that halves the times.
        halves_per: TemperatureRise,
    },
    /// From the open face inwards, as solvent finds its way out: the time goes with the square of the
    /// depth. Times are for 23 °C.
    Dries {
        /// Time to dry a layer through from one open face.
        through: Duration,
        /// Thickness of that layer.
        layer: Length,
        /// Warming that halves the times.
        halves_per: TemperatureRise,
    },
    /// Never.
    StaysSoft,
}

/// Sizes of a sealant that comes as a tape.
#[derive(Clone, Debug, PartialEq)]
pub struct TapeForm {
    /// Widths sold.
    pub widths: Vec<Length>,
    /// Thicknesses sold.
    pub thicknesses: Vec<Length>,
    /// Lengths of rolls sold.
    pub roll_lengths: Vec<Length>,
}

/// A class of adhesive or sealant.
#[derive(Clone, Debug, PartialEq)]
pub struct Adhesive {
    /// Kebab-case class name.
    pub name: String,
    /// For people.
    pub words: String,
    /// What hardens it.
    pub class: AdhesiveClass,
    /// Whether it may carry load. If not, its design stresses are zero.
    pub structural: bool,
    /// Design stress in tension for short loads.
    pub tension_design: Pressure,
    /// Design stress in shear for short loads.
    pub shear_design: Pressure,
    /// Share of the design stresses for loads that stay.
    pub sustained_share: Ratio,
    /// Share of strength left when hot.
    pub hot_factor: Ratio,
    /// Temperature that `hot_factor` is for.
    pub hot_from: Temperature,
    /// Share of strength left after ageing in water.
    pub wet_factor: Ratio,
    /// Modulus, for sharing load between unlike bonds.
    pub modulus: Pressure,
    /// How it hardens.
    pub cure: Cure,
    /// Time until a skin forms, from and to, at 23 °C and 50 %.
    pub skin: Option<[Duration; 2]>,
    /// Time to close the joint after laying the bead.
    pub open_time: Option<Duration>,
    /// Time until it is firm to the touch throughout a thin layer.
    pub firm: Option<Duration>,
    /// Application temperatures of surface and product, from and to.
    pub application: [Temperature; 2],
    /// The surface must be this much above the dew point.
    pub dew_margin: TemperatureRise,
    /// Service temperatures, from and to.
    pub service: [Temperature; 2],
    /// Density.
    pub density: Density,
    /// Packs sold.
    pub packs: Vec<Volume>,
    /// Sizes of a sealant that comes as a tape.
    pub tape: Option<TapeForm>,
    /// Share lost in nozzle, ends and tooling.
    pub waste: Ratio,
    /// Joint movement each way as a share of its width.
    pub movement: Ratio,
    /// Thinnest bed.
    pub least_bed: Length,
    /// Bed to aim for.
    pub best_bed: Length,
    /// Volume lost while it hardens.
    pub shrinkage: Ratio,
    /// Whether a primer belongs under it on metal.
    pub needs_primer: bool,
    /// Hazard keys, such as `isocyanate`; see [`super::Protective`].
    pub hazards: Vec<String>,
    /// What takes it off.
    pub clean_up: String,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl Adhesive {
    /// Depth cured from one open face after `elapsed` at 23 °C and 50 %, by the planning value:
    /// `d = d₁ √(t / 1 d)`. None where it doesn't harden from a face inwards.
    pub fn depth_after(&self, elapsed: Duration) -> Option<Length> {
        match self.cure {
            Cure::Moisture { first_day, .. } => Some(first_day * elapsed.to_days().max(0.0).sqrt()),
            Cure::Dries { through, layer, .. } => Some(layer * (elapsed / through).max(0.0).sqrt()),
            Cure::Mixed { .. } | Cure::StaysSoft => None,
        }
    }

    /// Volume to buy for `net` in place: what it loses while it hardens, and what stays in nozzle and
    /// ends, are added.
    pub fn gross(&self, net: Volume) -> Volume {
        let kept = (1.0 - self.shrinkage.to_fraction()).max(0.1);
        net * ((1.0 + self.waste.to_fraction()) / kept)
    }

    /// Whether it carries a hazard key.
    pub fn has_hazard(&self, key: &str) -> bool {
        self.hazards.iter().any(|hazard| hazard == key)
    }
}

fn cure(row: &mut Row<'_>, class: AdhesiveClass) -> Cure {
    match class {
        AdhesiveClass::ButylTape => Cure::StaysSoft,
        AdhesiveClass::Epoxy2 | AdhesiveClass::Acrylic2 => Cure::Mixed {
            pot_life: row.quantity("pot-life", Unit::MIN),
            handling: row.quantity("handling", Unit::H),
            full: row.quantity("full-cure", Unit::H),
            halves_per: row.quantity("halves-per", Unit::KELVIN_RISE),
        },
        AdhesiveClass::SolventBorne => Cure::Dries {
            through: row.quantity("through", Unit::H),
            layer: row.quantity("through-layer", Unit::MM),
            halves_per: row.quantity_above_zero("halves-per", Unit::KELVIN_RISE),
        },
        _ => {
            let [first_day, first_day_typical] = row.quantities("depth-first-day", Unit::MM);
            Cure::Moisture {
                first_day,
                first_day_typical,
                by_vapour: row.flag("vapour"),
                q10: row.maybe_number("q10"),
            }
        }
    }
}

entry!(Adhesive, "adhesive", from_row);

impl Adhesive {
    fn from_row(row: &mut Row<'_>) -> Self {
        let class = row.choice("class", AdhesiveClass::ALL);
        Self {
            name: row.words("name"),
            words: row.words("words"),
            class,
            structural: row.flag("structural"),
            tension_design: row.quantity("tension", Unit::KPA),
            shear_design: row.quantity("shear", Unit::KPA),
            sustained_share: row.quantity("sustained-share", Unit::ONE),
            hot_factor: row.quantity("hot-factor", Unit::ONE),
            hot_from: row.quantity("hot-from", Unit::CELSIUS),
            wet_factor: row.quantity("wet-factor", Unit::ONE),
            modulus: row.quantity("modulus", Unit::MPA),
            cure: cure(row, class),
            skin: row.maybe_quantities("skin", Unit::MIN),
            open_time: row.maybe("open-time", Unit::MIN),
            firm: row.maybe("firm", Unit::H),
            application: row.quantities("application", Unit::CELSIUS),
            dew_margin: row.quantity("dew-margin", Unit::KELVIN_RISE),
            service: row.quantities("service", Unit::CELSIUS),
            density: row.quantity("density", Unit::KG_PER_M3),
            packs: row.quantity_list("packs", Unit::ML),
            tape: row.inner("tape", |row| TapeForm {
                widths: row.quantity_list("widths", Unit::MM),
                thicknesses: row.quantity_list("thicknesses", Unit::MM),
                roll_lengths: row.quantity_list("roll-lengths", Unit::MM),
            }),
            waste: row.quantity("waste", Unit::ONE),
            movement: row.quantity("movement", Unit::ONE),
            least_bed: row.quantity("least-bed", Unit::MM),
            best_bed: row.quantity("best-bed", Unit::MM),
            shrinkage: row.quantity("shrinkage", Unit::ONE),
            needs_primer: row.flag("needs-primer"),
            hazards: row.words_list("hazards"),
            clean_up: row.words("clean-up"),
            origin: row.origin(),
        }
    }
}
