//! Rows that the work needs beyond what the build file names: a section's material, joint angles,
//! rivets and rivet nuts.

use crate::tables::{
    BlindRivet, CornerConnector, Hinge, Material, MaterialKind, RivetNut, Section, Shape, Tables,
    Thread,
};
use crate::units::{Area, Density, Length, Mass, Volume};

/// Density of a bar whose material row is not known: steel, the heaviest in use, so that the roof's
/// load is not told too low.
const UNKNOWN: Density = Density::kg_per_m3(7850.0);

/// Material row of a section.
pub(super) fn material_of(section: &Section) -> Option<&'static Material> {
    material(&section.material)
}

/// A material row by name.
pub(super) fn material(name: &str) -> Option<&'static Material> {
    Tables::builtin().material(name).ok()
}

/// A section row by name.
pub(super) fn section(name: &str) -> Option<Section> {
    Tables::builtin().section(name).ok().cloned()
}

/// Mass of a length of a section.
pub(super) fn bar_mass(section: &Section, length: Length) -> Mass {
    density_of(&section.material) * (section.area() * length)
}

fn density_of(material_name: &str) -> Density {
    material(material_name).map_or(UNKNOWN, |row| row.density)
}

/// The plain aluminium blind rivet of a diameter.
pub(super) fn rivet(diameter: Length) -> Option<BlindRivet> {
    Tables::builtin()
        .blind_rivets
        .iter()
        .find(|rivet| {
            rivet.diameter == diameter
                && !rivet.sealed
                && material(&rivet.material).is_some_and(|row| row.kind == MaterialKind::Aluminium)
        })
        .cloned()
}

/// The rivet nut for a thread in a wall: of the wall's own kind of metal where there is one, so that
/// damp does not eat the pair, else the strongest that grips it.
pub(super) fn rivet_nut(thread: &Thread, section: &Section) -> Option<RivetNut> {
    let wall = material_of(section).map(|row| row.kind);
    let fits = |nut: &&RivetNut| nut.thread == thread.name && nut.grips(section.t);
    let kind = |nut: &RivetNut| material(&nut.material).map(|row| row.kind);
    let all = || Tables::builtin().rivet_nuts.iter().filter(fits);
    let shortest = |a: &&RivetNut, b: &&RivetNut| a.length.total_cmp(&b.length);
    all()
        .filter(|nut| kind(nut) == wall)
        .min_by(shortest)
        .or_else(|| all().max_by(|a, b| a.pull_out.total_cmp(&b.pull_out)))
        .cloned()
}

/// Mass of a push-in connector with two spigots: a moulding is about half hollow (common practice).
pub(super) fn connector_mass(connector: &CornerConnector) -> Mass {
    let inside = connector.tube - connector.wall * 2.0;
    let solid: Volume =
        connector.cube * connector.cube * connector.cube + inside * inside * connector.spigot * 2.0;
    density_of(&connector.material) * (solid * 0.5)
}

/// Mass of a hinge: two leaves and the pin.
pub(super) fn hinge_mass(hinge: &Hinge) -> Mass {
    let leaves: Volume = hinge.length * hinge.leaf * hinge.thickness * 2.0;
    let pin: Volume = Area::circle(hinge.pin) * hinge.length;
    density_of(&hinge.material) * (leaves + pin)
}

/// The flat bar of a material with this width and thickness, which a plate is then cut from.
pub(super) fn flat(material: &Material, width: Length, thickness: Length) -> Option<Section> {
    Tables::builtin()
        .sections
        .iter()
        .find(|section| {
            section.shape == Shape::Flat
                && section.material == material.name
                && section.a.is_near(width, Length::SLACK)
                && section.t.is_near(thickness, Length::SLACK)
        })
        .cloned()
}
