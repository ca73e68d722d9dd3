//! Small problems against trying every start of every task.

use rungsheet::compute::planning::{Fault, Problem, When, plan};

use super::checker::faults;
use super::dice::small_problem;

/// The least finish by trying all starts, task after task, cutting only what breaks a rule or
/// cannot be better.
fn least_finish(problem: &Problem) -> Option<i64> {
    let tasks = &problem.tasks;
    let waits: i64 = problem.lags.iter().map(|l| l.minutes).sum();
    let work: i64 = tasks.iter().map(|t| t.minutes).sum();
    let ends = problem.windows.iter().map(|w| w.to);
    let dates = tasks.iter().flat_map(|t| {
        let spans = t.allowed.iter().flatten().map(|s| s.to);
        let fact = match t.when {
            When::Free => 0,
            When::At(m) | When::Done(m) => m + t.minutes,
        };
        spans.chain(t.earliest).chain([fact]).collect::<Vec<_>>()
    });
    let last = ends.chain(dates).max().unwrap_or(0) + waits + work;
    let mut starts = vec![None; tasks.len()];
    let mut floor = problem.start;
    for (i, task) in tasks.iter().enumerate() {
        if let When::Done(t) = task.when {
            starts[i] = Some(t);
            floor = floor.max(t + task.minutes);
        }
    }
    let mut best = last + 1;
    place(problem, 0, &mut starts, floor, &mut best);
    (best <= last).then_some(best)
}

/// Lags lead from lower to higher indices, so those before `i` are placed.
fn place(problem: &Problem, i: usize, starts: &mut Vec<Option<i64>>, finish: i64, best: &mut i64) {
    let Some(task) = problem.tasks.get(i) else {
        *best = finish;
        return;
    };
    if let When::Done(_) = task.when {
        place(problem, i + 1, starts, finish, best);
        return;
    }
    let waits = problem.lags.iter().filter(|l| l.to == i);
    let ready = waits.map(|l| {
        let from = starts[l.from].expect("placed before");
        from + problem.tasks[l.from].minutes + l.minutes
    });
    let first = ready.max().unwrap_or(problem.start).max(problem.start);
    for start in first.. {
        let ends = finish.max(start + task.minutes);
        if ends >= *best {
            return;
        }
        starts[i] = Some(start);
        if fits(problem, starts) {
            place(problem, i + 1, starts, ends, best);
        }
        starts[i] = None;
    }
}

/// Whether the tasks placed so far make a plan of their own.
fn fits(problem: &Problem, starts: &[Option<i64>]) -> bool {
    let placed: Vec<usize> = (0..starts.len()).filter(|&k| starts[k].is_some()).collect();
    let mut part = problem.clone();
    part.tasks = placed.iter().map(|&k| problem.tasks[k].clone()).collect();
    part.lags.clear();
    let starts: Vec<i64> = placed.iter().filter_map(|&k| starts[k]).collect();
    faults(&part, &starts).is_empty()
}

/// How many problems of the seeds had a plan; each outcome is held against the brute force.
fn compare(seeds: std::ops::Range<u64>, most: i64) -> usize {
    let mut planned = 0;
    for seed in seeds {
        let problem = small_problem(seed, most);
        let expected = least_finish(&problem);
        match plan(&problem, 1_000_000) {
            Ok(plan) => {
                let starts: Vec<i64> = plan.slots.iter().map(|s| s.start).collect();
                assert_eq!(faults(&problem, &starts), Vec::<String>::new(), "seed {seed}");
                assert!(plan.proven, "seed {seed}");
                assert_eq!(Some(plan.finish), expected, "seed {seed}");
                planned += 1;
            }
            Err(fault) => {
                assert_eq!(expected, None, "seed {seed}: {fault}");
                assert_ne!(fault, Fault::LimitReached, "seed {seed}");
            }
        }
    }
    planned
}

#[test]
fn plans_of_small_problems_are_the_best_there_are() {
    let planned = compare(0..200, 5);
    assert!(planned >= 100, "{planned} of the problems had a plan");
}
