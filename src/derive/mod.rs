//! From what the reader wrote to the work itself: places, parts, holes, fastenings and bonds.
//!
//! [`derive`] takes a [`Build`] and gives a [`Work`] with what it found on the way. Nothing here is
//! judged against strength; only what cannot be built or measured is a finding.
//!
//! The order is the workshop's: the roof as it was measured ([`roof`]), the panels and the frame's
//! heights, the tubes and their joints, the mounts, the panel screws (which give way to all that is
//! there already), the cable entry and the parts stated directly. Then alike pieces share one part,
//! parts get marks and holes get ids, and the holes are checked. [`closure()`] puts mating holes
//! together again.

mod alike;
mod array;
mod assemble;
pub mod bearing;
mod check;
mod clashes;
mod closure;
mod corners;
mod direct;
mod draft;
mod drilling;
mod entry;
mod limits;
mod marks;
mod members;
mod mounts;
mod panel_screws;
pub mod roof;
pub mod rules;
mod seen;
mod shop;
mod work;

pub use clashes::{ClashCheck, clashes};
pub use closure::{JointCheck, MateError, SLACK, closure, joint_checks};
pub use drilling::{FastenerFit, drill_sequence, may_be_drilled_apart};
pub use roof::{RoofSurface, Seat};
pub use work::*;

use crate::build::{Build, RoofShape};
use crate::source::{Finding, Ledger, Span, sort};
use crate::units::Length;
use check::Foot;
use draft::Draft;

/// Everything while it is being worked out.
struct Drawing<'a> {
    build: &'a Build,
    draft: Draft,
    bonds: Vec<Bond>,
    /// Plates on the roof.
    feet: Vec<Foot>,
    /// Brackets that stand up to a tube with holes for its bolts.
    legs: Vec<mounts::Leg>,
    /// Places whose holes are judged already, as a whole.
    told: Vec<Span>,
    /// Panels laid so far, by row of the build's panels.
    laid: Vec<u32>,
    findings: Vec<Finding>,
    ledger: Ledger,
}

impl Drawing<'_> {
    /// Circle in which a hole lands that is marked as the job says.
    fn zone(&self) -> Length {
        *self.build.job.marking.zone
    }
}

/// Works out the whole build: places, parts, holes, fastenings, bonds, and what is wrong with them.
///
/// Findings come in the order in which to deal with them. The work is as whole as it can be made;
/// it may be built only if no finding is a stop.
pub fn derive(build: &Build) -> (Work, Vec<Finding>) {
    let Placed { work, told, mut findings } = put_together(build);
    findings.extend(check::holes(&work, &told));
    findings.extend(check::inside(&work));
    findings.extend(clashes::judge(&work, &findings));
    sort(&mut findings);
    // Holes of one screw that go wrong together are one thing to change.
    findings.dedup_by(|later, first| {
        let same = |a: &Finding, b: &Finding| {
            a.primary.is_some() && a.primary == b.primary && a.others == b.others
        };
        later.rule == first.rule && later.rule.code.starts_with('H') && same(later, first)
    });
    (work, findings)
}

/// The work alone, nothing in it held against anything: for whoever asks what a changed size comes to.
pub fn placed(build: &Build) -> Work {
    put_together(build).work
}

/// Everything in its place, before it is checked.
struct Placed {
    work: Work,
    /// Places whose holes are judged already, as a whole.
    told: Vec<Span>,
    findings: Vec<Finding>,
}

fn put_together(build: &Build) -> Placed {
    let mut drawing = Drawing {
        build,
        draft: Draft::default(),
        bonds: Vec::new(),
        feet: Vec::new(),
        legs: Vec::new(),
        told: Vec::new(),
        laid: vec![0; build.panels.len()],
        findings: Vec::new(),
        ledger: Ledger::new(),
    };
    let flat = RoofShape::Flat;
    let surface = RoofSurface::new(build.roof.as_ref().map_or(&flat, |roof| &roof.shape));
    if let Some(roof) = &build.roof {
        drawing.findings.extend(roof::check_readings(roof));
    }
    let mut work = Work::default();
    let mut props = Vec::new();
    let lots = array::share_out(&mut drawing);
    for (number, (frame, lot)) in build.frames.iter().zip(lots).enumerate() {
        drawing.draft.frame = Some(number);
        let laid = array::lay(&mut drawing, number, &lot, &surface);
        let members = members::build(&mut drawing, frame, &laid.array);
        let ground =
            mounts::Ground { frame, array: &laid.array, members: &members, surface: &surface };
        let mounts = mounts::fit(&mut drawing, &ground);
        if let Some((mut tilt, mut tilts)) = mounts::tilt(&mut drawing, &ground, &mounts) {
            let stood = mounts::props(&mut drawing, &ground, &mounts, &mut tilts);
            if let Some(last) = tilts.last() {
                tilt.prop = last.prop;
            }
            props.extend(stood);
            work.lifts.push(tilt);
            work.tilts.extend(tilts);
        }
        work.mounts.extend(mounts);
        panel_screws::place(&mut drawing, frame, &laid, &members);
        work.arrays.push(laid.array);
    }
    drawing.draft.frame = None;
    array::enter_height(&mut drawing, &work.arrays);
    drawing.findings.extend(check::frames(build, &surface, &work.arrays));
    // As written, though frames are built one after the other.
    work.mounts.sort_by_key(|place| place.mount);
    let feet = std::mem::take(&mut drawing.feet);
    drawing.findings.extend(check::feet(build, &surface, &feet, (&work.arrays, &work.mounts)));
    drawing.findings.extend(mounts::lifts_meet(build, (&work.arrays, &work.mounts), &feet));
    let entry = build
        .entry
        .as_ref()
        .and_then(|entry| entry::place(&mut drawing, entry, &surface, &work.arrays, &feet));
    direct::add_parts(&mut drawing);
    direct::add_holes(&mut drawing);

    let mut letters = marks::Letters::new(build);
    let assembled = assemble::assemble(&drawing.draft, &mut letters, &mut work);
    work.entry = entry.map(|entry| EntryPlace {
        mark: entry.mark,
        at: entry.at,
        hole: assembled.id(&work, entry.hole).to_owned(),
        foot: entry.foot,
        span: build.entry.as_ref().map_or_else(Default::default, |entry| entry.span),
    });
    work.props = props.iter().map(|prop| prop.stood(&work, &assembled)).collect();
    work.note_marks();
    work.roof = build.roof.is_some().then_some(surface);
    work.bonds = drawing.bonds;
    work.ledger = drawing.ledger;
    if !work.fastenings.is_empty() {
        work.ledger.push(drilling::zone_figure(&build.job.marking));
    }
    Placed { work, told: drawing.told, findings: drawing.findings }
}
