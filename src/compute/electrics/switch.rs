//! Switches in the runs of the battery: the main switch, or one of a single load.

use super::devices::next_switch;
use super::{Run, rules};
use crate::build::{Bond, Build, Switched, Terminal};
use crate::source::{Figure, Finding, Ledger, Seen, Severity};
use crate::units::{Current, Voltage};

/// A switch in a run.
#[derive(Debug, Clone)]
pub struct Switch {
    /// Mark on the sheets.
    pub mark: String,
    /// Poles opened together.
    pub poles: u32,
    /// What it must carry and break: the fuse of its run, or what that is sized for.
    pub needs: Current,
    /// Its rating.
    pub rating: Current,
    /// Direct voltage that it must break.
    pub voltage: Voltage,
    /// Whether it parts a battery from all that hangs on a bus bar.
    pub main: bool,
}

/// Puts the switches into the runs that ask for one.
pub(super) fn switches(
    build: &Build,
    runs: &mut [Run],
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) {
    // S1 parts the panels.
    let mut number = 1;
    for (index, circuit) in build.circuits.iter().enumerate() {
        let Some(switched) = &circuit.switched else { continue };
        let mark = format!("W{}", index + 1);
        let Some(run) = runs.iter_mut().find(|run| run.mark == mark) else { continue };
        if *circuit.from == Terminal::Panels {
            findings.push(
                Finding::new(
                    &rules::ISOLATOR_TOO_SMALL,
                    format!("the switch of “{}” is planned as the isolator S1", *circuit.name),
                )
                .severity(Severity::Note)
                .at(switched.span, "a switch in the run of the panels")
                .means("panels need two poles and their cold voltage; S1 has both")
                .help("leave `switched` out here; state what is on hand in [isolator]"),
            );
            continue;
        }
        number += 1;
        let needs = run.fuse.as_ref().map_or(run.design, |fuse| fuse.rating);
        let voltage = build
            .battery
            .as_ref()
            .map_or(run.voltage, |own| own.chemistry.full_in_use * f64::from(own.bank_cells()));
        let stated = circuit.switch_rating.as_ref();
        let Some(rating) = stated.map(|stated| **stated).or_else(|| next_switch(needs)) else {
            findings.push(
                Finding::new(
                    &rules::NO_ISOLATOR,
                    format!(
                        "no switch of the list carries the {:.0} A of “{}”",
                        needs.to_a(),
                        *circuit.name
                    ),
                )
                .at(switched.span, "a switch is asked for here")
                .means("a switch that carries less gets hot and its contacts weld")
                .help("state the rating of the one on hand: `switch-rating`")
                .help("or split the run over two"),
            );
            continue;
        };
        if let Some(small) = stated.filter(|stated| ***stated < needs) {
            findings.push(
                Finding::new(
                    &rules::ISOLATOR_TOO_SMALL,
                    format!(
                        "the switch of {:.0} A in “{}” is less than its fuse of {:.0} A",
                        small.to_a(),
                        *circuit.name,
                        needs.to_a()
                    ),
                )
                .at(small.span, "of the switch on hand")
                .means("the fuse lets through what welds the contacts of the switch")
                .help(format!("use one for {:.0} A or more", needs.to_a()))
                .help("or leave `switch-rating` out: it is then chosen"),
            );
        }
        let floats = build.earth.as_ref().is_some_and(|earth| *earth.bond == Bond::Nothing);
        if floats && **switched == Switched::Plus {
            findings.push(
                Finding::new(
                    &rules::ISOLATOR_TOO_SMALL,
                    format!("the switch of “{}” opens the plus alone", *circuit.name),
                )
                .severity(Severity::Caution)
                .at(switched.span, "one pole")
                .means("nothing is joined to the body here: the minus may be as live as the plus")
                .help("open both: `switched = \"both\"`"),
            );
        }
        let poles = match **switched {
            Switched::Plus => 1,
            Switched::Both => 2,
        };
        let own = format!("S{number}");
        ledger.push(
            Figure::new(
                format!("electrics.switch.{own}"),
                format!("rating of the switch {own} in {mark}"),
                rating.to_a(),
                "A",
            )
            .formula("next of IEC 60059 from the fuse of its run")
            .input("fuse", format!("{:.0} A", needs.to_a()))
            .source("IEC 60947-3, IEC 60059: a switch outlasts its fuse", Seen::Memory)
            .decides(),
        );
        let feeds_bar = build.circuits.iter().any(|other| *other.from == *circuit.to);
        let main = *circuit.from == Terminal::Battery && feeds_bar;
        run.switch = Some(Switch { mark: own, poles, needs, rating, voltage, main });
    }
}
