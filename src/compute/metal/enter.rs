//! Figures and findings of the metal.

use super::frame::BENDING;
use super::{Metal, MetalUse, TubeBow, rules};
use crate::build::{Build, Frame};
use crate::compute::steps::facts;
use crate::derive::{Array, Work};
use crate::source::{Figure, Finding, Ledger, Seen, Severity};
use crate::units::{Length, display};

/// Use of capacity from which it is told of (design ruling).
const CAUTION: f64 = 0.8;

pub(super) fn figure(entry: &MetalUse) -> Figure {
    let limit = if entry.unit == "N" {
        format!("{:.0} N", entry.capacity)
    } else {
        format!("{:.2} {}", entry.capacity, entry.unit)
    };
    let effect = if entry.unit == "N" {
        format!("{:.0} N", entry.effect)
    } else {
        format!("{:.2} {}", entry.effect, entry.unit)
    };
    let start = Figure::new(
        format!("metal.{}", entry.key),
        format!("use of capacity, {}: {}", entry.at, entry.what),
        entry.share,
        "",
    )
    .formula(entry.formula);
    let mut figure = entry
        .inputs
        .iter()
        .fold(start, |figure, (symbol, value)| figure.input(symbol.clone(), value.clone()))
        .input("has", effect)
        .input("may have", limit)
        .input("case", entry.case.clone())
        .source(entry.source, entry.seen);
    figure.decides = entry.share >= CAUTION;
    figure
}

pub(super) fn bows(build: &Build, tubes: &[TubeBow], ledger: &mut Ledger) {
    for tube in tubes {
        ledger.push(
            Figure::new(
                format!("metal.bow.{}", key_of(build, tube.frame, &tube.name)),
                format!("greatest bow of the {}", named(build, tube)),
                tube.bow[0].max(tube.bow[1]).to_mm(),
                "mm",
            )
            .formula("beams on the mounts, from the straight line between supports")
            .input("longest stretch", format!("{:.0} mm", tube.span.to_mm()))
            .input("up", format!("{:.1} mm", tube.bow[0].to_mm()))
            .input("down", format!("{:.1} mm", tube.bow[1].to_mm()))
            .source("beam theory", Seen::Computed)
            .assume("tubes pinned to each other; panels stiffen nothing"),
        );
    }
}

/// "left-side-tube", with the frame's number before it where there are several.
pub(super) fn key_of(build: &Build, frame: usize, tube: &str) -> String {
    let name = tube.replace(' ', "-");
    if build.frames.len() < 2 { name } else { format!("{}.{name}", frame + 1) }
}

pub(super) fn judge(build: &Build, work: &Work, metal: &Metal, findings: &mut Vec<Finding>) {
    // One finding a kind of thing that could give way, told at its worst place.
    let mut kinds: Vec<Vec<&MetalUse>> = Vec::new();
    for entry in metal.uses.iter().filter(|entry| entry.share >= CAUTION) {
        match kinds
            .iter_mut()
            .find(|group| group[0].what == entry.what && group[0].span == entry.span)
        {
            Some(group) => group.push(entry),
            None => kinds.push(vec![entry]),
        }
    }
    for group in kinds {
        let Some(worst) = group.iter().max_by(|a, b| a.share.total_cmp(&b.share)) else { continue };
        let over = worst.share > 1.0;
        let (rule, severity) = if over {
            (&rules::OVERLOADED, Severity::Stop)
        } else {
            (&rules::NEARLY_FULL, Severity::Caution)
        };
        let marks: Vec<&str> = group.iter().map(|entry| entry.at.as_str()).collect();
        let printed = display::capacity_used(worst.share);
        let most = if group.len() > 1 { format!(", most at {}", worst.at) } else { String::new() };
        let finding = Finding::new(
            rule,
            format!(
                "{} of {} is used to {printed} of its capacity{most}; 1.00 is the limit",
                worst.what,
                facts::marks(&marks)
            ),
        )
        .severity(severity)
        .at(
            worst.span,
            format!(
                "{} of {} in the case: {}",
                amount(worst.effect, worst.unit),
                amount(worst.capacity, worst.unit),
                worst.case
            ),
        )
        .means(if over {
            "it bends, tears or breaks, and the mounts beside it get its load"
        } else {
            "a burr, a hole off its mark or a softer alloy may take away what is left"
        })
        .help(remedy(build, metal, worst));
        // Speed helps against nothing that happens at rest.
        findings.push(if worst.case.starts_with("driving") {
            finding.help("or state a lower design speed")
        } else {
            finding
        });
    }
    touching(build, work, metal, findings);
}

/// What would help; for bent tubes with the number of cross tubes that is enough.
fn remedy(build: &Build, metal: &Metal, worst: &MetalUse) -> String {
    let more = build
        .frames
        .iter()
        .zip(&metal.cross_tubes)
        .find(|(frame, more)| frame.section.span == worst.span && more.is_some())
        .and_then(|(_, more)| *more);
    match more {
        Some(count) if worst.what == BENDING => {
            format!("set `cross-members = {count}`: every tube then holds; or take a larger tube")
        }
        _ => worst.remedy.to_owned(),
    }
}

fn amount(value: f64, unit: &str) -> String {
    if unit == "N" { format!("{value:.0} N") } else { format!("{value:.1} {unit}") }
}

/// "left side tube", or "left side tube of the front frame" where there are several.
pub(super) fn named(build: &Build, tube: &TubeBow) -> String {
    if build.frames.len() < 2 {
        return tube.name.clone();
    }
    format!("{} of {}", tube.name, build.the_frame(tube.frame))
}

/// Tubes that bow down by more than the room over the roof.
fn touching(build: &Build, work: &Work, metal: &Metal, findings: &mut Vec<Finding>) {
    for (frame, array) in build.frames.iter().zip(&work.arrays) {
        touching_frame(build, (frame, array), metal, findings);
    }
}

fn touching_frame(
    build: &Build,
    (frame, array): (&Frame, &Array),
    metal: &Metal,
    findings: &mut Vec<Finding>,
) {
    let room = (array.under - array.crown).max(Length::ZERO);
    let own = metal.tubes.iter().filter(|tube| tube.frame == array.frame);
    let Some(worst) = own.max_by(|a, b| a.bow[1].total_cmp(&b.bow[1])) else {
        return;
    };
    if worst.bow[1] <= room {
        return;
    }
    findings.push(
        Finding::new(
            &rules::TOUCHES,
            format!(
                "the {} bows down by {:.1} mm; there are {:.1} mm to the roof",
                named(build, worst),
                worst.bow[1].to_mm(),
                room.to_mm()
            ),
        )
        .at(frame.clearance.span, "room over the highest roof under the frame")
        .also(frame.section.span, "the tube")
        .means("the frame knocks on the roof on rough roads or under snow")
        .help(format!(
            "leave at least {:.0} mm, {} or take a larger tube",
            worst.bow[1].to_mm().ceil() + 2.0,
            match metal.cross_tubes.get(array.frame).copied().flatten() {
                Some(count) => format!("set `cross-members = {count}`"),
                None => "add a mount".to_owned(),
            }
        )),
    );
}
