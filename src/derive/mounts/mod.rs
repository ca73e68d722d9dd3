//! Mounts along the frame's edges.

mod bolted_foot;
mod bolts;
mod bonded_foot;
mod bracket;
mod edge;
mod flat;
mod fold;
mod foot_stance;
mod hinge;
mod latch;
mod prop;
mod rail_clamp;
mod swing;
mod tilt;
mod wedge;

pub(super) use bracket::Leg;
use edge::EdgeAxes;
pub(super) use prop::props;
pub(super) use swing::lifts_meet;
pub(super) use tilt::tilt;

use super::Drawing;
use super::members::Members;
use super::roof::RoofSurface;
use super::rules::{l020, l021};
use super::work::{Array, MountPlace, MountShape};
use crate::build::{Frame, Mount, MountKind};
use crate::geometry::Point3;
use crate::source::Span;
use crate::units::{Angle, Length};

/// What every mount needs to know of the frame and the roof.
pub(super) struct Ground<'a> {
    pub frame: &'a Frame,
    pub array: &'a Array,
    pub members: &'a Members,
    pub surface: &'a RoofSurface,
}

/// One mount to be fitted.
struct Site<'a> {
    pub mount: &'a Mount,
    pub index: usize,
    pub mark: String,
    pub axes: EdgeAxes,
    /// Where the frame's outer face and lower face meet, at the middle of the mount.
    pub at: Point3,
    /// Handle of the tube at this edge.
    pub tube: usize,
    /// Where its place along the edge was written.
    pub span: Span,
}

impl Site<'_> {
    /// The mount in its place. `slopes` are those of what it stands on, across and along.
    fn placed(
        &self,
        ground: &Ground<'_>,
        slopes: (Angle, Angle),
        plate_gap: Length,
        kind: MountShape,
    ) -> MountPlace {
        let skin = ground.surface.height(self.at.x, self.at.y);
        MountPlace {
            mark: self.mark.clone(),
            name: self.mount.name.value.clone(),
            mount: self.index,
            frame: ground.array.frame,
            edge: self.axes.edge,
            at: self.at,
            roof: Point3::new(self.at.x, self.at.y, skin),
            slope_across: slopes.0,
            slope_along: slopes.1,
            plate_gap,
            kind,
            span: self.span,
        }
    }

    /// Slopes of the skin at the mount, across and along.
    fn slopes(&self, ground: &Ground<'_>) -> (Angle, Angle) {
        let (x, y) = (self.at.x, self.at.y);
        (
            Angle::atan(ground.surface.slope_across(x, y)),
            Angle::atan(ground.surface.slope_along(x, y)),
        )
    }
}

/// Fits all mounts.
pub(super) fn fit(drawing: &mut Drawing<'_>, ground: &Ground<'_>) -> Vec<MountPlace> {
    let mut places: Vec<MountPlace> = Vec::new();
    let here = |mount: &Mount| mount.frame == ground.array.frame;
    for (index, mount) in drawing.build.mounts.iter().enumerate().filter(|(_, mount)| here(mount)) {
        let before: usize = drawing.build.mounts[..index]
            .iter()
            .filter(|other| *other.mark == *mount.mark)
            .map(|other| other.at.len())
            .sum();
        let axes = EdgeAxes::new(*mount.edge);
        let edge = axes.length_of(ground.array.outline);
        let reach = half_length(mount);
        for (k, at) in mount.at.iter().enumerate() {
            let mark = format!("{}{}", *mount.mark, before + k + 1);
            if **at < Length::ZERO || **at > edge {
                drawing.findings.push(l020::finding(&mark, at, edge, mount));
                continue;
            }
            let plug = ground.members.ends.zone(*mount.edge);
            let span = if at.span.is_none() { mount.span } else { at.span };
            if **at - reach < plug || **at + reach > edge - plug {
                drawing.told.push(span);
                drawing.findings.push(l021::finding(&mark, at, plug + reach, edge, mount));
            }
            let site = Site {
                mount,
                index,
                mark,
                axes,
                at: axes.point(ground.array.outline, ground.array.under, **at),
                tube: ground.members.at(*mount.edge),
                span,
            };
            let place = match &mount.kind {
                MountKind::Hinge(line) => hinge::fit(drawing, ground, &site, line),
                MountKind::BondedFoot(foot) => bonded_foot::fit(drawing, ground, &site, foot),
                MountKind::BoltedFoot(foot) => bolted_foot::fit(drawing, ground, &site, foot),
                MountKind::RailClamp(clamp) => rail_clamp::fit(drawing, ground, &site, clamp),
            };
            places.extend(place);
        }
    }
    drawing.findings.extend(latch::judge(drawing.build));
    places
}

/// From the middle of a mount to its outermost bolt in the tube.
fn half_length(mount: &Mount) -> Length {
    match &mount.kind {
        MountKind::Hinge(line) => line.hinge.length / 2.0 - line.hinge.hole_end,
        MountKind::BondedFoot(foot) => bolts::pitch(&foot.bolt, *foot.angle_length) / 2.0,
        MountKind::BoltedFoot(foot) => bolts::pitch(&foot.bolt, *foot.angle_length) / 2.0,
        MountKind::RailClamp(clamp) => bolts::pitch(&clamp.bolt, *clamp.angle_length) / 2.0,
    }
}
