//! Rules of the chapter on planning.

use super::done::Done;
use crate::build::Build;
use crate::compute::cure::forecast::Limits;
use crate::compute::cure::{JointCure, Stage, date_words};
use crate::compute::steps::Step;
use crate::source::{Finding, Rule, Severity, Span, Stated};
use crate::units::{Duration, display};

/// Rules of this chapter.
pub static RULES: &[&Rule] = &[
    &NO_PLAN,
    &NOT_PROVEN,
    &CUT_BY_HOURS,
    &STALE_FACES,
    &MADE_OUTSIDE,
    &WAIT_NOT_KEPT,
    &NO_SUCH_RECORD,
];

/// No plan exists.
pub static NO_PLAN: Rule = Rule {
    code: "T201",
    name: "no-plan",
    severity: Severity::Stop,
    checks: "That the steps can be put into working hours with the crew, the places and the weather.",
    why: "Without a plan nobody knows when the vehicle may be driven.",
    example: "[crew]\nday = [\"00:00\", \"04:00\"]   # while the skin is dry from ten in the morning only",
    remedy: "A longer working day, more people, other weather, or steps that do not wait for each other.",
    source_limits: "Exact search over 120 days; a step that makes a joint lies in hours fit for bonding.",
};

/// The plan may not be the shortest.
pub static NOT_PROVEN: Rule = Rule {
    code: "T202",
    name: "plan-not-proven",
    severity: Severity::Note,
    checks: "Whether the end of the plan equals its lower bound.",
    why: "An hour may be saved by another order; nothing else depends on it.",
    example: "several dozen steps of the reader's own with many people",
    remedy: "Use the plan.",
    source_limits: "The search counts its decisions and ends after a set number, so that each machine gives the same plan.",
};

/// Tells of a plan that may not be the shortest.
pub(super) fn not_proven() -> Finding {
    Finding::new(
        &NOT_PROVEN,
        "the plan may not be the shortest: the search ended before it was proven",
    )
    .means("the plan can be used as it is; another order might save an hour")
    .help("fewer [[step]] tables, or several joined to one, let the search come to its end")
}

/// Light or weather cut a step in parts.
pub static CUT_BY_HOURS: Rule = Rule {
    code: "T203",
    name: "step-cut-by-hours",
    severity: Severity::Caution,
    checks: "That each step fits into the hours of one day that light and weather leave.",
    why: "A step that stops in the middle leaves open holes, loose parts or half of a bond for the night.",
    example: "[weather]\ndaylight = [\"09:30\", \"11:00\"]   # and a step on the roof of two hours",
    remedy: "Days with longer light or better weather, a roof over the work, or a step split in two.",
    source_limits: "Hours of light as stated, or by latitude and date (Cooper 1969) with noon at 12:00. Common practice.",
};

/// A step that no day has hours enough for.
pub(super) fn cut_by_hours(build: &Build, step: &Step, room: i64) -> Finding {
    let light = build.weather.daylight.as_ref().map_or(build.crew.from.span, |(from, _)| from.span);
    Finding::new(
        &CUT_BY_HOURS,
        format!(
            "“{}” takes {}; light and weather leave {} of a working day for it",
            step.title,
            display::duration(step.time),
            display::duration(Duration::minutes(room as f64))
        ),
    )
    .at(
        step.span.unwrap_or(light),
        if step.span.is_some() { "this step" } else { "hours of the day" },
    )
    .means("it is left half done over a night")
    .help("choose days with longer light or better weather, or work under a roof with lamps")
    .help("or state in `daylight` of [weather] how long it is light")
}

/// Faces wait too long for their joint.
pub static STALE_FACES: Rule = Rule {
    code: "T204",
    name: "clean-face-too-old",
    severity: Severity::Caution,
    checks: "That cleaned and primed faces are joined before they have to be done again.",
    why: "Clean metal draws grease and water out of the air; primer skins over. Nothing shows it, and the bond peels.",
    example: "[[step]]\ntitle = \"Long lunch\"\nbefore = \"bond\"\ntime = \"5 h\"\nactions = [\"Rest.\"]",
    remedy: "Join sooner, or clean and prime again right before.",
    source_limits: "One hour after cleaning, common practice; after primer the time of its row.",
};

/// The step that cleans with its end, the step that joins with its start.
pub(super) fn stale_faces(
    build: &Build,
    (cleaned, end): (&Step, Duration),
    (joins, start): (&Step, Duration),
    keeps: Duration,
) -> Finding {
    Finding::new(
        &STALE_FACES,
        format!(
            "“{}” ends {}, “{}” starts {}: the faces keep {}",
            cleaned.title,
            date_words(*build.crew.start, end),
            joins.title,
            date_words(*build.crew.start, start),
            display::duration(keeps)
        ),
    )
    .at(joins.span.or(cleaned.span).unwrap_or(build.crew.from.span), "")
    .means("the bond would stick to dust and grease")
    .help("clean and prime again right before joining")
    .help("or move what lies between the two steps")
}

/// A recorded joint was made in unfit air.
pub static MADE_OUTSIDE: Rule = Rule {
    code: "T205",
    name: "made-in-unfit-air",
    severity: Severity::Caution,
    checks: "That each recorded joint was made while the skin was dry, warm enough and 3 K over the dew point.",
    why: "A bond on a cold or damp skin feels firm at first and peels later.",
    example: "[[record]]\nstep = \"bond\"\nstarted = \"2026-05-17 05:00\"\ntemperature = \"4 °C\"",
    remedy: "Take the joint apart and make it again in fit hours, or test it with the load before it is relied on.",
    source_limits: "Limits of the adhesive's row; 3 K over the dew point by the guidance of ISO 8502-4.",
};

