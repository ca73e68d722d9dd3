//! Training instances with proven optima. The textbook ones are data as recalled; their optima and
//! those of the workshop instances were proven by two other exact models (see each file's source).
use rungsheet::compute::cutting::{Job, cut};

use super::instance::all;
use super::support::fault;

#[test]
fn every_instance_is_cut_at_its_least_cost_with_proof() {
    let instances = all();
    assert_eq!(instances.len(), 26);
    for mut i in instances {
        // Enough for the proof of cost; less is spent on the criteria after it.
        i.job.work_limit = Job::WORK_LIMIT / 12;
        let plan = cut(&i.job).expect("instances are sound");
        assert_eq!(fault(&i.job, &plan), None, "{}", i.name);
        let total = plan.price();
        if i.open {
            assert!(total.value <= i.known, "{}: {} above the best known", i.name, total.value);
        } else {
            assert_eq!(total.value, i.known, "{}", i.name);
            assert!(plan.proven(), "{}: bound {}", i.name, total.bound);
        }
    }
}
