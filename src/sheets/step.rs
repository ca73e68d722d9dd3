//! Step sheets: one step a sheet, fit to be handed over alone.
//!
//! From the top: what to have ready beside a drawing of this very step; then hold lines, safety
//! messages and actions in their order; last what comes next.

mod bench;
mod inside;
mod list;
mod roof;

use super::bond::{bead_word, day_table};
use super::photos;
use super::scenes::{
    FootShows, Plan, PlanView, entry_section, fixture_places, fixture_view, foot_apart,
    foot_section, hinge_section, latch_apart, prop_apart, roof_plan, stack_apart,
};
use crate::build::Build;
use crate::compute::cure::JointCure;
use crate::compute::photos::Photos;
use crate::compute::steps::{Group, Step, Steps, View};
use crate::derive::{MountPlace, MountShape, Work};
use crate::page::block::{Block, Column, Dotted, Figure, Flow, Heading};
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
    /// Waits of the joints; their tables stand on the sheets of the steps that begin them.
    pub cures: &'a [JointCure],
    /// Photographs.
    pub photos: &'a Photos,
    /// What a step calls other sheets, and the anchor of the first of them.
    pub others: &'a [(&'static str, String)],
}

/// Greatest height of a drawing under the list, mm.
const UNDER: f64 = 150.0;
/// Grid columns of a list beside its drawing, and the drawing's greatest height, mm.
const BESIDE: [(usize, f64); 2] = [(2, 110.0), (3, 95.0)];

/// Name of a step's sheet to link to.
pub fn anchor(step: &Step) -> String {
    format!("step-{}", step.key)
}

/// One sheet a step.
pub fn step(basis: &StepBasis<'_>, tab: &Tab) -> Vec<Sheet> {
    let steps = &basis.steps.steps;
    let all = steps.iter().enumerate();
    all.map(|(index, step)| one(basis, index, last_line(step, steps.get(index + 1)), tab)).collect()
}

/// The sheet of the step at this place, with its last line.
pub(super) fn one(basis: &StepBasis<'_>, index: usize, last: Text, tab: &Tab) -> Sheet {
    let steps = &basis.steps.steps;
    let step = &steps[index];
    let other_air = other_air(basis, step);
    let mut ways = top(basis, step);
    if !other_air.is_empty() {
        // With the table first, without it where it would take a page of its own.
        ways = [ways.clone(), ways].concat();
    }
    let table = (0..ways.len())
        .map(|way| if way < ways.len() / 2 { other_air.clone() } else { Vec::new() });
    let table: Vec<Vec<Block>> = table.collect();
    let mut blocks = vec![Block::Choice(ways)];
    blocks.extend(list::list(basis, step));
    if !other_air.is_empty() {
        blocks.push(Block::Choice(table));
    }
    let own = step.span.and_then(|span| basis.build.steps.iter().find(|own| own.span == span));
    blocks.extend(own.map_or_else(Vec::new, |own| photos::blocks(&own.photos, basis.photos)));
    blocks.push(Block::Strong(last));
    Sheet {
        anchor: anchor(step),
        title: step.title.clone(),
        purpose: step.purpose.clone(),
        tab: Some(tab.clone()),
        steps: Some(strip(steps, index)),
        blocks,
        single_sided: false,
    }
}

