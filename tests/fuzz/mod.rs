//! The bodies of the fuzz targets, on their seeds and on what they once found, and on damaged seeds.

mod bodies;

use proptest::prelude::*;
use std::path::{Path, PathBuf};

type Body = fn(&[u8]);
const TARGETS: [(&str, Body); 3] =
    [("read", bodies::read), ("quantities", bodies::quantities), ("recover", bodies::recover)];

fn home() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fuzz")
}

fn seeds(target: &str) -> Vec<Vec<u8>> {
    let folder = home().join("seeds").join(target);
    let entries = std::fs::read_dir(&folder).expect("every target has seeds");
    let mut files: Vec<PathBuf> = entries.map(|entry| entry.expect("an entry").path()).collect();
    files.sort();
    files.iter().map(|path| std::fs::read(path).expect("a seed can be read")).collect()
}

#[test]
fn seeds_and_finds_are_survived() {
    for (target, body) in TARGETS {
        let seeds = seeds(target);
        assert!(seeds.len() >= 2, "{target}");
        for bytes in seeds {
            body(&bytes);
        }
    }
}

#[test]
fn each_target_is_a_file_and_a_row() {
    let rows =
        std::fs::read_to_string(home().join("Cargo.toml")).expect("the targets' own package");
    for (target, _) in TARGETS {
        assert!(rows.contains(&format!("path = \"targets/{target}.rs\"")), "{target}");
        let code = std::fs::read_to_string(home().join(format!("targets/{target}.rs")));
        assert!(code.expect("a target").contains(&format!("bodies::{target}(bytes)")), "{target}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    /// Two seeds spliced, with bytes changed: what a fuzzer does, a little of it on every run.
    #[test]
    fn spliced_seeds_are_survived(
        target in 0..TARGETS.len(),
        pair in any::<[prop::sample::Index; 2]>(),
        cuts in any::<[prop::sample::Index; 2]>(),
        changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 0..4),
    ) {
        let (name, body) = TARGETS[target];
        let seeds = seeds(name);
        let [a, b] = pair.map(|at| &seeds[at.index(seeds.len())]);
        let [from, to] = [(cuts[0], a), (cuts[1], b)].map(|(cut, seed)| cut.index(seed.len() + 1));
        let mut bytes = [&a[..from], &b[to..]].concat();
        for (at, value) in changes {
            if !bytes.is_empty() {
                let at = at.index(bytes.len());
                bytes[at] = value;
            }
        }
        body(&bytes);
    }
}