/// The step and the index of its record; limits, the kelvins it was short, and the next fit hours.
pub(super) fn made_outside(
    build: &Build,
    step: &Step,
    record: usize,
    (limits, short, next): (&Limits, f64, Option<(Duration, Duration)>),
) -> Finding {
    let record = &build.records[record];
    let what = if short > 90.0 { "in rain".to_owned() } else { format!("{short:.1} K off") };
    let finding = Finding::new(
        &MADE_OUTSIDE,
        format!(
            "“{}” was begun while the skin was not fit: {what}; limits {:.0} °C to {:.0} °C, {:.0} K over the dew point",
            step.title,
            limits.low.to_celsius(),
            limits.high.to_celsius(),
            limits.margin.to_k()
        ),
    )
    .at(record.started.span, "begun then")
    .means("these joints may peel later");
    let finding = match next {
        Some((from, to)) => finding.help(format!(
            "make them again; the next fit hours are {} to {}",
            date_words(*build.crew.start, from),
            date_words(*build.crew.start, to)
        )),
        None => finding.help("make them again in fit air; the forecast has no such hours"),
    };
    finding.help("or pull each with its design load before the vehicle is driven")
}

/// A recorded step began too soon.
pub static WAIT_NOT_KEPT: Rule = Rule {
    code: "T206",
    name: "wait-not-kept",
    severity: Severity::Caution,
    checks: "That each recorded step began after the steps and waits that it needs.",
    why: "A bond that is loaded too soon creeps; it never gets its strength back.",
    example: "[[record]]\nstep = \"bond\"\nstarted = \"2026-05-17 10:00\"\n[[record]]\nstep = \"bolt\"\nstarted = \"2026-05-17 12:00\"",
    remedy: "Look at the joints, measure their gap again, and test them before the vehicle is driven.",
    source_limits: "Waits of the cure chapter in the recorded air.",
};

/// Indices of the step that lets and of the step that was begun.
pub(super) fn wait_not_kept(
    build: &Build,
    steps: &[Step],
    cures: &[JointCure],
    (before, after): (usize, usize),
    done: &[Done],
) -> Finding {
    let title = |step: usize| steps.get(step).map_or("driving", |step| step.title.as_str());
    let at = done
        .iter()
        .find(|done| done.step == after)
        .map_or(Span::NONE, |done| build.records[done.record].started.span);
    let need = steps.get(after).and_then(|step| {
        let key = &steps.get(before)?.key;
        step.after.iter().find(|need| need.key == *key)
    });
    let until = need.into_iter().flat_map(|need| &need.cures).filter_map(|cure| {
        let joint = cures.iter().find(|joint| joint.mark == cure.mark)?;
        Some(joint.made + joint.wait(Stage::Load)?.time?)
    });
    let message = match until.reduce(Duration::max) {
        Some(until) => format!(
            "“{}” was begun before the joints of “{}” could carry, {}",
            title(after),
            title(before),
            date_words(*build.crew.start, until)
        ),
        None => format!("“{}” was begun before “{}” was over", title(after), title(before)),
    };
    Finding::new(&WAIT_NOT_KEPT, message)
        .at(at, "begun then")
        .means("what was not hard yet may have moved")
        .help("look at the joints, measure gaps and heights again, and test them before driving")
        .help("or correct the clock of the record")
}

/// A record of no step, or the second of one.
pub static NO_SUCH_RECORD: Rule = Rule {
    code: "T207",
    name: "record-of-no-step",
    severity: Severity::Caution,
    checks: "That each [[record]] names a step of the plan, and no step has two.",
    why: "What is not understood as done is planned again.",
    example: "[[record]]\nstep = \"glueing\"\nstarted = \"2026-05-17 10:00\"",
    remedy: "Write the key or the title of the step; the message lists them.",
    source_limits: "no source: the names of this build's steps",
};

/// The name that no step has.
pub(super) fn no_such_record(steps: &[Step], name: &Stated<String>) -> Finding {
    let keys: Vec<&str> = steps.iter().map(|step| step.key.as_str()).collect();
    Finding::new(&NO_SUCH_RECORD, format!("there is no step `{}` to record", **name))
        .at(name.span, "no step of this name")
        .means("it is planned as if it were still to do")
        .help(format!("steps are: {}", keys.join(", ")))
}

/// The title with both places.
pub(super) fn recorded_twice(title: &str, again: Span, first: Span) -> Finding {
    Finding::new(&NO_SUCH_RECORD, format!("“{title}” is recorded twice"))
        .at(again, "the second time")
        .also(first, "the first time")
        .means("the first record counts")
        .help("take one of them out")
}

#[cfg(test)]
mod tests {
    use super::*;

    // A build file whose search does not come to its end takes many seconds, so none is kept.
    #[test]
    fn a_plan_that_is_not_proven_says_that_it_can_be_used() {
        let finding = not_proven();
        assert_eq!(finding.rule, &NOT_PROVEN);
        assert_eq!(finding.severity, Severity::Note);
        assert!(finding.means.is_some_and(|means| means.contains("can be used")));
        assert!(!finding.helps.is_empty());
    }
}
