//! Cuts through feet, hinges and the entry, to scale.

use super::StepBasis;
use crate::build::MountKind;
use crate::derive::{Body, Bond, MountPlace, MountShape, Part, PartKind};
use crate::page::scene::{At, Fill, Line, Scene, Side};
use crate::units::{Angle, Length, display};

fn number(length: Length) -> String {
    display::number_short(length.to_mm(), 1)
}

/// The first foot with its bond and the parts of its angle and plate.
struct Foot<'a> {
    mount: &'a MountPlace,
    bond: &'a Bond,
    /// Thickness of the plate.
    plate: f64,
    /// Legs and thickness of the angle, its standing leg first.
    standing: f64,
    lying: f64,
    leg: f64,
    bend: Angle,
}

fn first_foot<'a>(basis: &'a StepBasis<'_>) -> Option<Foot<'a>> {
    let work = basis.work;
    let mount = work.mounts.iter().find(|m| matches!(m.kind, MountShape::BondedFoot { .. }))?;
    let bond = work.bonds.iter().find(|bond| bond.mark == mount.mark)?;
    let plate = work.parts_of(PartKind::FootPlate).find_map(|part| match &part.body {
        Body::Plate { thickness, .. } => Some(thickness.to_mm()),
        _ => None,
    })?;
    let (standing, lying, leg) = work.parts_of(PartKind::FootAngle).find_map(legs)?;
    let MountShape::BondedFoot { bend, .. } = mount.kind else { return None };
    Some(Foot { mount, bond, plate, standing, lying, leg, bend })
}

fn legs(part: &Part) -> Option<(f64, f64, f64)> {
    let Body::Bar { section, .. } = &part.body else { return None };
    let (a, b) = (section.a.to_mm(), section.b.to_mm());
    Some((a.max(b), a.min(b), section.t.to_mm()))
}

/// Points turned about the origin and moved.
fn turned(points: &[At], degrees: f64, to: At) -> Vec<At> {
    let (sin, cos) = degrees.to_radians().sin_cos();
    points.iter().map(|(x, y)| (to.0 + x * cos - y * sin, to.1 + x * sin + y * cos)).collect()
}

/// Plate, strips, bead and angle in the plate's own axes: outboard to the right, up away from the skin.
fn draw_foot(scene: &mut Scene, foot: &Foot<'_>, with_bond: bool, apart: f64, tilt: f64) {
    let width = foot.bond.width.to_mm();
    let thickness = foot.bond.thickness.to_mm();
    let put = |points: &[At]| turned(points, tilt, (0.0, 0.0));
    let rect = |x: f64, y: f64, w: f64, h: f64| [(x, y), (x + w, y), (x + w, y + h), (x, y + h)];
    let base = if with_bond { thickness } else { 0.0 };
    if with_bond {
        for strip in &foot.bond.strips {
            let (y, w) = (strip.low().y.to_mm(), strip.height().to_mm());
            scene.area(&[put(&rect(y, 0.0, w, thickness))], Some(Fill::HATCH), Some(Line::VISIBLE));
        }
        for bead in &foot.bond.beads {
            let (y, w) = (bead.low().y.to_mm(), bead.height().to_mm());
            scene.area(&[put(&rect(y, 0.0, w, thickness))], Some(Fill::Black), None);
        }
    }
    scene.area(&[put(&rect(0.0, base, width, foot.plate))], Some(Fill::White), Some(Line::HEAVY));
    // Lying leg outboard of the heel, standing leg at the bend's angle to it.
    let heel = foot.bond.leg.to_mm();
    let floor = base + foot.plate + apart;
    let lying = rect(heel, floor, foot.lying, foot.leg);
    scene.area(&[put(&lying)], Some(Fill::White), Some(Line::HEAVY));
    let lean = foot.bend.to_deg() - 90.0;
    let standing = turned(&rect(0.0, 0.0, foot.leg, foot.standing), lean, (heel, floor));
    scene.area(&[put(&standing)], Some(Fill::White), Some(Line::HEAVY));
}

