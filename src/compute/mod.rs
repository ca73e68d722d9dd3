//! From the work to results: every number that a sheet prints.
//!
//! [`compute`] runs the chapters in order; each takes the build, the work and what earlier chapters
//! found, and gives its result, its figures and its findings. Nothing here knows of paper.

pub mod beams;
pub mod bonding;
pub mod cables;
pub mod cure;
pub mod cut_list;
pub mod cutting;
pub mod defaults;
pub mod electrics;
pub mod fasteners;
pub mod figures;
pub mod fixtures;
pub mod loads;
pub mod metal;
pub mod photos;
pub mod plan;
pub mod planning;
pub mod quantities;
pub mod reserve;
pub mod restraint;
pub mod side;
pub mod sizes;
pub mod steps;
pub mod weights;
pub mod what_if;

use crate::build::Build;
use crate::derive::Work;
use crate::source::{Finding, Ledger};
use crate::tables::Tables;
use crate::units::{Duration, Length};
use cure::Made;
use steps::template::Templates;

/// What was worked out.
#[derive(Debug, Clone)]
pub struct Results {
    /// Every figure with how it was worked out.
    pub ledger: Ledger,
    /// Bars and cuts.
    pub cuts: Option<cut_list::CutList>,
    /// Load cases and what the mounts get of them.
    pub loads: Option<loads::Loads>,
    /// Use of every bond.
    pub bonds: Vec<bonding::BondUse>,
    /// Use of everything made of metal.
    pub metal: metal::Metal,
    /// Other things bolted through a skin.
    pub fixtures: Vec<fixtures::FixtureUse>,
    /// What is left at lower speeds and with one mount gone.
    pub reserve: Option<reserve::Reserve>,
    /// Waits of every bond.
    pub cures: Vec<cure::JointCure>,
    /// What to buy and to bring.
    pub shopping: quantities::Shopping,
    /// Torque of every thread.
    pub fasteners: Vec<fasteners::Tightening>,
    /// Voltages, conductors, fuses.
    pub electrics: Option<electrics::Electrics>,
    /// How cables are cut, laid and ended.
    pub cables: Option<cables::Cables>,
    /// What holds the battery.
    pub restraint: Option<restraint::RestraintUse>,
    /// Air for a battery that gives off gas.
    pub vent: Option<restraint::Vent>,
    /// Steps in order, with the safety messages that they raise.
    pub steps: steps::Steps,
    /// The steps by the clock.
    pub plan: Option<plan::Plan>,
    /// Values that the build file leaves open.
    pub defaults: Vec<defaults::Taken>,
    /// Masses and height.
    pub weights: weights::Weights,
    /// What follows where a size on the day is not as planned.
    pub what_if: Vec<what_if::Strip>,
    /// Photographs; none until their files were read.
    pub photos: photos::Photos,
}

/// Runs every chapter, with the steps that come with the program, and what the sheets ask beside.
pub fn compute(build: &Build, work: &Work, tables: &Tables) -> (Results, Vec<Finding>) {
    let strips = || what_if::strips(build, work, tables);
    let computed = || compute_by(build, work, tables, Templates::builtin());
    let (strips, (mut results, findings)) = side::both(strips, computed);
    results.what_if = strips;
    (results, findings)
}

