//! The circuits as a tree: what feeds what, and the currents that flow on.
//!
//! A run may start at the end of another, at a bus bar say: what flows in flows on, so a run that
//! states no current carries the sum of what it feeds.

use super::rules;
use crate::build::{Build, Circuit, Terminal};
use crate::source::Finding;
use crate::units::Current;

/// Index of the run that ends where this one starts; none at panels, controller, battery, or a node
/// that nothing leads to.
pub fn feeder(build: &Build, circuit: &Circuit) -> Option<usize> {
    matches!(*circuit.from, Terminal::Load(_))
        .then(|| build.circuits.iter().position(|other| *other.to == *circuit.from))
        .flatten()
}

/// Runs that start where this one ends.
pub fn fed<'b>(build: &'b Build, circuit: &'b Circuit) -> impl Iterator<Item = &'b Circuit> {
    let node = matches!(*circuit.to, Terminal::Load(_));
    build.circuits.iter().filter(move |other| node && *other.from == *circuit.to)
}

/// Current in use: stated, the controller's for a run from it, or the sum of what it feeds. None
/// where nothing tells it, and for runs from the panels.
pub fn current(build: &Build, circuit: &Circuit) -> Option<Current> {
    flowing(build, circuit, build.circuits.len())
}

fn flowing(build: &Build, circuit: &Circuit, deeper: usize) -> Option<Current> {
    if let Some(stated) = &circuit.current {
        return Some(**stated);
    }
    if *circuit.from == Terminal::Controller {
        return build.controller.as_ref().map(|controller| *controller.max_current);
    }
    let deeper = deeper.checked_sub(1)?;
    let mut all = None;
    for run in fed(build, circuit) {
        all = Some(all.unwrap_or(Current::ZERO) + flowing(build, run, deeper)?);
    }
    all
}

/// Indices of the runs, each after the one that feeds it; runs in a circle are told and left out.
pub(super) fn in_order(build: &Build, findings: &mut Vec<Finding>) -> Vec<usize> {
    let mut order: Vec<(usize, usize)> = Vec::new();
    let mut told = false;
    for (index, circuit) in build.circuits.iter().enumerate() {
        let mut depth = 0;
        let mut at = circuit;
        while let Some(before) = feeder(build, at) {
            at = &build.circuits[before];
            depth += 1;
            if depth > build.circuits.len() {
                break;
            }
        }
        if depth <= build.circuits.len() {
            order.push((depth, index));
        } else if !told {
            told = true;
            findings.push(
                Finding::new(
                    &rules::CIRCLE,
                    format!("“{}” is fed by itself, over other circuits", *circuit.name),
                )
                .at(circuit.from.span, "this end leads back to it")
                .means("no battery or panel feeds this circle: nothing would flow")
                .help("let one of its circuits start at the battery"),
            );
        }
    }
    order.sort_unstable();
    order.into_iter().map(|(_, index)| index).collect()
}

/// A run that states less than what it feeds takes.
pub(super) fn balance(build: &Build, findings: &mut Vec<Finding>) {
    for circuit in &build.circuits {
        let Some(stated) = &circuit.current else { continue };
        let taken: Current = fed(build, circuit).filter_map(|run| current(build, run)).sum();
        if taken > **stated {
            findings.push(
                Finding::new(
                    &rules::UNBALANCED,
                    format!(
                        "“{}” brings {:.1} A; what it feeds takes {:.1} A",
                        *circuit.name,
                        stated.to_a(),
                        taken.to_a()
                    ),
                )
                .at(stated.span, "current of this run")
                .means("with everything on, its fuse blows")
                .help(format!(
                    "state `current = \"{:.0} A\"`, or leave it out",
                    taken.to_a().ceil()
                ))
                .help("or keep it so, if never all of them run at once"),
            );
        }
    }
}
