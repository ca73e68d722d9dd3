//! Faces of a part with their holes, as seen from outside.

use crate::derive::{Body, Bracket, Face, Folded, Hole, Part};
use crate::geometry::Point2;
use crate::page::scene::{At, Fill, Lettering, Line, Scale, Scene, Side};
use crate::sheets::words::{bare, mm};
use crate::units::{Angle, Length, display};

/// Longest stretch of a bar that fits the width of a sheet at 1:10 with its zero mark, mm.
const STRETCH: f64 = 1630.0;

/// A place on a face on the drawing: `across` upwards, the zero corner at the right where the face
/// runs to the left.
fn place(face: &Face, x: Length, y: Length) -> At {
    let x = if face.runs_left { face.length - x } else { x };
    (x.to_mm(), y.to_mm())
}

fn zero(face: &Face) -> At {
    place(face, Length::ZERO, Length::ZERO)
}

/// Where the two ends of a face begin and end at a height over its datum edge: behind its outermost
/// points where the part is mitred.
fn ends_at(part: &Part, face: &Face, y: Length) -> (Length, Length) {
    let (zero, far) = part.body.set_back(face.point(Point2::new(Length::ZERO, y)));
    (zero, face.length - far)
}

fn holes_words(holes: &[&Hole]) -> String {
    holes.iter().map(|hole| hole.id.as_str()).collect::<Vec<_>>().join(", ")
}

/// A face whose holes and ids have room beside each other: plate, leg, block.
pub fn face_view(part: &Part, face: &Face, holes: &[&Hole], largest: Scale) -> Scene {
    let mut scene =
        Scene::new(format!("{}, {}: holes {}", part.name, face.name, holes_words(holes)));
    scene.scale = crate::page::scene::ScaleChoice::Fit { largest };
    let (length, width) = (face.length.to_mm(), face.width.to_mm());
    let (low, high) = (ends_at(part, face, Length::ZERO), ends_at(part, face, face.width));
    let corners =
        [(low.0, Length::ZERO), (low.1, Length::ZERO), (high.1, face.width), (high.0, face.width)];
    scene.outline(&corners.map(|(x, y)| place(face, x, y)), Line::VISIBLE);
    if let Some(bracket) = part.body.bracket() {
        // The other leg's wall shows along the heel.
        let wall = bracket.section.t.to_mm();
        scene.line(&[(0.0, wall), (length, wall)], Line::HIDDEN);
    }
    for hole in holes {
        let at = place(face, hole.at.x, hole.at.y);
        draw_hole(&mut scene, hole, at);
    }
    scene.datum(zero(face), "zero");
    let below = Side::Below;
    scene.dimension(below, (0.0, 0.0), (length, 0.0), bare(face.length, 1));
    let far = if face.runs_left { (Side::Left, 0.0) } else { (Side::Right, length) };
    scene.dimension(far.0, (far.1, 0.0), (far.1, width), bare(face.width, 1));
    scene.view(format!("{}, {}", face.name, face.seen));
    scene
}

/// A hole with its cross, its name, and the ring of its countersink.
fn draw_hole(scene: &mut Scene, hole: &Hole, at: At) {
    match hole.countersink {
        Some(sink) => scene.sunk_hole(
            at,
            hole.diameter.to_mm(),
            sink.diameter.to_mm(),
            sink.far_side,
            hole.id.clone(),
        ),
        None => scene.hole(at, hole.diameter.to_mm(), hole.id.clone()),
    }
}

/// A face of a bar, whole or in stretches one under the other, with its holes as running sizes:
/// each is told by its id and its distance from zero.
pub fn strip_views(part: &Part, face: &Face, holes: &[&Hole]) -> Vec<Scene> {
    let length = face.length.to_mm();
    let count = (length / STRETCH).ceil().max(1.0);
    let step = length / count;
    (0..count as usize)
        .map(|index| {
            let (from, to) = (step * index as f64, step * (index + 1) as f64);
            stretch(part, face, holes, (from, to), (index, count as usize))
        })
        .collect()
}

