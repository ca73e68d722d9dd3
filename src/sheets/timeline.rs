//! The timeline: the plan by the clock, the cures below it, and what may not be done before when.
//!
//! A band a day, hours to one scale on all of them, the night as a narrow column. Days on which
//! nobody works and nothing is to be decided are left out and named in words.

mod band;
mod fitting;
mod tables;

use super::words::{clock, day_name, day_time, work_time};
use super::{Basis, Kind};
use crate::compute::cure::{JointCure, Stage};
use crate::compute::plan::{Plan, PlanSlot};
use crate::compute::steps::facts::marks;
use crate::page::Sheet;
use crate::page::block::{Block, Figure, Heading, Lead};
use crate::page::text::Text;
use crate::units::Duration;

/// The plan is made in steps of five minutes; clocks nearer than that are one.
const SAME: Duration = Duration::minutes(5.0);
/// Waiting by day from which it is told in words.
const TOLD_IDLE: Duration = Duration::minutes(15.0);

/// The sheets; none where nothing is planned.
pub(super) fn timeline(basis: &Basis) -> Vec<Sheet> {
    let Some(plan) = &basis.results.plan else { return Vec::new() };
    let groups = groups(basis, plan);
    let days = days(plan);
    let mut blocks = vec![lead(basis, plan), Block::Paragraph(legend(basis, plan))];
    let mut before: Option<i64> = None;
    for day in &days {
        blocks.push(Block::Heading(
            Heading::new(day_name(basis, *day)).aside(between(basis, before, *day)),
        ));
        let scene = band::band(basis, plan, &groups, *day);
        blocks.push(Block::Figure(Figure::new(scene, 200.0).at_left()));
        before = Some(*day);
    }
    blocks.extend(tables::not_before(basis, plan));
    blocks.push(Block::PageBreak);
    blocks.extend(tables::plan(basis, plan));
    vec![Sheet {
        anchor: "timeline".into(),
        title: "Timeline".into(),
        purpose: purpose(basis, plan),
        tab: Some(Kind::Timeline.tab()),
        steps: None,
        blocks,
        single_sided: false,
    }]
}

/// "two" for 2; figures from ten up.
pub(super) fn count_word(count: usize) -> String {
    const WORDS: [&str; 10] =
        ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"];
    WORDS.get(count).map_or_else(|| count.to_string(), |word| (*word).to_owned())
}

/// "two people".
pub(super) fn people_words(count: usize) -> String {
    format!("{} {}", count_word(count), if count == 1 { "person" } else { "people" })
}

fn purpose(basis: &Basis, plan: &Plan) -> String {
    let people = people_words(*basis.build.crew.people as usize);
    let mut words = format!(
        "{people}, {} of work",
        if plan.days == 1 { "one day".into() } else { format!("{} days", count_word(plan.days)) }
    );
    if let Some(first) = words.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    words + if basis.results.cures.is_empty() { "." } else { "; bonds cure through the nights." }
}

fn lead(basis: &Basis, plan: &Plan) -> Block {
    let (at, why) = &plan.drive;
    let first = *basis.build.crew.start;
    let drives = basis.build.vehicle.is_some();
    let words = if drives {
        format!("Do not drive before {}", day_time(first, *at))
    } else {
        format!("Done by {}", day_time(first, plan.finish))
    };
    let mut notes: Vec<Text> = Vec::new();
    if drives {
        notes.push(format!("{} at the earliest. Decided by {why}.", clock(first, *at)).into());
    }
    if !basis.results.cures.is_empty() {
        notes.push("By the forecast of the build file; the real clock below wins.".into());
    }
    if let Some(recorded) = plan.recorded {
        notes.push(
            format!("Planned anew from what was recorded up to {}.", day_time(first, recorded))
                .into(),
        );
    }
    notes.push(proof(plan).into());
    if plan.idle >= TOLD_IDLE {
        let told = format!("Nobody has work for {} by day: joints set.", work_time(plan.idle));
        notes.push(told.into());
    }
    Block::Lead(Lead { words: words.into(), notes })
}

/// What was proven of the plan.
fn proof(plan: &Plan) -> &'static str {
    let gathered = plan.fewest_days && plan.least_idle >= plan.idle;
    match (plan.proven, gathered) {
        (true, true) => {
            "Proven: none ends sooner, nor as soon on fewer days or with less waiting by day."
        }
        (true, false) => "Proven: no order of these steps ends the work earlier.",
        (false, _) => "Not proven: another order of the steps might end the work earlier.",
    }
}

/// What the lines and signs mean.
fn legend(basis: &Basis, plan: &Plan) -> Text {
    let mut words = String::from("Heavy: what decides the end. Diamond: hold point.");
    if *basis.build.crew.people > 1 && plan.slots.iter().any(|slot| slot.people.len() > 1) {
        words.push_str(" Tall block: people together.");
    }
    if !plan.fit.is_empty() {
        words.push_str(" Black bar: hours fit to bond.");
    }
    words.push_str(" Nights not to scale. Blocks without a number: see the table.");
    words.into()
}

