//! Sections through the roof: the whole width, a bonded foot, a hinge.

use super::face_view::{angle_profile, legs};
use super::{Plan, extents, piece_at, wedges_at};
use crate::build::{Edge, MountKind};
use crate::derive::{Body, MountPlace, MountShape, Part, PartKind, Piece};
use crate::geometry::Point3;
use crate::page::scene::{
    At, Fill, Lettering, Line, Place, Scale, ScaleChoice, Scene, Side, Style,
};
use crate::sheets::words::{bare, mm};
use crate::units::Length;

/// Steps of the roof's curve in a drawing.
const STEPS: u32 = 60;

/// Which way a section is cut: across for mounts at the sides, along for those at the ends.
pub(super) struct Cut<'a> {
    on: &'a Plan<'a>,
    mount: &'a MountPlace,
    /// True where the paper's x is the vehicle's Y.
    across: bool,
    /// 1 where outboard is to the right of the paper.
    pub(super) way: f64,
}

impl<'a> Cut<'a> {
    pub(super) fn new(on: &'a Plan<'a>, mount: &'a MountPlace) -> Self {
        let across = matches!(mount.edge, Edge::Left | Edge::Right);
        let way = if matches!(mount.edge, Edge::Right | Edge::Rear) { 1.0 } else { -1.0 };
        Self { on, mount, across, way }
    }

    /// A place of the vehicle on paper.
    pub(super) fn at(&self, point: Point3) -> At {
        (if self.across { point.y } else { point.x }.to_mm(), point.z.to_mm())
    }

    /// Paper x of the frame's outer face.
    pub(super) fn face(&self) -> f64 {
        self.at(self.mount.at).0
    }

    /// Height of the skin at a place of the paper.
    pub(super) fn skin(&self, h: f64) -> f64 {
        let Some(roof) = &self.on.work.roof else { return 0.0 };
        let h = Length::mm(h);
        let (x, y) = if self.across { (self.mount.at.x, h) } else { (h, self.mount.at.y) };
        roof.height(x, y).to_mm()
    }

    pub(super) fn curve(&self, from: f64, to: f64, lower: f64) -> Vec<At> {
        (0..=STEPS)
            .map(|step| {
                let h = from + (to - from) * f64::from(step) / f64::from(STEPS);
                (h, self.skin(h) - lower)
            })
            .collect()
    }

    /// The skin between two places, its thickness shown where it is not thinner than a line.
    pub(super) fn draw_skin(&self, scene: &mut Scene, from: f64, to: f64) {
        let thick = self.on.build.vehicle.as_ref().map_or(0.0, |v| v.skin.thickness.to_mm());
        scene.line(&self.curve(from, to, 0.0), Line::VISIBLE);
        if thick > 1.5 {
            scene.line(&self.curve(from, to, thick), Line::VISIBLE);
        }
    }

    /// A profile in a piece's own y and z, on paper.
    pub(super) fn profile(
        &self,
        place: crate::geometry::Frame3,
        x: Length,
        ring: &[At],
    ) -> Vec<At> {
        ring.iter()
            .map(|(y, z)| self.at(place.place(Point3::new(x, Length::mm(*y), Length::mm(*z)))))
            .collect()
    }

    /// The tube of the frame's edge, cut, and the edge of what lies on it.
    pub(super) fn draw_frame(&self, scene: &mut Scene, reach: f64) {
        let own = self.mount.frame;
        let (Some(frame), Some(array)) =
            (self.on.build.frames.get(own), self.on.work.arrays.get(own))
        else {
            return;
        };
        let section = &frame.section.value;
        let (wide, high) = (section.width().to_mm(), section.height().to_mm());
        let (t, bottom, face) = (section.t.to_mm(), self.mount.at.z.to_mm(), self.face());
        let ring = |inset: f64| {
            let (a, b) = (face - self.way * inset, face - self.way * (wide - inset));
            let (low, up) = (bottom + inset, bottom + high - inset);
            vec![(a, low), (b, low), (b, up), (a, up)]
        };
        scene.area(&[ring(0.0), ring(t)], Some(Fill::HATCH_BACK), Some(Line::VISIBLE));
        scene.leader((face - self.way * (wide - t / 2.0), bottom + high * 0.4), "frame tube");
        let (low, top) = (array.tube_top.to_mm(), array.top.to_mm());
        let inner = face - self.way * reach;
        let rim = |h: f64| (h, low);
        scene.line(&[(inner, top), (face, top), rim(face), rim(inner)], Line::VISIBLE);
        scene.leader((face - self.way * reach * 0.7, top), "solar panel");
    }

