//! Latches: what is opened by hand to lift the frame.

use super::Site;
use crate::build::{Build, Latch, LatchKind, MountKind};
use crate::derive::Drawing;
use crate::derive::draft::DraftPiece;
use crate::derive::rules::l041;
use crate::derive::work::{Body, PartKind};
use crate::geometry::Frame3;
use crate::source::Finding;
use crate::units::Mass;

/// Mass of an over-centre latch with its keeper (common practice: of stainless sheet, 100 mm long).
const MASS: Mass = Mass::kg(0.15);

/// Whether the bolts of a mount into the tube are turned by hand.
pub(super) fn by_hand(latch: Option<&Latch>) -> bool {
    latch.is_some_and(|latch| *latch.kind == LatchKind::Knob)
}

/// Adds a draw latch between bracket and tube; whether it takes the place of bolts.
pub(super) fn add(drawing: &mut Drawing<'_>, site: &Site<'_>, latch: Option<&Latch>) -> bool {
    let Some(latch) = latch.filter(|latch| *latch.kind == LatchKind::DrawLatch) else {
        return false;
    };
    let item = match &latch.strength {
        Some(strength) => {
            format!("draw latch with hole for a locking pin, {} or more", strength.value)
        }
        None => "draw latch with hole for a locking pin".to_owned(),
    };
    drawing.draft.add(DraftPiece {
        kind: PartKind::Latch,
        name: "draw latch".to_owned(),
        mark: None,
        body: Body::Bought { item },
        faces: Vec::new(),
        place: Frame3::at(site.at),
        mass: MASS,
        holes: Vec::new(),
        span: latch.kind.span,
    });
    true
}

/// Latches that free nothing.
pub(super) fn judge(build: &Build) -> Vec<Finding> {
    let Some(latched) = build.mounts.iter().find(|mount| mount.kind.latch().is_some()) else {
        return Vec::new();
    };
    let hinged = |kind: &MountKind| matches!(kind, MountKind::Hinge(_));
    if !build.mounts.iter().any(|mount| hinged(&mount.kind)) {
        return vec![l041::finding(latched, None)];
    }
    let bolted = |kind: &MountKind| !hinged(kind) && kind.latch().is_none();
    build
        .mounts
        .iter()
        .filter(|mount| bolted(&mount.kind))
        .map(|mount| l041::finding(latched, Some(mount)))
        .collect()
}
