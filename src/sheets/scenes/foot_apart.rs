//! A foot taken apart: screws, plate, angle, washers and nuts along their centre lines.

use super::face_view::{angle_profile, legs};
use super::solid::{Eye, Space, add};
use super::{Plan, extents, piece_at, wedges_at};
use crate::derive::{Body, Face, Hole, MountPlace, MountShape, Part, PartKind, Screw};
use crate::geometry::{Dir3, Frame3, Point3, Vec3};
use crate::page::scene::{Fill, Line, Scene};
use crate::units::Length;

/// Room between parts that are drawn apart, mm.
const APART: f64 = 34.0;
/// Where one stands, degrees: turned from square on, and raised.
const EYE: (f64, f64) = (32.0, 24.0);
/// Upwards, square to the plate.
const UP: Space = [0.0, 0.0, 1.0];

fn space(p: Point3) -> Space {
    [p.x.to_mm(), p.y.to_mm(), p.z.to_mm()]
}

/// A part's own axes in those of the foot plate.
struct Own {
    frame: Frame3,
    lift: f64,
}

impl Own {
    fn at(&self, p: Point3) -> Space {
        add(space(self.frame.place(p)), UP, self.lift)
    }

    fn way(&self, way: Dir3) -> Space {
        let (a, b) = (self.at(Point3::ORIGIN), self.at(Point3::ORIGIN + way * Length::mm(1.0)));
        add(b, a, -1.0)
    }

    /// Holes of a face, seen on it or through the wall from behind.
    fn holes(&self, scene: &mut Scene, eye: &Eye, part: &Part, holes: &[&Hole]) {
        for hole in holes {
            let face: &Face = &part.faces[hole.face];
            let mut centre = self.at(face.point(hole.at));
            let outward = self.way(face.outward);
            if !eye.sees(outward) {
                centre = add(centre, outward, -face.wall.to_mm());
            }
            let plane = (self.way(face.along), self.way(face.across));
            let ring = eye.circle(centre, plane, hole.diameter.to_mm() / 2.0);
            scene.area(&[ring], Some(Fill::White), Some(Line::VISIBLE));
        }
    }
}

fn holes_of<'a>(on: &Plan<'a>, part: &Part) -> Vec<&'a Hole> {
    let index = on.work.parts.iter().position(|other| std::ptr::eq(other, part));
    on.work.holes.iter().filter(|hole| Some(hole.part) == index).collect()
}

/// A foot's screw: where it stands on the plate, its sizes and its name.
struct Fixing<'a> {
    at: Space,
    radius: f64,
    head: f64,
    length: f64,
    thread: &'a str,
}

fn fixings<'a>(on: &Plan<'a>, plate: &Part, own: &Own) -> Vec<Fixing<'a>> {
    let mut found = Vec::new();
    for hole in holes_of(on, plate) {
        let Some(fastening) = hole.fastening.and_then(|index| on.work.fastenings.get(index)) else {
            continue;
        };
        let Screw::BoltAndNut { thread, length, countersunk: true, .. } = &fastening.screw else {
            continue;
        };
        let mut at = own.at(plate.faces[hole.face].point(hole.at));
        at[2] = 0.0;
        let radius = thread.diameter.to_mm() / 2.0;
        let head = hole.countersink.map_or(radius * 2.0, |sink| sink.diameter.to_mm() / 2.0);
        found.push(Fixing { at, radius, head, length: length.to_mm(), thread: &thread.name });
    }
    found
}

