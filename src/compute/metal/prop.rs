//! Props of a lifted frame in the parked storm: the bar as a strut, its holes, its pins, the walls that
//! bear them, and the mount that it stands on.
//!
//! A prop lies beside bracket and tube, not between: it is pushed half its thickness off its middle,
//! and its upper pin stands out from the tube over a packer.

use super::joint::{JOINT, YIELD};
use super::strut::{Curve, euler, grows};
use super::{Basis, MetalUse, entry_of, newtons};
use crate::compute::bonding::BondUse;
use crate::compute::loads::PropLoad;
use crate::derive::{MountPlace, MountShape, PropPlace, Stand};
use crate::source::Seen;
use crate::tables::{Material, Shape};
use crate::units::{Angle, Area, Length};

/// Stainless clevis pins.
const PINS: &str = "A2-50";

pub(super) fn props(basis: &Basis, bonds: &[BondUse], uses: &mut Vec<MetalUse>) {
    for prop in &basis.work.props {
        let Some(lifted) = basis.loads.lifted.iter().find(|l| l.frame == prop.frame) else {
            continue;
        };
        let stands: Vec<(&Stand, &PropLoad)> = prop
            .stands
            .iter()
            .filter_map(|stand| {
                lifted.stands.iter().find(|l| l.angle == stand.asked).map(|load| (stand, load))
            })
            .collect();
        let Ok(material) = basis.tables.material(&prop.section.material) else { continue };
        let it = It { prop, stands, material };
        it.strut(uses);
        it.net(uses);
        it.pins(basis, uses);
        it.stands_on(basis, bonds, uses);
    }
}

struct It<'a> {
    prop: &'a PropPlace,
    stands: Vec<(&'a Stand, &'a PropLoad)>,
    material: &'a Material,
}

pub(super) fn case(angle: Angle) -> String {
    format!("lifted to {:.0}°, parked storm", angle.to_deg())
}

