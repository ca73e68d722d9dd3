//! The way of the current from the panels to the battery, and what is lost on it.

use super::Run;
use super::nodes::{Network, Root};
use crate::build::{Build, Terminal};
use crate::source::{Figure, Ledger, Seen};
use crate::units::{Current, Ratio, Voltage};

/// A run on the way from panels to battery.
#[derive(Debug, Clone)]
pub struct ChainRun {
    /// Its mark.
    pub mark: String,
    /// Current that flows from the panels' side while they give most.
    pub current: Current,
    /// Voltage lost on both conductors.
    pub drop: Voltage,
    /// The same as a share.
    pub share: Ratio,
    /// The shares so far, this one included.
    pub sum: Ratio,
}

/// The runs on the way, in order; drops add along it.
pub(super) fn chain(
    build: &Build,
    network: &Network<'_>,
    runs: &[Run],
    ledger: &mut Ledger,
) -> Vec<ChainRun> {
    let mut way: Vec<(usize, Option<Current>)> = Vec::new();
    let circuits = &build.circuits;
    let mut at = circuits.iter().position(|circuit| *circuit.from == Terminal::Panels);
    while let Some(run) = at.filter(|run| way.iter().all(|(known, _)| known != run)) {
        way.push((run, None));
        at = network.fed(run).iter().copied().find(|next| network.root(*next) == Root::Panels);
    }
    // From the controller the battery is reached straight, or over bus bars.
    let to_battery = |run: usize| *circuits[run].to == Terminal::Battery;
    let charging = (0..circuits.len())
        .filter(|run| *circuits[*run].from == Terminal::Controller)
        .min_by_key(|run| (!to_battery(*run), network.main(*run).is_none(), *run));
    if let Some(run) = charging {
        let current = network.current(run);
        way.push((run, current));
        let mut back = network.main(run);
        while let Some(main) = back {
            way.push((main, current));
            back = network.feeder(main);
        }
        if !to_battery(run) && network.main(run).is_none() {
            let on = network.fed(run).iter().copied().find(|next| to_battery(*next));
            way.extend(on.map(|on| (on, current)));
        }
    }
    let mut list: Vec<ChainRun> = Vec::new();
    for (index, current) in way {
        let mark = format!("W{}", index + 1);
        let Some(run) = runs.iter().find(|run| run.mark == mark) else { continue };
        let Some(conductor) = &run.conductor else { continue };
        let part = current.map_or(1.0, |current| current / run.working);
        let share = Ratio::of_one(conductor.drop_share.to_fraction() * part);
        let before = list.last().map_or(Ratio::ZERO, |last| last.sum);
        list.push(ChainRun {
            mark,
            current: current.unwrap_or(run.working),
            drop: conductor.drop * part,
            share,
            sum: before + share,
        });
    }
    if let Some(last) = list.last() {
        let marks: Vec<&str> = list.iter().map(|run| run.mark.as_str()).collect();
        ledger.push(
            Figure::new(
                "electrics.drop.chain",
                "voltage drop from the panels to the battery",
                last.sum.to_percent(),
                "%",
            )
            .formula("Σ ΔU / U")
            .input("over", marks.join(", "))
            .source("drops add along a chain", Seen::Computed),
        );
    }
    list
}
