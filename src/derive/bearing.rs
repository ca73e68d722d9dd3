//! How much of a wall's full bearing strength each bolt hole has, by its distances to cut edges and to its
//! neighbours (EN 1993-1-8:2005, table 3.4; EN 1999-1-1, 8.5.5, in the same form, from memory).
//!
//! Towards the load: α = e₁ / (3 d₀) at an end, p₁ / (3 d₀) − 1/4 between holes. Across it:
//! k = 2.8 e₂ / d₀ − 1.7 at an edge, 1.4 p₂ / d₀ − 1.7 between holes, 2.5 at most. The load may come from
//! any side, so the worst way counts.

use super::limits;
use super::work::{Body, Drilling, Hole, HoleKind, Part, Work};
use crate::units::Length;

/// Distance to an end from which a hole bears fully, in holes.
pub const END: f64 = 3.0;
/// Distance between holes from which they bear fully, in holes.
pub const PITCH: f64 = 3.75;
/// Greatest factor across the load.
const ACROSS: f64 = 2.5;

/// The hole of a face that bears least.
#[derive(Debug, Clone, PartialEq)]
pub struct Bearing {
    /// Index into the part's faces.
    pub face: usize,
    /// Id of the hole.
    pub hole: String,
    /// Its neighbour where that is what takes strength away; else an edge does.
    pub beside: Option<String>,
    /// Distance to the edge or to the neighbour.
    pub has: Length,
    /// From this distance it bears fully.
    pub full: Length,
    /// Share of the full bearing strength in the worst way, both factors together.
    pub share: f64,
}

/// Whether something bears on the hole's wall.
const fn bears(hole: &Hole) -> bool {
    matches!(hole.kind, HoleKind::Clearance | HoleKind::Countersunk | HoleKind::RivetNut)
}

/// For each face of a part with bolt holes, the hole that bears least; where all of a face bear fully, none.
pub fn bearings(work: &Work, part: usize) -> Vec<Bearing> {
    let Some(own) = work.parts.get(part) else { return Vec::new() };
    if !matches!(own.body, Body::Bar { .. } | Body::Plate { .. }) {
        return Vec::new();
    }
    (0..own.faces.len())
        .filter_map(|face| {
            let on = |hole: &&Hole| hole.part == part && hole.face == face;
            let holes: Vec<&Hole> = work.holes.iter().filter(on).collect();
            holes
                .iter()
                .filter(|hole| bears(hole) && hole.drilling != Drilling::Ready)
                .map(|hole| one(own, face, hole, &holes))
                .min_by(|a, b| a.share.total_cmp(&b.share))
        })
        .filter(|worst| worst.share < 0.995)
        .collect()
}

/// Something near a hole: how far off it is, and its factors for a load towards it and across.
struct Near {
    has: Length,
    beside: Option<String>,
    full: Length,
    towards: f64,
    across: f64,
}

fn one(part: &Part, face: usize, hole: &Hole, others: &[&Hole]) -> Bearing {
    let own = &part.faces[face];
    let d = hole.diameter;
    let edge = |has: Length| Near {
        has,
        beside: None,
        full: d * END,
        towards: (has / (d * END)).clamp(0.0, 1.0),
        across: across(2.8 * (has / d) - 1.7),
    };
    let mut ways: [Vec<Near>; 2] =
        [vec![edge(limits::to_end(own, hole.at, &part.body))], Vec::new()];
    if own.free_sides {
        ways[1].push(edge(hole.at.y.min(own.width - hole.at.y)));
    }
    for other in others.iter().filter(|other| other.id != hole.id && bears(other)) {
        let (dx, dy) = ((other.at.x - hole.at.x).abs(), (other.at.y - hole.at.y).abs());
        let has = dx.hypot(dy);
        let near = Near {
            has,
            beside: Some(other.id.clone()),
            full: d * PITCH,
            towards: (has / (d * 3.0) - 0.25).clamp(0.0, 1.0),
            across: across(1.4 * (has / d) - 1.7),
        };
        ways[usize::from(dy > dx)].push(near);
    }
    // A load along the face, then one across it.
    let mut worst: Option<(f64, &Near)> = None;
    for (towards, beside) in [(0, 1), (1, 0)] {
        let first = ways[towards].iter().min_by(|a, b| a.towards.total_cmp(&b.towards));
        let second = ways[beside].iter().min_by(|a, b| a.across.total_cmp(&b.across));
        let (alpha, k) =
            (first.map_or(1.0, |near| near.towards), second.map_or(1.0, |near| near.across));
        // What takes most away is told.
        let told = if alpha <= k { first.or(second) } else { second.or(first) };
        if let Some(told) = told
            && worst.as_ref().is_none_or(|(share, _)| alpha * k < *share)
        {
            worst = Some((alpha * k, told));
        }
    }
    let (share, near) = worst.map_or((1.0, None), |(share, near)| (share, Some(near)));
    Bearing {
        face,
        hole: hole.id.clone(),
        beside: near.and_then(|near| near.beside.clone()),
        has: near.map_or(Length::ZERO, |near| near.has),
        full: near.map_or(Length::ZERO, |near| near.full),
        share,
    }
}

fn across(k: f64) -> f64 {
    (k / ACROSS).clamp(0.0, 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// EN 1993-1-8:2005, tables 3.3 and 3.4: at the least distances α = 0.4 at an end and 0.483 between
    /// holes, k = 1.66 at an edge and 1.66 between rows at 2.4 d₀; full from 3 d₀, 3.75 d₀, 1.5 d₀, 3 d₀.
    #[test]
    fn factors_are_those_of_the_table() {
        assert!((across(2.8 * 1.2 - 1.7) * ACROSS - 1.66).abs() < 1e-12);
        assert!((across(1.4 * 2.4 - 1.7) * ACROSS - 1.66).abs() < 1e-12);
        assert!((across(2.8 * 1.5 - 1.7) - 1.0).abs() < 1e-12);
        assert!((across(1.4 * 3.0 - 1.7) - 1.0).abs() < 1e-12);
        assert!((PITCH / 3.0 - 0.25 - 1.0).abs() < 1e-12);
    }
}
