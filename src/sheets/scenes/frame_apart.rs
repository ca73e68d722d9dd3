//! A frame taken apart: tubes pulled off their joints along their axes, what joins them between, the panels
//! over them, with numbers in the order in which they come together.
//!
//! Long stretches without a joint are drawn short, so that the joints can be seen.

use super::Plan;
use super::face_view::{angle_profile, legs};
use super::solid::{Eye, Space, add};
use crate::derive::{Array, Body, Part, PartKind, Piece};
use crate::geometry::Point3;
use crate::page::scene::{Line, Scene};
use crate::units::Length;

/// Room between parts that are drawn apart, mm.
const APART: f64 = 62.0;
/// Between a joint angle and what it is riveted to.
const BESIDE: f64 = 34.0;
/// Kept at full length: from a corner and to both sides of a cross tube.
const CORNER: f64 = 110.0;
const CROSS: f64 = 60.0;
/// Share that is left of the stretches between.
const SHORT: f64 = 0.16;
/// Where one stands, degrees: turned from the vehicle's right side, and raised.
const EYE: (f64, f64) = (207.0, 33.0);

/// What comes together, in order: its number and what it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Joined {
    /// Tubes along the vehicle; connectors and angles go to them.
    Sides,
    /// Connectors, pushed into the side tubes.
    Connectors,
    /// Tubes across, at both ends.
    Ends,
    /// Angles in the inner corners.
    CornerAngles,
    /// Tubes between the side tubes.
    Cross,
    /// Angles that hold them.
    JointAngles,
    /// Plugs of open tube ends.
    Plugs,
    /// Panels, face down on the bench; drawn as they lie on the roof.
    Panels,
}

impl Joined {
    const fn of(kind: PartKind) -> Option<Self> {
        Some(match kind {
            PartKind::SideTube => Self::Sides,
            PartKind::Connector => Self::Connectors,
            PartKind::EndTube => Self::Ends,
            PartKind::CornerAngle => Self::CornerAngles,
            PartKind::CrossTube => Self::Cross,
            PartKind::JointAngle => Self::JointAngles,
            PartKind::EndPlug => Self::Plugs,
            _ => return None,
        })
    }
}

/// What a frame is put together from, in order.
pub fn in_order<'a>(on: &Plan<'a>, frame: usize) -> Vec<(Joined, Vec<(&'a Part, &'a Piece)>)> {
    let mut all: Vec<(Joined, Vec<(&Part, &Piece)>)> = Vec::new();
    for part in &on.work.parts {
        let Some(joined) = Joined::of(part.kind) else { continue };
        for piece in part.pieces.iter().filter(|piece| piece.frame == Some(frame)) {
            match all.iter_mut().find(|(one, _)| *one == joined) {
                Some((_, pieces)) => pieces.push((part, piece)),
                None => all.push((joined, vec![(part, piece)])),
            }
        }
    }
    all.sort_by_key(|(joined, _)| *joined);
    if on.work.arrays.get(frame).is_some_and(|array| !array.panels.is_empty()) {
        all.push((Joined::Panels, Vec::new()));
    }
    all
}

/// Lengths without joints made short.
struct Short {
    start: f64,
    kept: Vec<(f64, f64)>,
}

impl Short {
    fn new(from: f64, to: f64, cross: &[f64]) -> Self {
        let mut kept = vec![(from - CORNER, from + CORNER)];
        kept.extend(cross.iter().map(|at| (at - CROSS, at + CROSS)));
        kept.push((to - CORNER, to + CORNER));
        let mut merged: Vec<(f64, f64)> = Vec::new();
        for (low, high) in kept {
            match merged.last_mut() {
                Some(last) if low <= last.1 => last.1 = last.1.max(high),
                _ => merged.push((low, high)),
            }
        }
        Self { start: from, kept: merged }
    }

