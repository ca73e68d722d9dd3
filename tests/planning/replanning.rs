//! Planning again when part of the work has been done.

use rungsheet::compute::planning::{Because, Fault, Lag, Problem, Task, When, Window, plan};

/// Far more than these problems need.
const NODES: u64 = 100_000;

fn task(minutes: i64, crew: u32, uses: &[&str], when: When) -> Task {
    let uses = uses.iter().map(|u| (*u).to_owned()).collect();
    Task { minutes, crew, uses, when, ..Task::default() }
}

fn problem(tasks: Vec<Task>, lags: Vec<Lag>) -> Problem {
    let windows = (0..5).map(|d| Window { from: d * 1440 + 480, to: d * 1440 + 1080, crew: 2 });
    Problem { start: 480, tasks, lags, windows: windows.collect() }
}

#[test]
fn what_was_done_at_night_still_starts_its_cure() {
    let tasks = vec![task(60, 2, &["roof"], When::Done(1320)), task(60, 1, &[], When::Free)];
    let plan =
        plan(&problem(tasks, vec![Lag { from: 0, to: 1, minutes: 720 }]), NODES).expect("a plan");
    // Done 22:00-23:00, cured at 11:00 on the next day.
    assert_eq!(plan.slots[1].start, 1440 + 660);
    assert!(plan.waived.is_empty());
    assert_eq!(plan.chain[0].because, Because::Done);
}

#[test]
fn what_is_running_holds_its_people_and_its_place() {
    let tasks = vec![
        task(300, 1, &["roof"], When::Done(420)),
        task(60, 1, &["roof"], When::Free),
        task(60, 2, &[], When::Free),
        task(60, 1, &[], When::Free),
    ];
    let plan = plan(&problem(tasks, Vec::new()), NODES).expect("a plan");
    // 07:00-12:00: the roof and one of two people are taken until 12:00.
    assert!(plan.slots[1].start >= 720 && plan.slots[2].start >= 720);
    assert_eq!(plan.slots[3].start, 480);
    assert_eq!(plan.finish, 840);
}

#[test]
fn a_lag_that_was_not_kept_is_told_and_holds_nothing_up() {
    let tasks = vec![task(60, 1, &[], When::Free), task(60, 1, &[], When::Done(480))];
    let plan =
        plan(&problem(tasks, vec![Lag { from: 0, to: 1, minutes: 30 }]), NODES).expect("a plan");
    assert_eq!(plan.waived, vec![0]);
    assert_eq!(plan.slots[0].start, 480);
}

#[test]
fn an_appointment_is_kept_with_every_rule() {
    let tasks = vec![task(60, 1, &[], When::At(900)), task(60, 1, &[], When::Free)];
    let wait = |minutes| vec![Lag { from: 1, to: 0, minutes }];
    let made = plan(&problem(tasks.clone(), wait(300)), NODES).expect("a plan");
    assert_eq!((made.slots[0].start, made.slots[1].latest), (900, 600 - 60));
    assert_eq!(
        plan(&problem(tasks, wait(400)), NODES),
        Err(Fault::LatestFinish { tasks: vec![0] })
    );
    let night = vec![task(60, 1, &[], When::At(1200))];
    assert_eq!(plan(&problem(night, Vec::new()), NODES), Err(Fault::NoCommonWindow { task: 0 }));
}

#[test]
fn everything_done_is_a_plan_too() {
    let tasks = vec![task(60, 1, &[], When::Done(480)), task(30, 1, &[], When::Done(600))];
    let made = plan(&problem(tasks, Vec::new()), NODES).expect("a plan");
    assert_eq!((made.finish, made.proven), (630, true));
    let nothing = Problem { start: 480, ..Problem::default() };
    assert_eq!(plan(&nothing, NODES).expect("a plan").finish, 480);
}
