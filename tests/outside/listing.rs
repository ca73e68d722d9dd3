//! The list of all checks against sources outside the project, `CHECKS.md` beside this file, is written from the
//! tests themselves: `REWRITE=1 cargo test --test all outside::listing` writes it anew.

use crate::support::worked;
use rungsheet::source::Seen;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};

/// A test function with what its comments tell.
struct Check {
    topic: String,
    name: String,
    compared: usize,
    told: String,
}

/// A comment of at least this many letters can name a source.
const LEAST_COMMENT: usize = 20;

fn home() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/outside")
}

/// Files of one ending in the folder and its folders, by name.
fn files(folder: &Path, ending: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).expect("the folder is there") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            found.extend(files(&path, ending));
        } else if path.extension().is_some_and(|end| end == ending) {
            found.push(path);
        }
    }
    found.sort();
    found
}

/// Words of a comment line, whatever its kind.
fn comment(line: &str) -> Option<&str> {
    let line = line.trim_start();
    ["//! ", "/// ", "// "].iter().find_map(|mark| line.strip_prefix(mark))
}

/// Calls that compare: those of every test, and functions beside the checks that use them.
fn comparing(texts: &[(String, String)]) -> Vec<String> {
    let mut calls = vec!["near(".to_owned(), "assert!(".to_owned(), "assert_eq!(".to_owned()];
    for (_, text) in texts {
        let lines: Vec<&str> = text.lines().collect();
        for (at, line) in lines.iter().enumerate() {
            let Some((name, rest)) = line.strip_prefix("fn ").and_then(|rest| rest.split_once('('))
            else {
                continue;
            };
            let mut body = lines[at..].iter().take_while(|line| **line != "}");
            if !rest.starts_with(')')
                && body.any(|line| calls[..3].iter().any(|call| line.contains(call.as_str())))
            {
                calls.push(format!("{name}("));
            }
        }
    }
    calls
}

/// The test functions of a file. What stands in comments above them, inside them, or above a constant that they
/// name is what they tell.
fn checks(topic: &str, text: &str, calls: &[String]) -> Vec<Check> {
    let lines: Vec<&str> = text.lines().collect();
    let above = |at: usize| {
        let mut first = at;
        while first > 0
            && (comment(lines[first - 1]).is_some() || lines[first - 1].starts_with('#'))
        {
            first -= 1;
        }
        lines[first..at].iter().filter_map(|line| comment(line)).collect::<Vec<_>>().join(" ")
    };
    let mut constants = Vec::new();
    for (at, line) in lines.iter().enumerate() {
        if let Some(name) = line.strip_prefix("const ").and_then(|rest| rest.split(':').next()) {
            constants.push((name, above(at)));
        }
    }
    let mut found = Vec::new();
    for (at, line) in lines.iter().enumerate() {
        let Some(name) = line.strip_prefix("fn ").and_then(|rest| rest.strip_suffix("() {")) else {
            continue;
        };
        if !lines[..at]
            .iter()
            .rev()
            .take_while(|line| !line.is_empty())
            .any(|line| *line == "#[test]")
        {
            continue;
        }
        let body: Vec<&str> =
            lines[at + 1..].iter().take_while(|line| **line != "}").copied().collect();
        let mut told = vec![above(at)];
        told.extend(body.iter().filter_map(|line| comment(line)).map(str::to_owned));
        for (constant, words) in &constants {
            if body.iter().any(|line| line.contains(constant)) {
                told.push(words.clone());
            }
        }
        let compared = body
            .iter()
            .filter(|line| calls.iter().any(|call| line.contains(call.as_str())))
            .count();
        found.push(Check {
            topic: topic.to_owned(),
            name: name.to_owned(),
            compared,
            told: told.into_iter().filter(|words| !words.is_empty()).collect::<Vec<_>>().join(" "),
        });
    }
    found
}

