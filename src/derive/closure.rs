//! Mating holes put together again in space.
//!
//! Takes the finished work, with its parts in their own axes and its pieces in place; gives every
//! place of a fastener where holes do not share an axis, or where the clamped faces do not meet.
//! It knows nothing of how the holes were worked out, so a slip there shows here.

use super::work::{HoleAt, HoleKind, Work};
use crate::geometry::{Dir3, Line3, Point3};
use crate::units::{Angle, Length};

/// Holes that share an axis do so to this.
pub const SLACK: Length = Length::mm(0.01);

/// Two holes of one fastener that do not come together.
#[derive(Debug, Clone, PartialEq)]
pub struct MateError {
    /// The fastening's name.
    pub fastening: String,
    /// The first hole of the place, from the head.
    pub from: HoleAt,
    /// The hole that is off.
    pub to: HoleAt,
    /// How far its middle is from the first one's axis.
    pub off_axis: Length,
    /// Angle between the two axes.
    pub askew: Angle,
    /// By how much the clamped layers miss each other along the axis: positive is air, negative
    /// means that they are in one another.
    pub gap: Length,
}

/// A hole in place.
struct Placed<'w> {
    at: &'w HoleAt,
    kind: HoleKind,
    /// Middle on its face.
    middle: Point3,
    outward: Dir3,
    wall: Length,
}

/// All mating holes that are more than [`SLACK`] off; empty for sound work.
pub fn closure(work: &Work) -> Vec<MateError> {
    let mut errors = Vec::new();
    for fastening in &work.fastenings {
        // What is clamped without a hole of its own, such as the flange of a rivet nut.
        let clamped: Length = fastening.stack.iter().map(|layer| layer.1).sum();
        for place in &fastening.places {
            let placed: Vec<Placed<'_>> = place.iter().filter_map(|at| find(work, at)).collect();
            debug_assert_eq!(placed.len(), place.len(), "every hole of a fastener exists");
            let Some(first) = placed.first() else { continue };
            let axis = Line3::new(first.middle, first.outward);
            let walls: Length = placed
                .iter()
                .filter(|hole| hole.kind != HoleKind::Access)
                .map(|hole| hole.wall)
                .sum();
            let gap = layers_miss(&placed, axis, clamped - walls);
            for hole in &placed[1..] {
                let off_axis = axis.distance(hole.middle);
                let straight = axis.direction.angle_to(hole.outward);
                // The other face may look the same way or the opposite one.
                let askew = straight.min(Angle::HALF_TURN - straight);
                // The lean of a hole counts over its wall.
                let lean = hole.wall * askew.sin();
                if !(off_axis + lean).fits(SLACK) || !gap.abs().fits(SLACK) {
                    errors.push(MateError {
                        fastening: fastening.name.clone(),
                        from: first.at.clone(),
                        to: hole.at.clone(),
                        off_axis,
                        askew,
                        gap,
                    });
                }
            }
        }
    }
    errors
}

/// Air between the clamped walls along the axis, less what fills it (`spacers`); an overlap of two
/// walls is negative and comes first.
fn layers_miss(placed: &[Placed<'_>], axis: Line3, spacers: Length) -> Length {
    let mut layers: Vec<(Length, Length)> = placed
        .iter()
        .filter(|hole| hole.kind != HoleKind::Access)
        .map(|hole| {
            let face = (hole.middle - axis.through).along(axis.direction);
            let inwards = if hole.outward.dot(axis.direction) > 0.0 { -1.0 } else { 1.0 };
            let back = face + hole.wall * inwards;
            (face.min(back), face.max(back))
        })
        .collect();
    layers.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut air = Length::ZERO;
    for pair in layers.windows(2) {
        let between = pair[1].0 - pair[0].1;
        if between < -SLACK {
            return between;
        }
        air += between;
    }
    air - spacers
}

fn find<'w>(work: &'w Work, at: &'w HoleAt) -> Option<Placed<'w>> {
    let hole = work.hole(&at.hole)?;
    let part = work.parts.get(hole.part)?;
    let piece = part.pieces.iter().find(|piece| piece.mark == at.piece)?;
    let face = part.faces.get(hole.face)?;
    Some(Placed {
        at,
        kind: hole.kind,
        middle: piece.place.place(face.point(hole.at)),
        outward: piece.place.place_dir(face.outward),
        wall: face.wall,
    })
}
