//! Laws of the stages, whatever was asked for.

use proptest::prelude::*;
use proptest::test_runner::TestCaseError;
use rungsheet::build::{Build, Terminal};
use rungsheet::compute::Results;
use rungsheet::compute::cut_list::CutList;
use rungsheet::compute::electrics::Electrics;
use rungsheet::compute::plan::Plan;
use rungsheet::compute::steps::Steps;
use rungsheet::derive::{Body, Work, clashes, closure, joint_checks};
use rungsheet::source::{Finding, Severity};
use std::collections::{BTreeMap, BTreeSet};

type Held = Result<(), TestCaseError>;

pub fn hold(build: &Build, work: &Work, results: &Results, findings: &[Finding]) -> Held {
    let told = |code: &str| findings.iter().any(|finding| finding.rule.code == code);
    let stopped = findings.iter().any(|finding| finding.severity == Severity::Stop);
    geometry(work, told)?;
    let mut ids = BTreeSet::new();
    for figure in &results.ledger {
        prop_assert!(figure.value.is_finite(), "{} is {}", figure.id, figure.value);
        prop_assert!(ids.insert(&figure.id), "{} stands twice", figure.id);
        prop_assert!(!figure.source.is_empty(), "{} has no source", figure.id);
    }
    masses(results)?;
    if let Some(cuts) = &results.cuts {
        cut(cuts, work, told("C001") || told("C002"))?;
    }
    if let Some(electrics) = &results.electrics {
        currents(build, electrics, stopped)?;
    }
    loads(results)?;
    if let Some(plan) = &results.plan {
        order(build, plan, &results.steps)?;
    }
    prop_assert!(results.steps.missing.is_empty(), "{:?}", results.steps.missing);
    Ok(())
}

/// Mating holes meet, and what is in another's way is told.
fn geometry(work: &Work, told: impl Fn(&str) -> bool) -> Held {
    prop_assert_eq!(closure(work), vec![]);
    for check in joint_checks(work) {
        prop_assert!(check.sound, "{check:?}");
    }
    for check in clashes(work) {
        let said = ["L042", "L017", "L021"].iter().any(|code| told(code));
        prop_assert!(check.is_clear() || said, "{check:?}");
    }
    let mut holes = BTreeSet::new();
    for hole in &work.holes {
        prop_assert!(holes.insert(&hole.id), "two holes are {}", hole.id);
    }
    Ok(())
}

/// Sums of the table of masses are those printed below it.
fn masses(results: &Results) -> Held {
    for (on_roof, all) in [(true, results.weights.roof), (false, results.weights.inside)] {
        let sum: f64 = results
            .weights
            .lines
            .iter()
            .filter(|line| line.on_roof == on_roof)
            .map(|line| line.all.to_kg())
            .sum();
        prop_assert!((sum - all.to_kg()).abs() < 1e-6, "on the roof {on_roof}: {sum} {all}");
    }
    for line in &results.weights.lines {
        prop_assert!(line.all.to_kg() >= 0.0, "{line:?}");
    }
    if let Some(loads) = &results.loads {
        let sum: f64 = loads.masses.iter().map(|mass| mass.to_kg()).sum();
        prop_assert!((sum - loads.mass.to_kg()).abs() < 1e-6, "{sum} {}", loads.mass);
    }
    Ok(())
}

/// Each piece is cut once, and lengths of a bar add up.
fn cut(cuts: &CutList, work: &Work, told: bool) -> Held {
    let mut marks = BTreeSet::new();
    for mark in
        cuts.bars.iter().flat_map(|bar| bar.cuts.iter().map(|cut| &cut.mark)).chain(
            cuts.plates.iter().flat_map(|plate| plate.pieces.iter().map(|piece| &piece.mark)),
        )
    {
        prop_assert!(marks.insert(mark), "{mark} is cut twice");
    }
    for bar in &cuts.bars {
        let pieces: f64 = bar.cuts.iter().map(|cut| cut.length.to_mm()).sum();
        let sum =
            bar.trim.to_mm() + pieces - bar.nested.to_mm() + bar.saw.to_mm() + bar.rest.to_mm();
        prop_assert!(
            (sum - bar.length.to_mm()).abs() < 0.011 * (bar.cuts.len() as f64 + 2.0),
            "{sum} {bar:#?}"
        );
        prop_assert!(bar.rest.to_mm() > -0.011, "{bar:#?}");
    }
    let frames = work
        .parts
        .iter()
        .filter(|part| matches!(part.body, Body::Bar { .. }))
        .flat_map(|part| &part.pieces);
    let missing: Vec<&String> =
        frames.map(|piece| &piece.mark).filter(|mark| !marks.contains(mark)).collect();
    prop_assert!(missing.is_empty() || told, "not cut: {missing:?}");
    Ok(())
}

