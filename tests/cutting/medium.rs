//! Two hundred jobs whose least cost and longest leftover `HiGHS` found with another model: every
//! pattern listed, one integer program. `reference.py` makes them; `medium.json` names the version.
use std::path::Path;

use rungsheet::compute::cutting::{Job, Piece, Stock, cut};
use serde_json::Value;

use super::support::{fault, job};

#[test]
fn agrees_with_another_solver_in_cost_and_leftover() {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cutting/medium.json");
    let text = std::fs::read_to_string(file).expect("the stored answers");
    let all: Value = serde_json::from_str(&text).expect("stored answers in JSON");
    let jobs = all["jobs"].as_array().expect("a list of jobs");
    assert_eq!(jobs.len(), 200);
    let int = |v: &Value| v.as_i64().expect("stored answers are integers");
    for (at, j) in jobs.iter().enumerate() {
        let mut pieces = Vec::new();
        for p in j["parts"].as_array().expect("a list of parts") {
            for _ in 0..int(&p[1]) {
                pieces.push(Piece {
                    id: format!("p{}", pieces.len()),
                    length: int(&p[0]),
                    extra: 0,
                });
            }
        }
        let stock = j["stock"].as_array().expect("a list of stock");
        let stock = stock
            .iter()
            .enumerate()
            .map(|(k, s)| Stock {
                id: format!("s{k}"),
                length: int(&s["length"]),
                trim_start: int(&s["trim_start"]),
                trim_end: int(&s["trim_end"]),
                price: s["price"].as_i64(),
                limit: s["limit"].as_u64().map(|l| l as u32),
            })
            .collect();
        let mut job = job(int(&j["kerf"]), pieces, stock);
        job.work_limit = Job::WORK_LIMIT / 12;
        let plan = cut(&job).expect("jobs are sound");
        assert_eq!(fault(&job, &plan), None, "job {at}");
        let s = &plan.sections[0];
        assert!(s.cost.proven(), "job {at}: no proof");
        assert_eq!(s.cost.value, int(&j["cost"]), "job {at}: cost");
        assert!(s.leftover.proven(), "job {at}: no proof of the leftover");
        assert_eq!(s.leftover.value, int(&j["leftover"]), "job {at}: leftover");
    }
}
