//! What a plan says of each task: float, people, and the chain that decides the finish.

use rungsheet::compute::planning::{Because, Lag, Problem, Task, When, Window, plan};

/// Far more than these problems need.
const NODES: u64 = 100_000;

use super::checker::faults;
use super::dice::small_problem;

fn task(name: &str, minutes: i64, crew: u32, uses: &[&str]) -> Task {
    let uses = uses.iter().map(|u| (*u).to_owned()).collect();
    Task { name: name.into(), minutes, crew, uses, ..Task::default() }
}

/// Two ten-hour days from 08:00.
fn two_days(crew: u32) -> Vec<Window> {
    [480, 1920].map(|from| Window { from, to: from + 600, crew }).to_vec()
}

/// A bead cures for 12 hours over night; wiring can be done beside it. Worked by hand.
#[test]
fn a_cure_runs_through_the_night_and_decides_the_finish() {
    let problem = Problem {
        start: 480,
        tasks: vec![
            task("bond", 120, 2, &["roof"]),
            task("wire", 240, 1, &[]),
            task("load", 60, 2, &["roof"]),
        ],
        lags: vec![Lag { from: 0, to: 2, minutes: 720 }],
        windows: two_days(2),
    };
    let plan = plan(&problem, NODES).expect("a plan");
    // Bond 08:00-10:00; cured at 22:00; load at 08:00 on the next day, finished at 09:00.
    assert_eq!((plan.finish, plan.proven), (1980, true));
    assert_eq!(plan.slots[0].start, 480);
    assert_eq!(plan.slots[2].start, 1920);
    let reasons: Vec<_> = plan.chain.iter().map(|l| (l.task, l.because.clone())).collect();
    assert_eq!(reasons, vec![(0, Because::Hours), (2, Because::Lag { lag: 0, task: 0 })]);
    // Bonding may start as late as 16:00: until the end of hours, and cured by 06:00.
    assert_eq!((plan.slots[0].latest, plan.slots[0].float), (960, 480));
    // Wiring has until 18:00 of the first day: on the second it would end after the plan.
    assert_eq!(plan.slots[1].latest, 840);
    assert_eq!(plan.minutes_by_person.iter().sum::<i64>(), 2 * 120 + 240 + 2 * 60);
}

#[test]
fn one_place_makes_a_chain_of_its_tasks() {
    let problem = Problem {
        start: 480,
        tasks: (0..3).map(|i| task(&format!("step {i}"), 100, 1, &["roof"])).collect(),
        lags: Vec::new(),
        windows: two_days(3),
    };
    let plan = plan(&problem, NODES).expect("a plan");
    assert_eq!(plan.finish, 780);
    assert_eq!(plan.chain.len(), 3);
    assert!(matches!(&plan.chain[2].because, Because::Place { place, .. } if place == "roof"));
    assert!(plan.slots.iter().all(|s| s.slip == 0));
}

/// Every plan: people are never in two places, nobody is missing, each chain hangs together, and
/// no task could start sooner with the others where they are.
#[test]
fn people_and_chains_hold_together() {
    for seed in 0..400 {
        let problem = small_problem(seed, 7);
        let Ok(plan) = plan(&problem, NODES) else { continue };
        let mut minutes = vec![0; plan.minutes_by_person.len()];
        for (i, slot) in plan.slots.iter().enumerate() {
            let task = &problem.tasks[i];
            let needed = if task.minutes == 0 { 0 } else { task.crew as usize };
            assert_eq!(slot.people.len(), needed, "seed {seed}");
            for &person in &slot.people {
                minutes[person as usize - 1] += task.minutes;
                let clash = plan.slots[..i].iter().any(|s| {
                    s.people.contains(&person) && s.start < slot.finish && slot.start < s.finish
                });
                assert!(!clash, "seed {seed}: person {person} is wanted twice");
            }
            assert!(slot.float >= 0 && slot.slip >= 0, "seed {seed}");
            if task.when == When::Free {
                assert!((slot.earliest..=slot.latest).contains(&slot.start), "seed {seed}");
            }
        }
        assert_eq!(minutes, plan.minutes_by_person, "seed {seed}");
        let last = plan.chain.last().expect("there are tasks");
        assert_eq!(plan.slots[last.task].finish, plan.finish, "seed {seed}");
        assert_eq!(plan.chain[0].because.task(), None, "seed {seed}");
        for pair in plan.chain.windows(2) {
            assert_eq!(pair[1].because.task(), Some(pair[0].task), "seed {seed}");
            let from = plan.slots[pair[0].task].finish;
            assert!(from <= plan.slots[pair[1].task].start, "seed {seed}");
        }
        let starts: Vec<i64> = plan.slots.iter().map(|s| s.start).collect();
        for (i, task) in problem.tasks.iter().enumerate() {
            if task.when != When::Free {
                continue;
            }
            for sooner in problem.start..starts[i] {
                let mut moved = starts.clone();
                moved[i] = sooner;
                assert!(!faults(&problem, &moved).is_empty(), "seed {seed}: {i} could be sooner");
            }
            let mut moved = starts.clone();
            moved[i] += plan.slots[i].slip;
            assert!(faults(&problem, &moved).is_empty(), "seed {seed}: {i} cannot slip");
        }
    }
}

/// A task begun at its latest start, with all before it where they are, leaves the finish as it is: the
/// solver itself finds a plan around it. One step later it does not always, but never by the task alone.
#[test]
fn what_starts_at_its_latest_ends_nothing_later() {
    let mut later = 0;
    for seed in 0..160 {
        let problem = small_problem(seed, 7);
        let Ok(first) = plan(&problem, NODES) else { continue };
        for (i, slot) in first.slots.iter().enumerate() {
            assert!(slot.last_in_turn >= slot.start + slot.slip, "seed {seed}: {i}");
            assert!(slot.last_in_turn <= slot.latest.max(slot.start), "seed {seed}: {i}");
            if problem.tasks[i].when != When::Free || slot.last_in_turn == slot.start {
                continue;
            }
            later += usize::from(slot.last_in_turn > slot.start + slot.slip);
            let mut held = problem.clone();
            held.tasks[i].when = When::At(slot.last_in_turn);
            for (k, other) in first.slots.iter().enumerate() {
                if other.start < slot.start && problem.tasks[k].when == When::Free {
                    held.tasks[k].when = When::At(other.start);
                }
            }
            let again = plan(&held, NODES)
                .unwrap_or_else(|fault| panic!("seed {seed}: {i} can't start then: {fault}"));
            assert!(again.finish <= first.finish, "seed {seed}: {i} moves the end");
        }
    }
    assert!(later > 10, "{later} moved along with what follows");
}