    /// A wedge cut across its middle: its flat face, then its slanting one.
    pub(super) fn wedge(&self, part: &Part, piece: &Piece) -> Vec<At> {
        let Body::Wedge { length, width, thin, thick, .. } = &part.body else { return Vec::new() };
        let (w, a, b) = (width.to_mm(), thin.to_mm(), thick.to_mm());
        self.profile(piece.place, *length / 2.0, &[(0.0, b), (w, b), (w, 0.0), (0.0, b - a)])
    }

    /// The middle of what a wedge's section shows.
    pub(super) fn middle_of(&self, part: &Part, piece: &Piece) -> At {
        let ring = self.wedge(part, piece);
        let count = ring.len().max(1) as f64;
        let sum = ring.iter().fold((0.0, 0.0), |sum, at| (sum.0 + at.0, sum.1 + at.1));
        (sum.0 / count, sum.1 / count)
    }

    pub(super) fn seen(&self) -> &'static str {
        if self.across { "section from the rear" } else { "section from the left, front at left" }
    }
}

/// What a section of a foot shows besides the foot and its bond.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FootShows {
    /// The frame and the panel on it, and the height between frame and skin.
    Frame,
    /// Where it is pressed while the bond is made.
    Press,
}

/// A bonded foot cut across its middle: skin, bond, plate, angle; tube and panel or arrows of pressing.
pub fn foot_section(on: &Plan<'_>, mount: &MountPlace, shows: FootShows) -> Option<Scene> {
    let MountShape::BondedFoot { bolt_height, bend, .. } = &mount.kind else { return None };
    let MountKind::BondedFoot(_) = &on.build.mounts.get(mount.mount)?.kind else {
        return None;
    };
    let cut = Cut::new(on, mount);
    let (plate_part, plate) = piece_at(on.work, PartKind::FootPlate, mount)?;
    let (angle_part, angle) = piece_at(on.work, PartKind::FootAngle, mount)?;
    let (long, wide, thick) = extents(&plate_part.body)?;
    let bracket = angle_part.body.bracket()?;
    let (section, length) = (bracket.section, bracket.length);
    let bond = on.work.bonds.iter().find(|bond| bond.mark == mount.mark)?;
    let besides = match shows {
        FootShows::Frame => "tube and panel",
        FootShows::Press => "pressed along the tape",
    };
    let mut scene = Scene::new(format!(
        "bonded foot {} cut across: skin, bond, plate {}, angle {}, {besides}",
        mount.mark, plate.mark, angle.mark
    ));
    scene.scale = ScaleChoice::Fit { largest: Scale::FULL };
    let flat = [(0.0, 0.0), (wide.to_mm(), 0.0)];
    let ends = cut.profile(plate.place, long / 2.0, &flat);
    let (left, right) = (ends[0].0.min(ends[1].0), ends[0].0.max(ends[1].0));
    let (inboard, outboard) = match shows {
        // Without the frame there is room for a larger scale.
        FootShows::Press => (22.0, 22.0),
        FootShows::Frame if cut.way > 0.0 => (55.0, 30.0),
        FootShows::Frame => (30.0, 55.0),
    };
    cut.draw_skin(&mut scene, left - inboard, right + outboard);
    // What bonds: from the plate's lower face down to the skin.
    let mut between = |from: Length, to: Length, fill: Fill| {
        let top = cut.profile(plate.place, long / 2.0, &[(from.to_mm(), 0.0), (to.to_mm(), 0.0)]);
        let mut ring = cut.curve(top[0].0, top[1].0, 0.0);
        ring.push(top[1]);
        ring.push(top[0]);
        scene.area(&[ring], Some(fill), Some(Line::THIN));
        let middle = f64::midpoint(top[0].0, top[1].0);
        (middle, f64::midpoint(cut.skin(middle), top[0].1))
    };
    let mut named = Vec::new();
    for strip in &bond.strips {
        named.push((between(strip.low().y, strip.high().y, Fill::Tint(10)), "tape"));
    }
    for bead in &bond.beads {
        named.push((between(bead.low().y, bead.high().y, Fill::Black), "bead"));
    }
    let t = thick.to_mm();
    let ring = cut.profile(
        plate.place,
        long / 2.0,
        &[(0.0, 0.0), (wide.to_mm(), 0.0), (wide.to_mm(), t), (0.0, t)],
    );
    let plate_end = ring[1];
    scene.area(&[ring], Some(Fill::HATCH), Some(Line::VISIBLE));
    for (part, piece) in wedges_at(on.work, mount) {
        let ring = cut.wedge(part, piece);
        scene.area(&[ring], Some(Fill::HATCH_BACK), Some(Line::VISIBLE));
        named.push((cut.middle_of(part, piece), "wedge"));
    }
    let (standing, lying) = legs(angle_part);
    let wall = section.t;
    let own = angle_profile(standing.to_mm(), lying.to_mm(), wall.to_mm(), *bend);
    let ring = cut.profile(angle.place, length / 2.0, &own);
    let toe = ring[4];
    // Labels rather stand beside the leg than on it.
    let (a, b) = (ring[5], ring[3]);
    scene.keep_clear((a.0.min(b.0), b.1), ((a.0 - b.0).abs(), a.1 - b.1));
    scene.area(&[ring], Some(Fill::HATCH_BACK), Some(Line::VISIBLE));
    match shows {
        FootShows::Frame => {
            let bolt = (*bolt_height, length / 2.0, wall);
            let held = on.build.mounts[mount.mount].kind.holds_by();
            draw_bolted(&cut, &mut scene, angle, bolt, held);
        }
        FootShows::Press => {
            for strip in &bond.strips {
                let middle = (strip.low().y + strip.high().y).to_mm() / 2.0;
                // On the lying leg where that lies over the strip.
                let heel = bond.leg.to_mm();
                let on_leg = heel < middle && middle < heel + lying.to_mm() + 4.0;
                let top = t + 4.0 + if on_leg { wall.to_mm() } else { 0.0 };
                let axis = [(middle, top + 26.0), (middle, top)];
                let arrow = cut.profile(plate.place, long / 2.0, &axis);
                scene.push_arrow(arrow[0], arrow[1]);
                scene.label_on(arrow[0], Side::Above, "press");
            }
            scene.leader((left - inboard * 0.8, cut.skin(left - inboard * 0.8)), "skin");
        }
    }
    scene.leader(toe, format!("foot angle {}", angle.mark));
    scene.leader(plate_end, format!("foot plate {}", plate.mark));
    for name in ["tape", "bead", "wedge"] {
        if let Some((at, _)) = named.iter().find(|found| found.1 == name) {
            scene.leader(*at, name);
        }
    }
    scene.view(format!("{}, at {}", cut.seen(), mount.mark));
    Some(scene)
}

