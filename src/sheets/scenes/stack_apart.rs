//! A bolted foot or a rail clamp taken apart along its bolts: nuts, plate, skin or rail, bracket, heads.

use super::face_view::{angle_profile, legs};
use super::solid::{Eye, Space, add};
use super::{Plan, piece_at, wedges_at};
use crate::build::MountKind;
use crate::derive::{Body, MountPlace, MountShape, Part, PartKind, Piece, Screw};
use crate::geometry::{Dir3, Frame3, Point2, Point3, Vec3};
use crate::page::scene::{Fill, Line, Scene};
use crate::units::Length;

/// Room between layers, mm.
const APART: f64 = 34.0;
/// From the lowest plate down to the nuts, mm.
const NUT: f64 = 54.0;
/// Where one stands, degrees: turned from square on, and raised.
const EYE: (f64, f64) = (32.0, 24.0);
/// Skin or rail that is shown beside the plate, mm.
const BESIDE: f64 = 22.0;
/// So thin a layer is drawn at least, mm.
const THIN: f64 = 1.6;

/// A layer, from below up.
struct Layer<'a> {
    part: &'a Part,
    piece: &'a Piece,
    name: String,
    lift: f64,
    /// It is the rail's flange over this plate instead: its width and thickness, mm.
    rail: Option<(f64, f64)>,
}

/// A bolt: where it stands in the plate's axes, its sizes, its name, and whether its washer seals.
struct Bolt<'a> {
    at: Space,
    radius: f64,
    length: f64,
    thread: &'a str,
    sealed: bool,
}

fn space(p: Point3) -> Space {
    [p.x.to_mm(), p.y.to_mm(), p.z.to_mm()]
}

/// Layers of a mount from the plate with the nuts up to its bracket; none for what has no such stack.
fn layers<'a>(on: &Plan<'a>, mount: &MountPlace) -> Option<Vec<Layer<'a>>> {
    let kinds: &[PartKind] = match mount.kind {
        MountShape::BoltedFoot { .. } => {
            &[PartKind::Spreader, PartKind::SkinUnderFoot, PartKind::FootAngle]
        }
        MountShape::RailClamp { .. } => {
            &[PartKind::ClampPlate, PartKind::ClampPacker, PartKind::ClampAngle]
        }
        _ => return None,
    };
    let mut found: Vec<(&Part, &Piece)> =
        kinds.iter().filter_map(|kind| piece_at(on.work, *kind, mount)).collect();
    // A packer or a rail of another mount is none of this one.
    let far = |piece: &Piece| {
        let at = piece.place.origin();
        (at.x - mount.at.x).to_mm().hypot((at.y - mount.at.y).to_mm())
    };
    found.retain(|(part, piece)| part.kind != PartKind::ClampPacker || far(piece) < 200.0);
    found.extend(wedges_at(on.work, mount));
    let (_, base) = *found.first()?;
    let height = |piece: &Piece, part: &Part| {
        let own = base.place.inverse().compose(piece.place);
        let face = part.faces.first().map_or(Point3::ORIGIN, |face| face.point(Point2::ORIGIN));
        // The bracket is the uppermost, whatever its face is.
        if part.body.bracket().is_some() { f64::MAX } else { own.place(face).z.to_mm() }
    };
    found.sort_by(|a, b| height(a.1, a.0).total_cmp(&height(b.1, b.0)));
    let name = |part: &Part, piece: &Piece| match part.body {
        Body::OnVehicle => "roof skin".to_owned(),
        _ => format!("{} {}", part.name, piece.mark),
    };
    let mut layers: Vec<Layer> = found
        .into_iter()
        .map(|(part, piece)| Layer { part, piece, name: name(part, piece), lift: 0.0, rail: None })
        .collect();
    if let Some(MountKind::RailClamp(clamp)) = on.build.mounts.get(mount.mount).map(|m| &m.kind) {
        let Layer { part, piece, .. } = layers[0];
        let rail = Some((clamp.rail.width.to_mm(), clamp.rail.thickness.to_mm()));
        layers.insert(1, Layer { part, piece, name: "rail flange".into(), lift: 0.0, rail });
    }
    for (number, layer) in layers.iter_mut().enumerate() {
        layer.lift = APART * number as f64;
    }
    Some(layers)
}

/// Bolts through the lowest plate.
fn bolts<'a>(on: &Plan<'a>, base: &Layer) -> Vec<Bolt<'a>> {
    let mut found = Vec::new();
    for fastening in &on.work.fastenings {
        let Screw::BoltAndNut { thread, length, sealed, .. } = &fastening.screw else { continue };
        for at in fastening.places.iter().flatten().filter(|at| at.piece == base.piece.mark) {
            let Some(hole) = on.work.hole(&at.hole) else { continue };
            let Some(face) = base.part.faces.get(hole.face) else { continue };
            let mut at = space(face.point(hole.at));
            at[2] = 0.0;
            found.push(Bolt {
                at,
                radius: thread.diameter.to_mm() / 2.0,
                length: length.to_mm(),
                thread: &thread.name,
                sealed: *sealed,
            });
        }
    }
    found
}

