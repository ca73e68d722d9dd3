//! Reads the training instances.
use std::path::Path;

use rungsheet::compute::cutting::{Job, Piece, Section, Stock};
use serde_json::Value;

/// An instance with what is known of it.
pub struct Instance {
    /// File name without its ending.
    pub name: String,
    /// The job; lengths of workshop instances are turned from tenths to hundredths of a millimetre.
    pub job: Job,
    /// Least cost, or the best known where `open`.
    pub known: i64,
    /// Whether the least cost is not known for certain.
    pub open: bool,
}

fn int(v: &Value) -> i64 {
    v.as_i64().expect("instances hold integers")
}

fn pieces(parts: &Value, unit: i64) -> Vec<Piece> {
    let mut out = Vec::new();
    for (i, p) in parts.as_array().expect("a list of parts").iter().enumerate() {
        for n in 0..int(&p[1]) {
            out.push(Piece { id: format!("{i}.{n}"), length: int(&p[0]) * unit, extra: 0 });
        }
    }
    out
}

fn read(name: &str, v: &Value) -> Instance {
    let sections = if let Some(capacity) = v["capacity"].as_i64() {
        vec![Section {
            name: "bar".into(),
            kerf: 0,
            least_useful: 0,
            pieces: pieces(&v["items"], 1),
            stock: vec![Stock {
                id: "bar".into(),
                length: capacity,
                trim_start: 0,
                trim_end: 0,
                price: Some(1),
                limit: None,
            }],
        }]
    } else {
        let sections = v["sections"].as_array().expect("sections");
        sections
            .iter()
            .map(|s| Section {
                name: s["section"].as_str().expect("a name").into(),
                kerf: int(&v["kerf"]) * 10,
                least_useful: 0,
                pieces: pieces(&s["parts"], 10),
                stock: s["stock"]
                    .as_array()
                    .expect("stock")
                    .iter()
                    .map(|k| Stock {
                        id: k["id"].as_str().expect("an id").into(),
                        length: int(&k["length"]) * 10,
                        trim_start: int(&k["trim_start"]) * 10,
                        trim_end: int(&k["trim_end"]) * 10,
                        price: k["price"].as_i64(),
                        limit: k["limit"].as_u64().map(|l| l as u32),
                    })
                    .collect(),
            })
            .collect()
    };
    let optimum = &v["optimum"];
    let cost = optimum.as_i64().or(optimum["cost"].as_i64());
    Instance {
        name: name.to_owned(),
        job: Job { sections, work_limit: Job::WORK_LIMIT },
        known: cost.unwrap_or_else(|| int(&optimum["best_known"])),
        open: cost.is_none(),
    }
}

/// All instances in the order of their names.
pub fn all() -> Vec<Instance> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cutting/instances");
    let mut files: Vec<_> = std::fs::read_dir(folder)
        .expect("the folder of instances")
        .map(|f| f.expect("a readable entry").path())
        .filter(|p| p.extension().is_some_and(|e| e == "json"))
        .collect();
    files.sort();
    files
        .iter()
        .map(|p| {
            let text = std::fs::read_to_string(p).expect("a readable instance");
            let v: Value = serde_json::from_str(&text).expect("an instance in JSON");
            read(&p.file_stem().expect("a name").to_string_lossy(), &v)
        })
        .collect()
}
