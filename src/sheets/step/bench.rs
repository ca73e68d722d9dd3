//! Work on the bench: bars, parts with holes, frame, panels from below.

use super::StepBasis;
use crate::build::Edge;
use crate::compute::steps::Step;
use crate::compute::steps::facts::{mark_order, marks};
use crate::derive::{Array, Body, MountPlace, Part, PartKind};
use crate::geometry::{Point2, Point3, Rect, Vec3};
use crate::page::scene::{Lettering, Line, Place, Scene, Side, Style};
use crate::units::{Length, display};

fn number(length: Length) -> String {
    display::number_short(length.to_mm(), 1)
}

fn names(part: &Part) -> String {
    marks(&part.pieces.iter().map(|piece| piece.mark.as_str()).collect::<Vec<_>>())
}

/// Marks of stated pieces: the mark alone where there is one, else numbered.
fn piece_marks(mark: &str, count: u32) -> Vec<String> {
    if count == 1 {
        vec![mark.to_owned()]
    } else {
        (1..=count).map(|number| format!("{mark}{number}")).collect()
    }
}

/// Pieces of one length, longest first, each to scale with its length.
pub(super) fn bars(basis: &StepBasis<'_>) -> Option<Scene> {
    let mut rows: Vec<(Length, Length, Vec<&str>)> = Vec::new();
    for part in &basis.work.parts {
        let (length, width) = match &part.body {
            Body::Bar { section, length, .. } => (*length, section.height()),
            Body::Plate { length, width, section: Some(_), .. } => (*length, *width),
            // Parts from sheet have plans of their own.
            _ => continue,
        };
        let pieces = part.pieces.iter().map(|piece| piece.mark.as_str());
        match rows.iter_mut().find(|row| row.0.is_near(length, Length::mm(0.05)) && row.1 == width)
        {
            Some(row) => row.2.extend(pieces),
            None => rows.push((length, width, pieces.collect())),
        }
    }
    let stated: Vec<(Length, Vec<String>)> = basis
        .build
        .lengths
        .iter()
        .map(|stated| (*stated.length, piece_marks(&stated.mark, *stated.count)))
        .collect();
    for (length, pieces) in &stated {
        // Cable and tape have no height of their own.
        rows.push((*length, Length::ZERO, pieces.iter().map(String::as_str).collect()));
    }
    for row in &mut rows {
        row.2.sort_by_key(|mark| mark_order(mark));
    }
    rows.sort_by(|a, b| b.0.total_cmp(&a.0));
    // More rows would stand on each other; the cut sheets show every bar.
    rows.truncate(5);
    let longest = rows.first()?.0.to_mm();
    let mut scene = Scene::new("pieces to cut, longest above, each with its marks and length");
    // Bars are drawn as high as a line of words, not as high as they are.
    let high = longest * 0.055;
    let mut y = 0.0;
    for (length, width, pieces) in &rows {
        let long = length.to_mm();
        // What is cut with a blade is drawn as a line along its place.
        if width.is_zero() {
            scene.line(&[(0.0, y - high), (long, y - high)], Line::HEAVY);
        } else {
            scene.rectangle((0.0, y - high), (long, high), Line::HEAVY);
        }
        let words = format!(
            "{} {}",
            marks(pieces),
            display::in_unit_short(*length, crate::units::Unit::MM, 1)
        );
        if long > longest * 0.55 {
            scene.words((long / 2.0, y - high / 2.0), words, Place::Centre, Style::PLAIN);
        } else {
            scene.words((long, y - high / 2.0), words, Place::Beside(Side::Right), Style::PLAIN);
        }
        y -= high * 1.5;
    }
    scene.datum((0.0, 0.0), "zero end");
    scene.view("lengths to scale, heights not");
    Some(scene)
}