/// A layer as a prism in the axes of the lowest: its ring at one end and the way to the other, with its
/// least and greatest height.
fn solid(layer: &Layer, base: Frame3) -> Option<(Vec<Space>, Space, (f64, f64))> {
    let own = base.inverse().compose(layer.piece.place);
    let lift = [0.0, 0.0, layer.lift];
    let at = |x: f64, y: f64, z: f64| add(space(own.place(Point3::mm(x, y, z))), lift, 1.0);
    let (ring, end): (Vec<Space>, Space) = match &layer.part.body {
        _ if layer.rail.is_some() => {
            let ((wide, thick), face) = (layer.rail?, layer.part.faces.first()?);
            let (middle, low) = (face.width.to_mm() / 2.0, face.origin.z.to_mm());
            let (a, b) = (middle - wide / 2.0, middle + wide / 2.0);
            let ring = [(a, low), (b, low), (b, low + thick), (a, low + thick)];
            let far = face.length.to_mm() + BESIDE;
            (ring.map(|(y, z)| at(-BESIDE, y, z)).to_vec(), at(far, a, low))
        }
        Body::Wedge { length, width, thin, thick, .. } => {
            let (w, a, b) = (width.to_mm(), thin.to_mm(), thick.to_mm());
            let ring = [(0.0, b), (w, b), (w, 0.0), (0.0, b - a)];
            (ring.map(|(y, z)| at(0.0, y, z)).to_vec(), at(length.to_mm(), 0.0, b))
        }
        body if body.bracket().is_some() => {
            let bracket = body.bracket()?;
            let (long, short) = legs(layer.part);
            // A clamp's longer leg lies over its rail.
            let swapped =
                layer.part.kind == PartKind::ClampAngle && layer.part.body.fold().is_none();
            let (standing, lying) = if swapped { (short, long) } else { (long, short) };
            let (standing, lying, wall) =
                (standing.to_mm(), lying.to_mm(), bracket.section.t.to_mm());
            let profile = angle_profile(standing, lying, wall, bracket.between);
            let ring = profile.iter().map(|(y, z)| at(0.0, *y, *z)).collect();
            (ring, at(bracket.length.to_mm(), 0.0, 0.0))
        }
        body => {
            let face = layer.part.faces.first()?;
            let more = if matches!(body, Body::OnVehicle) { BESIDE } else { 0.0 };
            let (l, w) = (face.length.to_mm(), face.width.to_mm());
            let top = face.origin.z.to_mm();
            let low = top - face.wall.to_mm().max(THIN);
            let ring = [(-more, low), (w + more, low), (w + more, top), (-more, top)];
            (ring.map(|(y, z)| at(-more, y, z)).to_vec(), at(l + more, -more, low))
        }
    };
    let way = add(end, ring[0], -1.0);
    let heights: Vec<f64> = ring.iter().map(|p| p[2]).collect();
    let low = heights.iter().copied().fold(f64::INFINITY, f64::min);
    let high = heights.into_iter().fold(f64::NEG_INFINITY, f64::max);
    Some((ring, way, (low, high)))
}

