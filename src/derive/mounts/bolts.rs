//! What all mounts do with bolts: how long they are, and rivet nuts in the tube.

use super::{Ground, Site};
use crate::derive::Drawing;
use crate::derive::draft::{DraftDrilling, DraftFastening, DraftHole, HoleRef, OUTER};
use crate::derive::drilling::{FastenerFit, may_be_drilled_apart};
use crate::derive::rules::{h005, h009};
use crate::derive::shop;
use crate::derive::work::{HoleKind, Screw};
use crate::source::Stated;
use crate::tables::{RivetNut, Thread};
use crate::units::{Angle, Length};

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
fn bolt_in_rivet_nut_length(thread: &Thread, leg: Length, nut: &RivetNut) -> Length {
    thread.washer.thickness + leg + nut.flange_thickness + nut.length + thread.pitch
}

/// The hole for a rivet nut in the outer face of the site's tube, opposite a hole in what it holds.
fn rivet_nut_hole(
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

/// The rivet nut for a bolt in the frame's tube, or a finding that there is none.
pub(super) fn nut_in_tube(
    drawing: &mut Drawing<'_>,
    ground: &Ground<'_>,
    bolt: &Stated<Thread>,
) -> Option<RivetNut> {
    let tube = &ground.frame.section.value;
    let nut = shop::rivet_nut(bolt, tube);
    if nut.is_none() {
        drawing.findings.push(h005::none(bolt, tube, bolt.span));
    }
    nut
}

/// From each end of a piece to a bolt: full bearing, and room for a spanner.
pub(super) fn end_distance(bolt: &Thread) -> Length {
    (bolt.clearance.medium * 2.0).max(Length::mm(20.0))
}

/// Distance between the two bolts of a bracket into the tube.
pub(super) fn pitch(bolt: &Thread, bracket: Length) -> Length {
    Length::mm(80.0).min(bracket - end_distance(bolt) * 2.0).max(Length::ZERO)
}

/// A bolt with its nut through a stack.
pub(super) struct Through<'a> {
    /// "foot to roof".
    pub name: &'static str,
    pub thread: &'a Stated<Thread>,
    pub stack: Vec<(String, Length)>,
    /// A row of holes for each bolt.
    pub places: Vec<Vec<HoleRef>>,
    pub countersunk: bool,
    pub sealed: bool,
    /// From square to the layers under its head.
    pub lean: Angle,
}

/// Fastens with the next standard length of at least `least`, or tells that there is none.
pub(super) fn bolt_and_nut(
    drawing: &mut Drawing<'_>,
    site: &Site<'_>,
    least: Length,
    through: Through<'_>,
) {
    let thread = through.thread;
    let Some(length) = thread.length_at_least(least) else {
        drawing.findings.push(h009::finding(&site.mark, thread, least, thread.span));
        return;
    };
    drawing.draft.fasten(DraftFastening {
        name: through.name.to_owned(),
        screw: Screw::BoltAndNut {
            thread: thread.value.clone(),
            length,
            countersunk: through.countersunk,
            sealed: through.sealed,
        },
        stack: through.stack,
        places: through.places,
        lean: through.lean,
        undone: false,
        span: thread.span,
    });
}

/// How something is bolted to the outer face of a tube.
pub(super) struct ToTube<'a> {
    /// "hinge to tube".
    pub name: &'static str,
    /// What lies on the tube, "hinge leaf".
    pub held: &'static str,
    /// Its thickness.
    pub thickness: Length,
    /// The bolt.
    pub bolt: &'a Stated<Thread>,
    /// Set in the tube.
    pub nut: &'a RivetNut,
    /// Turned by hand whenever the frame is lifted.
    pub by_hand: bool,
}

/// Bolts through holes of what lies on the site's tube into rivet nuts in its wall.
pub(super) fn bolt_to_tube(
    drawing: &mut Drawing<'_>,
    ground: &Ground<'_>,
    site: &Site<'_>,
    holes: &[HoleRef],
    joint: &ToTube<'_>,
) {
    let (thread, nut) = (&joint.bolt.value, joint.nut);
    let tube_face = drawing.draft.face(site.tube, OUTER);
    let places = holes
        .iter()
        .map(|hole| {
            let size = drawing.draft.hole(*hole).diameter;
            let apart =
                may_be_drilled_apart(size, thread.diameter, FastenerFit::Fixed, drawing.zone());
            vec![*hole, rivet_nut_hole(drawing, site, tube_face, *hole, nut, apart)]
        })
        .collect();
    let least = bolt_in_rivet_nut_length(thread, joint.thickness, nut);
    let Some(length) = thread.length_at_least(least) else {
        drawing.findings.push(h009::finding(&site.mark, thread, least, joint.bolt.span));
        return;
    };
    drawing.draft.fasten(DraftFastening {
        name: joint.name.to_owned(),
        screw: Screw::BoltInRivetNut { thread: thread.clone(), length, nut: nut.clone() },
        stack: vec![
            (joint.held.to_owned(), joint.thickness),
            ("rivet nut flange".to_owned(), nut.flange_thickness),
            ("tube wall".to_owned(), ground.frame.section.t),
        ],
        places,
        lean: Angle::ZERO,
        undone: joint.by_hand,
        span: joint.bolt.span,
    });
}
