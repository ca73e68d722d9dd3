//! Two hundred jobs of sheets whose least cost `HiGHS` found with another model: what can be sawn from
//! each sheet by a table over all sizes of panel, one integer program over it. `reference_sheets.py` makes
//! them; `medium_sheets.json` names the version.
use std::path::Path;

use rungsheet::compute::cutting::{
    Job, SheetJob, SheetPiece, SheetSection, SheetStock, cut_sheets,
};
use serde_json::Value;

use super::sheets::fault;

#[test]
fn agrees_with_another_solver_in_cost() {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cutting/medium_sheets.json");
    let text = std::fs::read_to_string(file).expect("the stored answers");
    let all: Value = serde_json::from_str(&text).expect("stored answers in JSON");
    let jobs = all["jobs"].as_array().expect("a list of jobs");
    assert_eq!(jobs.len(), 200);
    let int = |v: &Value| v.as_i64().expect("stored answers are integers");
    let mut proven = 0;
    for (at, j) in jobs.iter().enumerate() {
        let mut pieces = Vec::new();
        for p in j["parts"].as_array().expect("a list of parts") {
            for _ in 0..int(&p[2]) {
                pieces.push(SheetPiece {
                    id: format!("p{}", pieces.len()),
                    width: int(&p[0]),
                    height: int(&p[1]),
                    turn: p[3].as_bool().expect("yes or no"),
                });
            }
        }
        let stock = j["stock"].as_array().expect("a list of stock");
        let stock = stock
            .iter()
            .enumerate()
            .map(|(k, s)| SheetStock {
                id: format!("s{k}"),
                width: int(&s["width"]),
                height: int(&s["height"]),
                trim: int(&s["trim"]),
                price: s["price"].as_i64(),
                limit: s["limit"].as_u64().map(|l| l as u32),
            })
            .collect();
        let section = SheetSection { name: "plate".into(), kerf: int(&j["kerf"]), pieces, stock };
        let job = SheetJob { sections: vec![section], work_limit: Job::WORK_LIMIT / 12 };
        let plan = cut_sheets(&job).expect("jobs are sound");
        assert_eq!(fault(&job, &plan), None, "job {at}");
        let (found, known) = (&plan.sections[0].cost, int(&j["cost"]));
        // A bound above the least cost, or a proven cost above it, would be a false proof.
        assert!(found.bound <= known && found.value >= known, "job {at}: {found:?}, not {known}");
        if found.proven() {
            assert_eq!(found.value, known, "job {at}");
            proven += 1;
        }
    }
    assert!(proven >= 190, "{proven} of 200 proven");
}
