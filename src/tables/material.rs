//! Materials.

use super::{Entry, Row, RowOrigin};
use crate::units::{Density, Length, PerKelvin, Pressure, Speed, Unit};

/// What a material is made of, as far as drilling, bonding and corrosion care.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum MaterialKind {
    /// Aluminium alloys.
    Aluminium,
    /// Carbon steels, galvanised ones too.
    Steel,
    /// Stainless steels.
    Stainless,
    /// Glass-fibre laminates.
    GlassReinforced,
    /// Wood and boards.
    Wood,
    /// Plastics.
    Plastic,
    /// Rubbers and membranes.
    Rubber,
    /// Glass.
    Glass,
}

impl MaterialKind {
    /// As written in table files.
    pub const ALL: &'static [(&'static str, Self)] = &[
        ("aluminium", Self::Aluminium),
        ("steel", Self::Steel),
        ("stainless", Self::Stainless),
        ("glass-reinforced", Self::GlassReinforced),
        ("wood", Self::Wood),
        ("plastic", Self::Plastic),
        ("rubber", Self::Rubber),
        ("glass", Self::Glass),
    ];

    /// Whether it is a metal.
    pub const fn is_metal(self) -> bool {
        matches!(self, Self::Aluminium | Self::Steel | Self::Stainless)
    }
}

/// Strength of a material in a wall of some thickness.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strength {
    /// 0.2 % proof stress or yield.
    pub proof: Pressure,
    /// Least tensile strength.
    pub ultimate: Pressure,
}

/// Better strength of thin walls, where a standard gives it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThinWall {
    /// Thickest wall that it holds for.
    pub up_to: Length,
    /// The strength of such a wall.
    pub strength: Strength,
}

/// A material with what calculations and instructions need to know of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Material {
    /// Kebab-case class name.
    pub name: String,
    /// Other names it answers to.
    pub also: Vec<String>,
    /// For people, such as "aluminium 6060 T66".
    pub words: String,
    /// What it is made of.
    pub kind: MaterialKind,
    /// Density.
    pub density: Density,
    /// Modulus of elasticity.
    pub modulus: Pressure,
    /// 0.2 % proof stress or yield that holds for every wall sold.
    pub proof: Pressure,
    /// Tensile strength that holds for every wall sold.
    pub ultimate: Pressure,
    /// Better strength of thin walls.
    pub thin_wall: Option<ThinWall>,
    /// Linear thermal expansion.
    pub expansion: PerKelvin,
    /// Lowest and highest published expansion, where sources spread.
    pub expansion_range: Option<[PerKelvin; 2]>,
    /// Poisson's ratio.
    pub poisson: Option<f64>,
    /// Cutting speed of a high-speed-steel drill, low and high; none for what isn't drilled.
    pub cutting_speed: Option<[Speed; 2]>,
    /// What to put on the drill.
    pub coolant: Option<String>,
    /// What a bond to it needs.
    pub bond_notes: String,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl Material {
    /// Strength in a wall of this thickness.
    pub fn strength_at(&self, wall: Length) -> Strength {
        match self.thin_wall {
            Some(thin) if wall <= thin.up_to => thin.strength,
            _ => Strength { proof: self.proof, ultimate: self.ultimate },
        }
    }

    /// Turns of a drill by minute, for the slow and the fast end of the cutting speed:
    /// `n = v / (π d)`. None for what isn't drilled.
    pub fn drill_speed(&self, diameter: Length) -> Option<[f64; 2]> {
        let round = std::f64::consts::PI * diameter.to_mm() / 1000.0;
        (round > 0.0).then_some(())?;
        self.cutting_speed.map(|speeds| speeds.map(|speed| speed.to_m_per_s() * 60.0 / round))
    }
}

fn strength(row: &mut Row<'_>) -> Strength {
    Strength {
        proof: row.quantity("proof", Unit::MPA),
        ultimate: row.quantity("ultimate", Unit::MPA),
    }
}

impl Entry for Material {
    const KIND: &'static str = "material";

    fn name(&self) -> &str {
        &self.name
    }

    fn also(&self) -> &[String] {
        &self.also
    }

    fn origin(&self) -> &RowOrigin {
        &self.origin
    }

    fn read_all(row: &mut Row<'_>) -> Vec<Self> {
        vec![Self::from_row(row)]
    }
}

impl Material {
    fn from_row(row: &mut Row<'_>) -> Self {
        let Strength { proof, ultimate } = strength(row);
        Self {
            name: row.words("name"),
            also: row.words_list("also"),
            words: row.words("words"),
            kind: row.choice("kind", MaterialKind::ALL),
            density: row.quantity("density", Unit::KG_PER_M3),
            modulus: row.quantity("modulus", Unit::MPA),
            proof,
            ultimate,
            thin_wall: row.inner("thin-wall", |row| ThinWall {
                up_to: row.quantity("up-to", Unit::MM),
                strength: strength(row),
            }),
            expansion: row.quantity("expansion", Unit::PPM_PER_K),
            expansion_range: row.maybe_quantities("expansion-range", Unit::PPM_PER_K),
            poisson: row.maybe_number("poisson"),
            cutting_speed: row.maybe_numbers("cutting-speed").map(|speeds: [f64; 2]| {
                // Shop tables give metres a minute.
                speeds.map(|speed| Speed::m_per_s(speed / 60.0))
            }),
            coolant: row.maybe_words("coolant"),
            bond_notes: row.words("bond-notes"),
            origin: row.origin(),
        }
    }
}
