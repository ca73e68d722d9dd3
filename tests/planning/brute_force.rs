//! Small problems against trying every start of every task.

use rungsheet::compute::planning::{
    Fault, Hours, Lag, Plan, Problem, Task, When, Window, gathered, plan, plan_by_hour,
};

use super::checker::faults;
use super::dice::{Dice, small_problem};

/// Minutes of wait of a lag after an end at a minute.
type Waits<'a> = &'a dyn Fn(usize, i64) -> i64;

/// The least finish by trying all starts, task after task, cutting only what breaks a rule or
/// cannot be better.
fn least_finish(problem: &Problem, wait: Waits<'_>, longer: i64) -> Option<i64> {
    let last = horizon(problem) + longer * problem.lags.len().cast_signed() as i64;
    let mut best = last + 1;
    all_plans(problem, wait, last, &mut |_, finish| {
        best = finish;
        finish - 1
    });
    (best <= last).then_some(best)
}

/// No best plan ends later.
fn horizon(problem: &Problem) -> i64 {
    let tasks = &problem.tasks;
    let waits: i64 = problem.lags.iter().map(|l| l.minutes.max(0)).sum();
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
    ends.chain(dates).max().unwrap_or(0) + waits + work
}

/// Shows every plan that ends by `last`; the answer to each is the latest end of those still looked for.
fn all_plans(
    problem: &Problem,
    wait: Waits<'_>,
    last: i64,
    show: &mut dyn FnMut(&[i64], i64) -> i64,
) {
    let mut starts = vec![None; problem.tasks.len()];
    let mut floor = problem.start;
    for (i, task) in problem.tasks.iter().enumerate() {
        if let When::Done(t) = task.when {
            starts[i] = Some(t);
            floor = floor.max(t + task.minutes);
        }
    }
    let mut most = last;
    place(problem, wait, 0, &mut starts, floor, &mut most, show);
}

