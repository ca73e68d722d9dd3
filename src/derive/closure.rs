//! Mating holes put together again in space.
//!
//! Takes the finished work, with its parts in their own axes and its pieces in place; gives every
//! place of a fastener where holes do not share an axis, or where the clamped faces do not meet.
//! It knows nothing of how the holes were worked out, so a slip there shows here.

use super::work::{HoleAt, HoleKind, Work};
use crate::build::Edge;
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
    /// Thickness along the axis.
    wall: Length,
    /// How far the hole leans from square to its face, by design.
    lean: Angle,
}

impl Placed<'_> {
    /// Takes a hole that leans as was designed for what it is: its way through its wall is longer.
    fn lean(&mut self, axis: Dir3, by: Angle) {
        let straight = axis.angle_to(self.outward);
        let askew = straight.min(Angle::HALF_TURN - straight);
        if by > Angle::ZERO && (askew - by).abs() < askew {
            self.lean = by;
            self.wall = self.wall / by.cos();
        }
    }
}

/// All mating holes that are more than [`SLACK`] off; empty for sound work.
pub fn closure(work: &Work) -> Vec<MateError> {
    let off = |pair: &Pair<'_>| {
        // The lean of a hole counts over its wall.
        let lean = pair.wall * pair.askew.sin();
        !(pair.off_axis + lean).fits(SLACK) || !pair.gap.abs().fits(SLACK)
    };
    pairs(work)
        .into_iter()
        .filter(off)
        .map(|pair| MateError {
            fastening: pair.fastening.to_owned(),
            from: pair.from.clone(),
            to: pair.to.clone(),
            off_axis: pair.off_axis,
            askew: pair.askew,
            gap: pair.gap,
        })
        .collect()
}

/// The holes of one joint put together: how many, and the worst of them.
#[derive(Debug, Clone, PartialEq)]
pub struct JointCheck {
    /// The fastening's name.
    pub name: String,
    /// Pairs of holes that were held together.
    pub pairs: usize,
    /// Greatest distance of a hole's middle from its axis.
    pub off_axis: Length,
    /// Greatest angle between two axes.
    pub askew: Angle,
    /// Greatest miss of the clamped layers along an axis.
    pub gap: Length,
    /// Whether all are within [`SLACK`].
    pub sound: bool,
}

/// Every joint with the worst of its pairs, in the order of the work.
pub fn joint_checks(work: &Work) -> Vec<JointCheck> {
    let wrong = closure(work);
    let mut checks: Vec<JointCheck> = Vec::new();
    for pair in pairs(work) {
        let at = checks.iter().position(|check| check.name == pair.fastening);
        let check = match at {
            Some(at) => &mut checks[at],
            None => {
                checks.push(JointCheck {
                    name: pair.fastening.to_owned(),
                    pairs: 0,
                    off_axis: Length::ZERO,
                    askew: Angle::ZERO,
                    gap: Length::ZERO,
                    sound: !wrong.iter().any(|error| error.fastening == pair.fastening),
                });
                let last = checks.len() - 1;
                &mut checks[last]
            }
        };
        check.pairs += 1;
        check.off_axis = check.off_axis.max(pair.off_axis);
        check.askew = check.askew.max(pair.askew);
        check.gap = check.gap.max(pair.gap.abs());
    }
    checks.extend(lifted(work));
    checks
}

/// Props at each angle: the tube turned about the hinges' pins, its hole against the bracket's, as far
/// apart as the two holes of the prop.
fn lifted(work: &Work) -> Option<JointCheck> {
    let mut check = JointCheck {
        name: "prop to bracket, lifted".to_owned(),
        pairs: 0,
        off_axis: Length::ZERO,
        askew: Angle::ZERO,
        gap: Length::ZERO,
        sound: true,
    };
    for prop in &work.props {
        let (axis, outboard) = match prop.hinges {
            Edge::Left => (Dir3::X, -Dir3::Y),
            Edge::Right => (Dir3::X, Dir3::Y),
            Edge::Front => (Dir3::Y, -Dir3::X),
            Edge::Rear => (Dir3::Y, Dir3::X),
        };
        let (Some(foot), Some(leg), Some(tube)) =
            (find(work, &prop.foot_hole), find(work, &prop.leg_hole), find(work, &prop.tube_hole))
        else {
            check.sound = false;
            continue;
        };
        let beside = |place: Point3| ((prop.pin - place).along(outboard), place.z - prop.pin.z);
        let ((x, z), (leg_x, leg_z)) = (beside(tube.middle), beside(leg.middle));
        for hole in [&foot, &leg, &tube] {
            let straight = axis.angle_to(hole.outward);
            check.askew = check.askew.max(straight.min(Angle::HALF_TURN - straight));
        }
        for stand in &prop.stands {
            let own = HoleAt { piece: prop.mark.clone(), hole: stand.hole.clone() };
            let Some(upper) = find(work, &own) else {
                check.sound = false;
                continue;
            };
            let (sin, cos) = (stand.angle.sin(), stand.angle.cos());
            let (up_x, up_z) = (x * cos - z * sin, x * sin + z * cos);
            let lifted = (up_x - leg_x).hypot(up_z - leg_z);
            check.off_axis =
                check.off_axis.max((upper.middle.distance(foot.middle) - lifted).abs());
            check.pairs += 1;
        }
    }
    check.sound &= check.off_axis.fits(SLACK) && check.askew < Angle::deg(0.1);
    (check.pairs > 0).then_some(check)
}

/// Two holes of one place.
struct Pair<'w> {
    fastening: &'w str,
    from: &'w HoleAt,
    to: &'w HoleAt,
    off_axis: Length,
    askew: Angle,
    gap: Length,
    wall: Length,
}

fn pairs(work: &Work) -> Vec<Pair<'_>> {
    let mut pairs = Vec::new();
    for fastening in &work.fastenings {
        // What is clamped without a hole of its own, such as the flange of a rivet nut.
        let clamped: Length = fastening.stack.iter().map(|layer| layer.1).sum();
        for place in &fastening.places {
            let mut placed: Vec<Placed<'_>> =
                place.iter().filter_map(|at| find(work, at)).collect();
            debug_assert_eq!(placed.len(), place.len(), "every hole of a fastener exists");
            // A leaning bolt stands square to what its nut pulls on.
            if fastening.lean > Angle::ZERO {
                placed.reverse();
            }
            let Some(axis) = placed.first().map(|first| Line3::new(first.middle, first.outward))
            else {
                continue;
            };
            for hole in &mut placed {
                hole.lean(axis.direction, fastening.lean);
            }
            let walls: Length = placed
                .iter()
                .filter(|hole| hole.kind != HoleKind::Access)
                .map(|hole| hole.wall)
                .sum();
            let gap = layers_miss(&placed, axis, clamped - walls);
            for hole in &placed[1..] {
                let straight = axis.direction.angle_to(hole.outward);
                // The other face may look the same way or the opposite one.
                let askew = (straight.min(Angle::HALF_TURN - straight) - hole.lean).abs();
                pairs.push(Pair {
                    fastening: &fastening.name,
                    from: placed[0].at,
                    to: hole.at,
                    off_axis: axis.distance(hole.middle),
                    askew,
                    gap,
                    wall: hole.wall,
                });
            }
        }
    }
    pairs
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
        wall: part.body.wall_at(face, hole.at),
        lean: Angle::ZERO,
    })
}
