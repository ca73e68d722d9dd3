//! What several tests share: finding fixtures, reading them, and comparing exact output.

use rungsheet::source::{Finding, Text};
use rungsheet::tables::Tables;
use rungsheet::terminal::{Look, drawn, tally};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};

/// The build files of a folder under `tests`, by name.
pub fn build_files(folder: &str) -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests").join(folder);
    let entries =
        std::fs::read_dir(&folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
    let mut files: Vec<PathBuf> = entries
        .map(|entry| entry.expect("a folder that can be listed").path())
        .filter(|path| path.extension().is_some_and(|end| end == "toml"))
        .collect();
    files.sort();
    files
}

/// What the user sees for a file: every finding, and how many there are.
pub fn shown(path: &Path) -> (Vec<Finding>, String) {
    let name = path.file_name().expect("a file has a name").to_string_lossy();
    let bytes = std::fs::read(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    match rungsheet::read::open(&name, &bytes) {
        Ok(text) => {
            let (build, mut findings) = rungsheet::read::read(&text, Tables::builtin());
            if let Some(build) = build {
                findings.extend(rungsheet::derive::derive(&build).1);
            }
            let seen = seen(&text, &findings);
            (findings, seen)
        }
        Err(finding) => {
            let findings = vec![*finding];
            let seen = seen(&Text::new(name, ""), &findings);
            (findings, seen)
        }
    }
}

/// Findings as the terminal draws them.
pub fn seen(text: &Text, findings: &[Finding]) -> String {
    format!("{}{}\n", drawn(text, findings, Look::default()), tally(findings))
}

/// Compares with the `.txt` beside a file, or rewrites it where `REWRITE` is set. Gives what
/// differs.
pub fn differs(path: &Path, shown: &str) -> Option<String> {
    let expected = path.with_extension("txt");
    if std::env::var_os("REWRITE").is_some() {
        std::fs::write(&expected, shown)
            .unwrap_or_else(|error| panic!("{}: {error}", expected.display()));
        return None;
    }
    let before = std::fs::read_to_string(&expected).unwrap_or_default();
    if before == shown {
        return None;
    }
    let mut told = format!("{} differs (REWRITE=1 writes it anew)\n", expected.display());
    for (number, (old, new)) in before.lines().zip(shown.lines()).enumerate() {
        if old != new {
            write!(told, "  line {}\n  - {old}\n  + {new}\n", number + 1)
                .expect("a String takes it");
            break;
        }
    }
    Some(told)
}
