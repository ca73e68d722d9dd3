//! The circuits as a network: what feeds what, and the currents that flow on.
//!
//! Runs meet at nodes with names of their own: a bus bar, a junction box. A run that states no current
//! carries the sum of what its far end feeds, or what came in at its start; the run between battery and
//! bus bar the greater of what is drawn and what is charged.

use super::rules;
use crate::build::{Build, Circuit, Terminal};
use crate::source::Finding;
use crate::units::{Current, Power};

/// What the charger makes of the power it takes; common practice.
const EFFICIENCY: f64 = 0.9;

/// What feeds a run in the end, the first that applies to all runs into a node.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Root {
    Battery,
    Supply,
    Controller,
    Panels,
    /// A node that nothing leads to.
    Nothing,
}

/// The runs of a build with what each is fed by.
pub(super) struct Network<'b> {
    build: &'b Build,
    /// What feeds each run, and over how many others; none in a circle.
    roots: Vec<Option<(Root, usize)>>,
    /// The run that feeds each.
    feeders: Vec<Option<usize>>,
    /// Runs that start where each one ends.
    fed: Vec<Vec<usize>>,
    /// Runs, each after those that lead to its start.
    pub order: Vec<usize>,
    currents: Vec<Option<Current>>,
}

impl<'b> Network<'b> {
    pub fn of(build: &'b Build) -> Self {
        let runs = &build.circuits;
        let count = runs.len();
        let meets = |from: &Circuit, to: &Circuit| {
            matches!(*from.to, Terminal::Load(_)) && *to.from == *from.to
        };
        let fed: Vec<Vec<usize>> = runs
            .iter()
            .map(|run| (0..count).filter(|other| meets(run, &runs[*other])).collect())
            .collect();
        let mut feeds_it: Vec<Vec<usize>> = vec![Vec::new(); count];
        for (index, others) in fed.iter().enumerate() {
            for other in others {
                feeds_it[*other].push(index);
            }
        }
        let order = sorted(&fed, &feeds_it);
        let mut roots: Vec<Option<(Root, usize)>> = vec![None; count];
        let mut feeders = vec![None; count];
        for index in &order {
            roots[*index] = match &*runs[*index].from {
                Terminal::Battery => Some((Root::Battery, 0)),
                Terminal::Supply => Some((Root::Supply, 0)),
                Terminal::Controller => Some((Root::Controller, 0)),
                Terminal::Panels => Some((Root::Panels, 0)),
                Terminal::Load(_) => {
                    let best = feeds_it[*index]
                        .iter()
                        .filter_map(|before| Some((roots[*before]?, *before)))
                        .min();
                    feeders[*index] = best.map(|(_, before)| before);
                    let fed_over = |((root, hops), _): ((Root, usize), usize)| (root, hops + 1);
                    Some(best.map_or((Root::Nothing, 0), fed_over))
                }
            };
        }
        let mut network = Self { build, roots, feeders, fed, order, currents: vec![None; count] };
        network.currents = network.all_currents(&feeds_it);
        network.after_mains();
        network
    }

    /// The run that ends where this one starts and feeds it.
    pub fn feeder(&self, run: usize) -> Option<usize> {
        self.feeders[run]
    }

    /// Runs that start where this one ends.
    pub fn fed(&self, run: usize) -> &[usize] {
        &self.fed[run]
    }

    /// What feeds a run in the end.
    pub fn root(&self, run: usize) -> Root {
        self.roots[run].map_or(Root::Nothing, |(root, _)| root)
    }

    /// Current in use; none where nothing tells it, and for what comes from the panels.
    pub fn current(&self, run: usize) -> Option<Current> {
        self.currents[run]
    }

    /// The run by which the battery reaches the far end of a charger's run: a fault there is fed
    /// from it.
    pub fn main(&self, run: usize) -> Option<usize> {
        let circuit = &self.build.circuits[run];
        if self.root(run) != Root::Controller || !matches!(*circuit.to, Terminal::Load(_)) {
            return None;
        }
        let to_it = |other: &usize| {
            *self.build.circuits[*other].to == *circuit.to && self.root(*other) == Root::Battery
        };
        self.order.iter().copied().filter(to_it).min_by_key(|other| (self.roots[*other], *other))
    }

    /// Runs of chargers come after the run that ties their far end to the battery.
    fn after_mains(&mut self) {
        let (mut first, mut last) = (Vec::new(), Vec::new());
        for run in &self.order {
            let charger = self.root(*run) == Root::Controller;
            if charger { last.push(*run) } else { first.push(*run) }
        }
        first.append(&mut last);
        self.order = first;
    }

