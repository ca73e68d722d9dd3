//! What holes keep from edges and from each other.

use super::draft::DraftHole;
use super::work::{Body, EdgeDistance, Face, HoleKind};
use crate::geometry::Point2;
use crate::units::Length;

/// Metal left round a hole that nothing bears on.
const LAND: Length = Length::mm(1.0);

/// From a place to the nearer end of a face; square to the slant of a mitre.
pub(super) fn to_end(face: &Face, at: Point2, body: &Body) -> Length {
    match body {
        Body::Bar { ends, .. } if !ends.are_square() => {
            let (zero, far) = body.set_back(face.point(at));
            let to_zero = (at.x - zero) * ends.zero.cos();
            to_zero.min((face.length - at.x - far) * ends.far.cos())
        }
        _ => at.x.min(face.length - at.x),
    }
}

/// Distance to the edge that decides, and the least for any use.
///
/// Towards a cut edge, bolts and screws keep 1.2 d0 at least (EN 1993-1-8:2005 table 3.3; EN 1999-1-1
/// table 8.2 has the same least); rivets and rivet nuts keep 2 d (US Army TM 10-5410-229-13&P for rivets;
/// common practice for rivet nuts). Where the wall goes on round a corner, and for holes that carry
/// nothing, the rim keeps a land beside the wall. From where a wall bears fully is in
/// [`bearing`](super::bearing).
pub(super) fn edge_distance(face: &Face, hole: &DraftHole, body: &Body) -> EdgeDistance {
    let to_end = to_end(face, hole.at, body);
    let to_side = hole.at.y.min(face.width - hole.at.y);
    let land = hole.diameter / 2.0 + face.wall + LAND;
    let cut = match hole.kind {
        HoleKind::Rivet | HoleKind::RivetNut => hole.fastener * 2.0,
        HoleKind::Clearance | HoleKind::Countersunk | HoleKind::Pilot => hole.diameter * 1.2,
        HoleKind::Access | HoleKind::Cable | HoleKind::Drain => land,
    };
    let side = if face.free_sides { cut } else { land };
    // The one with less to spare decides.
    let (has, least) = if to_end - cut < to_side - side { (to_end, cut) } else { (to_side, side) };
    EdgeDistance { has, least }
}

/// Least distance between the middles of two holes in one face: 2.2 d0 of the larger for bolts and
/// screws (EN 1993-1-8:2005 table 3.3), 3 d where a rivet or rivet nut is one of them, and room
/// between the rims where neither carries anything.
pub(super) fn pitch(a: (HoleKind, Length, Length), b: (HoleKind, Length, Length)) -> Length {
    let own = |(kind, diameter, fastener): (HoleKind, Length, Length)| match kind {
        HoleKind::Rivet | HoleKind::RivetNut => Some(fastener * 3.0),
        HoleKind::Clearance | HoleKind::Countersunk | HoleKind::Pilot => Some(diameter * 2.2),
        HoleKind::Access | HoleKind::Cable | HoleKind::Drain => None,
    };
    match (own(a), own(b)) {
        (Some(a), Some(b)) => a.max(b),
        _ => (a.1 + b.1) / 2.0 + LAND * 2.0,
    }
}
