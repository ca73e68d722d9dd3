//! Sections at feet that are bolted through the skin and at clamps on a rail.

use super::face_view::{angle_profile, legs};
use super::section::Cut;
use super::{Plan, piece_at, wedges_at};
use crate::build::MountKind;
use crate::derive::{Body, Face, MountPlace, MountShape, Part, PartKind, Piece};
use crate::page::scene::{At, Fill, Line, Scale, ScaleChoice, Scene, Side};
use crate::sheets::words::{bare, mm};
use crate::units::{Angle, Length};

/// The section of a bolted foot or a rail clamp; none for other mounts.
pub fn bracket_section(on: &Plan<'_>, mount: &MountPlace) -> Option<Scene> {
    match &mount.kind {
        MountShape::BoltedFoot { bolt_height, bend, row, .. } => {
            bolted(on, mount, (*bolt_height, *bend, *row))
        }
        MountShape::RailClamp { bolt_height, packer, rail_top } => {
            clamp(on, mount, (*bolt_height, *packer, *rail_top))
        }
        _ => None,
    }
}

/// A flat piece cut across its middle, told by its upper face.
fn flat(cut: &Cut<'_>, part: &Part, piece: &Piece, thick: Length) -> Option<Vec<At>> {
    let top: &Face = part.faces.first()?;
    let (w, t) = (top.width.to_mm(), thick.to_mm());
    Some(cut.profile(piece.place, top.length / 2.0, &[(0.0, 0.0), (w, 0.0), (w, t), (0.0, t)]))
}

/// The angle cut across, with the axis of its bolts into the tube and its place on paper.
fn angle(
    scene: &mut Scene,
    cut: &Cut<'_>,
    (part, piece): (&Part, &Piece),
    swapped: bool,
    (bend, bolt): (Angle, Length),
) -> Option<(Vec<At>, Vec<At>)> {
    let found = part.body.bracket()?;
    let (section, length) = (found.section, found.length);
    let (standing, lying) = match (legs(part), part.body.fold()) {
        ((long, short), None) if swapped => (short, long),
        (legs, _) => legs,
    };
    let own = angle_profile(standing.to_mm(), lying.to_mm(), section.t.to_mm(), bend);
    let ring = cut.profile(piece.place, length / 2.0, &own);
    let (a, b) = (ring[5], ring[3]);
    scene.keep_clear((a.0.min(b.0), b.1), ((a.0 - b.0).abs(), a.1 - b.1));
    scene.area(std::slice::from_ref(&ring), Some(Fill::HATCH_BACK), Some(Line::VISIBLE));
    let ends = [(-40.0, bolt.to_mm()), (section.t.to_mm() + 14.0, bolt.to_mm())];
    let axis = cut.profile(piece.place, length / 2.0, &ends);
    scene.line(&axis, Line::CENTRE);
    Some((ring, axis))
}

/// Frame over skin, beside the frame's outer face.
fn height(scene: &mut Scene, cut: &Cut<'_>, mount: &MountPlace) {
    let side = if cut.way > 0.0 { Side::Left } else { Side::Right };
    let at = cut.face();
    let skin = cut.skin(at);
    let over = bare(mount.at.z - Length::mm(skin), 1);
    scene.dimension(side, (at, skin), (at, mount.at.z.to_mm()), over);
    scene.view(format!("{}, at {}", cut.seen(), mount.mark));
}

