//! Plans that only lags hold back, against longest paths by networkx (its version stands in the
//! file; `longest_paths.py` beside it wrote it).

use rungsheet::compute::planning::{Lag, Problem, Task, plan};
use serde_json::Value;

fn ints(value: &Value) -> Vec<i64> {
    value.as_array().expect("a list").iter().map(|v| v.as_i64().expect("a number")).collect()
}

#[test]
fn with_lags_alone_the_finish_is_the_longest_path() {
    let file: Value = serde_json::from_str(include_str!("longest_paths.json")).expect("JSON");
    let examples = file["examples"].as_array().expect("a list");
    assert!(examples.len() >= 20);
    for (number, example) in examples.iter().enumerate() {
        let tasks = ints(&example["minutes"])
            .into_iter()
            .map(|minutes| Task { minutes, ..Task::default() })
            .collect();
        let lag = |l: &Value| {
            let l = ints(l);
            let index = |i: i64| usize::try_from(i).expect("an index");
            Lag { from: index(l[0]), to: index(l[1]), minutes: l[2] }
        };
        let lags = example["lags"].as_array().expect("a list").iter().map(lag).collect();
        let problem = Problem { start: 0, tasks, lags, windows: Vec::new() };
        let plan = plan(&problem, 1000).expect("a plan");
        assert!(plan.proven, "example {number}");
        assert_eq!(Some(plan.finish), example["finish"].as_i64(), "example {number}");
        let column = |of: fn(&rungsheet::compute::planning::Slot) -> i64| -> Vec<i64> {
            plan.slots.iter().map(of).collect()
        };
        assert_eq!(column(|s| s.earliest), ints(&example["earliest"]), "example {number}");
        assert_eq!(column(|s| s.latest), ints(&example["latest"]), "example {number}");
        assert_eq!(column(|s| s.start), ints(&example["earliest"]), "example {number}");
        // With nothing but lags, what follows moves along as far as they let it.
        assert_eq!(column(|s| s.last_in_turn), ints(&example["latest"]), "example {number}");
    }
}
