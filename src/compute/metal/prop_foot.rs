//! What a prop does to the mount that it stands on: its standing leg at the bend, the bolts or screws of its
//! lying leg, a clamp on its rail, and the roof skin under it.
//!
//! The prop leans on the outer face of the standing leg, over the lying one: its force has an upright part, off
//! the leg's middle, and one along the leg at the height of the pin. While the frame is up the mount
//! carries nothing else.

use super::foot::Entry;
use super::hinge::{ALPHA, GRADE};
use super::joint::{self, YIELD, strip_modulus};
use super::{Basis, MetalUse, bracketed, entry_of, millimetres, newtons};
use crate::build::MountKind;
use crate::compute::loads::PropLoad;
use crate::derive::{HoleKind, MountPlace, MountShape, PropPlace, Stand};
use crate::source::Seen;
use crate::tables::{Section, Thread};
use crate::units::{Angle, Length, Pressure};

/// What a prop does to its mount at one angle, N.
#[derive(Debug, Clone, Copy)]
struct At {
    angle: Angle,
    /// Off the roof; negative presses.
    up: f64,
    /// Along the standing leg.
    along: f64,
}

/// The bracket that a prop stands on.
struct Under<'a> {
    place: &'a MountPlace,
    kind: &'a MountKind,
    section: &'a Section,
    /// Along the heel, mm.
    length: f64,
    /// Breadth of the lying leg, mm.
    lying: f64,
    /// Pin over the heel, mm.
    height: f64,
    /// Prop's middle off that of the standing leg, mm.
    off: f64,
    /// Rows of bolts from the heel, mm; one row twice.
    rows: [f64; 2],
    /// Between the two bolts of a row, mm.
    pitch: f64,
    at: Vec<At>,
}

/// Adds what could give way under a prop.
pub(super) fn under(
    basis: &Basis,
    prop: &PropPlace,
    stands: &[(&Stand, &PropLoad)],
    uses: &mut Vec<MetalUse>,
) {
    let Some(it) = Under::new(basis, prop, stands) else { return };
    let entry = entry_of(&prop.mark, "prop", prop.span);
    it.bend(basis, uses, &entry);
    it.bolts(basis, uses, &entry);
    it.slides(basis, uses, &entry);
    it.skin(basis, uses, &entry);
}

impl<'a> Under<'a> {
    fn new(basis: &Basis<'a>, prop: &PropPlace, stands: &[(&Stand, &PropLoad)]) -> Option<Self> {
        let work = basis.work;
        let place = work.mounts.iter().find(|mount| mount.mark == prop.on)?;
        let (part, _) = work.piece(&prop.leg_hole.piece)?;
        let bracket = part.body.bracket()?;
        let number = work.parts.iter().position(|other| std::ptr::eq(other, part))?;
        let lying = part.faces.iter().position(|face| face.name == "lying leg")?;
        let holes = work.holes.iter().filter(|hole| {
            hole.part == number && hole.face == lying && hole.kind != HoleKind::Drain
        });
        let (mut rows, mut along) = ([f64::MAX, 0.0_f64], [f64::MAX, 0.0_f64]);
        for hole in holes {
            let (x, y) = (hole.at.x.to_mm(), hole.at.y.to_mm());
            rows = [rows[0].min(y), rows[1].max(y)];
            along = [along[0].min(x), along[1].max(x)];
        }
        let forces = stands.iter().flat_map(|(stand, load)| {
            let (level, up) = prop.way(stand.angle);
            [load.pull.to_n(), -load.push.to_n()].map(|force| At {
                angle: stand.asked,
                up: force * up,
                along: (force * level).abs(),
            })
        });
        let at = forces.collect();
        (rows[1] > 0.0 && along[1] > along[0]).then_some(())?;
        Some(Self {
            place,
            kind: &basis.build.mounts.get(place.mount)?.kind,
            section: bracket.section,
            length: bracket.length.to_mm(),
            lying: part.faces[lying].width.to_mm(),
            height: work.hole(&prop.leg_hole.hole)?.at.y.to_mm(),
            off: prop.off_leg.to_mm(),
            rows,
            pitch: along[1] - along[0],
            at,
        })
    }

    /// Prop's middle from the heel's outer side.
    fn off_heel(&self) -> f64 {
        self.off + self.section.t.to_mm() / 2.0
    }

    /// The angle at which a share is greatest, with what it is made of.
    fn worst<T>(&self, of: impl Fn(At) -> (f64, T)) -> Option<(f64, T, At)> {
        self.at
            .iter()
            .map(|at| {
                let (share, what) = of(*at);
                (share, what, *at)
            })
            .reduce(|worst, next| if next.0 > worst.0 { next } else { worst })
    }