    fn at(&self, value: f64) -> f64 {
        let inside = |(low, high): &(f64, f64)| {
            let clip = |v: f64| v.clamp(*low, *high);
            clip(value) - clip(self.start)
        };
        let kept: f64 = self.kept.iter().map(inside).sum();
        kept + (value - self.start - kept) * SHORT
    }
}

/// A body between two rings.
struct Solid {
    ring: Vec<Space>,
    other: Vec<Space>,
}

struct Drawn<'a> {
    array: &'a Array,
    along: Short,
    across: Short,
    eye: Eye,
    /// Width and height of its tubes.
    tube: (f64, f64),
}

fn space(p: Point3) -> Space {
    [p.x.to_mm(), p.y.to_mm(), p.z.to_mm()]
}

impl Drawn<'_> {
    fn place(&self, p: Space, off: Space) -> Space {
        add([self.along.at(p[0]), self.across.at(p[1]), p[2]], off, 1.0)
    }

    /// Which side of the frame's middle a place is on, along and across.
    fn side(&self, p: Space) -> (f64, f64) {
        let (low, high) = (self.array.outline.low(), self.array.outline.high());
        let middle = ((low.x + high.x).to_mm() / 2.0, (low.y + high.y).to_mm() / 2.0);
        ((p[0] - middle.0).signum(), (p[1] - middle.1).signum())
    }

    /// Where it is pulled to.
    fn off(&self, joined: Joined, middle: Space) -> Space {
        let (x, y) = self.side(middle);
        match joined {
            Joined::Sides => [0.0, y * APART, 0.0],
            Joined::Ends => [x * APART, 0.0, 0.0],
            Joined::Connectors => [x * APART, y * APART, 0.0],
            Joined::Plugs => [x * APART * 1.5, y * APART, 0.0],
            Joined::JointAngles => {
                let cross = self.array.cross.iter().map(|at| at.to_mm());
                let nearest = cross
                    .min_by(|a, b| (a - middle[0]).abs().total_cmp(&(b - middle[0]).abs()))
                    .unwrap_or(middle[0]);
                [(middle[0] - nearest).signum() * BESIDE, 0.0, 0.0]
            }
            Joined::CornerAngles | Joined::Cross => [0.0; 3],
            Joined::Panels => [0.0, 0.0, self.lift()],
        }
    }

    /// So far up that the panels hide nothing of the frame.
    fn lift(&self) -> f64 {
        let deep = self.across.at(self.array.outline.high().y.to_mm()) + APART * 2.0;
        deep * EYE.1.to_radians().tan() * 1.15
    }

    fn solids(&self, joined: Joined, part: &Part, piece: &Piece) -> Vec<Solid> {
        let loft = |rings: [Vec<Space>; 2], off: Space| {
            let [ring, other] =
                rings.map(|ring| ring.iter().map(|p| self.place(*p, off)).collect());
            Solid { ring, other }
        };
        match &part.body {
            Body::Bar { length, bend: None, ends, .. } => {
                let (w, h) = self.tube;
                let own = |x: f64, y: f64, z: f64| space(piece.place.place(Point3::mm(x, y, z)));
                // The long point of a mitre lies at full width where it is above zero.
                let (a, b) = (ends.zero.tan() * w, ends.far.tan() * w);
                let long = length.to_mm();
                let begin = |y: f64| if a > 0.0 { a * (1.0 - y / w) } else { -a * y / w };
                let end = |y: f64| long - if b > 0.0 { b * (1.0 - y / w) } else { -b * y / w };
                let corners = [(0.0, 0.0), (w, 0.0), (w, h), (0.0, h)];
                let ring = corners.map(|(y, z)| own(begin(y), y, z)).to_vec();
                let other = corners.map(|(y, z)| own(end(y), y, z)).to_vec();
                let middle = own(long / 2.0, w / 2.0, h / 2.0);
                vec![loft([ring, other], self.off(joined, middle))]
            }
            body if body.bracket().is_some() => {
                let long = body.bracket().map_or(0.0, |bracket| bracket.length.to_mm());
                let (standing, lying) = legs(part);
                let wall = body.bracket().map_or(1.0, |bracket| bracket.section.t.to_mm());
                let between = body.bracket().map(|bracket| bracket.between).unwrap_or_default();
                let profile = angle_profile(standing.to_mm(), lying.to_mm(), wall, between);
                let at = |x: f64| -> Vec<Space> {
                    let own = |(y, z): &(f64, f64)| space(piece.place.place(Point3::mm(x, *y, *z)));
                    profile.iter().map(own).collect()
                };
                let heel = space(piece.place.place(Point3::mm(long / 2.0, 0.0, 0.0)));
                vec![loft([at(0.0), at(long)], self.off(joined, heel))]
            }
            Body::Bought { .. } => self.bought(joined, piece),
            _ => Vec::new(),
        }
    }

    /// Connectors and plugs.
    fn bought(&self, joined: Joined, piece: &Piece) -> Vec<Solid> {
        let (w, h) = self.tube;
        let at = space(piece.place.origin());
        let block = |low: Space, high: Space, off: Space| {
            let ring = |z: f64| {
                [(low[0], low[1]), (high[0], low[1]), (high[0], high[1]), (low[0], high[1])]
                    .map(|(x, y)| self.place([x, y, z], off))
                    .to_vec()
            };
            Solid { ring: ring(low[2]), other: ring(high[2]) }
        };
        let off = self.off(joined, at);
        let (x, y) = self.side(at);
        let span = |from: f64, to: f64| (from.min(to), from.max(to));
        if joined == Joined::Plugs {
            let thick = 4.0;
            let (xs, ys) = (span(at[0], at[0] - x * thick), span(at[1], at[1] - y * w));
            return vec![block([xs.0, ys.0, at[2]], [xs.1, ys.1, at[2] + h], off)];
        }
        // Its place is the low corner of its cube; its arms reach into both tubes.
        let (low, high) = (at, [at[0] + w, at[1] + w, at[2] + h]);
        let (thin, reach) = (3.0, CONNECTOR_ARM);
        let along = if x < 0.0 { (high[0], high[0] + reach) } else { (low[0] - reach, low[0]) };
        let beside = if y < 0.0 { (high[1], high[1] + reach) } else { (low[1] - reach, low[1]) };
        let mut all = vec![
            block(
                [along.0, low[1] + thin, low[2] + thin],
                [along.1, high[1] - thin, high[2] - thin],
                off,
            ),
            block(
                [low[0] + thin, beside.0, low[2] + thin],
                [high[0] - thin, beside.1, high[2] - thin],
                off,
            ),
            block(low, high, off),
        ];
        all.sort_by(|a, b| self.depth(a).total_cmp(&self.depth(b)));
        all
    }

    fn middle(solid: &Solid) -> Space {
        let all = solid.ring.iter().chain(&solid.other);
        let sum = all.fold([0.0; 3], |sum, p| add(sum, *p, 1.0));
        add([0.0; 3], sum, 1.0 / (solid.ring.len() + solid.other.len()).max(1) as f64)
    }

    fn depth(&self, solid: &Solid) -> f64 {
        self.eye.depth(Self::middle(solid))
    }

    fn panels(&self) -> Vec<(String, Solid)> {
        let off = self.off(Joined::Panels, [0.0; 3]);
        let panel = |panel: &crate::derive::PanelPlace| {
            let (low, high) = (panel.outline.low(), panel.outline.high());
            let ring = |z: Length| {
                [(low.x, low.y), (high.x, low.y), (high.x, high.y), (low.x, high.y)]
                    .map(|(x, y)| self.place([x.to_mm(), y.to_mm(), z.to_mm()], off))
                    .to_vec()
            };
            let solid = Solid { ring: ring(self.array.tube_top), other: ring(self.array.top) };
            (panel.mark.clone(), solid)
        };
        self.array.panels.iter().map(panel).collect()
    }
}

