//! The ordered steps of the work, with what they take, what ends them and what can hurt.
//!
//! Takes a build with its work and the ledger so far; gives the steps that this build has, filled
//! in from the templates and merged with the reader's own, and the safety messages that they raise.
//! Waits and torques that other chapters work out are read from the ledger by name (`cure.F1.load`
//! in hours, `fasteners.torque.M6` in N·m, `electrics.voc.cold` in V, `loads.tension.F1` in N); a
//! limit whose figure is not there stays open and prints as a dash.
//!
//! A step's text comes from `templates/steps`, its numbers from [`facts`], its order from the
//! templates; [`order`] plays the steps through and tells what would not be there when it is needed.

pub mod assign;
mod compose;
pub mod facts;
mod fill;
mod line_up;
pub mod order;
mod pause;
pub mod recorded;
pub mod rules;
pub mod safety;
mod step;
pub mod template;
pub mod words;

pub use compose::whole as printed_wait;
pub use fill::Missing;
pub use safety::{Message, Signal};
pub use step::{
    Action, Beside, Cure, CureState, Done, Group, Hold, Line, Mode, Need, Ready, Step, View, Wait,
};

use crate::build::Build;
use crate::compute::sizes::{Sizes, sizes};
use crate::derive::Work;
use crate::source::{Finding, Ledger};
use crate::tables::Tables;
use facts::{Facts, Sources};
use template::Templates;

/// The steps of a build.
#[derive(Debug, Clone, PartialEq)]
pub struct Steps {
    /// Steps in order.
    pub steps: Vec<Step>,
    /// Safety messages, the gravest first.
    pub messages: Vec<Message>,
    /// Sizes to confirm before anything is cut.
    pub sizes: Sizes,
    /// What the steps were filled in from.
    pub facts: Facts,
    /// Placeholders that nothing filled: a fault of the templates, held empty by tests.
    pub missing: Vec<Missing>,
}

impl Steps {
    /// The step with this key.
    pub fn step(&self, key: &str) -> Option<&Step> {
        self.steps.iter().find(|step| step.key == key)
    }

    /// The message with this key.
    pub fn message(&self, key: &str) -> Option<&Message> {
        self.messages.iter().find(|message| message.key == key)
    }
}

/// Works out the steps. Figures of times and limits are entered in the ledger.
pub fn steps(
    build: &Build,
    work: &Work,
    tables: &Tables,
    templates: &Templates,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Steps {
    let sizes = sizes(build, work, tables, ledger);
    let mut facts = Facts::gather(&Sources { build, work, tables, sizes: &sizes }, ledger);
    let line = line_up::line_up(build, templates, &facts, findings);
    for (index, place) in line.iter().enumerate() {
        facts.set(format!("step.{}", place.key), (index + 1).to_string());
    }
    let mut missing = Vec::new();
    let mut steps: Vec<Step> = Vec::with_capacity(line.len());
    let mut action = 0;
    for (index, place) in line.iter().enumerate() {
        let mut composing = compose::Composing {
            facts: &facts,
            tables,
            rates: &build.rates,
            ledger,
            missing: &mut missing,
            line: &line,
            templates,
        };
        let mut step = composing.step(place, index as u32 + 1);
        pause::pauses(&mut step.lines);
        for line in &mut step.lines {
            if let Line::Action(done) = line {
                action += 1;
                done.number = action;
            }
        }
        steps.push(step);
    }
    judge(build, &steps, findings);
    recorded::judge(build, &steps, findings);
    let messages = safety::messages(&steps, &facts, &mut missing);
    missing.sort();
    missing.dedup();
    Steps { steps, messages, sizes, facts, missing }
}

/// Bounds of a limit of workmanship by its name, in its own unit; zero where one is open.
pub fn workmanship(name: &str) -> Option<(f64, f64)> {
    let limit = Templates::builtin().limits.iter().find(|limit| limit.name == name)?;
    Some((limit.low.unwrap_or(0.0), limit.high.unwrap_or(0.0)))
}

/// What the reader's own steps and crew ask for.
fn judge(build: &Build, steps: &[Step], findings: &mut Vec<Finding>) {
    let crew = *build.crew.people;
    let short: Vec<&Step> = steps.iter().filter(|step| step.people > crew).collect();
    if let Some(worst) = short.iter().max_by_key(|step| step.people) {
        findings.push(rules::t103_crew_too_small::raise(
            worst,
            &short,
            crew,
            build.crew.people.span,
        ));
    }
}