fn stretch(
    part: &Part,
    face: &Face,
    holes: &[&Hole],
    (from, to): (f64, f64),
    (index, count): (usize, usize),
) -> Scene {
    let inside: Vec<&Hole> = holes
        .iter()
        .copied()
        .filter(|hole| {
            let x = hole.at.x.to_mm();
            x >= from && (x < to || index + 1 == count)
        })
        .collect();
    let mut scene = Scene::new(format!(
        "{}, {} face from {from:.0} mm to {to:.0} mm: holes {}",
        part.name,
        face.name,
        holes_words(&inside)
    ));
    scene.lettering = Lettering::Small;
    let width = face.width.to_mm();
    let low = place(face, Length::mm(from), Length::ZERO).0;
    let high = place(face, Length::mm(to), Length::ZERO).0;
    let (left, right) = (low.min(high), low.max(high));
    let edges = [Length::ZERO, face.width].map(|y| (y.to_mm(), ends_at(part, face, y)));
    // A mitred end lies behind its long point on one of the edges.
    let ends = |(y, (zero, far)): (f64, (Length, Length))| {
        let [zero, far] = [zero, far].map(|x| place(face, x, Length::ZERO).0);
        [(zero.min(far), y), (zero.max(far), y)]
    };
    let [bottom, top] = edges.map(ends);
    for [a, b] in [bottom, top] {
        scene.line(&[(left.max(a.0), a.1), (right.min(b.0), b.1)], Line::VISIBLE);
    }
    // A true end is an edge, a broken one a thin line that stands over.
    for (x, along) in [(low, from), (high, to)] {
        let end = along < 0.5 || along > face.length.to_mm() - 0.5;
        if end {
            let side = usize::from(x > f64::midpoint(left, right));
            scene.line(&[bottom[side], top[side]], Line::VISIBLE);
        } else {
            let over = width * 0.4;
            scene.line(&[(x, -over), (x, width + over)], Line::THIN);
        }
    }
    let mut runs: Vec<(At, String)> = Vec::new();
    for hole in &inside {
        let at = place(face, hole.at.x, hole.at.y);
        // Crosses of neighbours would meet: a hole is a ring on its upright line.
        scene.circle(at, hole.diameter.to_mm() / 2.0, Line::VISIBLE);
        scene.line(&[(at.0, -width * 0.35), (at.0, width)], Line::THIN);
        runs.push(((at.0, width), format!("{}\u{2002}{}", hole.id, bare(hole.at.x, 1))));
    }
    let start = if index == 0 {
        scene.datum(zero(face), "zero");
        (zero(face).0, width)
    } else {
        (low, width)
    };
    if index == 0 {
        scene.running(Side::Above, start, &runs);
    } else {
        // Farther stretches have no zero of their own: their values run on from the first.
        for (at, words) in runs {
            scene.words(
                at,
                words,
                crate::page::scene::Place::Beside(Side::Above),
                crate::page::scene::Style::PLAIN.up(),
            );
        }
    }
    // Of several stretches each says which it is, and that its sizes run on from the zero end.
    let part_of = match index {
        _ if count == 1 => String::new(),
        0 => format!(", to {} mm", bare(Length::mm(to), 0)),
        _ => format!(", from {} mm on, X from zero end", bare(Length::mm(from), 0)),
    };
    scene.view(format!("{} face{part_of}, {}", face.name, face.seen).replace(" mm", "\u{a0}mm"));
    scene
}

/// An angle from its end, with the angle between its legs.
pub fn end_view(part: &Part, limits: Option<(Angle, Angle)>) -> Option<Scene> {
    let bracket = part.body.bracket()?;
    let (section, bend) = (bracket.section, bracket.between);
    let (standing, lying) = legs(part);
    let mut scene =
        Scene::new(format!("{} from its end, bent to {:.1}°", part.name, bend.to_deg()));
    scene.scale = crate::page::scene::ScaleChoice::Fit { largest: Scale::FULL };
    let ring = match part.body.fold() {
        Some(fold) => bent_profile(fold),
        None => angle_profile(standing.to_mm(), lying.to_mm(), section.t.to_mm(), bend),
    };
    scene.area(&[ring], Some(Fill::HATCH), Some(Line::VISIBLE));
    let words = match limits {
        Some((low, high)) => {
            format!("{:.1}° to {:.1}°", low.to_deg(), high.to_deg())
        }
        None => format!("{:.1}°", bend.to_deg()),
    };
    // Inside the corner, where the legs' inner faces meet.
    let t = section.t.to_mm();
    let (sin, cos) = (bend.sin(), bend.cos());
    let along = t * (1.0 + cos) / sin;
    let corner = (sin * along - cos * t, cos * along + sin * t);
    let lying_way = 90.0 - bend.to_deg();
    scene.angle(corner, lying_way, 90.0, 16.0, words);
    let turn = bend.to_deg() - 90.0;
    let words = if turn.abs() < 0.05 {
        "square".to_owned()
    } else {
        let way = if turn > 0.0 { "opened" } else { "closed" };
        format!("90° {way} by {}° at the heel", display::number_short(turn.abs(), 1))
    };
    let words = part.body.fold().map_or(words, |fold| {
        format!(
            "bent through {}° round {}",
            display::number_short(fold.bend.through.to_deg(), 1),
            mm(fold.bend.inside, 1)
        )
    });
    scene.view(format!("from the zero end, {words}"));
    Some(scene)
}

/// Standing and lying leg of a bracket.
pub(super) fn legs(part: &Part) -> (Length, Length) {
    match (part.body.fold(), part.body.bracket()) {
        (Some(fold), _) => (fold.standing, fold.lying),
        (None, Some(Bracket { section, .. })) => {
            (section.a.max(section.b), section.a.min(section.b))
        }
        (None, None) => (Length::ZERO, Length::ZERO),
    }
}

