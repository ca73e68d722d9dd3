//! The roof from above: front of the vehicle at the left, its right side at the top.

use super::fixture::draw_on_skin;
use super::{corner_size, on_vehicle, outline, piece_at};
use crate::build::{Build, Edge, FixedOn};
use crate::compute::electrics::string_of;
use crate::derive::{Array, MountPlace, MountShape, PartKind, Work};
use crate::geometry::{Point2, Rect};
use crate::page::scene::{At, Fill, Lettering, Line, Place, Scene, Side, Style};
use crate::sheets::words::bare;
use crate::units::Length;

/// What a plan is made from.
#[derive(Clone, Copy)]
pub struct Plan<'a> {
    /// What was written.
    pub build: &'a Build,
    /// What is to be made.
    pub work: &'a Work,
}

/// What a plan shows strongly.
#[derive(Debug, Clone, Copy, Default)]
#[expect(clippy::struct_excessive_bools, reason = "wishes of a sheet, each apart from the others")]
pub struct PlanView<'a> {
    /// Marks that the sheet is about: they are drawn heavy and named, the rest stays light. Empty
    /// for a plan of everything.
    pub about: &'a [&'a str],
    /// Running sizes from the tape's zero.
    pub sizes: bool,
    /// The smaller lettering, for sheets with little room.
    pub small: bool,
    /// The frame strong though the sheet is about some marks only.
    pub frame: bool,
    /// Sides and keep-outs named and the rail shown: what a first look needs.
    pub whole: bool,
}

impl PlanView<'_> {
    fn strong(&self, mark: &str) -> bool {
        self.about.is_empty() || self.about.contains(&mark)
    }

    fn named(&self, mark: &str) -> bool {
        self.strong(mark)
    }
}

/// Paper mm are model mm over this at the scale that a roof gets; used for what must not be hair-thin.
const REACH: f64 = 120.0;

/// Stretch of the centre line ahead of the frame that is left out, mm.
const GAP: (f64, f64) = (320.0, 100.0);

/// The plan; none without a roof.
pub fn roof_plan(on: &Plan<'_>, view: PlanView) -> Option<Scene> {
    let roof = on.build.roof.as_ref()?;
    let (length, half) = (roof.length.to_mm(), roof.width.to_mm() / 2.0);
    let mut scene = Scene::new(alt(on));
    scene.lettering = if view.small { Lettering::Small } else { Lettering::Large };
    scene.rounded((0.0, -half), (length, 2.0 * half), half * 0.12, Line::THIN);
    // The centre line leaves room for the size of the frame beside it.
    let mut from = 0.0;
    let mut gaps: Vec<(f64, f64)> = Vec::new();
    for array in on.work.arrays.iter().filter(|_| view.sizes) {
        let x = array.outline.low().x.to_mm();
        gaps.push((x - GAP.0, x - GAP.1));
    }
    gaps.sort_by(|a, b| a.0.total_cmp(&b.0));
    for (gap, next) in gaps.into_iter().chain([(length, length)]) {
        if gap > from {
            scene.line(&[(from, 0.0), (gap, 0.0)], Line::CENTRE);
        }
        from = next.max(from);
    }
    for keep in &roof.keep_outs {
        for (place, taken) in keep.places().into_iter().zip(keep.taken()) {
            // Where an open lid reaches.
            if taken != place {
                let (corner, size) = corner_size(taken);
                scene.rectangle(corner, size, Line::HIDDEN);
            }
            let (corner, size) = corner_size(place);
            if keep.lets_frames_over() {
                scene.rectangle(corner, size, Line::THIN);
            } else {
                scene.filled_rectangle(corner, size, Fill::HATCH, Some(Line::THIN));
            }
        }
        let area = Rect::from_size(Point2::new(*keep.x, *keep.y), *keep.length, *keep.width);
        let (corner, size) = corner_size(area);
        if view.whole {
            // Away from the entry, else from the middle of the roof.
            let middle = corner.1 + size.1 / 2.0;
            let entry = on.work.entry.as_ref().map_or(0.0, |entry| entry.at.y.to_mm());
            let (side, edge) = if middle < entry {
                (Side::Below, corner.1)
            } else {
                (Side::Above, corner.1 + size.1)
            };
            scene.label_on((corner.0 + size.0 / 2.0, edge), side, keep.name.value.clone());
        }
    }
    if view.whole {
        rails(&mut scene, on);
    }
    array(&mut scene, on, view);
    for mount in &on.work.mounts {
        self::mount(&mut scene, on, mount, view);
    }
    entry(&mut scene, on, view);
    fixtures(&mut scene, on, view);
    if view.sizes {
        sizes(&mut scene, on);
    }
    scene.datum((0.0, 0.0), "zero");
    scene.front((length * 0.12, -half * 0.55), 180.0);
    if view.whole {
        let low = -half + half * 0.16;
        scene.words((length - 60.0, -low), "right side", Place::Beside(Side::Left), Style::CAPTION);
        scene.words((length - 60.0, low), "left side", Place::Beside(Side::Left), Style::CAPTION);
    }
    scene.view("from above, front at left");
    Some(scene)
}

