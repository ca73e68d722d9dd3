//! How tight: torque of bolts, limited by what they are turned into.
//!
//! T = K F d with half of the proof load as preload, so that neither friction at the low end of its
//! scatter nor a hard pull breaks the bolt; a rivet nut in a thin wall spins or pulls through long
//! before that, and then its own assembly torque decides.

use crate::derive::{Screw, Work};
use crate::source::{Figure, Ledger, Seen};
use crate::tables::{Tables, Thread, TorqueFactor};
use crate::units::Torque;

/// Share of the proof load that hand tightening aims at; common practice.
const PRELOAD: f64 = 0.5;
/// Bolts of the shopping list.
const GRADE: &str = "A2-70";

/// Torque of one thread.
#[derive(Debug, Clone)]
pub struct Tightening {
    /// Thread, "M6".
    pub thread: String,
    /// Torque to aim at.
    pub torque: Torque,
    /// Nut factor that it holds for.
    pub factor: TorqueFactor,
    /// Whether the rivet nut decides.
    pub by_rivet_nut: bool,
}

/// Torque of every thread in use, the least where a thread is used in several ways.
pub fn fasteners(work: &Work, tables: &Tables, ledger: &mut Ledger) -> Vec<Tightening> {
    let mut list: Vec<Tightening> = Vec::new();
    for fastening in &work.fastenings {
        let (thread, limit, locked) = match &fastening.screw {
            // Bolts that are undone in use are tightened by hand.
            Screw::BoltInRivetNut { .. } if fastening.undone => continue,
            Screw::BoltInRivetNut { thread, nut, .. } => (thread, Some(nut.assembly_torque), true),
            Screw::BoltAndNut { thread, .. } => (thread, None, false),
            Screw::Tapping { .. } | Screw::BlindRivet { .. } | Screw::Pin { .. } => continue,
        };
        let Some(found) = tighten(thread, limit, locked, tables) else { continue };
        match list.iter_mut().find(|known| known.thread == found.thread) {
            Some(known) if known.torque <= found.torque => {}
            Some(known) => *known = found,
            None => list.push(found),
        }
    }
    for tightening in &list {
        let figure = Figure::new(
            format!("fasteners.torque.{}", tightening.thread),
            format!("tightening torque {}", tightening.thread),
            tightening.torque.to_nm(),
            "N·m",
        )
        .formula("T = K F d, F = 0.5 × proof stress × stress area; not above the rivet nut's own")
        .input("K", format!("{:.2}, {}", tightening.factor.k, tightening.factor.words))
        .input("bolt", GRADE)
        .input("decided by", if tightening.by_rivet_nut { "rivet nut" } else { "bolt" })
        .source("short form of VDI 2230; proof stress by ISO 3506-1", Seen::Memory)
        .assume(format!(
            "preload scatters by ±{:.0} %; a maker's torque wins",
            tightening.factor.scatter.to_percent()
        ))
        .decides();
        ledger.push(figure);
    }
    list
}

/// Torque of one thread, by bolt or by what it is turned into.
fn tighten(
    thread: &Thread,
    limit: Option<Torque>,
    locked: bool,
    tables: &Tables,
) -> Option<Tightening> {
    let grade = tables.bolt_grade(GRADE).ok()?;
    // Threadlocker lubricates while it is wet.
    let friction = if locked { "stainless-lubricated" } else { "stainless-dry" };
    let factor = tables.torque_factor(friction).ok()?;
    let preload = grade.proof * thread.stress_area * PRELOAD;
    let by_bolt: Torque = preload * thread.diameter * factor.k;
    let torque = limit.map_or(by_bolt, |limit| limit.min(by_bolt));
    Some(Tightening {
        thread: thread.name.clone(),
        torque,
        factor: factor.clone(),
        by_rivet_nut: limit.is_some_and(|limit| limit < by_bolt),
    })
}

#[cfg(test)]
mod tests {
    use super::tighten;
    use crate::tables::Tables;
    use crate::units::Torque;

    #[test]
    fn torque_follows_the_short_form() {
        // M8 A2-70 at half its proof load: 450 MPa × 36.6 mm² / 2 = 8235 N; with K = 0.31 that is
        // 20.4 N·m, in the band of 14.5 to 25.5 N·m that published tables give for friction 0.1 to
        // 0.3 (stainless pre-load table).
        let tables = Tables::builtin();
        let m8 = tables.thread("M8").expect("built in");
        let found = tighten(m8, None, false, tables).expect("rows are there");
        assert!((found.torque.to_nm() - 20.4).abs() < 0.3, "{}", found.torque.to_nm());
        let limited = tighten(m8, Some(Torque::nm(10.0)), false, tables).expect("rows are there");
        assert!(limited.by_rivet_nut && limited.torque == Torque::nm(10.0));
    }
}