/// Outline of a bent bracket's section, as [`angle_profile`] has it, with its round bend.
fn bent_profile(fold: &Folded) -> Vec<At> {
    const STEPS: u32 = 12;
    let (sin, cos) = (fold.between.sin(), fold.between.cos());
    let (out, inner) = ((sin, cos), (-cos, sin));
    let (t, inside) = (fold.bend.thickness.to_mm(), fold.bend.inside.to_mm());
    let setback = fold.bend.setback().to_mm();
    // The middle of the bend lies square to both legs where their straight parts begin.
    let middle = (t + inside, setback);
    let arc = |radius: f64| {
        (0..=STEPS).map(move |k| {
            // From the standing leg's outside round to the lying leg's.
            let turn = fold.bend.through * (f64::from(k) / f64::from(STEPS));
            let way = Angle::HALF_TURN + turn;
            (middle.0 + radius * way.cos(), middle.1 + radius * way.sin())
        })
    };
    let mut ring: Vec<At> = vec![(0.0, fold.standing.to_mm())];
    ring.extend(arc(inside + t));
    let lying = fold.lying.to_mm();
    let toe = (out.0 * lying, out.1 * lying);
    ring.push(toe);
    ring.push((toe.0 + inner.0 * t, toe.1 + inner.1 * t));
    ring.extend(arc(inside).collect::<Vec<_>>().into_iter().rev());
    ring.push((t, fold.standing.to_mm()));
    ring
}

/// The flat of a bent bracket, seen from the side that the bend closes on: along its length from the
/// end of the standing leg, with the lines between which it is bent.
pub fn flat_view(part: &Part, holes: &[(&Hole, Point2)]) -> Option<Scene> {
    let Body::Plate { length, width, fold: Some(fold), .. } = &part.body else { return None };
    let names = holes_words(&holes.iter().map(|(hole, _)| *hole).collect::<Vec<_>>());
    let mut scene = Scene::new(format!("{} before it is bent: holes {names}", part.name));
    scene.scale = crate::page::scene::ScaleChoice::Fit { largest: Scale::FULL };
    // Ids have little room between bend and edge.
    scene.lettering = Lettering::Small;
    let (long, wide) = (length.to_mm(), width.to_mm());
    scene.outline(&[(0.0, 0.0), (long, 0.0), (long, wide), (0.0, wide)], Line::VISIBLE);
    let (begins, ends) = fold.lines();
    for line in [begins, ends] {
        scene.line(&[(line.to_mm(), -3.0), (line.to_mm(), wide + 3.0)], Line::CENTRE);
        // No id on a line that is scribed.
        scene.keep_clear((line.to_mm() - 1.0, 0.0), (2.0, wide));
    }
    for (hole, at) in holes {
        let at = (at.y.to_mm(), wide - at.x.to_mm());
        draw_hole(&mut scene, hole, at);
    }
    scene.datum((0.0, wide), "zero");
    let along = [begins, ends, *length].map(|at| ((at.to_mm(), 0.0), bare(at, 1)));
    scene.running(Side::Below, (0.0, 0.0), &along);
    scene.dimension(Side::Right, (long, 0.0), (long, wide), bare(*width, 1));
    scene.view("inside face, standing leg at left");
    Some(scene)
}

/// A wedge from its end.
pub fn wedge_view(part: &Part) -> Option<Scene> {
    let Body::Wedge { width, thin, thick, .. } = &part.body else { return None };
    let mut scene = Scene::new(format!("{} from its end, its flat face above", part.name));
    scene.scale = crate::page::scene::ScaleChoice::Fit { largest: Scale::FULL };
    let (w, a, b) = (width.to_mm(), thin.to_mm(), thick.to_mm());
    let ring = vec![(0.0, b), (w, b), (w, 0.0), (0.0, b - a)];
    scene.area(&[ring], Some(Fill::HATCH), Some(Line::VISIBLE));
    scene.dimension(Side::Left, (0.0, b - a), (0.0, b), bare(*thin, 1));
    scene.dimension(Side::Right, (w, 0.0), (w, b), bare(*thick, 1));
    let slope = Angle::atan((b - a) / w);
    scene.view(format!("from its end: {:.1}° between its faces", slope.to_deg()));
    Some(scene)
}

/// Outline of an angle's section: heel at the origin, standing leg up, lying leg to the right,
/// opened or closed to `bend`.
pub(super) fn angle_profile(standing: f64, lying: f64, t: f64, bend: Angle) -> Vec<At> {
    let (sin, cos) = (bend.sin(), bend.cos());
    // Along the lying leg, and square to it into the corner.
    let out = (sin, cos);
    let inner = (-cos, sin);
    // Where the inner faces meet.
    let along = t * (1.0 + cos) / sin;
    vec![
        (0.0, 0.0),
        (out.0 * lying, out.1 * lying),
        (out.0 * lying + inner.0 * t, out.1 * lying + inner.1 * t),
        (out.0 * along + inner.0 * t, out.1 * along + inner.1 * t),
        (t, standing),
        (0.0, standing),
    ]
}
