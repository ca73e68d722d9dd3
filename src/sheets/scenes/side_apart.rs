//! What is fixed to the side of a tube, taken apart along its pins or screws: a prop, a draw latch.

use super::face_view::{angle_profile, legs};
use super::solid::{Eye, Space, add};
use super::{Plan, extents};
use crate::build::Edge;
use crate::derive::{HoleAt, Part, PartKind, Piece, PropPlace, Screw};
use crate::geometry::{Point2, Point3};
use crate::page::scene::{Fill, Line, Scene};
use crate::units::{Length, display};

/// Where one stands, degrees: turned from square on, and raised.
const EYE: (f64, f64) = (28.0, 24.0);
/// Room between layers, mm.
const APART: f64 = 46.0;
/// Tube that is shown beyond what is fixed to it, mm.
const BEYOND: f64 = 45.0;

fn space(p: Point3) -> Space {
    [p.x.to_mm(), p.y.to_mm(), p.z.to_mm()]
}

/// An edge of a frame as one looks at it from outside.
struct Side {
    /// Away from the frame, and along its tube.
    out: Space,
    along: Space,
    eye: Eye,
    /// A place on the tube's outer face, at its lower corner.
    face: Space,
    /// Width and height of the tube.
    tube: (f64, f64),
}

impl Side {
    fn new(on: &Plan<'_>, frame: usize, edge: Edge) -> Option<Self> {
        let array = on.work.arrays.get(frame)?;
        let section = &on.build.frames.get(frame)?.section;
        let (low, high) = (array.outline.low(), array.outline.high());
        let (out, along, corner): (Space, Space, _) = match edge {
            Edge::Left => ([0.0, -1.0, 0.0], [1.0, 0.0, 0.0], (low.x, low.y)),
            Edge::Right => ([0.0, 1.0, 0.0], [-1.0, 0.0, 0.0], (high.x, high.y)),
            Edge::Front => ([-1.0, 0.0, 0.0], [0.0, -1.0, 0.0], (low.x, high.y)),
            Edge::Rear => ([1.0, 0.0, 0.0], [0.0, 1.0, 0.0], (high.x, low.y)),
        };
        Some(Self {
            out,
            along,
            eye: Eye::new(out[0].atan2(out[1]).to_degrees() + EYE.0, EYE.1),
            face: space(Point3::new(corner.0, corner.1, array.under)),
            tube: (section.width().to_mm(), section.height().to_mm()),
        })
    }

    /// How far along the tube a place is.
    fn far(&self, p: Space) -> f64 {
        let d = add(p, self.face, -1.0);
        d[0] * self.along[0] + d[1] * self.along[1]
    }

    /// A stretch of the tube.
    fn draw_tube(&self, scene: &mut Scene, from: f64, to: f64) {
        let (w, h) = self.tube;
        let corner = |far: f64, out: f64, up: f64| {
            let p = add(add(self.face, self.along, far), self.out, out);
            add(p, [0.0, 0.0, 1.0], up)
        };
        // Anticlockwise seen from the far end.
        let ring = |far: f64| {
            vec![
                corner(far, 0.0, 0.0),
                corner(far, -w, 0.0),
                corner(far, -w, h),
                corner(far, 0.0, h),
            ]
        };
        let (ring, other) = (ring(from), ring(to));
        self.eye.loft(scene, (&ring, &other), Line::VISIBLE);
    }

    fn pulled(&self, p: Space, layers: f64) -> Space {
        add(p, self.out, APART * layers)
    }

    /// A box in a piece's own axes, pulled off.
    fn block(&self, scene: &mut Scene, piece: &Piece, size: [f64; 3], layers: f64) {
        let at = |x: f64, y: f64, z: f64| {
            self.pulled(space(piece.place.place(Point3::mm(x, y, z))), layers)
        };
        let ring = |x: f64| {
            let [_, y, z] = size;
            vec![at(x, 0.0, 0.0), at(x, y, 0.0), at(x, y, z), at(x, 0.0, z)]
        };
        let (ring, other) = (ring(0.0), ring(size[0]));
        self.eye.loft(scene, (&ring, &other), Line::HEAVY);
    }

    /// A hole as a ring, square to the way out.
    fn ring(&self, scene: &mut Scene, at: Space, diameter: f64) {
        let ways = (self.along, [0.0, 0.0, 1.0]);
        let ring = self.eye.circle(at, ways, diameter / 2.0);
        scene.area(&[ring], Some(Fill::White), Some(Line::VISIBLE));
    }

    fn axis(&self, scene: &mut Scene, from: Space, to: Space) {
        scene.line(&[self.eye.at(from), self.eye.at(to)], Line::CENTRE);
    }
}