    fn all_currents(&self, feeds_it: &[Vec<usize>]) -> Vec<Option<Current>> {
        let runs = &self.build.circuits;
        let controller = self.build.controller.as_ref();
        let mut currents: Vec<Option<Current>> = runs
            .iter()
            .map(|run| match (&run.current, &*run.from) {
                (Some(stated), _) => Some(**stated),
                (None, Terminal::Controller) => controller.map(|it| *it.max_current),
                (None, Terminal::Supply) => supply_current(self.build),
                _ => None,
            })
            .collect();
        // What comes in at a node of chargers goes on to battery or controller.
        let passes_on = |run: &Circuit| {
            matches!(*run.from, Terminal::Load(_))
                && matches!(*run.to, Terminal::Controller | Terminal::Battery)
        };
        for index in &self.order {
            if currents[*index].is_none() && passes_on(&runs[*index]) {
                let brought: Option<Current> =
                    feeds_it[*index].iter().map(|before| currents[*before]).sum();
                currents[*index] = brought.filter(|all| *all > Current::ZERO);
            }
        }
        // What is drawn at the far end, from the last run back.
        for index in self.order.iter().rev() {
            let drawn = self.drawn(*index, &currents);
            if currents[*index].is_none() {
                let charged: Current = match *runs[*index].from {
                    Terminal::Battery | Terminal::Load(_) => runs
                        .iter()
                        .enumerate()
                        .filter(|(other, run)| {
                            *run.to == *runs[*index].to
                                && matches!(*run.to, Terminal::Load(_))
                                && self.root(*other) == Root::Controller
                                && self.root(*index) == Root::Battery
                        })
                        .filter_map(|(other, _)| currents[other])
                        .sum(),
                    _ => Current::ZERO,
                };
                currents[*index] = drawn.map(|drawn| drawn.max(charged));
            }
        }
        currents
    }

    /// What starts at the far end of a run and is no way back to battery or controller.
    fn drawn(&self, run: usize, currents: &[Option<Current>]) -> Option<Current> {
        let loads = self.fed[run].iter().filter(|other| {
            !matches!(*self.build.circuits[**other].to, Terminal::Controller | Terminal::Battery)
        });
        let mut all = None;
        for other in loads {
            all = Some(all.unwrap_or(Current::ZERO) + currents[*other]?);
        }
        all
    }

    /// Tells of runs that feed each other in a circle; these are in no order.
    pub fn tell_circle(&self, findings: &mut Vec<Finding>) {
        let Some(first) = (0..self.fed.len()).find(|run| self.reaches_itself(*run)) else { return };
        let circuit = &self.build.circuits[first];
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

    fn reaches_itself(&self, run: usize) -> bool {
        let mut seen = vec![false; self.fed.len()];
        let mut next = vec![run];
        while let Some(at) = next.pop() {
            for other in &self.fed[at] {
                if *other == run {
                    return true;
                }
                if !seen[*other] {
                    seen[*other] = true;
                    next.push(*other);
                }
            }
        }
        false
    }

    /// A run that states less than what it feeds takes.
    pub fn balance(&self, findings: &mut Vec<Finding>) {
        for (index, circuit) in self.build.circuits.iter().enumerate() {
            let Some(stated) = &circuit.current else { continue };
            // Where the battery feeds a node too, what charges it need not bring all.
            if self.main(index).is_some() {
                continue;
            }
            let Some(taken) = self.drawn(index, &self.currents) else { continue };
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
}

/// Runs, each after all that lead to its start; those in a circle or behind one are left out.
fn sorted(fed: &[Vec<usize>], feeds_it: &[Vec<usize>]) -> Vec<usize> {
    let mut waits: Vec<usize> = feeds_it.iter().map(Vec::len).collect();
    let mut order: Vec<usize> = (0..fed.len()).filter(|run| waits[*run] == 0).collect();
    let mut next = 0;
    while let Some(run) = order.get(next).copied() {
        next += 1;
        for other in &fed[run] {
            waits[*other] -= 1;
            if waits[*other] == 0 {
                order.push(*other);
            }
        }
    }
    order
}

/// Current that a charger takes from the vehicle's battery: stated, or what its greatest output asks.
pub fn supply_current(build: &Build) -> Option<Current> {
    let supply = build.supply.as_ref()?;
    if let Some(stated) = &supply.current {
        return Some(**stated);
    }
    let controller = build.controller.as_ref()?;
    let output: Power = *controller.charge_voltage * *controller.max_current;
    Some(Current::a(output.to_w() / EFFICIENCY / supply.voltage.to_v()))
}
