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
    let (mut results, findings) = compute_by(build, work, tables, Templates::builtin());
    results.what_if = what_if::strips(build, work, tables);
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
    let (l, f) = (&mut ledger, &mut findings);
    // Cores are cut from reels, so their lengths come first; told in their own place.
    let (mut lines, mut faults) = (Ledger::new(), Vec::new());
    let slack = work.lifts.iter().map(|tilt| tilt.slack).fold(Length::ZERO, Length::max);
    let electrics = electrics::electrics(build, slack, tables, &mut lines, &mut faults);
    let cuts = cut_list::cut_list(build, work, electrics.as_ref(), tables, l, f);
    let loads = loads::loads(build, work, tables, l, f);
    let bonds = loads
        .as_ref()
        .map_or_else(Vec::new, |loads| bonding::bonding(build, work, loads, tables, l, f));
    l.append(lines);
    f.append(&mut faults);
    let cables = cables::cables(build, work, electrics.as_ref(), tables, l, f);
    let fasteners = fasteners::fasteners(work, tables, l);
    let metal = loads.as_ref().map_or_else(metal::Metal::default, |loads| {
        metal::metal(build, work, loads, &bonds, &fasteners, tables, l, f)
    });
    let fixed = fixtures::fixtures(build, tables, l, f);
    let reserve =
        loads.as_ref().and_then(|_| reserve::reserve(build, work, &fasteners, tables, l, f));
    let restraint = restraint::restraint(build, tables, l, f);
    let vent = restraint::vent(build, l);
    let weights = weights::weights(build, work, electrics.as_ref(), tables, l, f);
    // Work at the bench has no clock to keep.
    let mut aside = Ledger::new();
    let l = if build.is_bench_work() { &mut aside } else { l };
    let (plan, cures, steps) = timing(build, work, &bonds, (tables, templates), l, f);
    let plan = plan.filter(|_| !build.is_bench_work());
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
