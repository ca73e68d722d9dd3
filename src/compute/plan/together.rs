//! What belongs together in time: clean faces with their joint, and what one open cartridge is for.

use super::{Plan, makes, minutes, rules};
use crate::build::Build;
use crate::compute::cure::JointCure;
use crate::compute::steps::Step;
use crate::source::Finding;
use crate::units::Duration;

/// An opened cartridge is used up within a working day; the nozzle hardens over night. Common practice.
pub const OPEN_CARTRIDGE: Duration = Duration::hours(10.0);

/// Steps that should start later than they do, with the minute before which they should not: those
/// that clean faces long before they are joined, and those that open a cartridge long before its next
/// use.
pub(super) fn wishes(steps: &[Step], cures: &[JointCure], plan: &Plan) -> Vec<(usize, i64)> {
    let mut wishes: Vec<(usize, i64)> = Vec::new();
    let mut wish = |step: usize, at: i64| match wishes.iter_mut().find(|(known, _)| *known == step)
    {
        Some((_, known)) => *known = (*known).max(at),
        None => wishes.push((step, at)),
    };
    for (index, joined) in pairs(steps, cures) {
        let (Some((start, end)), Some((joint, _))) = (plan.span(index), plan.span(joined)) else {
            continue;
        };
        let keeps = keeps(&steps[index]);
        if joint - end > keeps {
            wish(index, minutes(joint - keeps - (end - start)));
        }
    }
    for (early, late) in cartridges(steps, cures) {
        let (Some((start, _)), Some((_, last))) = (plan.span(early), plan.span(late)) else {
            continue;
        };
        if last - start > OPEN_CARTRIDGE {
            wish(early, minutes(last - OPEN_CARTRIDGE));
        }
    }
    wishes.retain(|(step, _)| !plan.slots.iter().any(|slot| slot.step == *step && slot.done));
    wishes
}

/// Shortens the floats of steps that join faces or use a cartridge up: they must come while the faces
/// are clean and the cartridge is fresh.
pub(super) fn hold_floats(steps: &[Step], cures: &[JointCure], plan: &mut Plan) {
    let mut limits: Vec<(usize, Duration)> = Vec::new();
    for (cleans, joins) in pairs(steps, cures) {
        if let Some((_, end)) = plan.span(cleans) {
            limits.push((joins, end + keeps(&steps[cleans])));
        }
    }
    for (early, late) in cartridges(steps, cures) {
        if let Some((start, _)) = plan.span(early) {
            limits.push((late, start + OPEN_CARTRIDGE));
        }
    }
    for (step, limit) in limits {
        let Some((start, _)) = plan.span(step) else { continue };
        let room = (limit - start).max(Duration::ZERO);
        for slot in plan.slots.iter_mut().filter(|slot| slot.step == step) {
            slot.float = slot.float.min(room);
        }
    }
}

/// How long after its end what a step has cleaned may wait for its joint.
fn keeps(step: &Step) -> Duration {
    step.keeps.unwrap_or(OPEN_CARTRIDGE) + dries(step)
}

fn dries(step: &Step) -> Duration {
    step.dries.unwrap_or(Duration::ZERO)
}

/// Steps that clean faces, with the step that joins them.
fn pairs(steps: &[Step], cures: &[JointCure]) -> Vec<(usize, usize)> {
    let mut list = Vec::new();
    for (index, step) in steps.iter().enumerate().filter(|(_, step)| step.dries.is_some()) {
        let joins = steps
            .iter()
            .position(|later| makes(later, cures).iter().any(|mark| step.works_on.contains(mark)));
        list.extend(joins.map(|joins| (index, joins)));
    }
    list
}

/// Steps that use the same adhesive or sealant, the earlier first.
fn cartridges(steps: &[Step], cures: &[JointCure]) -> Vec<(usize, usize)> {
    let products = |step: &Step| -> Vec<&str> {
        let marks = makes(step, cures);
        cures
            .iter()
            .filter(|joint| marks.contains(&joint.mark))
            .filter_map(|joint| joint.product.as_deref())
            .collect()
    };
    let mut list = Vec::new();
    for (early, first) in steps.iter().enumerate() {
        for (late, second) in steps.iter().enumerate().skip(early + 1) {
            let (of_first, of_second) = (products(first), products(second));
            if of_first.iter().any(|product| of_second.contains(product)) {
                list.push((early, late));
            }
        }
    }
    list
}

/// Tells of faces that are cleaned too long before they are joined, whatever the plan does.
pub(super) fn stale(
    build: &Build,
    steps: &[Step],
    plan: &Plan,
    cures: &[JointCure],
) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (index, joined) in pairs(steps, cures) {
        let (Some((_, end)), Some((joint, _)), Some(keeps)) =
            (plan.span(index), plan.span(joined), steps[index].keeps)
        else {
            continue;
        };
        if joint - end > keeps + dries(&steps[index]) {
            findings.push(rules::stale_faces(
                build,
                (&steps[index], end),
                (&steps[joined], joint),
                keeps,
            ));
        }
    }
    findings
}
