//! The circuit: panels, entry, isolator, controller, battery from left to right; what hangs on battery
//! and bus bars as rungs between their plus and minus bars.

mod bank;
mod chain;
mod ladder;
mod symbols;

use crate::build::{Circuit, Terminal};
use crate::compute::electrics::{Electrics, Run};
use crate::page::scene::Scene;
use crate::sheets::Basis;

/// A run with what the build file says of it.
#[derive(Clone, Copy)]
struct Joined<'a> {
    circuit: &'a Circuit,
    run: &'a Run,
}

/// The drawings, each with its height on paper in mm.
pub fn circuit(basis: &Basis, electrics: &Electrics) -> Vec<(Scene, f64)> {
    let joined: Vec<Joined<'_>> = basis
        .build
        .circuits
        .iter()
        .enumerate()
        .filter_map(|(index, circuit)| {
            let mark = format!("W{}", index + 1);
            let run = electrics.runs.iter().find(|run| run.mark == mark)?;
            Some(Joined { circuit, run })
        })
        .collect();
    let chain = chain::Chain::of(&joined);
    let rest: Vec<Joined<'_>> =
        joined.iter().copied().filter(|one| !chain.has(&one.run.mark)).collect();
    let mut drawings: Vec<(Scene, f64)> = Vec::new();
    drawings.extend(chain.draw(basis, electrics));
    drawings.extend(electrics.bank.iter().flat_map(bank::draw));
    drawings.extend(ladder::draw(basis, electrics, &rest, chain.ends_at_battery()));
    drawings
}

/// Ends of a run as terminals: plus and minus at its start, then at its end.
pub fn terminals(basis: &Basis, circuit: &Circuit) -> [[String; 2]; 2] {
    let supplied = *circuit.from == Terminal::Supply;
    [poles_of(basis, &circuit.from, false, supplied), poles_of(basis, &circuit.to, true, supplied)]
}

fn poles_of(basis: &Basis, terminal: &Terminal, incoming: bool, supplied: bool) -> [String; 2] {
    let poles = ["+", "\u{2212}"];
    match terminal {
        Terminal::Panels => poles.map(|pole| format!("P{pole}")),
        Terminal::Controller => {
            let mark = basis.build.controller.as_ref().map_or("T", |c| c.mark.value.as_str());
            let numbers = match (incoming, supplied) {
                (true, false) => ["1", "2"],
                (true, true) => ["5", "6"],
                (false, _) => ["3", "4"],
            };
            numbers.map(|number| format!("{mark}:{number}"))
        }
        Terminal::Battery => {
            let marks = basis.build.battery.as_ref();
            let marks = marks.map_or_else(Default::default, |b| [b.at_plus(), b.at_minus()]);
            [0, 1].map(|pole| format!("{}:{}", marks[pole], poles[pole]))
        }
        Terminal::Supply => poles.map(|pole| format!("V:{pole}")),
        Terminal::Load(name) => poles.map(|pole| format!("{name} {pole}")),
    }
}
