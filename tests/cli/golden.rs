//! Packets of the examples as they were last looked at: they change on purpose only. Figures are not held so:
//! their last digits are those of the system's mathematics, which no sheet shows.
//!
//! Read what changed (`rungsheet compare old.pdf new.toml`, or the pages side by side), then
//! `REWRITE=1 cargo test --test all golden` writes the list anew.

use super::{Bench, example};
use sha2::{Digest, Sha256};
use std::fmt::Write;
use std::path::Path;

#[test]
fn examples_are_printed_as_they_were() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut names: Vec<String> = std::fs::read_dir(root.join("examples"))
        .expect("examples")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|end| end == "toml"))
        .filter_map(|path| Some(path.file_name()?.to_string_lossy().into_owned()))
        .collect();
    names.sort();
    let lines: Vec<String> = std::thread::scope(|scope| {
        let all: Vec<_> = names.iter().map(|name| scope.spawn(|| line(name))).collect();
        all.into_iter().map(|one| one.join().expect("it prints")).collect()
    });
    let mut told = String::from("# example, its packet (SHA-256, first 16 digits)\n");
    told.extend(lines);
    let path = root.join("tests/cli/golden.txt");
    if std::env::var_os("REWRITE").is_some() {
        std::fs::write(&path, &told).expect("the list is written");
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    let changed: Vec<&str> =
        told.lines().filter(|line| !kept.lines().any(|old| old == *line)).collect();
    assert!(
        kept == told,
        "what is printed has changed: {changed:#?}\nif that is meant: REWRITE=1 cargo test --test all golden"
    );
}

fn line(name: &str) -> String {
    let bench = Bench::new();
    bench.file("build.toml", example(name));
    bench.run(&["print", "build.toml", "-o", "packet.pdf"]).code(0);
    format!("{name} {}\n", hash(&bench.path("packet.pdf")))
}

fn hash(path: &Path) -> String {
    let digest = Sha256::digest(std::fs::read(path).expect("it was written"));
    digest.iter().take(8).fold(String::new(), |mut told, byte| {
        write!(told, "{byte:02x}").expect("a String takes it");
        told
    })
}
