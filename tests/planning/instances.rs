//! Problems of the workshop's kind whose optimum another solver (CP-SAT of OR-Tools, with proof)
//! has found; each file names its source. Where that solver reached no proof, its best known
//! finish must be met.

use std::path::Path;

use rungsheet::compute::planning::plan;

use super::checker::faults;
use super::instance_file;

#[test]
fn known_optima_are_met_and_proven() {
    let mut seen = 0;
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/planning/instances");
    for (value, problem) in instance_file::all(&folder) {
        let name = value["name"].as_str().expect("a name");
        let Some(optimum) = value["optimum"]["finish"].as_i64() else { continue };
        let plan = plan(&problem, 1_000_000).expect("a plan");
        let starts: Vec<i64> = plan.slots.iter().map(|s| s.start).collect();
        assert_eq!(faults(&problem, &starts), Vec::<String>::new(), "{name}");
        assert_eq!(plan.finish, optimum, "{name}");
        assert!(plan.proven && plan.bound == optimum, "{name}");
        seen += 1;
    }
    assert_eq!(seen, 15);
}

/// The other solver stopped without proof after 40 s; one of the two is proven here.
#[test]
fn best_known_finishes_are_met() {
    let (mut seen, mut proven) = (0, 0);
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/planning/instances");
    for (value, problem) in instance_file::all(&folder) {
        let name = value["name"].as_str().expect("a name");
        let Some(known) = value["optimum"]["best_known"].as_i64() else { continue };
        let plan = plan(&problem, 25_000).expect("a plan");
        let starts: Vec<i64> = plan.slots.iter().map(|s| s.start).collect();
        assert_eq!(faults(&problem, &starts), Vec::<String>::new(), "{name}");
        assert!(plan.finish <= known, "{name}: {} is above {known}", plan.finish);
        let lower = value["optimum"]["lower_bound"].as_i64().expect("a bound");
        assert!(plan.bound >= lower, "{name}");
        proven += usize::from(plan.proven);
        seen += 1;
    }
    assert_eq!((seen, proven), (2, 1));
}