/// The face with most holes of each part that is drilled, parts one under the other.
pub(super) fn drilled_parts(basis: &StepBasis<'_>, step: &Step) -> Option<Scene> {
    let work = basis.work;
    let mut scene = Scene::not_to_scale("parts to drill with their holes, face with most holes");
    scene.lettering = Lettering::Small;
    let mut y = 0.0;
    let mut told: Vec<&str> = Vec::new();
    for (index, part) in work.parts.iter().enumerate() {
        let here = part.pieces.iter().any(|piece| step.concerns.contains(&piece.mark));
        // One of each name: the part sheets show all.
        if !here || told.contains(&part.name.as_str()) {
            continue;
        }
        told.push(&part.name);
        let face = (0..part.faces.len()).max_by_key(|face| {
            work.holes.iter().filter(|h| h.part == index && h.face == *face).count()
        });
        let Some(face) = face else { continue };
        let (long, wide) = (part.faces[face].length.to_mm(), part.faces[face].width.to_mm());
        // Each part is drawn to the same length, so that holes of small parts are seen too.
        let scale = 300.0 / long.max(1.0);
        let high = (wide * scale).clamp(12.0, 30.0);
        let up = high / wide.max(1.0);
        let left = part.faces[face].runs_left;
        let place = |x: f64, v: f64| {
            let x = if left { long - x } else { x };
            (x * scale, y - high + v * up)
        };
        scene.rectangle((0.0, y - high), (300.0, high), Line::HEAVY);
        for hole in work.holes.iter().filter(|hole| hole.part == index && hole.face == face) {
            let size = (hole.diameter.to_mm() * scale.min(up)).max(3.0);
            scene.hole_mark(place(hole.at.x.to_mm(), hole.at.y.to_mm()), size);
        }
        let words = format!("{} {}, {}", part.name, names(part), part.faces[face].name);
        scene.words((150.0, y - high), words, Place::Beside(Side::Below), Style::CAPTION);
        y -= high + 26.0;
    }
    scene.view_without_bar("faces drawn to one length; the part sheets' tables win");
    (!told.is_empty()).then_some(scene)
}

/// A place inside an outline, by shares of its sides.
fn within(outline: Rect, along: f64, across: f64) -> (f64, f64) {
    let (low, high) = (outline.low(), outline.high());
    let share = |from: Length, to: Length, part: f64| from.to_mm() + (to - from).to_mm() * part;
    (share(low.x, high.x, along), share(low.y, high.y, across))
}

/// Room between two frames drawn side by side, mm.
const BETWEEN: f64 = 420.0;

/// How far each frame is moved on the drawing, so that several lie in a row with room for their sizes.
fn moves(basis: &StepBasis<'_>) -> Vec<Vec3> {
    let arrays = &basis.work.arrays;
    let Some(first) = arrays.first() else { return Vec::new() };
    let mut next = first.outline.low().x;
    let middle = first.outline.centre().y;
    arrays
        .iter()
        .map(|array| {
            let by = Vec3 {
                x: next - array.outline.low().x,
                y: middle - array.outline.centre().y,
                z: Length::ZERO,
            };
            next = next + array.outline.width() + Length::mm(BETWEEN);
            by
        })
        .collect()
}

/// A tube seen from above in the frame.
fn tube(scene: &mut Scene, (part, moves): (&Part, &[Vec3]), line: Line, name: bool) {
    let Body::Bar { section, length, .. } = &part.body else { return };
    for piece in &part.pieces {
        let by = piece.frame.and_then(|frame| moves.get(frame).copied()).unwrap_or(Vec3::ZERO);
        let a = piece.place.place(Point3::ORIGIN) + by;
        let b = piece.place.place(Point3::new(*length, section.width(), Length::ZERO)) + by;
        let low = (a.x.min(b.x).to_mm(), a.y.min(b.y).to_mm());
        let size = ((a.x - b.x).abs().to_mm(), (a.y - b.y).abs().to_mm());
        scene.rectangle(low, size, line);
        if name {
            scene.leader((low.0 + size.0 * 0.4, low.1 + size.1 * 0.4), piece.mark.clone());
        }
    }
}

fn tubes(basis: &StepBasis<'_>, scene: &mut Scene, line: Line, name: bool) {
    let moves = moves(basis);
    for part in &basis.work.parts {
        if matches!(part.kind, PartKind::SideTube | PartKind::EndTube | PartKind::CrossTube) {
            tube(scene, (part, &moves), line, name);
        }
    }
}

/// The outlines of the frames as drawn.
fn outlines<'a>(basis: &'a StepBasis<'_>) -> Vec<(&'a Array, Rect)> {
    let arrays = &basis.work.arrays;
    let moved = |(array, by): (&'a Array, Vec3)| {
        let low = Point2::new(array.outline.low().x + by.x, array.outline.low().y + by.y);
        (array, Rect::from_size(low, array.outline.width(), array.outline.height()))
    };
    arrays.iter().zip(moves(basis)).map(moved).collect()
}

