//! What all mounts do with bolts: how long they are, and rivet nuts in the tube.

use super::Site;
use crate::derive::Drawing;
use crate::derive::draft::{DraftDrilling, DraftHole, HoleRef};
use crate::derive::work::HoleKind;
use crate::tables::{RivetNut, Thread};
use crate::units::Length;

/// Stack, washers, locking nut and two pitches of thread that show. A countersunk screw's length
/// counts from the top of its head, so it has a washer under the nut alone.
pub(super) fn bolt_and_nut_length(
    thread: &Thread,
    stack: &[(String, Length)],
    countersunk: bool,
) -> Length {
    let clamped: Length = stack.iter().map(|layer| layer.1).sum();
    let washers = if countersunk { 1.0 } else { 2.0 };
    clamped + thread.washer.thickness * washers + thread.locking_nut_height + thread.pitch * 2.0
}

/// Washer, stack, body of the rivet nut and one pitch beyond its end, so that all of its thread
/// carries.
pub(super) fn bolt_in_rivet_nut_length(thread: &Thread, leg: Length, nut: &RivetNut) -> Length {
    thread.washer.thickness + leg + nut.flange_thickness + nut.length + thread.pitch
}

/// The hole for a rivet nut in the outer face of the site's tube, opposite a hole in what it holds.
pub(super) fn rivet_nut_hole(
    drawing: &mut Drawing<'_>,
    site: &Site<'_>,
    tube_face: usize,
    opposite: HoleRef,
    nut: &RivetNut,
    apart: bool,
) -> HoleRef {
    let at = drawing.draft.on_face(site.tube, tube_face, drawing.draft.place_of(opposite));
    let fastener = drawing.draft.hole(opposite).fastener;
    drawing.draft.drill(
        site.tube,
        DraftHole {
            face: tube_face,
            at,
            diameter: nut.hole,
            fastener,
            kind: HoleKind::RivetNut,
            countersink: None,
            drilling: if apart { DraftDrilling::Apart } else { DraftDrilling::Through(opposite) },
            span: site.span,
        },
    )
}
