//! Laws that hold for every problem.

use proptest::prelude::*;
use rungsheet::compute::planning::{Lag, Plan, Problem, plan};

use super::checker::faults;
use super::dice::{small_problem, workshop_problem};

/// Enough for every problem drawn here.
const NODES: u64 = 20_000;

fn starts(plan: &Plan) -> Vec<i64> {
    plan.slots.iter().map(|s| s.start).collect()
}

/// The same problem with its tasks in another order.
fn reordered(problem: &Problem, turn: usize) -> Problem {
    let n = problem.tasks.len();
    let place = |i: usize| (n - 1 - i + turn) % n;
    let mut other = problem.clone();
    for (i, task) in problem.tasks.iter().enumerate() {
        other.tasks[place(i)] = task.clone();
    }
    other.lags = problem
        .lags
        .iter()
        .rev()
        .map(|l| Lag { from: place(l.from), to: place(l.to), minutes: l.minutes })
        .collect();
    other
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_plan_keeps_every_rule(seed in 0_u64..1_000_000, n in 4_usize..16) {
        let problem = workshop_problem(seed, n);
        let made = plan(&problem, NODES).expect("two months are long enough");
        prop_assert_eq!(faults(&problem, &starts(&made)), Vec::<String>::new());
        prop_assert!(made.bound <= made.finish && made.proven == (made.bound == made.finish));
    }

    #[test]
    fn another_lag_never_shortens(seed in 0_u64..1_000_000, wait in 0_i64..30) {
        let problem = small_problem(seed, 7);
        if let Ok(plain) = plan(&problem, NODES) {
            let mut held = problem.clone();
            held.lags.push(Lag { from: 0, to: problem.tasks.len() - 1, minutes: wait });
            if let Ok(longer) = plan(&held, NODES) {
                prop_assert!(longer.finish >= plain.bound);
                prop_assert!(!plain.proven || longer.finish >= plain.finish);
            }
        }
    }

    #[test]
    fn more_people_never_lengthen(seed in 0_u64..1_000_000) {
        let problem = small_problem(seed, 7);
        if let Ok(plain) = plan(&problem, NODES) {
            let mut helped = problem.clone();
            helped.windows.iter_mut().for_each(|w| w.crew += 1);
            let shorter = plan(&helped, NODES);
            let shorter = shorter.expect("what a few can do, more can do");
            prop_assert!(!shorter.proven || shorter.finish <= plain.finish);
        }
    }

    #[test]
    fn the_order_of_the_input_does_not_change_the_finish(seed in 0_u64..1_000_000, turn in 0_usize..8) {
        let problem = small_problem(seed, 7);
        let one = plan(&problem, NODES).ok().filter(|p| p.proven).map(|p| p.finish);
        let two = plan(&reordered(&problem, turn), NODES).ok().filter(|p| p.proven);
        prop_assert_eq!(one, two.map(|p| p.finish));
    }

    #[test]
    fn the_same_problem_gives_the_same_plan(seed in 0_u64..1_000_000) {
        let problem = workshop_problem(seed, 9);
        prop_assert_eq!(plan(&problem, NODES), plan(&problem, NODES));
    }
}
