//! Frames and plates on the roof against its edge, what is in the way, and each other.

use super::moves::{Room, Ways, words};
use crate::build::{Build, Edge, KeepOut, Roof};
use crate::derive::roof::RoofSurface;
use crate::derive::rules::{l006, l010, l011, l016, l017, l019, l022, l023, l024, l043};
use crate::derive::{Array, MountPlace};
use crate::geometry::{Insets, Point2, Rect};
use crate::source::{Finding, Span};
use crate::units::Length;

/// A plate on the roof.
pub struct Foot {
    pub mark: String,
    pub plate: Rect,
    pub edge: Edge,
    pub span: Span,
}

/// The roof seen from above.
pub fn edge_of(roof: &Roof) -> Rect {
    Rect::from_corners(
        Point2::new(Length::ZERO, *roof.width / -2.0),
        Point2::new(*roof.length, *roof.width / 2.0),
    )
}

/// Findings about frames on the roof and against each other.
pub fn frames(build: &Build, surface: &RoofSurface, arrays: &[Array]) -> Vec<Finding> {
    let mut findings = Vec::new();
    for array in arrays {
        if let Some(roof) = &build.roof {
            on_roof(build, roof, surface, (array, arrays), &mut findings);
        }
    }
    for (k, first) in arrays.iter().enumerate() {
        for later in &arrays[k + 1..] {
            let (a, b) = (first.outline, later.outline);
            if a.overlaps(b) || !a.gap_to(b).clears(l017::APART) {
                findings.push(l017::finding(build, first, later, &advice(build, later, arrays)));
            }
        }
    }
    findings
}

/// Where to move a frame so that it lies on the roof, clear of all that is in the way.
fn advice(build: &Build, array: &Array, arrays: &[Array]) -> String {
    let the = build.the_frame(array.frame);
    let Some(roof) = &build.roof else { return format!("move {the}") };
    let around = |by: Length| -> Vec<Rect> {
        let things = roof
            .keep_outs
            .iter()
            .filter(|keep_out| !keep_out.lets_frames_over())
            .flat_map(KeepOut::taken)
            .map(|taken| taken + Insets::all(by));
        let others = arrays
            .iter()
            .filter(|other| other.frame != array.frame)
            .map(|other| other.outline + Insets::all(l017::APART));
        things.chain(others).collect()
    };
    // With room for a hand round everything; without, where there is no more.
    for by in [l016::NEAR, Length::ZERO] {
        let taken = around(by);
        let room = Room { within: edge_of(roof), taken: &taken };
        if let Some(way) = room.shortest(array.outline, Ways::All) {
            return format!("move {the} {}: all is free there", words(way));
        }
    }
    format!(
        "no place on this roof is free for {the}: lay its panels the other way, or share them out to \
         smaller frames"
    )
}

/// One frame against the roof's edge, the measured part and what is in the way.
fn on_roof(
    build: &Build,
    roof: &Roof,
    surface: &RoofSurface,
    (array, arrays): (&Array, &[Array]),
    findings: &mut Vec<Finding>,
) {
    let (the, frame) = (build.the_frame(array.frame), &build.frames[array.frame]);
    let outline = array.outline;
    let edge = edge_of(roof);
    if !edge.contains_rect(outline) {
        findings.push(l010::finding(&the, frame, (outline, edge), &advice(build, array, arrays)));
    } else if let Some([front, rear, left, right]) = surface.measured_span() {
        let measured = Rect::from_corners(Point2::new(front, left), Point2::new(rear, right));
        if !measured.contains_rect(outline) {
            findings.push(l006::finding(&the, outline, measured, frame.span));
        }
    }
    for keep_out in &roof.keep_outs {
        let taken = keep_out.taken();
        if keep_out.lets_frames_over() {
            let under = taken.iter().filter_map(|taken| taken.intersection(outline));
            let high = under
                .map(|part| {
                    let (low, high) = (part.low(), part.high());
                    surface.highest((low.x, low.y), (high.x, high.y)).0 + *keep_out.height
                })
                .reduce(Length::max);
            if let Some(high) = high
                && !(array.under - high).clears(l019::LEAST)
            {
                findings.push(l019::finding(&the, frame, keep_out, array.under - high));
            }
            continue;
        }
        let near = |taken: &&Rect| taken.overlaps(outline + Insets::all(l016::NEAR));
        if taken.iter().any(|taken| taken.overlaps(outline)) {
            let stands = keep_out.places().iter().any(|place| place.overlaps(outline));
            let advice = advice(build, array, arrays);
            findings.push(l011::finding(&the, frame, keep_out, (stands, &advice)));
        } else if let Some(gap) =
            taken.iter().filter(near).map(|taken| outline.gap_to(*taken)).reduce(Length::min)
        {
            findings.push(l016::finding(&the, frame, gap, keep_out));
        }
    }
}