/// Arm of a connector as drawn, mm.
const CONNECTOR_ARM: f64 = 38.0;
/// From a part to its number, mm.
const NUMBER: f64 = 46.0;

/// The frame taken apart; none where it has no tubes.
pub fn frame_apart(on: &Plan<'_>, frame: usize) -> Option<Scene> {
    let array = on.work.arrays.get(frame)?;
    let tubes = on.build.frames.get(frame)?;
    let (low, high) = (array.outline.low(), array.outline.high());
    let cross: Vec<f64> = array.cross.iter().map(|at| at.to_mm()).collect();
    let drawn = Drawn {
        array,
        along: Short::new(low.x.to_mm(), high.x.to_mm(), &cross),
        across: Short::new(low.y.to_mm(), high.y.to_mm(), &[]),
        eye: Eye::new(EYE.0, EYE.1),
        tube: (tubes.section.width().to_mm(), tubes.section.height().to_mm()),
    };
    let eye = drawn.eye;
    let order = in_order(on, frame);
    let mut scene = Scene::not_to_scale(format!(
        "{} taken apart, with numbers from 1 to {} in the order in which it comes together",
        on.build.the_frame(frame),
        order.len()
    ));
    let mut solids: Vec<Solid> = Vec::new();
    let mut numbers: Vec<(usize, Joined, Space)> = Vec::new();
    let mut middles: Vec<(Joined, Space)> = Vec::new();
    for (index, (joined, pieces)) in order.iter().enumerate() {
        for (part, piece) in pieces {
            let own = drawn.solids(*joined, part, piece);
            let Some(body) = own.last() else { continue };
            let middle = Drawn::middle(body);
            middles.push((*joined, middle));
            numbers.push((index + 1, *joined, middle));
            solids.extend(own);
        }
    }
    let panels = drawn.panels();
    joints(&mut scene, &drawn, &middles, &panels);
    solids.sort_by(|a, b| drawn.depth(a).total_cmp(&drawn.depth(b)));
    for solid in &solids {
        eye.loft(&mut scene, (&solid.ring, &solid.other), Line::VISIBLE);
    }
    let mut plates: Vec<&(String, Solid)> = panels.iter().collect();
    plates.sort_by(|a, b| drawn.depth(&a.1).total_cmp(&drawn.depth(&b.1)));
    for (mark, solid) in plates {
        eye.loft(&mut scene, (&solid.ring, &solid.other), Line::VISIBLE);
        scene.name(eye.at(Drawn::middle(solid)), mark.clone());
    }
    number(&mut scene, &drawn, &order, &numbers, &panels);
    let front = eye.at([-1.0, 0.0, 0.0]);
    let (x, y) = (drawn.along.at(low.x.to_mm()) - APART * 2.6, drawn.across.at(low.y.to_mm()));
    let at = eye.at([x, y, array.under.to_mm()]);
    scene.front(at, front.1.atan2(front.0).to_degrees());
    scene.view("from the left above, front at left; lengths between joints drawn short");
    Some(scene)
}