fn alt(on: &Plan<'_>) -> String {
    let mut told: Vec<String> = Vec::new();
    let panels = on.work.panels().count();
    match on.work.arrays.len() {
        0 => {}
        1 => told.push(format!("{panels} panels on their frame")),
        frames => told.push(format!("{panels} panels on {frames} frames")),
    }
    let marks: Vec<&str> = on.work.mounts.iter().map(|m| m.mark.as_str()).collect();
    if !marks.is_empty() {
        told.push(format!("mounts {}", marks.join(", ")));
    }
    let fixtures = on.build.fixtures.iter().filter(|fixture| *fixture.on == FixedOn::Roof);
    told.extend(fixtures.map(|fixture| format!("{} {}", *fixture.name, *fixture.mark)));
    format!("roof from above: {}", told.join(", "))
}

fn fixtures(scene: &mut Scene, on: &Plan<'_>, view: PlanView) {
    for fixture in on.build.fixtures.iter().filter(|fixture| *fixture.on == FixedOn::Roof) {
        let strong = view.strong(&fixture.mark);
        draw_on_skin(scene, on.build, fixture, strong);
        if strong {
            // Beside the centre line, not on it.
            let up = fixture.width.to_mm() * 0.3;
            scene.name((fixture.x.to_mm(), fixture.y.to_mm() + up), fixture.mark.value.clone());
        }
    }
}

/// The stretch of rail along each line of hinges, a little longer than the hinges need.
fn rails(scene: &mut Scene, on: &Plan<'_>) {
    let pieces: Vec<Rect> = on
        .work
        .parts_of(PartKind::Rail)
        .flat_map(|part| {
            let size = part.faces.first().map(|face| (face.length, face.width));
            part.pieces.iter().filter_map(move |piece| {
                let (length, width) = size?;
                let zero = Length::ZERO;
                let corners = [(zero, zero), (length, width)].map(|(x, y)| {
                    let at = on_vehicle(piece.place, x, y, zero);
                    Point2::new(at.x, at.y)
                });
                Rect::around(corners)
            })
        })
        .collect();
    let Some(all) = Rect::around(pieces.iter().flat_map(|r| [r.low(), r.high()])) else { return };
    let ((x, y), (w, h)) = corner_size(all);
    let along = w >= h;
    let (corner, size) = if along {
        ((x - REACH, y), (w + 2.0 * REACH, h))
    } else {
        ((x, y - REACH), (w, h + 2.0 * REACH))
    };
    scene.rectangle(corner, size, Line::THIN);
    let end = if along {
        (corner.0 + size.0, corner.1 + size.1 / 2.0)
    } else {
        (corner.0 + size.0 / 2.0, corner.1 + size.1)
    };
    scene.label_on(end, if along { Side::Right } else { Side::Above }, "roof rail");
}

fn array(scene: &mut Scene, on: &Plan<'_>, view: PlanView) {
    for array in &on.work.arrays {
        one_array(scene, on, array, view);
    }
}

fn one_array(scene: &mut Scene, on: &Plan<'_>, array: &Array, view: PlanView) {
    let strong = view.about.is_empty() || view.frame;
    outline(scene, array.outline, if strong { Line::HEAVY } else { Line::THIN });
    for panel in &array.panels {
        let line = match (view.about.is_empty(), view.strong(&panel.mark)) {
            (false, true) => Line::HEAVY,
            _ => Line::THIN,
        };
        outline(scene, panel.outline, line);
        if view.named(&panel.mark) || view.frame {
            let middle = panel.outline.centre();
            // Beside the centre line, not on it.
            let at = (middle.x.to_mm(), middle.y.to_mm() + panel.outline.height().to_mm() * 0.2);
            scene.name(at, panel.mark.clone());
            if let Some(number) = string_of(on.build, &panel.mark).filter(|_| view.whole) {
                let at =
                    (middle.x.to_mm(), middle.y.to_mm() - panel.outline.height().to_mm() * 0.2);
                scene.words(at, format!("string {number}"), Place::Centre, Style::CAPTION);
            }
        }
    }
}

