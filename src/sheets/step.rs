//! Step sheets: one step a sheet, fit to be handed over alone.
//!
//! From the top: what to have ready beside a drawing of this very step; then hold lines, safety
//! messages and actions in their order; last what comes next.

mod bench;
mod inside;
mod list;
mod roof;
mod section;

use crate::build::Build;
use crate::compute::steps::{Group, Step, Steps, View};
use crate::derive::Work;
use crate::page::block::{Block, Column, Dotted, Figure, Heading};
use crate::page::scene::Scene;
use crate::page::text::Text;
use crate::page::{JobStrip, Sheet, StripMark, Tab};
use crate::units::display;

/// What step, safety and record sheets are made from.
#[derive(Clone, Copy)]
pub struct StepBasis<'a> {
    /// What was written.
    pub build: &'a Build,
    /// What is to be made.
    pub work: &'a Work,
    /// The steps.
    pub steps: &'a Steps,
}

/// Height of a step's drawing, mm; more would push the actions over the page.
const DRAWING: f64 = 98.0;

/// Name of a step's sheet to link to.
pub fn anchor(step: &Step) -> String {
    format!("step-{}", step.key)
}

/// One sheet a step.
pub fn step(basis: &StepBasis<'_>, tab: &Tab) -> Vec<Sheet> {
    let steps = &basis.steps.steps;
    steps
        .iter()
        .enumerate()
        .map(|(index, step)| {
            let mut blocks = vec![top(basis, step)];
            blocks.extend(list::list(basis, step));
            blocks.push(Block::Strong(last_line(step, steps.get(index + 1))));
            Sheet {
                anchor: anchor(step),
                title: step.title.clone(),
                purpose: step.purpose.clone(),
                tab: Some(tab.clone()),
                steps: Some(strip(steps, index)),
                blocks,
                single_sided: false,
            }
        })
        .collect()
}

/// Steps in the job strip; a wait that ends a step is a gap behind it.
fn strip(steps: &[Step], here: usize) -> JobStrip {
    let mut marks = Vec::new();
    for step in steps {
        marks.push(StripMark::Step);
        if step.waits().next().is_some() {
            marks.push(StripMark::Wait);
        }
    }
    JobStrip { marks, here: Some(here) }
}

/// Have ready at the left, drawing at the right.
fn top(basis: &StepBasis<'_>, step: &Step) -> Block {
    let mut ready =
        vec![Block::Heading(Heading::new("Have ready")), Block::Dotted(have_ready(step))];
    if !step.see.is_empty() {
        ready.push(Block::Paragraph(format!("With it: {} sheets.", step.see.join(", ")).into()));
    }
    match drawing(basis, step) {
        Some(scene) => Block::Columns(vec![
            Column::new(2, ready),
            Column::new(4, vec![Block::Figure(Figure::new(scene, DRAWING))]),
        ]),
        None => Block::Columns(vec![Column::new(4, ready)]),
    }
}

fn have_ready(step: &Step) -> Dotted {
    let mut first: Vec<(Text, Text)> = vec![
        ("people".into(), step.people.to_string().into()),
        ("time for this sheet".into(), display::duration(step.time).into()),
    ];
    if !step.weather.is_empty() {
        first.push(("weather".into(), step.weather.as_str().into()));
    }
    let mut groups = vec![first];
    for group in [Group::Part, Group::Stuff, Group::Tool, Group::Protective, Group::Other] {
        let rows: Vec<(Text, Text)> = step
            .ready
            .iter()
            .filter(|ready| ready.group == group)
            .map(|ready| (ready.what.as_str().into(), ready.amount.as_str().into()))
            .collect();
        if !rows.is_empty() {
            groups.push(rows);
        }
    }
    Dotted { groups }
}

/// The drawing of a step; none where there is nothing to see.
fn drawing(basis: &StepBasis<'_>, step: &Step) -> Option<Scene> {
    match step.view {
        View::Roof => roof::plan(basis, step),
        View::Bars => bench::bars(basis),
        View::DrilledParts => bench::drilled_parts(basis, step),
        View::Frame => bench::frame(basis),
        View::MountPlaces => bench::mount_places(basis),
        View::Panels => bench::panels(basis),
        View::Foot => section::foot(basis),
        View::Bond => section::bond(basis),
        View::Hinge => section::hinge(basis),
        View::Entry => section::entry(basis),
        View::Mounts => roof::across(basis, step),
        View::Wiring => inside::wiring(basis),
        View::Battery => inside::battery(basis),
        View::Nothing => None,
    }
}

fn last_line(step: &Step, next: Option<&Step>) -> Text {
    let Some(next) = next else {
        return Text::bold("List complete. Next: the record sheets.");
    };
    let mut text = Text::bold("List complete. Next: sheet ")
        .and_page(anchor(next))
        .and_bold(format!(", {}", next.title));
    let waited = step.actions().find(|action| action.wait.is_some());
    let waits = |need: &crate::compute::steps::Need| need.key == step.key && !need.cures.is_empty();
    if let Some(action) = waited.filter(|_| next.after.iter().any(waits)) {
        text = text.and_bold(format!(", after {}", action.number));
    }
    text.and_bold(".")
}