/// Lines along which parts go together.
fn joints(
    scene: &mut Scene,
    drawn: &Drawn<'_>,
    middles: &[(Joined, Space)],
    panels: &[(String, Solid)],
) {
    let eye = drawn.eye;
    let mut axis = |a: Space, b: Space| scene.line(&[eye.at(a), eye.at(b)], Line::CENTRE);
    let of = |joined: Joined| {
        middles.iter().filter(move |(one, _)| *one == joined).map(|(_, middle)| *middle)
    };
    let (low, high) = (drawn.array.outline.low(), drawn.array.outline.high());
    let corner = |x: f64, y: f64| {
        let at = |way: f64, a: Length, b: Length| if way < 0.0 { a.to_mm() } else { b.to_mm() };
        let (w, h) = drawn.tube;
        let p = [at(x, low.x, high.x) - x * w / 2.0, at(y, low.y, high.y) - y * w / 2.0];
        drawn.place([p[0], p[1], drawn.array.under.to_mm() + h / 2.0], [0.0; 3])
    };
    // Through each corner: along the side tube, and along the end tube.
    for (x, y) in [(-1.0, -1.0), (-1.0, 1.0), (1.0, -1.0), (1.0, 1.0)] {
        let at = corner(x, y);
        let on_side = add(at, [0.0, y, 0.0], APART);
        let on_end = add(at, [x, 0.0, 0.0], APART);
        let far = add(on_side, [x, 0.0, 0.0], APART);
        axis(add(on_side, [x, 0.0, 0.0], -CORNER * 0.5), far);
        axis(add(on_end, [0.0, y, 0.0], -CORNER * 0.5), far);
    }
    for at in of(Joined::CornerAngles) {
        let near = |x: f64, y: f64| corner(x, y);
        let nearest = [(-1.0, -1.0), (-1.0, 1.0), (1.0, -1.0), (1.0, 1.0)]
            .into_iter()
            .min_by(|a, b| {
                let far = |c: &(f64, f64)| {
                    let d = add(near(c.0, c.1), at, -1.0);
                    d[0].hypot(d[1])
                };
                far(a).total_cmp(&far(b))
            })
            .unwrap_or((1.0, 1.0));
        let (x, y) = nearest;
        axis(at, add(at, [x, 0.0, 0.0], APART * 1.2));
        axis(at, add(at, [0.0, y, 0.0], APART * 1.2));
    }
    for at in of(Joined::Cross) {
        let reach = drawn.across.at(high.y.to_mm()) / 2.0 + APART;
        axis(add(at, [0.0, 1.0, 0.0], -reach), add(at, [0.0, 1.0, 0.0], reach));
    }
    for at in of(Joined::JointAngles) {
        let cross = of(Joined::Cross)
            .min_by(|a, b| (a[0] - at[0]).abs().total_cmp(&(b[0] - at[0]).abs()))
            .unwrap_or(at);
        axis(at, [cross[0], at[1], at[2]]);
        let out = (at[1] - cross[1]).signum();
        axis(at, add(at, [0.0, out, 0.0], APART));
    }
    // From the outer corners of the panels down to the frame.
    for (x, y) in [(-1.0, -1.0), (-1.0, 1.0), (1.0, -1.0), (1.0, 1.0)] {
        if !panels.is_empty() {
            let (off, down) = (drawn.off(Joined::Panels, [0.0; 3]), corner(x, y));
            axis(add(down, off, 1.0), down);
            axis(down, add(down, [0.0, y, 0.0], APART));
        }
    }
}