/// Each frame from above with both diagonals and the places of the cross tubes.
pub(super) fn frame(basis: &StepBasis<'_>) -> Option<Scene> {
    let frames = outlines(basis);
    let (first, _) = frames.first()?;
    let several = frames.len() > 1;
    let mut scene = Scene::new(if several {
        "frames from above with their diagonals, equal in each within their limits"
    } else {
        "frame from above with both diagonals, equal within their limits"
    });
    tubes(basis, &mut scene, Line::HEAVY, true);
    for (array, outline) in &frames {
        let (low, high) = (outline.low(), outline.high());
        let corner = |x: Length, y: Length| (x.to_mm(), y.to_mm());
        scene.line(&[corner(low.x, low.y), corner(high.x, high.y)], Line::CENTRE);
        scene.line(&[corner(low.x, high.y), corner(high.x, low.y)], Line::CENTRE);
        let from = array.outline.low().x;
        let places: Vec<((f64, f64), String)> = array
            .cross
            .iter()
            .map(|x| (corner(low.x + (*x - from), low.y), number(*x - from)))
            .chain(std::iter::once((corner(high.x, low.y), number(outline.width()))))
            .collect();
        scene.running(Side::Below, corner(low.x, low.y), &places);
        let (a, b) = (corner(low.x, low.y), corner(low.x, high.y));
        if array.frame == first.frame {
            scene.dimension(Side::Left, a, b, number(outline.height()));
            scene.front(within(*outline, 0.28, 0.75), 180.0);
        } else if !outline.height().is_near(first.outline.height(), Length::mm(0.5)) {
            scene.aligned(a, b, 9.0, number(outline.height()));
        }
    }
    scene.view(if several {
        let each = |(array, _): &(&Array, Rect)| {
            format!("{} {}\u{a0}mm", array.name, number(array.diagonal))
        };
        let told: Vec<String> = frames.iter().map(each).collect();
        format!("from above, right side up; diagonals: {}", told.join(", "))
    } else {
        format!("from above, right side up; both diagonals {}\u{a0}mm", number(first.diagonal))
    });
    Some(scene)
}

/// Edge and place along it of each mount of a frame, in order.
fn clamped(basis: &StepBasis<'_>, array: &Array) -> Vec<(Edge, Length)> {
    let own = array.outline.low();
    let mut places: Vec<(Edge, Length)> = basis
        .work
        .mounts_of(array.frame)
        .map(|(_, mount)| match mount.edge {
            Edge::Left | Edge::Right => (mount.edge, mount.at.x - own.x),
            Edge::Front | Edge::Rear => (mount.edge, mount.at.y - own.y),
        })
        .collect();
    places.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
    places
}

/// Whether two frames are as large and have their mounts at the same places.
fn clamped_alike(basis: &StepBasis<'_>, a: &Array, b: &Array) -> bool {
    let near = |x: Length, y: Length| x.is_near(y, Length::mm(0.05));
    let (one, other) = (clamped(basis, a), clamped(basis, b));
    near(a.outline.width(), b.outline.width())
        && near(a.outline.height(), b.outline.height())
        && one.len() == other.len()
        && one.iter().zip(&other).all(|(x, y)| x.0 == y.0 && near(x.1, y.1))
}

/// Where the mounts are clamped on each frame; frames that are alike are drawn once.
pub(super) fn mount_places(basis: &StepBasis<'_>) -> Option<Scene> {
    let frames = outlines(basis);
    let (first, outline) = frames.first()?;
    let once = frames.iter().all(|(array, _)| clamped_alike(basis, first, array));
    let mut scene = Scene::new(match (frames.len() > 1, once) {
        (true, true) => {
            "one frame for all, from above; each mount with its middle from the front edge"
        }
        (true, false) => {
            "frames from above; each mount with its middle from the front edge of its frame"
        }
        _ => "frame from above; each mount with its middle from the front edge",
    });
    let drawn = if once { &frames[..1] } else { &frames[..] };
    let moves = moves(basis);
    for part in &basis.work.parts {
        if matches!(part.kind, PartKind::SideTube | PartKind::EndTube | PartKind::CrossTube) {
            let mut part = part.clone();
            part.pieces.retain(|piece| {
                piece.frame.is_none_or(|f| drawn.iter().any(|(array, _)| array.frame == f))
            });
            tube(&mut scene, (&part, &moves), Line::THIN, false);
        }
    }
    for (array, outline) in drawn {
        mounts_of(basis, &mut scene, array, *outline, (once, frames.len()));
    }
    scene.front(within(*outline, 0.5, 0.5), 180.0);
    let told: Vec<&str> = frames.iter().map(|(array, _)| array.name.as_str()).collect();
    scene.view(if once && told.len() > 1 {
        format!("{}: alike, from above, right side up", told.join(", "))
    } else {
        "from above, right side up".to_owned()
    });
    Some(scene)
}

/// Marks of the mounts of all frames that are at one place of theirs.
fn marks_at<'a>(basis: &StepBasis<'a>, edge: Edge, from: Length) -> Vec<&'a str> {
    let here = |array: &Array, place: &MountPlace| {
        let low = array.outline.low();
        let at = match edge {
            Edge::Left | Edge::Right => place.at.x - low.x,
            Edge::Front | Edge::Rear => place.at.y - low.y,
        };
        place.edge == edge && at.is_near(from, Length::mm(0.05))
    };
    let work = basis.work;
    work.arrays
        .iter()
        .flat_map(|array| work.mounts_of(array.frame).map(move |(_, place)| (array, place)))
        .filter(|(array, place)| here(array, place))
        .map(|(_, place)| place.mark.as_str())
        .collect()
}

