//! Who does what.

use super::plan::Slot;
use super::problem::Problem;

/// Gives each attended task to people, numbered from 1, and returns everyone's minutes.
///
/// Tasks are gone through by start; each goes to those free who have worked least so far (then
/// the lowest number). People numbered up to the crew of the task's window are always enough: no
/// task crosses the end of its window, so at each start only those at work are taken. Facts may
/// need more people than the calendar has; they get the next numbers.
pub(super) fn share_out(problem: &Problem, slots: &mut [Slot]) -> Vec<i64> {
    let most = problem.windows.iter().map(|w| w.crew as usize).max().unwrap_or(0);
    let mut minutes = vec![0_i64; most];
    let mut free_from = vec![i64::MIN; most];
    let mut order: Vec<usize> = (0..slots.len())
        .filter(|&i| problem.tasks[i].crew > 0 && problem.tasks[i].minutes > 0)
        .collect();
    order.sort_by_key(|&i| (slots[i].start, i));
    for index in order {
        let slot = &mut slots[index];
        let window = problem.windows.iter().find(|w| w.from <= slot.start && slot.start < w.to);
        let here = window.map_or(most, |w| w.crew as usize);
        let need = problem.tasks[index].crew as usize;
        let mut free: Vec<usize> =
            (0..here).filter(|&person| free_from[person] <= slot.start).collect();
        free.sort_by_key(|&person| (minutes[person], person));
        let mut next = here;
        while free.len() < need {
            if next == minutes.len() {
                minutes.push(0);
                free_from.push(i64::MIN);
            }
            if free_from[next] <= slot.start {
                free.push(next);
            }
            next += 1;
        }
        free.truncate(need);
        free.sort_unstable();
        for &person in &free {
            minutes[person] += slot.finish - slot.start;
            free_from[person] = slot.finish;
        }
        slot.people = (1_u32..)
            .zip(0..minutes.len())
            .filter(|(_, person)| free.contains(person))
            .map(|(number, _)| number)
            .collect();
    }
    minutes
}