/// Whether a stretch of work decides: it is on the chain, and it can't slip by its own length.
fn decides(slot: &PlanSlot) -> bool {
    slot.decides && slot.float < slot.finish - slot.start
}

/// Number of the working day that a clock belongs to, its night included; 0 is the first.
fn day_of(plan: &Plan, clock: Duration) -> i64 {
    ((clock - plan.hours.0) / Duration::days(1.0)).floor() as i64
}

/// Days with work, and the one on which driving begins.
fn days(plan: &Plan) -> Vec<i64> {
    let mut days: Vec<i64> = plan.slots.iter().map(|slot| day_of(plan, slot.start)).collect();
    days.push(day_of(plan, plan.drive.0));
    days.sort_unstable();
    days.dedup();
    days
}

/// Days left out between two bands, in words.
fn between(basis: &Basis, before: Option<i64>, day: i64) -> String {
    let Some(before) = before else {
        let hours = basis.results.plan.as_ref().map(|plan| plan.hours);
        let told = |at: Duration| {
            let minutes = at.to_minutes().round() as i64;
            format!("{:02}:{:02}", minutes / 60, minutes % 60)
        };
        return hours.map_or_else(String::new, |(from, to)| {
            format!("work from {} to {}", told(from), told(to))
        });
    };
    let names: Vec<String> = (before + 1..day).map(|day| day_name(basis, day)).collect();
    match names.as_slice() {
        [] => String::new(),
        [one] => format!("nobody works on {one}"),
        [first, .., last] => format!("nobody works from {first} to {last}"),
    }
}

/// Joints that are made at one time and cure alike.
struct Group<'a> {
    /// "F1 to F3".
    marks: String,
    /// "F1–3", for a narrow place.
    short_marks: String,
    count: usize,
    joint: &'a JointCure,
    /// Clock from which they may carry the frame; absent for seals.
    load: Option<Duration>,
    /// Clock from which they may be driven with; absent for longer than a year.
    drive: Option<Duration>,
    /// Whether they decide when driving begins.
    decides: bool,
}

fn groups<'a>(basis: &'a Basis, plan: &Plan) -> Vec<Group<'a>> {
    let mut lists: Vec<(&JointCure, Vec<&str>)> = Vec::new();
    for joint in &basis.results.cures {
        let alike = |other: &JointCure| {
            (other.made - joint.made).abs() < SAME
                && [Stage::Load, Stage::Drive].iter().all(|stage| {
                    let told = |j: &JointCure| j.wait(*stage).map(|w| (w.why.clone(), w.time));
                    told(other) == told(joint)
                })
        };
        match lists.iter_mut().find(|(first, _)| alike(first)) {
            Some((_, marks)) => marks.push(&joint.mark),
            None => lists.push((joint, vec![&joint.mark])),
        }
    }
    lists
        .into_iter()
        .map(|(joint, list)| {
            let threads: Vec<&str> =
                list.iter().filter_map(|mark| mark.strip_suffix(" bolts")).collect();
            let at =
                |stage| joint.wait(stage).and_then(|wait| wait.time).map(|wait| joint.made + wait);
            let drive = at(Stage::Drive);
            Group {
                marks: marks(&list),
                // Sizes of thread have no numbers that run on.
                short_marks: if threads.len() == list.len() {
                    threads.join(", ")
                } else {
                    short_marks(&list)
                },
                count: list.len(),
                joint,
                load: at(Stage::Load),
                drive,
                decides: drive.is_some_and(|at| (at - plan.drive.0).abs() <= SAME),
            }
        })
        .collect()
}

/// "L1–2, R1–2": marks of one letter in a row as one.
fn short_marks(marks: &[&str]) -> String {
    let split = |mark: &str| {
        let at = mark.find(|c: char| c.is_ascii_digit())?;
        Some((mark[..at].to_owned(), mark[at..].parse::<u32>().ok()?))
    };
    let mut runs: Vec<(String, u32, u32)> = Vec::new();
    for mark in marks {
        let Some((letters, number)) = split(mark) else { continue };
        match runs.last_mut() {
            Some(run) if run.0 == letters && run.2 + 1 == number => run.2 = number,
            _ => runs.push((letters, number, number)),
        }
    }
    let told = |(letters, first, last): &(String, u32, u32)| match last - first {
        0 => format!("{letters}{first}"),
        _ => format!("{letters}{first}–{last}"),
    };
    runs.iter().map(told).collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_of_a_letter_run_together() {
        assert_eq!(short_marks(&["L1", "L2", "R1", "R2", "R4"]), "L1–2, R1–2, R4");
        assert_eq!(short_marks(&["E1"]), "E1");
    }

    #[test]
    fn people_are_counted_in_words() {
        assert_eq!(people_words(1), "one person");
        assert_eq!(people_words(2), "two people");
        assert_eq!(people_words(12), "12 people");
    }
}
