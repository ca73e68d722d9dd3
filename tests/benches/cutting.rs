//! Prints cost, bound, proof and time of every training instance.
#[path = "../cutting/instance.rs"]
mod instance;

use std::time::Instant;

use rungsheet::compute::cutting::cut;

fn main() {
    println!(
        "{:36} {:>9} {:>9} {:>7} {:>9} {:>9} {:>4} {:>4} {:>7} {:>9}",
        "instance", "cost", "bound", "known", "leftover", "bound", "sets", "bnd", "nodes", "ms"
    );
    let mut times = Vec::new();
    for i in instance::all() {
        let begin = Instant::now();
        let plan = cut(&i.job).expect("instances are sound");
        let ms = begin.elapsed().as_secs_f64() * 1000.0;
        times.push(ms);
        let sum = |f: &dyn Fn(&rungsheet::compute::cutting::SectionPlan) -> i64| -> i64 {
            plan.sections.iter().map(f).sum()
        };
        println!(
            "{:36} {:>9} {:>9} {:>7} {:>9} {:>9} {:>4} {:>4} {:>7} {:>9.2}",
            i.name,
            sum(&|s| s.cost.value),
            sum(&|s| s.cost.bound),
            if i.open { format!("<={}", i.known) } else { i.known.to_string() },
            sum(&|s| s.leftover.value),
            sum(&|s| s.leftover.bound),
            sum(&|s| s.set_ups.value),
            sum(&|s| s.set_ups.bound),
            sum(&|s| (s.cost.nodes + s.leftover.nodes + s.set_ups.nodes) as i64),
            ms
        );
    }
    times.sort_by(f64::total_cmp);
    println!("median {:.2} ms, worst {:.2} ms", times[times.len() / 2], times[times.len() - 1]);
}