/// One number to a kind, at the piece with most room: the lowest on the paper.
fn number(
    scene: &mut Scene,
    drawn: &Drawn<'_>,
    order: &[(Joined, Vec<(&Part, &Piece)>)],
    numbers: &[(usize, Joined, Space)],
    panels: &[(String, Solid)],
) {
    let eye = drawn.eye;
    for (index, (joined, _)) in order.iter().enumerate() {
        let own: Vec<Space> =
            numbers.iter().filter(|(number, ..)| *number == index + 1).map(|(.., p)| *p).collect();
        let place = match joined {
            Joined::Panels => panels.first().map(|(_, solid)| eye.at(solid.other[0])),
            _ => own.iter().map(|p| eye.at(*p)).min_by(|a, b| a.1.total_cmp(&b.1)),
        };
        let Some(at) = place else { continue };
        let (dx, dy) = match joined {
            Joined::Sides | Joined::Plugs | Joined::CornerAngles => (0.0, -1.0),
            Joined::Connectors => (-0.8, -0.6),
            Joined::Ends => (0.0, 1.0),
            Joined::Cross => (-0.8, 0.6),
            Joined::JointAngles => (0.8, -0.6),
            Joined::Panels => (-1.0, 0.0),
        };
        let to = (at.0 + dx * NUMBER, at.1 + dy * NUMBER);
        scene.line(&[at, to], Line::THIN);
        scene.ringed(to, (index + 1).to_string());
    }
}