fn mount(scene: &mut Scene, on: &Plan<'_>, mount: &MountPlace, view: PlanView) {
    let strong = view.strong(&mount.mark);
    let line = if strong { Line::VISIBLE } else { Line::THIN };
    let outboard = match mount.edge {
        Edge::Left => Side::Below,
        Edge::Right => Side::Above,
        Edge::Front => Side::Left,
        Edge::Rear => Side::Right,
    };
    let foot = match &mount.kind {
        MountShape::BondedFoot { .. } => plate(on, mount, PartKind::FootPlate),
        MountShape::BoltedFoot { .. } => plate(on, mount, PartKind::SkinUnderFoot),
        MountShape::RailClamp { .. } => plate(on, mount, PartKind::ClampPlate),
        MountShape::Hinge { hinge, pin, .. } => {
            let (long, leaf) = (hinge.length, hinge.leaf);
            let middle = Point2::new(pin.x, pin.y);
            let size = match mount.edge {
                Edge::Left | Edge::Right => (long, leaf * 2.0),
                Edge::Front | Edge::Rear => (leaf * 2.0, long),
            };
            Some(Rect::about(middle, size.0, size.1))
        }
    };
    let Some(foot) = foot else { return };
    let (corner, size) = corner_size(foot);
    let fill = match (&mount.kind, strong) {
        (MountShape::Hinge { .. }, true) => Fill::Black,
        _ => Fill::White,
    };
    scene.filled_rectangle(corner, size, fill, Some(line));
    if view.named(&mount.mark) {
        let at: At = match outboard {
            Side::Above => (corner.0 + size.0 / 2.0, corner.1 + size.1),
            Side::Below => (corner.0 + size.0 / 2.0, corner.1),
            Side::Left => (corner.0, corner.1 + size.1 / 2.0),
            Side::Right => (corner.0 + size.0, corner.1 + size.1 / 2.0),
        };
        scene.label_on(at, outboard, mount.mark.clone());
    }
}

/// Outline of a foot's plate on the plan.
fn plate(on: &Plan<'_>, mount: &MountPlace, kind: PartKind) -> Option<Rect> {
    let (part, piece) = piece_at(on.work, kind, mount)?;
    let top = part.faces.first()?;
    let (length, width) = (top.length, top.width);
    let zero = Length::ZERO;
    Rect::around([(zero, zero), (length, width)].map(|(x, y)| {
        let at = on_vehicle(piece.place, x, y, zero);
        Point2::new(at.x, at.y)
    }))
}

fn entry(scene: &mut Scene, on: &Plan<'_>, view: PlanView) {
    let Some(entry) = &on.work.entry else { return };
    let strong = view.strong(&entry.mark);
    outline(scene, entry.foot, if strong { Line::VISIBLE } else { Line::THIN });
    let at = (entry.at.x.to_mm(), entry.at.y.to_mm());
    let hole = on.work.hole(&entry.hole).map_or(10.0, |hole| hole.diameter.to_mm());
    scene.circle(at, hole / 2.0, Line::THIN);
    if view.named(&entry.mark) {
        scene.label_on((entry.foot.high().x.to_mm(), at.1), Side::Right, entry.mark.clone());
    }
}

/// Running sizes from the datum along the roof; across, the size of the frame beside it.
fn sizes(scene: &mut Scene, on: &Plan<'_>) {
    let Some(roof) = on.build.roof.as_ref() else { return };
    let half = *roof.width / 2.0;
    let mut along: Vec<(At, String)> = Vec::new();
    for array in &on.work.arrays {
        let (low, high) = (array.outline.low(), array.outline.high());
        for x in [low.x, high.x] {
            along.push(((x.to_mm(), high.y.to_mm()), bare(x, 0)));
        }
        // Ahead of the frame there is room, and the sheet is as wide as the roof. Frames as wide as
        // one before them are measured there.
        let told = on.work.arrays.iter().take_while(|other| other.frame != array.frame).any(|a| {
            let same = |x: Length, y: Length| x.is_near(y, Length::mm(0.5));
            same(a.outline.low().y, low.y) && same(a.outline.high().y, high.y)
        });
        if !told {
            let ends = [low.y, high.y].map(|y| (low.x.to_mm(), y.to_mm()));
            // Beyond what stands before it, with its mark.
            let before = on.work.mounts_of(array.frame).any(|(_, m)| m.edge == Edge::Front);
            let off = if before { 17.0 } else { 9.0 };
            scene.aligned(ends[0], ends[1], off, bare(array.outline.height(), 0));
        }
    }
    if !along.is_empty() {
        scene.running(Side::Above, (0.0, half.to_mm()), &along);
    }
}
