//! How a hole is drilled: which drills in turn, and whether from its own marks or through its mate.

use crate::build::{Marking, MarkingBy};
use crate::source::{Figure, Seen};
use crate::units::Length;

#[cfg(test)]
use crate::build::HAND_ZONE;

/// First drill of a hole that is marked by hand: it follows the punch mark.
const PILOT: Length = Length::mm(3.0);
/// A hole up to this is drilled at once.
const AT_ONCE: Length = Length::mm(4.2);
/// Greatest step from one drill to the next; more, and a hand drill grabs in thin metal
/// (common practice, no source).
const STEP: f64 = 2.2;

/// How the parts of a joint are held in line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FastenerFit {
    /// Both parts have clearance holes (bolt and nut).
    Floating,
    /// The other part holds the fastener itself: thread, rivet nut, countersink, rivet.
    Fixed,
}

/// Whether two mating holes may each be drilled from their own marks: ASME Y14.5, floating fastener
/// `T = H − F` for each part, fixed fastener `T1 + T2 = H − F` for both together, with hole `hole`,
/// fastener `fastener` and the position zone `zone` of either hole as a diameter.
pub fn may_be_drilled_apart(
    hole: Length,
    fastener: Length,
    fit: FastenerFit,
    zone: Length,
) -> bool {
    let needed = match fit {
        FastenerFit::Floating => zone,
        FastenerFit::Fixed => zone * 2.0,
    };
    (hole - fastener).clears(needed)
}

/// The figure behind the choice of drilling apart or through.
pub(super) fn zone_figure(marking: &Marking) -> Figure {
    let (way, practice) = match *marking.by {
        MarkingBy::Hand => {
            ("marked, punched and drilled by hand", "aeronautical drilling practice")
        }
        MarkingBy::Jig => ("drilled in a jig or drill press", "common practice"),
    };
    let figure = Figure::new(
        "holes.zone",
        format!("circle in which a hole lands that is {way}"),
        marking.zone.to_mm(),
        "mm",
    )
    .formula("two holes are drilled apart only where H − F ≥ T (bolt and nut) or 2 T (thread, rivet nut, countersink, rivet)")
    .input("T", marking.zone.to_string())
    .input("H", "hole")
    .input("F", "fastener")
    .assume("all other mating holes are clamped together and drilled through")
    .decides();
    if marking.zone.is_default() {
        let source = format!("ASME Y14.5, floating and fixed fasteners; the zone: {practice}");
        figure.source(source, Seen::Memory)
    } else {
        figure
            .source("ASME Y14.5, floating and fixed fasteners; the zone: build file", Seen::Memory)
    }
}

/// Drills in turn for a hole: pilot, steps of at most 2.2 times, the finished size. A hole that is
/// drilled through its mate begins with the drill that fits the mate's hole, which guides it.
pub fn drill_sequence(finished: Length, guide: Option<Length>) -> Vec<Length> {
    let first = match guide {
        Some(guide) => guide.min(finished),
        None if finished.fits(AT_ONCE) => finished,
        None => PILOT,
    };
    let whole = finished / first;
    if whole <= 1.0 + 1e-9 {
        return vec![finished];
    }
    // So many drills after the first that each step is small enough.
    let steps = (whole.ln() / STEP.ln() - 1e-9).ceil().max(1.0);
    let mut drills = vec![first];
    for k in 1..(steps as u32) {
        // Drills are sold in half millimetres at the least.
        let size = (first.to_mm() * whole.powf(f64::from(k) / steps) * 2.0).round() / 2.0;
        drills.push(Length::mm(size));
    }
    drills.push(finished);
    drills
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn small_bolts_need_drilling_through() {
        let m6 = (Length::mm(6.6), Length::mm(6.0));
        assert!(!may_be_drilled_apart(m6.0, m6.1, FastenerFit::Floating, HAND_ZONE));
        // M8 in the coarse series: 10 − 8 = 2 mm, just enough for two clearance holes.
        let m8 = (Length::mm(10.0), Length::mm(8.0));
        assert!(may_be_drilled_apart(m8.0, m8.1, FastenerFit::Floating, HAND_ZONE));
        assert!(!may_be_drilled_apart(m8.0, m8.1, FastenerFit::Fixed, HAND_ZONE));
    }

    #[test]
    fn drills_grow_in_small_steps() {
        let mm = |drills: Vec<Length>| drills.into_iter().map(Length::to_mm).collect::<Vec<_>>();
        assert_eq!(mm(drill_sequence(Length::mm(4.0), None)), [4.0]);
        assert_eq!(mm(drill_sequence(Length::mm(6.6), None)), [3.0, 6.6]);
        assert_eq!(mm(drill_sequence(Length::mm(9.0), None)), [3.0, 5.0, 9.0]);
        assert_eq!(mm(drill_sequence(Length::mm(9.0), Some(Length::mm(6.6)))), [6.6, 9.0]);
        assert_eq!(mm(drill_sequence(Length::mm(20.0), None)), [3.0, 5.5, 10.5, 20.0]);
        assert_eq!(mm(drill_sequence(Length::mm(4.0), Some(Length::mm(5.8)))), [4.0]);
    }
}
