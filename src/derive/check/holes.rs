//! Each hole against its face, its edges, its neighbours and its countersink.

use crate::derive::limits::pitch;
use crate::derive::rules::{h001, h002, h003, h007, h013};
use crate::derive::work::{Body, Drilling, Hole, HoleKind, Part, Screw, Work};
use crate::source::{Finding, Span};
use crate::units::Length;

/// Findings about single holes and pairs of holes in one face. Holes written at a place that is
/// `told` already stand wrong as a whole; saying so hole by hole would hide what to change.
pub fn holes(work: &Work, told: &[Span]) -> Vec<Finding> {
    let mut findings = Vec::new();
    let mut near: Vec<&Hole> = Vec::new();
    for hole in &work.holes {
        let part = &work.parts[hole.part];
        // Holes that are bought are the maker's business.
        if hole.drilling == Drilling::Ready || told.contains(&hole.span) {
            continue;
        }
        one(work, hole, part, &mut findings);
        if below_full(hole, part) {
            near.push(hole);
        }
    }
    // One a face.
    for holes in near.chunk_by(|a, b| (a.part, a.face) == (b.part, b.face)) {
        findings.extend(h013::finding(holes, &work.parts[holes[0].part]));
    }
    for (k, hole) in work.holes.iter().enumerate() {
        for other in &work.holes[k + 1..] {
            let ready = |hole: &Hole| hole.drilling == Drilling::Ready;
            if other.part != hole.part || other.face != hole.face || (ready(hole) && ready(other)) {
                continue;
            }
            let apart = (other.at - hole.at).length();
            let width = |hole: &Hole| {
                let sunk = hole.countersink.map_or(hole.diameter, |sunk| sunk.diameter);
                (hole.kind, hole.diameter, fastener(work, hole), sunk)
            };
            let (a, b) = (width(hole), width(other));
            // Countersinks must not run into each other either.
            let least = pitch((a.0, a.1, a.2), (b.0, b.1, b.2)).max((a.3 + b.3) / 2.0);
            if !apart.clears(least) {
                findings.push(h002::finding(hole, other, &work.parts[hole.part], apart, least));
            }
        }
    }
    findings
}

/// Nominal diameter of what sits in a hole: half of what the edge rule of rivets asks for.
fn fastener(work: &Work, hole: &Hole) -> Length {
    let screw = hole.fastening.map(|k| &work.fastenings[k].screw);
    match screw {
        Some(Screw::BoltInRivetNut { thread, .. } | Screw::BoltAndNut { thread, .. }) => {
            thread.diameter
        }
        Some(Screw::Tapping { screw, .. }) => screw.diameter,
        Some(Screw::BlindRivet { rivet, .. }) => rivet.diameter,
        Some(Screw::Pin { diameter, .. }) => *diameter,
        None => hole.diameter,
    }
}

/// Allowed, and too near to a cut edge to bear all that the metal could. The least of a cut edge tells: what
/// goes on round a corner bulges nowhere, and packers bear nothing.
fn below_full(hole: &Hole, part: &Part) -> bool {
    matches!(part.body, Body::Bar { .. } | Body::Plate { .. })
        && hole.edge.has.clears(hole.edge.least)
        && hole.edge.least.is_near(hole.diameter * 1.2, Length::SLACK)
        && !hole.edge.has.clears(h013::begins(hole))
}

fn one(work: &Work, hole: &Hole, part: &Part, findings: &mut Vec<Finding>) {
    let face = &part.faces[hole.face];
    let to_rim = hole.at.x.min(face.length - hole.at.x).min(hole.at.y).min(face.width - hole.at.y);
    if to_rim < hole.diameter / 2.0 {
        findings.push(h003::finding(hole, part, face));
        return;
    }
    if !hole.edge.has.clears(hole.edge.least) {
        findings.push(h001::finding(hole, part));
    }
    if hole.kind == HoleKind::Countersunk
        && let Some(sunk) = hole.countersink
    {
        // 90° included: as deep as the radius grows.
        let lean = hole.fastening.map_or(0.0, |k| work.fastenings[k].lean.sin());
        // A head that leans must be sunk until its high side is level too.
        let depth = (sunk.diameter - hole.diameter) / 2.0 + sunk.diameter * lean;
        if depth > face.wall {
            findings.push(h007::finding(hole, part, depth, face.wall));
        }
    }
}
