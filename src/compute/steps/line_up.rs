//! Which steps this build has, and in which order: the templates whose facts are there, with the
//! reader's own steps put among them.

use super::facts::Facts;
use super::rules;
use super::safety;
use super::template::{Template, Templates};
use super::words;
use crate::build::{Build, DirectStep, StepPlace};
use crate::source::Finding;

/// A step's place in the line.
#[derive(Debug, Clone)]
pub(super) struct Placed<'a> {
    /// Name of the step: the template's, or "own-1" for the reader's own.
    pub key: String,
    /// Template: of the step itself, or of the one that the reader's own stands instead of.
    pub template: Option<&'a Template>,
    /// The reader's own.
    pub own: Option<&'a DirectStep>,
    /// Keys that it must come after, beyond what its template says.
    pub after: Vec<String>,
}

pub(super) fn line_up<'a>(
    build: &'a Build,
    templates: &'a Templates,
    facts: &Facts,
    findings: &mut Vec<Finding>,
) -> Vec<Placed<'a>> {
    let mut line: Vec<Placed<'a>> = templates
        .steps
        .iter()
        .filter(|template| facts.holds(&template.when))
        .map(|template| Placed {
            key: template.key.clone(),
            template: Some(template),
            own: None,
            after: Vec::new(),
        })
        .collect();
    let mut waiting: Vec<(usize, usize)> = Vec::new();
    let mut left_out = Vec::new();
    for (index, own) in build.steps.iter().enumerate() {
        judge(own, findings);
        if let StepPlace::LeaveOut(name) = &own.place {
            left_out.push((own, name));
            continue;
        }
        match beside(build, templates, own) {
            Some(other) => waiting.push((index, other)),
            None => put(&mut line, templates, own, key(index), findings),
        }
    }
    // Those placed at another of the reader's own, each once that one has its place.
    while let Some(at) =
        waiting.iter().position(|(_, other)| line.iter().any(|placed| placed.key == key(*other)))
    {
        let (index, other) = waiting.remove(at);
        put_beside(&mut line, &build.steps[index], (key(index), key(other)));
    }
    circle(build, &mut line, &waiting);
    // Last, so that others still find their place beside them.
    for (own, name) in left_out {
        match templates.step(name) {
            None => findings.push(rules::t101_no_such_step::raise(templates, own, name)),
            Some(template) => {
                if let Some(at) = line.iter().position(|place| place.key == template.key) {
                    line.remove(at);
                    findings.push(rules::t104_step_left_out::raise(own, name, template));
                }
                for place in &mut line {
                    place.after.retain(|key| *key != template.key);
                }
            }
        }
    }
    line
}

fn key(own: usize) -> String {
    format!("own-{}", own + 1)
}

/// The other step of the reader's own that this one is placed at; names of ours go first.
fn beside(build: &Build, templates: &Templates, own: &DirectStep) -> Option<usize> {
    let (StepPlace::Before(name) | StepPlace::After(name)) = &own.place else { return None };
    if templates.step(name).is_some() {
        return None;
    }
    build.steps.iter().position(|other| other.title.trim().eq_ignore_ascii_case(name.trim()))
}

/// Puts a step of the reader's own before or after another of them, keys of both given.
fn put_beside<'a>(line: &mut Vec<Placed<'a>>, own: &'a DirectStep, (key, other): (String, String)) {
    let Some(at) = line.iter().position(|placed| placed.key == other) else { return };
    let placed = Placed { key: key.clone(), template: None, own: Some(own), after: Vec::new() };
    if matches!(own.place, StepPlace::Before(_)) {
        let before = at.checked_sub(1).map(|before| line[before].key.clone());
        line[at].after.push(key);
        line.insert(at, Placed { after: before.into_iter().collect(), ..placed });
    } else {
        let mut next = at + 1;
        while line
            .get(next)
            .is_some_and(|later| later.own.is_some() && later.after.contains(&other))
        {
            next += 1;
        }
        line.insert(next, Placed { after: vec![other], ..placed });
    }
}

/// Steps that wait for each other: they stand at the end as they were written, and planning tells of
/// the circle.
fn circle<'a>(build: &'a Build, line: &mut Vec<Placed<'a>>, waiting: &[(usize, usize)]) {
    for (index, _) in waiting {
        let own = Some(&build.steps[*index]);
        line.push(Placed { key: key(*index), template: None, own, after: Vec::new() });
    }
    for (index, other) in waiting {
        let before = matches!(build.steps[*index].place, StepPlace::Before(_));
        let (first, then) = if before { (index, other) } else { (other, index) };
        if let Some(placed) = line.iter_mut().find(|placed| placed.key == key(*then)) {
            placed.after.push(key(*first));
        }
    }
}

/// Puts a step of the reader's own in its place.
fn put<'a>(
    line: &mut Vec<Placed<'a>>,
    templates: &Templates,
    own: &'a DirectStep,
    key: String,
    findings: &mut Vec<Finding>,
) {
    let placed = Placed { key: key.clone(), template: None, own: Some(own), after: Vec::new() };
    let name = match &own.place {
        StepPlace::Last => {
            let after = line.last().map(|last| last.key.clone());
            line.push(Placed { after: after.into_iter().collect(), ..placed });
            return;
        }
        StepPlace::Before(name)
        | StepPlace::After(name)
        | StepPlace::InsteadOf(name)
        | StepPlace::LeaveOut(name) => name,
    };
    let Some(template) = templates.step(name) else {
        findings.push(rules::t101_no_such_step::raise(templates, own, name));
        let after = line.last().map(|last| last.key.clone());
        line.push(Placed { after: after.into_iter().collect(), ..placed });
        return;
    };
    let found = line.iter().position(|place| place.key == template.key);
    // A step that this build does not have still has its place in the order.
    let at = found.unwrap_or_else(|| {
        let later = |place: &Placed<'_>| place.template.is_some_and(|t| t.order > template.order);
        line.iter().position(later).unwrap_or(line.len())
    });
    match (&own.place, found) {
        (StepPlace::InsteadOf(_), Some(at)) => {
            line[at].own = Some(own);
        }
        (StepPlace::After(_), Some(at)) => {
            // Those put after the same step before this one stay in the order of the file.
            let mut at = at + 1;
            while line.get(at).is_some_and(|place| place.after.contains(&template.key)) {
                at += 1;
            }
            line.insert(at, Placed { after: vec![template.key.clone()], ..placed });
        }
        (StepPlace::Before(_), Some(at)) => {
            line[at].after.push(key);
            let before = at.checked_sub(1).map(|before| line[before].key.clone());
            line.insert(at, Placed { after: before.into_iter().collect(), ..placed });
        }
        _ => {
            let before = at.checked_sub(1).map(|before| line[before].key.clone());
            line.insert(at, Placed { after: before.into_iter().collect(), ..placed });
        }
    }
}

fn judge(own: &DirectStep, findings: &mut Vec<Finding>) {
    for action in &own.actions {
        let count = words::count(&action.text);
        if count > words::MOST_WORDS {
            findings.push(rules::t102_action_too_long::raise(&action.text, count));
        }
        let limits =
            action.done.as_ref().and_then(|done| done.low.as_ref().zip(done.high.as_ref()));
        if let Some((low, high)) = limits.filter(|(low, high)| low.value > high.value) {
            findings.push(rules::t110_limits_swapped::raise(low, high));
        }
    }
    for key in own.cautions.iter().filter(|key| !safety::is_known(key)) {
        findings.push(rules::t109_no_such_caution::raise(own, key));
    }
}