/// From the frame's edge to the name of a mount inside it, mm.
const INSIDE: f64 = 200.0;

/// `once`: one frame stands for all; `count`: how many there are.
fn mounts_of(
    basis: &StepBasis<'_>,
    scene: &mut Scene,
    array: &Array,
    outline: Rect,
    (once, count): (bool, usize),
) {
    let own = array.outline.low();
    let (low, high) = (outline.low(), outline.high());
    for (edge, side) in [
        (Edge::Right, Side::Above),
        (Edge::Left, Side::Below),
        (Edge::Front, Side::Left),
        (Edge::Rear, Side::Right),
    ] {
        let lengthwise = matches!(edge, Edge::Left | Edge::Right);
        let zero = match edge {
            Edge::Right => (low.x.to_mm(), high.y.to_mm()),
            Edge::Left | Edge::Front => (low.x.to_mm(), low.y.to_mm()),
            Edge::Rear => (high.x.to_mm(), low.y.to_mm()),
        };
        let mut places = Vec::new();
        let here = basis.work.mounts_of(array.frame).filter(|(_, mount)| mount.edge == edge);
        for (_, mount) in here {
            let from = if lengthwise { mount.at.x - own.x } else { mount.at.y - own.y };
            let at = if lengthwise {
                ((low.x + from).to_mm(), zero.1)
            } else {
                (zero.0, (low.y + from).to_mm())
            };
            let half = if lengthwise { (70.0, 22.0) } else { (22.0, 70.0) };
            let corner = (at.0 - half.0, at.1 - half.1);
            scene.filled_rectangle(
                corner,
                (half.0 * 2.0, half.1 * 2.0),
                crate::page::scene::Fill::White,
                Some(Line::HEAVY),
            );
            if count > 1 {
                // Frames in a row are small: the size stands outside, the name inside.
                let inside = |v: f64, low: Length, high: Length| {
                    let middle = f64::midpoint(low.to_mm(), high.to_mm());
                    v + (middle - v).signum() * INSIDE
                };
                let name = if lengthwise {
                    (at.0, inside(at.1, low.y, high.y))
                } else {
                    (inside(at.0, low.x, high.x), at.1)
                };
                let name_is =
                    if once { marks_at(basis, edge, from).join(" ") } else { mount.mark.clone() };
                scene.name(name, name_is);
                places.push((at, number(from)));
            } else {
                // Named at its size: at a small scale there is no room for names inside.
                places.push((at, format!("{} {}", mount.mark, number(from))));
            }
        }
        if !places.is_empty() {
            scene.running(side, zero, &places);
        }
    }
}

/// Panels face down with each frame on them: seen from below, so left and right change places.
pub(super) fn panels(basis: &StepBasis<'_>) -> Option<Scene> {
    let work = basis.work;
    let first = work.arrays.first()?;
    let mut scene =
        Scene::new("panels face down with the frame on them and the screws, seen from below");
    // Seen from below with the front at left, the vehicle's right side is at the bottom.
    let place = |x: Length, y: Length| (x.to_mm(), -y.to_mm());
    for panel in work.panels() {
        let (low, high) = (panel.outline.low(), panel.outline.high());
        let corner = place(low.x, high.y);
        scene.rectangle(
            corner,
            (panel.outline.width().to_mm(), panel.outline.height().to_mm()),
            Line::HEAVY,
        );
        scene.name(
            ((low.x + high.x).to_mm() / 2.0, -(low.y + high.y).to_mm() / 2.0),
            panel.mark.clone(),
        );
    }
    for array in &work.arrays {
        let (low, high) = (array.outline.low(), array.outline.high());
        scene.rectangle(
            place(low.x, high.y),
            (array.outline.width().to_mm(), array.outline.height().to_mm()),
            Line::THIN,
        );
    }
    let mut screws: Vec<(f64, f64)> = Vec::new();
    for hole in &work.holes {
        let part = &work.parts[hole.part];
        if part.kind != PartKind::Panel {
            continue;
        }
        for piece in &part.pieces {
            let at = piece.place.place(part.faces[hole.face].point(hole.at));
            screws.push(place(at.x, at.y));
        }
    }
    for at in &screws {
        scene.dot(*at);
    }
    if let Some(first) = screws.first() {
        scene.leader(*first, format!("{} screws", screws.len()));
    }
    let at = within(first.outline, 0.3, 0.3);
    scene.front((at.0, -at.1), 180.0);
    scene.view("from below, front at left, left side up");
    Some(scene)
}