fn bolted(
    on: &Plan<'_>,
    mount: &MountPlace,
    (bolt_height, bend, row): (Length, Angle, Length),
) -> Option<Scene> {
    let MountKind::BoltedFoot(foot) = &on.build.mounts.get(mount.mount)?.kind else {
        return None;
    };
    let cut = Cut::new(on, mount);
    let own_angle = piece_at(on.work, PartKind::FootAngle, mount)?;
    let (spreader_part, spreader) = piece_at(on.work, PartKind::Spreader, mount)?;
    let mut scene = Scene::new(format!(
        "bolted foot {} cut across: angle {}, skin, spreader {}, tube and panel",
        mount.mark, own_angle.1.mark, spreader.mark
    ));
    scene.scale = ScaleChoice::Fit { largest: Scale::FULL };
    let below = flat(&cut, spreader_part, spreader, *foot.spreader.thickness)?;
    let (left, right) = (below[0].0.min(below[1].0), below[0].0.max(below[1].0));
    let (inboard, outboard) = if cut.way > 0.0 { (60.0, 30.0) } else { (30.0, 60.0) };
    cut.draw_skin(&mut scene, left - inboard, right + outboard);
    scene.area(std::slice::from_ref(&below), Some(Fill::HATCH), Some(Line::VISIBLE));
    let wedges = wedges_at(on.work, mount);
    for (part, piece) in &wedges {
        let ring = cut.wedge(part, piece);
        scene.area(&[ring], Some(Fill::HATCH), Some(Line::VISIBLE));
        let from = if cut.middle_of(part, piece).1 > below[2].1 { "upper" } else { "lower" };
        scene.leader(cut.middle_of(part, piece), format!("{from} wedge {}", piece.mark));
    }
    let (ring, axis) = angle(&mut scene, &cut, own_angle, false, (bend, bolt_height))?;
    // The bolt through the roof: along the leg's normal at its row.
    let (heel, toe) = (ring[0], ring[1]);
    let long = (toe.0 - heel.0).hypot(toe.1 - heel.1);
    let way = ((toe.0 - heel.0) / long, (toe.1 - heel.1) / long);
    let up = if cut.way > 0.0 { (-way.1, way.0) } else { (way.1, -way.0) };
    let at = (heel.0 + way.0 * row.to_mm(), heel.1 + way.1 * row.to_mm());
    let reach = |by: f64| (at.0 + up.0 * by, at.1 + up.1 * by);
    let deep: f64 = wedges
        .iter()
        .filter_map(|(part, _)| match &part.body {
            Body::Wedge { thin, thick, .. } => Some((*thin + *thick).to_mm() / 2.0),
            _ => None,
        })
        .sum();
    scene.line(&[reach(26.0), reach(-26.0 - deep)], Line::CENTRE);
    let half = foot.roof_bolt.diameter.to_mm() / 2.0;
    for side in [-half, half] {
        let shift = |by: f64| (reach(by).0 + way.0 * side, reach(by).1 + way.1 * side);
        scene.line(&[shift(foot.angle.t.to_mm()), shift(-20.0 - deep)], Line::THIN);
    }
    cut.draw_frame(&mut scene, 70.0);
    scene.leader(axis[1], on.build.mounts[mount.mount].kind.holds_by());
    scene.leader(reach(18.0), format!("{} bolt, sealing washer", foot.roof_bolt.name));
    scene.leader(ring[5], format!("foot angle {}", own_angle.1.mark));
    scene.leader(below[1], format!("spreader {}", spreader.mark));
    height(&mut scene, &cut, mount);
    Some(scene)
}

fn clamp(
    on: &Plan<'_>,
    mount: &MountPlace,
    (bolt_height, packer, rail_top): (Length, Length, Length),
) -> Option<Scene> {
    let MountKind::RailClamp(written) = &on.build.mounts.get(mount.mount)?.kind else {
        return None;
    };
    let cut = Cut::new(on, mount);
    let own_angle = piece_at(on.work, PartKind::ClampAngle, mount)?;
    let (plate_part, plate) = piece_at(on.work, PartKind::ClampPlate, mount)?;
    let mut scene = Scene::new(format!(
        "rail clamp {} cut across: angle {}, rail, plate {}, tube and panel",
        mount.mark, own_angle.1.mark, plate.mark
    ));
    scene.scale = ScaleChoice::Fit { largest: Scale::FULL };
    let below = flat(&cut, plate_part, plate, *written.thickness)?;
    let (left, right) = (below[0].0.min(below[1].0), below[0].0.max(below[1].0));
    let (inboard, outboard) = if cut.way > 0.0 { (60.0, 30.0) } else { (30.0, 60.0) };
    cut.draw_skin(&mut scene, left - inboard, right + outboard);
    let rail = &written.rail;
    let (middle, half) = (rail.y.to_mm(), rail.width.to_mm() / 2.0);
    let (top, flange) = (rail_top.to_mm(), rail.thickness.to_mm());
    let block = |low: f64, high: f64| {
        vec![
            (middle - half, low),
            (middle + half, low),
            (middle + half, high),
            (middle - half, high),
        ]
    };
    scene.area(&[block(top - flange, top)], Some(Fill::Tint(25)), Some(Line::VISIBLE));
    scene.leader((middle - half * cut.way, top - flange / 2.0), "rail flange");
    if packer > Length::mm(0.05) {
        let high = top + packer.to_mm();
        scene.area(&[block(top, high)], Some(Fill::HATCH), Some(Line::VISIBLE));
        scene.leader((middle, f64::midpoint(top, high)), format!("packer {}", mm(packer, 1)));
    }
    scene.area(std::slice::from_ref(&below), Some(Fill::HATCH), Some(Line::VISIBLE));
    let (ring, axis) = angle(&mut scene, &cut, own_angle, true, (Angle::RIGHT, bolt_height))?;
    let edge = (written.clamp_bolt.clearance.medium * 1.5).to_mm().ceil();
    for x in [left + edge, right - edge] {
        scene.line(&[(x, ring[0].1 + 22.0), (x, below[0].1 - 16.0)], Line::CENTRE);
    }
    cut.draw_frame(&mut scene, 60.0);
    scene.leader(axis[1], on.build.mounts[mount.mount].kind.holds_by());
    scene.leader((right - edge, ring[0].1 + 16.0), format!("{} bolt", written.clamp_bolt.name));
    scene.leader(ring[5], format!("clamp angle {}", own_angle.1.mark));
    scene.leader(below[1], format!("clamp plate {}", plate.mark));
    height(&mut scene, &cut, mount);
    Some(scene)
}
