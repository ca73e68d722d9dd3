//! Times the planner on each known problem: `cargo bench --bench planning`.

use std::path::Path;
use std::time::Instant;

use rungsheet::compute::planning::{plan, usual_nodes};

#[path = "../planning/instance_file.rs"]
mod instance_file;

fn main() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/planning/instances");
    let mut times = Vec::new();
    println!(
        "{:32} {:>8} {:>8} {:>7} {:>8} {:>10}",
        "problem", "finish", "bound", "proven", "nodes", "ms"
    );
    for (value, problem) in instance_file::all(&folder) {
        let name = value["name"].as_str().unwrap_or("?");
        let begin = Instant::now();
        match plan(&problem, usual_nodes(problem.tasks.len())) {
            Ok(plan) => {
                let ms = begin.elapsed().as_secs_f64() * 1000.0;
                times.push(ms);
                println!(
                    "{name:32} {:>8} {:>8} {:>7} {:>8} {ms:>10.1}",
                    plan.finish, plan.bound, plan.proven, plan.nodes
                );
            }
            Err(fault) => println!("{name:32} {fault}"),
        }
    }
    times.sort_by(f64::total_cmp);
    if let Some(median) = times.get(times.len() / 2) {
        println!("median {median:.1} ms, longest {:.1} ms", times[times.len() - 1]);
    }
}
