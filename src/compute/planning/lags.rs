//! Order of tasks by their lags alone.

use super::Fault;
use super::model::Arc;
use super::problem::Problem;

/// Finds a circle of lags, whatever their minutes: a task cannot finish before it starts.
///
/// # Errors
/// [`Fault::Circle`] with the tasks of one circle in order, beginning with the lowest index.
pub(super) fn refuse_circle(problem: &Problem) -> Result<(), Fault> {
    let n = problem.tasks.len();
    let mut after: Vec<Vec<usize>> = vec![Vec::new(); n];
    for lag in &problem.lags {
        after[lag.from].push(lag.to);
    }
    // Depth-first; `state` 1 is on the path, 2 is known to lead to no circle.
    let mut state = vec![0_u8; n];
    for root in 0..n {
        if state[root] != 0 {
            continue;
        }
        let mut path = vec![(root, 0)];
        state[root] = 1;
        while let Some(top) = path.last_mut() {
            let task = top.0;
            if let Some(&next) = after[task].get(top.1) {
                top.1 += 1;
                if state[next] == 1 {
                    let from = path.iter().position(|p| p.0 == next).unwrap_or(0);
                    let mut tasks: Vec<usize> = path[from..].iter().map(|p| p.0).collect();
                    let least = (0..tasks.len()).min_by_key(|&i| tasks[i]).unwrap_or(0);
                    tasks.rotate_left(least);
                    return Err(Fault::Circle { tasks });
                }
                if state[next] == 0 {
                    state[next] = 1;
                    path.push((next, 0));
                }
            } else {
                state[task] = 2;
                path.pop();
            }
        }
    }
    Ok(())
}

/// An order of `n` tasks in which every arc leads forward; the arcs hold no circle.
pub(super) fn forward_order(n: usize, arcs: &[Arc]) -> Vec<usize> {
    let mut waiting = vec![0_usize; n];
    for arc in arcs {
        waiting[arc.to] += 1;
    }
    let mut order: Vec<usize> = (0..n).filter(|&t| waiting[t] == 0).collect();
    let mut next = 0;
    while next < order.len() {
        for arc in arcs.iter().filter(|a| a.from == order[next]).collect::<Vec<_>>() {
            waiting[arc.to] -= 1;
            if waiting[arc.to] == 0 {
                order.push(arc.to);
            }
        }
        next += 1;
    }
    order
}