impl It<'_> {
    fn entry(
        &self,
        key: &str,
        what: &'static str,
        (effect, capacity): (f64, f64),
        angle: Angle,
    ) -> MetalUse {
        let entry = entry_of(&self.prop.mark, "prop", self.prop.span);
        MetalUse {
            remedy: "take a stronger bar, lift less far, or put the mount that it stands on farther out",
            ..entry(key, what, effect, capacity, &case(angle))
        }
    }

    /// The stand with the greatest of something.
    fn most(&self, of: impl Fn(&Stand, &PropLoad) -> f64) -> Option<(&Stand, &PropLoad, f64)> {
        self.stands
            .iter()
            .map(|(stand, load)| (*stand, *load, of(stand, load)))
            .reduce(|most, next| if next.2 > most.2 { next } else { most })
    }

    /// Least of both ways, and with the push off the middle.
    fn strut(&self, uses: &mut Vec<MetalUse>) {
        let section = &self.prop.section;
        let proof = self.material.strength_at(section.t).proof.to_mpa();
        let inertia = section.least_second_moment();
        let (area, thick) = (section.area().to_mm2(), section.width().to_mm());
        let modulus =
            section.second_moment_y().min(section.second_moment_x()).to_mm4() / (thick / 2.0);
        let curve = Curve::of(self.material.kind);
        let of = |length: Length| {
            let critical = euler(self.material.modulus, inertia, length).to_n();
            let slender = (area * proof / critical).sqrt();
            let capacity = curve.left(slender) * area * proof / YIELD;
            (critical, slender, capacity)
        };
        let bends = modulus * proof / YIELD;
        let share = |stand: &Stand, load: &PropLoad| {
            let (critical, _, capacity) = of(stand.length);
            let push = load.push.to_n();
            // Pushed off its middle at both ends alike: the moment in the middle of a beam-column.
            push / capacity + push * thick / 2.0 * grows(push / critical) / bends
        };
        let Some((stand, load, share)) = self.most(share) else { return };
        let (critical, slender, capacity) = of(stand.length);
        uses.push(MetalUse {
            share,
            formula: "N/N_b + N e / cos(½ π √(N/N_cr)) / M; N_b = χ A f / 1.1, M = W f / 1.1",
            inputs: vec![
                ("N_cr".into(), newtons(critical)),
                ("λ, χ".into(), format!("{slender:.2}, {:.2}", curve.left(slender))),
                ("l".into(), stand.length.to_string()),
                ("A".into(), format!("{area:.0} mm²")),
                ("e".into(), format!("{:.1} mm, half its thickness", thick / 2.0)),
                ("f".into(), format!("{proof:.0} MPa")),
            ],
            source: "Euler; EN 1999-1-1, 6.3.1, or EN 1993-1-1, 6.3.1, pinned at both ends",
            seen: Seen::Memory,
            ..self.entry("strut", "prop, buckling", (load.push.to_n(), capacity), stand.asked)
        });
    }

    /// Torn across a hole.
    fn net(&self, uses: &mut Vec<MetalUse>) {
        let section = &self.prop.section;
        let ultimate = self.material.strength_at(section.t).ultimate.to_mpa();
        let hole = self.hole().to_mm();
        let walls = if section.shape == Shape::Flat { 1.0 } else { 2.0 };
        let net = (section.area().to_mm2() - walls * hole * section.t.to_mm()).max(0.0);
        let Some((stand, _, pull)) = self.most(|_, load| load.pull.to_n()) else { return };
        uses.push(MetalUse {
            formula: "F ≤ 0.9 Aₙ f / 1.25",
            inputs: vec![
                ("Aₙ".into(), format!("{net:.0} mm² beside a hole of {hole:.1} mm")),
                ("f".into(), format!("{ultimate:.0} MPa")),
            ],
            source: "EN 1999-1-1, 6.2.3, or EN 1993-1-1, 6.2.3",
            seen: Seen::Memory,
            ..self.entry(
                "net",
                "prop torn at a hole",
                (pull, 0.9 * net * ultimate / JOINT),
                stand.asked,
            )
        });
    }

    fn hole(&self) -> Length {
        // Medium series (ISO 273): a tenth over the pin and a little more.
        self.prop.diameter * 1.1
    }

    /// The greatest force either way, and at which angle.
    fn force(&self) -> Option<(f64, Angle)> {
        self.most(|_, load| load.push.to_n().max(load.pull.to_n()))
            .map(|(stand, _, force)| (force, stand.asked))
    }

    fn pins(&self, basis: &Basis, uses: &mut Vec<MetalUse>) {
        let Ok(grade) = basis.tables.bolt_grade(PINS) else { return };
        let Some((force, angle)) = self.force() else { return };
        let prop = self.prop;
        let d = prop.diameter.to_mm();
        let cut = Area::mm2(std::f64::consts::PI * d * d / 4.0).to_mm2();
        let shear = 0.6 * cut * grade.ultimate.to_mpa() / JOINT;
        let modulus = std::f64::consts::PI * d.powi(3) / 32.0;
        let bend = 1.5 * modulus * grade.proof.to_mpa() / YIELD;
        // Middle of the bar to the tube's wall over the packer.
        let arm = prop.stand_off.to_mm() + prop.section.width().to_mm() / 2.0;
        let moment = force * arm;
        uses.push(MetalUse {
            unit: "N·m",
            share: (moment / bend).powi(2) + (force / shear).powi(2),
            formula: "(M/Mᵣ)² + (F/Fᵣ)², M = F a, Mᵣ = 1.5 W f₀ / 1.1, Fᵣ = 0.6 A f / 1.25",
            inputs: vec![
                ("F".into(), newtons(force)),
                ("a".into(), format!("{arm:.1} mm from the bar's middle to the tube")),
                ("Fᵣ".into(), newtons(shear)),
                ("pin".into(), format!("{d:.0} mm, {PINS}")),
            ],
            source: "EN 1993-1-8:2005, table 3.10",
            seen: Seen::Memory,
            remedy: "take a thicker bolt in the bracket: the pins follow it",
            ..self.entry("pin", "prop pin in bending", (moment / 1e3, bend / 1e3), angle)
        });
        self.bearing(basis, uses, (force, angle, arm));
    }

    /// Walls that the pins bear on: the tube's outer one also takes what the pin levers.
    fn bearing(
        &self,
        basis: &Basis,
        uses: &mut Vec<MetalUse>,
        (force, angle, arm): (f64, Angle, f64),
    ) {
        let prop = self.prop;
        let d = prop.diameter.to_mm();
        let Some(frame) = basis.build.frames.get(prop.frame) else { return };
        let tube = &frame.section.value;
        let Ok(metal) = basis.tables.material(&tube.material) else { return };
        let inside = (tube.width() - tube.t).to_mm().max(1.0);
        let at_wall = force * (1.0 + arm / inside);
        let capacity = |material: &Material, wall: Length, walls: f64| {
            1.5 * d * wall.to_mm() * walls * material.strength_at(wall).proof.to_mpa() / YIELD
        };
        let walls = if prop.section.shape == Shape::Flat { 1.0 } else { 2.0 };
        let mut add = |key: &str, what, force: f64, capacity: f64, told: (&str, String)| {
            uses.push(MetalUse {
                formula: "F ≤ 1.5 d t f₀ / 1.1",
                inputs: vec![("d".into(), format!("{d:.0} mm")), (told.0.into(), told.1)],
                source: "EN 1993-1-8:2005, table 3.10; EN 1999-1-1, table 8.7, in the same form",
                seen: Seen::Memory,
                ..self.entry(key, what, (force, capacity), angle)
            });
        };
        add(
            "tube",
            "tube wall under the prop's pin",
            at_wall,
            capacity(metal, tube.t, 1.0),
            ("F", format!("{force:.0} N and its lever of {arm:.1} mm over {inside:.0} mm")),
        );
        add(
            "bar",
            "prop under its pin",
            force,
            capacity(self.material, prop.section.t, walls),
            ("t", format!("{} of the bar", prop.section.t)),
        );
        let leg = self.leg_material(basis);
        if let Some(material) = leg {
            add(
                "leg",
                "bracket under the prop's pin",
                force,
                capacity(material, prop.leg, 1.0),
                ("t", format!("{} of the leg", prop.leg)),
            );
        }
    }

    fn leg_material<'b>(&self, basis: &Basis<'b>) -> Option<&'b Material> {
        let (part, _) = basis.work.piece(&self.prop.leg_hole.piece)?;
        let section = part.body.bracket()?.section;
        basis.tables.material(&section.material).ok()
    }

    /// The mount under its foot; the bond of a bonded one is pulled.
    fn stands_on(&self, basis: &Basis, bonds: &[BondUse], uses: &mut Vec<MetalUse>) {
        let prop = self.prop;
        super::prop_foot::under(basis, prop, &self.stands, uses);
        let up = |stand: &Stand, load: &PropLoad| load.pull.to_n() * prop.way(stand.angle).1.abs();
        let Some((stand, _, pull)) = self.most(up) else { return };
        let Some(bond) = bonds.iter().find(|bond| bond.mark == prop.on) else { return };
        let bonded = |mount: &MountPlace| {
            mount.mark == prop.on && matches!(mount.kind, MountShape::BondedFoot { .. })
        };
        if !basis.work.mounts.iter().any(bonded) {
            return;
        }
        let capacity = bond.storm.limit.to_mpa() * bond.area.to_mm2() / bond.uneven.max(1.0);
        uses.push(MetalUse {
            formula: "F ≤ f A / u",
            inputs: vec![
                ("f".into(), bond.storm.limit.to_string()),
                ("A".into(), format!("{:.0} mm²", bond.area.to_mm2())),
                ("u".into(), format!("{:.2}, the bond's uneven pull", bond.uneven)),
            ],
            source: "design stress of the bond for seconds, wet",
            remedy: "stand the prop on a bolted foot or a clamp",
            ..self.entry("bond", "bond under the prop, pulled up", (pull, capacity), stand.asked)
        });
    }
}