fn hole(on: &Plan<'_>, at: &HoleAt) -> Option<(Space, f64)> {
    let (part, piece) = on.work.piece(&at.piece)?;
    let hole = on.work.hole(&at.hole)?;
    let middle = piece.place.place(part.faces.get(hole.face)?.point(hole.at));
    Some((space(middle), hole.diameter.to_mm()))
}

/// Pieces of a kind at the outer face of a tube, between two places along it.
fn beside<'a>(
    on: &Plan<'a>,
    side: &Side,
    kind: PartKind,
    (from, to): (f64, f64),
) -> Vec<(&'a Part, &'a Piece)> {
    let near = |(_, piece): &(&Part, &Piece)| {
        let at = space(piece.place.origin());
        let d = add(at, side.face, -1.0);
        let out = d[0] * side.out[0] + d[1] * side.out[1];
        out.abs() < 120.0 && (from..=to).contains(&side.far(at))
    };
    on.work
        .parts_of(kind)
        .flat_map(|part| part.pieces.iter().map(move |piece| (part, piece)))
        .filter(near)
        .collect()
}

/// The first prop of a step, off its tube with packers and pins; none without one.
pub fn prop_apart(on: &Plan<'_>) -> Option<Scene> {
    let prop: &PropPlace = on.work.props.first()?;
    let side = Side::new(on, prop.frame, prop.edge)?;
    let (part, piece) = on.work.piece(&prop.mark)?;
    let face = part.faces.first()?;
    let (long, high, thick) =
        (face.length.to_mm(), face.width.to_mm(), prop.section.width().to_mm());
    let own = |x: f64| side.far(space(piece.place.place(Point3::mm(x, 0.0, 0.0))));
    let (a, b) = (own(0.0).min(own(long)), own(0.0).max(own(long)));
    let mut scene = Scene::not_to_scale(format!(
        "prop {} taken off its tube: tube, packers, prop, pins",
        prop.mark
    ));
    let fastening = on.work.fastenings.iter().find(|fastening| {
        fastening.places.iter().flatten().any(|at| at.piece == prop.mark)
            && matches!(fastening.screw, Screw::Pin { .. })
    })?;
    let Screw::Pin { diameter, length } = fastening.screw else { return None };
    let pins: Vec<(Space, Space)> = fastening
        .places
        .iter()
        .filter(|place| place.first().is_some_and(|at| at.piece == prop.mark))
        .filter_map(|place| {
            let outer = place.iter().find(|at| *at == &prop.tube_hole).or_else(|| place.get(2));
            Some((hole(on, place.first()?)?.0, hole(on, outer?)?.0))
        })
        .collect();
    let reach = 3.0;
    for (at, _) in &pins {
        side.axis(&mut scene, add(*at, side.out, -side.tube.0 * 2.2), *at);
    }
    side.draw_tube(&mut scene, a - BEYOND, b + BEYOND);
    for (_, in_tube) in &pins {
        side.ring(&mut scene, *in_tube, diameter.to_mm());
        side.axis(&mut scene, *in_tube, side.pulled(*in_tube, 1.0));
    }
    let packers = beside(on, &side, PartKind::PropPacker, (a - BEYOND, b + BEYOND));
    for (packer, at) in &packers {
        let (l, w, h) = extents(&packer.body)?;
        side.block(&mut scene, at, [l.to_mm(), w.to_mm(), h.to_mm()], 1.0);
        let middle = space(at.place.place(Point3::new(l / 2.0, w / 2.0, h)));
        side.ring(&mut scene, side.pulled(middle, 1.0), diameter.to_mm());
    }
    for (at, _) in &pins {
        side.axis(&mut scene, side.pulled(*at, 1.2), side.pulled(*at, 2.0));
    }
    side.block(&mut scene, piece, [long, thick, high], 2.0);
    let outer = |x: Length, z: Length| {
        let inner = space(piece.place.place(Point3::new(x, Length::ZERO, z)));
        let other = space(piece.place.place(Point3::new(x, Length::mm(thick), z)));
        let towards = |p: Space| p[0] * side.out[0] + p[1] * side.out[1];
        side.pulled(if towards(inner) > towards(other) { inner } else { other }, 2.0)
    };
    let number = on.work.parts.iter().position(|other| std::ptr::eq(other, part))?;
    for own in on.work.holes.iter().filter(|own| own.part == number && own.face == 0) {
        let at = outer(own.at.x, own.at.y);
        side.ring(&mut scene, at, own.diameter.to_mm());
        if let Some(stand) = prop.stands.iter().find(|stand| stand.hole == own.id) {
            let words = format!("{}°", display::number(stand.asked.to_deg(), 0));
            scene.leader(side.eye.at(at), words);
        }
    }
    for (at, _) in &pins {
        let start = side.pulled(*at, 2.0);
        let tip = side.pulled(*at, reach);
        side.axis(&mut scene, add(start, side.out, thick), tip);
        let end = add(tip, side.out, length.to_mm());
        side.eye.bar(&mut scene, (tip, end), diameter.to_mm() / 2.0);
        side.eye.bar(&mut scene, (end, add(end, side.out, 3.0)), diameter.to_mm() * 0.75);
    }
    let told = |length: Length| display::number_short(length.to_mm(), 1);
    if let Some((at, _)) = pins.first() {
        let at = add(side.pulled(*at, reach), side.out, length.to_mm() / 2.0);
        scene.leader(
            side.eye.at(at),
            format!("clevis pin {} × {}, clip behind the tube", told(diameter), told(length)),
        );
    }
    if let Some((packer, at)) = packers.last() {
        let at_edge = side.pulled(near_top(packer, at), 1.0);
        scene.leader(side.eye.at(at_edge), format!("{} {}", packer.name, at.mark));
    }
    scene.leader(
        side.eye.at(outer(Length::mm(long / 2.0), Length::mm(high / 2.0))),
        format!("prop {}", prop.mark),
    );
    let on_tube = add(add(side.face, side.along, b + BEYOND * 0.6), [0.0, 0.0, 1.0], side.tube.1);
    scene.leader(side.eye.at(on_tube), format!("tube {}", prop.tube_hole.piece));
    scene.view(format!("{} taken off its tube, from outside above", prop.mark));
    Some(scene)
}