/// The bolt's axis, the frame that it holds, and how high this stands over the skin.
fn draw_bolted(
    cut: &Cut<'_>,
    scene: &mut Scene,
    angle: &Piece,
    (bolt, middle, wall): (Length, Length, Length),
    held: String,
) {
    let ends = [(-40.0, bolt.to_mm()), (wall.to_mm() + 14.0, bolt.to_mm())];
    let axis = cut.profile(angle.place, middle, &ends);
    scene.line(&axis, Line::CENTRE);
    cut.draw_frame(scene, 70.0);
    scene.leader(axis[1], held);
    let foot = (cut.face(), cut.mount.at.z.to_mm());
    let side = if cut.way > 0.0 { Side::Left } else { Side::Right };
    let skin = cut.skin(foot.0);
    scene.dimension(side, (foot.0, skin), foot, bare(cut.mount.at.z - Length::mm(skin), 1));
}

/// A hinge cut across its middle: rail, packer, leaves, pin, tube, panel.
pub fn hinge_section(on: &Plan<'_>, mount: &MountPlace) -> Option<Scene> {
    let MountShape::Hinge { hinge, packer, .. } = &mount.kind else { return None };
    let MountKind::Hinge(line) = &on.build.mounts.get(mount.mount)?.kind else { return None };
    let cut = Cut::new(on, mount);
    let (hinge_part, piece) = piece_at(on.work, PartKind::Hinge, mount)?;
    let mut scene = Scene::new(format!(
        "hinge {} cut across: rail, packer, leaves, tube and panel",
        mount.mark
    ));
    scene.scale = ScaleChoice::Fit { largest: Scale::FULL };
    let (leaf, t) = (hinge.leaf.to_mm(), hinge.thickness.to_mm());
    let middle = hinge.length / 2.0;
    let drawn = |ring: &[At]| cut.profile(piece.place, middle, ring);
    let upright = drawn(&[(0.0, 0.0), (t, 0.0), (t, leaf), (0.0, leaf)]);
    let lying = drawn(&[(0.0, -t), (leaf, -t), (leaf, 0.0), (0.0, 0.0)]);
    scene.area(std::slice::from_ref(&upright), Some(Fill::Black), None);
    scene.area(std::slice::from_ref(&lying), Some(Fill::Black), None);
    let pin = drawn(&[(0.0, 0.0)])[0];
    scene.disc(pin, hinge.pin.to_mm() / 2.0, Fill::White, Some(Line::VISIBLE));
    let gap = packer.to_mm();
    if gap > 0.05 {
        let start = hinge.pin.to_mm() / 2.0;
        let ring = drawn(&[(start, -t - gap), (leaf, -t - gap), (leaf, -t), (start, -t)]);
        let at = ring[1];
        scene.area(&[ring], Some(Fill::HATCH), Some(Line::VISIBLE));
        scene.leader((at.0, at.1 + gap / 2.0), format!("packer {}", mm(*packer, 1)));
    }
    let (part, rail) = piece_at(on.work, PartKind::Rail, mount)?;
    let face = part.faces.first()?;
    let wide = face.width.to_mm();
    let top = face.origin.z.to_mm();
    let corner = cut.profile(rail.place, middle, &[(0.0, top), (wide, top)]);
    let (a, b) = (corner[0].0, corner[1].0);
    let ring = vec![(a, cut.skin(a)), corner[0], corner[1], (b, cut.skin(b))];
    scene.line(&ring, Line::VISIBLE);
    let inside = f64::midpoint(cut.skin(f64::midpoint(a, b)), corner[1].1);
    scene.words((f64::midpoint(a, b), inside), "roof\nrail", Place::Centre, Style::PLAIN);
    let (left, right) = (a.min(b).min(cut.face()), a.max(b).max(cut.face()));
    let inboard = 60.0;
    let (from, to) =
        if cut.way > 0.0 { (left - inboard, right + 25.0) } else { (left - 25.0, right + inboard) };
    cut.draw_skin(&mut scene, from, to);
    cut.draw_frame(&mut scene, 60.0);
    for axis in screw_axes(on, hinge_part) {
        scene.line(&drawn(&axis), Line::CENTRE);
    }
    scene.leader(pin, "pin");
    let at = cut.face();
    let side = if cut.way > 0.0 { Side::Left } else { Side::Right };
    scene.dimension(
        side,
        (at, cut.skin(at)),
        (at, mount.at.z.to_mm()),
        bare(mount.at.z - Length::mm(cut.skin(at)), 1),
    );
    let rail_side = if cut.way > 0.0 { Side::Right } else { Side::Left };
    scene.dimension(
        rail_side,
        (b, cut.skin(f64::midpoint(a, b))),
        (b, corner[1].1),
        bare(*line.rail.height, 1),
    );
    scene.view(format!("{}, at {}", cut.seen(), mount.mark));
    Some(scene)
}