/// The roof from above with what a step is about; none where its own sheet shows that already, or
/// where it is not done on the vehicle.
pub(super) fn whereabouts(basis: &StepBasis<'_>, step: &Step) -> Option<Scene> {
    let shown = matches!(step.view, View::Roof | View::FixturePlaces);
    let on_vehicle = step.places.iter().any(|place| place != "bench");
    if shown || !on_vehicle || step.concerns.is_empty() || basis.build.roof.is_none() {
        return None;
    }
    let about: Vec<&str> = step.concerns.iter().map(String::as_str).collect();
    let view = PlanView { about: &about, small: true, ..PlanView::default() };
    roof_plan(&Plan { build: basis.build, work: basis.work }, view)
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

/// How long the waits that this step begins take in other air; empty where it begins none.
fn other_air(basis: &StepBasis<'_>, step: &Step) -> Vec<Block> {
    let cure = step
        .waits()
        .flat_map(|wait| &wait.cures)
        .find_map(|wait| basis.cures.iter().find(|cure| cure.mark == wait.mark));
    let Some(cure) = cure.filter(|cure| !cure.table.rows.is_empty()) else { return Vec::new() };
    vec![
        Block::Heading(Heading::new("Waits in other air").aside("steady temperature and humidity")),
        Block::Table(day_table(&cure.table, bead_word(cure))),
    ]
}

/// The other sheets that a step is worked from, each leading there.
fn with(basis: &StepBasis<'_>, step: &Step) -> Text {
    let mut told = Text::from("Sheets with it: ");
    for (index, word) in step.see.iter().enumerate() {
        if index > 0 {
            told = told.and(", ");
        }
        told = match basis.others.iter().find(|(known, _)| known == word) {
            Some((_, anchor)) => told.and_link(word.as_str(), anchor.as_str()),
            None => told.and(word.as_str()),
        };
    }
    told.and(".")
}

/// Ways to set what to have ready and the drawing: under it over the whole width, or beside it.
fn top(basis: &StepBasis<'_>, step: &Step) -> Vec<Vec<Block>> {
    let with = (!step.see.is_empty()).then(|| Block::Paragraph(with(basis, step)));
    let groups = have_ready(step);
    let heading = || Block::Heading(Heading::new("Have ready"));
    let (Some(wide), Some(narrow)) = (drawing(basis, step, false), drawing(basis, step, true))
    else {
        return vec![wide_list(heading(), groups, with, 2)];
    };
    let figure = |scene: &Scene, height: f64| Block::Figure(Figure::new(scene.clone(), height));
    let under = |columns: usize| {
        let mut blocks = wide_list(heading(), groups.clone(), with.clone(), columns);
        blocks.push(figure(&wide, UNDER));
        blocks
    };
    let mut ways = vec![under(2)];
    for (list, height) in BESIDE {
        let mut ready = vec![heading(), Block::Dotted(Dotted { groups: groups.clone() })];
        ready.extend(with.clone());
        ways.push(vec![Block::Columns(vec![
            Column::new(list, ready),
            Column::new(6 - list, vec![figure(&narrow, height)]),
        ])]);
    }
    ways.push(under(3));
    ways
}

/// The list in columns over the whole width.
fn wide_list(
    heading: Block,
    groups: Vec<Vec<(Text, Text)>>,
    with: Option<Block>,
    columns: usize,
) -> Vec<Block> {
    let mut run = vec![Block::Dotted(Dotted { groups })];
    run.extend(with);
    vec![heading, Block::Flow(Flow { columns, blocks: run })]
}

fn have_ready(step: &Step) -> Vec<Vec<(Text, Text)>> {
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
    groups
}

/// The first bonded foot.
fn foot<'a>(basis: &StepBasis<'a>) -> Option<&'a MountPlace> {
    basis.work.mounts.iter().find(|m| matches!(m.kind, MountShape::BondedFoot { .. }))
}

/// The first mount of a step taken apart; where it names none, the first bonded foot.
fn apart(basis: &StepBasis<'_>, step: &Step) -> Option<Scene> {
    let on = Plan { build: basis.build, work: basis.work };
    let own = |mount: &&MountPlace| step.concerns.contains(&mount.mark);
    basis
        .work
        .mounts
        .iter()
        .filter(own)
        .find_map(|mount| stack_apart(&on, mount).or_else(|| foot_apart(&on, mount)))
        .or_else(|| foot(basis).and_then(|mount| foot_apart(&on, mount)))
}

/// The first hinge.
fn hinge<'a>(basis: &StepBasis<'a>) -> Option<&'a MountPlace> {
    basis.work.mounts.iter().find(|m| matches!(m.kind, MountShape::Hinge { .. }))
}

/// The drawing of a step, for the whole width or for a narrow place; none where there is nothing to
/// see.
fn drawing(basis: &StepBasis<'_>, step: &Step, narrow: bool) -> Option<Scene> {
    let on = Plan { build: basis.build, work: basis.work };
    match step.view {
        View::Roof => roof::plan(basis, step),
        View::Bars => bench::bars(basis),
        View::DrilledParts => bench::drilled_parts(basis, step),
        View::Frame => bench::frame(basis),
        View::MountPlaces => bench::mount_places(basis),
        View::Panels => bench::panels(basis),
        View::Foot => apart(basis, step),
        View::Bond => foot(basis).and_then(|mount| foot_section(&on, mount, FootShows::Press)),
        View::Hinge => hinge(basis).and_then(|mount| hinge_section(&on, mount)),
        View::Entry => entry_section(&on),
        View::Mounts => roof::across(basis, step),
        View::Wiring => inside::wiring(basis, narrow),
        View::Battery => inside::battery(basis),
        View::FixturePlaces => fixture_places(&on),
        View::Fixture => basis.build.fixtures.first().map(|own| fixture_view(basis.build, own)),
        View::Prop => prop_apart(&on),
        View::Latch => latch_apart(&on).or_else(|| roof::across(basis, step)),
        View::Nothing => None,
    }
}

/// Every word of the step's drawing, for whoever has to know its names.
pub(super) fn drawn(basis: &StepBasis<'_>, step: &Step) -> Vec<String> {
    let mut words = Vec::new();
    if let Some(mut scene) = drawing(basis, step, false) {
        scene.alt.clear();
        scene.each_text(&mut |text| {
            words.extend(text.split(|c: char| !c.is_alphanumeric()).map(str::to_owned));
        });
    }
    words
}

fn last_line(step: &Step, next: Option<&Step>) -> Text {
    let Some(next) = next else {
        return Text::bold("List complete. Next: the record sheets.");
    };
    let mut text = Text::bold("List complete. Next: sheet ")
        .and_page(anchor(next))
        .and_bold(", ")
        .and_bold(next.title.as_str());
    let waited = step.actions().find(|action| action.wait.is_some());
    let waits = |need: &crate::compute::steps::Need| need.key == step.key && !need.cures.is_empty();
    if let Some(action) = waited.filter(|_| next.after.iter().any(waits)) {
        text = text.and_bold(format!(", after {}", action.number));
    }
    text.and_bold(".")
}
