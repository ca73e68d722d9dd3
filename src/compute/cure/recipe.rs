//! What each joint is made of, apart from the hour at which it is made.

use super::day_table::DayTable;
use super::forecast::Forecast;
use super::joint::{JointCure, Stage};
use super::{FILLET, FOOT_SEALS, LOCKER, bolted, locked, thread_mark};
use crate::build::{BondedFoot, Build};
use crate::compute::bonding::{BondUse, Carrier, written};
use crate::derive::{Bond, Work};
use crate::source::Span;
use crate::tables::{Adhesive, Tables, Thread, Threadlocker};
use crate::units::{Duration, Length};

/// How much of a joint is worked out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Told {
    /// All, with the table for other air.
    All,
    /// All waits.
    Waits,
    /// One wait.
    Only(Stage),
}

impl Told {
    /// Whether a wait is asked for.
    pub fn asks(self, stage: Stage) -> bool {
        match self {
            Self::All | Self::Waits => true,
            Self::Only(one) => one == stage,
        }
    }

    /// The table for other air, if it is asked for.
    pub fn table(self, table: impl FnOnce() -> DayTable) -> DayTable {
        if self == Self::All { table() } else { DayTable::default() }
    }
}

/// What a joint is made of.
#[derive(Clone, Copy)]
pub(super) enum Recipe<'a> {
    /// Tape and beads under a plate.
    Bond(&'a Bond, Option<Carrier>),
    /// A seal of a place: mark, sealant, place in the build file.
    Seal(&'a str, &'a Adhesive, Span),
    /// Bolts of a thread, with the step that tightens them last.
    Threads(&'a Thread, &'static str, &'a Threadlocker),
}

/// Every joint of a build.
pub(super) fn recipes<'a>(
    build: &'a Build,
    work: &'a Work,
    bonds: &[BondUse],
    tables: &'a Tables,
) -> Vec<Recipe<'a>> {
    let carrier = |bond: &Bond| bonds.iter().find(|b| b.mark == bond.mark).map(|b| b.carrier);
    let mut list: Vec<Recipe> =
        work.bonds.iter().map(|bond| Recipe::Bond(bond, carrier(bond))).collect();
    if let (Some(entry), Some(place)) = (&build.entry, &work.entry) {
        list.push(Recipe::Seal(&place.mark, &entry.sealing, entry.span));
    }
    if let Some(foot) = bolted(build) {
        list.push(Recipe::Seal(FOOT_SEALS, &foot.sealing, foot.sealing.span));
    }
    if let Ok(locker) = tables.threadlocker(LOCKER) {
        let threads = locked(work).into_iter();
        list.extend(threads.map(|(thread, step)| Recipe::Threads(thread, step, locker)));
    }
    list
}

impl<'a> Recipe<'a> {
    /// Name of the joint.
    pub fn mark(&self) -> String {
        match self {
            Self::Bond(bond, _) => bond.mark.clone(),
            Self::Seal(mark, ..) => (*mark).to_owned(),
            Self::Threads(thread, ..) => thread_mark(thread),
        }
    }

    /// What carries it.
    pub fn carrier(&self) -> Option<Carrier> {
        if let Self::Bond(_, carrier) = self { *carrier } else { None }
    }

    /// Where it was written, with the foot that it holds; nothing for threads, of which there is
    /// nothing to judge.
    pub fn written(&self, build: &'a Build, work: &Work) -> Option<(Span, Option<&'a BondedFoot>)> {
        match self {
            Self::Bond(bond, _) => Some(
                written(build, work, &bond.mark)
                    .map_or((bond.span, None), |(foot, span)| (span, Some(foot))),
            ),
            Self::Seal(_, _, span) => Some((*span, None)),
            Self::Threads(..) => None,
        }
    }

    /// The joint as it is when made at a clock.
    pub fn joint(&self, made: Duration, air: &Forecast, told: Told) -> JointCure {
        match self {
            Self::Bond(bond, carrier) => super::joint(bond, *carrier, made, air, told),
            // The fillet keeps the rain out; a bed under it hardens for months and need not.
            Self::Seal(mark, sealant, _) => super::seal(mark, (sealant, FILLET), made, air, told),
            Self::Threads(thread, step, locker) => {
                super::threads(self.mark(), thread, step, locker, made, air, told)
            }
        }
    }

    /// Whether two joints need the same waits.
    pub fn alike(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Bond(a, of_a), Self::Bond(b, of_b)) => {
                let size = |bond: &Bond| -> [Length; 2] { [bond.length, bond.width] };
                of_a == of_b
                    && size(a) == size(b)
                    && a.strips == b.strips
                    && a.beads == b.beads
                    && a.tape.as_ref().map(|t| &t.0) == b.tape.as_ref().map(|t| &t.0)
                    && a.adhesive == b.adhesive
            }
            (Self::Seal(_, a, _), Self::Seal(_, b, _)) => a == b,
            (Self::Threads(a, ..), Self::Threads(b, ..)) => a.name == b.name,
            _ => false,
        }
    }
}