/// Axes of the holes of a part in its own y and z, each once.
fn screw_axes(on: &Plan<'_>, part: &Part) -> Vec<[At; 2]> {
    const OVER: f64 = 14.0;
    let mut axes: Vec<[At; 2]> = Vec::new();
    let index = on.work.parts.iter().position(|other| std::ptr::eq(other, part));
    for hole in on.work.holes.iter().filter(|hole| Some(hole.part) == index) {
        let face = &part.faces[hole.face];
        let at = face.point(hole.at);
        let end = |over: f64| {
            let p = at + face.outward * Length::mm(over);
            (p.y.to_mm(), p.z.to_mm())
        };
        let axis = [end(OVER), end(-OVER)];
        let near = |a: At, b: At| (a.0 - b.0).abs() < 0.1 && (a.1 - b.1).abs() < 0.1;
        if !axes.iter().any(|known| near(known[0], axis[0]) && near(known[1], axis[1])) {
            axes.push(axis);
        }
    }
    axes
}

/// The whole width at a mount: the true curve of the skin, the frame and the panels over it.
pub fn roof_section(on: &Plan<'_>, mount: &MountPlace) -> Option<Scene> {
    let (roof, array) = (on.build.roof.as_ref()?, on.work.arrays.get(mount.frame)?);
    let cut = Cut { across: true, ..Cut::new(on, mount) };
    let half = roof.width.to_mm() / 2.0;
    let mut scene = Scene::new(format!(
        "whole roof cut across at {}: skin, frame and panels over it",
        mount.mark
    ));
    scene.lettering = Lettering::Small;
    cut.draw_skin(&mut scene, -half, half);
    let (low, high) = (array.outline.low().y.to_mm(), array.outline.high().y.to_mm());
    let (under, tube, top) = (array.under.to_mm(), array.tube_top.to_mm(), array.top.to_mm());
    scene.rectangle((low, under), (high - low, tube - under), Line::VISIBLE);
    scene.rectangle((low, tube), (high - low, top - tube), Line::VISIBLE);
    scene.line(&[(0.0, -60.0), (0.0, top + 40.0)], Line::CENTRE);
    for keep in &roof.keep_outs {
        let y = keep.y.to_mm();
        let within = *keep.x <= mount.at.x && mount.at.x <= *keep.x + *keep.length;
        if within {
            let base = cut.skin(y + keep.width.to_mm() / 2.0);
            scene.rectangle((y, base), (keep.width.to_mm(), keep.height.to_mm()), Line::THIN);
        }
    }
    let gap = |y: f64| bare(Length::mm(under - cut.skin(y)), 1);
    // Beside the frame, over the roof: the sheet is as wide as the roof.
    scene.aligned((low, cut.skin(low)), (low, under), 7.0, gap(low));
    scene.aligned((high, cut.skin(high)), (high, under), -7.0, gap(high));
    scene.view(format!("section from the rear, at {}, X {}", mount.mark, mm(mount.at.x, 0)));
    Some(scene)
}

