//! What several tests share: finding fixtures, reading them, and comparing exact output.

use rungsheet::build::Build;
use rungsheet::compute::Results;
use rungsheet::derive::Work;
use rungsheet::sheets::Basis;
use rungsheet::source::{Finding, Text, sort};
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
            if ["\nmaterials = ", "\ntemplates = "].iter().any(|key| text.contents().contains(key))
            {
                return with_own_tables(path);
            }
            let tables = Tables::builtin();
            let (build, mut findings) = rungsheet::read::read(&text, tables);
            if let Some(build) = build {
                let (work, more) = rungsheet::derive::derive(&build);
                findings.extend(more);
                findings.extend(rungsheet::compute::compute(&build, &work, tables).1);
                let folder = path.parent().expect("a file is in a folder");
                let files = rungsheet::cli::photo_files(&build, folder);
                findings.extend(rungsheet::compute::photos::photos(&build, &files).1);
                sort(&mut findings);
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

/// The same for a file that names a folder of its own tables beside it.
fn with_own_tables(path: &Path) -> (Vec<Finding>, String) {
    let folder = path.parent().expect("it lies in a folder");
    let (mut all, mut told) = (Vec::new(), String::new());
    for (text, findings) in rungsheet::cli::judged(path).expect("it can be read") {
        let name = Path::new(text.name()).strip_prefix(folder).expect("it lies beside it");
        let text = Text::new(name.display().to_string(), text.contents());
        told += &drawn(&text, &findings, Look::default());
        all.extend(findings);
    }
    let tally = tally(&all);
    (all, format!("{told}{tally}\n"))
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

/// A build with all that follows from it.
pub struct Worked {
    pub text: Text,
    pub build: Build,
    pub work: Work,
    pub results: Results,
    pub findings: Vec<Finding>,
}

impl Worked {
    /// What its packet is made from.
    pub fn basis(&self) -> Basis<'_> {
        Basis {
            build: &self.build,
            work: &self.work,
            results: &self.results,
            findings: &self.findings,
            text: &self.text,
            bytes: self.text.contents().as_bytes(),
            beside: &[],
        }
    }

    /// The value of a figure.
    pub fn figure(&self, id: &str) -> f64 {
        let known = || self.results.ledger.iter().map(|figure| figure.id.as_str());
        self.results.ledger.get(id).map_or_else(
            || panic!("no figure {id} among {:?}", known().collect::<Vec<_>>()),
            |figure| figure.value,
        )
    }

    /// The findings of a code.
    pub fn raised(&self, code: &str) -> Vec<&Finding> {
        self.findings.iter().filter(|finding| finding.rule.code == code).collect()
    }
}

/// Runs every stage over a build file's text.
pub fn worked(contents: &str) -> Worked {
    worked_with(contents, |_| ())
}

/// The same, with the build changed before it is worked out.
pub fn worked_with(contents: &str, change: impl FnOnce(&mut Build)) -> Worked {
    let tables = Tables::builtin();
    let text = Text::new("build.toml", contents);
    let (build, found) = rungsheet::read::read(&text, tables);
    let mut build = build.unwrap_or_else(|| panic!("it cannot be read: {found:#?}"));
    change(&mut build);
    let (work, mut findings) = rungsheet::derive::derive(&build);
    let (results, more) = rungsheet::compute::compute(&build, &work, tables);
    findings.extend(more);
    Worked { text, build, work, results, findings }
}

/// Within a share of the expected value.
pub fn near(found: f64, expected: f64, share: f64, what: &str) {
    assert!((found - expected).abs() <= expected.abs() * share, "{what}: {found}, not {expected}");
}
