//! Problems without a plan: each says why, and never panics.

use rungsheet::compute::planning::{
    DAY, FARTHEST_MINUTE, Fault, Lag, MOST_TASKS, Problem, Span, Task, Window, plan, repeat_days,
};

/// Far more than these problems need.
const NODES: u64 = 100_000;

fn task(minutes: i64, crew: u32) -> Task {
    Task { minutes, crew, ..Task::default() }
}

fn hours(days: i64, crew: u32) -> Vec<Window> {
    repeat_days(&[Window { from: 480, to: 1080, crew }], 0, days, |_| false).expect("near days")
}

fn fault(tasks: Vec<Task>, lags: Vec<Lag>, windows: Vec<Window>) -> Fault {
    plan(&Problem { start: 480, tasks, lags, windows }, NODES).expect_err("no plan")
}

fn lag(from: usize, to: usize) -> Lag {
    Lag { from, to, minutes: 0 }
}

#[test]
fn a_circle_of_lags_is_named() {
    let tasks = vec![task(10, 0), task(0, 0), task(0, 0), task(10, 0)];
    let lags = vec![lag(0, 3), lag(3, 2), lag(2, 1), lag(1, 3)];
    assert_eq!(fault(tasks, lags, Vec::new()), Fault::Circle { tasks: vec![1, 3, 2] });
    assert_eq!(
        fault(vec![task(5, 0)], vec![lag(0, 0)], Vec::new()),
        Fault::Circle { tasks: vec![0] }
    );
}

#[test]
fn work_that_fits_no_hours_is_named() {
    assert_eq!(fault(vec![task(10, 1)], vec![], vec![]), Fault::NoHours);
    assert_eq!(
        fault(vec![task(10, 1), task(10, 3)], vec![], hours(2, 2)),
        Fault::CrewTooLarge { task: 1, most: 2 }
    );
    assert_eq!(
        fault(vec![task(601, 1)], vec![], hours(2, 2)),
        Fault::LongerThanWindow { task: 0, longest: 600 }
    );
    let allowed = |spans: &[(i64, i64)]| Task {
        allowed: Some(spans.iter().map(|&(from, to)| Span { from, to }).collect()),
        ..task(100, 1)
    };
    assert_eq!(
        fault(vec![allowed(&[(500, 599), (700, 760)])], vec![], hours(2, 2)),
        Fault::LongerThanAllowed { task: 0, longest: 99 }
    );
    assert_eq!(
        fault(vec![allowed(&[(400, 579), (1000, 1900)])], vec![], hours(1, 2)),
        Fault::NoCommonWindow { task: 0 }
    );
}

#[test]
fn a_latest_finish_that_cannot_be_met_is_named() {
    // By lags alone.
    let mut late = vec![task(120, 1), task(60, 1)];
    late[1].latest_finish = Some(650);
    assert_eq!(fault(late, vec![lag(0, 1)], hours(2, 1)), Fault::LatestFinish { tasks: vec![1] });
    // By the crew: two of three must be over by 10:00, and each takes 90 minutes of one person.
    let mut crowd = vec![task(90, 1), task(90, 1), task(90, 1)];
    crowd[0].latest_finish = Some(600);
    crowd[2].latest_finish = Some(600);
    crowd[1].latest_finish = Some(1080);
    assert_eq!(fault(crowd, vec![], hours(2, 1)), Fault::LatestFinish { tasks: vec![0, 2] });
}

#[test]
fn a_calendar_that_ends_too_soon_is_told() {
    assert_eq!(
        fault(vec![task(400, 1), task(400, 1)], vec![lag(0, 1)], hours(1, 1)),
        Fault::CalendarTooShort { task: Some(1) }
    );
    // Each of them has room, but not all.
    let three = vec![task(400, 1), task(400, 1), task(400, 1)];
    assert_eq!(fault(three.clone(), vec![], hours(2, 1)), Fault::CalendarTooShort { task: None });
    let problem = Problem { start: 480, tasks: three, lags: vec![], windows: hours(3, 1) };
    assert_eq!(plan(&problem, NODES).expect("a plan").finish, 2 * DAY + 880);
}

#[test]
fn numbers_without_sense_are_refused() {
    assert_eq!(fault(vec![task(-1, 0)], vec![], vec![]), Fault::NegativeMinutes { task: 0 });
    let negative = vec![Lag { from: 0, to: 1, minutes: -5 }];
    assert_eq!(
        fault(vec![task(1, 0), task(1, 0)], negative, vec![]),
        Fault::NegativeLag { lag: 0 }
    );
    assert_eq!(fault(vec![task(1, 0)], vec![lag(0, 7)], vec![]), Fault::NoSuchTask { lag: 0 });
    assert_eq!(fault(vec![task(i64::MAX, 0)], vec![], vec![]), Fault::Overflow);
    let many = vec![task(1, 0); MOST_TASKS + 1];
    assert_eq!(fault(many, vec![], vec![]), Fault::TooManyTasks { tasks: MOST_TASKS + 1 });
    let window = |from, to| Window { from, to, crew: 1 };
    assert_eq!(
        fault(vec![task(1, 1)], vec![], vec![window(5, 5)]),
        Fault::EmptyWindow { window: 0 }
    );
    assert_eq!(
        fault(vec![task(1, 1)], vec![], vec![window(8, 20), window(0, 10)]),
        Fault::OverlappingWindows { first: 1, second: 0 }
    );
}

#[test]
fn far_times_at_the_edge_are_planned() {
    let mut far = task(10, 0);
    far.earliest = Some(FARTHEST_MINUTE);
    let tasks = vec![far, task(FARTHEST_MINUTE, 0)];
    let lags = vec![Lag { from: 0, to: 1, minutes: FARTHEST_MINUTE }];
    let problem = Problem { start: -FARTHEST_MINUTE, tasks, lags, windows: vec![] };
    assert_eq!(plan(&problem, NODES).expect("a plan").finish, 3 * FARTHEST_MINUTE + 10);
}

#[test]
fn the_calendar_helper_repeats_days_and_leaves_some_out() {
    let day = [Window { from: 480, to: 720, crew: 1 }, Window { from: 780, to: 1080, crew: 2 }];
    let windows = repeat_days(&day, 1, 3, |d| d == 2).expect("near days");
    let from: Vec<i64> = windows.iter().map(|w| w.from).collect();
    assert_eq!(from, [1920, 2220, 4800, 5100]);
    assert_eq!(repeat_days(&day, i64::MAX, 1, |_| false), Err(Fault::Overflow));
    assert_eq!(repeat_days(&day, 0, FARTHEST_MINUTE, |_| false), Err(Fault::Overflow));
}