/// The foot taken apart, from the outboard side; none for another kind of mount.
pub fn foot_apart(on: &Plan<'_>, mount: &MountPlace) -> Option<Scene> {
    let MountShape::BondedFoot { bend, .. } = &mount.kind else { return None };
    let (plate_part, plate) = piece_at(on.work, PartKind::FootPlate, mount)?;
    let (angle_part, angle) = piece_at(on.work, PartKind::FootAngle, mount)?;
    let (long, wide, thick) = extents(&plate_part.body)?;
    let bracket = angle_part.body.bracket()?;
    let (section, length) = (bracket.section, bracket.length);
    let (long, wide, thick) = (long.to_mm(), wide.to_mm(), thick.to_mm());
    let mut scene = Scene::not_to_scale(format!(
        "bonded foot {} taken apart: screws from below, plate {}, angle {}, washers and nuts",
        mount.mark, plate.mark, angle.mark
    ));
    // The end that points to the front of the vehicle is shown.
    let front = plate.place.inverse().place_vec(Vec3::mm(-1.0, 0.0, 0.0));
    let front = [front.x.to_mm(), front.y.to_mm(), front.z.to_mm()];
    let eye = Eye::new(if front[0] < 0.0 { -EYE.0 } else { EYE.0 }, EYE.1);
    let flat = Own { frame: Frame3::WORLD, lift: 0.0 };
    let fixings = fixings(on, plate_part, &flat);
    let raised = Own { frame: plate.place.inverse().compose(angle.place), lift: APART };
    let wall = section.t.to_mm();
    let (standing, lying) = legs(angle_part);
    let profile = angle_profile(standing.to_mm(), lying.to_mm(), wall, *bend);
    let ring: Vec<Space> = profile
        .iter()
        .map(|(y, z)| raised.at(Point3::new(Length::ZERO, Length::mm(*y), Length::mm(*z))))
        .collect();
    let other = raised.at(Point3::new(length, Length::ZERO, Length::ZERO));
    let way = add(other, raised.at(Point3::ORIGIN), -1.0);
    let low = thick + APART;
    let axis = |scene: &mut Scene, at: Space, from: f64, to: f64| {
        scene.line(&[eye.at(add(at, UP, from)), eye.at(add(at, UP, to))], Line::CENTRE);
    };
    // From the lowest up, so that each hides what is under it.
    for fixing in &fixings {
        let start = -(fixing.length + APART * 0.7);
        let cone = (fixing.head - fixing.radius).max(0.1);
        eye.round(&mut scene, add(fixing.at, UP, start), cone, (fixing.head, fixing.radius));
        let shank = (fixing.length - cone, (fixing.radius, fixing.radius));
        eye.round(&mut scene, add(fixing.at, UP, start + cone), shank.0, shank.1);
        axis(&mut scene, fixing.at, start + fixing.length, 0.0);
    }
    let base = [[0.0, 0.0, 0.0], [0.0, wide, 0.0], [0.0, wide, thick], [0.0, 0.0, thick]];
    eye.prism(&mut scene, &base, [long, 0.0, 0.0]);
    flat.holes(&mut scene, &eye, plate_part, &holes_of(on, plate_part));
    for fixing in &fixings {
        axis(&mut scene, fixing.at, thick, low);
    }
    for (part, piece) in wedges_at(on.work, mount) {
        let Body::Wedge { length, width, thin, thick, .. } = &part.body else { continue };
        let own = Own { frame: plate.place.inverse().compose(piece.place), lift: APART * 0.45 };
        let zero = Length::ZERO;
        let base = [(zero, *thick), (*width, *thick), (*width, zero), (zero, *thick - *thin)]
            .map(|(y, z)| own.at(Point3::new(zero, y, z)));
        let end = own.at(Point3::new(*length, zero, *thick));
        eye.prism(&mut scene, &base, add(end, base[0], -1.0));
        let middle = Point3::new(*length / 2.0, *width * 0.7, *thick);
        scene.leader(eye.at(own.at(middle)), format!("wedge {}", piece.mark));
    }
    eye.prism(&mut scene, &ring, way);
    raised.holes(&mut scene, &eye, angle_part, &holes_of(on, angle_part));
    let mut nuts = Vec::new();
    for fixing in &fixings {
        let washer = low + wall + APART * 0.5;
        let nut = washer + APART * 0.3;
        axis(&mut scene, fixing.at, low + wall, washer);
        let r = fixing.radius;
        eye.round(&mut scene, add(fixing.at, UP, washer), 1.0, (r * 2.0, r * 2.0));
        axis(&mut scene, fixing.at, washer + 1.0, nut);
        // A nut's corners stand about 1.85 radii from its axis, and it is about as high as the thread
        // is wide (ISO 4032, M4 to M8).
        let corner = |step: u32| {
            let angle = f64::from(step) * std::f64::consts::FRAC_PI_3;
            add(fixing.at, [1.85 * r * angle.cos(), 1.85 * r * angle.sin(), nut], 1.0)
        };
        let hexagon: Vec<Space> = (0..6).map(corner).collect();
        eye.prism(&mut scene, &hexagon, [0.0, 0.0, 2.0 * r]);
        axis(&mut scene, fixing.at, nut + 2.0 * r, nut + 2.0 * r + 8.0);
        nuts.push((add(fixing.at, UP, nut + r), add(fixing.at, UP, washer)));
    }
    name(&mut scene, &eye, &fixings, &nuts);
    scene.leader(eye.at([long / 2.0, wide * 0.92, thick]), format!("foot plate {}", plate.mark));
    let leg = raised.at(Point3::new(length / 2.0, Length::mm(wall), standing * 0.75));
    scene.leader(eye.at(leg), format!("foot angle {}", angle.mark));
    let to = eye.at(front);
    scene.front(eye.at([long / 2.0, wide + 40.0, -APART]), to.1.atan2(to.0).to_degrees());
    scene.view(format!("{} taken apart, from outboard above", mount.mark));
    Some(scene)
}

/// Names what is bought, each once, at the fixing that lies farthest to the right.
fn name(scene: &mut Scene, eye: &Eye, fixings: &[Fixing<'_>], nuts: &[(Space, Space)]) {
    let right = |(_, fixing): &(usize, &Fixing<'_>)| eye.at(fixing.at).0;
    let last = fixings.iter().enumerate().max_by(|a, b| right(a).total_cmp(&right(b)));
    let Some((index, fixing)) = last else { return };
    let middle = -(fixing.length / 2.0 + APART * 0.7);
    let words = format!("countersunk screw {}", fixing.thread);
    scene.leader(eye.at(add(fixing.at, UP, middle)), words);
    if let Some((nut, washer)) = nuts.get(index) {
        scene.leader(eye.at(*nut), "locking nut");
        scene.leader(eye.at(*washer), "washer");
    }
}