/// Lags lead from lower to higher indices, so those before `i` are placed.
fn place(
    problem: &Problem,
    wait: Waits<'_>,
    i: usize,
    starts: &mut Vec<Option<i64>>,
    finish: i64,
    most: &mut i64,
    show: &mut dyn FnMut(&[i64], i64) -> i64,
) {
    if finish > *most {
        return;
    }
    let Some(task) = problem.tasks.get(i) else {
        let all: Vec<i64> = starts.iter().filter_map(|start| *start).collect();
        *most = show(&all, finish);
        return;
    };
    if let When::Done(_) = task.when {
        place(problem, wait, i + 1, starts, finish, most, show);
        return;
    }
    let waits = problem.lags.iter().enumerate().filter(|(_, l)| l.to == i);
    let ready = waits.map(|(index, l)| {
        let end = starts[l.from].expect("placed before") + problem.tasks[l.from].minutes;
        end + wait(index, end)
    });
    let first = ready.max().unwrap_or(problem.start).max(problem.start);
    for start in first.. {
        let ends = finish.max(start + task.minutes);
        if ends > *most {
            return;
        }
        starts[i] = Some(start);
        if fits(problem, starts) {
            place(problem, wait, i + 1, starts, ends, most, show);
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
fn compare(seeds: std::ops::Range<u64>, problem: impl Fn(u64) -> Problem) -> usize {
    let mut planned = 0;
    for seed in seeds {
        let problem = problem(seed);
        let expected = least_finish(&problem, &|lag, _| problem.lags[lag].minutes, 0);
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
    let planned = compare(0..200, |seed| small_problem(seed, 5));
    assert!(planned >= 100, "{planned} of the problems had a plan");
    // With a crew of two and tasks that overlap in part, as where one person helps another.
    let planned = compare(0..120, |seed| waiting_problem(seed, 5));
    assert!(planned >= 50, "{planned} of the problems had a plan");
}

/// A small problem in which the last task also waits for the first, and two tasks may overlap of which
/// the second begins and ends after the first.
fn waiting_problem(seed: u64, most: i64) -> Problem {
    let mut problem = small_problem(seed, most);
    if problem.tasks.len() > 2 && !problem.lags.iter().any(|lag| (lag.from, lag.to) == (0, 1)) {
        let minutes = -problem.tasks[0].minutes.min(1 + (seed % 2).cast_signed());
        problem.lags.push(Lag { from: 0, to: 1, minutes });
    }
    let to = problem.tasks.len() - 1;
    problem.lags.push(Lag { from: 0, to, minutes: 1 + (seed % 4).cast_signed() });
    problem
}

/// A joint that cures before the next step, more before the last, and work that may fill the wait.
fn curing_problem(seed: u64) -> Problem {
    let mut dice = Dice(seed);
    let crew = u32::try_from(dice.roll(1, 2)).expect("small");
    let day = 10;
    let windows =
        (0..3).map(|d| Window { from: d * day, to: d * day + dice.roll(6, 8), crew }).collect();
    let mut task = |name: &str, longest: i64| Task {
        name: name.into(),
        minutes: dice.roll(1, longest),
        crew: u32::try_from(dice.roll(1, i64::from(crew))).expect("small"),
        ..Task::default()
    };
    let tasks =
        vec![task("bond", 2), task("bolt", 2), task("wire", 2), task("store", 2), task("check", 1)];
    let mut lags = vec![
        Lag { from: 0, to: 1, minutes: dice.roll(2, 4) },
        Lag { from: 0, to: 4, minutes: dice.roll(7, 12) },
    ];
    lags.extend((1..4).map(|from| Lag { from, to: 4, minutes: 0 }));
    Problem { start: 0, tasks, lags, windows }
}

/// Where a wait ends at the next multiple of a few minutes only, as a cure does that must see a morning:
/// the least finish is that of trying every start.
#[test]
fn waits_by_the_hour_are_kept_and_the_finish_is_the_least() {
    let mut longer = 0;
    for seed in 0..120 {
        let problem = waiting_problem(seed, 5);
        let turn = 2 + (seed % 5).cast_signed();
        let wait = |lag: usize, end: i64| {
            let least = problem.lags[lag].minutes;
            least + (turn - (end + least).rem_euclid(turn)).rem_euclid(turn)
        };
        let lags: Vec<usize> = (0..problem.lags.len()).collect();
        let hours = Hours { lags: &lags, step: 1, wait: &wait };
        let expected = least_finish(&problem, &wait, turn);
        let steady = plan(&problem, 1_000_000).ok().map(|plan| plan.finish);
        match plan_by_hour(&problem, hours, 1_000_000) {
            Ok(plan) => {
                let starts: Vec<i64> = plan.slots.iter().map(|s| s.start).collect();
                assert_eq!(faults(&problem, &starts), Vec::<String>::new(), "seed {seed}");
                for (index, lag) in problem.lags.iter().enumerate() {
                    let end = plan.slots[lag.from].finish;
                    let fact = matches!(problem.tasks[lag.to].when, When::Done(_));
                    assert!(fact || starts[lag.to] >= end + wait(index, end), "seed {seed}");
                }
                assert!(plan.proven, "seed {seed}");
                assert_eq!(Some(plan.finish), expected, "seed {seed}");
                longer += usize::from(steady < expected);
                let latest = plan.slots.iter().enumerate().filter(|(i, slot)| {
                    problem.tasks[*i].when == When::Free && slot.last_in_turn > slot.start
                });
                for (i, slot) in latest {
                    held_at(&problem, hours, &plan, i, slot.last_in_turn, seed);
                }
            }
            Err(fault) => assert_eq!(expected, None, "seed {seed}: {fault}"),
        }
    }
    assert!(longer > 8, "{longer} problems took longer than with steady waits");
}

/// With a task at its latest and what comes before it where it is, the plan ends no later.
fn held_at(problem: &Problem, hours: Hours<'_>, first: &Plan, i: usize, at: i64, seed: u64) {
    let mut held = problem.clone();
    held.tasks[i].when = When::At(at);
    for (k, other) in first.slots.iter().enumerate() {
        if other.start < first.slots[i].start && problem.tasks[k].when == When::Free {
            held.tasks[k].when = When::At(other.start);
        }
    }
    let again = plan_by_hour(&held, hours, 1_000_000)
        .unwrap_or_else(|fault| panic!("seed {seed}: {i} can't start at {at}: {fault}"));
    assert!(again.finish <= first.finish, "seed {seed}: {i} moves the end");
}

/// Windows in which free tasks are at work, and the minutes between the first and the last of each in
/// which none is.
fn days_and_idle(problem: &Problem, starts: &[i64]) -> (Vec<usize>, i64) {
    let mut idle = 0;
    let mut days = Vec::new();
    for (index, window) in problem.windows.iter().enumerate() {
        let here: Vec<(i64, i64)> = (0..starts.len())
            .filter(|&i| {
                let task = &problem.tasks[i];
                let free = !matches!(task.when, When::Done(_));
                free && task.crew > 0 && task.minutes > 0
            })
            .map(|i| (starts[i], starts[i] + problem.tasks[i].minutes))
            .filter(|(start, _)| (window.from..window.to).contains(start))
            .collect();
        let Some(first) = here.iter().map(|h| h.0).min() else { continue };
        let last = here.iter().map(|h| h.1).max().expect("there is one");
        days.push(index);
        let busy = |t: &i64| here.iter().any(|h| h.0 <= *t && *t < h.1);
        idle += (first..last).filter(|t| !busy(t)).count().cast_signed() as i64;
    }
    (days, idle)
}

/// Gathered work ends no later, on the fewest days, and on these with the least idle time, as trying
/// every plan that ends as soon shows.
#[test]
fn gathered_work_has_the_fewest_days_and_the_least_waiting() {
    let (mut fewer, mut less, mut tried) = (0, 0, 0);
    for seed in 0..240 {
        let problem = match seed % 3 {
            0 => small_problem(seed, 4),
            1 => waiting_problem(seed, 4),
            _ => curing_problem(seed),
        };
        let Ok(first) = plan(&problem, 1_000_000) else { continue };
        let made = gathered(&problem, Hours::NONE, &first, 1_000_000).expect("a plan is known");
        let starts: Vec<i64> = made.plan.slots.iter().map(|s| s.start).collect();
        assert_eq!(faults(&problem, &starts), Vec::<String>::new(), "seed {seed}");
        assert!(made.plan.finish <= first.finish, "seed {seed}");
        let work_end = |starts: &[i64]| {
            let works = |i: &usize| problem.tasks[*i].crew > 0 && problem.tasks[*i].minutes > 0;
            let ends =
                (0..starts.len()).filter(works).map(|i| starts[i] + problem.tasks[i].minutes);
            ends.max().unwrap_or(i64::MIN)
        };
        let early: Vec<i64> = first.slots.iter().map(|s| s.start).collect();
        assert!(work_end(&starts) <= work_end(&early), "seed {seed}");
        let (days, idle) = days_and_idle(&problem, &starts);
        assert_eq!((days.len(), idle), (made.days, made.idle), "seed {seed}");
        assert!(made.days_proven && made.least_idle == made.idle, "seed {seed}");
        let (mut fewest, mut least) = (usize::MAX, i64::MAX);
        let steady = |lag: usize, _| problem.lags[lag].minutes;
        all_plans(&problem, &steady, first.finish, &mut |other, _| {
            if work_end(other) <= work_end(&early) {
                let (on, waits) = days_and_idle(&problem, other);
                fewest = fewest.min(on.len());
                if on.iter().all(|day| days.contains(day)) {
                    least = least.min(waits);
                }
            }
            first.finish
        });
        assert_eq!((days.len(), idle), (fewest, least), "seed {seed}");
        let (before, waited) = days_and_idle(&problem, &early);
        fewer += usize::from(days.len() < before.len());
        less += usize::from(days.len() == before.len() && idle < waited);
        tried += 1;
    }
    assert!(tried > 100 && fewer > 0 && less > 10, "{tried} tried: {fewer} fewer, {less} less");
}
