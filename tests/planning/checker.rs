//! Checks a plan minute by minute, from the problem's words alone.

use rungsheet::compute::planning::{Problem, When};

/// What is wrong with these starts; nothing when they are a plan.
pub fn faults(problem: &Problem, starts: &[i64]) -> Vec<String> {
    let mut wrong = Vec::new();
    let end = |i: usize| starts[i] + problem.tasks[i].minutes;
    let fact = |i: usize| matches!(problem.tasks[i].when, When::Done(_));
    for (i, task) in problem.tasks.iter().enumerate() {
        match task.when {
            When::Done(t) => {
                if starts[i] != t {
                    wrong.push(format!("fact {i} was moved"));
                }
                continue;
            }
            When::At(t) if starts[i] != t => wrong.push(format!("appointment {i} was moved")),
            _ => {}
        }
        if starts[i] < task.earliest.unwrap_or(problem.start).max(problem.start) {
            wrong.push(format!("task {i} is early"));
        }
        if task.latest_finish.is_some_and(|t| end(i) > t) {
            wrong.push(format!("task {i} is late"));
        }
        let window = problem
            .windows
            .iter()
            .any(|w| w.crew >= task.crew && w.from <= starts[i] && end(i) <= w.to);
        if task.crew > 0 && !window {
            wrong.push(format!("task {i} is outside working hours"));
        }
        if let Some(allowed) = &task.allowed {
            // Minute by minute, as windows that touch count as one; the end may touch a window's.
            let inside = |t: i64| allowed.iter().any(|s| s.from <= t && t < s.to);
            let mark = task.minutes == 0
                && allowed.iter().any(|s| s.from <= starts[i] && starts[i] <= s.to);
            if !mark && (task.minutes == 0 || !(starts[i]..end(i)).all(inside)) {
                wrong.push(format!("task {i} is outside its allowed windows"));
            }
        }
    }
    for (k, lag) in problem.lags.iter().enumerate() {
        if !fact(lag.to) && starts[lag.to] < end(lag.from) + lag.minutes {
            wrong.push(format!("lag {k} is broken"));
        }
    }
    let mut instants: Vec<i64> = starts.to_vec();
    instants.extend(problem.windows.iter().map(|w| w.from));
    instants.sort_unstable();
    instants.dedup();
    for t in instants {
        let there: Vec<usize> =
            (0..starts.len()).filter(|&i| starts[i] <= t && t < end(i)).collect();
        let people: u32 = there.iter().map(|&i| problem.tasks[i].crew).sum();
        let planned = there.iter().any(|&i| !fact(i) && problem.tasks[i].crew > 0);
        let window = problem.windows.iter().find(|w| w.from <= t && t < w.to);
        if planned && window.is_none_or(|w| w.crew < people) {
            wrong.push(format!("{people} people are at work at {t}"));
        }
        for (x, &a) in there.iter().enumerate() {
            for &b in &there[x + 1..] {
                let shared =
                    problem.tasks[a].uses.iter().any(|u| problem.tasks[b].uses.contains(u));
                if shared && !(fact(a) && fact(b)) {
                    wrong.push(format!("tasks {a} and {b} are in one place at {t}"));
                }
            }
        }
    }
    wrong
}