    /// The standing leg over its bend: bent off its plane, in its plane, and pulled or pressed.
    fn bend(&self, basis: &Basis, uses: &mut Vec<MetalUse>, entry: &Entry<'_>) {
        let Ok(material) = basis.tables.material(&self.section.material) else { return };
        let proof = material.strength_at(self.section.t).proof.to_mpa();
        let yields = proof / YIELD;
        let thick = self.section.t.to_mm();
        let flat = strip_modulus(Length::mm(self.length), self.section.t);
        let edge = thick * self.length.powi(2) / 6.0;
        let stress = |at: At| {
            let (out, level) = (at.up.abs() * self.off, at.along * self.height);
            let all = out / flat + level / edge + at.up.abs() / (self.length * thick);
            (all / yields, out)
        };
        let Some((share, out, at)) = self.worst(stress) else { return };
        uses.push(MetalUse {
            unit: "N·m",
            share,
            formula: "(V e / (l t²/6) + H h / (t l²/6) + V / (l t)) ≤ f / 1.1",
            inputs: vec![
                ("V, H".into(), format!("{}, {}", newtons(at.up.abs()), newtons(at.along))),
                ("e".into(), format!("{:.1} mm from leg to prop, middle to middle", self.off)),
                ("h".into(), format!("{:.1} mm from heel to pin", self.height)),
                ("l, t".into(), format!("{:.0}, {}", self.length, self.section.t)),
                ("f".into(), format!("{proof:.0} MPa")),
            ],
            source: "statics; EN 1999-1-1, 6.2.5, elastic",
            seen: Seen::Memory,
            remedy: "take a longer bracket or a thicker one",
            ..entry(
                "bracket",
                "bracket under the prop at its bend",
                out / 1e3,
                flat * yields / 1e3,
                &super::prop::case(at.angle),
            )
        });
    }

    /// Pull on one bolt of the row by the heel.
    fn pull(&self, at: At) -> f64 {
        let tips = at.along * self.height;
        if at.up > 0.0 {
            let end = if self.rows[1] > self.rows[0] + 0.5 { self.rows[1] } else { self.lying };
            let row = self.rows[0];
            let share = (end - self.off_heel().min(row)) / (end - row).max(1.0);
            return at.up * share / 2.0 + tips / self.pitch;
        }
        // Pressed, it tips over its own end, and the bolt farther from there holds it.
        let left = tips + at.up * self.length / 2.0;
        (left / f64::midpoint(self.length, self.pitch)).max(0.0)
    }

    fn bolts(&self, basis: &Basis, uses: &mut Vec<MetalUse>, entry: &Entry<'_>) {
        let (bolt, countersunk): (&Thread, bool) = match self.kind {
            MountKind::BoltedFoot(foot) => (&foot.roof_bolt, false),
            MountKind::RailClamp(clamp) => (&clamp.clamp_bolt, false),
            MountKind::BondedFoot(foot) => (&foot.plate_screw, true),
            MountKind::Hinge(_) => return,
        };
        let Ok(grade) = basis.tables.bolt_grade(GRADE) else { return };
        let shear = joint::bolt_shear(ALPHA, grade.ultimate, bolt.stress_area).to_n();
        let limit = joint::bolt_tension(countersunk, grade.ultimate, bolt.stress_area).to_n();
        let Some((share, pull, at)) = self.worst(|at| {
            let pull = self.pull(at);
            (joint::together(at.along / 2.0 / shear, pull / limit), pull)
        }) else {
            return;
        };
        let way = if at.up > 0.0 { "pulled" } else { "pressed" };
        uses.push(MetalUse {
            share,
            formula: "V/Vᵣ + T/(1.4 Tᵣ); pulled: T = U (b − x) / (b − a) / 2 + H h / p, Tᵣ = k f Aₛ / 1.25",
            inputs: vec![
                ("U, H".into(), format!("{}, {}, {way}", newtons(at.up.abs()), newtons(at.along))),
                ("x, a, b".into(), self.levers()),
                ("h, p".into(), format!("{:.1}, {:.1} mm", self.height, self.pitch)),
                ("k".into(), if countersunk { "0.63" } else { "0.9" }.into()),
                ("bolt".into(), format!("{} {GRADE}, two", bolt.name)),
            ],
            source: "statics of a rigid leg; EN 1993-1-8:2005, table 3.4",
            seen: Seen::Verified,
            remedy: "take the next larger bolt, or a bracket with a longer lying leg",
            ..entry(
                "foot",
                "bolt of the foot under the prop",
                pull,
                limit,
                &super::prop::case(at.angle),
            )
        });
    }