fn all() -> Vec<Check> {
    let home = home();
    let texts: Vec<(String, String)> = files(&home, "rs")
        .into_iter()
        .filter(|path| !path.ends_with("listing.rs"))
        .map(|path| {
            let place = path.strip_prefix(&home).expect("it lies in the folder").with_extension("");
            let text = std::fs::read_to_string(&path).expect("source is text");
            (place.to_string_lossy().replace('\\', "/"), text)
        })
        .collect();
    let calls = comparing(&texts);
    texts.iter().flat_map(|(topic, text)| checks(topic, text, &calls)).collect()
}

/// Standards, laws and handbooks that a text names by letters and a number: `EN 1993-1-8`, `33 CFR 183.455`.
fn named(text: &str) -> BTreeSet<String> {
    let words: Vec<&str> = text
        .split_whitespace()
        .map(|word| word.trim_matches(|c: char| !c.is_alphanumeric()))
        .collect();
    let mut found = BTreeSet::new();
    for pair in words.windows(2) {
        let body = pair[0].split('-').next().unwrap_or_default();
        let issuer = (2..=5).contains(&body.len()) && body.chars().all(|c| c.is_ascii_uppercase());
        let number = pair[1].split(':').next().unwrap_or_default();
        let numbered =
            number.chars().next().is_some_and(|c| c.is_ascii_digit() || c == 'B' || c == 'Y')
                && number.chars().any(|c| c.is_ascii_digit());
        if issuer && numbered && ISSUERS.contains(&body) {
            found.insert(format!("{} {}", pair[0], number));
        }
    }
    for word in words {
        if ["NASA-", "MIL-", "FAA-", "STD-", "TM-"].iter().any(|start| word.starts_with(start)) {
            found.insert(word.to_owned());
        }
        if LIBRARIES.contains(&word) {
            found.insert(word.to_owned());
        }
    }
    found
}

/// Bodies whose documents are named by number.
const ISSUERS: &[&str] = &[
    "EN", "ISO", "DIN", "IEC", "ASTM", "ASME", "SAE", "ASCE", "CFR", "AC", "NSTS", "TM", "MIL",
    "VDI", "HSE", "NEC", "UN", "UL", "NDS", "BS",
];

/// Libraries whose results are stored or written out.
const LIBRARIES: &[&str] =
    &["psychrolib", "scipy", "shapely", "sectionproperties", "pvlib", "pint", "networkx", "numpy"];

/// How well the sources are known, by the words of the comment.
fn seen(told: &str) -> &'static str {
    let told = told.to_lowercase();
    match (told.contains("memory"), told.contains("common practice")) {
        (true, true) => "memory, common practice",
        (true, false) => "in part from memory",
        (false, true) => "common practice",
        (false, false) => "read or computed",
    }
}

fn cell(text: &str) -> String {
    text.replace('|', "/").replace('`', "")
}

fn list(checks: &[Check]) -> String {
    let mut topics: BTreeMap<&str, Vec<&Check>> = BTreeMap::new();
    for check in checks {
        topics.entry(&check.topic).or_default().push(check);
    }
    let sources: BTreeSet<String> = checks.iter().flat_map(|check| named(&check.told)).collect();
    let compared: usize = checks.iter().map(|check| check.compared).sum();
    let mut text = format!(
        "# Checks against sources outside the project\n\n\
         Written by `REWRITE=1 cargo test --test all outside::listing`. {} test functions with {compared} comparisons; one \
         in a loop counts once, however many rows of a table it compares. {} sources are named by number or library.\n\n",
        checks.len(),
        sources.len()
    );
    text.push_str("| topic | functions | comparisons |\n|---|---:|---:|\n");
    for (topic, checks) in &topics {
        let compared: usize = checks.iter().map(|check| check.compared).sum();
        let _ = writeln!(text, "| {topic} | {} | {compared} |", checks.len());
    }
    text.push_str(
        "\n## Values stored from libraries\n\n| table | rows | made by |\n|---|---:|---|\n",
    );
    for path in files(&home(), "csv") {
        let table = std::fs::read_to_string(&path).expect("a table is text");
        let mut lines = table.lines();
        let maker = lines
            .next()
            .unwrap_or_default()
            .trim_start_matches("# ")
            .trim_start_matches("made by ")
            .to_owned();
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let _ =
            writeln!(text, "| {name} | {} | {} |", lines.count().saturating_sub(1), cell(&maker));
    }
    for (topic, checks) in &topics {
        let _ = write!(text, "\n## {topic}\n\n| check | source | seen |\n|---|---|---|\n");
        for check in checks {
            let name = check.name.replace('_', " ");
            let _ = writeln!(text, "| {name} | {} | {} |", cell(&check.told), seen(&check.told));
        }
    }
    text.push_str(&figures(&sources));
    text
}