/// The whole length on the centre line: the true curve of the skin, frames and panels over it. None where
/// the skin is level along the roof.
pub fn roof_side(on: &Plan<'_>) -> Option<Scene> {
    let (roof, surface) = (on.build.roof.as_ref()?, on.work.roof.as_ref()?);
    let skin = |x: f64| surface.height(Length::mm(x), Length::ZERO).to_mm();
    let curve: Vec<At> = (0..=STEPS)
        .map(|step| roof.length.to_mm() * f64::from(step) / f64::from(STEPS))
        .map(|x| (x, skin(x)))
        .collect();
    let low = curve.iter().map(|at| at.1).fold(f64::INFINITY, f64::min);
    let high = curve.iter().map(|at| at.1).fold(f64::NEG_INFINITY, f64::max);
    if high - low < 1.0 || on.work.arrays.is_empty() {
        return None;
    }
    let mut scene =
        Scene::new("whole roof cut along its centre line: skin, frames and panels over it");
    scene.lettering = Lettering::Small;
    scene.line(&curve, Line::VISIBLE);
    for array in &on.work.arrays {
        let (from, to) = (array.outline.low().x.to_mm(), array.outline.high().x.to_mm());
        let (under, tube, top) = (array.under.to_mm(), array.tube_top.to_mm(), array.top.to_mm());
        scene.rectangle((from, under), (to - from, tube - under), Line::VISIBLE);
        scene.rectangle((from, tube), (to - from, top - tube), Line::VISIBLE);
        let gap = |x: f64| bare(Length::mm(under - skin(x)), 1);
        scene.aligned((from, skin(from)), (from, under), 7.0, gap(from));
        scene.aligned((to, skin(to)), (to, under), -7.0, gap(to));
    }
    for keep in &roof.keep_outs {
        for place in keep.places() {
            let (a, b) = (place.low(), place.high());
            if a.y < Length::ZERO && b.y > Length::ZERO {
                let (from, to) = (a.x.to_mm(), b.x.to_mm());
                let base = skin(f64::midpoint(from, to));
                scene.rectangle((from, base), (to - from, keep.height.to_mm()), Line::THIN);
                let above = (f64::midpoint(from, to), base + keep.height.to_mm());
                scene.label_on(above, Side::Above, keep.name.value.clone());
            }
        }
    }
    scene.view("section from the left, front at left, on the centre line");
    Some(scene)
}