/// Runs every chapter, with these templates of steps; what differs on the day is left to
/// [`what_if::strips`], as it works the build out many times over.
pub fn compute_by(
    build: &Build,
    work: &Work,
    tables: &Tables,
    templates: &Templates,
) -> (Results, Vec<Finding>) {
    let mut ledger = work.ledger.clone();
    let mut findings = Vec::new();
    // Chapters that others ask come first; each has a ledger of its own, and is told in its own place.
    let slack = work.lifts.iter().map(|tilt| tilt.slack).fold(Length::ZERO, Length::max);
    // Cores are cut from reels.
    let (electrics, lines) = told(|l, f| electrics::electrics(build, slack, tables, l, f));
    let (loads, pulls) = told(|l, f| loads::loads(build, work, tables, l, f));
    let (fasteners, threads) = told(|l, _| fasteners::fasteners(work, tables, l));
    let (fixed, fixing) = told(|l, f| fixtures::fixtures(build, tables, l, f));
    let joints = bonding::Joints::new(build, work, tables);
    let mut bonds = loads.as_ref().map_or_else(Vec::new, |loads| joints.uses(loads));

    // What the clock says, what would mend a bond, and the rest ask nothing of each other.
    // Work at the bench has no clock to keep.
    let bench = build.is_bench_work();
    let by_clock = || {
        let mut known = if bench { Ledger::new() } else { work.ledger.clone() };
        if !bench {
            for (of, _) in [&pulls, &lines, &threads, &fixing] {
                known.extend(of.iter().cloned());
            }
        }
        let count = known.len();
        let mut f = Vec::new();
        let timed = timing(build, work, &bonds, (tables, templates), &mut known, &mut f);
        (timed, (known.since(count), f))
    };
    let mended = || {
        told(|l, f| match &loads {
            Some(_) => bonding::judged((build, work, tables), &joints, &bonds, l, f),
            None => Vec::new(),
        })
    };
    let rest = || {
        let (cuts, cutting) =
            told(|l, f| cut_list::cut_list(build, work, electrics.as_ref(), tables, l, f));
        let (cables, laying) =
            told(|l, f| cables::cables(build, work, electrics.as_ref(), tables, l, f));
        let (metal, bearing) = told(|l, f| match &loads {
            Some(loads) => metal::metal(build, work, loads, &bonds, &fasteners, tables, l, f),
            None => metal::Metal::default(),
        });
        let (reserve, left) = told(|l, f| {
            loads.as_ref().and_then(|_| reserve::reserve(build, work, &fasteners, tables, l, f))
        });
        ((cuts, cutting), (cables, laying), (metal, bearing), (reserve, left))
    };
    let ((timed, clock), ((leasts, mending), rest)) =
        side::both(by_clock, || side::both(mended, rest));
    let ((cuts, cutting), (cables, laying), (metal, bearing), (reserve, left)) = rest;
    let (plan, cures, steps) = timed;
    for (marks, least) in &leasts {
        bonding::take_least(&mut bonds, marks, least);
    }

    let first = [cutting, pulls, mending, lines, laying, threads, bearing, fixing, left];
    for (figures, faults) in first {
        ledger.append(figures);
        findings.extend(faults);
    }
    let (l, f) = (&mut ledger, &mut findings);
    let restraint = restraint::restraint(build, tables, l, f);
    let vent = restraint::vent(build, l);
    let weights = weights::weights(build, work, electrics.as_ref(), tables, l, f);
    if !bench {
        l.append(clock.0);
    }
    f.extend(clock.1);
    let plan = plan.filter(|_| !bench);
    let shopping = quantities::quantities(
        build,
        work,
        cuts.as_ref(),
        electrics.as_ref(),
        cables.as_ref(),
        &cures,
        tables,
        &mut ledger,
    );
    let results = Results {
        ledger,
        cuts,
        loads,
        bonds,
        metal,
        fixtures: fixed,
        reserve,
        cures,
        shopping,
        fasteners,
        electrics,
        cables,
        restraint,
        vent,
        steps,
        plan,
        defaults: defaults::defaults(build),
        weights,
        what_if: Vec::new(),
        photos: photos::Photos::default(),
    };
    (results, findings)
}

/// A chapter with its figures and findings.
fn told<T>(
    chapter: impl FnOnce(&mut Ledger, &mut Vec<Finding>) -> T,
) -> (T, (Ledger, Vec<Finding>)) {
    let (mut ledger, mut findings) = (Ledger::new(), Vec::new());
    let result = chapter(&mut ledger, &mut findings);
    (result, (ledger, findings))
}

/// Steps, plan and cures: a step prints its waits, a wait depends on the hour, an hour on the steps.
/// Steps are first lined up without waits, then planned until hours and waits agree, then filled in.
fn timing(
    build: &Build,
    work: &Work,
    bonds: &[bonding::BondUse],
    (tables, templates): (&Tables, &Templates),
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> (Option<plan::Plan>, Vec<cure::JointCure>, steps::Steps) {
    let draft = steps::steps(build, work, tables, templates, &mut ledger.clone(), &mut Vec::new());
    let cure_at = |made: &dyn Fn(&str) -> Made| cure::waits(build, work, bonds, tables, made);
    let by_hour = cure::ByHour::of(build, work, bonds, tables);
    let curing = plan::Curing { all: &cure_at, by_hour: &by_hour };
    let planned = plan::plan(build, &draft.steps, curing, ledger, findings);
    let (plan, clocks) = planned.map_or((None, Vec::new()), |(plan, made)| (Some(plan), made));
    let noon = Made::at(Duration::hours(12.0));
    let made =
        |mark: &str| clocks.iter().find(|(known, _)| known == mark).map_or(noon, |(_, made)| *made);
    let cures = cure::cure(build, work, bonds, tables, &made, ledger, findings);
    let steps = steps::steps(build, work, tables, templates, ledger, findings);
    (plan, cures, steps)
}