    fn levers(&self) -> String {
        let end = if self.rows[1] > self.rows[0] + 0.5 { self.rows[1] } else { self.lying };
        format!("{:.1}, {:.1}, {end:.1} mm from the heel", self.off_heel(), self.rows[0])
    }

    /// A clamp along its rail.
    fn slides(&self, basis: &Basis, uses: &mut Vec<MetalUse>, entry: &Entry<'_>) {
        let MountKind::RailClamp(clamp) = self.kind else { return };
        let Some(grip) = bracketed::Grip::new(basis, clamp) else { return };
        let Some((_, (along, holds), at)) = self.worst(|at| {
            let holds = grip.holds(at.up);
            (at.along / holds.max(1e-9), (at.along, holds))
        }) else {
            return;
        };
        uses.push(MetalUse {
            formula: bracketed::SLIDES,
            inputs: grip.inputs(),
            source: bracketed::FRICTION_SOURCE,
            seen: Seen::Memory,
            remedy: "stand the prop on a bolted foot, or put a bolt through the rail as a stop",
            ..entry(
                "slide",
                "clamp under the prop sliding",
                along,
                holds,
                &super::prop::case(at.angle),
            )
        });
    }

    /// The skin pulled up round spreader or plate, and pressed under the leg or plate. What is pressed off its
    /// middle bears on the part that has the force in its middle.
    fn skin(&self, basis: &Basis, uses: &mut Vec<MetalUse>, entry: &Entry<'_>) {
        let Some(vehicle) = &basis.build.vehicle else { return };
        let (pulled, pressed, remedy) = match (self.kind, &self.place.kind) {
            (MountKind::BoltedFoot(foot), _) => (
                (foot.spreader.length.to_mm(), foot.spreader.width.to_mm()),
                (self.length, self.lying),
                "take a larger spreader and a longer bracket, or set the foot over a roof bow",
            ),
            (MountKind::BondedFoot(foot), MountShape::BondedFoot { .. }) => {
                let plate = (foot.plate.length.to_mm(), foot.plate.width.to_mm());
                (plate, plate, "take a larger plate, or set it over a roof bow")
            }
            _ => return,
        };
        let skin = &vehicle.skin;
        let proof = skin.material.strength_at(*skin.thickness).proof;
        let mut judge = |key, what, down: bool, size: (f64, f64)| {
            let way = if down { -1.0 } else { 1.0 };
            let Some((share, (force, rim), at)) = self.worst(|at| {
                let force = (at.up * way).max(0.0);
                let rim = if down { self.pressed_rim(at, size) } else { 2.0 * (size.0 + size.1) };
                let capacity = skin_holds(rim, *skin.thickness, proof, skin.material.modulus);
                (force / capacity.max(1e-9), (force, rim))
            }) else {
                return;
            };
            let capacity = skin_holds(rim, *skin.thickness, proof, skin.material.modulus);
            uses.push(MetalUse {
                share,
                formula: "F ≤ u t f √(2 f / E) / 1.1; pressed: u round (l − 2 H h / F) by (w − 2 |x − w/2|)",
                inputs: vec![
                    ("F".into(), newtons(force)),
                    ("u".into(), format!("{} of {:.0} × {:.0} mm", millimetres(rim), size.0, size.1)),
                    ("t".into(), skin.thickness.to_string()),
                    ("f".into(), format!("{:.0} MPa", proof.to_mpa())),
                ],
                source: "a cone of membrane round a stiff pad: statics and Hooke's law; no published source; the part \
                         that bears as in EN 1997-1, annex D (from memory)",
                seen: Seen::Memory,
                remedy,
                span: skin.thickness.span,
                ..entry(key, what, force, capacity, &super::prop::case(at.angle))
            });
        };
        judge("skin-pull", "roof skin pulled up by the prop", false, pulled);
        judge("skin-dent", "roof skin pressed by the prop", true, pressed);
    }

    /// Round the part that bears where a pad is pressed off its middle; a third of its length at least, as
    /// its bolts hold the other end down.
    fn pressed_rim(&self, at: At, (length, width): (f64, f64)) -> f64 {
        let off = at.along * self.height / (-at.up).max(1e-9);
        let long = (length - 2.0 * off).max(length / 3.0);
        // A plate goes on beyond the heel; how far is not asked here.
        let beside = (self.off_heel() - self.lying / 2.0).abs();
        2.0 * (long + (width - 2.0 * beside).max(width / 3.0))
    }
}

fn skin_holds(rim: f64, thickness: Length, proof: Pressure, modulus: Pressure) -> f64 {
    joint::skin_at_rim(Length::mm(rim), thickness, proof, modulus).to_n()
}