/// Near its upper end, on the outer face.
fn near_top(part: &Part, piece: &Piece) -> Space {
    let (l, w, h) = extents(&part.body).unwrap_or_default();
    space(piece.place.place(Point3::new(l * 0.9, w * 0.5, h)))
}

/// The first draw latch, off its bracket and its tube with screws and rivets; none without one.
pub fn latch_apart(on: &Plan<'_>) -> Option<Scene> {
    let part = on.work.parts_of(PartKind::Latch).next()?;
    let piece = part.pieces.first()?;
    let at = piece.place.origin();
    let mount = on
        .work
        .mounts
        .iter()
        .filter(|mount| Some(mount.frame) == piece.frame || piece.frame.is_none())
        .min_by(|a, b| {
            let far = |m: Point3| (m.x - at.x).to_mm().hypot((m.y - at.y).to_mm());
            far(a.at).total_cmp(&far(b.at))
        })?;
    let side = Side::new(on, mount.frame, mount.edge)?;
    let kinds = [PartKind::FootAngle, PartKind::ClampAngle];
    let (angle, at_angle) = kinds.iter().find_map(|kind| super::piece_at(on.work, *kind, mount))?;
    let bracket = angle.body.bracket()?;
    let mut scene = Scene::not_to_scale(format!(
        "draw latch {} of {} taken off: tube, bracket, latch, screws and rivets",
        piece.mark, mount.mark
    ));
    let middle = side.far(space(at));
    let half = bracket.length.to_mm() / 2.0 + BEYOND;
    side.draw_tube(&mut scene, middle - half, middle + half);
    let (body, keeper) = (part.faces.first()?, part.faces.get(1)?);
    let number = on.work.parts.iter().position(|other| std::ptr::eq(other, part))?;
    let holes = |face: usize| {
        let own = on.work.holes.iter().filter(move |own| own.part == number && own.face == face);
        own.map(|own| {
            (space(piece.place.place(part.faces[face].point(own.at))), own.diameter.to_mm())
        })
        .collect::<Vec<_>>()
    };
    let (in_body, in_keeper) = (holes(0), holes(1));
    let off = |p: Space, mm: f64| add(p, side.out, mm);
    for (at, diameter) in &in_keeper {
        let on_tube = off(*at, -keeper.wall.to_mm());
        side.ring(&mut scene, on_tube, *diameter);
        side.axis(&mut scene, on_tube, off(*at, APART));
    }
    // The bracket in its place.
    let (standing, lying) = legs(angle);
    let wall = bracket.section.t.to_mm();
    let profile = angle_profile(standing.to_mm(), lying.to_mm(), wall, bracket.between);
    let ring = |x: Length| -> Vec<Space> {
        let own = |(y, z): &(f64, f64)| {
            space(at_angle.place.place(Point3::new(x, Length::mm(*y), Length::mm(*z))))
        };
        profile.iter().map(own).collect()
    };
    let (near, far) = (ring(Length::ZERO), ring(bracket.length));
    side.eye.loft(&mut scene, (&near, &far), Line::VISIBLE);
    for (at, diameter) in &in_body {
        let on_leg = off(*at, -body.wall.to_mm());
        side.ring(&mut scene, on_leg, *diameter);
        side.axis(&mut scene, on_leg, off(*at, APART));
    }
    // Its sheets, and the loop between: sizes beside its holes are those of a plain latch.
    let plate = |scene: &mut Scene, face: &crate::derive::Face, deep: f64| {
        let corner = |x: f64, y: f64, out: f64| {
            let p = face.point(Point2::mm(x, y));
            off(space(piece.place.place(p)), out - face.wall.to_mm() + APART)
        };
        let (l, w) = (face.length.to_mm(), face.width.to_mm());
        let ring = |out: f64| {
            vec![corner(0.0, 0.0, out), corner(l, 0.0, out), corner(l, w, out), corner(0.0, w, out)]
        };
        let (mut near, mut far) = (ring(0.0), ring(deep));
        // Seen from outside it turns anticlockwise where the face's own axes do.
        let (a, b) = (add(near[1], near[0], -1.0), add(near[3], near[0], -1.0));
        let turns = a[0] * b[1] - a[1] * b[0];
        let up = a[0] * side.along[0] + a[1] * side.along[1];
        if turns < -1e-9 || (turns.abs() <= 1e-9 && up < 0.0) {
            near.reverse();
            far.reverse();
        }
        side.eye.loft(scene, (&near, &far), Line::HEAVY);
    };
    plate(&mut scene, body, 9.0);
    plate(&mut scene, keeper, 5.0);
    let in_middle = |face: &crate::derive::Face, x: f64, out: f64| {
        let p = face.point(Point2::new(face.length * x, face.width / 2.0));
        off(space(piece.place.place(p)), APART + out)
    };
    for x in [0.3, 0.7] {
        let (a, b) = (in_middle(body, x, 8.0), in_middle(keeper, x, 4.0));
        scene.line(&[side.eye.at(a), side.eye.at(b)], Line::HEAVY);
    }
    for (at, diameter) in &in_body {
        let (from, tip) = (off(*at, APART + 9.0), off(*at, APART * 1.7));
        side.axis(&mut scene, from, tip);
        side.eye.bar(&mut scene, (tip, off(tip, 20.0)), diameter / 2.0);
        side.eye.bar(&mut scene, (off(tip, 20.0), off(tip, 24.0)), *diameter);
    }
    for (at, diameter) in &in_keeper {
        let (from, tip) = (off(*at, APART + 5.0), off(*at, APART * 1.7));
        side.axis(&mut scene, from, tip);
        side.eye.bar(&mut scene, (tip, off(tip, 10.0)), diameter / 2.0);
        side.eye.bar(&mut scene, (off(tip, 10.0), off(tip, 12.0)), *diameter);
    }
    let last = |all: &[(Space, f64)]| {
        let right = |p: Space| side.eye.at(p).0;
        let most = all.iter().max_by(|a, b| right(a.0).total_cmp(&right(b.0)));
        most.map(|(at, _)| side.eye.at(off(*at, APART * 1.7 + 8.0)))
    };
    let screw =
        |name: &str| on.work.fastenings.iter().find(|one| one.name == name).map(|one| &one.screw);
    if let (Some(at), Some(Screw::BoltAndNut { thread, .. })) =
        (last(&in_body), screw("latch to bracket"))
    {
        scene.leader(at, format!("screw {}, nut behind the leg", thread.name));
    }
    if let (Some(at), Some(Screw::BlindRivet { rivet, .. })) =
        (last(&in_keeper), screw("keeper to tube"))
    {
        let wide = display::number_short(rivet.diameter.to_mm(), 1);
        scene.leader(at, format!("blind rivet {wide}"));
    }
    scene.leader(side.eye.at(in_middle(body, 0.0, 5.0)), "body");
    scene.leader(side.eye.at(in_middle(keeper, 0.0, 3.0)), "keeper");
    let leg = add(near[5], add(far[5], near[5], -1.0), 0.85);
    scene.leader(side.eye.at(leg), format!("{} {}", angle.name, at_angle.mark));
    let on_tube =
        add(add(side.face, side.along, middle + half * 0.8), [0.0, 0.0, 1.0], side.tube.1);
    scene.leader(side.eye.at(on_tube), "frame tube");
    scene.view(format!("latch of {} taken off, from outside above", mount.mark));
    Some(scene)
}
