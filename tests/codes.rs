//! Every code has a build file that raises it, with exactly what the user sees.

use crate::support::{build_files, differs, seen, shown};
use rungsheet::findings;
use rungsheet::source::{Finding, Text};
use std::path::Path;

/// Codes whose example is made here because a file of it would only burden the repository.
const MADE: &[&str] = &["F002", "F020"];

/// Codes that only a search of many seconds raises: it ended before its proof. Tests beside their
/// rules hold what they say.
const SLOW: &[&str] = &["C005", "T202"];

#[test]
fn every_code_has_a_build_file_that_raises_it() {
    let files = build_files("findings");
    let stem = |path: &Path| path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    let mut faults = Vec::new();
    for rule in findings::all().iter().filter(|rule| ![MADE, SLOW].concat().contains(&rule.code)) {
        let wanted = format!("{}-{}", rule.code, rule.name);
        let Some(path) = files.iter().find(|path| stem(path) == wanted) else {
            faults.push(format!("tests/findings/{wanted}.toml is missing"));
            continue;
        };
        let (found, text) = shown(path);
        if !found.iter().any(|finding| finding.rule == *rule) {
            faults.push(format!("{wanted}.toml does not raise {}:\n{text}", rule.code));
        }
        faults.extend(differs(path, &text));
    }
    for path in &files {
        let known =
            findings::all().iter().any(|rule| stem(path) == format!("{}-{}", rule.code, rule.name));
        if !known {
            faults.push(format!("{} is for no rule", path.display()));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn a_file_of_fifty_megabytes_is_refused_before_it_is_read() {
    let bytes = vec![b'#'; 50 << 20];
    let finding: Finding =
        *rungsheet::read::open("film.toml", &bytes).expect_err("it is too large");
    assert_eq!(finding.rule.code, "F002");
    let told = seen(&Text::new("film.toml", ""), &[finding]);
    assert_eq!(
        told,
        "stop[F002]: the file holds 50.0 MiB; a build file holds at most 1 MiB\n\
         --> film.toml\n \
         = it means: nothing in the file was read\n \
         = help: check the name of the file: a build file is a short text that ends in .toml\n\n\
         1 stop\n"
    );
}

#[test]
fn what_the_user_sees_is_never_a_bare_statement() {
    for path in build_files("findings") {
        for finding in shown(&path).0 {
            let code = finding.rule.code;
            assert!(finding.means.is_some(), "{code}: what it means");
            assert!(!finding.helps.is_empty(), "{code}: what to change");
            let first = finding.message.chars().next().expect("a message has words");
            assert!(!first.is_uppercase(), "{code}: {}", finding.message);
            assert!(!finding.message.ends_with('.'), "{code}: {}", finding.message);
        }
    }
}

#[test]
fn of_hundreds_of_findings_the_first_are_listed_and_the_rest_counted() {
    let lines =
        (1..=350).fold(String::new(), |lines, n| lines + &format!("worker-{n} = \"present\"\n"));
    let text = Text::new("crew.toml", format!("[crew]\n{lines}"));
    let (build, found) = rungsheet::read::read(&text, rungsheet::tables::Tables::builtin());
    assert!(build.is_none());
    let last = found.last().expect("there are findings");
    assert_eq!(last.rule.code, "F020");
    assert_eq!(found.len(), 101);
    // All keys, the missing format and the missing job, less the hundred that are listed.
    assert_eq!(last.message, "252 further findings are not listed");
}