/// Findings about plates on the roof.
pub fn feet(
    build: &Build,
    surface: &RoofSurface,
    feet: &[Foot],
    (arrays, mounts): (&[Array], &[MountPlace]),
) -> Vec<Finding> {
    let mut findings = Vec::new();
    let Some(roof) = &build.roof else { return findings };
    let edge = edge_of(roof);
    for (k, foot) in feet.iter().enumerate() {
        let advice = || foot_advice(roof, foot, feet, (arrays, mounts));
        if !edge.contains_rect(foot.plate) {
            findings.push(l022::finding(&foot.mark, foot.plate, edge, foot.span));
        } else if let Some([front, rear, left, right]) = surface.measured_span() {
            let measured = Rect::from_corners(Point2::new(front, left), Point2::new(rear, right));
            if !measured.contains_rect(foot.plate) {
                findings.push(l006::finding(
                    &format!("the plate of {}", foot.mark),
                    foot.plate,
                    measured,
                    foot.span,
                ));
            }
        }
        for keep_out in &roof.keep_outs {
            if keep_out.taken().iter().any(|taken| taken.overlaps(foot.plate)) {
                findings.push(l023::finding(&foot.mark, keep_out, foot.span, &advice()));
            }
        }
        if let Some(other) = over_foot(foot, (arrays, mounts)) {
            let the = build.the_frame(other.frame);
            let into = foot.plate.intersection(other.outline);
            let far = into.map_or(Length::ZERO, |into| match foot.edge {
                Edge::Left | Edge::Right => into.height(),
                Edge::Front | Edge::Rear => into.width(),
            });
            let far = Length::mm(far.to_mm().ceil());
            let advice =
                format!("put the frames {far:.0} farther apart, or {} on another edge", foot.mark);
            findings.push(l043::finding((&foot.mark, foot.span), (&the, other.span), &advice));
        }
        for other in &feet[..k] {
            if other.plate.overlaps(foot.plate) {
                let (first, later) = ((&*other.mark, other.span), (&*foot.mark, foot.span));
                findings.push(l024::finding(first, later, &advice()));
            }
        }
    }
    findings
}

/// The frame over a foot that does not hold it.
fn over_foot<'a>(foot: &Foot, (arrays, mounts): (&'a [Array], &[MountPlace])) -> Option<&'a Array> {
    let own = mounts.iter().find(|mount| mount.mark == foot.mark)?.frame;
    arrays.iter().find(|array| array.frame != own && array.outline.overlaps(foot.plate))
}

/// Where to move a foot along its edge so that it is free.
fn foot_advice(
    roof: &Roof,
    foot: &Foot,
    feet: &[Foot],
    (arrays, mounts): (&[Array], &[MountPlace]),
) -> String {
    let none = format!("no place along that edge is free for {}: move the frame", foot.mark);
    let Some(mount) = mounts.iter().find(|mount| mount.mark == foot.mark) else { return none };
    let Some(array) = arrays.get(mount.frame) else { return none };
    let taken: Vec<Rect> = roof
        .keep_outs
        .iter()
        .flat_map(KeepOut::taken)
        .chain(feet.iter().filter(|other| other.mark != foot.mark).map(|other| other.plate))
        .collect();
    let (edge, outline) = (edge_of(roof), array.outline);
    // Along its tube, and no farther than the tube.
    let (ways, within) = match foot.edge {
        Edge::Left | Edge::Right => (
            Ways::Along,
            Rect::from_corners(
                Point2::new(edge.low().x.max(outline.low().x), edge.low().y),
                Point2::new(edge.high().x.min(outline.high().x), edge.high().y),
            ),
        ),
        Edge::Front | Edge::Rear => (
            Ways::Across,
            Rect::from_corners(
                Point2::new(edge.low().x, edge.low().y.max(outline.low().y)),
                Point2::new(edge.high().x, edge.high().y.min(outline.high().y)),
            ),
        ),
    };
    let room = Room { within, taken: &taken };
    if let Some(way) = room.shortest(foot.plate, ways) {
        return format!("move {} {} along its edge: all is free there", foot.mark, words(way));
    }
    // The frame with its feet the other way.
    let other = if ways == Ways::Along { Ways::Across } else { Ways::Along };
    let room = Room { within: edge, taken: &taken };
    room.shortest(foot.plate, other).map_or(none, |way| {
        let the = if arrays.len() > 1 { "its frame" } else { "the frame" };
        format!(
            "no place along its edge is free for {}: move {the} {}, where it is",
            foot.mark,
            words(way)
        )
    })
}