/// The mount taken apart, from outboard above; none for another kind.
pub fn stack_apart(on: &Plan<'_>, mount: &MountPlace) -> Option<Scene> {
    let layers = layers(on, mount)?;
    let base = layers.first()?;
    let bolts = bolts(on, base);
    let told: Vec<&str> = layers.iter().map(|layer| layer.name.as_str()).collect();
    let mut scene = Scene::not_to_scale(format!(
        "{} {} taken apart: nuts, {}, bolts",
        mount.name,
        mount.mark,
        told.join(", ")
    ));
    let front = base.piece.place.inverse().place_vec(Vec3::mm(-1.0, 0.0, 0.0));
    let front = [front.x.to_mm(), front.y.to_mm(), front.z.to_mm()];
    let eye = Eye::new(if front[0] < 0.0 { -EYE.0 } else { EYE.0 }, EYE.1);
    let up = |at: Space, z: f64| [at[0], at[1], z];
    let axis = |scene: &mut Scene, at: Space, from: f64, to: f64| {
        scene.line(&[eye.at(up(at, from)), eye.at(up(at, to))], Line::CENTRE);
    };
    let right = |bolt: &&Bolt| eye.at(bolt.at).0;
    let outer = bolts.iter().max_by(|a, b| right(a).total_cmp(&right(b)));
    let mut below = f64::NAN;
    for bolt in &bolts {
        let r = bolt.radius;
        let (nut, washer) = (-NUT - 2.0 * r, -NUT + APART * 0.4);
        // A nut's corners stand about 1.85 radii from its axis, and it is about as high as the thread is
        // wide (ISO 4032, M4 to M8).
        eye.prism(&mut scene, &hexagon(up(bolt.at, nut), 1.85 * r), [0.0, 0.0, 2.0 * r]);
        axis(&mut scene, bolt.at, nut + 2.0 * r, washer);
        eye.round(&mut scene, up(bolt.at, washer), 1.0, (r * 2.0, r * 2.0));
        below = washer + 1.0;
    }
    for layer in &layers {
        let (ring, way, (low, high)) = solid(layer, base.piece.place)?;
        for bolt in &bolts {
            axis(&mut scene, bolt.at, below, low);
        }
        eye.prism(&mut scene, &ring, way);
        if layer.rail.is_none() {
            holes(on, &mut scene, &eye, layer, base.piece.place);
        }
        let bracket = layer.part.body.bracket();
        // Over a bracket bolts stand on its lying leg.
        below = bracket.map_or(high, |bracket| low + bracket.section.t.to_mm());
        let middle = |p: Space| add(p, way, 0.5);
        let named = match bracket {
            Some(_) => middle(add(ring[0], add(ring[5], ring[0], -1.0), 0.8)),
            // Towards the corner that is to the right, where its words stand: what goes on beside the
            // plates at that corner itself.
            None => {
                let beside = matches!(layer.part.body, Body::OnVehicle) || layer.rail.is_some();
                let in_by = if beside { 0.04 } else { 0.15 };
                // The far edge of a plate is hidden by what lies over it.
                [ring[2], ring[if beside { 3 } else { 2 }]]
                    .into_iter()
                    .flat_map(|corner| [in_by, 1.0 - in_by].map(|along| add(corner, way, along)))
                    .max_by(|a, b| eye.at(*a).0.total_cmp(&eye.at(*b).0))
                    .unwrap_or(ring[2])
            }
        };
        scene.leader(eye.at(named), layer.name.clone());
    }
    for bolt in &bolts {
        let r = bolt.radius;
        let washer = below + APART * 0.35;
        let tip = washer + APART * 0.5;
        axis(&mut scene, bolt.at, below, washer);
        eye.round(&mut scene, up(bolt.at, washer), 2.0, (r * 2.2, r * 2.2));
        axis(&mut scene, bolt.at, washer + 2.0, tip);
        eye.round(&mut scene, up(bolt.at, tip), bolt.length, (r, r));
        let head = tip + bolt.length;
        // A head's corners and height: ISO 4017, about.
        eye.prism(&mut scene, &hexagon(up(bolt.at, head), 1.85 * r), [0.0, 0.0, 1.3 * r]);
        if outer.is_some_and(|outer| std::ptr::eq(outer, bolt)) {
            let long = bolt.length;
            scene.leader(
                eye.at(up(bolt.at, tip + long * 0.5)),
                format!("bolt {} × {long:.0}\u{a0}mm", bolt.thread),
            );
            let name = if bolt.sealed { "sealing washer" } else { "washer" };
            scene.leader(eye.at(up(bolt.at, washer + 1.0)), name);
            // Off its edges.
            let nut = eye.at(up(bolt.at, -NUT - r));
            scene.leader((nut.0 + r * 0.8, nut.1), "locking nut, washer");
        }
    }
    let to = eye.at(front);
    let size = base.part.faces.first().map_or((0.0, 0.0), |f| (f.length.to_mm(), f.width.to_mm()));
    let beside = [size.0 / 2.0, size.1 + 60.0, -APART];
    scene.front(eye.at(beside), to.1.atan2(to.0).to_degrees());
    scene.view(format!("{} taken apart, from outboard above", mount.mark));
    Some(scene)
}

fn hexagon(centre: Space, corner: f64) -> Vec<Space> {
    (0..6)
        .map(|step| {
            let angle = f64::from(step) * std::f64::consts::FRAC_PI_3;
            add(centre, [corner * angle.cos(), corner * angle.sin(), 0.0], 1.0)
        })
        .collect()
}

/// Holes of a layer, seen on their face or through the wall from behind.
fn holes(on: &Plan<'_>, scene: &mut Scene, eye: &Eye, layer: &Layer, base: Frame3) {
    let own = base.inverse().compose(layer.piece.place);
    let lift = [0.0, 0.0, layer.lift];
    let at = |p: Point3| add(space(own.place(p)), lift, 1.0);
    let way = |way: Dir3| add(at(Point3::ORIGIN + way * Length::mm(1.0)), at(Point3::ORIGIN), -1.0);
    let index = on.work.parts.iter().position(|other| std::ptr::eq(other, layer.part));
    for hole in on.work.holes.iter().filter(|hole| Some(hole.part) == index) {
        let face = &layer.part.faces[hole.face];
        let mut centre = at(face.point(hole.at));
        let outward = way(face.outward);
        if !eye.sees(outward) {
            centre = add(centre, outward, -face.wall.to_mm());
        }
        let ring =
            eye.circle(centre, (way(face.along), way(face.across)), hole.diameter.to_mm() / 2.0);
        scene.area(&[ring], Some(Fill::White), Some(Line::VISIBLE));
    }
}