/// What flows into a node flows on; fuses stand between load and conductor; drops are those of Ohm's law.
fn currents(build: &Build, electrics: &Electrics, stopped: bool) -> Held {
    let mut into: BTreeMap<&str, f64> = BTreeMap::new();
    let mut out: BTreeMap<&str, f64> = BTreeMap::new();
    for circuit in &build.circuits {
        let Some(run) = electrics.runs.iter().find(|run| run.name == circuit.name.value) else {
            continue;
        };
        if let Terminal::Load(node) = &*circuit.to {
            *into.entry(node).or_default() += run.working.to_a();
        }
        if let Terminal::Load(node) = &*circuit.from {
            *out.entry(node).or_default() += run.working.to_a();
        }
    }
    for (node, flows) in &out {
        let comes = into.get(node).copied().unwrap_or_default();
        prop_assert!(
            (comes - flows).abs() < 1e-6 || stopped,
            "{node}: {comes} A in, {flows} A out"
        );
    }
    for run in &electrics.runs {
        prop_assert!(run.design.to_a() >= run.working.to_a() - 1e-9, "{run:?}");
        let Some(conductor) = &run.conductor else { continue };
        let drop = run.working.to_a() * conductor.resistance.to_ohm();
        prop_assert!((drop - conductor.drop.to_v()).abs() < 1e-6 * drop.max(1.0), "{run:?}");
        prop_assert!(conductor.ampacity >= run.design || stopped, "{run:?}");
        if let Some(fuse) = &run.fuse {
            prop_assert!(fuse.rating <= conductor.ampacity || stopped, "{run:?}");
            prop_assert!(fuse.rating.to_a() >= run.working.to_a() - 1e-9 || stopped, "{run:?}");
        }
    }
    Ok(())
}

/// What acts on all frames is what all mounts hold together.
fn loads(results: &Results) -> Held {
    let Some(loads) = &results.loads else { return Ok(()) };
    for loaded in &loads.cases {
        let force = loaded.case.wrench.force;
        let mut sum = [0.0; 3];
        let mut size = 1.0_f64;
        for mount in &loaded.mounts {
            for (k, force) in [mount.along, mount.across, mount.up].into_iter().enumerate() {
                sum[k] += force.to_n();
                size = size.max(force.to_n().abs());
            }
        }
        for k in 0..3 {
            prop_assert!(
                (sum[k] - force[k]).abs() < 1e-6 * size,
                "{}: {sum:?} {force:?}",
                loaded.case.key
            );
        }
    }
    Ok(())
}

/// Steps in their order, nobody at two places, all within the working hours.
fn order(build: &Build, plan: &Plan, steps: &Steps) -> Held {
    for (index, step) in steps.steps.iter().enumerate() {
        let Some((start, _)) = plan.span(index) else { continue };
        for need in &step.after {
            let Some(before) = steps.steps.iter().position(|other| other.key == need.key) else {
                continue;
            };
            let Some((_, finish)) = plan.span(before) else { continue };
            prop_assert!(
                start >= finish || plan.slots.iter().any(|slot| slot.done),
                "{} before {}",
                step.key,
                need.key
            );
        }
    }
    for (at, slot) in plan.slots.iter().enumerate() {
        prop_assert!(slot.finish >= slot.start && slot.finish <= plan.finish, "{slot:?}");
        prop_assert!(!slot.people.is_empty() || slot.finish == slot.start, "{slot:?}");
        let day = 1440.0;
        let (from, to) = (slot.start.to_minutes() % day, slot.finish.to_minutes() % day);
        if slot.finish > slot.start {
            let to = if to == 0.0 { day } else { to };
            prop_assert!(
                from >= plan.hours.0.to_minutes() - 0.5 && to <= plan.hours.1.to_minutes() + 0.5,
                "{slot:?} {:?}",
                plan.hours
            );
        }
        for other in &plan.slots[at + 1..] {
            let both = slot.start < other.finish && other.start < slot.finish;
            let one = slot.people.iter().any(|person| other.people.contains(person));
            prop_assert!(!(both && one), "{slot:?} {other:?}");
        }
    }
    let people = *build.crew.people;
    for slot in &plan.slots {
        prop_assert!(slot.people.iter().all(|person| *person <= people), "{slot:?}");
    }
    prop_assert!(
        plan.drive.0 >= plan.finish
            || plan.drive.1.is_empty()
            || build.vehicle.is_none()
            || plan.drive.0.to_minutes() >= 0.0
    );
    Ok(())
}