/// The sources that the packets of the examples name, and whether a check here names the same.
fn figures(sources: &BTreeSet<String>) -> String {
    let mut told: BTreeMap<(String, &'static str), (usize, String)> = BTreeMap::new();
    for path in files(&Path::new(env!("CARGO_MANIFEST_DIR")).join("examples"), "toml") {
        let work = worked(&std::fs::read_to_string(path).expect("an example is text"));
        for figure in &work.results.ledger {
            let entry = told
                .entry((figure.source.clone(), figure.seen.name()))
                .or_insert_with(|| (0, figure.id.clone()));
            entry.0 += 1;
        }
    }
    let mut text = "\n## What the packets of the examples say of their figures\n\n\
        `named here`: a check above names the same standard or law. A figure that follows from others, or is stated in \
        the build file, has no source of its own to check.\n\n\
        | source in the packet | seen | figures | such as | named here |\n|---|---|---:|---|---|\n"
        .to_owned();
    for ((source, seen), (count, example)) in &told {
        let names = named(source);
        let here = if names.is_empty() {
            if *seen == Seen::Computed.name() || *seen == Seen::DataSheet.name() {
                "–"
            } else {
                "names no document"
            }
        } else if names.iter().any(|name| {
            sources
                .iter()
                .any(|one| one.starts_with(name.as_str()) || name.starts_with(one.as_str()))
        }) {
            "yes"
        } else {
            "**no check**"
        };
        let _ = writeln!(text, "| {} | {seen} | {count} | `{example}` | {here} |", cell(source));
    }
    text
}

#[test]
fn every_check_tells_its_source() {
    let checks = all();
    let silent: Vec<String> = checks
        .iter()
        .filter(|check| check.told.chars().count() < LEAST_COMMENT)
        .map(|check| format!("{}::{}", check.topic, check.name))
        .collect();
    assert!(silent.is_empty(), "a check without its source beside it: {silent:?}");
    let idle: Vec<&str> = checks
        .iter()
        .filter(|check| check.compared == 0)
        .map(|check| check.name.as_str())
        .collect();
    assert!(idle.is_empty(), "a check that compares nothing: {idle:?}");
}

#[test]
fn the_list_is_that_of_the_tests() {
    let path = home().join("CHECKS.md");
    let text = list(&all());
    if std::env::var_os("REWRITE").is_some() {
        std::fs::write(&path, &text).expect("the list can be written");
    }
    let stored = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(stored == text, "CHECKS.md is old: REWRITE=1 cargo test --test all outside::listing");
}

#[test]
fn documents_are_found_in_words() {
    let found = named(
        "By EN 1993-1-8:2005, table 3.4, and 33 CFR 183.455; from psychrolib 2.5.0, as NASA-STD-5020B says",
    );
    let wanted = ["CFR 183.455", "EN 1993-1-8", "NASA-STD-5020B", "psychrolib"];
    assert_eq!(found.iter().map(String::as_str).collect::<Vec<_>>(), wanted);
    assert!(named("ON 3 May A4 PAPER 12").is_empty());
}
