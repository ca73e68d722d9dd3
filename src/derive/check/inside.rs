//! What meets what inside a tube: rivet nuts, bolts' ends, rivets' tails and the way of a
//! screwdriver, as cylinders from their faces inwards.

use crate::derive::rules::{h005, h006};
use crate::derive::work::{Body, Drilling, Hole, HoleKind, Part, Screw, Work};
use crate::geometry::Segment3;
use crate::source::Finding;
use crate::units::Length;

/// Air that must stay between two things in a tube.
const AIR: Length = Length::mm(1.0);

/// Findings about what is inside the tubes.
pub fn inside(work: &Work) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (index, part) in work.parts.iter().enumerate() {
        let Body::Bar { section, .. } = &part.body else { continue };
        if section.inside().is_none() {
            continue;
        }
        let holes: Vec<&Hole> = work.holes.iter().filter(|hole| hole.part == index).collect();
        for hole in &holes {
            if let Some(finding) = body_fits(work, part, hole) {
                findings.push(finding);
            }
        }
        for (k, hole) in holes.iter().enumerate() {
            for other in &holes[k + 1..] {
                // Holes of one fastener share an axis on purpose; one face is told by the pitch.
                if hole.face == other.face || hole.mates.contains(&other.id) {
                    continue;
                }
                let (Some((a, ra)), Some((b, rb))) =
                    (body(work, part, hole), body(work, part, other))
                else {
                    continue;
                };
                let air = a.gap_to(b) - ra - rb;
                if !air.clears(AIR) {
                    findings.push(h006::finding(hole, other, part, AIR - air));
                }
            }
        }
    }
    findings
}

/// What reaches into the tube from a hole, as a stretch and a radius; `None` for an empty hole.
fn body(work: &Work, part: &Part, hole: &Hole) -> Option<(Segment3, Length)> {
    let face = &part.faces[hole.face];
    let Body::Bar { section, .. } = &part.body else { return None };
    let screw = hole.fastening.map(|k| &work.fastenings[k]);
    let depth_of_tube =
        if face.outward.parts()[2].abs() > 0.5 { section.height() } else { section.width() };
    let (depth, radius) = match (hole.kind, screw.map(|fastening| &fastening.screw)) {
        (HoleKind::RivetNut, Some(Screw::BoltInRivetNut { nut, thread, length })) => {
            let stack = screw.map_or(Length::ZERO, |fastening| {
                fastening.stack.iter().take(2).map(|layer| layer.1).sum()
            });
            let bolt = *length - thread.washer.thickness - stack;
            (nut.length.max(bolt), nut.hole / 2.0)
        }
        // The head of a rivet's tail is about one and a half times its diameter.
        (HoleKind::Rivet, Some(Screw::BlindRivet { rivet, .. })) => {
            (face.wall + rivet.diameter * 1.5, rivet.diameter * 0.75)
        }
        // From wall to wall: a pin; driver and screw.
        (_, Some(Screw::Pin { .. })) | (HoleKind::Access, _) => {
            (depth_of_tube, hole.diameter / 2.0)
        }
        _ => return None,
    };
    // A stretch has round ends when a radius is laid about it; these bodies end flat.
    let reach = (depth.min(depth_of_tube) - radius).max(Length::ZERO);
    let from = face.point(hole.at);
    Some((Segment3 { from, to: from - face.outward * reach }, radius))
}

/// A rivet nut and its bolt must end before the far wall.
fn body_fits(work: &Work, part: &Part, hole: &Hole) -> Option<Finding> {
    let Body::Bar { section, .. } = &part.body else { return None };
    if hole.kind != HoleKind::RivetNut || hole.drilling == Drilling::Ready {
        return None;
    }
    let face = &part.faces[hole.face];
    let fastening = &work.fastenings[hole.fastening?];
    let Screw::BoltInRivetNut { nut, thread, length } = &fastening.screw else { return None };
    let depth =
        if face.outward.parts()[2].abs() > 0.5 { section.height() } else { section.width() };
    let room = depth - face.wall;
    let stack: Length = fastening.stack.iter().take(2).map(|layer| layer.1).sum();
    let bolt = *length - thread.washer.thickness - stack;
    let reach = nut.length.max(bolt);
    (!reach.fits(room)).then(|| h005::too_deep(hole, part, reach, room))
}