/// A foot from its end, angle lifted off its plate.
pub(super) fn foot(basis: &StepBasis<'_>) -> Option<Scene> {
    let foot = first_foot(basis)?;
    let mut scene = Scene::new("foot from its end: angle over its plate, screws from below");
    draw_foot(&mut scene, &foot, false, 14.0, 0.0);
    let heel = foot.bond.leg.to_mm();
    for share in [0.3, 0.75] {
        let x = heel + foot.lying * share;
        scene.line(&[(x, -8.0), (x, foot.plate + 14.0 + foot.leg + 10.0)], Line::CENTRE);
    }
    scene.leader((heel + foot.lying * 0.3, -4.0), "countersunk, from below");
    scene.leader((heel + foot.lying * 0.9, foot.plate + 14.0 + foot.leg / 2.0), "lying leg");
    scene.leader((heel, foot.plate + 14.0 + foot.standing * 0.8), "standing leg");
    scene.leader((6.0, foot.plate / 2.0), "foot plate");
    scene.angle(
        (heel, foot.plate + 14.0),
        0.0,
        foot.bend.to_deg(),
        16.0,
        format!("{}°", display::number_short(foot.bend.to_deg(), 1)),
    );
    scene.view(format!("{} from its front end, outboard at right", foot.mount.mark));
    Some(scene)
}

/// A foot on the skin, cut across, with the arrows of pressing.
pub(super) fn bond(basis: &StepBasis<'_>) -> Option<Scene> {
    let foot = first_foot(basis)?;
    let tilt = foot.mount.slope_across.to_deg().abs();
    let mut scene = Scene::new("foot cut across on the skin: strips of tape, bead, plate, angle");
    let width = foot.bond.width.to_mm();
    // The skin falls outboard; outboard is drawn at the right.
    let put = |x: f64, y: f64| turned(&[(x, y)], -tilt, (0.0, 0.0))[0];
    scene.line(&[put(-25.0, 0.0), put(width + 25.0, 0.0)], Line::VISIBLE);
    scene.line(&[put(-25.0, -2.0), put(width + 25.0, -2.0)], Line::THIN);
    draw_foot(&mut scene, &foot, true, 0.0, -tilt);
    let top = foot.bond.thickness.to_mm() + foot.plate;
    if let Some(strip) = foot.bond.strips.first() {
        let y = strip.centre().y.to_mm();
        scene.push_arrow(put(y, top + 34.0), put(y, top + 6.0));
        scene.label(put(y, top + 36.0), "press");
        scene.leader(put(y, foot.bond.thickness.to_mm() / 2.0), "tape");
    }
    if let Some(bead) = foot.bond.beads.first() {
        scene.leader(put(bead.centre().y.to_mm(), foot.bond.thickness.to_mm() / 2.0), "bead");
    }
    scene.leader(put(-20.0, 0.0), "skin");
    scene.leader(put(width * 0.97, foot.bond.thickness.to_mm() + foot.plate / 2.0), "plate");
    scene.view("cut across, outboard at right");
    Some(scene)
}

