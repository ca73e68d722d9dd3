//! Reads problems of the workshop's kind.

use std::path::Path;

use rungsheet::compute::planning::{Lag, Problem, Task, When, Window};
use serde_json::Value;

fn int(value: &Value) -> i64 {
    value.as_i64().expect("a whole number")
}

fn index(value: &Value) -> usize {
    usize::try_from(int(value)).expect("an index")
}

fn people(value: &Value) -> u32 {
    u32::try_from(int(value)).expect("a number of people")
}

fn list(value: &Value) -> &[Value] {
    value.as_array().expect("a list")
}

/// Reads one file.
fn read(path: &Path) -> (Value, Problem) {
    let text = std::fs::read_to_string(path).expect("the file is there");
    let value: Value = serde_json::from_str(&text).expect("the file is JSON");
    let task = |t: &Value| Task {
        name: t["name"].as_str().expect("a name").into(),
        minutes: int(&t["minutes"]),
        crew: people(&t["crew"]),
        uses: list(&t["uses"]).iter().map(|u| u.as_str().expect("a name").into()).collect(),
        earliest: t["earliest"].as_i64(),
        latest_finish: t["latest_finish"].as_i64(),
        allowed: None,
        when: When::Free,
    };
    let lag =
        |l: &Value| Lag { from: index(&l["from"]), to: index(&l["to"]), minutes: int(&l["min"]) };
    let window =
        |w: &Value| Window { from: int(&w["from"]), to: int(&w["to"]), crew: people(&w["crew"]) };
    let problem = Problem {
        start: 480,
        tasks: list(&value["tasks"]).iter().map(task).collect(),
        lags: list(&value["lags"]).iter().map(lag).collect(),
        windows: list(&value["calendar"]).iter().map(window).collect(),
    };
    (value, problem)
}

/// Every problem of the folder, by file name.
pub fn all(folder: &Path) -> Vec<(Value, Problem)> {
    let mut paths: Vec<_> = std::fs::read_dir(folder)
        .expect("the folder is there")
        .map(|entry| entry.expect("an entry").path())
        .collect();
    paths.sort();
    paths.iter().map(|p| read(p)).collect()
}