/// A hinge on its rail, cut across.
pub(super) fn hinge(basis: &StepBasis<'_>) -> Option<Scene> {
    let mount = basis.work.mounts.iter().find(|m| matches!(m.kind, MountShape::Hinge { .. }))?;
    let MountShape::Hinge { hinge, packer, pin } = &mount.kind else { return None };
    let MountKind::Hinge(line) = &basis.build.mounts.get(mount.mount)?.kind else { return None };
    let frame = basis.build.frame.as_ref()?;
    let mut scene = Scene::new("hinge cut across: rail, packer, leaves, tube");
    // Drawn about the pin; the rail lies outboard, at the left.
    let leaf = hinge.leaf.to_mm();
    let thick = hinge.thickness.to_mm();
    let (rail_width, rail_height) = (line.rail.width.to_mm(), line.rail.height.to_mm());
    let rail_top = -thick / 2.0 - packer.to_mm();
    scene.filled_rectangle(
        (-leaf / 2.0 - rail_width / 2.0, rail_top - rail_height),
        (rail_width, rail_height),
        Fill::HATCH,
        Some(Line::VISIBLE),
    );
    if *packer > Length::mm(0.05) {
        scene.filled_rectangle(
            (-leaf, rail_top),
            (leaf, packer.to_mm()),
            Fill::White,
            Some(Line::HEAVY),
        );
        scene.leader(
            (-leaf * 0.8, rail_top + packer.to_mm() / 2.0),
            format!("packer {}", number(*packer)),
        );
    }
    scene.filled_rectangle((-leaf, -thick / 2.0), (leaf, thick), Fill::White, Some(Line::HEAVY));
    scene.filled_rectangle((-thick / 2.0, 0.0), (thick, leaf), Fill::White, Some(Line::HEAVY));
    scene.disc((0.0, 0.0), hinge.pin.to_mm() / 2.0, Fill::White, Some(Line::HEAVY));
    let (w, h) = (frame.section.width().to_mm(), frame.section.height().to_mm());
    let under = (mount.at.z - pin.z).to_mm();
    scene.rectangle((thick / 2.0 + 1.0, under), (w, h), Line::VISIBLE);
    let inner = frame.section.t.to_mm();
    scene.rectangle(
        (thick / 2.0 + 1.0 + inner, under + inner),
        (w - 2.0 * inner, h - 2.0 * inner),
        Line::THIN,
    );
    scene.leader((thick / 2.0 + 1.0 + w / 2.0, under + h), "tube");
    scene.leader((-leaf / 2.0, rail_top - rail_height * 0.7), "rail");
    scene.leader((-leaf * 0.3, thick / 2.0), "lying leaf");
    scene.line(&[(-leaf * 0.6, thick * 4.0), (-leaf * 0.6, rail_top - 14.0)], Line::CENTRE);
    scene.line(&[(-14.0, under + h / 2.0), (thick / 2.0 + 14.0, under + h / 2.0)], Line::CENTRE);
    scene.view(format!("{} cut across, outboard at left", mount.mark));
    Some(scene)
}

/// The hole through the skin, cut across, with housing and cables.
pub(super) fn entry(basis: &StepBasis<'_>) -> Option<Scene> {
    let place = basis.work.entry.as_ref()?;
    let entry = basis.build.entry.as_ref()?;
    let hole = entry.hole.to_mm();
    let (across, reach) = (place.foot.height().to_mm() / 2.0, place.foot.height().to_mm());
    let mut scene =
        Scene::new("cable entry cut across: skin with its hole, housing, sealant, cables");
    let thick = basis.build.vehicle.as_ref().map_or(1.0, |v| v.skin.thickness.to_mm().max(1.0));
    for side in [-1.0, 1.0] {
        let (a, b) = (side * hole / 2.0, side * reach);
        scene.filled_rectangle(
            (a.min(b), -thick),
            ((a - b).abs(), thick),
            Fill::HATCH,
            Some(Line::VISIBLE),
        );
        let bead = side * (across - 4.0);
        scene.filled_rectangle((bead - 4.0, 0.0), (8.0, 3.0), Fill::Black, None);
    }
    scene.outline(
        &[
            (-across, 3.0),
            (across, 3.0),
            (across * 0.7, across * 0.8),
            (-across * 0.7, across * 0.8),
        ],
        Line::HEAVY,
    );
    let cables = (*entry.cables).clamp(1, 6);
    for cable in 0..cables {
        let x = (f64::from(cable) - f64::from(cables - 1) / 2.0) * hole / f64::from(cables + 1);
        scene.curve(
            (x, -reach * 0.8),
            &[((x, reach * 0.1), (x, across * 0.5), (-reach * 0.95, across * 0.3 + x))],
            Line::VISIBLE,
        );
    }
    scene.leader((across - 4.0, 1.5), "sealant");
    scene.leader((0.0, across * 0.8), format!("housing {}", place.mark));
    scene.leader((reach * 0.9, -thick / 2.0), "skin");
    scene.dimension(
        Side::Below,
        (-hole / 2.0, -thick),
        (hole / 2.0, -thick),
        format!("⌀{}", number(*entry.hole)),
    );
    scene.front((-reach, -reach * 0.45), 180.0);
    scene.view("cut along the vehicle, front at left");
    Some(scene)
}
